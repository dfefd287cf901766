package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Least squares of several responses on the same terms and rows, by Householder's orthogonal triangularisation: no normal
 * equations, whose error would be that of the square of the condition number.
 *
 * <p>A term that lies, but for {@value #DEPENDENT} of its length, in the span of those before it is dependent; then there
 * are no coefficients.
 */
final class LeastSquares {
    /** What is left of a term's length beside those before it, as a fraction, from which it is independent; as R's lm has it. */
    static final double DEPENDENT = 1e-7;

    /** Rows turned into a triangle at a time: what a second-level cache holds. */
    private static final int BLOCK = 512;

    /** Upper triangle of the independent terms. */
    private final double[][] triangle;

    private final int terms;
    private final List<Integer> dependent = new ArrayList<>();
    /** By dependent term, its coefficients on the terms before it. */
    private final List<double[]> dependence = new ArrayList<>();

    private final double[][] coefficients;

    /**
     * Solves.
     *
     * @param x rows by terms
     * @param y rows by responses
     */
    LeastSquares(double[][] x, double[][] y) {
        this.terms = x.length == 0 ? 0 : x[0].length;
        int responses = y.length == 0 ? 0 : y[0].length;
        double[][] work = joined(x, y, terms + responses);
        List<Integer> kept = new ArrayList<>();
        for (int j = 0; j < terms; j++) {
            int step = kept.size();
            double whole = length(work, 0, j);
            double left = length(work, step, j);
            // a column of zeros has no length to compare with
            if (step >= work.length || !(left > DEPENDENT * whole)) {
                dependent.add(j);
                dependence.add(backSubstituted(work, kept, j));
            } else {
                reflect(work, step, j, left);
                kept.add(j);
            }
        }
        this.triangle = new double[kept.size()][kept.size()];
        for (int r = 0; r < kept.size(); r++) {
            for (int c = r; c < kept.size(); c++) {
                triangle[r][c] = work[r][kept.get(c)];
            }
        }
        this.coefficients = new double[terms][responses];
        if (dependent.isEmpty()) {
            for (int k = 0; k < responses; k++) {
                double[] solved = backSubstituted(work, kept, terms + k);
                for (int j = 0; j < terms; j++) {
                    coefficients[j][k] = solved[j];
                }
            }
        }
    }

    /**
     * Terms and responses side by side: all rows, or of many rows the few that are left of them when block after block is
     * turned into a triangle, which has the same lengths and products.
     */
    private static double[][] joined(double[][] x, double[][] y, int width) {
        int terms = x.length == 0 ? 0 : x[0].length;
        int left = 0;
        double[][] work = new double[Math.min(x.length, terms + BLOCK)][width];
        for (int i = 0; i < x.length; i++) {
            if (left == work.length) {
                triangulate(work, terms);
                left = terms;
            }
            System.arraycopy(x[i], 0, work[left], 0, terms);
            System.arraycopy(y[i], 0, work[left], terms, width - terms);
            left++;
        }
        return Arrays.copyOf(work, left);
    }

    private static void triangulate(double[][] work, int terms) {
        for (int j = 0; j < terms; j++) {
            double left = length(work, j, j);
            if (left > 0) {
                reflect(work, j, j, left);
            }
        }
    }

    private static double length(double[][] work, int from, int column) {
        double scale = 0;
        for (int i = from; i < work.length; i++) {
            scale = Math.max(scale, Math.abs(work[i][column]));
        }
        double sum = 0;
        for (int i = from; i < work.length && scale > 0; i++) {
            double value = work[i][column] / scale;
            sum += value * value;
        }
        return scale * Math.sqrt(sum);
    }

    /** Turns the rest of a column into its first element, and all columns behind it alike. */
    private static void reflect(double[][] work, int step, int column, double length) {
        int rows = work.length;
        double diagonal = work[step][column] > 0 ? -length : length;
        double[] v = new double[rows];
        for (int i = step; i < rows; i++) {
            v[i] = work[i][column];
        }
        v[step] -= diagonal;
        double half = -diagonal * v[step];
        // row by row, as they lie in memory
        double[] factor = new double[work[step].length];
        for (int i = step; i < rows; i++) {
            add(factor, work[i], v[i], column);
        }
        for (int c = column; c < factor.length; c++) {
            factor[c] /= half;
        }
        for (int i = step; i < rows; i++) {
            add(work[i], factor, -v[i], column);
        }
        work[step][column] = diagonal;
        for (int i = step + 1; i < rows; i++) {
            work[i][column] = 0;
        }
    }

    private static void add(double[] sum, double[] row, double times, int from) {
        for (int c = from; c < sum.length; c++) {
            sum[c] += times * row[c];
        }
    }

    private static double[] backSubstituted(double[][] work, List<Integer> kept, int column) {
        double[] solved = new double[kept.size()];
        for (int r = kept.size() - 1; r >= 0; r--) {
            double sum = work[r][column];
            for (int c = r + 1; c < kept.size(); c++) {
                sum -= work[r][kept.get(c)] * solved[c];
            }
            solved[r] = sum / work[r][kept.get(r)];
        }
        return solved;
    }

    /** A triangle whose square is that of a matrix. */
    static double[][] triangle(double[][] rows) {
        int terms = rows[0].length;
        double[][] work = new double[Math.max(rows.length, terms)][terms];
        for (int i = 0; i < rows.length; i++) {
            work[i] = rows[i].clone();
        }
        triangulate(work, terms);
        double[][] triangle = new double[terms][];
        for (int j = 0; j < terms; j++) {
            triangle[j] = work[j];
        }
        return triangle;
    }

    /** Terms that can't be told from those before them. */
    List<Integer> dependent() {
        return dependent;
    }

    /** Coefficients of a dependent term on the independent ones before it. */
    double[] dependence(int dependentIndex) {
        return dependence.get(dependentIndex);
    }

    /** Terms by responses; zeros if a term is dependent. */
    double[][] coefficients() {
        return coefficients;
    }

    /**
     * A row's terms in the directions of the triangle: the squared length is its leverage.
     *
     * @param row terms of a row
     */
    double[] turned(double[] row) {
        double[] z = new double[terms];
        for (int j = 0; j < terms; j++) {
            double sum = row[j];
            for (int r = 0; r < j; r++) {
                sum -= triangle[r][j] * z[r];
            }
            z[j] = sum / triangle[j][j];
        }
        return z;
    }

    /** Covariance of the coefficients of a response for a residual variance of 1: the inverse of the square of the terms. */
    double[][] unscaledCovariance() {
        double[][] inverse = new double[terms][terms];
        for (int k = 0; k < terms; k++) {
            for (int r = k; r >= 0; r--) {
                double sum = r == k ? 1 : 0;
                for (int c = r + 1; c <= k; c++) {
                    sum -= triangle[r][c] * inverse[c][k];
                }
                inverse[r][k] = sum / triangle[r][r];
            }
        }
        double[][] covariance = new double[terms][terms];
        for (int a = 0; a < terms; a++) {
            for (int b = 0; b < terms; b++) {
                double sum = 0;
                for (int k = Math.max(a, b); k < terms; k++) {
                    sum += inverse[a][k] * inverse[b][k];
                }
                covariance[a][b] = sum;
            }
        }
        return covariance;
    }
}
