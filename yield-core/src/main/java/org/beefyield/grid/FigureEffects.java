package org.beefyield.grid;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * What errors of the breakdowns do to one figure, at any node: by breakdown that the figure hangs on and by child, a polynomial
 * in t = (w - w0)/100. It depends on shares alone, so that categories with one grid have it in common. What was worked out for
 * a node is kept. Not thread-safe.
 */
public final class FigureEffects {
    private final YieldGrid grid;
    private final Effects effects;
    private final double[] figure;
    private final int coefficients;
    /** Slots that count for the figure. */
    private final int[] slots;
    /** Breakdowns that the figure hangs on, by number. */
    private final int[] links;

    private final double[] weights;
    private final double[] slopes;
    private final ClosedErrors.Room room;
    private final double[] @Nullable [][] kept;
    private final double[] @Nullable [] shares;

    /**
     * @param grid what the figure is of: carcasses, or a part of them
     * @param effects what errors do to it
     */
    FigureEffects(BreakdownTree tree, YieldGrid grid, Effects effects, double[] figure) {
        this.grid = grid;
        this.effects = effects;
        this.figure = figure;
        this.coefficients = tree.coefficients();
        int used = 0;
        int[] nonZero = new int[figure.length];
        for (int slot = 0; slot < figure.length; slot++) {
            if (figure[slot] != 0) {
                nonZero[used++] = slot;
            }
        }
        slots = Arrays.copyOf(nonZero, used);
        links = effects.links();
        int most = 0;
        for (int link : links) {
            most = Math.max(most, tree.link(link).breakdown.indexes.length);
        }
        weights = new double[most];
        slopes = new double[most];
        room = new ClosedErrors.Room(coefficients);
        int nodes = grid.nodes().size();
        kept = new double[nodes][][];
        shares = new double[nodes][];
    }

    /** Breakdowns that the figure hangs on, by number, in the order of their effects. */
    int[] links() {
        return links;
    }

    int coefficients() {
        return coefficients;
    }

    ClosedErrors.Room room() {
        return room;
    }

    /** By breakdown of {@link #links}, child by child, what an error of the child does to the figure. */
    double[][] at(int node) {
        double[][] found = kept[node];
        if (found == null) {
            found = effects.at(node);
            kept[node] = found;
        }
        return found;
    }

    /** By child, what an error of it does to carcasses together; overwritten by the next call. */
    double[] weights(double[] effects, double[] sums) {
        double[] filled = noWeights();
        addWeights(effects, sums, 0, filled);
        return filled;
    }

    /** The same of an error that grows by 1 per 100 kg above the reference weight. */
    double[] weightsPer100Kg(double[] effects, double[] sums) {
        Arrays.fill(slopes, 0);
        addWeights(effects, sums, 1, slopes);
        return slopes;
    }

    /** Room for weights, overwritten by the next call. */
    double[] noWeights() {
        Arrays.fill(weights, 0);
        return weights;
    }

    /** Adds by child what an error of it does to carcasses whose sums begin at a place. */
    void addWeights(double[] effects, double[] sums, int from, double[] weights) {
        if (coefficients == 3) {
            // what nearly every table has
            double s0 = sums[from];
            double s1 = sums[from + 1];
            double s2 = sums[from + 2];
            for (int k = 0, e = 0; e < effects.length; k++, e += 3) {
                weights[k] += effects[e] * s0 + effects[e + 1] * s1 + effects[e + 2] * s2;
            }
            return;
        }
        for (int k = 0; k < effects.length / coefficients; k++) {
            for (int j = 0; j < coefficients; j++) {
                weights[k] += effects[k * coefficients + j] * sums[from + j];
            }
        }
    }

    /**
     * The figure's share at a node.
     *
     * @return a polynomial in t, constant first; not to be changed
     */
    public double[] share(int node) {
        double[] found = shares[node];
        if (found == null) {
            found = grid.ofSlots(node, figure, slots);
            shares[node] = found;
        }
        return found;
    }
}
