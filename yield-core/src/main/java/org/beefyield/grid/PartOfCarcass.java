package org.beefyield.grid;

import java.util.Arrays;

/**
 * A part of a carcass, such as its forequarters: by cut of one level the constant fraction that lies in it. What comes of a cut
 * lies in it as the cut does; a cut before that level as far as what comes of it does. Immutable.
 */
final class PartOfCarcass {
    private final int level;
    /** By cut, as the catalogue numbers them; of others than those of the level it means nothing. */
    private final double[] fractions;

    PartOfCarcass(int level, double[] fractions) {
        this.level = level;
        this.fractions = fractions.clone();
    }

    /** The level that is divided. */
    int level() {
        return level;
    }

    double fraction(int cut) {
        return fractions[cut];
    }

    /**
     * By level down to the one that is divided, the fraction of each cut that lies in the part, cut after cut: polynomials in
     * t = (w - w0)/100.
     */
    double[][] within(BreakdownTree tree, int node) {
        int coefficients = tree.coefficients();
        double[][] within = new double[level + 1][tree.cuts() * coefficients];
        for (int cut = 0; cut < tree.cuts(); cut++) {
            within[level][cut * coefficients] = fractions[cut];
        }
        for (int above = level - 1; above >= 0; above--) {
            for (int cut = 0; cut < tree.cuts(); cut++) {
                int to = cut * coefficients;
                int link = tree.slot(above, cut) < 0 ? -1 : tree.follows(above, cut);
                if (link < 0) {
                    System.arraycopy(within[above + 1], to, within[above], to, coefficients);
                } else {
                    addOfChildren(tree.link(link).breakdown, node, within[above + 1], within[above], to, coefficients);
                }
            }
        }
        return within;
    }

    /** Adds to a parent what its children have, each times its share. */
    private static void addOfChildren(
            Breakdown breakdown, int node, double[] children, double[] parents, int to, int coefficients) {
        for (int k = 0; k < breakdown.indexes.length; k++) {
            addTimes(breakdown, k, node, children, breakdown.indexes[k] * coefficients, parents, to, coefficients);
        }
    }

    /** Adds a polynomial times the share of a child, whose degree is known not to pass that of the grid. */
    static void addTimes(
            Breakdown breakdown, int child, int node, double[] from, int at, double[] sum, int to, int coefficients) {
        double share = breakdown.share(child, node);
        double slope = breakdown.slope(child, node);
        for (int j = 0; j < coefficients; j++) {
            sum[to + j] += share * from[at + j] + (j == 0 ? 0 : slope * from[at + j - 1]);
        }
    }

    /** Adds the product of two polynomials, whose degree is known not to pass that of the grid. */
    static void addProduct(double[] a, double[] b, int from, double factor, double[] sum, int to) {
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; i + j < a.length; j++) {
                sum[to + i + j] += factor * a[i] * b[from + j];
            }
        }
    }

    /** What a part of a carcass weighs at a node: every slot, and behind them the fat in the lean trim. */
    void fill(BreakdownTree tree, int node, double[][] filled) {
        YieldGrid carcass = tree.grid();
        int coefficients = tree.coefficients();
        double[][] within = within(tree, node);
        double[] amounts = new double[tree.cuts() * coefficients];
        double[] fat = new double[coefficients];
        double[] whole = new double[coefficients];
        whole[0] = 1;
        addFat(tree.link(tree.root()), node, whole, within[0], fat);
        for (int at = 0; at < tree.levels(); at++) {
            double[] next = new double[amounts.length];
            for (int cut = 0; cut < tree.cuts(); cut++) {
                int slot = tree.slot(at, cut);
                if (slot < 0) {
                    continue;
                }
                int to = cut * coefficients;
                if (at <= level) {
                    Arrays.fill(amounts, to, to + coefficients, 0);
                    addProduct(carcass.ofSlot(node, slot), within[at], to, 1, amounts, to);
                }
                for (int j = 0; j < coefficients; j++) {
                    filled[j][slot] = amounts[to + j];
                }
                int link = tree.follows(at, cut);
                if (link >= 0 && at < level) {
                    addFat(tree.link(link), node, carcass.ofSlot(node, slot), within[at + 1], fat);
                } else if (link >= 0) {
                    split(tree.link(link), node, amounts, to, next, fat);
                } else if (at >= level) {
                    for (int j = to; j < to + coefficients; j++) {
                        next[j] += amounts[j];
                    }
                }
            }
            if (at >= level) {
                amounts = next;
            }
        }
        for (int j = 0; j < coefficients; j++) {
            filled[j][filled[j].length - 1] = fat[j];
        }
    }

    /** Adds the fat in lean trim that comes off before the part does. */
    private static void addFat(BreakdownTree.Link link, int node, double[] amount, double[] within, double[] fat) {
        int coefficients = amount.length;
        for (int k = 0; k < link.leanTrimFat.length; k++) {
            if (link.leanTrimFat[k] != 0) {
                double[] ofChild = new double[coefficients];
                addTimes(link.breakdown, k, node, amount, 0, ofChild, 0, coefficients);
                addProduct(ofChild, within, link.breakdown.indexes[k] * coefficients, link.leanTrimFat[k], fat, 0);
            }
        }
    }

    private static void split(
            BreakdownTree.Link link, int node, double[] amounts, int at, double[] next, double[] fat) {
        int coefficients = fat.length;
        for (int k = 0; k < link.leanTrimFat.length; k++) {
            double[] ofChild = new double[coefficients];
            addTimes(link.breakdown, k, node, amounts, at, ofChild, 0, coefficients);
            for (int j = 0; j < coefficients; j++) {
                next[link.breakdown.indexes[k] * coefficients + j] += ofChild[j];
                fat[j] += link.leanTrimFat[k] * ofChild[j];
            }
        }
    }
}
