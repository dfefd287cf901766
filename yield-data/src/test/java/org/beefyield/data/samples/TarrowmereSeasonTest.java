package org.beefyield.data.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.beefyield.boning.BoningRun;
import org.beefyield.data.boning.BoningRunReader;
import org.beefyield.data.boning.BoningRunWriter;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.reconcile.Reconciliation;
import org.beefyield.reconcile.Season;
import org.beefyield.reconcile.SeasonAlarm;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TarrowmereSeasonTest {
    private static final Path FOLDER = Path.of("examples", "season");
    private static final YieldTable TABLE = ShippedTables.boneless2026();
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE, TABLE.specification("steaks"));

    @TempDir
    Path folder;

    @Test
    void theFilesAreWhatTheCodeWrites() throws IOException {
        BoningRunWriter.write(TarrowmereSeason.runs(), TarrowmereSeason.products(), folder);
        for (String file : List.of("intake.csv", "boxes.csv", "rest.csv", "products.csv")) {
            assertThat(Files.readString(FOLDER.resolve(file)))
                    .as(file)
                    .isEqualTo(Files.readString(folder.resolve(file)));
        }
        assertThat(BoningRunReader.read(
                                FOLDER.resolve("intake.csv"),
                                FOLDER.resolve("boxes.csv"),
                                FOLDER.resolve("rest.csv"),
                                TarrowmereSeason.products())
                        .runs())
                .isEqualTo(TarrowmereSeason.runs());
    }

    private static String day(int run) {
        return TarrowmereSeason.runs().get(run).name();
    }

    @Test
    void theFaultsAreFoundWhereTheyArePlanted() {
        List<BoningRun> runs = TarrowmereSeason.runs();
        Season season = Season.of(runs, ESTIMATOR, TarrowmereSeason.products());
        // boxes weighed 1 % light are missing in all
        assertThat(season.alarms())
                .filteredOn(alarm -> alarm.group().equals(Reconciliation.LOSSES))
                .singleElement()
                .satisfies(alarm -> {
                    assertThat(alarm.noticed()).isEqualTo(day(TarrowmereSeason.SCALE[0]));
                    assertThat(alarm.until()).isEqualTo(day(TarrowmereSeason.SCALE[1]));
                });
        assertThat(season.alarms())
                .filteredOn(alarm -> alarm.noticed().equals(day(TarrowmereSeason.LABELS[0])))
                .extracting(SeasonAlarm::group)
                .contains("Fillet steak");
        // meat that stands in no intake: the run doesn't balance
        assertThat(season.unbalanced())
                .extracting(balance -> balance.run())
                .containsExactly(day(TarrowmereSeason.FOREQUARTERS[0]));
        assertThat(season.excess())
                .extracting(one -> one.expected().batch() + " " + one.expected().product())
                .containsExactlyInAnyOrder(
                        "R51-1 FILLET", "R56-2 LEAN-TRIM", "R56-2 DICE", "R56-2 CUBE-ROLL", "R56-2 BRISKET");
    }

    @Test
    void everyRunClosesToTheGram() {
        for (Reconciliation run : Season.of(TarrowmereSeason.runs(), ESTIMATOR, TarrowmereSeason.products())
                .runs()) {
            long weighedG = run.lines().stream()
                    .mapToLong(line -> Math.round(1000 * line.weighedKg()))
                    .sum();
            assertThat(weighedG).isEqualTo(Math.round(1000 * run.intakeKg()));
            assertThat(run.lines().stream()
                            .mapToDouble(line -> line.differenceKg())
                            .sum())
                    .isBetween(-1e-6, 1e-6);
        }
    }

    @Test
    void seasonsWithoutFaultsHaveFewAlarms() {
        int alarms = 0;
        for (int seed = 1; seed <= 4; seed++) {
            alarms += Season.of(TarrowmereSeason.without(seed), ESTIMATOR, TarrowmereSeason.products())
                    .alarms()
                    .size();
        }
        // 4 times 40 judged runs at one false alarm in 100: 1.6 expected, 6 or more in 1 of 200 such tests
        assertThat(alarms).isLessThan(6);
    }
}
