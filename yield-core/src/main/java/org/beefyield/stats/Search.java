package org.beefyield.stats;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;

/** Where the variance is looked for. */
final class Search {
    /** Steps of the variance, each so many times the one before, that no hill of the likelihood hides between two. */
    private static final double TIMES = 2;

    /** Part of the smallest known variance, and of that of the values, from which on it is looked for. */
    private static final double SMALL = 1e-4;

    private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;
    /** Nearer than this, as a part, the values beside a maximum don't differ. */
    private static final double PRECISION = 1e-8;

    private Search() {}

    /** From a small part of the known variances to above what the values alone would have. */
    static double[] steps(double[] values, double[] variances) {
        double least = Arrays.stream(variances).min().orElseThrow();
        double spread = Sample.sd(values) * Sample.sd(values);
        double first = SMALL * least;
        // all variances are below n times that of the values, whatever the weights
        double last = 2 * values.length * spread + least;
        int count = 1 + (int) Math.ceil(Math.log(last / first) / Math.log(TIMES));
        double[] steps = new double[count];
        for (int i = 0; i < count; i++) {
            steps[i] = first * Math.pow(TIMES, i);
        }
        return steps;
    }

    /** Where a function that is above 0 at the lower end and not at the upper one crosses 0, to the last place. */
    static double falling(DoubleUnaryOperator function, double low, double high) {
        double below = low;
        double above = high;
        while (true) {
            double middle = (below + above) / 2;
            if (middle <= below || middle >= above) {
                return middle;
            }
            if (function.applyAsDouble(middle) > 0) {
                below = middle;
            } else {
                above = middle;
            }
        }
    }

    /** The variance, 0 or more, at which a function is greatest; it has no hill that hides between two steps. */
    static double greatest(DoubleUnaryOperator function, double[] steps) {
        double[] at = new double[steps.length + 1];
        System.arraycopy(steps, 0, at, 1, steps.length);
        int best = 0;
        double greatest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < at.length; i++) {
            double value = function.applyAsDouble(at[i]);
            if (value > greatest) {
                greatest = value;
                best = i;
            }
        }
        double low = at[Math.max(0, best - 1)];
        double high = at[Math.min(at.length - 1, best + 1)];
        while (high - low > PRECISION * high) {
            double left = high - GOLDEN * (high - low);
            double right = low + GOLDEN * (high - low);
            if (function.applyAsDouble(left) < function.applyAsDouble(right)) {
                low = left;
            } else {
                high = right;
            }
            if (high < steps[0] * PRECISION) {
                return 0;
            }
        }
        return (low + high) / 2;
    }
}
