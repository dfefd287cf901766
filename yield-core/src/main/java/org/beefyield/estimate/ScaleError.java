package org.beefyield.estimate;

import java.io.Serializable;

/**
 * How far the scale that weighed the carcasses can be off.
 *
 * @param repeatabilityKg SD between repeated weighings of one carcass, kg, 0 or more
 * @param biasKg SD of the scale's own constant error, kg, 0 or more; it doesn't average out over a lot
 * @serial exclude
 */
public record ScaleError(double repeatabilityKg, double biasKg) implements Serializable {
    /** A scale without error. */
    public static final ScaleError NONE = new ScaleError(0, 0);

    /**
     * Checks the figures.
     *
     * @throws IllegalArgumentException if one is negative or not a finite number
     */
    public ScaleError {
        if (!(repeatabilityKg >= 0 && biasKg >= 0 && repeatabilityKg + biasKg < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(
                    "scale repeatability " + repeatabilityKg + " kg and bias " + biasKg + " kg are not both 0 or more");
        }
    }
}
