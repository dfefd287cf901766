package org.beefyield.data.testkit;

import java.util.Optional;
import org.beefyield.data.defects.SmallTable;
import org.beefyield.table.YieldTable;

/** The contract on tables in which a test has planted a defect; on the small table if none has. */
class PlantedContract extends YieldTableContract {
    static YieldTable planted;
    static YieldTable before;
    static double budget;
    static String digest;

    @Override
    protected YieldTable table() {
        return planted == null ? YieldTable.of(SmallTable.definition()) : planted;
    }

    @Override
    protected Optional<YieldTable> baseline() {
        return Optional.ofNullable(before);
    }

    @Override
    protected double budgetGPerKg() {
        return budget;
    }

    @Override
    protected Optional<String> digest() {
        return Optional.ofNullable(digest);
    }
}
