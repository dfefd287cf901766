package org.beefyield.benchmarks.coverage;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Errors of the children of one breakdown that add up to 0 and have given SDs, made of independent ones. Independent errors
 * with variances v less what they add up to, in proportion to v, have the variances v - v*v/sum(v); where no v gives the SDs
 * asked for, the child with the largest takes the opposite of what the others add up to, which have one correlation.
 */
final class Closing {
    private static final int MOST_STEPS = 1_000_000;
    private static final double SAME = 1e-9;
    /** What rounding in the files leaves of a variance that is none. */
    private static final double ROUNDED = 1e-5;

    private final int[] independent;
    private final int common;
    /** SD of each child's independent error. */
    private final double[] own;
    /** SD of what the others of the second form have in common. */
    private final double[] joint;
    /** Part of the total that is taken off a child. */
    private final double[] taken;
    /** Of a stated covariance, what each independent error moves each child by; else null. */
    private final double @Nullable [][] root;

    private Closing(int[] independent, int common, double[] own, double[] joint, double[] taken) {
        this(independent, common, own, joint, taken, null);
    }

    private Closing(
            int[] independent, int common, double[] own, double[] joint, double[] taken, double @Nullable [][] root) {
        this.independent = independent;
        this.common = common;
        this.own = own;
        this.joint = joint;
        this.taken = taken;
        this.root = root;
    }

    /**
     * Errors that close.
     *
     * @param sd SD of each child
     * @param independent where each child's independent error stands among all that are drawn
     * @param common where the error stands that children of the second form have in common
     */
    static Closing of(double[] sd, int[] independent, int common) {
        int largest = 0;
        for (int k = 1; k < sd.length; k++) {
            largest = sd[k] > sd[largest] ? k : largest;
        }
        double sum = 0;
        double squares = 0;
        int others = 0;
        for (int k = 0; k < sd.length; k++) {
            if (k != largest) {
                sum += sd[k];
                squares += sd[k] * sd[k];
                others += sd[k] > 0 ? 1 : 0;
            }
        }
        return others > 1 && sd[largest] * sd[largest] < squares
                ? independentErrors(sd, independent, common)
                : opposite(sd, largest, sum, squares, independent, common);
    }

    private static Closing independentErrors(double[] sd, int[] independent, int common) {
        double[] v = new double[sd.length];
        for (int step = 0; ; step++) {
            double total = 0;
            for (double one : v) {
                total += one;
            }
            double change = 0;
            for (int k = 0; k < v.length; k++) {
                double next = sd[k] * sd[k] / (total == 0 ? 1 : 1 - v[k] / total);
                change = Math.max(change, Math.abs(next - v[k]) / Math.max(next, Double.MIN_NORMAL));
                v[k] = next;
            }
            if (change < 1e-14) {
                break;
            }
            if (step == MOST_STEPS) {
                throw new IllegalArgumentException("SDs that hardly close; take others");
            }
        }
        double total = 0;
        for (double one : v) {
            total += one;
        }
        double[] own = new double[v.length];
        double[] taken = new double[v.length];
        for (int k = 0; k < v.length; k++) {
            own[k] = Math.sqrt(v[k]);
            taken[k] = v[k] / total;
        }
        return new Closing(independent, common, own, new double[v.length], taken);
    }

    private static Closing opposite(
            double[] sd, int largest, double sum, double squares, int[] independent, int common) {
        if (sd[largest] > sum * (1 + SAME)) {
            throw new IllegalArgumentException("the largest SD, " + sd[largest] + ", is above the others' sum, " + sum);
        }
        double room = sum * sum - squares;
        double correlation = room > 0 ? Math.max(0, Math.min(1, (sd[largest] * sd[largest] - squares) / room)) : 0;
        double[] own = new double[sd.length];
        double[] joint = new double[sd.length];
        for (int k = 0; k < sd.length; k++) {
            own[k] = k == largest ? 0 : sd[k] * Math.sqrt(1 - correlation);
            joint[k] = k == largest ? 0 : sd[k] * Math.sqrt(correlation);
        }
        double[] taken = new double[sd.length];
        taken[largest] = 1;
        return new Closing(independent, common, own, joint, taken);
    }

    /**
     * Errors of a stated covariance, which closes by itself but for its rounding: by Cholesky's root, in which the
     * last child has no error of its own.
     *
     * @param covariance of the children
     * @param independent where each child's independent error stands among all that are drawn
     */
    static Closing ofCovariance(double[][] covariance, int[] independent) {
        int size = covariance.length;
        double[][] root = new double[size][size];
        for (int k = 0; k < size; k++) {
            for (int m = 0; m <= k; m++) {
                double rest = covariance[k][m];
                for (int i = 0; i < m; i++) {
                    rest -= root[k][i] * root[m][i];
                }
                if (m < k) {
                    root[k][m] = root[m][m] == 0 ? 0 : rest / root[m][m];
                } else if (rest > ROUNDED * covariance[k][k]) {
                    root[k][k] = Math.sqrt(rest);
                } else if (rest < -ROUNDED * covariance[k][k]) {
                    throw new IllegalArgumentException("no covariance of child " + k + ": " + rest);
                }
            }
        }
        double[] none = new double[size];
        double[] evenly = new double[size];
        Arrays.fill(evenly, 1.0 / size);
        return new Closing(independent, independent[0], none, none, evenly, root);
    }

    boolean isZero() {
        for (int k = 0; k < own.length; k++) {
            if (own[k] != 0 || joint[k] != 0 || root != null) {
                return false;
            }
        }
        return true;
    }

    /**
     * Adds the errors to what stands for the children.
     *
     * @param drawn all independent errors, of mean 0 and variance 1
     * @param sum by child
     * @param from where the first child stands
     */
    void add(double[] drawn, double[] sum, int from) {
        double total = 0;
        for (int k = 0; k < own.length; k++) {
            double error = own[k] * drawn[independent[k]] + joint[k] * drawn[common];
            for (int m = 0; root != null && m <= k; m++) {
                error += root[k][m] * drawn[independent[m]];
            }
            sum[from + k] += error;
            total += error;
        }
        for (int k = 0; k < taken.length; k++) {
            sum[from + k] -= taken[k] * total;
        }
    }
}
