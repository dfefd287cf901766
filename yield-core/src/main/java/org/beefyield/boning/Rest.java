package org.beefyield.boning;

import java.util.Objects;
import org.beefyield.text.Checks;

/**
 * What was weighed of a run beside its boxes.
 *
 * @param kind what it is
 * @param kg kg, 0 to {@value Box#MOST_KG}
 * @param cut code of the cut of a yield table that it is, such as {@code bone}; empty if it is none
 */
public record Rest(RestKind kind, double kg, String cut) {
    /**
     * Checks the weight.
     *
     * @throws IllegalArgumentException if it is below 0 or above {@value Box#MOST_KG}
     */
    public Rest {
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(cut, "cut");
        Checks.notNegative(kind.code() + ", kg", kg);
        Checks.atMost(kind.code() + ", kg", kg, Box.MOST_KG);
    }

    /**
     * What is no cut of a table.
     *
     * @param kind what it is
     * @param kg kg, 0 or more
     * @return the rest
     * @throws IllegalArgumentException if the weight is below 0 or above {@value Box#MOST_KG}
     */
    public static Rest of(RestKind kind, double kg) {
        return new Rest(kind, kg, "");
    }
}
