package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;

/**
 * Where a part of a combined table came from.
 *
 * @param part the part, such as {@code breakdown of striploin}
 * @param from identity of the table it was taken from, or {@value #CODE}
 * @serial exclude
 */
public record Provenance(String part, String from) implements Serializable {
    /** Checks that nothing is missing. */
    public Provenance {
        Objects.requireNonNull(from, "from");
        Objects.requireNonNull(part, "part");
    }

    /** Stands for rows that were given in code. */
    public static final String CODE = "given in code";
}
