package org.beefyield.table.definition;

import java.util.Objects;

/**
 * The two axes of a table's nodes.
 *
 * @param conformation axis of conformation
 * @param fat axis of fat
 */
public record GradeAxes(GradeAxis conformation, GradeAxis fat) {
    /** Checks that nothing is missing. */
    public GradeAxes {
        Objects.requireNonNull(conformation, "conformation");
        Objects.requireNonNull(fat, "fat");
    }

    /** Those of the EU's scales, which every table has as yet. */
    public static final GradeAxes EU = new GradeAxes(GradeAxis.CONFORMATION, GradeAxis.FAT);
}
