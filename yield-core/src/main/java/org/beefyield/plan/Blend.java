package org.beefyield.plan;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import org.beefyield.text.Checks;

/**
 * A mince, and what goes into it.
 *
 * @param name the order that it is for, or that it is for sale
 * @param mostFatPercent the fat it may have, per cent; not a number where lean trim alone goes in, however fat it is
 * @param fatPercent the fat it has, per cent
 * @param kg by cut, lean trim by what it comes of, kg
 */
public record Blend(String name, double mostFatPercent, double fatPercent, Map<String, Double> kg) {
    /** Checks that nothing is missing and copies the kg. */
    public Blend {
        Objects.requireNonNull(name, "name");
        Checks.noNullIn(kg, "kg");
        kg = Collections.unmodifiableMap(new LinkedHashMap<>(kg));
    }

    /**
     * All of it.
     *
     * @return kg
     */
    public double totalKg() {
        return kg.values().stream().mapToDouble(of -> of).sum();
    }
}
