package org.beefyield.boning;

import java.util.Objects;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * How the weights of one breakdown of one carcass were made to add up to the weight of its parent.
 *
 * @param carcass id of the carcass
 * @param parent code of the cut that was broken down, or {@code carcass}
 * @param residueKg what was missing, kg; below 0 if there was too much
 * @param to code of the loss cut that took it up, or empty if all children were scaled in proportion
 */
public record Closing(String carcass, String parent, double residueKg, String to) {
    /**
     * Checks that nothing is missing and that figures are figures.
     *
     * @throws IllegalArgumentException if the residue is not finite
     */
    public Closing {
        Objects.requireNonNull(carcass, "carcass");
        Objects.requireNonNull(parent, "parent");
        Objects.requireNonNull(to, "to");
        Checks.finite("residue, kg", residueKg);
    }

    /**
     * The closing in words.
     *
     * @return such as {@code carcass T-17, carcass: 2.1 kg missing, added to loss}
     */
    @Override
    public String toString() {
        return "carcass " + carcass + ", " + parent + ": " + Numbers.fixed(Math.abs(residueKg), 1) + " kg "
                + (residueKg < 0 ? "too much, " : "missing, ")
                + (to.isEmpty() ? "all cuts scaled in proportion" : (residueKg < 0 ? "taken off " : "added to ") + to);
    }
}
