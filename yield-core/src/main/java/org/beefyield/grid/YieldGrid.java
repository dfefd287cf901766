package org.beefyield.grid;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.function.ObjIntConsumer;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.BreakdownRow;
import org.jspecify.annotations.Nullable;

/**
 * A table multiplied through for one category and one cutting specification: at every node of the allowed grades each
 * cut of each level has a polynomial in t = (w - w0)/100, its share of the cold weight; between nodes shares are
 * bilinear. This grid is the table's meaning. Immutable.
 */
public final class YieldGrid {
    /** Of a polynomial in weight. Each has so many places, for one loop without branches is what is fast. */
    static final int MOST_COEFFICIENTS = 4;

    private final TableLayout layout;
    private final Nodes grid;
    private final double referenceWeightKg;
    private final int coefficients;
    /** By node and power of t: the coefficient of every slot. */
    private final double[][][] nodes;

    private YieldGrid(TableLayout layout, Nodes grid, double referenceWeightKg, int coefficients) {
        this.layout = layout;
        this.grid = grid;
        this.referenceWeightKg = referenceWeightKg;
        this.coefficients = coefficients;
        this.nodes = new double[grid.size()][][];
        grid.forEach(node -> nodes[node] = new double[MOST_COEFFICIENTS][slots(layout)]);
    }

    /** One slot behind the cuts holds the fat in the lean trim of the last level. */
    private static int slots(TableLayout layout) {
        return layout.size() + 1;
    }

    /**
     * Multiplies breakdowns through.
     *
     * @param cuts the catalogue's cuts; every index of a cut is an index of this list
     * @param breakdowns breakdown by code of its parent, one way each
     */
    public static YieldGrid compile(
            TableLayout layout,
            List<Cut> cuts,
            Nodes nodes,
            double referenceWeightKg,
            Map<String, Breakdown> breakdowns,
            int coefficients) {
        YieldGrid compiled = new YieldGrid(layout, nodes, referenceWeightKg, coefficients);
        int[] slotOf = new int[layout.levels().size() * cuts.size()];
        for (int level = 0; level < layout.levels().size(); level++) {
            for (int i = 0; i < cuts.size(); i++) {
                slotOf[level * cuts.size() + i] = layout.find(level, cuts.get(i).code());
            }
        }
        List<List<Step>> steps = steps(layout, cuts, breakdowns);
        double[][] scratch = new double[4][cuts.size() * coefficients];
        nodes.forEach(node -> compiled.compileNode(node, steps, cuts.size(), slotOf, scratch));
        return compiled;
    }

    /** Another of the same nodes and slots, of which somebody fills each node: the coefficient of every slot by power of t. */
    YieldGrid filledBy(ObjIntConsumer<double[][]> filling) {
        YieldGrid other = new YieldGrid(layout, grid, referenceWeightKg, coefficients);
        grid.forEach(node -> filling.accept(other.nodes[node], node));
        return other;
    }

    /** What happens to one cut at one level: it is broken down, or stays (no breakdown). */
    static final class Step {
        /** Index in the catalogue, or -1 for the whole carcass. */
        final int parent;

        final @Nullable Breakdown breakdown;
        /** By child, its fat content if it is lean trim, else 0. */
        private final double[] leanTrimFat;

        Step(int parent, @Nullable Breakdown breakdown, double[] leanTrimFat) {
            this.parent = parent;
            this.breakdown = breakdown;
            this.leanTrimFat = leanTrimFat;
        }
    }

    /** By level, what happens to the cuts that stand above it. */
    static List<List<Step>> steps(TableLayout layout, List<Cut> cuts, Map<String, Breakdown> breakdowns) {
        List<List<Step>> steps = new ArrayList<>();
        for (int level = 0; level < layout.levels().size(); level++) {
            List<Step> atLevel = new ArrayList<>();
            if (level == 0) {
                atLevel.add(step(-1, null, breakdowns.get(BreakdownRow.ROOT)));
            }
            for (int i = 0; level > 0 && i < cuts.size(); i++) {
                Cut cut = cuts.get(i);
                if (layout.find(level - 1, cut.code()) >= 0) {
                    boolean due = layout.levelIndex(cut.level()) == level - 1;
                    atLevel.add(step(i, cut, due ? breakdowns.get(cut.code()) : null));
                }
            }
            steps.add(atLevel);
        }
        return steps;
    }

    private static Step step(int index, @Nullable Cut parent, @Nullable Breakdown breakdown) {
        List<Cut> children = breakdown == null ? List.of() : breakdown.children();
        double[] leanTrimFat = new double[children.size()];
        for (int k = 0; k < leanTrimFat.length; k++) {
            Double fatPct = fatOfLeanTrim(parent, children.get(k));
            leanTrimFat[k] = fatPct == null ? 0 : fatPct / 100;
        }
        return new Step(index, breakdown, leanTrimFat);
    }

    /** Fat content of lean trim by where it comes from: the parent's figure, else the trim's own. */
    public static @Nullable Double fatOfLeanTrim(@Nullable Cut parent, Cut child) {
        if (child.kind() != CutKind.LEAN_TRIM) {
            return null;
        }
        return parent != null && parent.fatPct() != null ? parent.fatPct() : child.fatPct();
    }

    private void compileNode(int node, List<List<Step>> steps, int cuts, int[] slotOf, double[][] scratch) {
        double[] amount = scratch[0];
        double[] fat = scratch[1];
        double[] next = scratch[2];
        double[] nextFat = scratch[3];
        Arrays.fill(amount, 0);
        Arrays.fill(fat, 0);
        double[] whole = new double[coefficients];
        whole[0] = 1;
        for (int level = 0; level < steps.size(); level++) {
            Arrays.fill(next, 0);
            Arrays.fill(nextFat, 0);
            for (Step step : steps.get(level)) {
                double[] from = step.parent < 0 ? whole : amount;
                int at = Math.max(0, step.parent) * coefficients;
                if (step.breakdown == null) {
                    for (int j = at; j < at + coefficients; j++) {
                        next[j] += amount[j];
                        nextFat[j] += fat[j];
                    }
                } else {
                    split(step.breakdown, step.leanTrimFat, from, at, node, next, nextFat);
                }
            }
            double[] before = amount;
            double[] fatBefore = fat;
            amount = next;
            fat = nextFat;
            next = before;
            nextFat = fatBefore;
            for (int i = 0; i < cuts; i++) {
                int slot = slotOf[level * cuts + i];
                for (int j = 0; slot >= 0 && j < coefficients; j++) {
                    nodes[node][j][slot] = amount[i * coefficients + j];
                }
            }
        }
        for (int i = 0; i < fat.length; i++) {
            nodes[node][i % coefficients][layout.size()] += fat[i];
        }
    }

    private void split(
            Breakdown breakdown,
            double[] leanTrimFat,
            double[] from,
            int at,
            int node,
            double[] next,
            double[] nextFat) {
        for (int k = 0; k < breakdown.indexes.length; k++) {
            double share = breakdown.share(k, node);
            double slope = breakdown.slope(k, node);
            double fatOfPart = leanTrimFat[k];
            int to = breakdown.indexes[k] * coefficients;
            for (int j = 0; j < coefficients; j++) {
                double part = from[at + j] * share + (j == 0 ? 0 : from[at + j - 1] * slope);
                next[to + j] += part;
                if (fatOfPart != 0) {
                    nextFat[to + j] += part * fatOfPart;
                }
            }
        }
    }

    private double[][] node(int c, int f) {
        return nodes[grid.at(c, f)];
    }

    /**
     * The share of some slots together at a node.
     *
     * @param node a node of the table's range
     * @param slots slots of the layout, or the one behind it: the fat in the lean trim of the last level
     * @return a polynomial in t = (w - w0)/100, constant first
     */
    public double[] ofSlots(int node, int... slots) {
        double[] sum = new double[coefficients];
        for (int slot : slots) {
            for (int j = 0; j < coefficients; j++) {
                sum[j] += nodes[node][j][slot];
            }
        }
        return sum;
    }

    /**
     * Whether a slot holds anything at any grade and weight.
     *
     * @param slot slot of the layout
     * @return false if its share is 0 everywhere
     */
    public boolean yields(int slot) {
        boolean[] yields = {false};
        grid.forEach(node -> {
            for (int j = 0; j < coefficients; j++) {
                yields[0] |= nodes[node][j][slot] != 0;
            }
        });
        return yields[0];
    }

    /** The share of a figure at a node, of which these slots count. */
    double[] ofSlots(int node, double[] figure, int[] slots) {
        double[] sum = new double[coefficients];
        for (int slot : slots) {
            for (int j = 0; j < coefficients; j++) {
                sum[j] += figure[slot] * nodes[node][j][slot];
            }
        }
        return sum;
    }

    /** The share of a slot at a node. */
    double[] ofSlot(int node, int slot) {
        double[] share = new double[coefficients];
        for (int j = 0; j < coefficients; j++) {
            share[j] = nodes[node][j][slot];
        }
        return share;
    }

    /**
     * Adds a node's polynomials, summed over carcasses, to what stands in an array already.
     *
     * @param node a node of the table's range
     * @param sums sum over the carcasses of t^j, times whatever each counts for, by j: as many as {@link #coefficients()}
     * @param totals entries of {@link #shares}, to which is added
     */
    public void addSums(int node, double[] sums, double[] totals) {
        for (int j = 0; j < coefficients; j++) {
            double[] ofPower = nodes[node][j];
            double sum = sums[j];
            for (int slot = 0; slot < ofPower.length; slot++) {
                totals[slot] += ofPower[slot] * sum;
            }
        }
    }

    /**
     * Number of coefficients of each polynomial.
     *
     * @return degree in weight and one more, 1 to 4
     */
    public int coefficients() {
        return coefficients;
    }

    /**
     * The reference weight w0.
     *
     * @return kg
     */
    public double referenceWeightKg() {
        return referenceWeightKg;
    }

    /**
     * Where the nodes lie.
     *
     * @return the table's nodes
     */
    public Nodes nodes() {
        return grid;
    }

    /**
     * Where the cuts stand in an array of shares.
     *
     * @return the table's layout
     */
    public TableLayout layout() {
        return layout;
    }

    /**
     * Length of an array of shares.
     *
     * @return the layout's size and one more
     */
    public int length() {
        return slots(layout);
    }

    /**
     * Kilograms at a grade and weight inside the allowed range, into an array of the caller's.
     *
     * @param conformation position on the 18-point scale
     * @param fat position on the 15-point scale
     * @param weightKg cold weight, kg
     * @param kg takes the kg of every slot of the layout, and behind them the fat (kg) in the lean trim of the last level
     * @throws IllegalArgumentException if a grade is outside the grid, the weight is not a number, or the array has
     *     another length than {@link #length()}
     */
    public void kg(double conformation, double fat, double weightKg, double[] kg) {
        fill(conformation, fat, weightKg, weightKg, kg);
    }

    /**
     * Shares of the cold weight at a grade and weight inside the allowed range.
     *
     * @param conformation position on the 18-point scale
     * @param fat position on the 15-point scale
     * @param weightKg cold weight, kg
     * @return kg per kg of cold weight of every slot of the layout, and behind them the fat (kg per kg) in the lean trim
     *     of the last level
     * @throws IllegalArgumentException if a grade is outside the grid or the weight is not a number
     */
    public double[] shares(double conformation, double fat, double weightKg) {
        double[] shares = new double[length()];
        fill(conformation, fat, weightKg, 1, shares);
        return shares;
    }

    private void fill(double conformation, double fat, double weightKg, double factor, double[] filled) {
        grid.check(conformation, fat);
        if (!Double.isFinite(weightKg)) {
            throw new IllegalArgumentException("weight " + weightKg + " kg is not a number");
        }
        if (filled.length != length()) {
            throw new IllegalArgumentException(
                    "an array of " + filled.length + " numbers, where this grid fills " + length());
        }
        double t = (weightKg - referenceWeightKg) / 100;
        int c = (int) conformation;
        int f = (int) fat;
        double dc = conformation - c;
        double df = fat - f;
        double[][] node = node(c, f);
        if (dc == 0 && df == 0) {
            at(node[0], node[1], node[2], node[3], t, factor, filled);
        } else {
            // a corner without weight may as well be the first
            double[][] better = dc > 0 ? node(c + 1, f) : node;
            double[][] fatter = df > 0 ? node(c, f + 1) : node;
            double[][] both = dc > 0 && df > 0 ? node(c + 1, f + 1) : node;
            for (int slot = 0; slot < filled.length; slot++) {
                filled[slot] = factor
                        * ((1 - dc) * (1 - df) * at(node, slot, t)
                                + dc * (1 - df) * at(better, slot, t)
                                + (1 - dc) * df * at(fatter, slot, t)
                                + dc * df * at(both, slot, t));
            }
        }
    }

    // arrays of one index each: what a compiler turns into vectors
    private static void at(
            double[] constant,
            double[] linear,
            double[] square,
            double[] cube,
            double t,
            double factor,
            double[] filled) {
        for (int slot = 0; slot < filled.length; slot++) {
            filled[slot] = (((cube[slot] * t + square[slot]) * t + linear[slot]) * t + constant[slot]) * factor;
        }
    }

    private static double at(double[][] node, int slot, double t) {
        return ((node[3][slot] * t + node[2][slot]) * t + node[1][slot]) * t + node[0][slot];
    }
}
