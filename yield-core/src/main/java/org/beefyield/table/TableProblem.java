package org.beefyield.table;

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
 */
public record TableProblem(String resource, int row, String column, String value, String message, int otherRow) {
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
