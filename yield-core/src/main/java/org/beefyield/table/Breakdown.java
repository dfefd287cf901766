package org.beefyield.table;

import java.util.Arrays;
import java.util.List;
import org.beefyield.cut.Cut;

/**
 * A breakdown of one parent in one way for one category: its children and their share of the parent at every node of the
 * allowed grades, closed. At a node a share is linear in t = (w - w0)/100.
 */
final class Breakdown {
    final String parent;
    final String way;
    final List<Cut> children;
    /** Index of each child in the catalogue. */
    final int[] indexes;
    /** Part of the definition that holds its rows, for messages. */
    final String resource;
    /** Index of a row of each child in that part, for messages. */
    final int[] rows;

    private final Nodes nodes;
    /** By child and node, fraction of the parent at the reference weight. */
    private final double[][] shares;
    /** By child and node, change of that per 100 kg. */
    private final double[][] slopes;

    Breakdown(
            String parent,
            String way,
            List<Cut> children,
            int[] indexes,
            String resource,
            int[] rows,
            Nodes nodes,
            double[][] shares,
            double[][] slopes) {
        this.parent = parent;
        this.way = way;
        this.children = children;
        this.indexes = indexes;
        this.resource = resource;
        this.rows = rows;
        this.nodes = nodes;
        this.shares = shares;
        this.slopes = slopes;
    }

    /** Share of a child at the reference weight. */
    double share(int child, int conformation, int fat) {
        return shares[child][nodes.index(conformation, fat)];
    }

    /** Change of a child's share per 100 kg. */
    double slope(int child, int conformation, int fat) {
        return slopes[child][nodes.index(conformation, fat)];
    }

    boolean usesWeight() {
        for (double[] ofChild : slopes) {
            for (double slope : ofChild) {
                if (slope != 0) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Whether two breakdowns give the same shares everywhere. */
    boolean sameShares(Breakdown other) {
        return children.equals(other.children)
                && Arrays.deepEquals(shares, other.shares)
                && Arrays.deepEquals(slopes, other.slopes);
    }
}
