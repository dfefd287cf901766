package org.beefyield.estimate;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.function.ObjLongConsumer;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.grid.Nodes;
import org.beefyield.grid.PowerSums;
import org.jspecify.annotations.Nullable;

/**
 * Sums carcasses in columns up, at about the cost of reading them: in plain arrays by category and node, block by block,
 * and the blocks with the rounding that they lose. All are graded to one width.
 */
final class ColumnTotals {
    /**
     * Rows to a block: so many that joining costs little, so few that a plain sum of weights loses less than 1e-12 of itself
     * even if every step rounds the same way: half the rows times 2^-53, for the sums on the way are half as large.
     */
    private static final int BLOCK = 1 << 14;

    /** Sums of t, t^2 and so on of a node, side by side: as many as the highest degree needs. */
    private static final int STRIDE = 8;

    /** Takes a carcass outside the fitted range. */
    interface Outside {
        void at(double conformation, double fat, double coldWeightKg);
    }

    /**
     * Carcasses of one lot in one run: their sums by node, in arrays that grow. No node's sum has more than a block of rows in it.
     */
    private static final class Group {
        private static final int FIRST = 16;

        private final int lot;
        private final int run;
        private int[] nodes = new int[FIRST];
        private int[] counts = new int[FIRST];
        private double[] sums = new double[FIRST * STRIDE];
        private int places;
        /** By node, its place counted from 1, once rows of other lots have stood between those of this one. */
        private short @Nullable [] placeOf;

        Group(int lot, int run) {
            this.lot = lot;
            this.run = run;
        }

        int newPlace(int node) {
            if (places == nodes.length) {
                nodes = Arrays.copyOf(nodes, 2 * places);
                counts = Arrays.copyOf(counts, 2 * places);
                sums = Arrays.copyOf(sums, 2 * places * STRIDE);
            }
            nodes[places] = node;
            places++;
            return places - 1;
        }
    }

    /** Rows of one lot and run behind each other from which on they are summed up as if there were no others. */
    private static final int LONG = 1 << 8;

    private final RowChecks checks;
    private final Moments moments;
    private final Map<Long, Group> groups = new HashMap<>();
    /** By node, its place in the group that was opened first last, and in which opening it was noted. */
    private final int[] placeOf;

    private final int[] notedIn;
    private int opening;
    /** Whose rows stand in the block. */
    private int lotOfBlock = -1;

    private int runOfBlock = -1;
    private final Nodes nodes;
    private final double referenceWeightKg;

    private final double conformationWidth;
    private final double fatWidth;
    private final int powers;
    /** Of the block, by node: carcasses that count at one node. */
    private final int[] blockCounts;
    /** Of the block: their sums. */
    private final double[] block;

    private int rowsInBlock;
    /** Of all blocks before, and of the parts of carcasses between nodes, by node. */
    private final @Nullable PowerSums[] sums;
    /** Carcasses of all blocks before, those between nodes counted at the middle of their class. */
    private final long[] counts;

    ColumnTotals(Model model, Moments moments, CarcassColumns like) {
        this.checks = new RowChecks(model);
        this.moments = moments;
        this.powers = moments.powers();
        this.nodes = model.nodes();
        this.referenceWeightKg = model.anyGrid().referenceWeightKg();
        this.conformationWidth = like.conformationWidth();
        this.fatWidth = like.fatWidth();
        this.blockCounts = new int[checks.nodes()];
        this.placeOf = new int[checks.nodes()];
        this.notedIn = new int[checks.nodes()];
        this.block = new double[checks.nodes() * STRIDE];
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
        if (conformation == null || fat == null) {
            int refused = 0;
            for (int row = from; row < to; row++) {
                refused += add(carcasses, row, flags, row - from, outside);
                endFullBlock(1);
            }
            return refused;
        }
        if (!keepsKeys(carcasses)) {
            blockOf(-1, -1);
            return blocks(carcasses, conformation, fat, from, to, flags, 0, outside);
        }
        int refused = 0;
        int row = from;
        while (row < to) {
            int end = row;
            int next = same(carcasses, row, to);
            while (end < to && next - end < LONG) {
                end = next;
                next = end < to ? same(carcasses, end, to) : to;
            }
            if (end > row) {
                refused += groups(carcasses, conformation, fat, row, end, flags, row - from, outside);
            } else {
                end = next;
                blockOf(carcasses.lotNumber(row), carcasses.runNumber(row));
                refused += blocks(carcasses, conformation, fat, row, end, flags, row - from, outside);
            }
            row = end;
        }
        return refused;
    }

    /** The row behind those that are of the lot and run of a row. */
    private static int same(CarcassColumns carcasses, int row, int to) {
        int lot = carcasses.lotNumber(row);
        int run = carcasses.runNumber(row);
        int end = row + 1;
        while (end < to && carcasses.lotNumber(end) == lot && carcasses.runNumber(end) == run) {
            end++;
        }
        return end;
    }

    /** From now on the block has rows of a lot and run; those of another are handed on first. */
    private void blockOf(int lot, int run) {
        if (lot != lotOfBlock || run != runOfBlock) {
            endBlock();
            lotOfBlock = lot;
            runOfBlock = run;
        }
    }

    private void endFullBlock(int moreRows) {
        rowsInBlock += moreRows;
        if (rowsInBlock == BLOCK) {
            endBlock();
        }
    }

    /** Rows of one lot and run, block by block. */
    private int blocks(
            CarcassColumns carcasses,
            byte[] conformation,
            byte[] fat,
            int from,
            int to,
            byte[] flags,
            int firstFlag,
            Outside outside) {
        int refused = 0;
        int row = from;
        while (row < to) {
            int end = Math.min(to, row + BLOCK - rowsInBlock);
            refused += thirds(carcasses, conformation, fat, row, end, flags, firstFlag + row - from, outside);
            endFullBlock(end - row);
            row = end;
        }
        return refused;
    }

    /** What nearly every row is, with a look at nothing but arrays. */
    private int thirds(
            CarcassColumns carcasses,
            byte[] conformation,
            byte[] fat,
            int from,
            int to,
            byte[] flags,
            int firstFlag,
            Outside outside) {
        byte[] categories = carcasses.categories();
        double[] weights = carcasses.coldWeightsKg();
        Arrays.fill(flags, firstFlag, firstFlag + to - from, (byte) 0);
        int refused = 0;
        for (int row = from; row < to; row++) {
            double weight = weights[row];
            int node = checks.usualNode(categories[row], conformation[row], fat[row], weight);
            if (node >= 0) {
                add(node, (weight - referenceWeightKg) / 100);
            } else {
                refused += add(carcasses, row, flags, firstFlag + row - from, outside);
            }
        }
        return refused;
    }

    /** Whether lots or runs make a difference: not where the table has none of their errors. */
    private boolean keepsKeys(CarcassColumns carcasses) {
        return carcasses.hasKeys()
                && (moments.model().keepsLots() || moments.model().keepsRuns());
    }

    /** The same of rows that belong to lots and runs. */
    private int groups(
            CarcassColumns carcasses,
            byte[] conformation,
            byte[] fat,
            int from,
            int to,
            byte[] flags,
            int firstFlag,
            Outside outside) {
        byte[] categories = carcasses.categories();
        double[] weights = carcasses.coldWeightsKg();
        Arrays.fill(flags, firstFlag, firstFlag + to - from, (byte) 0);
        int refused = 0;
        Group group = open(carcasses.lotNumber(from), carcasses.runNumber(from));
        for (int row = from; row < to; row++) {
            double weight = weights[row];
            int node = checks.usualNode(categories[row], conformation[row], fat[row], weight);
            if (node >= 0) {
                int lot = carcasses.lotNumber(row);
                int run = carcasses.runNumber(row);
                if (lot != group.lot || run != group.run) {
                    group = open(lot, run);
                }
                int place = place(group, node);
                if (group.counts[place] == BLOCK) {
                    endGroup(group, place);
                }
                group.counts[place]++;
                add(group.sums, place * STRIDE, (weight - referenceWeightKg) / 100);
            } else {
                refused += add(carcasses, row, flags, firstFlag + row - from, outside);
            }
        }
        return refused;
    }

    /** The group of a lot and run, whose rows are next. */
    private Group open(int lot, int run) {
        int ofLot = Math.max(-1, lot);
        int ofRun = Math.max(-1, run);
        Group group = groups.computeIfAbsent(
                ((long) ofLot << Integer.SIZE) | (ofRun & 0xffffffffL), key -> new Group(ofLot, ofRun));
        if (group.places == 0) {
            opening++;
        } else if (group.placeOf == null) {
            short[] own = new short[checks.nodes()];
            for (int place = 0; place < group.places; place++) {
                own[group.nodes[place]] = (short) (place + 1);
            }
            group.placeOf = own;
        }
        return group;
    }

    private int place(Group group, int node) {
        short[] own = group.placeOf;
        int place = own != null ? own[node] - 1 : notedIn[node] == opening ? placeOf[node] : -1;
        if (place < 0) {
            place = group.newPlace(node);
            if (own != null) {
                own[node] = (short) (place + 1);
            } else {
                placeOf[node] = place;
                notedIn[node] = opening;
            }
        }
        return place;
    }

    /** A node's sums of a group into those of all, of its lot and its run. */
    private void endGroup(Group group, int place) {
        handOn(group.nodes[place], group.lot, group.run, group.counts[place], group.sums, place * STRIDE);
        group.counts[place] = 0;
        Arrays.fill(group.sums, place * STRIDE, (place + 1) * STRIDE, 0);
    }

    /** A node's sums of rows of one lot and run, which stand in an array from a place on. */
    private void handOn(int node, int lot, int run, int count, double[] from, int at) {
        PowerSums of = new PowerSums(powers);
        of.add(count, from, at);
        sums(node).add(of);
        Category category = category(node);
        moments.add(LotKey.numbered(lot), category, node % nodes.size(), of);
        moments.add(RunKey.numbered(run), category, node % nodes.size(), of);
        counts[node] += count;
    }

    private Category category(int node) {
        return checks.categories().get(node / nodes.size());
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
        if (c == conformation && f == fat && !keepsKeys(carcasses)) {
            add(checks.node(category, nodes.at(c, f)), t);
            return 0;
        }
        int counted = c == conformation && f == fat ? nodes.at(c, f) : nodes.at(middle(conformation), middle(fat));
        counts[checks.node(category, counted)]++;
        nodes.corners(conformation, fat, (node, part) -> {
            PowerSums one = new PowerSums(powers);
            one.add(t, part);
            sums(checks.node(category, node)).add(one);
            moments.add(carcasses.lot(row), checks.categories().get(category), node, one);
            moments.add(carcasses.run(row), checks.categories().get(category), node, one);
        });
        return 0;
    }

    /** The middle of the class in which a position lies: class k covers 3k - 2.5 to 3k + 0.5. */
    private static int middle(double position) {
        return 3 * (int) ((position + 2.5) / 3) - 1;
    }

    private void add(int node, double t) {
        blockCounts[node]++;
        add(block, node * STRIDE, t);
    }

    private void add(double[] sums, int at, double t) {
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

    private void endBlock() {
        Group group = lotOfBlock < 0 && runOfBlock < 0 ? null : open(lotOfBlock, runOfBlock);
        for (int node = 0; node < blockCounts.length; node++) {
            if (blockCounts[node] > 0) {
                if (group == null) {
                    handOn(node, -1, -1, blockCounts[node], block, node * STRIDE);
                } else {
                    endBlock(node, group);
                }
                blockCounts[node] = 0;
                Arrays.fill(block, node * STRIDE, (node + 1) * STRIDE, 0);
            }
        }
        rowsInBlock = 0;
    }

    private void endBlock(int node, Group group) {
        int place = place(group, node);
        if (group.counts[place] + blockCounts[node] > BLOCK) {
            endGroup(group, place);
        }
        group.counts[place] += blockCounts[node];
        for (int j = 0; j < STRIDE; j++) {
            group.sums[place * STRIDE + j] += block[node * STRIDE + j];
        }
    }

    /** Hands on all that was summed up, power sums by node and carcasses by grade cell, and begins anew. */
    void drainTo(Moments totals, ObjLongConsumer<GradeCell> toCounts) {
        endBlock();
        for (Group group : groups.values()) {
            for (int place = 0; place < group.places; place++) {
                if (group.counts[place] > 0) {
                    endGroup(group, place);
                }
            }
        }
        groups.clear();
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
