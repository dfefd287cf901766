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
    /** By child, the SD of its own independent error. */
    private final double[] own;
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
        this.own = new double[sd.length];
        for (int k = 0; k < sd.length; k++) {
            own[k] = v != null ? Math.sqrt(v[k]) : k == largest ? 0 : Math.sqrt(1 - correlation) * sd[k];
        }
    }

    static int largest(double[] sd) {
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

    /** How many independent errors the form has that belong to no child. */
    static final int COMMON = 1;

    /** Number of children, or of coefficients that err. */
    int size() {
        return sd.length;
    }

    /** Independent errors that a place is needed for: one for each child and those in common, or all of a full covariance. */
    int independent() {
        return factor == null ? sd.length + COMMON : factor[0].length;
    }

    /** Room for sums of polynomials of one width, so that none is made anew for each. */
    static final class Room {
        private final double[] x;
        private final double[] y;
        private final double[] sumA;
        private final double[] sumB;
        private final double[] covariance;

        Room(int width) {
            x = new double[width];
            y = new double[width];
            sumA = new double[width];
            sumB = new double[width];
            covariance = new double[2 * width - 1];
        }
    }

    /**
     * The covariance of two sums of the errors with weights that are polynomials, as a polynomial of twice the degree.
     *
     * @param a child by child, coefficients of its weight in one sum, constant first
     * @param b the same of the other sum
     * @param width number of coefficients of each
     */
    public double[] covariance(double[] a, double[] b, int width) {
        return covariance(a, b, new Room(width));
    }

    /** The same in an array of the room's, which the next call overwrites. */
    double[] covariance(double[] a, double[] b, Room room) {
        int width = room.x.length;
        double[] covariance = room.covariance;
        Arrays.fill(covariance, 0);
        double[] x = room.x;
        double[] y = a == b ? x : room.y;
        if (factor != null) {
            for (int r = 0; r < factor[0].length; r++) {
                weigh(factor, r, a, x);
                if (a != b) {
                    weigh(factor, r, b, y);
                }
                addProduct(covariance, x, y, 1);
            }
            return covariance;
        }
        double[] sumA = room.sumA;
        double[] sumB = a == b ? sumA : room.sumB;
        Arrays.fill(sumA, 0);
        Arrays.fill(sumB, 0);
        for (int k = 0; k < sd.length; k++) {
            if (k == largest) {
                continue;
            }
            double joint = v == null ? sd[k] : v[k];
            for (int j = 0; j < width; j++) {
                x[j] = a[k * width + j] - a[largest * width + j];
                sumA[j] += joint * x[j];
            }
            if (a != b) {
                for (int j = 0; j < width; j++) {
                    y[j] = b[k * width + j] - b[largest * width + j];
                    sumB[j] += joint * y[j];
                }
            }
            addProduct(covariance, x, y, v == null ? (1 - correlation) * sd[k] * sd[k] : v[k]);
        }
        addProduct(covariance, sumA, sumB, v == null ? correlation : -1 / sum);
        return covariance;
    }

    /** What one independent error makes of a sum. */
    private static void weigh(double[][] factor, int r, double[] weights, double[] sum) {
        Arrays.fill(sum, 0);
        for (int k = 0; k < factor.length; k++) {
            for (int j = 0; j < sum.length; j++) {
                sum[j] += factor[k][r] * weights[k * sum.length + j];
            }
        }
    }

    private static void addProduct(double[] sum, double[] a, double[] b, double factor) {
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < b.length; j++) {
                sum[i + j] += factor * a[i] * b[j];
            }
        }
    }

    /**
     * Adds what each independent error does to a sum: the errors of the children are these times a matrix.
     *
     * @param weights weight of each child in the sum; there may be more places
     * @param effects takes what one SD of each independent error does
     * @param places by child, where its own independent error stands; those in common stand at the end
     */
    void addEffects(double[] weights, double[] effects, int[] places) {
        if (factor != null) {
            for (int r = 0; r < factor[0].length; r++) {
                for (int k = 0; k < factor.length; k++) {
                    effects[r] += factor[k][r] * weights[k];
                }
            }
            return;
        }
        double ofLargest = weights[largest];
        double joint = 0;
        double[] joints = v == null ? sd : v;
        for (int k = 0; k < sd.length; k++) {
            joint += joints[k] * (weights[k] - ofLargest);
        }
        double mean = v == null ? 0 : joint / sum;
        for (int k = 0; k < sd.length; k++) {
            effects[places[k]] += own[k] * (weights[k] - ofLargest - mean);
        }
        if (v == null) {
            effects[effects.length - 1] += Math.sqrt(correlation) * joint;
        }
    }

    /** Equal if they are the same errors. */
    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof ClosedErrors that
                && Arrays.equals(sd, that.sd)
                && Arrays.deepEquals(factor, that.factor);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(sd);
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
