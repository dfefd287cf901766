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

    private static final List<BoningRun> RUNS = TarrowmereSeason.runs();
    private static final Season SEASON = Season.of(RUNS, ESTIMATOR, TarrowmereSeason.products());

    @TempDir
    Path folder;

    @Test
    void theFilesAreWhatTheCodeWrites() throws IOException {
        BoningRunWriter.write(RUNS, TarrowmereSeason.products(), folder);
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
                .isEqualTo(RUNS);
    }

    private static String day(int run) {
        return RUNS.get(run).name();
    }

    @Test
    void theFaultsAreFoundWhereTheyArePlanted() {
        // boxes weighed 1 % light are missing in all
        assertThat(SEASON.alarms())
                .filteredOn(alarm -> alarm.group().equals(Reconciliation.LOSSES))
                .singleElement()
                .satisfies(alarm -> {
                    assertThat(alarm.noticed()).isEqualTo(day(TarrowmereSeason.SCALE[0]));
                    assertThat(alarm.until()).isEqualTo(day(TarrowmereSeason.SCALE[1]));
                });
        assertThat(SEASON.alarms())
                .filteredOn(alarm -> alarm.noticed().equals(day(TarrowmereSeason.LABELS[0])))
                .extracting(SeasonAlarm::group)
                .contains("Fillet steak");
        // meat that stands in no intake: the run doesn't balance
        assertThat(SEASON.unbalanced())
                .extracting(balance -> balance.run())
                .containsExactly(day(TarrowmereSeason.FOREQUARTERS[0]));
        assertThat(SEASON.excess())
                .extracting(one -> one.expected().batch() + " " + one.expected().product())
                .containsExactlyInAnyOrder(
                        "R51-1 FILLET", "R56-2 LEAN-TRIM", "R56-2 DICE", "R56-2 CUBE-ROLL", "R56-2 BRISKET");
    }

    @Test
    void everyRunClosesToTheGram() {
        for (Reconciliation run : SEASON.runs()) {
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
}
