package org.beefyield.stats;

import java.util.Objects;

/** Refuses what callers should not give. */
final class Given {
    private Given() {}

    /** Refuses values and variances of which there are too few, that aren't numbers, or that don't belong together. */
    static void valuesAndVariances(double[] values, double[] variances, int least) {
        Objects.requireNonNull(values, "values");
        Objects.requireNonNull(variances, "variances");
        if (values.length != variances.length) {
            throw new IllegalArgumentException(
                    "there are " + values.length + " values, but " + variances.length + " variances");
        }
        if (values.length < least) {
            throw new IllegalArgumentException(
                    "there are " + values.length + " values; " + least + " or more are needed");
        }
        for (int i = 0; i < values.length; i++) {
            value(values[i], i);
            variance(variances[i], i);
        }
    }

    static void value(double value, int at) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("the value " + value + " at " + at + " is not a finite number");
        }
    }

    static void variance(double variance, int at) {
        if (!(variance > 0 && variance < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(
                    "the variance " + variance + " at " + at + " is not a finite number above 0");
        }
    }

    /** Refuses what is no chance between 0 and 1. */
    static double chance(String what, double chance) {
        if (!(chance > 0 && chance < 1)) {
            throw new IllegalArgumentException(what + " " + chance + " is outside 0 to 1, both left out");
        }
        return chance;
    }

    /** Refuses null, and null in it. */
    static void noNull(Object[] array, String name) {
        Objects.requireNonNull(array, name);
        for (Object one : array) {
            Objects.requireNonNull(one, name);
        }
    }
}
