package org.beefyield.calibrate;

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

    /** Rows turned into a triangle at a time: what a second-level cache holds. */
    static final int BLOCK = 1024;

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
        List<double[][]> parts = inShares(rows, (from, to) -> triangulated(from, to, terms, responses, source));
        // many shares leave as many triangles, and those one
        double[][] work = parts.size() == 1
                ? parts.get(0)
                : triangulated(
                        0, parts.stream().mapToInt(part -> part[0].length).sum(), terms, responses, joined(parts));
        int left = work[0].length;
        List<Integer> kept = new ArrayList<>();
        for (int j = 0; j < terms; j++) {
            int step = kept.size();
            double whole = length(work[j], 0, left);
            double rest = length(work[j], step, left);
            // a column of zeros has no length to compare with
            if (step >= left || !(rest > DEPENDENT * whole)) {
                dependent.add(j);
                dependence.add(backSubstituted(work, kept, j));
            } else {
                double[] v = new double[left];
                mirror(work[j], step, left, rest, v);
                for (int c = j + 1; c < work.length; c++) {
                    reflect(v, work[j][step], work[c], step, left);
                }
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

    /**
     * Terms and responses side by side, in columns: all rows, or of many rows the few that are left of them when block after
     * block is turned into a triangle, which has the same lengths and products.
     */
    private static double[][] triangulated(int first, int last, int terms, int responses, Rows source) {
        int size = Math.min(last - first, terms + BLOCK);
        double[][] work = new double[terms + responses][size];
        double[][] mirrors = new double[terms][size];
        int left = 0;
        int from = first;
        while (from < last) {
            if (left == size) {
                triangulate(work, size, mirrors);
                left = terms;
            }
            int to = Math.min(last, from + Math.min(BLOCK, size - left));
            source.copy(from, to, work, left);
            left += to - from;
            from = to;
        }
        if (left < last - first) {
            triangulate(work, left, mirrors);
            left = terms;
        }
        int rows = left;
        return Arrays.stream(work).map(column -> Arrays.copyOf(column, rows)).toArray(double[][]::new);
    }

    /** The rows of parts, one after another. */
    private static Rows joined(List<double[][]> parts) {
        return rows(IntStream.range(0, parts.get(0).length)
                .mapToObj(column -> parts.stream()
                        .flatMapToDouble(part -> Arrays.stream(part[column]))
                        .toArray())
                .toArray(double[][]::new));
    }

    private static Rows rows(double[][] columns) {
        return (from, to, into, at) -> {
            for (int c = 0; c < columns.length; c++) {
                System.arraycopy(columns[c], from, into[c], at, to - from);
            }
        };
    }

    /**
     * Turns the terms into a triangle and the responses with them, of which only the rows beside the triangle count.
     *
     * @param mirrors takes those that did, a term each
     */
    private static void triangulate(double[][] work, int rows, double[][] mirrors) {
        int terms = mirrors.length;
        double[] half = new double[terms];
        for (int j = 0; j < terms; j++) {
            double rest = length(work[j], j, rows);
            if (rest > 0) {
                mirror(work[j], j, rows, rest, mirrors[j]);
                half[j] = -work[j][j] * mirrors[j][j];
                for (int c = j + 1; c < terms; c++) {
                    reflect(mirrors[j], work[j][j], work[c], j, rows);
                }
            }
        }
        double[][] products = new double[terms][terms];
        for (int j = 1; j < terms; j++) {
            multiply(mirrors, j, mirrors[j], rows, products[j]);
        }
        double[] factors = new double[terms];
        for (int c = terms; c < work.length; c++) {
            // all mirrors at once: what each finds is what the column had, less what those before it took
            multiply(mirrors, terms, work[c], rows, factors);
            for (int j = 0; j < terms; j++) {
                for (int before = 0; before < j; before++) {
                    factors[j] -= factors[before] * products[j][before];
                }
                factors[j] = half[j] == 0 ? 0 : factors[j] / half[j];
            }
            for (int j = 0; j < terms; j++) {
                for (int i = j; i < terms; i++) {
                    work[c][i] -= factors[j] * mirrors[j][i];
                }
            }
        }
    }

    /** Products of a column with some of others, four at a time. */
    private static void multiply(double[][] others, int count, double[] column, int rows, double[] products) {
        int j = 0;
        for (; j + 4 <= count; j += 4) {
            multiply(others[j], others[j + 1], others[j + 2], others[j + 3], column, rows, products, j);
        }
        for (; j < count; j++) {
            products[j] = product(others[j], column, 0, rows);
        }
    }

    private static void multiply(
            double[] a, double[] b, double[] c, double[] d, double[] column, int rows, double[] products, int at) {
        double sumA = 0;
        double sumB = 0;
        double sumC = 0;
        double sumD = 0;
        for (int i = 0; i < rows; i++) {
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

    private static double length(double[] column, int from, int to) {
        double squares = product(column, column, from, to);
        if (squares > SMALL && squares < LARGE) {
            return Math.sqrt(squares);
        }
        // squares that are lost or overflow
        double scale = 0;
        for (int i = from; i < to; i++) {
            scale = Math.max(scale, Math.abs(column[i]));
        }
        double sum = 0;
        for (int i = from; i < to && scale > 0; i++) {
            double value = column[i] / scale;
            sum += value * value;
        }
        return scale * Math.sqrt(sum);
    }

    /** Turns the rest of a column into its first element; v takes the mirror that does. */
    private static void mirror(double[] column, int step, int rows, double length, double[] v) {
        System.arraycopy(column, step, v, step, rows - step);
        double diagonal = column[step] > 0 ? -length : length;
        v[step] -= diagonal;
        column[step] = diagonal;
        Arrays.fill(column, step + 1, rows, 0);
    }

    /** Turns another column as the mirror turned its own, whose diagonal it made. */
    private static void reflect(double[] v, double diagonal, double[] column, int step, int rows) {
        double factor = product(v, column, step, rows) / (-diagonal * v[step]);
        for (int i = step; i < rows; i++) {
            column[i] -= factor * v[i];
        }
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
        double[][] work = new double[terms][];
        int rows = Math.max(columns[0].length, terms);
        for (int j = 0; j < terms; j++) {
            work[j] = Arrays.copyOf(columns[j], rows);
        }
        triangulate(work, rows, new double[terms][rows]);
        double[][] triangle = new double[terms][terms];
        for (int j = 0; j < terms; j++) {
            for (int r = 0; r <= j; r++) {
                triangle[r][j] = work[j][r];
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
        for (int i = 0; i < rows; i++) {
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
