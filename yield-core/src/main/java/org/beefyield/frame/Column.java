package org.beefyield.frame;

import java.util.Objects;
import java.util.regex.Pattern;

/**
 * What a column is called, its unit, and whether it holds numbers or text.
 *
 * @param name what a person calls it, such as {@code cold weight}; not blank, no comma followed by a blank in it
 * @param unit unit of its numbers, such as {@code kg}; empty if they have none
 * @param numeric whether it holds numbers
 */
public record Column(String name, String unit, boolean numeric) {
    private static final String BEFORE_UNIT = ", ";
    private static final Pattern UNPRINTABLE = Pattern.compile("\\p{Cntrl}|\\p{Cs}|\\x{FEFF}");
    private static final Pattern RATE = Pattern.compile("%|/| per | a kg");
    private static final int LONGEST = 200;

    /**
     * Checks the texts.
     *
     * @throws IllegalArgumentException if the name is blank, or one of them can't be printed on one line
     */
    public Column {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(unit, "unit");
        check("name", name);
        check("unit", unit);
        if (name.isEmpty()) {
            throw new IllegalArgumentException("a column has a name");
        }
        if (name.contains(BEFORE_UNIT)) {
            throw new IllegalArgumentException(
                    "column \"" + name + "\" has a comma and a blank in its name; behind them stands the unit");
        }
    }

    private static void check(String what, String text) {
        if (!text.equals(text.strip())) {
            throw new IllegalArgumentException("the " + what + " \"" + text + "\" of a column has blanks at its ends");
        }
        if (UNPRINTABLE.matcher(text).find()) {
            throw new IllegalArgumentException(
                    "the " + what + " of a column holds a control character; only printable ones may stand there");
        }
        if (text.length() > LONGEST) {
            throw new IllegalArgumentException("the " + what + " of a column has " + text.length()
                    + " characters; at most " + LONGEST + " may stand there");
        }
    }

    /**
     * A column of numbers.
     *
     * @param header name, or name and unit, such as {@code cold weight, kg}
     * @return the column
     * @throws IllegalArgumentException if it can't be used as one
     */
    public static Column number(String header) {
        Objects.requireNonNull(header, "header");
        return of(header, true);
    }

    /**
     * A column of text.
     *
     * @param header name
     * @return the column
     * @throws IllegalArgumentException if it can't be used as one
     */
    public static Column text(String header) {
        Objects.requireNonNull(header, "header");
        return of(header, false);
    }

    static Column of(String header, boolean numeric) {
        int comma = header.indexOf(BEFORE_UNIT);
        return comma < 0
                ? new Column(header, "", numeric)
                : new Column(header.substring(0, comma), header.substring(comma + BEFORE_UNIT.length()), numeric);
    }

    /**
     * Name and unit as they stand over the column, in print and in files.
     *
     * @return such as {@code cold weight, kg}
     */
    public String header() {
        return unit.isEmpty() ? name : name + BEFORE_UNIT + unit;
    }

    /**
     * Whether its numbers may be added up. Shares, rates and the ends of intervals may not: their unit holds {@code %},
     * {@code /}, {@code per} or {@code a kg}, such as {@code % of cold weight}, {@code g/kg} or {@code kg (90 %)}.
     *
     * @return true for numbers in a unit of their own, or none
     */
    public boolean addsUp() {
        return numeric && !RATE.matcher(" " + unit + " ").find();
    }

    /**
     * One line.
     *
     * @return name and unit
     */
    @Override
    public String toString() {
        return header();
    }
}
