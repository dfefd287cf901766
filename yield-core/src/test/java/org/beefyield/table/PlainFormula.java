package org.beefyield.table;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiConsumer;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;

/**
 * The formula of a table in plain loops over its rows, for any grade and weight, without a grid: what the product's own
 * multiplication is checked against. It shares nothing with it but the definition.
 */
public final class PlainFormula {
    /** The key under which the last level holds the fat in its lean trim. */
    public static final String FAT_IN_LEAN_TRIM = "fat in lean trim";

    private PlainFormula() {}

    /**
     * Fraction of the cold weight of every cut at every level.
     *
     * @param ways way by parent; parents left out have none
     * @return by level, by code of cut
     */
    public static Map<String, Map<String, Double>> shares(
            TableDefinition table, Category category, Map<String, String> ways, double c, double f, double w) {
        Map<String, Map<String, Double>> byLevel = new LinkedHashMap<>();
        Map<String, Double> standing = Map.of("carcass", 1.0);
        double fat = 0;
        for (int level = 0; level < table.levels().size(); level++) {
            Map<String, Double> next = new LinkedHashMap<>();
            for (Map.Entry<String, Double> parent : standing.entrySet()) {
                Map<String, BreakdownRow> rows = rows(table, category, parent.getKey(), ways.get(parent.getKey()));
                if (rows.isEmpty() || levelOf(table, parent.getKey()) != level - 1) {
                    next.merge(parent.getKey(), parent.getValue(), Double::sum);
                    continue;
                }
                for (BreakdownRow row : rows.values()) {
                    double share = parent.getValue() * share(table, row, c, f, w);
                    next.merge(row.cut(), share, Double::sum);
                    fat += share * fatOfLeanTrim(table, row);
                }
            }
            byLevel.put(table.levels().get(level), new LinkedHashMap<>(next));
            standing = next;
        }
        // lean trim is broken down no further in any table of the tests, so all that ever came out is still there
        byLevel.get(table.levels().get(table.levels().size() - 1)).put(FAT_IN_LEAN_TRIM, fat);
        return byLevel;
    }

    /**
     * Every path of rows from the carcass to a cut of the last level, one row for each time that something is broken down, with
     * the fraction of the cold weight that comes down it.
     *
     * @param ways way by parent; parents left out have none
     */
    public static void paths(
            TableDefinition table,
            Category category,
            Map<String, String> ways,
            double c,
            double f,
            double w,
            BiConsumer<List<BreakdownRow>, Double> taker) {
        follow(table, category, ways, new double[] {c, f, w}, BreakdownRow.ROOT, 0, List.of(), 1, taker);
    }

    private static void follow(
            TableDefinition table,
            Category category,
            Map<String, String> ways,
            double[] at,
            String parent,
            int level,
            List<BreakdownRow> above,
            double fraction,
            BiConsumer<List<BreakdownRow>, Double> taker) {
        if (level == table.levels().size()) {
            taker.accept(above, fraction);
            return;
        }
        Map<String, BreakdownRow> rows = rows(table, category, parent, ways.get(parent));
        if (rows.isEmpty() || levelOf(table, parent) != level - 1) {
            follow(table, category, ways, at, parent, level + 1, above, fraction, taker);
            return;
        }
        for (BreakdownRow row : rows.values()) {
            List<BreakdownRow> path = new ArrayList<>(above);
            path.add(row);
            double share = share(table, row, at[0], at[1], at[2]);
            follow(table, category, ways, at, row.cut(), level + 1, path, fraction * share, taker);
        }
    }

    private static double fatOfLeanTrim(TableDefinition table, BreakdownRow row) {
        Cut child = cut(table, row.cut());
        if (child.kind() != CutKind.LEAN_TRIM) {
            return 0;
        }
        Double ofParent =
                row.parent().equals("carcass") ? null : cut(table, row.parent()).fatPct();
        Double pct = ofParent == null ? child.fatPct() : ofParent;
        return pct == null ? 0 : pct / 100;
    }

    private static Cut cut(TableDefinition table, String code) {
        return table.cuts().stream()
                .filter(cut -> cut.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    private static int levelOf(TableDefinition table, String code) {
        return code.equals("carcass")
                ? -1
                : table.levels().indexOf(cut(table, code).level());
    }

    /** The most specific row of each child. */
    private static Map<String, BreakdownRow> rows(TableDefinition table, Category category, String parent, String way) {
        Map<String, BreakdownRow> best = new LinkedHashMap<>();
        for (BreakdownRow row : table.breakdown()) {
            boolean serves = row.parent().equals(parent)
                    && (row.category().equals("*") || row.category().contains(category.letter()))
                    && (row.way().equals("*") || row.way().equals(way));
            if (serves && (!best.containsKey(row.cut()) || stars(row) < stars(best.get(row.cut())))) {
                best.put(row.cut(), row);
            }
        }
        return best;
    }

    private static int stars(BreakdownRow row) {
        return (row.category().equals("*") ? 1 : 0) + (row.way().equals("*") ? 1 : 0);
    }

    /** Share of the parent as the table writes it down. */
    static double share(TableDefinition table, BreakdownRow row, double c, double f, double w) {
        double dc = c - table.reference().conformation();
        double df = f - table.reference().fat();
        double dw = (w - table.reference().weightKg()) / 100;
        double grams = row.coefficients().get(0)
                + row.coefficients().get(1) * dc
                + row.coefficients().get(2) * df
                + row.coefficients().get(3) * dw;
        for (int i = 0; i < table.terms().size(); i++) {
            grams += row.coefficients().get(4 + i) * term(table.terms().get(i), c, f, dc, df, dw);
        }
        return grams / 1000;
    }

    private static double term(Term term, double c, double f, double dc, double df, double dw) {
        if (term instanceof Term.Hinge hinge) {
            double x = hinge.variable() == Variable.CONFORMATION ? c : f;
            return hinge.side() == Term.Side.ABOVE ? Math.max(0, x - hinge.knot()) : Math.max(0, hinge.knot() - x);
        }
        Term.Product product = (Term.Product) term;
        return of(product.first(), dc, df, dw) * of(product.second(), dc, df, dw);
    }

    private static double of(Variable variable, double dc, double df, double dw) {
        return switch (variable) {
            case CONFORMATION -> dc;
            case FAT -> df;
            case WEIGHT -> dw;
        };
    }
}
