package org.beefyield.table;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.jspecify.annotations.Nullable;

/**
 * A table multiplied through for one category and one cutting specification: at every node of the allowed grades each
 * cut of each level has a polynomial in t = (w - w0)/100, its share of the cold weight; between nodes shares are
 * bilinear. This grid is the table's meaning. Immutable.
 */
public final class YieldGrid {
    private final TableLayout layout;
    private final Nodes grid;
    private final double referenceWeightKg;
    private final int coefficients;
    private final double[] nodes;

    private YieldGrid(TableLayout layout, TableRange allowed, double referenceWeightKg, int coefficients) {
        this.layout = layout;
        this.grid = new Nodes(allowed);
        this.referenceWeightKg = referenceWeightKg;
        this.coefficients = coefficients;
        this.nodes = new double[grid.size() * slots(layout) * coefficients];
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
    static YieldGrid compile(
            TableLayout layout,
            List<Cut> cuts,
            TableRange allowed,
            double referenceWeightKg,
            Map<String, Breakdown> breakdowns,
            int coefficients) {
        YieldGrid compiled = new YieldGrid(layout, allowed, referenceWeightKg, coefficients);
        int[] slotOf = new int[layout.levels().size() * cuts.size()];
        for (int level = 0; level < layout.levels().size(); level++) {
            for (int i = 0; i < cuts.size(); i++) {
                slotOf[level * cuts.size() + i] = layout.find(level, cuts.get(i).code());
            }
        }
        List<List<Step>> steps = steps(layout, cuts, breakdowns);
        compiled.grid.forEach((c, f) -> compiled.compileNode(c, f, steps, cuts, slotOf));
        return compiled;
    }

    /** What happens to one cut at one level: it is broken down, or stays (no breakdown). */
    private record Step(int parent, @Nullable Breakdown breakdown, List<Double> leanTrimFat) {}

    private static List<List<Step>> steps(TableLayout layout, List<Cut> cuts, Map<String, Breakdown> breakdowns) {
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
        List<Double> leanTrimFat = new ArrayList<>();
        for (Cut child : breakdown == null ? List.<Cut>of() : breakdown.children) {
            Double fatPct = fatOfLeanTrim(parent, child);
            leanTrimFat.add(fatPct == null ? 0.0 : fatPct / 100);
        }
        return new Step(index, breakdown, leanTrimFat);
    }

    /** Fat content of lean trim by where it comes from: the parent's figure, else the trim's own. */
    static @Nullable Double fatOfLeanTrim(@Nullable Cut parent, Cut child) {
        if (child.kind() != CutKind.LEAN_TRIM) {
            return null;
        }
        return parent != null && parent.fatPct() != null ? parent.fatPct() : child.fatPct();
    }

    private void compileNode(int c, int f, List<List<Step>> steps, List<Cut> cuts, int[] slotOf) {
        double[] amount = new double[cuts.size() * coefficients];
        double[] fat = new double[cuts.size() * coefficients];
        double[] whole = new double[coefficients];
        whole[0] = 1;
        for (int level = 0; level < steps.size(); level++) {
            double[] next = new double[amount.length];
            double[] nextFat = new double[amount.length];
            for (Step step : steps.get(level)) {
                double[] from = step.parent() < 0 ? whole : amount;
                int at = Math.max(0, step.parent()) * coefficients;
                if (step.breakdown() == null) {
                    for (int j = at; j < at + coefficients; j++) {
                        next[j] += amount[j];
                        nextFat[j] += fat[j];
                    }
                } else {
                    split(step.breakdown(), step.leanTrimFat(), from, at, c, f, next, nextFat);
                }
            }
            amount = next;
            fat = nextFat;
            for (int i = 0; i < cuts.size(); i++) {
                int slot = slotOf[level * cuts.size() + i];
                if (slot >= 0) {
                    System.arraycopy(amount, i * coefficients, nodes, at(c, f, slot), coefficients);
                }
            }
        }
        int fatSlot = at(c, f, layout.size());
        for (int i = 0; i < fat.length; i++) {
            nodes[fatSlot + i % coefficients] += fat[i];
        }
    }

    private void split(
            Breakdown breakdown,
            List<Double> leanTrimFat,
            double[] from,
            int at,
            int c,
            int f,
            double[] next,
            double[] nextFat) {
        for (int k = 0; k < breakdown.indexes.length; k++) {
            double share = breakdown.share(k, c, f);
            double slope = breakdown.slope(k, c, f);
            int to = breakdown.indexes[k] * coefficients;
            for (int j = 0; j < coefficients; j++) {
                double part = from[at + j] * share + (j == 0 ? 0 : from[at + j - 1] * slope);
                next[to + j] += part;
                nextFat[to + j] += part * leanTrimFat.get(k);
            }
        }
    }

    private int at(int c, int f, int slot) {
        return (grid.index(c, f) * slots(layout) + slot) * coefficients;
    }

    /** Coefficients of a slot's polynomial at a node, constant first. */
    double[] polynomial(int conformation, int fat, int slot) {
        int from = at(conformation, fat, slot);
        return Arrays.copyOfRange(nodes, from, from + coefficients);
    }

    /**
     * Whether a slot holds anything at any grade and weight.
     *
     * @param slot slot of the layout
     * @return false if its share is 0 everywhere
     */
    public boolean yields(int slot) {
        boolean[] yields = {false};
        grid.forEach((c, f) -> {
            for (int j = 0; j < coefficients; j++) {
                yields[0] |= nodes[at(c, f, slot) + j] != 0;
            }
        });
        return yields[0];
    }

    /**
     * The share of a figure at a node.
     *
     * @param conformation whole position on the 18-point scale
     * @param fat whole position on the 15-point scale
     * @param figure weight of every entry of {@link #shares}
     * @return a polynomial in t = (w - w0)/100, constant first
     */
    public double[] polynomial(int conformation, int fat, double[] figure) {
        double[] sum = new double[coefficients];
        for (int slot = 0; slot < figure.length; slot++) {
            if (figure[slot] != 0) {
                int from = at(conformation, fat, slot);
                for (int j = 0; j < coefficients; j++) {
                    sum[j] += figure[slot] * nodes[from + j];
                }
            }
        }
        return sum;
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

    /** Takes a node and the part it has in a place between nodes. */
    public interface Corner {
        /**
         * Takes one node.
         *
         * @param conformation whole position on the 18-point scale
         * @param fat whole position on the 15-point scale
         * @param weight its bilinear weight, above 0
         */
        void at(int conformation, int fat, double weight);
    }

    /**
     * The nodes around a place and their bilinear weights: one, two or four nodes.
     *
     * @param conformation position on the 18-point scale
     * @param fat position on the 15-point scale
     * @param corner takes each node
     * @throws IllegalArgumentException if a grade is outside the grid
     */
    public void corners(double conformation, double fat, Corner corner) {
        if (!(conformation >= grid.lowConformation
                && conformation <= grid.highConformation
                && fat >= grid.lowFat
                && fat <= grid.highFat)) {
            throw new IllegalArgumentException(
                    "conformation " + conformation + " or fat " + fat + " is outside the grid of this table");
        }
        int c = (int) conformation;
        int f = (int) fat;
        double dc = conformation - c;
        double df = fat - f;
        corner.at(c, f, (1 - dc) * (1 - df));
        if (dc > 0) {
            corner.at(c + 1, f, dc * (1 - df));
        }
        if (df > 0) {
            corner.at(c, f + 1, (1 - dc) * df);
        }
        if (dc > 0 && df > 0) {
            corner.at(c + 1, f + 1, dc * df);
        }
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
        if (!Double.isFinite(weightKg)) {
            throw new IllegalArgumentException("weight " + weightKg + " kg is not a number");
        }
        double t = (weightKg - referenceWeightKg) / 100;
        double[] shares = new double[slots(layout)];
        corners(conformation, fat, (c, f, weight) -> add(shares, c, f, weight, t));
        return shares;
    }

    private void add(double[] shares, int c, int f, double weight, double t) {
        int from = at(c, f, 0);
        for (int slot = 0; slot < shares.length; slot++) {
            double value = nodes[from + coefficients - 1];
            for (int j = coefficients - 2; j >= 0; j--) {
                value = value * t + nodes[from + j];
            }
            shares[slot] += weight * value;
            from += coefficients;
        }
    }
}
