package org.beefyield.stats;

import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * Values of several units, each with a known variance of its own, that also differ for reasons of their unit: value = mean +
 * effect of the unit + error. The variance of the effects is what is sought; the known variances are not estimated again.
 *
 * <p>The variance is the one of greatest restricted likelihood (REML), 0 or more. The mean weighs each value by the inverse of
 * both variances.
 *
 * <p>Sources: Viechtbauer 2005, Journal of Educational and Behavioral Statistics 30, 261 to 293 (REML); Viechtbauer 2007,
 * Statistics in Medicine 26, 37 to 52 (bounds of the variance by the profile of Q); Knapp and Hartung 2003, Statistics in
 * Medicine 22, 2693 to 2710 (error of the mean).
 */
public final class RandomEffects {
    private final double[] values;
    private final double[] variances;
    private final double variance;
    private final WeightedSums sums;

    private RandomEffects(double[] values, double[] variances, double variance) {
        this.values = values;
        this.variances = variances;
        this.variance = variance;
        this.sums = WeightedSums.of(values, variances, variance);
    }

    /**
     * Estimates.
     *
     * @param values a value for each unit, two or more, in any unit of measure
     * @param variances the known variance of each value, above 0, in that unit squared
     * @return the effects
     * @throws IllegalArgumentException if there are fewer than two, or not as many variances as values, or one isn't a finite
     *     number, or a variance isn't above 0
     */
    public static RandomEffects of(double[] values, double[] variances) {
        Given.valuesAndVariances(values, variances, 2);
        return ofKnown(values, variances, mostLikely(values, variances));
    }

    /** What follows if the variance of the effects is known. */
    static RandomEffects ofKnown(double[] values, double[] variances, double variance) {
        return new RandomEffects(values.clone(), variances.clone(), variance);
    }

    /** The variance at which the restricted likelihood is greatest: 0, or where its slope crosses 0 on the way down. */
    private static double mostLikely(double[] values, double[] variances) {
        double best = 0;
        double greatest = WeightedSums.of(values, variances, 0).logLikelihood();
        double[] steps = Search.steps(values, variances);
        double low = 0;
        double slopeLow = WeightedSums.of(values, variances, 0).slope();
        for (double high : steps) {
            double slopeHigh = WeightedSums.of(values, variances, high).slope();
            if (slopeLow > 0 && slopeHigh <= 0) {
                double root = Search.falling(
                        at -> WeightedSums.of(values, variances, at).slope(), low, high);
                double likelihood = WeightedSums.of(values, variances, root).logLikelihood();
                if (likelihood > greatest) {
                    greatest = likelihood;
                    best = root;
                }
            }
            low = high;
            slopeLow = slopeHigh;
        }
        return best;
    }

    /**
     * Number of units.
     *
     * @return 2 or more
     */
    public int count() {
        return values.length;
    }

    /**
     * Variance of the effects.
     *
     * @return 0 or more, in the unit of the values squared
     */
    public double variance() {
        return variance;
    }

    /**
     * SD of the effects.
     *
     * @return 0 or more, in the unit of the values
     */
    public double sd() {
        return Math.sqrt(variance);
    }

    /**
     * Bounds of the variance of the effects: those variances at which the weighted squares of the values about their mean, Q,
     * are likely as a chi-squared with one degree of freedom less than there are units. If the values differ less than by their
     * known variances even without effects, both are 0.
     *
     * @param sure how sure, such as 0.95
     * @return the bounds, 0 or more, in the unit of the values squared
     * @throws IllegalArgumentException if it is outside 0 to 1
     */
    public Bounds varianceBounds(double sure) {
        Given.chance("how sure,", sure);
        ChiSquaredDistribution chi = new ChiSquaredDistribution(null, values.length - 1);
        double low = varianceOf(chi.inverseCumulativeProbability((1 + sure) / 2));
        return new Bounds(low, Math.max(low, varianceOf(chi.inverseCumulativeProbability((1 - sure) / 2))));
    }

    /** The variance at which Q is so large; 0 if it is smaller even there. */
    private double varianceOf(double q) {
        if (WeightedSums.of(values, variances, 0).q() <= q) {
            return 0;
        }
        double high = Search.steps(values, variances)[0];
        while (WeightedSums.of(values, variances, high).q() > q) {
            high *= 4;
        }
        return Search.falling(at -> WeightedSums.of(values, variances, at).q() - q, 0, high);
    }

    /**
     * The mean that the effects scatter about.
     *
     * @return in the unit of the values
     */
    public double mean() {
        return sums.mean();
    }

    /**
     * Standard error of the mean if both variances were known.
     *
     * @return above 0, in the unit of the values
     */
    public double meanError() {
        return Math.sqrt(1 / sums.weight());
    }

    /**
     * Standard error of the mean after Knapp and Hartung, for Student's t with one degree of freedom less than there are units:
     * larger as far as the values scatter more than both variances say. It is never smaller, as the known variances are known.
     *
     * @return in the unit of the values
     */
    public double widenedMeanError() {
        return meanError() * Math.sqrt(Math.max(1, sums.q() / (values.length - 1)));
    }

    /**
     * Bounds of the mean, by {@link #widenedMeanError()} and Student's t.
     *
     * @param sure how sure, such as 0.95
     * @return the bounds, in the unit of the values
     * @throws IllegalArgumentException if it is outside 0 to 1
     */
    public Bounds meanBounds(double sure) {
        return about(sure, widenedMeanError());
    }

    private Bounds about(double sure, double error) {
        Given.chance("how sure,", sure);
        double times = new TDistribution(null, values.length - 1.0).inverseCumulativeProbability((1 + sure) / 2);
        return new Bounds(mean() - times * error, mean() + times * error);
    }

    /**
     * The effect of a unit as far as its value tells it: drawn towards 0 the more, the larger its known variance is (the best
     * linear unbiased prediction).
     *
     * @param unit number of a unit
     * @return its value less the mean, times the part of its variance that is of the effects; in the unit of the values
     */
    public double effect(int unit) {
        return variance / (variance + variances[unit]) * (values[unit] - mean());
    }

    /**
     * SD of the error of {@link #effect}, that of the mean included, for the variance of the effects as estimated.
     *
     * @param unit number of a unit
     * @return 0 or more, in the unit of the values
     */
    public double effectError(int unit) {
        double kept = variance / (variance + variances[unit]);
        return Math.sqrt(variance * (1 - kept) + kept * kept / sums.weight());
    }

    /**
     * Where the value of a further unit lies, by Student's t with one degree of freedom less than there are units.
     *
     * @param itsVariance the known variance of its value, 0 or more, in the unit of the values squared; 0 for its effect and the
     *     mean alone
     * @param sure how sure, such as 0.9
     * @return the bounds, in the unit of the values
     * @throws IllegalArgumentException if the variance is below 0 or no finite number, or how sure is outside 0 to 1
     */
    public Bounds next(double itsVariance, double sure) {
        return about(sure, nextSd(itsVariance));
    }

    /**
     * SD of the value of a further unit about the {@link #mean()}: effect, known variance and the error of the mean.
     *
     * @param itsVariance the known variance of its value, 0 or more, in the unit of the values squared
     * @return in the unit of the values
     * @throws IllegalArgumentException if the variance is below 0 or no finite number
     */
    public double nextSd(double itsVariance) {
        if (!(itsVariance >= 0 && itsVariance < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("the variance " + itsVariance + " is not a finite number, 0 or more");
        }
        double error = widenedMeanError();
        return Math.sqrt(variance + itsVariance + error * error);
    }

    /** The restricted log likelihood at the variance found, but for a constant. */
    double logLikelihood() {
        return sums.logLikelihood();
    }

    /**
     * One line.
     *
     * @return number of units, mean and SD
     */
    @Override
    public String toString() {
        return values.length + " units, mean " + mean() + ", SD " + sd();
    }
}
