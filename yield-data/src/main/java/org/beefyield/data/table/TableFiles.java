package org.beefyield.data.table;

import java.util.Arrays;
import org.beefyield.table.definition.TableSchema;

/** Names of the files that a table is written to. */
final class TableFiles {
    private TableFiles() {}

    /** The name of the file that a resource is written to. */
    static String name(TableSchema schema) {
        return schema.code() + ".csv";
    }

    /** Whether a file of this name may hold a resource that this library writes. */
    static boolean isResource(String file) {
        return Arrays.stream(TableSchema.values()).anyMatch(schema -> file.equals(name(schema)));
    }
}
