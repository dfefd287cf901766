package org.beefyield.data.killsheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.PriceList;
import org.beefyield.price.Valuer;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class EstimateWriterTest {
    private static final String HEADER =
            "carcass,level,cut,kind,kg,share,notes,lot,table,specification,low_kg,high_kg,value,kill_date,hall,supplier,category,"
                    + "conformation,fat_class,cold_weight_kg\n";

    /** A table without errors, whose figures can be worked out in one's head; "pet food" is never yielded by steers. */
    private static final YieldTable TABLE = YieldTable.of(TableDefinition.builder("made", "1")
            .levels("tissue", "primal")
            .categories(Category.STEER, Category.COW)
            .source(new SourceRow("made", SourceKind.ASSUMPTION, "Made for a test", ""))
            .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
            .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
            .cut(Cut.of("loss", "Loss", "tissue", CutKind.LOSS))
            .cut(Cut.of("fore", "Fore", "primal", CutKind.PRIMAL))
            .cut(Cut.of("hind", "Hind", "primal", CutKind.PRIMAL))
            .row("C", "*", "carcass", "meat", 0, "made", 750)
            .row("C", "*", "carcass", "bone", 0, "made", 250)
            .row("C", "*", "carcass", "loss", 0, "made", 0)
            .row("D", "*", "carcass", "meat", 0, "made", 700)
            .row("D", "*", "carcass", "bone", 0, "made", 290)
            .row("D", "*", "carcass", "loss", 0, "made", 10)
            .row("meat", "fore", 0, "made", 400)
            .row("meat", "hind", 0, "made", 600)
            .build());

    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE);

    private static final Carcass STEER =
            Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 333.3);

    @TempDir
    Path folder;

    private static String row(String carcass, String level, String figures, String lot, String kg, String value) {
        return row(carcass, level, figures, lot, kg, value, ",");
    }

    private static String row(
            String carcass, String level, String figures, String lot, String kg, String value, String run) {
        return String.join(
                        ",",
                        carcass,
                        level,
                        figures,
                        "",
                        lot,
                        TABLE.identity(),
                        ESTIMATOR.specification().name(),
                        kg,
                        kg,
                        value,
                        run,
                        ",C,R=,3=,333.300")
                + "\n";
    }

    private static YieldEstimate estimate(Carcass carcass) {
        return ESTIMATOR.estimate(carcass);
    }

    @Test
    void eachCutOfEachLevelHasARowThatSpreadsheetsRead() throws IOException {
        Path target = folder.resolve("estimates.csv");
        try (EstimateWriter writer = new EstimateWriter(target)) {
            writer.write(estimate(STEER.withId("TM-1")
                    .withLot("Z\u00fcchter, \"A\"")
                    .withKillDate("2026-11-03")
                    .withHall("Mere, side")));
            writer.write(estimate(STEER));
            writer.finish();
        }

        String run = "2026-11-03,\"Mere, side\"";
        String lot = "\"Z\u00fcchter, \"\"A\"\"\"";
        assertThat(Files.readString(target))
                .isEqualTo(HEADER
                        + row("TM-1", "tissue", "meat,meat,249.975,0.750000", lot, "249.975", "", run)
                        + row("TM-1", "tissue", "bone,bone,83.325,0.250000", lot, "83.325", "", run)
                        + row("TM-1", "primal", "bone,bone,83.325,0.250000", lot, "83.325", "", run)
                        + row("TM-1", "primal", "fore,primal,99.990,0.300000", lot, "99.990", "", run)
                        + row("TM-1", "primal", "hind,primal,149.985,0.450000", lot, "149.985", "", run)
                        + row("", "tissue", "meat,meat,249.975,0.750000", "", "249.975", "")
                        + row("", "tissue", "bone,bone,83.325,0.250000", "", "83.325", "")
                        + row("", "primal", "bone,bone,83.325,0.250000", "", "83.325", "")
                        + row("", "primal", "fore,primal,99.990,0.300000", "", "99.990", "")
                        + row("", "primal", "hind,primal,149.985,0.450000", "", "149.985", ""));
    }

    @Test
    void valuesStandAtTheLevelThatIsValuedWithTheDecimalsOfThePriceList() throws IOException {
        PriceList prices = PriceList.builder("EUR")
                .decimals(1)
                .kind(CutKind.PRIMAL, 7.5)
                .kind(CutKind.BONE, -0.05)
                .kind(CutKind.LOSS, 0)
                .otherPerHead("hide", 58)
                .build();
        Path target = folder.resolve("estimates.csv");
        try (EstimateWriter writer = new EstimateWriter(target, Valuer.of(prices, ESTIMATOR, "primal"))) {
            writer.write(estimate(STEER.withId("TM-1")));
            writer.finish();
        }

        // 749.925, 1124.8875 and -4.16625 add up to 1870.64625: a tenth more goes to what lost most by rounding down
        assertThat(Files.readString(target))
                .isEqualTo(HEADER
                        + row("TM-1", "tissue", "meat,meat,249.975,0.750000", "", "249.975", "")
                        + row("TM-1", "tissue", "bone,bone,83.325,0.250000", "", "83.325", "")
                        + row("TM-1", "primal", "bone,bone,83.325,0.250000", "", "83.325", "-4.2")
                        + row("TM-1", "primal", "fore,primal,99.990,0.300000", "", "99.990", "749.9")
                        + row("TM-1", "primal", "hind,primal,149.985,0.450000", "", "149.985", "1124.9"));
    }

    /** What a sheet says beside, in columns of its own, stands behind; one that is called as one of ours keeps apart. */
    @Test
    void rowsCarryTheSheetsOwnColumnsAndTheValuesAddUp() throws IOException {
        PriceList prices = PriceList.builder("EUR")
                .kind(CutKind.PRIMAL, 7.5)
                .kind(CutKind.BONE, -0.05)
                .kind(CutKind.LOSS, 0)
                .build();
        Path target = folder.resolve("estimates.csv");
        try (EstimateWriter writer = new EstimateWriter(target, Valuer.of(prices, ESTIMATOR, "primal"))) {
            writer.write(estimate(STEER.withId("TM-1").withSupplier("Mere End")), Map.of("kg", "a, b"));
            assertThat(writer.valueTotal()).isEqualByComparingTo("1870.65");
            assertThatThrownBy(() -> writer.write(estimate(STEER)))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("own columns [] are not those of the first carcass, [kg]; each has the same");
            writer.finish();
        }
        List<String> lines = Files.readAllLines(target);
        assertThat(lines.get(0)).endsWith(",cold_weight_kg,sheet_kg");
        assertThat(lines).hasSize(6);
        assertThat(lines.get(1)).endsWith(",,,Mere End,C,R=,3=,333.300,\"a, b\"");
        Path wide = folder.resolve("wide.csv");
        try (EstimateWriter writer = EstimateWriter.wide(wide, ESTIMATOR)) {
            writer.write(estimate(STEER.withSupplier("Mere End")), Map.of("pen", "7"));
            writer.finish();
        }
        assertThat(Files.readAllLines(wide).get(0)).endsWith(",supplier,category,conformation,fat_class,pen");
        assertThat(Files.readAllLines(wide).get(1)).endsWith(",Mere End,C,R=,3=,7");
    }

    @Test
    void everythingTheEstimateNotesIsInOneCell() throws IOException {
        YieldEstimator steaks = YieldEstimator.of(ShippedTables.boneless2026());
        YieldEstimate heavy =
                steaks.estimate(Carcass.of(Category.STEER, Conformation.parse("E+"), FatClass.parse("1-"), 520));
        assertThat(heavy.notes()).hasSizeGreaterThan(1);
        Path target = folder.resolve("estimates.csv");
        try (EstimateWriter writer = new EstimateWriter(target)) {
            writer.write(heavy);
            writer.finish();
        }

        String notes = String.join("; ", heavy.notes());
        assertThat(Files.readAllLines(target).stream().skip(1))
                .isNotEmpty()
                .allSatisfy(line -> assertThat(line).contains(notes));
    }

    @Test
    void theOldFileStaysUntilTheNewOneIsFinishedAndNothingIsLeftBeside() throws IOException {
        Path target = Files.writeString(folder.resolve("estimates.csv"), "old");
        try (EstimateWriter writer = new EstimateWriter(target)) {
            writer.write(estimate(STEER));
            assertThat(target).hasContent("old");
        }
        assertThat(target).hasContent("old");
        assertThat(files()).containsExactly("estimates.csv");

        try (EstimateWriter writer = new EstimateWriter(target)) {
            writer.finish();
        }
        assertThat(Files.readString(target)).isEqualTo(HEADER);
        assertThat(files()).containsExactly("estimates.csv");
    }

    @Test
    void nothingIsWrittenOnceItIsClosed() throws IOException {
        EstimateWriter writer = new EstimateWriter(folder.resolve("estimates.csv"));
        writer.close();

        assertThatThrownBy(() -> writer.write(estimate(STEER)))
                .isInstanceOf(UncheckedIOException.class)
                .hasMessage(folder.resolve("estimates.csv") + " can't be written: Stream closed");
        assertThat(files()).isEmpty();
    }

    @Test
    void aMissingFolderIsNamedAndNotMade() throws IOException {
        Path target = folder.resolve("2026/november/estimates.csv");
        assertThatThrownBy(() -> new EstimateWriter(target).close())
                .isInstanceOf(UncheckedIOException.class)
                .hasMessage(target + " can't be written: there is no folder " + target.getParent());
        assertThat(files()).isEmpty();
    }

    @Test
    void aPlaceWhereNoFileCanStandIsRefusedAtOnce() throws IOException {
        assertThatThrownBy(() -> new EstimateWriter(folder).close())
                .isInstanceOf(UncheckedIOException.class)
                .hasMessage(folder + " can't be written: it is a folder, not a file");
        assertThat(files()).isEmpty();
    }

    @Test
    void whatCanNotBePutInItsPlaceIsSaidAndTheRestIsTidiedAway() throws IOException {
        Path target = folder.resolve("estimates.csv");
        EstimateWriter writer = new EstimateWriter(target);
        Files.createDirectories(target.resolve("taken by now"));
        assertThatThrownBy(writer::finish)
                .isInstanceOf(UncheckedIOException.class)
                .hasMessage(target + " can't be written: it is a folder, not a file");
        writer.close();

        assertThat(files()).containsExactly("estimates.csv");
        assertThatThrownBy(() -> writer.write(estimate(STEER)))
                .isInstanceOf(UncheckedIOException.class)
                .hasMessage(target + " can't be written: Stream closed");
    }

    private List<String> files() throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(file -> file.getFileName().toString()).toList();
        }
    }
}
