package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * A range of carcasses: grades and cold weights. Immutable.
 *
 * @serial exclude
 */
public final class TableRange implements Serializable {
    private static final long serialVersionUID = 1;

    private final Range conformation;
    private final Range fat;
    private final Range weightKg;

    /**
     * A range.
     *
     * @param conformation positions on the 18-point scale
     * @param fat positions on the 15-point scale
     * @param weightKg cold weights, kg
     */
    public TableRange(Range conformation, Range fat, Range weightKg) {
        this.conformation = Objects.requireNonNull(conformation, "conformation");
        this.fat = Objects.requireNonNull(fat, "fat");
        this.weightKg = Objects.requireNonNull(weightKg, "weightKg");
    }

    /**
     * Range of conformation.
     *
     * @return positions on the 18-point scale
     */
    public Range conformation() {
        return conformation;
    }

    /**
     * Range of fat class.
     *
     * @return positions on the 15-point scale
     */
    public Range fat() {
        return fat;
    }

    /**
     * Range of cold weight.
     *
     * @return kg
     */
    public Range weightKg() {
        return weightKg;
    }

    /**
     * The range of one variable.
     *
     * @param variable variable
     * @return its range
     */
    public Range of(Variable variable) {
        Objects.requireNonNull(variable, "variable");
        return switch (variable) {
            case CONFORMATION -> conformation;
            case FAT -> fat;
            case WEIGHT -> weightKg;
        };
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof TableRange that
                && conformation.equals(that.conformation)
                && fat.equals(that.fat)
                && weightKg.equals(that.weightKg);
    }

    @Override
    public int hashCode() {
        return Objects.hash(conformation, fat, weightKg);
    }

    /**
     * One line.
     *
     * @return such as {@code conformation 1 to 18, fat 1 to 15, 150 to 600 kg}
     */
    @Override
    public String toString() {
        return "conformation " + conformation + ", fat " + fat + ", " + weightKg + " kg";
    }
}
