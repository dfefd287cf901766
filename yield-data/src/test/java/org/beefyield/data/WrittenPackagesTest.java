package org.beefyield.data;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.BreakdownRow;
import org.beefyield.table.ClassRow;
import org.beefyield.table.CutName;
import org.beefyield.table.ExtraColumn;
import org.beefyield.table.License;
import org.beefyield.table.Source;
import org.beefyield.table.SourceKind;
import org.beefyield.table.TableDefinition;
import org.beefyield.table.TableOverride;
import org.beefyield.table.Term;
import org.beefyield.table.Variable;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Writes packages of every kind to {@code target/written-tables}, where the open standard's validator looks at them. */
class WrittenPackagesTest {
    private static final Path WRITTEN = Path.of("target/written-tables");
    private static final Path SHIPPED = Path.of("src/main/resources/org/beefyield/data/tables/boneless-2026");
    private static final YieldTable TABLE = ShippedTables.boneless2026();

    @TempDir
    Path folder;

    private static void readsBack(YieldTable table, String name) {
        TableWriter.write(table, WRITTEN.resolve(name));
        YieldTable read = TableReader.read(WRITTEN.resolve(name));
        assertThat(read.definition()).isEqualTo(table.definition());
        assertThat(read.digest()).isEqualTo(table.digest());
    }

    @Test
    void theShippedTableIsWrittenAsItStandsButForItsDigest() throws IOException {
        readsBack(TABLE, "shipped");
        try (Stream<Path> files = Files.list(WRITTEN.resolve("shipped"))) {
            for (Path file : files.toList()) {
                String written = Files.readString(file)
                        .replace("    },\n    \"digest\": \"" + TABLE.digest() + "\"\n", "    }\n");
                assertThat(written)
                        .as(file.toString())
                        .isEqualTo(Files.readString(SHIPPED.resolve(file.getFileName())));
            }
        }
    }

    @Test
    void anOverrideKeepsItsProvenance() {
        readsBack(
                TableOverride.of(TABLE, "hall-2", "1")
                        .source(new Source("hall", SourceKind.ASSUMPTION, "Loss, \"as weighed\", in hall 2", ""))
                        .row(new BreakdownRow(
                                "*", "*", "carcass", "loss", List.of(8.0, 0.0, 0.0, 0.0, 0.0, 0.0), 1, "hall"))
                        .row(new BreakdownRow(
                                "*",
                                "*",
                                "carcass",
                                "bone",
                                List.of(186.671, -7.3556, -2.3856, -6.0, 0.0, 0.0),
                                12,
                                "hall"))
                        .build(),
                "override");
    }

    private static TableDefinition.Builder mixed() {
        TableDefinition.Builder builder = TableDefinition.builder("mixed", "0.1")
                .about("A table of both forms", "")
                .license(new License("Apache-2.0", "", ""))
                .levels("tissue", "primal")
                .term(new Term.Product("conformation_by_fat", Variable.CONFORMATION, Variable.FAT))
                .categories(Category.STEER, Category.COW)
                .decimals("g_per_kg", 1)
                .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                .cut(Cut.of("fore", "Fore", "primal", CutKind.PRIMAL))
                .cut(Cut.of("hind", "Hind", "primal", CutKind.PRIMAL))
                .row("carcass", "meat", 20, "own", 800, 2, -1, 3, 0.125)
                .row("carcass", "bone", 20, "own", 200, -2, 1, -3, -0.125)
                .source(new Source("own", SourceKind.ASSUMPTION, "Invented", ""))
                .name(new CutName("meat", "de", "Fleisch"))
                .extraColumn(new ExtraColumn("breakdown", "checked_by", "string", List.of("A, B", "")));
        for (String conformation : List.of("P", "O", "R", "U", "E", "S")) {
            for (int fat = 1; fat <= 5; fat++) {
                double fore = 560 - 2.5 * "POURES".indexOf(conformation) + fat;
                builder.row(new ClassRow("*", "*", "meat", conformation, Integer.toString(fat), "fore", fore, 5, "own"))
                        .row(new ClassRow(
                                "*", "*", "meat", conformation, Integer.toString(fat), "hind", 1000 - fore, 5, "own"));
            }
        }
        return builder;
    }

    @Test
    void bothFormsOfBreakdownProductsNamesAndExtraColumnsComeBack() {
        readsBack(YieldTable.of(mixed().build()), "mixed");
    }

    @Test
    void aZipHoldsTheSameBytesAsAFolderAndIsWrittenAlikeTwice() throws IOException {
        YieldTable mixed = YieldTable.of(mixed().build());
        Path zip = folder.resolve("a.zip");
        Path again = folder.resolve("b.zip");
        TableWriter.write(mixed, zip);
        TableWriter.write(mixed, again);
        assertThat(zip).hasSameBinaryContentAs(again);
        assertThat(TableReader.read(zip)).isEqualTo(mixed);
    }

    @Test
    void whatElseTheFolderHeldStaysAndWhatTheTableNoLongerHasGoes() throws IOException {
        Path place = folder.resolve("table");
        TableWriter.write(YieldTable.of(mixed().build()), place);
        Files.writeString(place.resolve("README.md"), "ours");
        Files.writeString(place.resolve("prices.csv"), "cut,price\n");
        TableWriter.write(TABLE, place);
        assertThat(place.resolve("README.md")).hasContent("ours");
        assertThat(place.resolve("prices.csv")).hasContent("cut,price\n");
        assertThat(place.resolve("breakdown-by-class.csv")).doesNotExist();
        assertThat(TableReader.read(place)).isEqualTo(TABLE);
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).containsExactly(place);
        }
    }

    @Test
    void aFileChangedByHandIsNoticedByItsDigest() throws IOException {
        Path place = folder.resolve("table");
        TableWriter.write(TABLE, place);
        Path breakdown = place.resolve("breakdown.csv");
        Files.writeString(breakdown, Files.readString(breakdown).replace(",24,grange-derived", ",23.9,grange-derived"));
        try {
            TableReader.read(place);
            throw new AssertionError("a changed table was read");
        } catch (InvalidDataException e) {
            assertThat(e.problems()).singleElement().satisfies(problem -> {
                assertThat(problem.column()).isEqualTo("beefyield.digest");
                assertThat(problem.value()).isEqualTo(TABLE.digest());
                assertThat(problem.message()).startsWith("the table's files were changed after this digest was taken");
            });
        }
    }
}
