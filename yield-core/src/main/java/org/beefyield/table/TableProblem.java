package org.beefyield.table;

import java.io.Serializable;
import java.util.List;
import java.util.Objects;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * What is wrong with a table, and where.
 *
 * @param resource the part of the definition, such as {@code breakdown}; {@code table} for the table itself
 * @param row index of the row in that part, from 0, or -1 if it is about more than one row
 * @param column column or key, empty if it is about the whole row
 * @param value the value found, empty if none
 * @param message what is wrong and what would be valid
 * @param otherRows indexes of the rows of the same part that it is at odds with, or of all that it is about if it is about
 *     more than one; empty if there are none
 * @serial exclude
 */
// its list is a copy, which is serializable
@SuppressWarnings("serial")
public record TableProblem(
        String resource, int row, String column, String value, String message, List<Integer> otherRows)
        implements Serializable {
    /**
     * Checks that nothing is missing and that figures are figures.
     *
     * @throws IllegalArgumentException if the row is below -1 or another below 0
     */
    public TableProblem {
        Objects.requireNonNull(column, "column");
        Objects.requireNonNull(message, "message");
        Checks.noNullIn(otherRows, "otherRows");
        Objects.requireNonNull(resource, "resource");
        Objects.requireNonNull(value, "value");
        if (row < NO_ROW) {
            throw new IllegalArgumentException("row " + row + " is not " + NO_ROW + " or more");
        }
        otherRows.forEach(other -> {
            if (other < 0) {
                throw new IllegalArgumentException("row " + other + " is not 0 or more");
            }
        });
        otherRows = List.copyOf(otherRows);
    }

    /** Resource name of problems with the table's own keys. */
    public static final String TABLE = "table";

    /** Row of problems that are not about one row. */
    public static final int NO_ROW = -1;

    TableProblem(String resource, int row, String column, String value, String message) {
        this(resource, row, column, value, message, List.of());
    }

    TableProblem(TableSchema resource, int row, String column, String value, String message) {
        this(resource, row, column, value, message, List.of());
    }

    TableProblem(TableSchema resource, int row, String column, String value, String message, List<Integer> otherRows) {
        this(resource.code(), row, column, value, message, otherRows);
    }

    /**
     * One line.
     *
     * @return where and what
     */
    @Override
    public String toString() {
        return resource + (row == NO_ROW ? "" : " row " + (row + 1)) + (column.isEmpty() ? "" : ", " + column)
                + (value.isEmpty() ? "" : " \"" + value + "\"") + ": " + message
                + Numbers.places(
                        "row", otherRows.stream().map(other -> other + 1L).toList());
    }
}
