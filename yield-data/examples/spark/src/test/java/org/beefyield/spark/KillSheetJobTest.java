package org.beefyield.spark;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import org.apache.spark.SparkConf;
import org.apache.spark.api.java.JavaSparkContext;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.killsheet.EstimateWriter;
import org.beefyield.data.killsheet.KillSheetEntry;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetHandler;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.YieldEstimator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class KillSheetJobTest {
    private static final int SHEETS = 4;
    private static final int ROWS = 500;

    private final YieldEstimator estimator = YieldEstimator.of(ShippedTables.boneless2026());

    @TempDir
    Path folder;

    /** Invented sheets of the Tarrowmere hall, one of them packed, with lots that go on from sheet to sheet. */
    private List<Path> writeSheets(Path sheets) throws IOException {
        Files.createDirectories(sheets);
        SplittableRandom random = new SplittableRandom(1);
        List<Path> written = new ArrayList<>();
        for (int sheet = 0; sheet < SHEETS; sheet++) {
            StringBuilder text =
                    new StringBuilder("carcass,category,conformation,fat_class,cold_weight_kg,lot,status\n");
            for (int i = 0; i < ROWS; i++) {
                text.append("TM-").append(i % 97 == 5 ? i - 1 : i); // now and then the id of the row before
                text.append(',').append("CEDZ".charAt(i % 61 == 3 ? 3 : random.nextInt(3)));
                text.append(',')
                        .append(
                                i % 83 == 7
                                        ? "X"
                                        : Conformation.third(random.nextInt(1, 19))
                                                .toString());
                text.append(',').append(FatClass.third(random.nextInt(1, 16)));
                text.append(',').append(random.nextInt(1450, 6050) / 10.0);
                text.append(",\"L, ").append(random.nextInt(7)).append("\",");
                text.append(i % 71 == 9 ? "condemned" : "").append('\n');
            }
            byte[] bytes = text.toString().getBytes(StandardCharsets.UTF_8);
            Path file = sheets.resolve("hall-" + sheet + (sheet == 0 ? ".csv.gz" : ".csv"));
            try (var out =
                    sheet == 0 ? new GZIPOutputStream(Files.newOutputStream(file)) : Files.newOutputStream(file)) {
                out.write(bytes);
            }
            written.add(file);
        }
        return written;
    }

    /** The library's own way, on one thread. */
    private final class Alone implements KillSheetHandler {
        private final Map<String, LotEstimate.Collector> lots = new HashMap<>();
        private final List<String> refusals = new ArrayList<>();
        private long rows;
        private long estimated;
        private long condemned;

        void read(Path sheet, Path wide) {
            try (EstimateWriter writer = EstimateWriter.wide(wide, estimator)) {
                var counts = KillSheetReader.read(Source.of(sheet), KillSheetFormat.standard(), new KillSheetHandler() {
                    @Override
                    public void entry(KillSheetEntry entry) {
                        try {
                            writer.write(estimator.estimate(entry.carcass()));
                            Alone.this.entry(entry);
                        } catch (RefusedCarcassException e) {
                            refusals.add(sheet.getFileName() + " " + entry.line());
                        }
                    }

                    @Override
                    public void problem(Problem problem) {
                        refusals.add(sheet.getFileName() + " " + problem.line());
                    }
                });
                rows += counts.rows();
                condemned += counts.condemned();
                writer.finish();
            }
        }

        @Override
        public void entry(KillSheetEntry entry) {
            estimated++;
            lots.computeIfAbsent(entry.carcass().lot().orElseThrow(), lot -> estimator.collector())
                    .add(entry.carcass());
        }

        @Override
        public void problem(Problem problem) {}
    }

    @Test
    void aFolderOfSheetsGivesWhatTheLibraryGivesAloneAndNoRowIsLost() throws IOException {
        Path sheets = folder.resolve("sheets");
        Path results = folder.resolve("results");
        Path aloneFolder = Files.createDirectories(folder.resolve("alone"));
        List<Path> files = writeSheets(sheets);
        Alone alone = new Alone();
        for (Path file : files) {
            alone.read(file, aloneFolder.resolve(file.getFileName() + ".csv"));
        }

        KillSheetJob.Result result;
        SparkConf settings = new SparkConf()
                .setAppName("test")
                .setMaster("local[2]")
                .set("spark.driver.host", "127.0.0.1")
                .set("spark.driver.bindAddress", "127.0.0.1")
                .set("spark.ui.enabled", "false");
        try (JavaSparkContext spark = new JavaSparkContext(settings)) {
            result = KillSheetJob.run(
                    spark, sheets.toString(), results.toString(), estimator, KillSheetFormat::standard);
        }

        assertThat(result.rows()).isEqualTo(SHEETS * ROWS).isEqualTo(alone.rows);
        assertThat(result.estimated()).isEqualTo(alone.estimated);
        assertThat(result.condemned()).isEqualTo(alone.condemned).isPositive();
        assertThat(result.refused()).isEqualTo(alone.rows - alone.estimated - alone.condemned);
        assertThat(result.estimated() + result.condemned() + result.refused()).isEqualTo(result.rows());
        List<String> refusals = new ArrayList<>();
        for (Path file : files) {
            String name = file.getFileName().toString();
            try (InputStream in =
                    new GZIPInputStream(Files.newInputStream(results.resolve("estimates/" + name + ".csv.gz")))) {
                assertThat(in.readAllBytes()).isEqualTo(Files.readAllBytes(aloneFolder.resolve(name + ".csv")));
            }
            for (String line : Files.readAllLines(results.resolve("problems/" + name + ".csv"))) {
                if (line.startsWith("refused,")) {
                    String rest = line.substring("refused,".length() + name.length() + 1);
                    refusals.add(name + " " + rest.substring(0, rest.indexOf(',')));
                }
            }
        }
        assertThat(refusals).containsExactlyInAnyOrderElementsOf(alone.refusals);
        assertThat(refusals.stream().distinct()).hasSize((int) result.refused());
        checkLots(result, alone);
        assertThat(Files.readAllLines(results.resolve("lots.csv")))
                .hasSize(1
                        + 7
                                * estimator.table().levels().stream()
                                        .mapToInt(level -> alone.lots
                                                .get("L, 0")
                                                .lot()
                                                .lines(level)
                                                .size())
                                        .sum());
    }

    private void checkLots(KillSheetJob.Result result, Alone alone) {
        assertThat(result.lots()).hasSize(7);
        assertThat(result.lots().keySet()).isEqualTo(alone.lots.keySet());
        result.lots().forEach((name, lot) -> {
            LotEstimate expected = alone.lots.get(name).lot();
            assertThat(lot.carcasses()).isEqualTo(expected.carcasses());
            assertThat(lot.notes()).isEqualTo(expected.notes());
            for (String level : estimator.table().levels()) {
                for (Cut cut : estimator.yields(level)) {
                    double kg = expected.kg(level, cut.code());
                    assertThat(lot.kg(level, cut.code())).isCloseTo(kg, within(1e-12 * kg));
                    double high = expected.interval(cut.code(), 0.9).high();
                    assertThat(lot.interval(cut.code(), 0.9).high()).isCloseTo(high, within(1e-12 * high));
                }
            }
        });
    }
}
