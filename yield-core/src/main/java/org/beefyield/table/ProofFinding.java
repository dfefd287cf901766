package org.beefyield.table;

import java.util.Objects;
import org.beefyield.text.Checks;

/**
 * One promise of a table that was proved, with the place where it is tightest.
 *
 * @param claim the promise in words
 * @param marginGPerKg how far the tightest place is from breaking it, g per kg; 0 where it just holds
 * @param where the tightest place: categories, way or specification, grade and weight
 */
public record ProofFinding(String claim, double marginGPerKg, String where) {
    /**
     * Checks that nothing is missing and that figures are figures.
     *
     * @throws IllegalArgumentException if the margin is not finite
     */
    public ProofFinding {
        Objects.requireNonNull(claim, "claim");
        Objects.requireNonNull(where, "where");
        Checks.finite("margin, g/kg", marginGPerKg);
    }
}
