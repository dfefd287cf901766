package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * What a user can take the shipped table's intervals for where the truth is not the model's, and over a season. Our
 * simulation, no outside source; fixed seeds.
 */
class CoverageReportTest {
    private static final CoverageReport REPORT = new CoverageReport(ShippedTables.boneless2026());

    private static String guide() throws IOException {
        return Files.readString(Path.of("GUIDE.md"));
    }

    /** The standard error of a coverage of a lot is 0.5 points near 90 %, of a season 1.3. */
    @Test
    void theGuideStatesWhatTheIntervalsHeld() throws IOException {
        assertThat(guide()).contains(REPORT.table());
    }

    /** Most carcasses lie nearer than normal ones, and the few that don't lie farther: about as many outside. */
    @Test
    void heavierTailsHardlyMatterToACarcassAndNotToALot() {
        REPORT.carcass(CoverageReport.HEAVY_TAILS).forEach((name, result) -> {
            assertThat(result.sdDrawn() / result.sd()).as("SD of %s", name).isCloseTo(1, within(0.05));
            assertThat(result.held(0.5)).as("50 %% of %s", name).isBetween(0.56, 0.63);
            assertThat(result.held(0.9)).as("90 %% of %s", name).isBetween(0.905, 0.93);
            assertThat(result.held(0.95)).as("95 %% of %s", name).isCloseTo(0.95, within(0.01));
        });
        REPORT.lots(CoverageReport.HEAVY_TAILS)
                .forEach((name, result) -> assertThat(result.held(0.9)).as(name).isCloseTo(0.9, within(0.02)));
    }

    /**
     * Fat trim of these has 1.1 SDs to fall. What falls lower is drawn again, so that it is more on average than
     * estimated, and meat less: hidden in the spread of one carcass, and not in that of a lot.
     */
    @Test
    void lotsOfNothingButVeryLeanCarcassesComeOutFatterThanEstimated() {
        Map<String, Coverage.Result> lots = REPORT.leanLots();
        assertThat(lots.entrySet())
                .filteredOn(entry -> entry.getKey().equals("fat-trim at tissue"))
                .singleElement()
                .satisfies(entry -> {
                    Coverage.Result fatTrim = entry.getValue();
                    assertThat((fatTrim.meanDrawn() - fatTrim.kg()) / fatTrim.sd())
                            .isBetween(1.0, 1.4);
                    assertThat(fatTrim.held(0.9)).isLessThan(0.8);
                });
        assertThat(lots.entrySet())
                .filteredOn(entry -> entry.getKey().equals("meat at tissue"))
                .singleElement()
                .satisfies(entry -> assertThat(entry.getValue().held(0.9)).isLessThan(0.82));
    }

    @Test
    void whatADayHasInCommonDoesNotMatterToACarcass() {
        REPORT.carcass(CoverageReport.A_TENTH)
                .forEach((name, result) -> assertThat(result.held(0.9)).as(name).isCloseTo(0.9, within(0.01)));
    }

    /** n carcasses of which a part p of the variance is the day's have n (1 + (n - 1) p) times the variance of one. */
    @Test
    void lotIntervalsAreFarTooNarrowWhereADayHasSomethingInCommon() {
        areTooNarrow(CoverageReport.A_TWENTIETH, 0.64, 0.72);
        areTooNarrow(CoverageReport.A_TENTH, 0.52, 0.60);
        areTooNarrow(CoverageReport.A_QUARTER, 0.36, 0.44);
    }

    private static void areTooNarrow(ModelTruth.World world, double least, double most) {
        double factor = Math.sqrt(1 + (CoverageReport.LOT_SIZE - 1) * world.commonToTheDay());
        REPORT.lots(world).forEach((name, result) -> {
            assertThat(result.held(0.9)).as("90 %% of %s", name).isBetween(least, most);
            assertThat(result.sdDrawn() / result.sd()).as("SD of %s", name).isBetween(0.88 * factor, 1.05 * factor);
        });
    }

    @Test
    void theGuideStatesByHowMuchALotErrsMoreThanItSays() throws IOException {
        double factor = REPORT.lots(CoverageReport.A_TENTH).values().stream()
                .mapToDouble(result -> result.sdDrawn() / result.sd())
                .average()
                .orElseThrow();
        assertThat(guide().replaceAll("\\s+", " "))
                .contains(String.format(Locale.ROOT, "here %.1f times at a tenth", factor));
    }

    /** Thirty days are no more than thirty figures: the 90 % come to 89, as Student's t says. */
    @Test
    void pastDaysOfTheHallTellHowMuchWiderALotIntervalMustBe() {
        REPORT.lots(CoverageReport.A_TENTH)
                .forEach((name, result) -> assertThat(result.heldAfterWidening(0.9, CoverageReport.DAYS_BEFORE))
                        .as(name)
                        .isCloseTo(0.89, within(0.02)));
    }

    @Test
    void intervalsHoldOverASeasonIfItsLotsAreAddedAsLots() {
        Coverage.Seasons seasons = REPORT.seasons();
        seasons.totals().forEach((name, total) -> {
            assertThat(total.held(0.9)).as("90 %% of %s", name).isCloseTo(0.9, within(0.04));
            assertThat(total.sdDrawn() / total.sd()).as("SD of %s", name).isCloseTo(1, within(0.1));
        });
        seasons.lots()
                .forEach((name, lots) -> assertThat(CoverageReport.mean(lots, 0.9, Coverage.Result::held))
                        .as("90 %% of the days' %s", name)
                        .isCloseTo(0.9, within(0.01)));
    }

    /** What the scale and the coefficients are off, they are off on every day. */
    @Test
    void sdsOfLotsAreNotAddedAsSquaresOverASeason() {
        Coverage.Seasons seasons = REPORT.seasons();
        Map<Coverage.Result, List<Coverage.Result>> lots = seasons.lotsByTotal();
        Coverage.Result saleable = seasons.total("saleable");
        double sd = CoverageReport.sdIfIndependent(lots.getOrDefault(saleable, List.of()));
        assertThat(sd).isPositive().isLessThan(0.75 * saleable.sd());
        assertThat(CoverageReport.heldIfIndependent(saleable, lots.getOrDefault(saleable, List.of()), 0.9))
                .isLessThan(0.75);
    }
}
