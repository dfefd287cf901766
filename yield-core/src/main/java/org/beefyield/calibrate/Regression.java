package org.beefyield.calibrate;

import java.util.Arrays;
import java.util.stream.IntStream;

/** A multi-response fit of shares, shrunk towards prior coefficients with a given strength. */
final class Regression {
    private static final int FOLDS = 10;

    /** What is left of a row's own weight in its fit if it alone determines a term: noise. */
    private static final double ALONE = 1e-9;

    final double[][] x;
    final double[][] y;
    /** What is known of each response beforehand and not fitted, rows by responses. */
    private final double[][] known;

    final double[] weights;
    /** Prior coefficients, terms by responses. */
    private final double[][] prior;
    /** Root of the moments of the terms. */
    private final double[][] root;

    final double strength;
    final LeastSquares solved;
    /** Rows by responses. */
    final double[][] residuals;
    /** By row, its terms in the directions of the triangle, times the root of its weight. */
    private final double[][] turned;

    final double[] leverage;
    final double degreesOfFreedom;

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
        this.prior = prior;
        this.root = root;
        this.strength = strength;
        int n = x.length;
        int p = prior.length;
        int extra = strength > 0 ? root.length : 0;
        double[][] design = new double[n + extra][];
        double[][] responses = new double[n + extra][];
        for (int i = 0; i < n; i++) {
            double scale = Math.sqrt(weights[i]);
            design[i] = times(x[i], scale);
            responses[i] = new double[y[i].length];
            for (int k = 0; k < y[i].length; k++) {
                responses[i][k] = scale * (y[i][k] - known[i][k]);
            }
        }
        for (int i = 0; i < extra; i++) {
            design[n + i] = times(root[i], Math.sqrt(strength));
            responses[n + i] = product(design[n + i], prior);
        }
        this.solved = new LeastSquares(design, responses);
        this.residuals = new double[n][];
        this.turned = new double[n][p];
        this.leverage = new double[n];
        if (!isDetermined()) {
            this.degreesOfFreedom = 0;
            return;
        }
        double[][] square = new double[p][p];
        double trace = 0;
        for (int i = 0; i < n; i++) {
            double[] fitted = product(x[i], solved.coefficients());
            residuals[i] = new double[fitted.length];
            for (int k = 0; k < fitted.length; k++) {
                residuals[i][k] = y[i][k] - known[i][k] - fitted[k];
            }
            turned[i] = solved.turned(design[i]);
            for (int a = 0; a < p; a++) {
                leverage[i] += turned[i][a] * turned[i][a];
                for (int b = 0; b < p; b++) {
                    square[a][b] += turned[i][a] * turned[i][b];
                }
            }
            trace += leverage[i];
        }
        double traceOfSquare = 0;
        for (double[] row : square) {
            for (double value : row) {
                traceOfSquare += value * value;
            }
        }
        this.degreesOfFreedom = strength > 0 ? n - 2 * trace + traceOfSquare : n - p;
    }

    private static double[] times(double[] row, double factor) {
        double[] scaled = row.clone();
        for (int j = 0; j < scaled.length; j++) {
            scaled[j] *= factor;
        }
        return scaled;
    }

    private static double[] product(double[] row, double[][] matrix) {
        double[] product = new double[matrix[0].length];
        for (int j = 0; j < row.length; j++) {
            for (int k = 0; k < product.length; k++) {
                product[k] += row[j] * matrix[j][k];
            }
        }
        return product;
    }

    /** Terms of each row, times the root of its weight. */
    double[][] weighted() {
        double[][] weighted = new double[x.length][];
        for (int i = 0; i < x.length; i++) {
            weighted[i] = times(x[i], Math.sqrt(weights[i]));
        }
        return weighted;
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

    /** What some coefficients expect of a row. */
    private double[] expected(int row, double[][] coefficients) {
        double[] expected = product(x[row], coefficients);
        for (int k = 0; k < expected.length; k++) {
            expected[k] += known[row][k];
        }
        return expected;
    }

    /** What the prior coefficients alone expect of a row. */
    double[] expectedByPrior(int row) {
        return expected(row, prior);
    }

    /** SD of a response between carcasses of one grade. */
    double sd(int k) {
        return Math.sqrt(squares(k, k) / degreesOfFreedom);
    }

    /** Residual sum of squares and products of two responses. */
    double squares(int k, int l) {
        double sum = 0;
        for (int i = 0; i < y.length; i++) {
            sum += weights[i] * residuals[i][k] * residuals[i][l];
        }
        return sum;
    }

    double r2(int k) {
        double mean = 0;
        double weight = 0;
        for (int i = 0; i < y.length; i++) {
            mean += weights[i] * y[i][k];
            weight += weights[i];
        }
        mean /= weight;
        double total = 0;
        for (int i = 0; i < y.length; i++) {
            total += weights[i] * (y[i][k] - mean) * (y[i][k] - mean);
        }
        return total > 0 ? 1 - squares(k, k) / total : 0;
    }

    double rmse(int k) {
        return Math.sqrt(squares(k, k) / Arrays.stream(weights).sum());
    }

    /**
     * Root of the mean squared error of each carcass under the fit to all others, from the leverages; NaN if one alone
     * determines a term.
     */
    double leaveOneOut(int k) {
        double sum = 0;
        for (int i = 0; i < y.length; i++) {
            if (1 - leverage[i] < ALONE) {
                return Double.NaN;
            }
            double out = residuals[i][k] / (1 - leverage[i]);
            sum += weights[i] * out * out;
        }
        return Math.sqrt(sum / Arrays.stream(weights).sum());
    }

    /** The same with a tenth of the carcasses left out at a time; NaN if what is left doesn't determine the terms. */
    double[] kFold() {
        int n = y.length;
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
                    sums[k] += weights[i] * (y[i][k] - expected[k]) * (y[i][k] - expected[k]);
                }
            }
        }
        double whole = Arrays.stream(weights).sum();
        return Arrays.stream(sums).map(sum -> Math.sqrt(sum / whole)).toArray();
    }

    private static double[][] pick(double[][] rows, int[] indexes) {
        return Arrays.stream(indexes).mapToObj(i -> rows[i]).toArray(double[][]::new);
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
        double[] sum = new double[terms()];
        double mean = 0;
        double weight = 0;
        for (int i : rows) {
            double scale = Math.sqrt(weights[i]);
            mean += weights[i] * residuals[i][k];
            weight += weights[i];
            for (int j = 0; j < sum.length; j++) {
                sum[j] += turned[i][j] * scale;
            }
        }
        double variance = weight;
        for (double value : sum) {
            variance -= value * value;
        }
        double explained = mean * mean / variance;
        double rest = (squares(k, k) - explained) / (degreesOfFreedom - 1);
        double t = variance > ALONE * weight && rest > 0 ? mean / Math.sqrt(variance * rest) : 0;
        return new Shift(mean / weight, t);
    }
}
