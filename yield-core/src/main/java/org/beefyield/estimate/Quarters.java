package org.beefyield.estimate;

import java.util.Objects;

/**
 * Weight of the forequarters and hindquarters, both sides together.
 *
 * @param quartering name of the quartering, such as {@code 10-rib forequarter}
 * @param foreKg forequarters, kg
 * @param hindKg hindquarters, kg
 */
public record Quarters(String quartering, double foreKg, double hindKg) {
    /** Checks that nothing is missing. */
    public Quarters {
        Objects.requireNonNull(quartering, "name of a quartering");
    }
}
