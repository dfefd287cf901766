package org.beefyield.table;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableSchema;

/**
 * What a row of either form of breakdown says, but for its figures.
 *
 * @param resource part of the definition that it stands in
 * @param row its index there
 * @param cell conformation and fat class of a row by class, empty for a row of coefficients
 */
record RowKey(
        TableSchema resource,
        int row,
        String category,
        String way,
        String parent,
        String cut,
        String cell,
        String source) {

    /** Every row of both forms. */
    static List<RowKey> of(TableDefinition definition) {
        List<RowKey> keys = new ArrayList<>();
        for (int i = 0; i < definition.breakdown().size(); i++) {
            BreakdownRow row = definition.breakdown().get(i);
            keys.add(new RowKey(
                    TableSchema.BREAKDOWN, i, row.category(), row.way(), row.parent(), row.cut(), "", row.source()));
        }
        for (int i = 0; i < definition.breakdownByClass().size(); i++) {
            ClassRow row = definition.breakdownByClass().get(i);
            keys.add(new RowKey(
                    TableSchema.BREAKDOWN_BY_CLASS,
                    i,
                    row.category(),
                    row.way(),
                    row.parent(),
                    row.cut(),
                    row.conformation() + " " + row.fatClass(),
                    row.source()));
        }
        return keys;
    }
}
