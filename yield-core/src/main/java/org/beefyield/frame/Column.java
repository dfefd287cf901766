package org.beefyield.frame;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * What a column is called, its unit, what stands in it, and what it comes to in all.
 *
 * @param name what a person calls it, such as {@code cold weight}; not blank, no comma followed by a blank in it
 * @param unit unit of its numbers, such as {@code kg}; empty if they have none
 * @param type what stands in it
 * @param total what its numbers come to over all rows; {@link Total#NONE} for a column of texts
 */
public record Column(String name, String unit, Type type, Total total) {
    private static final String BEFORE_UNIT = ", ";
    private static final Pattern UNPRINTABLE = Pattern.compile("\\p{Cntrl}|\\p{Cs}|\\x{FEFF}");
    private static final Pattern DAY = Pattern.compile("[0-9]{4}-[0-9]{2}-[0-9]{2}");
    private static final int LONGEST = 200;

    /** Units in which a whole is the sum of its parts. */
    private static final Set<String> ADDITIVE = Set.of("kg", "g", "t", "head", "carcasses", "pieces");

    /** The labels of ISO 4217, the usual ones of money. */
    private static final Pattern CURRENCY = Pattern.compile("[A-Z]{3}");

    /** What stands in a column. */
    public enum Type {
        /** Numbers. */
        NUMBER,
        /** Texts, in the order of their characters. */
        TEXT,
        /** Days such as {@code 2026-11-03}, as texts. */
        DATE,
        /** Conformation as it prints, or a whole class such as {@code R 3}, best first. */
        CONFORMATION,
        /** Fat class as it prints, leanest first. */
        FAT_CLASS
    }

    /**
     * Checks the texts.
     *
     * @throws IllegalArgumentException if the name is blank, one of them can't be printed on one line, or texts have a unit
     *     or a total
     */
    public Column {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(unit, "unit");
        Objects.requireNonNull(type, "type");
        Objects.requireNonNull(total, "total");
        check("name", name);
        check("unit", unit);
        if (name.isEmpty()) {
            throw new IllegalArgumentException("a column has a name");
        }
        if (name.contains(BEFORE_UNIT)) {
            throw new IllegalArgumentException(
                    "column \"" + name + "\" has a comma and a blank in its name; behind them stands the unit");
        }
        if (type != Type.NUMBER && !total.equals(Total.NONE)) {
            throw new IllegalArgumentException("column \"" + name + "\" holds texts, which have no total");
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
     * A column of numbers. They add up if their unit says so: kg, g, t, head, carcasses, pieces, and the three capital
     * letters of a currency. In any other unit, or none, the column has no total, for an age or a share has none; declare
     * one by {@link #totalling}.
     *
     * @param header name, or name and unit, such as {@code cold weight, kg}
     * @return the column
     * @throws IllegalArgumentException if it can't be used as one
     */
    public static Column number(String header) {
        Objects.requireNonNull(header, "header");
        return of(header, Type.NUMBER);
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
        return of(header, Type.TEXT);
    }

    /**
     * A column of another type.
     *
     * @param newType what stands in it
     * @return the column, with the total that goes with the type
     */
    public Column of(Type newType) {
        Objects.requireNonNull(newType, "newType");
        return newType == type ? this : of(header(), newType);
    }

    /**
     * A column that comes to something else in all.
     *
     * @param newTotal what its numbers come to over all rows
     * @return the column
     * @throws IllegalArgumentException if it holds texts
     */
    public Column totalling(Total newTotal) {
        Objects.requireNonNull(newTotal, "newTotal");
        return new Column(name, unit, type, newTotal);
    }

    /**
     * Whether a text is a day as {@link Type#DATE} has it.
     *
     * @param text text
     * @return true of such as {@code 2026-11-03}
     */
    public static boolean isDay(String text) {
        Objects.requireNonNull(text, "text");
        try {
            return DAY.matcher(text).matches() && !LocalDate.parse(text).equals(LocalDate.MIN);
        } catch (DateTimeParseException e) {
            return false;
        }
    }

    static Column of(String header, Type type) {
        int comma = header.indexOf(BEFORE_UNIT);
        String name = comma < 0 ? header : header.substring(0, comma);
        String unit = comma < 0 ? "" : header.substring(comma + BEFORE_UNIT.length());
        boolean addsUp = type == Type.NUMBER
                && (ADDITIVE.contains(unit) || CURRENCY.matcher(unit).matches());
        return new Column(name, unit, type, addsUp ? Total.SUM : Total.NONE);
    }

    /**
     * Whether it holds numbers.
     *
     * @return false for texts of any type
     */
    public boolean numeric() {
        return type == Type.NUMBER;
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
     * One line.
     *
     * @return name and unit
     */
    @Override
    public String toString() {
        return header();
    }
}
