package org.beefyield.table.definition;

import java.io.Serializable;

/**
 * A range of carcasses: grades and cold weights.
 *
 * @param conformation positions on the 18-point scale
 * @param fat positions on the 15-point scale
 * @param weightKg cold weights, kg
 * @serial exclude
 */
public record TableRange(Range conformation, Range fat, Range weightKg) implements Serializable {
    /**
     * The range of one variable.
     *
     * @param variable variable
     * @return its range
     */
    public Range of(Variable variable) {
        return switch (variable) {
            case CONFORMATION -> conformation;
            case FAT -> fat;
            case WEIGHT -> weightKg;
        };
    }
}
