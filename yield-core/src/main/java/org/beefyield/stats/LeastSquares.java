package org.beefyield.stats;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;

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

    /** Between these nothing that counts in a sum of squares is lost or overflows. */
    private static final double SMALL = 1e-250;

    private static final double LARGE = 1e250;

    /** Rows that are fetched at a time: so many that memory is read in long runs. */
    static final int BLOCK = 1024;

    /** Rows of these that are turned into a triangle at a time: what a first-level cache holds of the terms. */
    private static final int TURNED = 256;

    /** Rows that one thread takes. How they are shared out doesn't depend on the threads, nor do the figures. */
    private static final int SHARE = 1 << 12;

    /** Does something for some of the rows. */
    interface Share<T> {
        T of(int from, int to);
    }

    /** Shares rows out between threads, if there are many; the results in the rows' order. */
    static <T> List<T> inShares(int rows, Share<T> work) {
        int shares = Math.max(1, (rows + SHARE - 1) / SHARE);
        IntStream all = IntStream.range(0, shares);
        return (shares > 1 ? all.parallel() : all)
                .mapToObj(share -> work.of(share * SHARE, Math.min(rows, (share + 1) * SHARE)))
                .toList();
    }

    /** Where rows come from, a block at a time, so that nobody needs a copy of all. Several threads may ask. */
    interface Rows {
        /**
         * Copies rows, from one to before another and {@link #BLOCK} at most, into columns, terms first, at a place and
         * behind it.
         */
        void copy(int from, int to, double[][] columns, int at);
    }

    private final int terms;
    /** Upper triangle of the independent terms, column by column. */
    private final double[][] triangle;

    private final List<Integer> dependent = new ArrayList<>();
    /** By dependent term, its coefficients on the terms before it. */
    private final List<double[]> dependence = new ArrayList<>();

    private final double[][] coefficients;

    /**
     * Solves.
     *
     * @param x terms by rows
     * @param y responses by rows
     */
    LeastSquares(double[][] x, double[][] y) {
        this(
                x[0].length,
                x.length,
                y.length,
                rows(Stream.of(x, y).flatMap(Arrays::stream).toArray(double[][]::new)));
    }

    /** Solves for so many rows, terms and responses. */
    LeastSquares(int rows, int terms, int responses, Rows source) {
        this.terms = terms;
        List<double[][]> parts = inShares(rows, (from, to) -> triangle(from, to, terms, responses, source));
        double[][] work = parts.get(0);
        for (double[][] part : parts.subList(1, parts.size())) {
            absorb(work, part, 0, terms);
        }
        List<Integer> kept = new ArrayList<>();
        for (int j = 0; j < terms; j++) {
            int step = kept.size();
            double whole = length(0, work[j], 0, terms);
            double rest = length(0, work[j], step, terms);
            // a column of zeros has no length to compare with
            if (!(rest > DEPENDENT * whole)) {
                dependent.add(j);
                dependence.add(backSubstituted(work, kept, j));
            } else {
                turn(work, step, j, rest);
                kept.add(j);
            }
        }
        this.triangle = new double[kept.size()][];
        for (int c = 0; c < kept.size(); c++) {
            triangle[c] = Arrays.copyOf(work[kept.get(c)], c + 1);
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

    /** The triangle of some rows, and the responses beside it: column by column, as many rows as terms. */
    private static double[][] triangle(int first, int last, int terms, int responses, Rows source) {
        double[][] triangle = new double[terms + responses][terms];
        double[][] block = new double[terms + responses][Math.min(last - first, BLOCK)];
        for (int from = first; from < last; from += BLOCK) {
            int rows = Math.min(last - from, BLOCK);
            source.copy(from, from + rows, block, 0);
            for (int row = 0; row < rows; row += TURNED) {
                absorb(triangle, block, row, Math.min(rows, row + TURNED));
            }
        }
        return triangle;
    }

    private static Rows rows(double[][] columns) {
        return (from, to, into, at) -> {
            for (int c = 0; c < columns.length; c++) {
                System.arraycopy(columns[c], from, into[c], at, to - from);
            }
        };
    }

    /**
     * Turns rows below a triangle into it by Householder reflections, and their responses into those beside it. Lengths and
     * products are then those of all rows. The Householder vector of a term is one number in the triangle and, below, what
     * the term was in the rows, where it stays; so the responses are reflected by all of them at once.
     */
    private static void absorb(double[][] triangle, double[][] block, int from, int to) {
        int terms = triangle[0].length;
        double[] top = new double[terms];
        double[] half = new double[terms];
        double[][] products = new double[terms][terms];
        for (int j = 0; j < terms; j++) {
            multiply(block, j, block[j], from, to, products[j]);
            double length = length(triangle[j][j], block[j], from, to);
            if (length > 0) {
                double diagonal = triangle[j][j] > 0 ? -length : length;
                top[j] = triangle[j][j] - diagonal;
                half[j] = -diagonal * top[j];
                triangle[j][j] = diagonal;
                for (int c = j + 1; c < terms; c++) {
                    double product = top[j] * triangle[c][j] + product(block[j], block[c], from, to);
                    triangle[c][j] -= product / half[j] * top[j];
                    add(block[j], -product / half[j], block[c], from, to);
                }
            }
        }
        double[] factors = new double[terms];
        for (int c = terms; c < triangle.length; c++) {
            multiply(block, terms, block[c], from, to, factors);
            for (int j = 0; j < terms; j++) {
                // less what the reflections before have done already
                for (int before = 0; before < j; before++) {
                    factors[j] -= factors[before] * products[j][before];
                }
                factors[j] = half[j] > 0 ? (factors[j] + top[j] * triangle[c][j]) / half[j] : 0;
                triangle[c][j] -= factors[j] * top[j];
            }
        }
    }

    /** Turns the rest of a column into its first element, and all columns behind it alike. */
    private static void turn(double[][] work, int step, int column, double length) {
        double[] v = work[column].clone();
        double diagonal = v[step] > 0 ? -length : length;
        v[step] -= diagonal;
        for (int c = column; c < work.length; c++) {
            double product = product(v, work[c], step, v.length);
            add(v, product / (diagonal * v[step]), work[c], step, v.length);
        }
        work[column][step] = diagonal;
        Arrays.fill(work[column], step + 1, v.length, 0);
    }

    /** Products of a column with some of others, four at a time. */
    private static void multiply(double[][] others, int count, double[] column, int from, int to, double[] products) {
        int j = 0;
        for (; j + 4 <= count; j += 4) {
            multiply(others[j], others[j + 1], others[j + 2], others[j + 3], column, from, to, products, j);
        }
        for (; j < count; j++) {
            products[j] = product(others[j], column, from, to);
        }
    }

    private static void multiply(
            double[] a,
            double[] b,
            double[] c,
            double[] d,
            double[] column,
            int from,
            int to,
            double[] products,
            int at) {
        double sumA = 0;
        double sumB = 0;
        double sumC = 0;
        double sumD = 0;
        for (int i = from; i < to; i++) {
            double value = column[i];
            sumA += a[i] * value;
            sumB += b[i] * value;
            sumC += c[i] * value;
            sumD += d[i] * value;
        }
        products[at] = sumA;
        products[at + 1] = sumB;
        products[at + 2] = sumC;
        products[at + 3] = sumD;
    }

    /** Product of two columns over some rows, as four sums, for one by itself waits for each of its terms. */
    static double product(double[] a, double[] b, int from, int to) {
        double sum0 = 0;
        double sum1 = 0;
        double sum2 = 0;
        double sum3 = 0;
        int i = from;
        for (; i + 4 <= to; i += 4) {
            sum0 += a[i] * b[i];
            sum1 += a[i + 1] * b[i + 1];
            sum2 += a[i + 2] * b[i + 2];
            sum3 += a[i + 3] * b[i + 3];
        }
        for (; i < to; i++) {
            sum0 += a[i] * b[i];
        }
        return sum0 + sum1 + (sum2 + sum3);
    }

    /** Length of a number and a column below it. */
    private static double length(double top, double[] column, int from, int to) {
        double squares = top * top + product(column, column, from, to);
        if (squares > SMALL && squares < LARGE) {
            return Math.sqrt(squares);
        }
        // squares that are lost or overflow
        double scale = Math.abs(top);
        for (int i = from; i < to; i++) {
            scale = Math.max(scale, Math.abs(column[i]));
        }
        double sum = scale > 0 ? top / scale * (top / scale) : 0;
        for (int i = from; i < to && scale > 0; i++) {
            double value = column[i] / scale;
            sum += value * value;
        }
        return scale * Math.sqrt(sum);
    }

    private static double[] backSubstituted(double[][] work, List<Integer> kept, int column) {
        double[] solved = new double[kept.size()];
        for (int r = kept.size() - 1; r >= 0; r--) {
            double sum = work[column][r];
            for (int c = r + 1; c < kept.size(); c++) {
                sum -= work[kept.get(c)][r] * solved[c];
            }
            solved[r] = sum / work[kept.get(r)][r];
        }
        return solved;
    }

    /**
     * A triangle whose square is that of a matrix.
     *
     * @param columns terms by rows
     * @return as many rows as terms
     */
    static double[][] triangle(double[][] columns) {
        int terms = columns.length;
        double[][] turned = triangle(0, columns[0].length, terms, 0, rows(columns));
        double[][] triangle = new double[terms][terms];
        for (int j = 0; j < terms; j++) {
            for (int r = 0; r <= j; r++) {
                triangle[r][j] = turned[j][r];
            }
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
     * Turns rows' terms into the directions of the triangle: a row's squared length is then its leverage.
     *
     * @param columns terms by rows, changed in place
     * @param rows how many
     */
    void turn(double[][] columns, int rows) {
        for (int j = 0; j < terms; j++) {
            double[] column = columns[j];
            for (int r = 0; r < j; r++) {
                add(columns[r], -triangle[j][r], column, rows);
            }
            double diagonal = triangle[j][j];
            for (int i = 0; i < rows; i++) {
                column[i] /= diagonal;
            }
        }
    }

    /** Adds so many times a column to another. */
    static void add(double[] column, double times, double[] sum, int rows) {
        add(column, times, sum, 0, rows);
    }

    private static void add(double[] column, double times, double[] sum, int from, int to) {
        for (int i = from; i < to; i++) {
            sum[i] += times * column[i];
        }
    }

    /** Covariance of the coefficients of a response for a residual variance of 1: the inverse of the square of the terms. */
    double[][] unscaledCovariance() {
        double[][] inverse = new double[terms][terms];
        for (int k = 0; k < terms; k++) {
            for (int r = k; r >= 0; r--) {
                double sum = r == k ? 1 : 0;
                for (int c = r + 1; c <= k; c++) {
                    sum -= triangle[c][r] * inverse[c][k];
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
