package org.beefyield.stats;

import java.util.Arrays;
import java.util.Objects;

/**
 * Values of units that stand in groups, such as runs in halls: value = mean + effect of the group + effect of the unit + error,
 * each with a known variance of the error. Two variances are sought, that of the units within a group and that of the groups.
 * Both are those of greatest restricted likelihood (REML), 0 or more.
 *
 * <p>Given the first, a group is no more than its weighted mean and the variance of that; so the second is found as
 * {@link RandomEffects} of the groups.
 */
public final class NestedEffects {
    private final double variance;
    private final RandomEffects groups;

    private NestedEffects(double variance, RandomEffects groups) {
        this.variance = variance;
        this.groups = groups;
    }

    /**
     * Estimates.
     *
     * @param values a value for each unit, in any unit of measure
     * @param variances the known variance of each value, above 0, in that unit squared
     * @param groupOf number of the group that each unit stands in, from 0; two groups or more, none with fewer than two units
     * @return the effects
     * @throws IllegalArgumentException if the arrays differ in length, or there are fewer than two groups, or a group has fewer
     *     than two units, or a value isn't a finite number, or a variance isn't above 0
     */
    public static NestedEffects of(double[] values, double[] variances, int[] groupOf) {
        Objects.requireNonNull(groupOf, "groupOf");
        Given.valuesAndVariances(values, variances, 2);
        if (groupOf.length != values.length) {
            throw new IllegalArgumentException(
                    "there are " + values.length + " values, but groups of " + groupOf.length);
        }
        double[][][] apart = apart(values, variances, groupOf);
        double variance = Search.greatest(at -> new Within(apart, at).logLikelihood(), Search.steps(values, variances));
        return new NestedEffects(variance, new Within(apart, variance).groups);
    }

    /** Values and variances of each group. */
    private static double[][][] apart(double[] values, double[] variances, int[] groupOf) {
        int groups = 1 + Arrays.stream(groupOf).max().orElseThrow();
        if (groups < 2 || Arrays.stream(groupOf).min().orElseThrow() < 0) {
            throw new IllegalArgumentException("groups are numbered from 0, and there are two or more");
        }
        int[] count = new int[groups];
        for (int group : groupOf) {
            count[group]++;
        }
        double[][][] apart = new double[groups][][];
        for (int group = 0; group < groups; group++) {
            if (count[group] < 2) {
                throw new IllegalArgumentException(
                        "group " + group + " has " + count[group] + " units; each needs two or more");
            }
            apart[group] = new double[2][count[group]];
        }
        for (int unit = values.length - 1; unit >= 0; unit--) {
            int place = --count[groupOf[unit]];
            apart[groupOf[unit]][0][place] = values[unit];
            apart[groupOf[unit]][1][place] = variances[unit];
        }
        return apart;
    }

    /** What follows if the variance within groups is known. */
    private static final class Within {
        private final RandomEffects groups;
        private final double logLikelihood;

        Within(double[][][] apart, double variance) {
            double[] means = new double[apart.length];
            double[] variances = new double[apart.length];
            double within = 0;
            for (int group = 0; group < apart.length; group++) {
                WeightedSums sums = WeightedSums.of(apart[group][0], apart[group][1], variance);
                means[group] = sums.mean();
                variances[group] = 1 / sums.weight();
                within += sums.logLikelihood();
            }
            this.groups = RandomEffects.of(means, variances);
            this.logLikelihood = within + groups.logLikelihood();
        }

        double logLikelihood() {
            return logLikelihood;
        }
    }

    /**
     * Variance of the units of one group.
     *
     * @return 0 or more, in the unit of the values squared
     */
    public double variance() {
        return variance;
    }

    /**
     * SD of the units of one group.
     *
     * @return 0 or more, in the unit of the values
     */
    public double sd() {
        return Math.sqrt(variance);
    }

    /**
     * The groups: their variance, the mean of all and the effect of each, from the weighted mean of each, whose variance is that
     * of its units as estimated.
     *
     * @return the effects of the groups
     */
    public RandomEffects groups() {
        return groups;
    }

    /**
     * One line.
     *
     * @return the groups, and the SD within them
     */
    @Override
    public String toString() {
        return groups + "; within them SD " + sd();
    }
}
