package org.beefyield.table;

import java.util.Objects;
import org.beefyield.text.Checks;

/**
 * Rounding that was taken off the children of a breakdown, in proportion to their level, so that it closes.
 *
 * @param categories letters of the categories
 * @param parent code of the cut that is broken down
 * @param way the way
 * @param column column of the coefficient
 * @param excess what the column added up to beyond 1000 (level) or 0 (the others), in the column's unit
 * @param unit that unit, such as {@code g/kg} of a level or {@code g/kg per point of fat}
 */
public record ClosingCorrection(
        String categories, String parent, String way, String column, double excess, String unit) {
    /**
     * Checks that nothing is missing and that figures are figures.
     *
     * @throws IllegalArgumentException if the excess is not finite
     */
    public ClosingCorrection {
        Objects.requireNonNull(categories, "categories");
        Objects.requireNonNull(column, "column");
        Objects.requireNonNull(parent, "parent");
        Objects.requireNonNull(unit, "unit");
        Objects.requireNonNull(way, "way");
        Checks.finite("excess", excess);
    }
}
