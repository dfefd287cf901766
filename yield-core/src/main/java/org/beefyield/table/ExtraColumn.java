package org.beefyield.table;

import java.util.List;

/**
 * A column that a table carries and no part of the model reads, such as {@code checked_by}.
 *
 * @param resource name of the resource it stands in, such as {@code breakdown}
 * @param column name of the column
 * @param type type that the descriptor declares, such as {@code string}
 * @param values a value for each row of the resource, in its order; empty where the cell is
 */
public record ExtraColumn(String resource, String column, String type, List<String> values) {
    /**
     * Copies the values.
     *
     * @param resource name of the resource it stands in, such as {@code breakdown}
     * @param column name of the column
     * @param type type that the descriptor declares, such as {@code string}
     * @param values a value for each row of the resource, in its order; empty where the cell is
     */
    public ExtraColumn {
        values = List.copyOf(values);
    }
}
