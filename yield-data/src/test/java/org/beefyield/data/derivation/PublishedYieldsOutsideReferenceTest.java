package org.beefyield.data.derivation;

import java.util.List;
import org.beefyield.data.table.ShippedTables;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every row of {@code outside.csv}: a figure published of cattle or methods that the shipped table isn't built from, with n and why a difference is
 * expected, beside the table's. Where a row says that they disagree, they must: then the page of the table says so too.
 */
class PublishedYieldsOutsideReferenceTest {
    private static List<PublishedYields.Line> lines() {
        return new PublishedYields(ShippedTables.boneless2026()).lines("outside.csv");
    }

    @ParameterizedTest
    @MethodSource("lines")
    void theTableSaysWhatWasPublishedWithinTheBand(PublishedYields.Line line) {
        line.check();
    }
}
