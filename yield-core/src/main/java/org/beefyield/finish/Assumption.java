package org.beefyield.finish;

import java.util.Objects;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.text.Numbers;

/**
 * What a quantity is taken to be, and why.
 *
 * @param quantity the quantity
 * @param value its value, in its unit
 * @param kind how solid it is
 * @param source where it comes from
 */
public record Assumption(Quantity quantity, double value, SourceKind kind, String source) {
    /**
     * Checks the value.
     *
     * @throws IllegalArgumentException if it is outside what is taken for the quantity, or the source is blank
     */
    public Assumption {
        Objects.requireNonNull(quantity, "quantity");
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(source, "source");
        if (!(value >= quantity.low() && value <= quantity.high())) {
            throw new IllegalArgumentException(quantity.words() + ", " + quantity.unit() + ": " + Numbers.exact(value)
                    + " is outside " + Numbers.exact(quantity.low()) + " to " + Numbers.exact(quantity.high()));
        }
        if (source.isBlank()) {
            throw new IllegalArgumentException(
                    "the source of " + quantity.words() + " is blank; say where it comes from");
        }
    }

    /**
     * One line.
     *
     * @return such as {@code fat gained: 0.0365 points a day (derived)}
     */
    @Override
    public String toString() {
        return quantity.words() + ": " + Numbers.exact(value) + " " + quantity.unit() + " (" + kind.code() + ")";
    }
}
