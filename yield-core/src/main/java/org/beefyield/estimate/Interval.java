package org.beefyield.estimate;

/**
 * An interval that holds the true figure with a probability.
 *
 * @param low lower end, kg
 * @param high upper end, kg
 * @param probability probability, above 0 and below 1
 */
public record Interval(double low, double high, double probability) {
    /**
     * Whether a figure lies inside or on an end.
     *
     * @param value figure
     * @return true if it does
     */
    public boolean contains(double value) {
        return value >= low && value <= high;
    }
}
