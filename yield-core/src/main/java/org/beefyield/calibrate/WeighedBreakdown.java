package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.TableDefinition;
import org.jspecify.annotations.Nullable;

/** A breakdown of a table in one way, and the trials that weighed it. */
final class WeighedBreakdown {
    private final TableDefinition definition;
    final String parent;
    final String way;
    /** Children in the table's order. */
    final List<Cut> children;
    /** What is weighed apart: one child, or the children of a group. */
    final List<Part> parts;

    final List<Row> rows = new ArrayList<>();

    /** Children that are weighed together, under the name of the one or of their group. */
    record Part(String name, List<Integer> members) {}

    /**
     * The breakdown of one carcass.
     *
     * @param trial the trial
     * @param shares by part, g per kg of parent
     */
    record Row(Trial trial, List<Double> shares) {}

    WeighedBreakdown(TableDefinition definition, String parent, String way, Map<String, List<String>> groups) {
        this.definition = definition;
        this.parent = parent;
        this.way = way;
        Set<String> codes = new LinkedHashSet<>();
        definition.breakdown().stream().filter(this::serves).forEach(row -> codes.add(row.cut()));
        this.children = definition.cuts().stream()
                .filter(cut -> codes.contains(cut.code()))
                .toList();
        Map<String, List<Integer>> byPart = new LinkedHashMap<>();
        for (int k = 0; k < children.size(); k++) {
            String code = children.get(k).code();
            String name = groups.entrySet().stream()
                    .filter(group -> group.getValue().contains(code))
                    .map(Map.Entry::getKey)
                    .findFirst()
                    .orElse(code);
            byPart.computeIfAbsent(name, key -> new ArrayList<>()).add(k);
        }
        this.parts = byPart.entrySet().stream()
                .map(entry -> new Part(entry.getKey(), List.copyOf(entry.getValue())))
                .toList();
    }

    private boolean serves(BreakdownRow row) {
        return row.parent().equals(parent)
                && (row.way().equals(way) || row.way().equals(BreakdownRow.ANY));
    }

    /** The part that is the loss alone, or -1. */
    int lossPart() {
        for (int i = 0; i < parts.size(); i++) {
            List<Integer> members = parts.get(i).members();
            if (members.size() == 1 && children.get(members.get(0)).kind() == CutKind.LOSS) {
                return i;
            }
        }
        return -1;
    }

    String name() {
        return parent + (way.equals(BreakdownRow.ANY) ? "" : ", " + way);
    }

    /** The row of the prior table for a child, the most specific that serves a category. */
    @Nullable
    BreakdownRow prior(Category category, int child) {
        BreakdownRow best = null;
        for (BreakdownRow row : definition.breakdown()) {
            if (serves(row)
                    && row.cut().equals(children.get(child).code())
                    && (row.category().equals(BreakdownRow.ANY)
                            || row.category().contains(category.letter()))
                    && (best == null || specificity(row) > specificity(best))) {
                best = row;
            }
        }
        return best;
    }

    private static int specificity(BreakdownRow row) {
        return (row.category().equals(BreakdownRow.ANY) ? 0 : 1) + (row.way().equals(BreakdownRow.ANY) ? 0 : 1);
    }

    /** Coefficients of the prior table for a category, terms by children, closed as the table closes them. */
    double[][] prior(Category category) {
        int columns = definition.coefficientColumns().size();
        double[][] prior = new double[columns][children.size()];
        for (int k = 0; k < children.size(); k++) {
            BreakdownRow row = prior(category, k);
            for (int j = 0; j < columns && row != null; j++) {
                prior[j][k] = row.coefficients().get(j);
            }
        }
        double levels = sum(prior[0]);
        for (int j = columns - 1; j >= 0; j--) {
            double off = sum(prior[j]) - (j == 0 ? 1000 : 0);
            for (int k = 0; k < children.size(); k++) {
                prior[j][k] -= off * prior[0][k] / levels;
            }
        }
        return prior;
    }

    private static double sum(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum;
    }
}
