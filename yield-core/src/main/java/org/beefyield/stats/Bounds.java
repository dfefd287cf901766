package org.beefyield.stats;

/**
 * Two numbers between which something is sought.
 *
 * @param low the lower one, in the unit of what is sought
 * @param high the upper one, not below the lower
 */
public record Bounds(double low, double high) {
    /** Checks the order. */
    public Bounds {
        if (!(low <= high)) {
            throw new IllegalArgumentException("the lower bound " + low + " isn't at most the upper one, " + high);
        }
    }
}
