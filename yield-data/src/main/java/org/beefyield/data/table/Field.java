package org.beefyield.data.table;

import java.math.BigDecimal;
import java.util.List;
import java.util.Set;
import org.beefyield.data.file.NumberForm;
import org.jspecify.annotations.Nullable;

/**
 * A column as the descriptor declares it.
 *
 * @param name its name
 * @param type type of Table Schema
 * @param numbers how its numbers are written
 * @param trueValues words that say true
 * @param falseValues words that say false
 * @param constraints what its cells keep
 */
record Field(
        String name,
        String type,
        NumberForm numbers,
        List<String> trueValues,
        List<String> falseValues,
        Constraints constraints) {
    /** What says true unless a field declares other words (Table Schema, version 1), the one first that is written. */
    static final List<String> TRUE = List.of("true", "True", "TRUE", "1");

    static final List<String> FALSE = List.of("false", "False", "FALSE", "0");

    /** Exponents beyond which a number stays as it stands. */
    private static final int LARGEST_EXPONENT = 400;

    /**
     * A cell as a file of the plain form has it: decimal points, {@code true} and {@code false}.
     *
     * @param raw the cell
     * @param asType type that counts, the table's own before the declared one
     * @param isOwn whether the column is one of the table's own, whose words are checked where they are used
     * @throws IllegalArgumentException with what is wrong and what would be valid
     */
    String cell(String raw, String asType, boolean isOwn) {
        String text = raw.strip();
        if (text.isEmpty()) {
            return raw;
        }
        return switch (asType) {
            case "boolean" -> flag(text);
            case "number", "integer" -> number(text, isOwn);
            default -> raw;
        };
    }

    /** The plain word, or the text as it stands if it is none of those declared. */
    private String flag(String text) {
        return trueValues.contains(text) ? "true" : falseValues.contains(text) ? "false" : text;
    }

    private String number(String text, boolean isOwn) {
        String point = text;
        if (numbers == NumberForm.COMMA_OR_EXPONENT) {
            numbers.parse(text);
            point = text.replace(',', '.');
        }
        // a number of the table's own is read as one; others are carried as they stand, in one form
        return isOwn ? point : carried(point);
    }

    /** The same text however a spreadsheet writes the number. */
    private static String carried(String text) {
        try {
            BigDecimal number = new BigDecimal(text).stripTrailingZeros();
            return Math.abs(number.scale()) > LARGEST_EXPONENT ? text : number.toPlainString();
        } catch (NumberFormatException e) {
            return text;
        }
    }

    /**
     * What the cells of a column keep (Table Schema's constraints).
     *
     * @param required whether none is empty
     * @param unique whether no two are the same
     * @param minimum least number
     * @param maximum greatest number
     * @param minLength fewest characters
     * @param maxLength most characters
     * @param words the only texts, empty if any may be
     */
    record Constraints(
            boolean required,
            boolean unique,
            @Nullable Double minimum,
            @Nullable Double maximum,
            @Nullable Double minLength,
            @Nullable Double maxLength,
            List<String> words) {
        static final Constraints NONE = new Constraints(false, false, null, null, null, null, List.of());

        /**
         * What a cell breaks.
         *
         * @param cell the cell, in the plain form
         * @param before those above it, to which it is added
         * @return a message, or null
         */
        @Nullable
        String broken(String cell, Set<String> before) {
            String text = cell.strip();
            if (text.isEmpty()) {
                return required ? says("required", "the cell is empty") : null;
            }
            if (unique && !before.add(text)) {
                return says("unique", "it stands above too");
            }
            int length = text.codePointCount(0, text.length());
            if (minLength != null && length < minLength) {
                return says("minLength", "it has " + length + " characters");
            }
            if (maxLength != null && length > maxLength) {
                return says("maxLength", "it has " + length + " characters");
            }
            Double number = minimum == null && maximum == null && words.isEmpty() ? null : number(text);
            if (minimum != null && number != null && number < minimum) {
                return says("minimum", "it is below it");
            }
            if (maximum != null && number != null && number > maximum) {
                return says("maximum", "it is above it");
            }
            boolean listed = words.isEmpty()
                    || words.stream()
                            .anyMatch(word -> word.equals(text) || (number != null && number.equals(number(word))));
            return listed ? null : says("enum", "it isn't listed there");
        }

        private static String says(String constraint, String message) {
            return message + ": \"" + constraint + "\" under \"constraints\" of the field in " + Descriptor.FILE
                    + " forbids it; change the cell or the constraint";
        }

        private static @Nullable Double number(String text) {
            try {
                return Double.valueOf(text);
            } catch (NumberFormatException e) {
                return null;
            }
        }
    }
}
