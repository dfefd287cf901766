package org.beefyield.estimate;

import java.io.Serializable;
import java.util.Objects;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Numbers;

/**
 * A carcass lies outside the range of the data behind a table.
 *
 * @param variable in which variable
 * @param value its value: a position on the scale, or kg
 * @param fitted the fitted range of that variable
 * @serial exclude
 */
public record RangeNote(Variable variable, double value, Range fitted) implements Serializable {
    /** Checks that nothing is missing. */
    public RangeNote {
        Objects.requireNonNull(variable, "variable");
        Objects.requireNonNull(fitted, "fitted");
    }

    /**
     * How far outside.
     *
     * @return points of the scale, or kg
     */
    public double distance() {
        return fitted.distance(value);
    }

    /**
     * The note in words.
     *
     * @return such as {@code fat class 5= is 1 point outside the fitted range 1+ to 5-}
     */
    @Override
    public String toString() {
        return describe(variable, value, fitted, "fitted");
    }

    static String describe(Variable variable, double value, Range range, String which) {
        String distance = number(range.distance(value));
        String what = switch (variable) {
            case CONFORMATION -> "conformation ";
            case FAT -> "fat class ";
            case WEIGHT -> "cold weight ";
        };
        String unit = variable == Variable.WEIGHT ? " kg" : distance.equals("1") ? " point" : " points";
        return what + variable.words(value) + " is " + distance + unit + " outside the " + which + " range "
                + variable.words(range);
    }

    private static String number(double value) {
        // two decimals, or for a tiny distance its first digit
        return Math.abs(value) < 0.005 ? Numbers.digits(value, 1) : Numbers.upTo(value, 2);
    }
}
