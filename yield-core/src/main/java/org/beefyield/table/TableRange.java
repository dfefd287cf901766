package org.beefyield.table;

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
    boolean contains(TableRange other) {
        return conformation.contains(other.conformation)
                && fat.contains(other.fat)
                && weightKg.contains(other.weightKg);
    }

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
