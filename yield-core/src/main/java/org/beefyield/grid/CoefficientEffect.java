package org.beefyield.grid;

import java.util.List;

/**
 * What errors of coefficients of one breakdown, of one column or of several that are tied to each other, do to a figure. These errors are the same in every carcass,
 * so effects of equal {@link #key() keys} add up before they are squared.
 */
public final class CoefficientEffect {
    /**
     * What makes errors the same ones: the breakdown, the columns and the standard errors.
     *
     * @param parent code of the cut that is broken down
     * @param way its way
     * @param firstAlike number of the first category of the table whose coefficients of this breakdown are the same
     * @param columns indexes of the coefficient columns
     * @param standardErrors standard errors of the children column by column, fractions of the parent
     */
    public record Key(String parent, String way, int firstAlike, List<Integer> columns, List<Double> standardErrors) {
        /**
         * Copies the list.
         */
        public Key {
            columns = List.copyOf(columns);
            standardErrors = List.copyOf(standardErrors);
        }
    }

    private final Key key;
    private final ClosedErrors errors;
    private final double[][] ofChildren;

    CoefficientEffect(Key key, ClosedErrors errors, double[][] ofChildren) {
        this.key = key;
        this.errors = errors;
        this.ofChildren = ofChildren;
    }

    /**
     * What makes errors the same ones.
     *
     * @return the key
     */
    public Key key() {
        return key;
    }

    /**
     * Number of coefficients: children times columns.
     *
     * @return 1 or more
     */
    public int children() {
        return ofChildren.length;
    }

    /**
     * What an error of a coefficient does to the figure.
     *
     * @param child index of the coefficient: all children of the first column, then of the next
     * @return a polynomial in t = (w - w0)/100, constant first: change of the figure's share per unit of the error
     */
    public double[] ofChild(int child) {
        return ofChildren[child].clone();
    }

    /**
     * The variance of the figure's share from these errors.
     *
     * @return a polynomial in t = (w - w0)/100, constant first
     */
    public double[] variance() {
        return errors.covariance(ofChildren, ofChildren);
    }

    /**
     * The covariance of two figures from these errors.
     *
     * @param a what an error of each child does to one figure
     * @param b what an error of each child does to the other
     * @return the covariance
     */
    public double covariance(double[] a, double[] b) {
        double[][] constantA = new double[a.length][1];
        double[][] constantB = new double[b.length][1];
        for (int k = 0; k < a.length; k++) {
            constantA[k][0] = a[k];
            constantB[k][0] = b[k];
        }
        return errors.covariance(constantA, constantB)[0];
    }
}
