package org.beefyield.data.testkit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;

/**
 * Shares of a parent worked out from the rows as they are written, by another way than the library's: the formula at a
 * grade and weight, and cells by interpolation at once. Rounding isn't taken off, so it is for exact figures.
 */
final class DirectShares {
    private static final List<Variable> VARIABLES = List.of(Variable.CONFORMATION, Variable.FAT, Variable.WEIGHT);

    private final TableDefinition definition;

    DirectShares(TableDefinition definition) {
        this.definition = definition;
    }

    /** A breakdown that some row gives: a parent in one way. */
    record Key(String parent, String way) {}

    /** Every parent in every way that it has. */
    List<Key> keys() {
        Map<String, TreeSet<String>> ways = new LinkedHashMap<>();
        definition
                .breakdown()
                .forEach(row -> ways.computeIfAbsent(row.parent(), parent -> new TreeSet<>())
                        .add(row.way()));
        definition
                .breakdownByClass()
                .forEach(row -> ways.computeIfAbsent(row.parent(), parent -> new TreeSet<>())
                        .add(row.way()));
        List<Key> keys = new ArrayList<>();
        ways.forEach((parent, its) -> {
            if (its.size() > 1) {
                its.remove(BreakdownRow.ANY);
            }
            its.forEach(way -> keys.add(new Key(parent, way)));
        });
        return keys;
    }

    /** A share in fractions of the parent. */
    interface Share {
        double at(double conformation, double fat, double weightKg);
    }

    /** The children of a breakdown for one category and their shares. */
    Map<String, Share> children(Category category, Key key) {
        Map<String, Share> children = new LinkedHashMap<>();
        best(definition.breakdown(), category, key, BreakdownRow::category, BreakdownRow::way, BreakdownRow::parent)
                .forEach(row -> children.put(row.cut(), (c, f, w) -> coefficients(row.coefficients(), c, f, w) / 1000));
        Map<String, List<ClassRow>> cells = new LinkedHashMap<>();
        best(definition.breakdownByClass(), category, key, ClassRow::category, ClassRow::way, ClassRow::parent)
                .forEach(row -> cells.computeIfAbsent(row.cut(), cut -> new ArrayList<>())
                        .add(row));
        cells.forEach((cut, rows) -> {
            // a less specific row of the same cell comes first and is overwritten
            Map<Double, Map<Double, Double>> values = new LinkedHashMap<>();
            rows.forEach(row -> values.computeIfAbsent(
                            Conformation.parse(row.conformation()).position(), c -> new LinkedHashMap<>())
                    .put(FatClass.parse(row.fatClass()).position(), row.gPerKg()));
            Map<List<Double>, Double> known = new HashMap<>();
            children.put(
                    cut,
                    (c, f, w) -> known.computeIfAbsent(
                            List.of(c, f), at -> along(values, c, column -> along(column, f, value -> value)) / 1000));
        });
        return children;
    }

    /** Rows that serve a category and way, the most specific last. */
    private static <T> List<T> best(
            List<T> rows,
            Category category,
            Key key,
            Function<T, String> letters,
            Function<T, String> way,
            Function<T, String> parent) {
        return rows.stream()
                .filter(row -> parent.apply(row).equals(key.parent()))
                .filter(row -> way.apply(row).equals(BreakdownRow.ANY)
                        || way.apply(row).equals(key.way()))
                .filter(row -> letters.apply(row).equals(BreakdownRow.ANY)
                        || letters.apply(row).contains(category.letter()))
                .sorted(Comparator.comparingInt(row -> (letters.apply(row).equals(BreakdownRow.ANY) ? 0 : 1)
                        + (way.apply(row).equals(BreakdownRow.ANY) ? 0 : 1)))
                .toList();
    }

    private double coefficients(List<Double> coefficients, double c, double f, double w) {
        ReferencePoint reference = definition.reference();
        double[] from = {c - reference.conformation(), f - reference.fat(), (w - reference.weightKg()) / 100};
        double share = coefficients.get(0);
        for (int j = 0; j < from.length; j++) {
            share += coefficients.get(1 + j) * from[j];
        }
        for (int j = 0; j < definition.terms().size(); j++) {
            Term term = definition.terms().get(j);
            double value;
            if (term instanceof Term.Product product) {
                value = from[VARIABLES.indexOf(product.first())] * from[VARIABLES.indexOf(product.second())];
            } else {
                Term.Hinge hinge = (Term.Hinge) term;
                double x = hinge.variable() == Variable.FAT ? f : c;
                value = Math.max(0, hinge.side() == Term.Side.BELOW ? hinge.knot() - x : x - hinge.knot());
            }
            share += coefficients.get(4 + j) * value;
        }
        return share;
    }

    /** Linear between the two class middles nearest to a position, and beyond the outer ones. */
    private static <T> double along(Map<Double, T> values, double position, ToDoubleFunction<T> value) {
        List<Double> middles = values.keySet().stream().sorted().toList();
        if (middles.size() == 1) {
            return value.applyAsDouble(values.get(middles.get(0)));
        }
        int right = 1;
        while (right < middles.size() - 1 && middles.get(right) < position) {
            right++;
        }
        double a = middles.get(right - 1);
        double b = middles.get(right);
        double atA = value.applyAsDouble(values.get(a));
        double atB = value.applyAsDouble(values.get(b));
        return atA + (atB - atA) * (position - a) / (b - a);
    }
}
