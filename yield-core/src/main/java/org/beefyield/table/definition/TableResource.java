package org.beefyield.table.definition;

import java.util.List;
import java.util.Objects;
import org.beefyield.text.Checks;

/**
 * One part of a table as rows of text: what its file holds and what its digest is taken over.
 *
 * @param schema which resource it is
 * @param columns column names, those of the schema first
 * @param rows rows, each with a cell for every column; numbers as the shortest decimal that reads back the same
 */
public record TableResource(TableSchema schema, List<String> columns, List<List<String>> rows) {
    /**
     * Copies the columns and rows.
     *
     * @throws IllegalArgumentException if a row has more or fewer cells than there are columns
     */
    public TableResource {
        Checks.noNullIn(columns, "columns");
        Checks.noNullIn(rows, "rows");
        Objects.requireNonNull(schema, "schema");
        columns = List.copyOf(columns);
        rows = rows.stream().map(List::copyOf).toList();
        for (List<String> row : rows) {
            if (row.size() != columns.size()) {
                throw new IllegalArgumentException(
                        schema + ": a row has " + row.size() + " cells for " + columns.size() + " columns");
            }
        }
    }

    /**
     * The name of the resource.
     *
     * @return the name, such as {@code breakdown}
     */
    public String name() {
        return schema.code();
    }
}
