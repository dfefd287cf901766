package org.beefyield.table;

import java.io.Serializable;
import java.util.Objects;
import org.beefyield.table.definition.TableSchema;

/**
 * What is wrong with a table, and where.
 *
 * @param resource the part of the definition, such as {@code breakdown}; {@code table} for the table itself
 * @param row index of the row in that part, from 0, or -1 if it is about more than one row
 * @param column column or key, empty if it is about the whole row
 * @param value the value found, empty if none
 * @param message what is wrong and what would be valid
 * @param otherRow index of the row of the same part that it is at odds with, or -1 if there is none
 * @serial exclude
 */
public record TableProblem(String resource, int row, String column, String value, String message, int otherRow)
        implements Serializable {
    /**
     * Checks that nothing is missing and that figures are figures.
     *
     * @throws IllegalArgumentException if a row is below -1
     */
    public TableProblem {
        Objects.requireNonNull(column, "column");
        Objects.requireNonNull(message, "message");
        Objects.requireNonNull(resource, "resource");
        Objects.requireNonNull(value, "value");
        if (row < NO_ROW || otherRow < NO_ROW) {
            throw new IllegalArgumentException("rows " + row + " and " + otherRow + " are not " + NO_ROW + " or more");
        }
    }

    /** Resource name of problems with the table's own keys. */
    public static final String TABLE = "table";

    /** Row of problems that are not about one row. */
    public static final int NO_ROW = -1;

    TableProblem(String resource, int row, String column, String value, String message) {
        this(resource, row, column, value, message, NO_ROW);
    }

    TableProblem(TableSchema resource, int row, String column, String value, String message) {
        this(resource, row, column, value, message, NO_ROW);
    }

    TableProblem(TableSchema resource, int row, String column, String value, String message, int otherRow) {
        this(resource.code(), row, column, value, message, otherRow);
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
                + (otherRow == NO_ROW ? "" : " (row " + (otherRow + 1) + ")");
    }
}
