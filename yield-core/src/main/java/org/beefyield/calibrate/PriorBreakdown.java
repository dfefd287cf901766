package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.IntStream;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.carcass.Category;
import org.beefyield.grid.Breakdown;
import org.beefyield.grid.CoefficientLoadings;
import org.beefyield.grid.CompiledTable;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SharedBy;
import org.jspecify.annotations.Nullable;

/** What the prior table says of a breakdown that was weighed, and how sure it is of that. */
final class PriorBreakdown {
    final WeighedBreakdown weighed;
    private final YieldTable table;
    private final CompiledTable compiled;
    final List<Category> served;
    private final int columns;

    /**
     * One independent error behind coefficients.
     *
     * @param name what makes it the same one in another breakdown
     * @param own whether only some categories have it
     * @param columns columns that it moves
     * @param ofCategory by category, columns by children, g/kg per SD
     */
    record Draw(List<Object> name, boolean own, List<Integer> columns, Map<Category, double[][]> ofCategory) {}

    PriorBreakdown(WeighedBreakdown weighed, YieldTable table) {
        this.weighed = weighed;
        this.table = table;
        this.compiled = table.unwrap(CompiledTable.class);
        this.columns = table.definition().coefficientColumns().size();
        this.served = table.definition().categories().stream()
                .filter(category -> breakdown(category) != null)
                .toList();
    }

    private @Nullable Breakdown breakdown(Category category) {
        return compiled.breakdowns(category)
                .getOrDefault(weighed.parent(), Map.of())
                .get(weighed.way());
    }

    /** The row for a child, the most specific that serves a category. */
    @Nullable
    BreakdownRow row(Category category, int child) {
        BreakdownRow best = null;
        for (BreakdownRow row : weighed.tableRows()) {
            if (row.cut().equals(weighed.children().get(child).code())
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

    /** Coefficients for a category, terms by children, closed as the table closes them. */
    double[][] coefficients(Category category) {
        int children = weighed.children().size();
        double[][] prior = new double[columns][children];
        for (int k = 0; k < children; k++) {
            BreakdownRow row = row(category, k);
            for (int j = 0; j < columns && row != null; j++) {
                prior[j][k] = row.coefficients().get(j);
            }
        }
        double levels = sum(prior[0]);
        for (int j = columns - 1; j >= 0; j--) {
            double off = sum(prior[j]) - (j == 0 ? 1000 : 0);
            for (int k = 0; k < children; k++) {
                prior[j][k] -= off * prior[0][k] / levels;
            }
        }
        return prior;
    }

    /** The independent errors behind the coefficients, in an order of their own; none if the table states none. */
    List<Draw> draws() {
        Map<List<Object>, Map<Category, double[][]>> byDraw = new LinkedHashMap<>();
        for (Category category : served) {
            for (CoefficientLoadings.Loading loading : compiled.loadings(category, weighed.parent(), weighed.way())) {
                byDraw.computeIfAbsent(List.of(loading.draw(), loading.place()), key -> new LinkedHashMap<>())
                        .put(category, ofChildren(category, loading.ofCoefficients()));
            }
        }
        List<Draw> draws = new ArrayList<>();
        byDraw.forEach((name, ofCategory) -> {
            List<Integer> moved = IntStream.range(0, columns)
                    .filter(column -> ofCategory.values().stream()
                            .anyMatch(
                                    of -> IntStream.range(0, of[column].length).anyMatch(k -> of[column][k] != 0)))
                    .boxed()
                    .toList();
            draws.add(new Draw(name, ofCategory.size() < served.size(), moved, ofCategory));
        });
        return draws;
    }

    /** Whether the table states the SDs of the errors that carcasses have in common. */
    boolean states(SharedBy by) {
        return table.states(by);
    }

    /**
     * From an unknown that moves levels to one that moves all terms with them, each child in proportion but for the largest.
     *
     * @param ofLevels by category, columns by children
     * @param bend part of the way
     */
    Map<Category, double[][]> bent(Map<Category, double[][]> ofLevels, double bend) {
        Map<Category, double[][]> moved = new LinkedHashMap<>();
        ofLevels.forEach((one, levels) -> {
            double[][] before = coefficients(one);
            int largest = 0;
            for (int k = 1; k < before[0].length; k++) {
                largest = before[0][k] > before[0][largest] ? k : largest;
            }
            double[][] all = new double[levels.length][levels[0].length];
            for (int j = 0; j < all.length; j++) {
                for (int k = 0; k < all[j].length; k++) {
                    if (k != largest) {
                        double times = before[0][k] > 0 ? before[j][k] / before[0][k] : 0;
                        all[j][k] = levels[j][k] + (j == 0 ? 0 : bend * levels[0][k] * times);
                        all[j][largest] -= all[j][k];
                    }
                }
            }
            moved.put(one, all);
        });
        return moved;
    }

    /** From the children of the category's breakdown to those of all. */
    private double[][] ofChildren(Category category, double[][] ofCategory) {
        int[] places = places(category);
        double[][] all = new double[columns][weighed.children().size()];
        for (int column = 0; column < columns; column++) {
            for (int k = 0; k < places.length; k++) {
                all[column][places[k]] = ofCategory[column][k];
            }
        }
        return all;
    }

    private int[] places(Category category) {
        Breakdown own = breakdown(category);
        return own == null
                ? new int[0]
                : own.children().stream()
                        .mapToInt(child -> weighed.children().indexOf(child))
                        .toArray();
    }

    /** Covariance of the children between carcasses, or of what they have in common, (g/kg)². */
    double[][] covariance(Category category, @Nullable SharedBy by) {
        int children = weighed.children().size();
        double[][] all = new double[children][children];
        Breakdown own = breakdown(category);
        if (own != null) {
            int[] places = places(category);
            double[][] ofCategory = compiled.covariance(category, weighed.parent(), weighed.way(), by);
            for (int k = 0; k < places.length; k++) {
                for (int l = 0; l < places.length; l++) {
                    all[places[k]][places[l]] = ofCategory[k][l];
                }
            }
        }
        return all;
    }

    /** What stands for a category in figures that have every category served. */
    static <T> T of(Map<Category, T> figures, Category category) {
        return Objects.requireNonNull(figures.get(category), () -> "category " + category);
    }

    private static double sum(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum;
    }
}
