package org.beefyield.stats;

import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Objects;

/**
 * Least squares of several responses on the same terms and rows, by Householder's reflections and not by normal equations,
 * shrunk towards prior coefficients with a given strength: the sum of weighted squares |Y - known - XB|² plus strength ×
 * (B - B0)'R'R(B - B0) is least, where B0 are the prior coefficients and R'R the moments of the terms behind them. The
 * arrays given are kept, not copied.
 */
public final class Regression {
    /** Terms by rows. */
    final double[][] x;
    /** Responses by rows. */
    final double[][] y;
    /** What is known of each response beforehand and not fitted, responses by rows; none if nothing is. */
    private final double[][] known;

    final double[] weights;
    /** Roots of the weights; none if all are 1. */
    private final double[] scale;
    /** Prior coefficients, terms by responses. */
    private final double[][] prior;
    /** Root of the moments of the terms. */
    private final double[][] root;

    final double strength;
    final LeastSquares solved;
    /** Responses by rows. */
    final double[][] residuals;

    final double[] leverage;
    final double degreesOfFreedom;
    /** Sum of the squared residuals by response. */
    private final double[] squares;

    /**
     * Fits. Thousands of rows are shared out between the threads of the common pool; the figures don't depend on how many
     * there are.
     *
     * @param x terms by rows
     * @param y responses by rows
     * @param known what is known of each response beforehand and not fitted, responses by rows; none if nothing is
     * @param weights weight of each row, above 0
     * @param prior prior coefficients, terms by responses
     * @param root a matrix R, any number of rows by terms, whose square is the moments of the terms behind the prior; see
     *     {@link #root(double[][])}
     * @param strength how many rows the prior counts for, 0 or more; 0 for plain least squares
     * @throws IllegalArgumentException if there is no term, row or response, the arrays don't fit each other or hold what is no finite number, a
     *     weight isn't above 0 or the strength is below 0
     */
    public Regression(
            double[][] x,
            double[][] y,
            double[][] known,
            double[] weights,
            double[][] prior,
            double[][] root,
            double strength) {
        refuseNull(known, "known");
        refuseNull(prior, "prior");
        refuseNull(root, "root");
        refuseNull(x, "x");
        refuseNull(y, "y");
        Objects.requireNonNull(weights, "weights");
        check("x", x, x.length, weights.length);
        check("y", y, y.length, weights.length);
        check("prior", prior, x.length, y.length);
        if (known.length > 0) {
            check("known", known, y.length, weights.length);
        }
        refuseNonsense("x", x);
        refuseNonsense("y", y);
        refuseNonsense("known", known);
        refuseNonsense("prior", prior);
        if (!(strength >= 0 && Double.isFinite(strength))) {
            throw new IllegalArgumentException("strength " + strength + " is not a number of rows, 0 or more");
        }
        if (strength > 0) {
            check("root", root, root.length, x.length);
            refuseNonsense("root", root);
        }
        if (!Arrays.stream(weights).allMatch(weight -> weight > 0 && Double.isFinite(weight))) {
            throw new IllegalArgumentException("a weight is above 0");
        }
        this.x = x;
        this.y = y;
        this.known = known;
        this.weights = weights;
        this.scale = Arrays.stream(weights).allMatch(weight -> weight == 1)
                ? new double[0]
                : Arrays.stream(weights).map(Math::sqrt).toArray();
        this.prior = prior;
        this.root = root;
        this.strength = strength;
        int n = weights.length;
        int extra = strength > 0 ? root.length : 0;
        this.solved = new LeastSquares(n + extra, x.length, y.length, (from, to, columns, at) -> {
            if (from < n) {
                copyTerms(from, Math.min(to, n), columns, at);
                copyResponses(from, Math.min(to, n), columns, at);
            }
            for (int i = Math.max(from, n); i < to; i++) {
                copyPrior(i - n, columns, at + i - from);
            }
        });
        this.residuals = new double[y.length][n];
        this.leverage = new double[n];
        this.squares = new double[y.length];
        if (!isDetermined()) {
            this.degreesOfFreedom = 0;
            return;
        }
        List<Sums> sums = LeastSquares.inShares(n, Sums::new);
        double[][] square = new double[terms()][terms()];
        for (Sums ofShare : sums) {
            LeastSquares.add(ofShare.squares, 1, squares, y.length);
            for (int a = 0; a < terms(); a++) {
                LeastSquares.add(ofShare.turned[a], 1, square[a], terms());
            }
        }
        double traceOfSquare = 0;
        for (double[] row : square) {
            for (double value : row) {
                traceOfSquare += value * value;
            }
        }
        double trace = Arrays.stream(leverage).sum();
        this.degreesOfFreedom = strength > 0 ? n - 2 * trace + traceOfSquare : n - terms();
    }

    private static void refuseNull(double[][] array, String name) {
        Objects.requireNonNull(array, name);
        for (double[] column : array) {
            Objects.requireNonNull(column, name);
        }
    }

    private static void refuseNonsense(String name, double[][] array) {
        for (int column = 0; column < array.length; column++) {
            for (int i = 0; i < array[column].length; i++) {
                if (!Double.isFinite(array[column][i])) {
                    throw new IllegalArgumentException("\"" + name + "\" holds " + array[column][i] + " at " + column
                            + ", " + i + "; it should hold finite numbers");
                }
            }
        }
    }

    private static void check(String name, double[][] array, int columns, int length) {
        boolean fits = columns > 0
                && length > 0
                && array.length == columns
                && Arrays.stream(array).allMatch(column -> column.length == length);
        if (!fits) {
            throw new IllegalArgumentException(
                    "\"" + name + "\" should be " + Math.max(1, columns) + " by " + Math.max(1, length) + " numbers");
        }
    }

    /**
     * A triangle whose square is that of a matrix.
     *
     * @param columns terms by rows, a row or more
     * @return as many rows as terms
     */
    public static double[][] root(double[][] columns) {
        refuseNull(columns, "columns");
        return LeastSquares.triangle(columns);
    }

    /** Terms times the roots of the weights. */
    private void copyTerms(int from, int to, double[][] columns, int at) {
        for (int j = 0; j < x.length; j++) {
            System.arraycopy(x[j], from, columns[j], at, to - from);
            scale(columns[j], at, from, to);
        }
    }

    /** What is not known of the responses, times the roots of the weights. */
    private void copyResponses(int from, int to, double[][] columns, int at) {
        for (int k = 0; k < y.length; k++) {
            double[] column = columns[x.length + k];
            copyUnknown(k, from, to, column, at);
            scale(column, at, from, to);
        }
    }

    private void copyUnknown(int k, int from, int to, double[] column, int at) {
        System.arraycopy(y[k], from, column, at, to - from);
        for (int i = from; i < to && known.length > 0; i++) {
            column[at + i - from] -= known[k][i];
        }
    }

    private void scale(double[] column, int at, int from, int to) {
        for (int i = from; i < to && scale.length > 0; i++) {
            column[at + i - from] *= scale[i];
        }
    }

    /** A row of the moments that the prior counts for, and what it expects there. */
    private void copyPrior(int row, double[][] columns, int at) {
        for (int j = 0; j < x.length; j++) {
            double term = Math.sqrt(strength) * root[row][j];
            columns[j][at] = term;
            for (int k = 0; k < y.length; k++) {
                columns[x.length + k][at] = (j == 0 ? 0 : columns[x.length + k][at]) + term * prior[j][k];
            }
        }
    }

    /** Residuals and leverages of a share of the rows, and their sums. */
    private final class Sums {
        private final double[] squares = new double[y.length];
        /** Of the products of terms in the directions of the triangle. */
        private final double[][] turned = new double[terms()][terms()];

        private final double[][] columns = new double[terms()][LeastSquares.BLOCK];
        private final double[] rest = new double[LeastSquares.BLOCK];
        private final double[] coefficients = new double[terms()];

        Sums(int first, int last) {
            for (int from = first; from < last; from += LeastSquares.BLOCK) {
                int to = Math.min(last, from + LeastSquares.BLOCK);
                fillResiduals(from, to);
                copyTerms(from, to, columns, 0);
                solved.turn(columns, to - from);
                for (double[] column : columns) {
                    for (int i = from; i < to; i++) {
                        leverage[i] += column[i - from] * column[i - from];
                    }
                }
                for (int a = 0; a < columns.length && strength > 0; a++) {
                    for (int b = 0; b < columns.length; b++) {
                        turned[a][b] += LeastSquares.product(columns[a], columns[b], 0, to - from);
                    }
                }
            }
        }

        private void fillResiduals(int from, int to) {
            int rows = to - from;
            for (int j = 0; j < columns.length; j++) {
                System.arraycopy(x[j], from, columns[j], 0, rows);
            }
            for (int k = 0; k < squares.length; k++) {
                for (int j = 0; j < columns.length; j++) {
                    coefficients[j] = solved.coefficients()[j][k];
                }
                copyUnknown(k, from, to, rest, 0);
                subtract(columns, coefficients, rest, rows);
                System.arraycopy(rest, 0, residuals[k], from, rows);
                scale(rest, 0, from, to);
                squares[k] += LeastSquares.product(rest, rest, 0, rows);
            }
        }
    }

    /** Takes so many times each column off another, two at a time, so that it is read and written the less often. */
    private static void subtract(double[][] columns, double[] times, double[] from, int rows) {
        int j = 0;
        for (; j + 2 <= times.length; j += 2) {
            subtract(columns[j], times[j], columns[j + 1], times[j + 1], from, rows);
        }
        for (; j < times.length; j++) {
            LeastSquares.add(columns[j], -times[j], from, rows);
        }
    }

    private static void subtract(double[] a, double timesA, double[] b, double timesB, double[] from, int rows) {
        for (int i = 0; i < rows; i++) {
            from[i] = from[i] - timesA * a[i] - timesB * b[i];
        }
    }

    /**
     * Whether the rows tell all terms apart; if not, there are no coefficients.
     *
     * @return true if every term can be estimated
     */
    public boolean isDetermined() {
        return solved.dependent().isEmpty();
    }

    /**
     * Terms that can't be told from those before them.
     *
     * @return their numbers in ascending order, none if all can be estimated
     */
    public List<Integer> dependent() {
        return Collections.unmodifiableList(solved.dependent());
    }

    /**
     * How a term that can't be told from those before it depends on them.
     *
     * @param dependentIndex its place among the {@link #dependent()} ones
     * @return its coefficients on the terms before it that are not dependent themselves
     */
    public double[] dependence(int dependentIndex) {
        return solved.dependence(dependentIndex).clone();
    }

    /**
     * A coefficient.
     *
     * @param term number of a term
     * @param response number of a response
     * @return the coefficient; 0 unless {@link #isDetermined()}
     */
    public double coefficient(int term, int response) {
        return solved.coefficients()[term][response];
    }

    /**
     * Covariance of the coefficients of a response for a residual variance of 1: the inverse of the square of the terms.
     *
     * @return terms by terms
     */
    public double[][] unscaledCovariance() {
        return solved.unscaledCovariance();
    }

    /**
     * Number of terms.
     *
     * @return 1 or more
     */
    public int terms() {
        return prior.length;
    }

    /**
     * Number of responses.
     *
     * @return 1 or more
     */
    public int responses() {
        return prior[0].length;
    }

    /**
     * Leverage of a row: what part of its own weight is in its fit.
     *
     * @param row number of a row
     * @return 0 to 1
     */
    public double leverage(int row) {
        return leverage[row];
    }

    /**
     * Degrees of freedom of the residuals: rows less terms; with shrinkage n - 2 tr H + tr HH', H the matrix that makes
     * fitted values of responses.
     *
     * @return 0 if the terms aren't determined
     */
    public double degreesOfFreedom() {
        return degreesOfFreedom;
    }

    /**
     * Residual SD of a response: the root of its squares by {@link #degreesOfFreedom()}.
     *
     * @param k number of a response
     * @return the SD, in the unit of the response
     */
    public double sd(int k) {
        return Math.sqrt(squares[k] / degreesOfFreedom);
    }

    /**
     * Weighted sum of the products of the residuals of two responses.
     *
     * @param k number of a response
     * @param l number of a response, the same one for its sum of squares
     * @return the sum
     */
    public double squares(int k, int l) {
        if (k == l) {
            return squares[k];
        }
        double sum = 0;
        for (int i = 0; i < weights.length; i++) {
            sum += weights[i] * residuals[k][i] * residuals[l][i];
        }
        return sum;
    }

    /**
     * Part of the variance of a response that the terms describe.
     *
     * @param k number of a response
     * @return R², at most 1; 0 if the response doesn't vary, below 0 if its mean alone were better
     */
    public double r2(int k) {
        double mean = 0;
        double weight = 0;
        for (int i = 0; i < weights.length; i++) {
            mean += weights[i] * y[k][i];
            weight += weights[i];
        }
        mean /= weight;
        double total = 0;
        for (int i = 0; i < weights.length; i++) {
            total += weights[i] * (y[k][i] - mean) * (y[k][i] - mean);
        }
        return total > 0 ? 1 - squares[k] / total : 0;
    }
}
