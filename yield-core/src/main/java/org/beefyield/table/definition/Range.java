package org.beefyield.table.definition;

import java.io.Serializable;
import org.beefyield.text.Numbers;

/**
 * A closed range of numbers.
 *
 * @param low lower end
 * @param high upper end, not below the lower
 * @serial exclude
 */
public record Range(double low, double high) implements Serializable {
    /**
     * Checks the ends.
     *
     * @throws IllegalArgumentException if an end is not finite or they are the wrong way round
     */
    public Range {
        if (!(low <= high) || Double.isInfinite(low) || Double.isInfinite(high)) {
            throw new IllegalArgumentException("range " + low + " to " + high + " is not two finite ascending numbers");
        }
    }

    /**
     * Whether a value lies inside or on an end.
     *
     * @param value value
     * @return true if it does
     */
    public boolean contains(double value) {
        return value >= low && value <= high;
    }

    /**
     * How far a value lies outside.
     *
     * @param value value
     * @return distance to the nearer end, 0 inside
     */
    public double distance(double value) {
        return Math.max(0, Math.max(low - value, value - high));
    }

    /**
     * The range in words.
     *
     * @return such as {@code 3 to 13}
     */
    @Override
    public String toString() {
        return Numbers.exact(low) + " to " + Numbers.exact(high);
    }
}
