package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * The reference carcass of a table, at which every slope is out of play. Immutable. Whether it lies in the table's range is
 * looked at with the whole table.
 *
 * @serial exclude
 */
public final class ReferencePoint implements Serializable {
    private static final long serialVersionUID = 1;

    private final double conformation;
    private final double fat;
    private final double weightKg;

    /**
     * A reference carcass.
     *
     * @param conformation position on the 18-point scale
     * @param fat position on the 15-point scale
     * @param weightKg cold weight, kg
     * @throws IllegalArgumentException if one is not finite, or below 0
     */
    public ReferencePoint(double conformation, double fat, double weightKg) {
        // -0 and 0 are one number
        this.conformation = checked(Variable.CONFORMATION, conformation) + 0.0;
        this.fat = checked(Variable.FAT, fat) + 0.0;
        this.weightKg = checked(Variable.WEIGHT, weightKg) + 0.0;
    }

    private static double checked(Variable variable, double value) {
        if (!(value >= 0 && Double.isFinite(value))) {
            throw new IllegalArgumentException("the " + variable.code() + " of a reference carcass is "
                    + Numbers.exact(value) + "; it should be a finite number, 0 or more");
        }
        return value;
    }

    /**
     * Conformation.
     *
     * @return position on the 18-point scale
     */
    public double conformation() {
        return conformation;
    }

    /**
     * Fat class.
     *
     * @return position on the 15-point scale
     */
    public double fat() {
        return fat;
    }

    /**
     * Cold weight.
     *
     * @return kg
     */
    public double weightKg() {
        return weightKg;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof ReferencePoint that
                && conformation == that.conformation
                && fat == that.fat
                && weightKg == that.weightKg;
    }

    @Override
    public int hashCode() {
        return Objects.hash(conformation, fat, weightKg);
    }

    /**
     * One line.
     *
     * @return such as {@code conformation 8, fat 8, 340 kg}
     */
    @Override
    public String toString() {
        return "conformation " + Numbers.exact(conformation) + ", fat " + Numbers.exact(fat) + ", "
                + Numbers.exact(weightKg) + " kg";
    }
}
