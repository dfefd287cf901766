package org.beefyield.stats;

import java.util.Arrays;
import java.util.Objects;

/** Mean, SD and quantiles of numbers. */
public final class Sample {
    private Sample() {}

    /**
     * The mean.
     *
     * @param values numbers
     * @return their mean, NaN if there are none
     */
    public static double mean(double[] values) {
        Objects.requireNonNull(values, "values");
        return Arrays.stream(values).average().orElse(Double.NaN);
    }

    /**
     * The standard deviation; it divides by n - 1.
     *
     * @param values numbers
     * @return their SD, NaN of fewer than two
     */
    public static double sd(double[] values) {
        Objects.requireNonNull(values, "values");
        double mean = mean(values);
        double squares = Arrays.stream(values)
                .map(value -> (value - mean) * (value - mean))
                .sum();
        return values.length < 2 ? Double.NaN : Math.sqrt(squares / (values.length - 1));
    }

    /**
     * A quantile, interpolated linearly: the part p of n numbers lies at place 1 + (n - 1) p (definition 7 of Hyndman and
     * Fan 1996, The American Statistician 50, 361 to 365).
     *
     * @param sorted numbers in ascending order
     * @param part part of them that lies below it, 0 to 1; 0.5 for the median
     * @return the quantile, NaN if there are no numbers
     * @throws IllegalArgumentException if the part is outside 0 to 1
     */
    public static double quantile(double[] sorted, double part) {
        Objects.requireNonNull(sorted, "sorted");
        if (!(part >= 0 && part <= 1)) {
            throw new IllegalArgumentException("the part " + part + " of a quantile is outside 0 to 1");
        }
        if (sorted.length == 0) {
            return Double.NaN;
        }
        double place = (sorted.length - 1) * part;
        int below = (int) place;
        int above = Math.min(below + 1, sorted.length - 1);
        return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
    }
}
