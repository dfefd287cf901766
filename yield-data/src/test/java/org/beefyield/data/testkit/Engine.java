package org.beefyield.data.testkit;

import org.beefyield.carcass.Category;
import org.beefyield.grid.CompiledTable;
import org.beefyield.grid.TableLayout;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.YieldTable;

/** The engine behind a table, for tests that look at it. */
final class Engine {
    private Engine() {}

    static TableLayout layout(YieldTable table) {
        return table.unwrap(CompiledTable.class).layout();
    }

    static YieldGrid grid(YieldTable table, Category category, CuttingSpecification specification) {
        CompiledTable compiled = table.unwrap(CompiledTable.class);
        return compiled.grid(compiled.group(category), specification.ways());
    }
}
