package org.beefyield.data.file;

import java.util.regex.Pattern;

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
    POINT_OR_EXPONENT("342.5", "-?[0-9]+(\\.[0-9]+)?([eE][-+]?[0-9]+)?");

    private static final Pattern ONE_COMMA = Pattern.compile("-?[0-9]+,[0-9]+");
    private static final Pattern ONE_POINT = Pattern.compile("-?[0-9]+\\.[0-9]+");
    private static final Pattern NONZERO_DIGITS = Pattern.compile("[^eE]*[1-9].*");

    private final String example;
    private final Pattern valid;

    NumberForm(String example, String valid) {
        this.example = example;
        this.valid = Pattern.compile(valid);
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

    private String hint(String text) {
        if (this == POINT && ONE_COMMA.matcher(text).matches()) {
            return "; if its comma is a decimal comma, declare it: KillSheetFormat.withDecimalComma()";
        }
        if (this == POINT_OR_EXPONENT && ONE_COMMA.matcher(text).matches()) {
            return "; a table has decimal points";
        }
        if (this == COMMA && ONE_POINT.matcher(text).matches()) {
            return "; the decimal comma is declared";
        }
        return "";
    }
}
