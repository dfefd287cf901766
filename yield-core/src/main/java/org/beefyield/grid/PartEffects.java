package org.beefyield.grid;

import java.util.stream.IntStream;

/**
 * What errors of breakdowns do to a figure of a part of carcasses. An error below the level that is divided does to the part what
 * it does to as much of the cut as lies in it. One above does it through each of the cuts that are divided; and as a cut before
 * that level counts as far as what comes of it lies in the part, it also moves that.
 */
final class PartEffects implements Effects {
    private final BreakdownTree tree;
    private final PartOfCarcass part;
    private final YieldGrid ofPart;
    private final double[] figure;
    private final int coefficients;
    /** By breakdown, the level and the cut that it breaks down; of the carcass before the first, -1. */
    private final int[] levelOf;

    private final int[] cutOf;
    private final int[] links;

    /**
     * @param ofPart the grid of the part
     * @param figure its weights for what the part yields
     */
    PartEffects(BreakdownTree tree, PartOfCarcass part, YieldGrid ofPart, double[] figure) {
        this.tree = tree;
        this.part = part;
        this.ofPart = ofPart;
        this.figure = figure;
        this.coefficients = tree.coefficients();
        levelOf = new int[tree.links().size()];
        cutOf = new int[tree.links().size()];
        levelOf[tree.root()] = -1;
        for (int level = 0; level < tree.levels(); level++) {
            for (int cut = 0; cut < tree.cuts(); cut++) {
                if (tree.slot(level, cut) >= 0 && tree.follows(level, cut) >= 0) {
                    levelOf[tree.follows(level, cut)] = level;
                    cutOf[tree.follows(level, cut)] = cut;
                }
            }
        }
        boolean[] counts = countingLinks();
        links = IntStream.range(0, counts.length).filter(link -> counts[link]).toArray();
    }

    /** By breakdown, whether the figure may hang on it. */
    private boolean[] countingLinks() {
        boolean[] counts = new boolean[tree.links().size()];
        boolean[] below = new boolean[tree.cuts()];
        for (int level = tree.levels() - 1; level >= 0; level--) {
            boolean[] here = new boolean[tree.cuts()];
            for (int cut = 0; cut < tree.cuts(); cut++) {
                int slot = tree.slot(level, cut);
                if (slot < 0) {
                    continue;
                }
                int link = tree.follows(level, cut);
                if (link >= 0) {
                    counts[link] = counts(link, below);
                }
                here[cut] = (figure[slot] != 0 || (link < 0 ? below[cut] : counts[link]))
                        && (level != part.level() || part.fraction(cut) != 0);
            }
            below = here;
        }
        counts[tree.root()] = counts(tree.root(), below);
        boolean[] above = new boolean[tree.cuts()];
        for (int level = 0; level < part.level(); level++) {
            boolean[] next = new boolean[tree.cuts()];
            for (int cut = 0; cut < tree.cuts(); cut++) {
                int slot = tree.slot(level, cut);
                if (slot < 0 || !(above[cut] || figure[slot] != 0)) {
                    continue;
                }
                int link = tree.follows(level, cut);
                if (link < 0) {
                    next[cut] = true;
                } else {
                    counts[link] = true;
                    for (int child : tree.link(link).breakdown.indexes) {
                        next[child] = true;
                    }
                }
            }
            above = next;
        }
        return counts;
    }

    private boolean counts(int link, boolean[] below) {
        int[] children = tree.link(link).breakdown.indexes;
        for (int k = 0; k < children.length; k++) {
            if (below[children[k]] || fatInLeanTrim(link, k) != 0) {
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
        double[][] within = part.within(tree, node);
        double[][] worth = worth(node, within);
        double[][] passing = passing(node);
        double[][] effects = new double[links.length][];
        for (int i = 0; i < links.length; i++) {
            effects[i] = effects(links[i], node, within, worth, passing);
        }
        return effects;
    }

    /** By level and cut, what a kg of it is worth to the figure through what comes of it and lies in the part. */
    private double[][] worth(int node, double[][] within) {
        double[][] worth = new double[tree.levels()][tree.cuts() * coefficients];
        for (int level = tree.levels() - 1; level >= 0; level--) {
            for (int cut = 0; cut < tree.cuts(); cut++) {
                int slot = tree.slot(level, cut);
                if (slot < 0) {
                    continue;
                }
                int at = cut * coefficients;
                int link = tree.follows(level, cut);
                if (link < 0 && level < tree.levels() - 1) {
                    System.arraycopy(worth[level + 1], at, worth[level], at, coefficients);
                } else if (link >= 0) {
                    int[] children = tree.link(link).breakdown.indexes;
                    for (int k = 0; k < children.length; k++) {
                        PartOfCarcass.addTimes(
                                tree.link(link).breakdown,
                                k,
                                node,
                                ofChild(link, k, level + 1, within, worth),
                                0,
                                worth[level],
                                at,
                                coefficients);
                    }
                }
                if (level >= part.level()) {
                    worth[level][at] += figure[slot];
                }
                for (int j = 0; j < coefficients; j++) {
                    if (level < part.level()) {
                        worth[level][at + j] += figure[slot] * within[level][at + j];
                    } else if (level == part.level()) {
                        worth[level][at + j] *= part.fraction(cut);
                    }
                }
            }
        }
        return worth;
    }

    /** What a kg of a child is worth, with the fat in it if it is lean trim. */
    private double[] ofChild(int link, int child, int level, double[][] within, double[][] worth) {
        double[] of = new double[coefficients];
        int at = tree.link(link).breakdown.indexes[child] * coefficients;
        System.arraycopy(worth[level], at, of, 0, coefficients);
        double fat = fatInLeanTrim(link, child);
        if (fat != 0 && level > part.level()) {
            of[0] += fat;
        } else if (fat != 0) {
            for (int j = 0; j < coefficients; j++) {
                of[j] += fat * within[level][at + j];
            }
        }
        return of;
    }

    /** By level before the one that is divided, what comes to a cut of the cuts before it, times what the figure counts these. */
    private double[][] passing(int node) {
        double[][] passing = new double[part.level()][tree.cuts() * coefficients];
        for (int level = 0; level < part.level(); level++) {
            for (int cut = 0; cut < tree.cuts(); cut++) {
                int slot = tree.slot(level, cut);
                if (slot < 0) {
                    continue;
                }
                int at = cut * coefficients;
                if (figure[slot] != 0) {
                    double[] amount = tree.grid().ofSlot(node, slot);
                    for (int j = 0; j < coefficients; j++) {
                        passing[level][at + j] += figure[slot] * amount[j];
                    }
                }
                int link = tree.follows(level, cut);
                if (level + 1 < part.level()) {
                    pass(link, node, passing[level], at, passing[level + 1]);
                }
            }
        }
        return passing;
    }

    private void pass(int link, int node, double[] from, int at, double[] to) {
        if (link < 0) {
            for (int j = at; j < at + coefficients; j++) {
                to[j] += from[j];
            }
            return;
        }
        Breakdown breakdown = tree.link(link).breakdown;
        for (int k = 0; k < breakdown.indexes.length; k++) {
            PartOfCarcass.addTimes(breakdown, k, node, from, at, to, breakdown.indexes[k] * coefficients, coefficients);
        }
    }

    private double[] effects(int link, int node, double[][] within, double[][] worth, double[][] passing) {
        int level = levelOf[link];
        int[] children = tree.link(link).breakdown.indexes;
        double[] effects = new double[children.length * coefficients];
        double[] amount;
        double[] passed = new double[coefficients];
        if (level < 0) {
            amount = new double[coefficients];
            amount[0] = 1;
        } else if (level < part.level()) {
            amount = tree.grid().ofSlot(node, tree.slot(level, cutOf[link]));
            System.arraycopy(passing[level], cutOf[link] * coefficients, passed, 0, coefficients);
        } else {
            amount = ofPart.ofSlot(node, tree.slot(level, cutOf[link]));
        }
        for (int k = 0; k < children.length; k++) {
            int to = k * coefficients;
            PartOfCarcass.addProduct(amount, ofChild(link, k, level + 1, within, worth), 0, 1, effects, to);
            if (level >= 0 && level < part.level()) {
                PartOfCarcass.addProduct(passed, within[level + 1], children[k] * coefficients, 1, effects, to);
            }
        }
        return effects;
    }
}
