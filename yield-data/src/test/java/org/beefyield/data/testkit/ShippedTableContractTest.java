package org.beefyield.data.testkit;

import java.util.Optional;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.table.YieldTable;

/** The contract on the shipped edition, which never changes: the baseline is the edition itself and the budget 0. */
class ShippedTableContractTest extends YieldTableContract {
    @Override
    protected YieldTable table() {
        return ShippedTables.boneless2026();
    }

    @Override
    protected Optional<YieldTable> baseline() {
        return Optional.of(ShippedTables.boneless2026());
    }

    @Override
    protected double budgetGPerKg() {
        return 0;
    }
}
