package org.beefyield.estimate;

import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.RealDistribution;
import org.apache.commons.math3.distribution.TDistribution;
import org.beefyield.text.Numbers;
import org.beefyield.text.Place;

/**
 * An interval that holds a figure with a probability: what will be weighed, where nothing else is said.
 *
 * @param low lower end, kg
 * @param high upper end, kg, not below the lower
 * @param probability probability, above 0 and below 1
 */
public record Interval(double low, double high, double probability) {
    /** Probability of the intervals in tables and files. */
    public static final double SHOWN_PROBABILITY = 0.9;

    /** What a frame's column of the lower ends of intervals of that probability is called. */
    public static final String SHOWN_LOW = "90 % interval low";

    /** What a frame's column of the upper ends is called. */
    public static final String SHOWN_HIGH = "90 % interval high";

    private static final int DECIMALS = 2;

    /** Of a percentage: 99.9 and 99.99 are not the same. */
    private static final int DIGITS = 6;

    /**
     * Checks the ends and the probability.
     *
     * @throws IllegalArgumentException if an end is not a number, the upper end is below the lower, or the probability is
     *     outside its range
     */
    public Interval {
        if (!(low <= high)) {
            throw new IllegalArgumentException(
                    "interval from " + low + " to " + high + ": two ascending numbers are needed");
        }
        checkProbability(probability);
    }

    static void checkProbability(double probability) {
        if (!(probability > 0 && probability < 1)) {
            throw new IllegalArgumentException("probability " + probability + " is outside 0 to 1 (both excluded)");
        }
    }

    private static final NormalDistribution STANDARD = new NormalDistribution(null, 0, 1);

    /**
     * The middle part of a normal distribution.
     *
     * @param mean mean
     * @param sd SD, 0 or more
     * @param probability probability that the interval holds, above 0 and below 1
     * @return the interval, as far below the mean as above it
     * @throws IllegalArgumentException if the probability or the SD is outside its range
     */
    public static Interval normal(double mean, double sd, double probability) {
        return around(mean, sd, probability, STANDARD);
    }

    /**
     * The middle part of Student's t distribution, for an SD that was estimated.
     *
     * @param mean mean
     * @param sd SD, 0 or more
     * @param degreesOfFreedom degrees of freedom of the SD, above 0
     * @param probability probability that the interval holds, above 0 and below 1
     * @return the interval, as far below the mean as above it
     * @throws IllegalArgumentException if the probability, the SD or the degrees of freedom are outside their
     *     range
     */
    public static Interval student(double mean, double sd, double degreesOfFreedom, double probability) {
        if (!(degreesOfFreedom > 0)) {
            throw new IllegalArgumentException(degreesOfFreedom + " degrees of freedom are not above 0");
        }
        return around(mean, sd, probability, new TDistribution(null, degreesOfFreedom));
    }

    private static Interval around(double mean, double sd, double probability, RealDistribution distribution) {
        checkProbability(probability);
        if (!(sd >= 0 && sd < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("SD " + sd + " of an interval is not a finite number of 0 or more");
        }
        double half = distribution.inverseCumulativeProbability((1 + probability) / 2) * sd;
        return new Interval(mean - half, mean + half, probability);
    }

    /**
     * Whether a figure lies inside or on an end.
     *
     * @param value figure
     * @return true if it does
     */
    public boolean contains(double value) {
        return value >= low && value <= high;
    }

    /**
     * To which place the ends are worth printing: a tenth of that of the first digit of the SD that a normal interval of this
     * width has.
     *
     * @param mostDecimals decimals that are printed at most, 0 or more
     * @return the place
     * @throws IllegalArgumentException if the decimals are below 0
     */
    public Place place(int mostDecimals) {
        Place finest = Place.decimals(mostDecimals);
        double sd = (high - low) / 2 / STANDARD.inverseCumulativeProbability((1 + probability) / 2);
        return sd > 0 && sd < Double.POSITIVE_INFINITY ? finest.coarser(Place.tenthOf(sd)) : finest;
    }

    /**
     * {@link #place} of an interval of money, which is in whole units or has all of its decimals.
     *
     * @param decimals decimals of the currency, 0 or more
     * @return the place
     * @throws IllegalArgumentException if the decimals are below 0
     */
    public Place placeOfMoney(int decimals) {
        Place place = place(decimals);
        return place.equals(place.coarser(Place.decimals(0))) ? place : Place.decimals(decimals);
    }

    /**
     * One line.
     *
     * @return such as {@code 4.61 to 5.38 (90 %)}
     */
    @Override
    public String toString() {
        return Numbers.fixed(low, DECIMALS) + " to " + Numbers.fixed(high, DECIMALS) + " ("
                + Numbers.digits(100 * probability, DIGITS)
                + " %)";
    }
}
