package org.beefyield.data.derivation;

import java.util.List;
import org.beefyield.data.table.ShippedTables;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every row of {@code construction.csv}: a figure published of cattle that the shipped table is built from, beside the table's.
 */
class PublishedYieldsConstructionReferenceTest {
    private static List<PublishedYields.Line> lines() {
        return new PublishedYields(ShippedTables.boneless2026()).lines("construction.csv");
    }

    @ParameterizedTest
    @MethodSource("lines")
    void theTableSaysWhatWasPublishedWithinTheBand(PublishedYields.Line line) {
        line.check();
    }
}
