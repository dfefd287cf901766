package org.beefyield.table;

import java.util.Arrays;
import java.util.List;
import org.beefyield.cut.Cut;

/**
 * A breakdown of one parent in one way for one category: its children and their share of the parent, closed. At a whole
 * position of both grades a share is linear in t = (w - w0)/100.
 */
final class Breakdown {
    final String parent;
    final String way;
    final List<Cut> children;
    /** Index of each child in the catalogue. */
    final int[] indexes;
    /** Index of each child's row in the definition, for messages. */
    final int[] rows;
    /** By child and coefficient column, fraction of the parent. */
    final double[][] coefficients;

    private final List<Term> terms;
    private final ReferencePoint reference;

    Breakdown(
            String parent,
            String way,
            List<Cut> children,
            int[] indexes,
            int[] rows,
            double[][] coefficients,
            List<Term> terms,
            ReferencePoint reference) {
        this.parent = parent;
        this.way = way;
        this.children = children;
        this.indexes = indexes;
        this.rows = rows;
        this.coefficients = coefficients;
        this.terms = terms;
        this.reference = reference;
    }

    /** Share of a child at the reference weight. */
    double share(int child, int conformation, int fat) {
        double[] k = coefficients[child];
        double c = conformation - reference.conformation();
        double f = fat - reference.fat();
        double share = k[0] + k[1] * c + k[2] * f;
        for (int i = 0; i < terms.size(); i++) {
            Term term = terms.get(i);
            double coefficient = k[BreakdownRow.PLAIN_COLUMNS.size() + i];
            if (term instanceof Term.Hinge hinge) {
                int x = hinge.variable() == Variable.FAT ? fat : conformation;
                share += coefficient
                        * Math.max(0, hinge.side() == Term.Side.BELOW ? hinge.knot() - x : x - hinge.knot());
            } else if (term instanceof Term.Product product && !hasWeight(product)) {
                share += coefficient * c * f;
            }
        }
        return share;
    }

    /** Change of a child's share per 100 kg. */
    double slope(int child, int conformation, int fat) {
        double[] k = coefficients[child];
        double slope = k[3];
        for (int i = 0; i < terms.size(); i++) {
            if (terms.get(i) instanceof Term.Product product && hasWeight(product)) {
                boolean withFat = product.first() == Variable.FAT || product.second() == Variable.FAT;
                slope += k[BreakdownRow.PLAIN_COLUMNS.size() + i]
                        * (withFat ? fat - reference.fat() : conformation - reference.conformation());
            }
        }
        return slope;
    }

    boolean usesWeight() {
        for (double[] k : coefficients) {
            if (k[3] != 0) {
                return true;
            }
            for (int i = 0; i < terms.size(); i++) {
                if (terms.get(i) instanceof Term.Product product
                        && hasWeight(product)
                        && k[BreakdownRow.PLAIN_COLUMNS.size() + i] != 0) {
                    return true;
                }
            }
        }
        return false;
    }

    private static boolean hasWeight(Term.Product product) {
        return product.first() == Variable.WEIGHT || product.second() == Variable.WEIGHT;
    }

    /** Whether two breakdowns give the same shares everywhere. */
    boolean sameShares(Breakdown other) {
        return children.equals(other.children) && Arrays.deepEquals(coefficients, other.coefficients);
    }
}
