package org.beefyield.data.boning;

import java.util.Objects;
import org.beefyield.cut.Cut;
import org.beefyield.table.YieldTable;

/**
 * The cuts that a run can be judged by: those that stand at one level of a table.
 *
 * @param table the table
 * @param level name of the level
 */
record CutsOfLevel(YieldTable table, String level) {
    /**
     * Checks the level.
     *
     * @throws IllegalArgumentException if the table has no such level
     */
    CutsOfLevel {
        Objects.requireNonNull(table.cutsAt(level));
    }

    static CutsOfLevel last(YieldTable table) {
        return new CutsOfLevel(table, table.levels().get(table.levels().size() - 1));
    }

    /**
     * The cut of a code.
     *
     * @throws IllegalArgumentException if there is none, or it doesn't stand at the level
     */
    Cut cut(String code) {
        Cut cut = table.catalogue().cut(code);
        if (!table.cutsAt(level).contains(cut)) {
            throw new IllegalArgumentException(
                    code + " stands at level " + cut.level() + " of the table; what is weighed is of level " + level);
        }
        return cut;
    }
}
