package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;

/**
 * Where figures of a table come from.
 *
 * @param source short name that rows refer to
 * @param kind how solid the figures are
 * @param citation the citation
 * @param note anything to add, empty if nothing
 * @serial exclude
 */
public record SourceRow(String source, SourceKind kind, String citation, String note) implements Serializable {
    /** Checks that nothing is missing. */
    public SourceRow {
        Objects.requireNonNull(citation, "citation");
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(note, "note");
        Objects.requireNonNull(source, "source");
    }
}
