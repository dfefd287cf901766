package org.beefyield.table.definition;

/**
 * The two axes of a table's nodes.
 *
 * @param conformation axis of conformation
 * @param fat axis of fat
 */
public record GradeAxes(GradeAxis conformation, GradeAxis fat) {
    /** Those of the EU's scales, which every table has as yet. */
    public static final GradeAxes EU = new GradeAxes(GradeAxis.CONFORMATION, GradeAxis.FAT);
}
