package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;

/**
 * One line of a cutting specification.
 *
 * @param specification name of the specification
 * @param parent code of the cut that is broken down
 * @param way the way it is cut
 * @serial exclude
 */
public record SpecificationRow(String specification, String parent, String way) implements Serializable {
    /** Checks that nothing is missing. */
    public SpecificationRow {
        Objects.requireNonNull(parent, "parent");
        Objects.requireNonNull(specification, "specification");
        Objects.requireNonNull(way, "way");
    }
}
