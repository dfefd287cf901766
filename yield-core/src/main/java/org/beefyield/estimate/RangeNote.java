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
     * @return such as {@code fat position 14 is 1 point outside the fitted range 3 to 13}
     */
    @Override
    public String toString() {
        return describe(variable, value, fitted, "fitted");
    }

    static String describe(Variable variable, double value, Range range, String which) {
        String unit = variable == Variable.WEIGHT ? " kg" : "";
        String what = variable == Variable.WEIGHT ? "cold weight" : variable.code() + " position";
        String distance = number(range.distance(value));
        return what + " " + number(value) + unit + " is " + distance
                + (variable == Variable.WEIGHT ? " kg" : distance.equals("1") ? " point" : " points") + " outside the "
                + which + " range " + range + unit;
    }

    private static String number(double value) {
        // two decimals, or for a tiny distance its first digit
        return Math.abs(value) < 0.005 ? Numbers.digits(value, 1) : Numbers.upTo(value, 2);
    }
}
