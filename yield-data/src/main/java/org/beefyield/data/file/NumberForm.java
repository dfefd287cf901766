package org.beefyield.data.file;

import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.beefyield.data.CsvForm;

/**
 * The declared way of writing numbers in a file. Digits alone count: no thousands separator, no plus sign, no
 * hexadecimal, no NaN, no infinity.
 */
public enum NumberForm {
    /** {@code -12.5}. */
    POINT("342.5", "-?[0-9]+(\\.[0-9]+)?"),
    /** {@code -12,5}. */
    COMMA("342,5", "-?[0-9]+(,[0-9]+)?"),
    /** {@code -12.5} or, as the shortest text of a double may need, {@code 1.0E-5}. */
    POINT_OR_EXPONENT("342.5", "-?[0-9]+(\\.[0-9]+)?([eE][-+]?[0-9]+)?"),
    /** {@code -12,5} or {@code 1,0E-5}. */
    COMMA_OR_EXPONENT("342,5", "-?[0-9]+(,[0-9]+)?([eE][-+]?[0-9]+)?"),
    /** The same as {@link #POINT_OR_EXPONENT}, in a file that nothing can be declared of. */
    TABLE("342.5", "-?[0-9]+(\\.[0-9]+)?([eE][-+]?[0-9]+)?");

    private static final Pattern ONE_COMMA = Pattern.compile("-?[0-9]+,[0-9]+");
    private static final Pattern ONE_POINT = Pattern.compile("-?[0-9]+\\.[0-9]+");
    private static final Pattern GROUPED =
            Pattern.compile("-?[0-9]{1,3}([., '\u00A0\u202F\u2019][0-9]{3})+([.,][0-9]+)?");
    private static final Pattern DATE =
            Pattern.compile("[0-9]{1,4}[-/.][0-9]{1,2}[-/.]([0-9]{1,4})?|[0-9]{1,2}[-/][0-9]{1,4}"
                    + "|(?=.*[0-9])[0-9]{0,4}[-. /]*\\p{L}{3,9}[-. /]*[0-9]{0,4}");
    private static final Pattern NOTHING = Pattern.compile("(?i)na|n/a|nan|null|none|-|\\?");
    private static final Pattern NONZERO_DIGITS = Pattern.compile("[^eE]*[1-9].*");

    /** That a double holds as a whole number. */
    private static final int MOST_DIGITS = 15;

    /** Of ten, by exponent. */
    private static final double[] POWERS =
            IntStream.range(0, MOST_DIGITS).mapToDouble(i -> Math.pow(10, i)).toArray();

    private final String example;
    private final char mark;
    private final Pattern valid;

    NumberForm(String example, String valid) {
        this.example = example;
        this.mark = example.indexOf(',') < 0 ? '.' : ',';
        this.valid = Pattern.compile(valid);
    }

    /**
     * Plain decimals.
     *
     * @param form how a file is written
     * @return how it writes them
     */
    public static NumberForm plain(CsvForm form) {
        return form.decimalMark() == ',' ? COMMA : POINT;
    }

    /**
     * Decimals that may have an exponent.
     *
     * @param form how a file is written
     * @return how it writes them
     */
    public static NumberForm full(CsvForm form) {
        return form.decimalMark() == ',' ? COMMA_OR_EXPONENT : POINT_OR_EXPONENT;
    }

    /**
     * Reads a number that may have a unit behind it; blanks around it don't count.
     *
     * @param cell the text
     * @param units what is left out at its end
     * @return the number, never NaN or infinite
     * @throws IllegalArgumentException as {@link #parse(String)}
     */
    public double parse(String cell, Set<String> units) {
        return parse(withoutUnit(cell, units));
    }

    /**
     * A number as it stands there, without a unit behind it and blanks around it.
     *
     * @param cell the text
     * @param units what is left out at its end
     * @return the number's text, or all of the text but blanks if no number stands before a unit
     */
    public String withoutUnit(String cell, Set<String> units) {
        String text = blankless(cell);
        for (String unit : units) {
            String number = text.endsWith(unit) ? blankless(text.substring(0, text.length() - unit.length())) : text;
            if (number.length() < text.length() && valid.matcher(number).matches()) {
                return number;
            }
        }
        return text;
    }

    /** Without blanks at its ends, also those that don't break a line. */
    private static String blankless(String text) {
        int from = 0;
        int to = text.length();
        while (from < to && isBlank(text.charAt(from))) {
            from++;
        }
        while (to > from && isBlank(text.charAt(to - 1))) {
            to--;
        }
        return text.substring(from, to);
    }

    private static boolean isBlank(char c) {
        return Character.isWhitespace(c) || Character.isSpaceChar(c);
    }

    /**
     * Reads a number; blanks around it don't count.
     *
     * @param cell the text
     * @return the number, never NaN or infinite
     * @throws IllegalArgumentException with the text and what would be valid, if it isn't written in this form or no
     *     double comes near it
     */
    public double parse(String cell) {
        String text = cell.strip();
        double ofFew = ofFewDigits(text);
        if (!Double.isNaN(ofFew)) {
            return ofFew;
        }
        if (!valid.matcher(text).matches()) {
            throw new IllegalArgumentException(
                    Excerpt.quote(text) + " is not a plain number such as " + example + hint(text));
        }
        double number = Double.parseDouble(text.replace(',', '.'));
        if (Double.isInfinite(number)
                || (number == 0 && NONZERO_DIGITS.matcher(text).matches())) {
            throw new IllegalArgumentException(
                    Excerpt.quote(text) + " is beyond the range of numbers, 1e-323 to 1e308 in size");
        }
        // -0 and 0 are one number in a file
        return number + 0.0;
    }

    /**
     * A number of so few digits that a double holds them as a whole number, and the power of ten that parts them too: their
     * quotient is the double next to it, as it is of {@link Double#parseDouble}, which takes long beside it.
     *
     * @return NaN if it isn't written so
     */
    private double ofFewDigits(String text) {
        int first = text.startsWith("-") ? 1 : 0;
        if (text.length() - first > MOST_DIGITS) {
            return Double.NaN;
        }
        long digits = 0;
        int behindMark = -1;
        for (int at = first; at < text.length(); at++) {
            char c = text.charAt(at);
            if (c >= '0' && c <= '9') {
                digits = 10 * digits + c - '0';
                behindMark += behindMark < 0 ? 0 : 1;
            } else if (c == mark && behindMark < 0 && at > first) {
                behindMark = 0;
            } else {
                return Double.NaN;
            }
        }
        if (text.length() == first || behindMark == 0) {
            return Double.NaN;
        }
        double number = behindMark < 0 ? digits : digits / POWERS[behindMark];
        return first == 0 ? number : 0 - number;
    }

    private String hint(String text) {
        boolean oneComma = ONE_COMMA.matcher(text).matches();
        if ((this == POINT || this == POINT_OR_EXPONENT) && oneComma) {
            return "; if its comma is a decimal comma, declare it: CsvForm.builder().decimalComma(), --decimal-comma";
        }
        if (this == TABLE) {
            return tableHint(text);
        }
        if ((this == COMMA || this == COMMA_OR_EXPONENT)
                && ONE_POINT.matcher(text).matches()) {
            return "; the decimal comma is declared";
        }
        return "";
    }

    /** What a spreadsheet or a person may have made of a number of a table, and what helps. */
    private static String tableHint(String text) {
        if (ONE_COMMA.matcher(text).matches()) {
            return "; a table has decimal points: save the file with them, or declare \"decimalChar\": \",\" of the"
                    + " field in datapackage.json";
        }
        if (GROUPED.matcher(text).matches()) {
            return "; leave out what separates thousands";
        }
        if (DATE.matcher(text).matches()) {
            return "; a spreadsheet has made a date of it, and the number is lost: take it from the file as it was, and"
                    + " open the file with this column as text";
        }
        if (text.startsWith("#")) {
            return "; a spreadsheet writes this where it can't show a number: widen the column or mend the formula, and"
                    + " save again";
        }
        if (text.endsWith("%")) {
            return "; leave out the sign";
        }
        if (NOTHING.matcher(text).matches()) {
            return "; where nothing is known the cell is empty, or its word is declared under \"missingValues\" of the"
                    + " schema in datapackage.json";
        }
        return "";
    }
}
