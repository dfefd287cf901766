package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;

/**
 * A licence of a table's data.
 *
 * @param name identifier, such as {@code Apache-2.0}
 * @param path address of the licence's text, empty if none
 * @param title title, empty if none
 * @serial exclude
 */
public record License(String name, String path, String title) implements Serializable {
    /** Checks that nothing is missing. */
    public License {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(path, "path");
        Objects.requireNonNull(title, "title");
    }
}
