package org.beefyield.price;

import java.io.Serializable;
import java.util.Objects;

/**
 * What one cut, or one other line, comes to.
 *
 * @param name name for people
 * @param code code of the cut; empty for income and cost beside the cuts
 * @param quantity kg of the cut; of other lines the kg of cold weight or the carcasses that they are counted by
 * @param price price of one of these
 * @param amount quantity times price, not rounded
 * @param note which price it is, where that isn't plain, such as {@code 11.95 % fat, at the price for 15 %}; else empty
 * @serial exclude
 */
public record ValueLine(String name, String code, double quantity, double price, double amount, String note)
        implements Serializable {
    /** Checks that nothing is missing. */
    public ValueLine {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(code, "code");
        Objects.requireNonNull(note, "note");
    }

    /**
     * The name with its note.
     *
     * @return such as {@code Mince, 11.95 % fat, at the price for 15 %}
     */
    public String title() {
        return note.isEmpty() ? name : name + ", " + note;
    }
}
