package org.beefyield.estimate;

import java.util.Arrays;
import java.util.Objects;
import java.util.function.ObjLongConsumer;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.grid.Nodes;
import org.beefyield.grid.PowerSums;
import org.jspecify.annotations.Nullable;

/**
 * Sums carcasses in columns up, at about the cost of reading them: in plain arrays by category and node, block by block,
 * and the blocks with the rounding that they lose. All are graded to one width. Rows of many lots and runs are written down
 * besides, which costs half as much again, and sorted out by {@link Groups} when somebody asks or they are too many.
 */
final class ColumnTotals {
    /**
     * Rows to a block: so many that joining costs little, so few that a plain sum of weights loses less than 1e-12 of itself
     * even if every step rounds the same way: half the rows times 2^-53, for the sums on the way are half as large.
     */
    private static final int BLOCK = 1 << 14;

    /** Sums of t, t^2 and so on of a node, side by side: as many as the highest degree needs. */
    private static final int STRIDE = 8;

    /** Rows of a group behind each other from which on they are summed up as all are, and the sums handed on to it. */
    private static final int LONG = 1 << 12;

    /** Takes a carcass outside the fitted range. */
    interface Outside {
        void at(double conformation, double fat, double coldWeightKg);
    }

    /** Rows that were summed up plainly: how many there are at each node, and their sums. */
    private static final class Block {
        /** Whose rows they are; null if they have been added to their groups, or there are none. */
        private Group.@Nullable Key of;

        private final int[] counts;
        private final double[] sums;
        private int rows;

        Block(Group.@Nullable Key of, int nodes) {
            this.of = of;
            this.counts = new int[nodes];
            this.sums = new double[nodes * STRIDE];
        }
    }

    private final RowChecks checks;
    private final Moments moments;
    private final Nodes nodes;
    private final double referenceWeightKg;

    private final double conformationWidth;
    private final double fatWidth;
    private final int powers;
    private final boolean keepsGroups;
    /** Rows of the block that belong to many groups, for which they are written down. */
    private final WrittenRows written = new WrittenRows();

    /** What isn't with the sums yet: rows of one group or of many, or rows without lot and run. */
    private final Block block;

    /** Of all blocks before, and of the parts of carcasses between nodes, by node. */
    private final @Nullable PowerSums[] sums;
    /** Carcasses of all blocks before, those between nodes counted at the middle of their class. */
    private final long[] counts;

    ColumnTotals(Model model, Moments moments, CarcassColumns like) {
        this.checks = new RowChecks(model);
        this.moments = moments;
        this.powers = moments.powers();
        this.keepsGroups = moments.keepsGroups();
        this.nodes = model.nodes();
        this.referenceWeightKg = model.anyGrid().referenceWeightKg();
        this.conformationWidth = like.conformationWidth();
        this.fatWidth = like.fatWidth();
        this.block = new Block(null, checks.nodes());
        this.sums = new PowerSums[checks.nodes()];
        this.counts = new long[checks.nodes()];
    }

    /** Whether carcasses are graded to the same width as these. */
    boolean takes(CarcassColumns carcasses) {
        return carcasses.conformationWidth() == conformationWidth && carcasses.fatWidth() == fatWidth;
    }

    /** Adds rows and writes their flags; returns how many were refused. */
    int add(CarcassColumns carcasses, int from, int to, byte[] flags, Outside outside) {
        byte[] conformation = carcasses.conformationThirds();
        byte[] fat = carcasses.fatThirds();
        boolean hasGroups = keepsGroups && carcasses.hasKeys();
        int refused = 0;
        if (conformation == null || fat == null) {
            begin(keepsGroups && !hasGroups ? Group.Key.NOT_KNOWN : null);
            for (int row = from; row < to; row++) {
                refused += add(carcasses, row, flags, row - from, outside);
                endFullBlock(1);
            }
            return refused;
        }
        Arrays.fill(flags, 0, to - from, (byte) 0);
        int row = from;
        while (row < to) {
            int end = Math.min(to, row + BLOCK - block.rows);
            boolean isOfMany = false;
            if (hasGroups) {
                int endOfGroup = endOfGroup(carcasses, row, end);
                isOfMany = endOfGroup - row < LONG;
                end = isOfMany ? end : endOfGroup;
            }
            begin(keepsGroups && !isOfMany ? key(carcasses, row) : null);
            int next = isOfMany
                    ? ofMany(carcasses, conformation, fat, row, end)
                    : usual(carcasses, conformation, fat, row, end);
            if (next < end) {
                refused += add(carcasses, next, flags, next - from, outside);
                next++;
            }
            endFullBlock(next - row);
            row = next;
        }
        return refused;
    }

    /** Makes the block that of a group, or of none. */
    private void begin(Group.@Nullable Key group) {
        if (!Objects.equals(group, block.of)) {
            end();
            block.of = group;
        }
    }

    /** Where the rows from one on end that are of its group. */
    private static int endOfGroup(CarcassColumns carcasses, int from, int to) {
        int lot = carcasses.lotNumber(from);
        int run = carcasses.runNumber(from);
        int row = from;
        while (row < to && carcasses.lotNumber(row) == lot && carcasses.runNumber(row) == run) {
            row++;
        }
        return row;
    }

    private static Group.Key key(CarcassColumns carcasses, int row) {
        return new Group.Key(carcasses.lot(row), carcasses.run(row));
    }

    private void endFullBlock(int moreRows) {
        block.rows += moreRows;
        if (block.rows >= BLOCK) {
            end();
        }
    }

    /** Adds rows without lot and run up to one to which there is something to say, and returns its number. */
    private int usual(CarcassColumns carcasses, byte[] conformation, byte[] fat, int from, int to) {
        byte[] categories = carcasses.categories();
        double[] weights = carcasses.coldWeightsKg();
        // no calls in the loop but those that become part of it
        for (int row = from; row < to; row++) {
            double weight = weights[row];
            int node = checks.usualNode(categories[row], conformation[row], fat[row], weight);
            if (node < 0) {
                return row;
            }
            add(block, node, (weight - referenceWeightKg) / 100);
        }
        return to;
    }

    /** The same of rows of many groups, which are written down. */
    private int ofMany(CarcassColumns carcasses, byte[] conformation, byte[] fat, int from, int to) {
        byte[] categories = carcasses.categories();
        double[] weights = carcasses.coldWeightsKg();
        written.reserve(to - from);
        int[] cells = written.cells();
        double[] ts = written.ts();
        int shift = written.size() - from;
        int row = from;
        while (row < to) {
            double weight = weights[row];
            int node = checks.usualNode(categories[row], conformation[row], fat[row], weight);
            if (node < 0) {
                break;
            }
            double t = (weight - referenceWeightKg) / 100;
            add(block, node, t);
            cells[row + shift] = node;
            ts[row + shift] = t;
            row++;
        }
        written.add(carcasses, from, row);
        return row;
    }

    /** Any row; returns 1 if it is refused. */
    private int add(CarcassColumns carcasses, int row, byte[] flags, int at, Outside outside) {
        byte flag = checks.flags(carcasses, row);
        flags[at] = flag;
        if (RowFlag.isRefused(flag)) {
            return 1;
        }
        int category = checks.category(carcasses.category(row));
        double conformation = carcasses.conformation(row);
        double fat = carcasses.fat(row);
        double weight = carcasses.coldWeightKg(row);
        if (flag != 0) {
            outside.at(conformation, fat, weight);
        }
        double t = (weight - referenceWeightKg) / 100;
        int c = (int) conformation;
        int f = (int) fat;
        if (c == conformation && f == fat) {
            int node = checks.node(category, nodes.at(c, f));
            add(block, node, t);
            if (keepsGroups && block.of == null) {
                moments.group(key(carcasses, row)).add(node, t, 1);
            }
            return 0;
        }
        counts[checks.node(category, nodes.at(middle(conformation), middle(fat)))]++;
        @Nullable Group group = keepsGroups ? moments.group(key(carcasses, row)) : null;
        nodes.corners(conformation, fat, (node, part) -> {
            PowerSums one = new PowerSums(powers);
            one.add(t, part);
            sums(checks.node(category, node)).add(one);
            if (group != null) {
                group.add(checks.node(category, node), t, part);
            }
        });
        return 0;
    }

    /** The middle of the class in which a position lies: class k covers 3k - 2.5 to 3k + 0.5. */
    private static int middle(double position) {
        return 3 * (int) ((position + 2.5) / 3) - 1;
    }

    private void add(Block block, int node, double t) {
        block.counts[node]++;
        double[] sums = block.sums;
        int at = node * STRIDE;
        double t2 = t * t;
        double t3 = t2 * t;
        sums[at] += t;
        sums[at + 1] += t2;
        if (powers > 3) {
            sums[at + 2] += t3;
            sums[at + 3] += t2 * t2;
        }
        if (powers > 5) {
            sums[at + 4] += t2 * t3;
            sums[at + 5] += t3 * t3;
        }
        if (powers > 7) {
            sums[at + 6] += t2 * t2 * t3;
            sums[at + 7] += t2 * t3 * t3;
        }
    }

    private PowerSums sums(int node) {
        PowerSums found = sums[node];
        if (found == null) {
            found = new PowerSums(powers);
            sums[node] = found;
        }
        return found;
    }

    /** Hands a block on to the sums of all and to those of its group, and empties it. */
    private void end() {
        @Nullable Group group = null;
        for (int node = 0; node < counts.length; node++) {
            int count = block.counts[node];
            if (count > 0) {
                int at = node * STRIDE;
                sums(node).add(count, block.sums, at);
                if (block.of != null) {
                    group = group == null ? moments.group(block.of) : group;
                    group.add(node, count, block.sums, at);
                }
                counts[node] += count;
                block.counts[node] = 0;
                Arrays.fill(block.sums, at, at + STRIDE, 0);
            }
        }
        if (written.size() > 0) {
            moments.add(written.copy());
            written.clear();
        }
        block.rows = 0;
    }

    /** Hands on all that was summed up, power sums by node and carcasses by grade cell, and begins anew. */
    void drainTo(Moments totals, ObjLongConsumer<GradeCell> toCounts) {
        end();
        for (int i = 0; i < counts.length; i++) {
            int node = i % nodes.size();
            Category category = checks.categories().get(i / nodes.size());
            PowerSums of = sums[i];
            if (of != null) {
                totals.add(new Moments.Key(category, node, conformationWidth, fatWidth), of);
            }
            if (counts[i] > 0) {
                GradeCell cell = new GradeCell(
                        category,
                        Conformation.third(nodes.conformation(node)).classLetter(),
                        FatClass.third(nodes.fat(node)).classNumber());
                toCounts.accept(cell, counts[i]);
            }
        }
        Arrays.fill(sums, null);
        Arrays.fill(counts, 0);
    }
}
