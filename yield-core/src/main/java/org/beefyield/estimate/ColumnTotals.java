package org.beefyield.estimate;

import java.util.Arrays;
import java.util.List;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.table.YieldGrid;

/**
 * Sums carcasses in columns up, at about the cost of reading them: in plain arrays by category and node, block by block,
 * before they join the lot's power sums, which carry their rounding.
 */
final class ColumnTotals {
    /** Rows to a block: so few that a plain sum loses next to nothing, so many that joining costs next to nothing. */
    private static final int BLOCK = 1 << 16;

    private static final int CONFORMATION_NODES = 18;
    private static final int FAT_NODES = 15;

    /** Power sums of a bin, side by side: as many as the highest degree needs. */
    private static final int STRIDE = 9;

    /** Takes what was summed up. */
    interface Sink {
        /** Takes the power sums of a node: of whole carcasses, or of the parts of those between nodes. */
        void sums(Category category, int conformation, int fat, double[] sums);

        /** Takes the number of carcasses of a grade cell. */
        void count(GradeCell cell, long carcasses);

        /** Takes a carcass outside the fitted range. */
        void outside(double conformation, double fat, double coldWeightKg);
    }

    private final RowChecks checks;
    /** Any of them: where nodes lie is the same in all. */
    private final YieldGrid grid;

    private final int powers;
    private final double[] whole;
    private final double[] spread;
    /** Carcasses between nodes, counted at the middle of their class. */
    private final long[] spreadCounts;

    ColumnTotals(YieldEstimator estimator, int powers) {
        this.checks = new RowChecks(estimator);
        this.powers = powers;
        this.grid = estimator.anyGrid();
        int nodes = checks.categories().size() * CONFORMATION_NODES * FAT_NODES;
        this.whole = new double[nodes * STRIDE];
        this.spread = new double[nodes * STRIDE];
        this.spreadCounts = new long[nodes];
    }

    /** Adds rows and writes their flags; returns how many were refused. */
    int add(CarcassColumns carcasses, int from, int to, byte[] flags, Sink sink) {
        int refused = 0;
        for (int start = from; start < to; start += BLOCK) {
            refused += block(carcasses, start, Math.min(to, start + BLOCK), flags, start - from, sink);
            join(sink);
        }
        return refused;
    }

    private int block(CarcassColumns carcasses, int from, int to, byte[] flags, int firstFlag, Sink sink) {
        int refused = 0;
        for (int row = from; row < to; row++) {
            int category = checks.category(carcasses.category(row));
            double conformation = carcasses.conformation(row);
            double fat = carcasses.fat(row);
            double weight = carcasses.coldWeightKg(row);
            byte flag = checks.flags(category, conformation, fat, weight);
            flags[firstFlag + row - from] = flag;
            if (RowFlag.isRefused(flag)) {
                refused++;
            } else {
                if (flag != 0) {
                    sink.outside(conformation, fat, weight);
                }
                add(category, conformation, fat, (weight - grid.referenceWeightKg()) / 100);
            }
        }
        return refused;
    }

    private void add(int category, double conformation, double fat, double t) {
        int c = (int) conformation;
        int f = (int) fat;
        if (c == conformation && f == fat) {
            add(node(category, c, f) * STRIDE, t);
        } else {
            spreadCounts[node(category, middle(conformation), middle(fat))]++;
            grid.corners(conformation, fat, (atC, atF, weight) -> spread(node(category, atC, atF), weight, t));
        }
    }

    /** The middle of the class in which a position lies: class k covers 3k - 2.5 to 3k + 0.5. */
    private static int middle(double position) {
        return 3 * (int) ((position + 2.5) / 3) - 1;
    }

    private static int node(int category, int conformation, int fat) {
        return (category * CONFORMATION_NODES + conformation - 1) * FAT_NODES + fat - 1;
    }

    private void add(int bin, double t) {
        double t2 = t * t;
        double t3 = t2 * t;
        whole[bin] += 1;
        whole[bin + 1] += t;
        whole[bin + 2] += t2;
        if (powers > 3) {
            whole[bin + 3] += t3;
            whole[bin + 4] += t2 * t2;
        }
        if (powers > 5) {
            whole[bin + 5] += t2 * t3;
            whole[bin + 6] += t3 * t3;
        }
        if (powers > 7) {
            whole[bin + 7] += t2 * t2 * t3;
            whole[bin + 8] += t2 * t3 * t3;
        }
    }

    private void spread(int node, double weight, double t) {
        double power = weight;
        for (int j = node * STRIDE; j < node * STRIDE + powers; j++) {
            spread[j] += power;
            power *= t;
        }
    }

    /** Hands on what the block summed up, and empties it. */
    private void join(Sink sink) {
        List<Category> categories = checks.categories();
        for (int category = 0; category < categories.size(); category++) {
            for (int c = 1; c <= CONFORMATION_NODES; c++) {
                for (int f = 1; f <= FAT_NODES; f++) {
                    int node = node(category, c, f);
                    long count = (long) whole[node * STRIDE] + spreadCounts[node];
                    spreadCounts[node] = 0;
                    if (count > 0) {
                        GradeCell cell = new GradeCell(
                                categories.get(category),
                                Conformation.third(c).classLetter(),
                                FatClass.third(f).classNumber());
                        sink.count(cell, count);
                    }
                    join(categories.get(category), c, f, whole, node * STRIDE, sink);
                    join(categories.get(category), c, f, spread, node * STRIDE, sink);
                }
            }
        }
    }

    private void join(Category category, int conformation, int fat, double[] sums, int bin, Sink sink) {
        if (sums[bin] != 0) {
            sink.sums(category, conformation, fat, Arrays.copyOfRange(sums, bin, bin + powers));
            Arrays.fill(sums, bin, bin + powers, 0);
        }
    }
}
