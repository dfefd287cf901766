package org.beefyield.grid;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** What errors of breakdowns do to a figure of whole carcasses. */
final class CarcassEffects implements Effects {
    /** What a kg of a cut at a level is worth to the figure, from what those of the next level are. */
    private static final class Step {
        /** Where its worth is kept, counted from 1; at 0 nothing is worth anything. */
        private final int own;
        /** The breakdown that follows, or -1 if the cut stays. */
        private final int link;
        /** Where the worth of the children stands, or of the cut itself if it stays. */
        private final int[] children;
        /** Slot of the cut, or -1 for the whole carcass. */
        private final int slot;

        Step(int own, int link, int[] children, int slot) {
            this.own = own;
            this.link = link;
            this.children = children;
            this.slot = slot;
        }
    }

    private final BreakdownTree tree;
    private final double[] figure;
    private final int coefficients;
    private final List<Step> steps = new ArrayList<>();
    private final int[] links;
    private final double[] worth;

    CarcassEffects(BreakdownTree tree, double[] figure) {
        this.tree = tree;
        this.figure = figure;
        this.coefficients = tree.coefficients();
        int places = addSteps();
        links = steps.stream()
                .filter(step -> step.link >= 0)
                .mapToInt(step -> step.link)
                .toArray();
        worth = new double[places * coefficients];
    }

    private int addSteps() {
        int cuts = tree.cuts();
        int[] next = new int[cuts];
        int places = 1;
        for (int level = tree.levels() - 1; level >= 0; level--) {
            int[] here = new int[cuts];
            for (int cut = 0; cut < cuts; cut++) {
                int slot = tree.slot(level, cut);
                if (slot < 0) {
                    continue;
                }
                int link = tree.follows(level, cut);
                int[] children = link < 0 ? new int[] {next[cut]} : children(link, next);
                boolean hangs = link < 0 ? children[0] > 0 : hangsOn(link, children);
                if (hangs || figure[slot] != 0) {
                    here[cut] = places;
                    // nothing that follows counts
                    boolean stays = link < 0 || !hangs;
                    steps.add(new Step(
                            places, stays ? -1 : link, stays ? new int[] {hangs ? children[0] : 0} : children, slot));
                    places++;
                }
            }
            next = here;
        }
        int root = tree.root();
        int[] children = children(root, next);
        if (hangsOn(root, children)) {
            steps.add(new Step(places, root, children, -1));
            places++;
        }
        return places;
    }

    private int[] children(int link, int[] next) {
        int[] indexes = tree.link(link).breakdown.indexes;
        int[] children = new int[indexes.length];
        for (int k = 0; k < children.length; k++) {
            children[k] = next[indexes[k]];
        }
        return children;
    }

    private boolean hangsOn(int link, int[] children) {
        for (int k = 0; k < children.length; k++) {
            if (children[k] > 0 || fatInLeanTrim(link, k) != 0) {
                return true;
            }
        }
        return false;
    }

    private double fatInLeanTrim(int link, int child) {
        return figure[figure.length - 1] * tree.link(link).leanTrimFat[child];
    }

    @Override
    public int[] links() {
        return links;
    }

    @Override
    public double[][] at(int node) {
        double[][] effects = new double[links.length][];
        int link = 0;
        for (Step step : steps) {
            int own = step.own * coefficients;
            if (step.link < 0) {
                System.arraycopy(worth, step.children[0] * coefficients, worth, own, coefficients);
            } else {
                effects[link++] = broken(step, node);
            }
            if (step.slot >= 0) {
                worth[own] += figure[step.slot];
            }
        }
        return effects;
    }

    /** What a parent is worth through its children, and what their errors do. */
    private double[] broken(Step step, int node) {
        Breakdown breakdown = tree.link(step.link).breakdown;
        double[] effects = new double[step.children.length * coefficients];
        double[] ofChild = new double[coefficients];
        double[] amount;
        if (step.slot < 0) {
            amount = new double[coefficients];
            amount[0] = 1;
        } else {
            amount = tree.grid().ofSlot(node, step.slot);
        }
        int own = step.own * coefficients;
        Arrays.fill(worth, own, own + coefficients, 0);
        for (int k = 0; k < step.children.length; k++) {
            System.arraycopy(worth, step.children[k] * coefficients, ofChild, 0, coefficients);
            ofChild[0] += fatInLeanTrim(step.link, k);
            double share = breakdown.share(k, node);
            double slope = breakdown.slope(k, node);
            for (int j = 0; j < coefficients; j++) {
                worth[own + j] += share * ofChild[j] + (j == 0 ? 0 : slope * ofChild[j - 1]);
            }
            // a product whose degree is known not to pass that of the grid
            for (int i = 0; i < coefficients; i++) {
                for (int j = 0; i + j < coefficients; j++) {
                    effects[k * coefficients + i + j] += amount[i] * ofChild[j];
                }
            }
        }
        return effects;
    }
}
