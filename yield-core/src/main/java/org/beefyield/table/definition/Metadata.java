package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;

/**
 * A key of a table's descriptor that says something to people or to other tools and that no part of the model reads, such as
 * {@code contributors}: carried from where a table is read to where it is written. It is no part of the table's digest, as it
 * changes no figure.
 *
 * @param place where it stands: empty for the package, {@value #TABLE} for the table's own keys, the name of a resource such
 *     as {@code cuts}, or that and a column such as {@code cuts/note}; one of what the table doesn't have isn't written
 * @param key the key
 * @param json its value as JSON
 * @serial exclude
 */
public record Metadata(String place, String key, String json) implements Serializable {
    /** The place of keys that a newer minor version of the format has for a table. */
    public static final String TABLE = "beefyield";

    /** Checks that nothing is missing. */
    public Metadata {
        Objects.requireNonNull(json, "json");
        Objects.requireNonNull(key, "key");
        Objects.requireNonNull(place, "place");
    }
}
