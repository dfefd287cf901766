package org.beefyield.table.definition;

import java.io.Serializable;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;
import org.beefyield.text.Checks;

/**
 * A column that a table carries and no part of the model reads, such as {@code checked_by}.
 *
 * @param resource name of the resource it stands in, such as {@code breakdown}
 * @param column name of the column
 * @param type type that the descriptor declares, such as {@code string}
 * @param values a value for each row of the resource, in its order; empty where the cell is
 * @serial exclude
 */
public record ExtraColumn(String resource, String column, String type, List<String> values) implements Serializable {
    /** Copies the values. */
    public ExtraColumn {
        Objects.requireNonNull(column, "column");
        Checks.noNullIn(values, "values");
        Objects.requireNonNull(resource, "resource");
        Objects.requireNonNull(type, "type");
        values = List.copyOf(values);
    }

    /** The column for other rows: those that there were before keep their values, new ones have none. */
    ExtraColumn following(List<?> before, List<?> after) {
        return new ExtraColumn(
                resource,
                column,
                type,
                after.stream()
                        .map(before::indexOf)
                        .map(index -> index < 0 ? "" : values.get(index))
                        .toList());
    }

    private static final Pattern NUMBER = Pattern.compile("[-+]?[0-9]+(\\.[0-9]+)?([eE][-+]?[0-9]+)?");
    private static final Pattern INTEGER = Pattern.compile("[-+]?[0-9]+");

    /**
     * Whether a value is of the declared type, as far as types are told apart here; an empty one always is.
     *
     * @param value a cell
     * @return true if it is
     */
    public boolean isValid(String value) {
        Objects.requireNonNull(value, "value");
        if (value.isEmpty()) {
            return true;
        }
        return switch (type) {
            case "number" -> NUMBER.matcher(value).matches();
            case "integer", "year" -> INTEGER.matcher(value).matches();
            case "boolean" -> value.matches("(?i)true|false|1|0");
            case "date" -> isDate(value);
            default -> true;
        };
    }

    private static boolean isDate(String value) {
        try {
            return LocalDate.parse(value).getYear() > 0;
        } catch (DateTimeException e) {
            return false;
        }
    }
}
