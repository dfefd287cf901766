package org.beefyield.grid;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.beefyield.cut.Cut;
import org.beefyield.table.definition.BreakdownRow;
import org.jspecify.annotations.Nullable;

/** The breakdowns of one category in one choice of ways, each where it follows, with the numbers of their errors. Immutable. */
final class BreakdownTree {
    private final YieldGrid grid;

    private final int levels;
    private final int cutCount;
    /** By level and cut, its slot there or -1. */
    private final int[][] slot;
    /** By level and cut, the number of the breakdown that follows or -1 if it stays. */
    private final int[][] due;
    /** Breakdowns from the last level up, that of the carcass at the end. */
    private final List<Link> links = new ArrayList<>();

    private final CoefficientShares formula;
    private final DrawNumbers numbers;
    private final int coefficients;

    /** A breakdown in its place. */
    static final class Link {
        final Breakdown breakdown;
        /** Fat content of the lean trim that each child is and that lasts to the end, fraction. */
        final double[] leanTrimFat;
        /** Its number among the draws of a lot, a run or a hall, and where its children's errors stand there. */
        final int number;

        final int[] places;
        final List<CoefficientErrors> coefficients;

        Link(
                Breakdown breakdown,
                double[] leanTrimFat,
                int number,
                int[] places,
                List<CoefficientErrors> coefficients) {
            this.breakdown = breakdown;
            this.leanTrimFat = leanTrimFat;
            this.number = number;
            this.places = places;
            this.coefficients = coefficients;
        }
    }

    BreakdownTree(
            TableLayout layout,
            List<Cut> cuts,
            YieldGrid grid,
            Map<String, Breakdown> breakdowns,
            CoefficientShares formula,
            DrawNumbers numbers,
            int coefficients) {
        this.grid = grid;
        this.formula = formula;
        this.numbers = numbers;
        this.coefficients = coefficients;
        this.levels = layout.levels().size();
        this.cutCount = cuts.size();
        this.slot = new int[levels][cutCount];
        this.due = new int[levels][cutCount];
        for (int level = levels - 1; level >= 0; level--) {
            for (int i = 0; i < cutCount; i++) {
                Cut cut = cuts.get(i);
                slot[level][i] = layout.find(level, cut.code());
                Breakdown breakdown = breakdowns.get(cut.code());
                boolean follows = level < levels - 1 && layout.levelIndex(cut.level()) == level;
                due[level][i] = -1;
                if (follows && breakdown != null) {
                    due[level][i] = links.size();
                    links.add(link(cut, breakdown, level + 1));
                }
            }
        }
        Breakdown first = breakdowns.get(BreakdownRow.ROOT);
        if (first == null) {
            throw new IllegalArgumentException("a table breaks the carcass down");
        }
        links.add(link(null, first, 0));
    }

    private Link link(@Nullable Cut parent, Breakdown breakdown, int level) {
        double[] fat = new double[breakdown.children().size()];
        for (int k = 0; k < fat.length; k++) {
            Double fatPct = YieldGrid.fatOfLeanTrim(parent, breakdown.children().get(k));
            boolean lasts = true;
            for (int l = level; l < levels; l++) {
                lasts &= due[l][breakdown.indexes[k]] < 0;
            }
            fat[k] = fatPct != null && lasts ? fatPct / 100 : 0;
        }
        int number = numbers.ofBreakdown(breakdown);
        List<CoefficientErrors> ofCoefficients = breakdown.coefficientErrors().stream()
                .map(error -> new CoefficientErrors(error, breakdown, numbers, formula, coefficients))
                .toList();
        return new Link(breakdown, fat, number, numbers.placesInBreakdown(number, breakdown), ofCoefficients);
    }

    YieldGrid grid() {
        return grid;
    }

    CoefficientShares formula() {
        return formula;
    }

    int levels() {
        return levels;
    }

    int cuts() {
        return cutCount;
    }

    int coefficients() {
        return coefficients;
    }

    int slot(int level, int cut) {
        return slot[level][cut];
    }

    int follows(int level, int cut) {
        return due[level][cut];
    }

    int root() {
        return links.size() - 1;
    }

    /** Breakdowns by number, that of the carcass last. */
    List<Link> links() {
        return links;
    }

    Link link(int number) {
        return links.get(number);
    }
}
