package org.beefyield.calibrate;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/** A multi-response fit of shares, shrunk towards prior coefficients with a given strength. */
final class Regression {
    private static final int FOLDS = 10;

    /** What is left of a row's own weight in its fit if it alone determines a term: noise. */
    private static final double ALONE = 1e-9;

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

    Regression(
            double[][] x,
            double[][] y,
            double[][] known,
            double[] weights,
            double[][] prior,
            double[][] root,
            double strength) {
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

    /** Terms of each row, times the root of its weight. */
    double[][] weighted() {
        double[][] rows = new double[weights.length][x.length];
        for (int i = 0; i < rows.length; i++) {
            for (int j = 0; j < x.length; j++) {
                rows[i][j] = x[j][i] * Math.sqrt(weights[i]);
            }
        }
        return rows;
    }

    boolean isDetermined() {
        return solved.dependent().isEmpty();
    }

    int terms() {
        return prior.length;
    }

    int responses() {
        return prior[0].length;
    }

    /** The same with another strength, and the moments that it counts in. */
    Regression with(double otherStrength, double[][] otherRoot) {
        return new Regression(x, y, known, weights, prior, otherRoot, otherStrength);
    }

    /** Number of rows. */
    int rows() {
        return weights.length;
    }

    /** What some coefficients expect of a row. */
    private double[] expected(int row, double[][] coefficients) {
        double[] expected = new double[y.length];
        for (int k = 0; k < expected.length; k++) {
            expected[k] = known.length > 0 ? known[k][row] : 0;
            for (int j = 0; j < x.length; j++) {
                expected[k] += x[j][row] * coefficients[j][k];
            }
        }
        return expected;
    }

    /** What the prior coefficients alone expect of a row. */
    double[] expectedByPrior(int row) {
        return expected(row, prior);
    }

    /** SD of a response between carcasses of one grade. */
    double sd(int k) {
        return Math.sqrt(squares[k] / degreesOfFreedom);
    }

    /** Residual sum of squares and products of two responses. */
    double squares(int k, int l) {
        if (k == l) {
            return squares[k];
        }
        double sum = 0;
        for (int i = 0; i < weights.length; i++) {
            sum += weights[i] * residuals[k][i] * residuals[l][i];
        }
        return sum;
    }

    double r2(int k) {
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

    double rmse(int k) {
        return Math.sqrt(squares[k] / Arrays.stream(weights).sum());
    }

    /**
     * Root of the mean squared error of each carcass under the fit to all others, from the leverages; NaN if one alone
     * determines a term.
     */
    double leaveOneOut(int k) {
        double sum = 0;
        for (int i = 0; i < weights.length; i++) {
            if (1 - leverage[i] < ALONE) {
                return Double.NaN;
            }
            double out = residuals[k][i] / (1 - leverage[i]);
            sum += weights[i] * out * out;
        }
        return Math.sqrt(sum / Arrays.stream(weights).sum());
    }

    /** The same with a tenth of the carcasses left out at a time; NaN if what is left doesn't determine the terms. */
    double[] kFold() {
        int n = rows();
        int folds = Math.min(FOLDS, n);
        double[] sums = new double[responses()];
        for (int fold = 0; fold < folds; fold++) {
            int first = fold;
            int[] in = IntStream.range(0, n).filter(i -> i % folds != first).toArray();
            Regression without =
                    new Regression(pick(x, in), pick(y, in), pick(known, in), pick(weights, in), prior, root, strength);
            if (!without.isDetermined()) {
                Arrays.fill(sums, Double.NaN);
                return sums;
            }
            for (int i = fold; i < n; i += folds) {
                double[] expected = expected(i, without.solved.coefficients());
                for (int k = 0; k < sums.length; k++) {
                    sums[k] += weights[i] * (y[k][i] - expected[k]) * (y[k][i] - expected[k]);
                }
            }
        }
        double whole = Arrays.stream(weights).sum();
        return Arrays.stream(sums).map(sum -> Math.sqrt(sum / whole)).toArray();
    }

    private static double[][] pick(double[][] columns, int[] indexes) {
        return Arrays.stream(columns).map(column -> pick(column, indexes)).toArray(double[][]::new);
    }

    private static double[] pick(double[] values, int[] indexes) {
        return Arrays.stream(indexes).mapToDouble(i -> values[i]).toArray();
    }

    /** A group of rows against the fit to all others. */
    record Shift(double mean, double t) {}

    /**
     * How far a response lies off on some rows together: the mean residual there, and Student's t, with
     * {@link #degreesOfFreedom} less 1, of a shift of these rows added to the fit.
     */
    Shift shift(int[] rows, int k) {
        double[][] sum = new double[terms()][1];
        double mean = 0;
        double weight = 0;
        for (int i : rows) {
            mean += weights[i] * residuals[k][i];
            weight += weights[i];
            for (int j = 0; j < sum.length; j++) {
                sum[j][0] += x[j][i] * weights[i];
            }
        }
        solved.turn(sum, 1);
        double variance = weight;
        for (double[] value : sum) {
            variance -= value[0] * value[0];
        }
        double explained = mean * mean / variance;
        double rest = (squares[k] - explained) / (degreesOfFreedom - 1);
        double t = variance > ALONE * weight && rest > 0 ? mean / Math.sqrt(variance * rest) : 0;
        return new Shift(mean / weight, t);
    }
}
