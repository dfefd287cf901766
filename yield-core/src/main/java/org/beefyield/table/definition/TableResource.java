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
    /** Copies the columns and rows. How many cells a row has is looked at with the whole table. */
    public TableResource {
        Checks.noNullIn(columns, "columns");
        Checks.noNullIn(rows, "rows");
        Objects.requireNonNull(schema, "schema");
        columns = List.copyOf(columns);
        rows = rows.stream().map(List::copyOf).toList();
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
