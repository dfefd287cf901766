package org.beefyield.data.killsheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.FileInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.GzipInputTest;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From a kill sheet to a file of estimates, row by row, plain and packed. */
class EstimateStreamTest {
    private static final Path SHEET = Path.of("examples/tarrowmere-2026-11.csv");

    private final YieldEstimator estimator =
            YieldEstimator.of(ShippedTables.boneless2026()).with(MinceTarget.fatPercent(15));

    @TempDir
    Path folder;

    private final List<Problem> problems = new ArrayList<>();
    private final List<KillSheet.Progress> progress = new ArrayList<>();

    private KillSheet.Counts stream(Path sheet, EstimateWriter writer) {
        try (writer) {
            KillSheet.Counts counts =
                    KillSheetReader.read(Source.of(sheet), KillSheetFormat.standard(), new KillSheetHandler() {
                        @Override
                        public void entry(KillSheetEntry entry) {
                            writer.write(estimator.estimate(entry.carcass()));
                        }

                        @Override
                        public void problem(Problem problem) {
                            problems.add(problem);
                        }

                        @Override
                        public void progress(KillSheet.Progress sofar) {
                            progress.add(sofar);
                        }
                    });
            writer.finish();
            return counts;
        }
    }

    @Test
    void theWideFormHasARowForEachCarcassAndAColumnForEachCutThatAddUpToTheColdWeight() throws IOException {
        Path wide = folder.resolve("wide.csv");
        stream(SHEET, EstimateWriter.wide(wide, estimator));

        List<String> lines = Files.readAllLines(wide);
        List<String> header = cells(lines.get(0));
        List<String> expected = new ArrayList<>(
                List.of("carcass", "lot", "kill_date", "hall", "cold_weight_kg", "notes", "table", "specification"));
        for (String level : estimator.table().levels()) {
            for (Cut cut : estimator.yields(level)) {
                expected.add(level + "." + cut.code());
            }
        }
        expected.addAll(List.of("supplier", "category", "conformation", "fat_class"));
        assertThat(header).isEqualTo(expected).contains("retail.mince").doesNotContain("retail.lean-trim");
        List<Carcass> carcasses = KillSheetReader.read(SHEET).carcasses();
        assertThat(lines).hasSize(carcasses.size() + 1);
        for (int i = 0; i < carcasses.size(); i++) {
            checkRow(header, cells(lines.get(i + 1)), estimator.estimate(carcasses.get(i)));
        }
    }

    private void checkRow(List<String> header, List<String> row, YieldEstimate estimate) {
        assertThat(row).hasSameSizeAs(header);
        assertThat(row.subList(0, 8))
                .containsExactly(
                        estimate.carcass().id().orElseThrow(),
                        estimate.carcass().lot().orElseThrow(),
                        estimate.carcass().killDate().orElseThrow(),
                        "",
                        BigDecimal.valueOf(estimate.coldWeightKg())
                                .setScale(3, RoundingMode.HALF_UP)
                                .toPlainString(),
                        String.join("; ", estimate.notes()),
                        estimator.table().identity(),
                        "steaks");
        for (String level : estimator.table().levels()) {
            BigDecimal sum = BigDecimal.ZERO;
            for (int k = 8; k < header.size() - 4; k++) {
                String column = header.get(k);
                if (column.startsWith(level + ".")) {
                    BigDecimal kg = new BigDecimal(row.get(k));
                    assertThat(kg.scale()).isEqualTo(3);
                    assertThat(kg.doubleValue())
                            .as(column)
                            .isBetween(
                                    estimate.kg(level, column.substring(level.length() + 1)) - 0.001,
                                    estimate.kg(level, column.substring(level.length() + 1)) + 0.001);
                    sum = sum.add(kg);
                }
            }
            assertThat(sum).isEqualByComparingTo(row.get(4));
        }
    }

    private static List<String> cells(String line) {
        return Arrays.asList(line.split(",", -1));
    }

    @Test
    void textsThatNeedQuotesGetThemAndNotesStandInTheirColumn() throws IOException {
        Path wide = folder.resolve("wide.csv");
        Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("E+"), FatClass.parse("3="), 340)
                .withId("A,1")
                .withLot("\"old\"")
                .withHall("Mere, side");
        try (EstimateWriter writer = EstimateWriter.wide(wide, estimator)) {
            writer.write(estimator.estimate(carcass));
            writer.finish();
        }
        assertThat(Files.readAllLines(wide).get(1))
                .startsWith("\"A,1\",\"\"\"old\"\"\",,\"Mere, side\",340.000,"
                        + estimator.estimate(carcass).notes().get(0) + ",");
    }

    @Test
    void theWideFormTakesNoEstimateOfAnotherEstimator() {
        Carcass carcass = KillSheetReader.read(SHEET).carcasses().get(0);
        try (EstimateWriter writer = EstimateWriter.wide(folder.resolve("wide.csv"), estimator)) {
            assertThatThrownBy(() ->
                            writer.write(estimator.withSpecification("joints").estimate(carcass)))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining("only with the same table");
        }
        assertThat(folder).isEmptyDirectory();
    }

    @Test
    void packedOrNotTheRowsAreTheSame() throws IOException {
        Path packedSheet = folder.resolve("sheet");
        Files.write(packedSheet, GzipInputTest.packed(Files.readAllBytes(SHEET)));
        Path plain = folder.resolve("plain.csv");
        Path packed = folder.resolve("packed.csv.GZ");

        KillSheet.Counts counts = stream(SHEET, EstimateWriter.wide(plain, estimator));
        assertThat(stream(packedSheet, EstimateWriter.wide(packed, estimator))).isEqualTo(counts);

        try (InputStream in = new GZIPInputStream(new FileInputStream(packed.toFile()))) {
            assertThat(in.readAllBytes()).isEqualTo(Files.readAllBytes(plain));
        }
        assertThat(problems).isEmpty();
    }

    @Test
    void aPackedSheetThatWasCutOffLeavesNothingBehind() throws IOException {
        byte[] whole = GzipInputTest.packed(Files.readAllBytes(SHEET));
        Path sheet = folder.resolve("sheet.csv.gz");
        Files.write(sheet, Arrays.copyOf(whole, whole.length - 100));
        Path old = Files.writeString(folder.resolve("estimates.csv.gz"), "old");

        assertThatThrownBy(() -> stream(sheet, EstimateWriter.wide(old, estimator)))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(sheet + ": the file can't be read: its gzip data end too early, it was cut off; pack or"
                        + " fetch it again");

        assertThat(old).hasContent("old");
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).containsExactlyInAnyOrder(sheet, old);
        }
    }

    @Test
    void theLastProgressCountsEveryRow() throws IOException {
        Path sheet = Files.writeString(
                folder.resolve("sheet.csv"),
                "carcass,category,conformation,fat_class,cold_weight_kg\nA1,C,R=,3+,340\nA2,C,R=,9,340\nA3,C,R=,3,\n",
                StandardCharsets.UTF_8);
        stream(sheet, new EstimateWriter(folder.resolve("long.csv")));

        KillSheet.Progress last = progress.get(progress.size() - 1);
        assertThat(last.rows()).isEqualTo(3);
        assertThat(last.refused()).isEqualTo(2);
        assertThat(last.rowsPerSecond()).isPositive().isFinite();
    }

    @Test
    void whileItReadsALongSheetItSaysHowFarItHasCome() {
        // rows that never end: the handler ends the reading once it was told
        byte[] row = "A,C,R=,3+,340\n".getBytes(StandardCharsets.UTF_8);
        byte[] header = "carcass,category,conformation,fat_class,cold_weight_kg\n".getBytes(StandardCharsets.UTF_8);
        InputStream endless = new InputStream() {
            private long at;

            @Override
            public int read() {
                long i = at++;
                return i < header.length ? header[(int) i] : row[(int) ((i - header.length) % row.length)];
            }

            @Override
            public int read(byte[] to, int offset, int length) {
                for (int i = offset; i < offset + length; i++) {
                    to[i] = (byte) read();
                }
                return length;
            }
        };
        IllegalStateException told = new IllegalStateException("told");
        assertThatThrownBy(() -> KillSheetReader.read(
                        Source.of("endless", endless), KillSheetFormat.standard(), new KillSheetHandler() {
                            @Override
                            public void entry(KillSheetEntry entry) {}

                            @Override
                            public void problem(Problem problem) {}

                            @Override
                            public void progress(KillSheet.Progress sofar) {
                                progress.add(sofar);
                                throw told;
                            }
                        }))
                .isSameAs(told);
        assertThat(progress.get(0).rows()).isEqualTo(progress.get(0).refused() + 1);
    }
}
