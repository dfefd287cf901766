package org.beefyield.grid;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableSchema;

/** Rows of both forms of breakdown, numbered through, with where their figures come from. Immutable. */
final class RowSources {
    /** From the most solid to the weakest. */
    static final List<SourceKind> KINDS = List.of(SourceKind.values());

    /** One row. */
    static final class Row {
        final String parent;
        final String cut;
        final String source;
        /** How weak its source is: place of the kind among {@link #KINDS}. */
        final int weakness;

        /** Whether it serves single categories and not all. */
        final boolean isOwn;

        Row(String category, String parent, String cut, String source, Map<String, SourceKind> kinds) {
            this.parent = parent;
            this.cut = cut;
            this.source = source;
            // a table with a source that isn't listed is refused
            this.weakness = KINDS.indexOf(kinds.getOrDefault(source, SourceKind.ASSUMPTION));
            this.isOwn = !category.equals(BreakdownRow.ANY);
        }
    }

    private final List<Row> rows = new ArrayList<>();
    /** Rows of coefficients; those by class stand behind them. */
    private final int ofCoefficients;

    RowSources(TableDefinition definition) {
        Map<String, SourceKind> kinds =
                definition.sources().stream().collect(Collectors.toMap(SourceRow::source, SourceRow::kind));
        definition
                .breakdown()
                .forEach(row -> rows.add(new Row(row.category(), row.parent(), row.cut(), row.source(), kinds)));
        ofCoefficients = rows.size();
        definition
                .breakdownByClass()
                .forEach(row -> rows.add(new Row(row.category(), row.parent(), row.cut(), row.source(), kinds)));
    }

    /** Number of the row from which the share of a child comes at a node; of rows by class that of the node's own class. */
    int number(Breakdown breakdown, int child, int node) {
        return breakdown.row(child, node) + (breakdown.resource() == TableSchema.BREAKDOWN ? 0 : ofCoefficients);
    }

    Row row(int number) {
        return rows.get(number);
    }
}
