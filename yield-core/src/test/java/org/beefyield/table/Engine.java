package org.beefyield.table;

import org.beefyield.carcass.Category;
import org.beefyield.grid.CompiledTable;
import org.beefyield.grid.TableLayout;
import org.beefyield.grid.YieldErrors;
import org.beefyield.grid.YieldGrid;

/** The engine behind a table, for tests that look at it. */
public final class Engine {
    private Engine() {}

    public static TableLayout layout(YieldTable table) {
        return table.unwrap(CompiledTable.class).layout();
    }

    public static int node(YieldTable table, int conformation, int fat) {
        return table.unwrap(CompiledTable.class).nodes().at(conformation, fat);
    }

    public static YieldGrid grid(YieldTable table, Category category, CuttingSpecification specification) {
        table.check(specification);
        CompiledTable compiled = table.unwrap(CompiledTable.class);
        return compiled.grid(compiled.group(category), specification.ways());
    }

    public static YieldErrors errors(YieldTable table, Category category, CuttingSpecification specification) {
        return table.unwrap(CompiledTable.class)
                .errors(category, specification.ways(), grid(table, category, specification));
    }

    /** Covariance of two figures' shares between carcasses of one grade, a polynomial in t. */
    public static double[] betweenCarcasses(YieldErrors errors, int node, double[] a, double[] b) {
        return errors.betweenCarcasses(node, errors.effects(a), errors, errors.effects(b));
    }
}
