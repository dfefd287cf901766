package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The shipped table's intervals against carcasses, lots and seasons drawn from its own model by other ways than the
 * library's ({@link ModelTruth}): they are as wide as the model says, which is not to say that the model is true; for
 * that see {@link CoverageReportTest}. Our simulation, no outside source. All draws have fixed seeds; the standard
 * error of a coverage near 90 % is 0.15 points for carcasses and 0.27 for lots.
 */
class IntervalCoverageTest {
    private static final YieldTable TABLE = ShippedTables.boneless2026();

    private static final int CARCASSES = 40_000;
    private static final int LOTS = 12_000;

    private static Carcass carcass(String letter, String conformation, String fatClass, double kg) {
        return Carcass.of(Category.parse(letter), Conformation.parse(conformation), FatClass.parse(fatClass), kg);
    }

    private static void hold(Map<String, Coverage.Result> results) {
        assertThat(results).isNotEmpty();
        results.forEach((name, result) -> {
            assertThat(result.sdsAboveZero()).as(name).isGreaterThan(3);
            assertThat(result.held(0.9)).as("90 %% of %s", name).isCloseTo(0.90, within(0.01));
            assertThat(result.held(0.95)).as("95 %% of %s", name).isCloseTo(0.95, within(0.01));
            assertThat(result.held(0.8)).as("80 %% of %s", name).isCloseTo(0.80, within(0.015));
            assertThat(result.held(0.5)).as("50 %% of %s", name).isCloseTo(0.50, within(0.02));
        });
    }

    /** First order leaves out less than a hundredth of an SD; the rest is chance. */
    private static void haveTheSdsOfTheDeltaMethod(Map<String, Coverage.Result> results) {
        assertThat(results).isNotEmpty();
        results.forEach((name, result) -> {
            assertThat(result.sdDrawn() / result.sd()).as("SD of %s", name).isCloseTo(1, within(0.03));
            assertThat((result.meanDrawn() - result.kg()) / result.sd())
                    .as("mean of %s, in SDs", name)
                    .isCloseTo(0, within(0.04));
        });
    }

    @ParameterizedTest
    @CsvSource({
        "steaks, C, R=, 3=, 340",
        "steaks, C, R, 3, 380",
        "joints, D, O-, 4-, 300",
        "trim, A, U-, 3+, 420",
        "joints, E, O, 3, 260"
    })
    void intervalsAndSdsOfACarcassAreThoseOfTheModel(
            String specification, String letter, String conformation, String fatClass, double kg) {
        Carcass carcass = carcass(letter, conformation, fatClass, kg);
        Map<String, Coverage.Result> results = Coverage.ofCutsAndKinds(TABLE, specification)
                .ofCarcass(carcass, ModelTruth.World.AS_MODELLED, CARCASSES, 1);
        assertThat(results).hasSizeGreaterThan(25);
        hold(results);
        haveTheSdsOfTheDeltaMethod(results);
    }

    @ParameterizedTest
    @CsvSource({"steaks, C, R=, 3=, 340", "trim, D, O, 4, 300"})
    void intervalsAndSdsOfMinceAreThoseOfTheModel(
            String specification, String letter, String conformation, String fatClass, double kg) {
        Coverage mince = Coverage.ofMince(TABLE, specification);
        Map<String, Coverage.Result> results = mince.ofCarcass(
                carcass(letter, conformation, fatClass, kg), ModelTruth.World.AS_MODELLED, CARCASSES, 2);
        hold(results);
        haveTheSdsOfTheDeltaMethod(results);
        results = mince.ofLot(Coverage.lot(10, 0, 3), ModelTruth.World.AS_MODELLED, LOTS, 3);
        hold(results);
        haveTheSdsOfTheDeltaMethod(results);
    }

    /** Plain cattle near the table's reference, and well-shaped ones in which the coefficients' errors count. */
    @ParameterizedTest
    @CsvSource({"0, 40", "5, 40"})
    void intervalsAndSdsOfALotAreThoseOfTheModel(int better, int size) {
        Map<String, Coverage.Result> results = Coverage.ofCutsAndKinds(TABLE, "steaks")
                .ofLot(Coverage.lot(size, better, 5), ModelTruth.World.AS_MODELLED, LOTS, 4);
        hold(results);
        haveTheSdsOfTheDeltaMethod(results);
    }

    /**
     * Fat trim of very lean carcasses has less than 3 SDs to fall. What falls below nothing is drawn again, so that the
     * true spread of fat trim, and of the meat it takes from, is smaller than the model's SD: intervals are too wide
     * rather than too narrow.
     */
    @ParameterizedTest
    @CsvSource({"U+, 2-", "E=, 1+", "E+, 1-"})
    void intervalsOfVeryLeanCarcassesHoldMoreThanTheySay(String conformation, String fatClass) {
        Map<String, Coverage.Result> results = Coverage.ofCutsAndKinds(TABLE, "steaks")
                .ofCarcass(carcass("C", conformation, fatClass, 380), ModelTruth.World.AS_MODELLED, CARCASSES, 1);
        assertThat(results.entrySet())
                .filteredOn(entry -> entry.getKey().equals("fat-trim at tissue"))
                .singleElement()
                .satisfies(entry -> {
                    assertThat(entry.getValue().sdsAboveZero()).isLessThan(2);
                    assertThat(entry.getValue().held(0.9)).isBetween(0.91, 0.95);
                    assertThat(entry.getValue().meanDrawn())
                            .isGreaterThan(entry.getValue().kg());
                    assertThat(entry.getValue().sdDrawn())
                            .isLessThan(0.96 * entry.getValue().sd());
                });
        results.forEach((name, result) -> assertThat(result.held(0.9)).as(name).isBetween(0.89, 0.95));
    }

    @ParameterizedTest
    @CsvSource({"steaks, C, R=, 3=, 340", "joints, D, O, 4, 300"})
    void whatTheLibraryDrawsHasTheSdsAndTheCoverageToo(
            String specification, String letter, String conformation, String fatClass, double kg) {
        Carcass carcass = carcass(letter, conformation, fatClass, kg);
        for (Coverage coverage :
                List.of(Coverage.ofCutsAndKinds(TABLE, specification), Coverage.ofMince(TABLE, specification))) {
            Map<String, Coverage.Result> results = coverage.ofSample(carcass, 10_000, 6);
            haveTheSdsOfTheDeltaMethod(results);
            results.forEach(
                    (name, result) -> assertThat(result.held(0.9)).as(name).isCloseTo(0.9, within(0.015)));
        }
    }
}
