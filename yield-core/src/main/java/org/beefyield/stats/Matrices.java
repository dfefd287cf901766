package org.beefyield.stats;

import java.util.Arrays;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.NonPositiveDefiniteMatrixException;
import org.apache.commons.math3.linear.RealMatrix;

/** Sums and products of small matrices that are made often, rows in arrays. */
final class Matrices {
    private Matrices() {}

    /**
     * Normal equations, decomposed.
     *
     * @throws IllegalArgumentException if the unknowns can't be told apart
     */
    static CholeskyDecomposition decomposed(RealMatrix precision) {
        try {
            double[][] data = precision.getData();
            symmetrize(data);
            // the pivots of unknowns that can't be told apart are noise beside their own squares
            double least = Double.POSITIVE_INFINITY;
            CholeskyDecomposition decomposition =
                    new CholeskyDecomposition(new Array2DRowRealMatrix(data, false), 1e-9, 0);
            double[][] l = decomposition.getL().getData();
            for (int m = 0; m < l.length; m++) {
                least = Math.min(least, l[m][m] * l[m][m] / data[m][m]);
            }
            if (!(least > 1e-12)) {
                throw new IllegalArgumentException("the rows don't tell the free unknowns apart");
            }
            return decomposition;
        } catch (NonPositiveDefiniteMatrixException e) {
            throw new IllegalArgumentException("the rows don't tell the free unknowns apart", e);
        }
    }

    static double trace(double[][] matrix) {
        double sum = 0;
        for (int j = 0; j < matrix.length; j++) {
            sum += matrix[j][j];
        }
        return sum;
    }

    /** The largest of the diagonal, 0 or more. */
    static double largest(double[][] matrix) {
        double largest = 0;
        for (int j = 0; j < matrix.length; j++) {
            largest = Math.max(largest, matrix[j][j]);
        }
        return largest;
    }

    static double[][] copy(double[][] matrix) {
        return Arrays.stream(matrix).map(double[]::clone).toArray(double[][]::new);
    }

    static boolean isZero(double[][] matrix) {
        return Arrays.stream(matrix).flatMapToDouble(Arrays::stream).allMatch(value -> value == 0);
    }

    static double[][] scaled(double[][] matrix, double times) {
        return Arrays.stream(matrix)
                .map(row -> Arrays.stream(row).map(value -> value * times).toArray())
                .toArray(double[][]::new);
    }

    static void symmetrize(double[][] matrix) {
        for (int i = 0; i < matrix.length; i++) {
            for (int j = 0; j < i; j++) {
                double mean = (matrix[i][j] + matrix[j][i]) / 2;
                matrix[i][j] = mean;
                matrix[j][i] = mean;
            }
        }
    }

    static double[] times(double[][] matrix, double[] vector) {
        double[] product = new double[matrix.length];
        for (int i = 0; i < matrix.length; i++) {
            product[i] = product(matrix[i], vector);
        }
        return product;
    }

    static double product(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < b.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }

    static double[][] times(double[][] a, double[][] b) {
        double[][] product = new double[a.length][b.length == 0 ? 0 : b[0].length];
        for (int i = 0; i < a.length; i++) {
            for (int k = 0; k < b.length; k++) {
                double by = a[i][k];
                if (by != 0) {
                    addTimes(product[i], b[k], by);
                }
            }
        }
        return product;
    }

    /** The transpose of one matrix times another. */
    static double[][] timesTransposed(double[][] a, double[][] b) {
        double[][] product = new double[a[0].length][b.length == 0 ? 0 : b[0].length];
        for (int k = 0; k < a.length; k++) {
            for (int i = 0; i < product.length; i++) {
                if (a[k][i] != 0) {
                    addTimes(product[i], b[k], a[k][i]);
                }
            }
        }
        return product;
    }

    /** A symmetric matrix between another and its transpose. */
    static double[][] quadratic(double[][] a, double[][] symmetric) {
        return timesTransposedOf(times(a, symmetric), a);
    }

    /** One matrix times the transpose of another. */
    static double[][] timesTransposedOf(double[][] a, double[][] b) {
        double[][] product = new double[a.length][b.length];
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < b.length; j++) {
                product[i][j] = product(a[i], b[j]);
            }
        }
        return product;
    }

    static void addTimes(double[] to, double[] from, double times) {
        for (int i = 0; i < from.length; i++) {
            to[i] += times * from[i];
        }
    }

    static void addTimes(double[][] to, double[][] from, double times) {
        for (int i = 0; i < from.length; i++) {
            addTimes(to[i], from[i], times);
        }
    }

    /** The same of a product that is symmetric: up to its diagonal, to be mirrored once all are added. */
    static void addTransposedTimesBelow(double[][] to, double[][] a, double[][] b, double times) {
        for (int j = 0; j < a.length; j++) {
            double[] from = b[j];
            for (int m = 0; m < to.length; m++) {
                double by = times * a[j][m];
                double[] row = to[m];
                for (int l = 0; l <= m; l++) {
                    row[l] += by * from[l];
                }
            }
        }
    }

    /** What stands below the diagonal above it too. */
    static void mirror(double[][] matrix) {
        for (int i = 0; i < matrix.length; i++) {
            for (int j = 0; j < i; j++) {
                matrix[j][i] = matrix[i][j];
            }
        }
    }
}
