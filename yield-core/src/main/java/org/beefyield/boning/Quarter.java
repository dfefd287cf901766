package org.beefyield.boning;

import java.util.Map;

/**
 * A quarter of a trial's carcass, both sides together, that was weighed before and after boning.
 *
 * @param name name, such as {@code forequarter}
 * @param coldKg cold weight before boning, kg
 * @param kg kg by what was weighed of this quarter, named as in {@link Trial#kg()}
 */
public record Quarter(String name, double coldKg, Map<String, Double> kg) {
    /**
     * Checks the weights and copies them.
     *
     * @param name name, such as {@code forequarter}
     * @param coldKg cold weight before boning, kg
     * @param kg kg by what was weighed of this quarter, named as in {@link Trial#kg()}
     * @throws IllegalArgumentException if the cold weight isn't above 0 or another is below 0 or not a number
     */
    public Quarter {
        if (!(coldKg > 0 && Double.isFinite(coldKg))) {
            throw new IllegalArgumentException(name + ": cold weight " + coldKg + " kg is not above 0");
        }
        kg = Trial.checked(name, kg);
    }
}
