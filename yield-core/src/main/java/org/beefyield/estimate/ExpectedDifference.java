package org.beefyield.estimate;

/**
 * A difference of two expectations.
 *
 * @param kg one less the other, kg
 * @param sdKg SD of the difference from the errors that all carcasses share, kg
 */
public record ExpectedDifference(double kg, double sdKg) {
    /**
     * The interval that holds the expected difference with a probability.
     *
     * @param probability above 0 and below 1
     * @return a normal interval
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Interval interval(double probability) {
        return Interval.normal(kg, sdKg, probability);
    }
}
