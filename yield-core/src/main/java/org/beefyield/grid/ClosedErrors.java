package org.beefyield.grid;

import java.util.Arrays;
import java.util.List;
import java.util.random.RandomGenerator;
import org.jspecify.annotations.Nullable;

/**
 * Errors of the children of one breakdown that add up to 0, with given marginal SDs.
 *
 * <p>The usual form: independent normal errors with variances v, conditioned on adding up to 0, which have the covariance
 * diag(v) - vv'/sum(v); v is solved so that the marginal SDs are those given. That is possible exactly when the largest
 * variance is below the sum of the others. Two children have the same SD and opposite errors.
 *
 * <p>The other form, for the standard errors of coefficients alone: the child with the largest SD takes the opposite of
 * what the others add up to, and these have one correlation, 0 or more. With three children the SDs leave no other
 * choice. It is possible when the largest SD is at most the sum of the others.
 *
 * <p>A calibrated table has its full covariance, as a factor that gives it when multiplied by its own transpose.
 */
public final class ClosedErrors {
    private static final int BISECTIONS = 200;

    /** SDs that differ by less are the same figure. */
    private static final double SAME = 1e-9;

    private final double[] sd;
    /** Variances before conditioning, or null in the other form. */
    private final double @Nullable [] v;
    /** Their sum. */
    private final double sum;
    /** The child with the largest SD; reckoning the others from it keeps large figures from cancelling. */
    private final int largest;
    /** Correlation of the others in the other form. */
    private final double correlation;
    /** By child and independent error, or null unless the full covariance is known. */
    private final double @Nullable [][] factor;

    private ClosedErrors(double[] sd, double @Nullable [] v, double sum, int largest, double correlation) {
        this(sd, v, sum, largest, correlation, null);
    }

    private ClosedErrors(
            double[] sd,
            double @Nullable [] v,
            double sum,
            int largest,
            double correlation,
            double @Nullable [][] factor) {
        this.factor = factor;
        this.sd = sd;
        this.v = v;
        this.sum = sum;
        this.largest = largest;
        this.correlation = correlation;
    }

    private static int largest(double[] sd) {
        int largest = 0;
        for (int k = 1; k < sd.length; k++) {
            largest = sd[k] > sd[largest] ? k : largest;
        }
        return largest;
    }

    private static double sumOfSquares(double[] sd, int without) {
        double sum = 0;
        for (int k = 0; k < sd.length; k++) {
            sum += k == without ? 0 : sd[k] * sd[k];
        }
        return sum;
    }

    private static int nonZero(double[] sd) {
        int count = 0;
        for (double one : sd) {
            count += one > 0 ? 1 : 0;
        }
        return count;
    }

    /** Whether the usual form exists. */
    public static boolean closes(double[] sd) {
        int largest = largest(sd);
        double others = sumOfSquares(sd, largest);
        return switch (nonZero(sd)) {
            case 0 -> true;
            case 1 -> false;
            case 2 -> Math.abs(Math.sqrt(others) - sd[largest]) <= SAME * sd[largest];
            default -> sd[largest] * sd[largest] < others;
        };
    }

    /** The usual form, for SDs that {@link #closes}. */
    public static ClosedErrors conditioned(double[] sd) {
        if (nonZero(sd) <= 2) {
            return balanced(sd);
        }
        int largest = largest(sd);
        // whether the largest child takes the smaller root of v - v*v/sum = sd*sd: known at the smallest sum possible
        double low = 4 * sd[largest] * sd[largest];
        boolean small = excess(sd, low, largest, true) >= 0;
        double high = low;
        do {
            high *= 2;
        } while ((excess(sd, high, largest, small) >= 0) == small && high < Double.MAX_VALUE / 4);
        for (int i = 0; i < BISECTIONS; i++) {
            double middle = low + (high - low) / 2;
            boolean last = middle == low || middle == high;
            if ((excess(sd, middle, largest, small) >= 0) == small) {
                low = middle;
            } else {
                high = middle;
            }
            if (last) {
                break;
            }
        }
        double sum = low + (high - low) / 2;
        double[] v = new double[sd.length];
        for (int k = 0; k < v.length; k++) {
            v[k] = smallRoot(sd[k], sum);
        }
        if (!small) {
            v[largest] = sum - v[largest];
        }
        return new ClosedErrors(sd, v, sum, largest, 0);
    }

    /** What the roots add up to beyond the sum; the large root is the sum less the small one. */
    private static double excess(double[] sd, double sum, int largest, boolean small) {
        double roots = 0;
        for (int k = 0; k < sd.length; k++) {
            roots += k == largest && !small ? -smallRoot(sd[k], sum) : smallRoot(sd[k], sum);
        }
        return small ? roots - sum : roots;
    }

    /** The smaller root v of v - v*v/sum = sd*sd, as a quotient, which doesn't cancel. */
    private static double smallRoot(double sd, double sum) {
        double variance = sd * sd;
        return 2 * variance / (1 + Math.sqrt(Math.max(0, 1 - 4 * variance / sum)));
    }

    /** Whether the form for standard errors exists. */
    public static boolean canBeBalanced(double[] sd) {
        int largest = largest(sd);
        double others = 0;
        for (int k = 0; k < sd.length; k++) {
            others += k == largest ? 0 : sd[k];
        }
        return sd[largest] <= others * (1 + SAME);
    }

    /** The form for standard errors, for SDs that {@link #canBeBalanced} but not {@link #closes}, or at most two of them. */
    public static ClosedErrors balanced(double[] sd) {
        int largest = largest(sd);
        double squares = sumOfSquares(sd, largest);
        double others = 0;
        for (int k = 0; k < sd.length; k++) {
            others += k == largest ? 0 : sd[k];
        }
        double room = others * others - squares;
        double correlation = room > 0 ? (sd[largest] * sd[largest] - squares) / room : 0;
        return new ClosedErrors(sd, null, 0, largest, Math.min(1, Math.max(0, correlation)));
    }

    /** Errors of a full covariance: by child and independent error, what the one makes of the other. */
    public static ClosedErrors full(double[][] factor) {
        double[] sd = new double[factor.length];
        for (int k = 0; k < sd.length; k++) {
            sd[k] = Math.sqrt(Arrays.stream(factor[k]).map(x -> x * x).sum());
        }
        return new ClosedErrors(sd, null, 0, 0, 0, factor);
    }

    /** The usual form if it exists, else the one for standard errors. */
    public static ClosedErrors ofStandardErrors(double[] sd) {
        return closes(sd) ? conditioned(sd) : balanced(sd);
    }

    public boolean isZero() {
        return nonZero(sd) == 0;
    }

    /** The marginal SDs. */
    public List<Double> sds() {
        return Arrays.stream(sd).boxed().toList();
    }

    /**
     * The covariance of two sums of the errors with weights that are polynomials, as a polynomial of twice the degree.
     *
     * @param a by child, coefficients of its weight in one sum, constant first
     * @param b the same of the other sum
     */
    double[] covariance(double[][] a, double[][] b) {
        int degree = a[0].length - 1;
        double[] covariance = new double[2 * degree + 1];
        if (factor != null) {
            for (int r = 0; r < factor[0].length; r++) {
                addProduct(covariance, weighted(factor, r, a), weighted(factor, r, b), 1);
            }
            return covariance;
        }
        double[] sumA = new double[degree + 1];
        double[] sumB = new double[degree + 1];
        for (int k = 0; k < sd.length; k++) {
            if (k == largest) {
                continue;
            }
            double[] x = minus(a[k], a[largest]);
            double[] y = minus(b[k], b[largest]);
            double joint = v == null ? sd[k] : v[k];
            addProduct(covariance, x, y, v == null ? (1 - correlation) * sd[k] * sd[k] : v[k]);
            for (int j = 0; j <= degree; j++) {
                sumA[j] += joint * x[j];
                sumB[j] += joint * y[j];
            }
        }
        addProduct(covariance, sumA, sumB, v == null ? correlation : -1 / sum);
        return covariance;
    }

    /** What one independent error makes of a sum. */
    private static double[] weighted(double[][] factor, int r, double[][] weights) {
        double[] sum = new double[weights[0].length];
        for (int k = 0; k < factor.length; k++) {
            for (int j = 0; j < sum.length; j++) {
                sum[j] += factor[k][r] * weights[k][j];
            }
        }
        return sum;
    }

    private static double[] minus(double[] a, double[] b) {
        double[] difference = new double[a.length];
        for (int j = 0; j < a.length; j++) {
            difference[j] = a[j] - b[j];
        }
        return difference;
    }

    private static void addProduct(double[] sum, double[] a, double[] b, double factor) {
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < b.length; j++) {
                sum[i + j] += factor * a[i] * b[j];
            }
        }
    }

    /** One draw of all errors, which add up to 0. */
    double[] draw(RandomGenerator random) {
        double[] errors = new double[sd.length];
        if (factor != null) {
            for (int r = 0; r < factor[0].length; r++) {
                double independent = random.nextGaussian();
                for (int k = 0; k < errors.length; k++) {
                    errors[k] += factor[k][r] * independent;
                }
            }
            return errors;
        }
        double total = 0;
        double common = v == null ? Math.sqrt(correlation) * random.nextGaussian() : 0;
        for (int k = 0; k < errors.length; k++) {
            if (v != null) {
                errors[k] = Math.sqrt(v[k]) * random.nextGaussian();
                total += errors[k];
            } else if (k != largest) {
                errors[k] = sd[k] * (Math.sqrt(1 - correlation) * random.nextGaussian() + common);
            }
        }
        double others = 0;
        for (int k = 0; k < errors.length; k++) {
            if (k != largest) {
                errors[k] -= v == null ? 0 : v[k] / sum * total;
                others += errors[k];
            }
        }
        errors[largest] = -others;
        return errors;
    }
}
