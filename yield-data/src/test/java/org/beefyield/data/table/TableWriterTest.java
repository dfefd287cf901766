package org.beefyield.data.table;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.entry;
import static org.junit.jupiter.api.Assumptions.abort;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.file.OutputFiles;
import org.beefyield.data.file.OutputPart;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.CutName;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.License;
import org.beefyield.table.definition.Provenance;
import org.beefyield.table.definition.QuarteringRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class TableWriterTest {
    /** What the build leaves for a validator of the open standard. */
    private static final Path FOR_VALIDATION = Path.of("target", "written-tables");

    private static final OutputPart.Move MOVE = Files::move;

    private static final String PER_POINT = "per_conformation_point";

    @TempDir
    Path temporary;

    @BeforeAll
    static void makeTheFolderForTheValidator() throws IOException {
        Files.createDirectories(FOR_VALIDATION);
    }

    // write, read, equal

    @Test
    void everyPartOfATableReadsBackAsItWas() {
        TableDefinition definition = everyPart();
        Path place = temporary.resolve("hall");
        TableWriter.write(YieldTable.of(definition), place);

        YieldTable read = TableReader.read(place);

        assertThat(read).isEqualTo(YieldTable.of(definition));
        // part by part: an equal digest alone might have left something out
        assertThat(read.definition()).isEqualTo(definition);
        assertThat(read.definition().resources()).hasSize(11);
        assertThat(read.digest()).isEqualTo(YieldTable.of(definition).digest());
    }

    @Test
    void aTableOfClassesAloneHasNoBreakdownFile() {
        YieldTable table = YieldTable.of(byClass());
        Path place = temporary.resolve("by-class");
        TableWriter.write(table, place);

        assertThat(names(place))
                .containsExactlyInAnyOrder(
                        "datapackage.json", "breakdown-by-class.csv", "cuts.csv", "names.csv", "sources.csv");
        assertThat(TableReader.read(place).definition()).isEqualTo(table.definition());
    }

    @Test
    void columnsWithoutDecimalsStayExact() throws IOException {
        TableDefinition exact = byClass();
        assertThat(exact.decimals()).isEmpty();
        Path place = temporary.resolve("exact");
        TableWriter.write(YieldTable.of(exact), place);

        assertThat(Files.readString(place.resolve("datapackage.json"))).contains("\"g_per_kg\": null");
        assertThat(TableReader.read(place).definition().decimals()).isEmpty();
    }

    @Test
    void decimalsOfClassesAreReadFromTheirColumnUnlessTheyAreDeclared() throws IOException {
        Path place = temporary.resolve("by-class");
        TableWriter.write(YieldTable.of(byClass()), place);
        Path descriptor = place.resolve("datapackage.json");
        String written = text(descriptor).replaceFirst("\\s*\"digest\": \"[0-9a-f]+\",", "");

        Files.writeString(descriptor, written.replace("\"g_per_kg\": null", ""));
        assertThat(TableReader.read(place).definition().decimals()).containsOnly(entry("g_per_kg", 3));
        Files.writeString(descriptor, written.replace("\"g_per_kg\": null", "\"g_per_kg\": 5"));
        assertThat(TableReader.read(place).definition().decimals()).containsOnly(entry("g_per_kg", 5));
    }

    @Test
    void numbersAreTheShortestThatReadBackTheSame() throws IOException {
        Path place = temporary.resolve("hall");
        TableWriter.write(YieldTable.of(everyPart()), place);

        assertThat(Files.readAllLines(place.resolve("breakdown.csv")).subList(0, 4))
                .containsExactly(
                        "category,way,parent,cut,level_g_per_kg,per_conformation_point,per_fat_point,per_100kg,"
                                + "conformation_fat,fat_above_7,sd_g_per_kg,source,checked_by",
                        "CE,*,carcass,lean,700,2,-3,1.5,0.1,-0.5,15,trial,AB",
                        "CE,*,carcass,fat,120.5,-1,4,-0.5,-0.1,0.5,12,trial,",
                        "CE,*,carcass,bone,179.5,-1,-1,-1,0,0,10,guess,\"a, b\"");
        assertThat(Files.readString(place.resolve("datapackage.json")))
                .contains("\"weight_kg\": [\n        250,\n        400.5\n      ]")
                .contains("\"fat_cover_mm\": 2.5E-7");
    }

    @Test
    void theShippedTableIsWrittenAsItIsShippedButForItsDigest() {
        Path place = temporary.resolve("shipped");
        YieldTable shipped = ShippedTables.boneless2026();
        TableWriter.write(shipped, place);

        Map<String, byte[]> files = new TreeMap<>(PackageCopy.shipped());
        files.remove("README.md");
        assertThat(names(place)).containsExactlyInAnyOrderElementsOf(files.keySet());
        String digest = "\n    \"digest\": \"" + shipped.digest() + "\",";
        files.forEach((name, content) ->
                assertThat(text(place.resolve(name)).replace(digest, "")).isEqualTo(new String(content, UTF_8)));
        assertThat(text(place.resolve("datapackage.json"))).contains(digest);
    }

    // the same bytes

    @Test
    void theSameTableGivesTheSameBytesEveryTimeInAFolderAndInAZip() throws IOException {
        YieldTable table = YieldTable.of(everyPart());
        Path one = temporary.resolve("one");
        Path other = temporary.resolve("other");
        Path zip = temporary.resolve("one.zip");
        Path otherZip = temporary.resolve("OTHER.ZIP");
        TableWriter.write(table, one);
        TableWriter.write(TableReader.read(one), other);
        TableWriter.write(table, zip);
        TableWriter.write(TableReader.read(zip), otherZip);

        assertThat(contents(other)).isEqualTo(contents(one));
        assertThat(otherZip).hasSameBinaryContentAs(zip);
        Map<String, String> unzipped = new TreeMap<>();
        try (ZipFile file = new ZipFile(zip.toFile())) {
            for (ZipEntry entry : file.stream().toList()) {
                try (InputStream in = file.getInputStream(entry)) {
                    unzipped.put(entry.getName(), new String(in.readAllBytes(), UTF_8));
                }
            }
        }
        assertThat(unzipped).isEqualTo(contents(one));
        try (ZipFile file = new ZipFile(zip.toFile())) {
            assertThat(file.stream().map(ZipEntry::getTimeLocal))
                    .hasSameSizeAs(unzipped.keySet())
                    .containsOnly(LocalDateTime.of(1980, 1, 1, 0, 0));
        }
        assertThat(TableReader.read(zip)).isEqualTo(TableReader.read(one));
    }

    // what was there before

    @Test
    void otherFilesOfTheFolderStayAndThoseOfTheOldTableGo() throws IOException {
        Path place = temporary.resolve("hall");
        TableWriter.write(YieldTable.of(everyPart()), place);
        Files.writeString(place.resolve("README.md"), "Ours");
        Files.writeString(place.resolve("prices.csv"), "cut,price\n");

        TableWriter.write(YieldTable.of(byClass()), place);

        assertThat(names(place))
                .containsExactlyInAnyOrder(
                        "README.md",
                        "prices.csv",
                        "datapackage.json",
                        "breakdown-by-class.csv",
                        "cuts.csv",
                        "names.csv",
                        "sources.csv");
        assertThat(place.resolve("README.md")).hasContent("Ours");
        assertThat(TableReader.read(place)).isEqualTo(YieldTable.of(byClass()));
        assertNoLitter("hall");
    }

    @Test
    void linksOfTheFolderStayLinksAlsoThoseThatLeadNowhere() throws IOException {
        Path place = temporary.resolve("hall");
        TableWriter.write(YieldTable.of(byClass()), place);
        Path nowhere = Path.of("nowhere.md");
        Files.createSymbolicLink(place.resolve("README.md"), nowhere);

        TableWriter.write(YieldTable.of(everyPart()), place);

        assertThat(Files.readSymbolicLink(place.resolve("README.md"))).isEqualTo(nowhere);
        assertThat(TableReader.read(place)).isEqualTo(YieldTable.of(everyPart()));
    }

    @Test
    void aMissingFolderAboveIsNamedAndNotMade() {
        Path place = temporary.resolve("a/b/hall");

        assertCantBeWritten(place, "there is no folder " + place.getParent());
        assertCantBeWritten(temporary.resolve("a/hall.zip"), "there is no folder " + temporary.resolve("a"));
        assertNoLitter();
    }

    @Test
    void aLinkStaysALinkAndItsTargetGetsTheTable() throws IOException {
        Path place = temporary.resolve("hall");
        TableWriter.write(YieldTable.of(everyPart()), place);
        Path link = Files.createSymbolicLink(temporary.resolve("current"), place);

        TableWriter.write(YieldTable.of(byClass()), link);

        assertThat(link).isSymbolicLink();
        assertThat(TableReader.read(place)).isEqualTo(YieldTable.of(byClass()));
        assertNoLitter("current", "hall");
    }

    // what fails

    @ParameterizedTest
    @ValueSource(ints = {1, 2})
    void aRenamingThatFailsLeavesTheOldTable(int failing) throws IOException {
        Path place = temporary.resolve("hall");
        TableWriter.write(YieldTable.of(everyPart()), place);
        Files.writeString(place.resolve("README.md"), "Ours");
        Map<String, String> before = contents(place);

        UncheckedIOException failed =
                catchThrowableOfType(UncheckedIOException.class, () -> write(place, failingAt(failing)));

        assertThat(failed).hasMessage(place + " can't be written: the disk went dead");
        assertThat(contents(place)).isEqualTo(before);
        assertNoLitter("hall");
    }

    @Test
    void anErrorBetweenTheRenamingsLeavesTheOldTableToo() throws IOException {
        Path place = temporary.resolve("hall");
        TableWriter.write(YieldTable.of(everyPart()), place);
        Map<String, String> before = contents(place);
        int[] count = {0};

        assertThatThrownBy(() -> write(place, (from, to) -> {
                    if (++count[0] == 2) {
                        throw new OutOfMemoryError("of all times now");
                    }
                    MOVE.move(from, to);
                }))
                .isInstanceOf(OutOfMemoryError.class);

        assertThat(contents(place)).isEqualTo(before);
        assertNoLitter("hall");
    }

    @Test
    void theOldTableIsNotDeletedEvenIfItCantBePutBack() throws IOException {
        Path place = temporary.resolve("hall");
        TableWriter.write(YieldTable.of(everyPart()), place);
        Map<String, String> before = contents(place);
        int[] count = {0};

        assertThatThrownBy(() -> write(place, (from, to) -> {
                    if (++count[0] > 1) {
                        throw new IOException("the disk went dead");
                    }
                    MOVE.move(from, to);
                }))
                .isInstanceOf(UncheckedIOException.class);

        assertThat(names(temporary)).singleElement().satisfies(name -> {
            assertThat(name).startsWith(".hall.").endsWith(".old");
            assertThat(contents(temporary.resolve(name))).isEqualTo(before);
        });
    }

    @Test
    void aFirstTableThatFailsLeavesNothing() throws IOException {
        for (String name : List.of("hall", "hall.zip")) {
            assertThatThrownBy(() -> write(temporary.resolve(name), failingAt(1)))
                    .isInstanceOf(UncheckedIOException.class);
        }

        assertThat(names(temporary)).isEmpty();
    }

    @Test
    void aZipThatFailsLeavesTheOldOne() throws IOException {
        Path zip = temporary.resolve("hall.zip");
        TableWriter.write(YieldTable.of(everyPart()), zip);
        byte[] before = Files.readAllBytes(zip);

        assertThatThrownBy(() -> write(zip, failingAt(1))).isInstanceOf(UncheckedIOException.class);

        assertThat(zip).hasBinaryContent(before);
        assertNoLitter("hall.zip");
    }

    @Test
    void aFileOfThatNameIsNotReplacedByAFolder() throws IOException {
        Path file = Files.writeString(temporary.resolve("hall"), "mine");

        assertCantBeWritten(file, "there is a file of that name; a table is a folder or a .zip");
        assertThat(file).hasContent("mine");
        assertNoLitter("hall");
    }

    @Test
    void aFolderOfThatNameIsNotReplacedByAZip() throws IOException {
        Path folder = Files.createDirectory(temporary.resolve("hall.zip"));

        assertCantBeWritten(folder, "there is a folder of that name; a name that ends in .zip is a file");
        assertNoLitter("hall.zip");
    }

    @Test
    void aFolderWithFoldersInItIsNoTables() throws IOException {
        Path home = Files.createDirectory(temporary.resolve("home"));
        Files.createDirectory(home.resolve("photographs"));

        assertCantBeWritten(home, "it holds the folder photographs, so it is no table's folder");
        assertThat(names(home)).containsExactly("photographs");
        assertNoLitter("home");
    }

    @Test
    void aFolderWithAPipeInItIsNoTables() throws IOException, InterruptedException {
        Path home = Files.createDirectory(temporary.resolve("home"));
        try {
            Path pipe = home.resolve("pipe");
            assumeTrue(new ProcessBuilder("mkfifo", pipe.toString()).start().waitFor() == 0);
        } catch (IOException e) {
            abort("no pipes here: " + e);
        }

        assertCantBeWritten(home, "it holds pipe, which is no file");
        assertThat(names(home)).containsExactly("pipe");
        assertNoLitter("home");
    }

    @Test
    void aPlaceBelowAFileCantBeWritten() throws IOException {
        Files.writeString(temporary.resolve("file"), "mine");

        assertThatThrownBy(() -> TableWriter.write(YieldTable.of(byClass()), temporary.resolve("file/hall")))
                .isInstanceOf(UncheckedIOException.class)
                .hasMessageContaining("can't be written: ");
        assertThat(temporary.resolve("file")).hasContent("mine");
    }

    @Test
    void aNameThatIsTooLongLeavesTheOldTable() {
        // the name of the folder fits, that of the one beside it doesn't
        Path place = temporary.resolve("h".repeat(230));
        assertThatThrownBy(() -> TableWriter.write(YieldTable.of(byClass()), place))
                .isInstanceOf(UncheckedIOException.class);

        assertThat(names(temporary)).isEmpty();
    }

    private void assertCantBeWritten(Path place, String reason) {
        assertThatThrownBy(() -> TableWriter.write(YieldTable.of(byClass()), place))
                .isInstanceOf(UncheckedIOException.class)
                .hasMessage(place + " can't be written: " + reason);
    }

    // what can't stand in a file

    @Test
    void aTitleThatIsNoTextIsRefused() {
        YieldTable table =
                YieldTable.of(byClass().toBuilder().about("\ud800", "").build());

        assertThatThrownBy(() -> TableWriter.write(table, temporary.resolve("hall")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("datapackage.json can't be written: a text of the table holds half a character, a surrogate"
                        + " without its other");
        assertThat(names(temporary)).isEmpty();
    }

    @Test
    void whatWouldNotBeReadIsRefusedAndNothingIsWritten() {
        SourceRow longest = new SourceRow("other", SourceKind.ASSUMPTION, "c", "n".repeat(10_000));
        SourceRow longer = new SourceRow("other", SourceKind.ASSUMPTION, "c", "n".repeat(10_001));
        YieldTable table = YieldTable.of(byClass().toBuilder().source(longer).build());

        for (String name : List.of("hall", "hall.zip")) {
            assertThatThrownBy(() -> TableWriter.write(table, temporary.resolve(name)))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("table " + table.identity() + " can't be written so that it reads back equal:"
                            + " by-class/sources.csv line 4, note: the cell has 10001 characters; at most 10000 are read"
                            + " here");
        }
        assertThat(names(temporary)).isEmpty();

        TableWriter.write(YieldTable.of(byClass().toBuilder().source(longest).build()), temporary.resolve("hall"));
        assertThat(names(temporary)).containsExactly("hall");
    }

    // the digest

    @Test
    void aChangeByHandMakesTheDigestStale() throws IOException {
        Path place = temporary.resolve("hall");
        YieldTable table = YieldTable.of(everyPart());
        TableWriter.write(table, place);
        Path sources = place.resolve("sources.csv");
        Files.writeString(sources, text(sources).replace("to be replaced", "to be kept"));

        InvalidDataException stale = catchThrowableOfType(InvalidDataException.class, () -> TableReader.read(place));

        assertThat(stale.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.file()).isEqualTo(place + "/datapackage.json");
            assertThat(problem.column()).isEqualTo("beefyield.digest");
            assertThat(problem.value()).isEqualTo(table.digest());
            assertThat(problem.message())
                    .matches("the table's files were changed after this digest was taken: theirs is [0-9a-f]{64}; if"
                            + " you changed the table, stamp it anew with: table --table FOLDER --write FOLDER2, or take"
                            + " this key out; if you didn't, fetch the table again");
        });

        Path descriptor = place.resolve("datapackage.json");
        Files.writeString(descriptor, text(descriptor).replaceFirst("\\s*\"digest\": \"[0-9a-f]+\",", ""));
        assertThat(TableReader.read(place).digest()).isNotEqualTo(table.digest());
    }

    // the open standard

    @Test
    void everyColumnOfCutsAndSourcesPointsToThem() throws IOException {
        Path place = temporary.resolve("hall");
        TableWriter.write(YieldTable.of(everyPart()), place);
        JsonNode descriptor = new JsonMapper().readTree(text(place.resolve("datapackage.json")));
        Map<String, String> keys = new TreeMap<>();
        for (JsonNode resource : descriptor.at("/resources")) {
            StringBuilder its = new StringBuilder();
            for (JsonNode key : resource.at("/schema/foreignKeys")) {
                its.append(key.at("/fields").stringValue())
                        .append(" to ")
                        .append(key.at("/reference/resource").stringValue())
                        .append(' ')
                        .append(key.at("/reference/fields").stringValue())
                        .append("; ");
            }
            keys.put(resource.at("/name").stringValue(), its.toString());
        }

        String cut = "cut to cuts cut; ";
        String source = "source to sources source; ";
        assertThat(keys)
                .containsOnly(
                        entry("breakdown", cut + source),
                        entry("breakdown-by-class", cut + source),
                        entry("coefficient-covariance", cut + "other_cut to cuts cut; "),
                        entry("coefficient-notes", cut + source),
                        entry("cuts", ""),
                        entry("expectations", cut),
                        entry("names", cut),
                        entry("quartering", cut + source),
                        entry("residual-covariance", cut + "other_cut to cuts cut; "),
                        entry("sources", ""),
                        entry("specifications", "parent to cuts cut; "));
    }

    @Test
    void aRowBelowZeroAtTheReferenceIsNotDeclaredToBeAboveIt() throws IOException {
        TableRange range = new TableRange(new Range(7, 9), new Range(7, 8), new Range(250, 400));
        YieldTable table = YieldTable.of(TableDefinition.builder("below", "1")
                .levels("side")
                .ranges(range, range)
                .categories(Category.STEER)
                .term(new Term.Hinge("fat_below_15", Variable.FAT, Term.Side.BELOW, 15))
                .cut(Cut.of("lean", "Lean", "side", CutKind.MEAT))
                .cut(Cut.of("fat", "Fat", "side", CutKind.FAT_TRIM))
                .source(new SourceRow("trial", SourceKind.DERIVED, "Trial", ""))
                .row("carcass", "lean", 0, "trial", 1001, 0, 0, 0, -1)
                .row("carcass", "fat", 0, "trial", -1, 0, 0, 0, 1)
                .build());
        Path place = FOR_VALIDATION.resolve("below-zero");
        TableWriter.write(table, place);

        assertThat(TableReader.read(place)).isEqualTo(table);
        assertThat(text(place.resolve("datapackage.json")))
                .contains(
                        "\"name\": \"level_g_per_kg\",\n            \"type\": \"number\",\n            \"constraints\":"
                                + " {\n              \"required\": true\n            }");
    }

    @Test
    void tablesAreLeftForTheValidatorOfTheOpenStandard() {
        for (YieldTable table :
                List.of(YieldTable.of(everyPart()), YieldTable.of(byClass()), ShippedTables.boneless2026())) {
            Path place = FOR_VALIDATION.resolve(table.definition().name());
            TableWriter.write(table, place);
            assertThat(TableReader.read(place)).isEqualTo(table);
        }
    }

    private static void write(Path place, OutputPart.Move move) {
        try (OutputFiles outputs = new OutputFiles(move)) {
            TableWriter.write(YieldTable.of(byClass()), place, outputs);
            outputs.finish();
        }
    }

    private static OutputPart.Move failingAt(int which) {
        int[] count = {0};
        return (from, to) -> {
            if (++count[0] == which) {
                throw new IOException("the disk went dead");
            }
            MOVE.move(from, to);
        };
    }

    private void assertNoLitter(String... expected) {
        assertThat(names(temporary)).containsExactlyInAnyOrder(expected);
    }

    private static List<String> names(Path folder) {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(file -> file.getFileName().toString()).toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Map<String, String> contents(Path folder) {
        Map<String, String> contents = new TreeMap<>();
        names(folder).forEach(name -> contents.put(name, text(folder.resolve(name))));
        return contents;
    }

    private static String text(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static TableDefinition.Builder small(String name) {
        TableRange allowed = new TableRange(new Range(7, 9), new Range(7, 8), new Range(250, 400.5));
        TableRange fitted = new TableRange(new Range(7.5, 9), new Range(7, 8), new Range(300, 400));
        return TableDefinition.builder(name, "1.0.0-rc.1+a")
                .about("A \"small\" table", "Two levels;\ntwo ways \u2014 of the Tarrowmere hall \ud83d\udc04")
                .levels("side", "cuts")
                .ranges(fitted, allowed)
                .widthFit(0.5)
                .residualDegreesOfFreedom(41.5)
                .runDegreesOfFreedom(17.25)
                .categories(Category.STEER, Category.HEIFER)
                .cut(Cut.of("lean", "Lean", "side", CutKind.MEAT).withFatPct(12.0))
                .cut(Cut.of("fat", "Fat", "side", CutKind.FAT_TRIM)
                        .withFatPct(80.0)
                        .withNote("kept, apart"))
                .cut(Cut.of("bone", "Bone", "side", CutKind.BONE))
                .source(new SourceRow("trial", SourceKind.DERIVED, "Cutting trial of the Tarrowmere hall", ""))
                .source(new SourceRow("guess", SourceKind.ASSUMPTION, "An assumption", "to be replaced"))
                .name(new CutName("lean", "de", "Fleisch, mager"));
    }

    /** A table with rows in every resource. */
    private static TableDefinition everyPart() {
        TableDefinition.Builder builder = small("every-part")
                .license(new License("Apache-2.0", "", "Apache License 2.0"))
                .license(new License("", "https://example.org/licence", ""))
                .basis(Basis.NOT_STATED
                        .withQuartering("10-rib forequarter")
                        .withHanging("hip")
                        .withFatCoverMm(2.5e-7)
                        .withAgeingDays(14.0)
                        .withBoneless(true))
                .cut(Cut.of("loin", "Loin \"long\"", "cuts", CutKind.STEAK)
                        .withPiecesPerSide(0.5)
                        .withSideSplitSdPct(2.5)
                        .withUnece("2140 2150"))
                .cut(Cut.of("trim", "Trim", "cuts", CutKind.LEAN_TRIM))
                .term(new Term.Product("conformation_fat", Variable.CONFORMATION, Variable.FAT))
                .term(new Term.Hinge("fat_above_7", Variable.FAT, Term.Side.ABOVE, 7))
                .decimals("level_g_per_kg", 1)
                .decimals("sd_g_per_kg", 0)
                .row("CE", "*", "carcass", "lean", 15, "trial", 700, 2, -3, 1.5, 0.1, -0.5)
                .row("CE", "*", "carcass", "fat", 12, "trial", 120.5, -1, 4, -0.5, -0.1, 0.5)
                .row("CE", "*", "carcass", "bone", 10, "guess", 179.5, -1, -1, -1, 0, 0)
                .row("*", "steaks", "lean", "loin", 4, "trial", 300, 1)
                .row("*", "steaks", "lean", "trim", 4, "trial", 700, -1)
                .row("*", "mince", "lean", "trim", 0, "guess", 1000)
                .specification("fresh", "lean", "steaks")
                .specification("all-trim", "lean", "mince")
                .coefficientNote(new CoefficientNote("CE", "*", "carcass", "lean", "per_fat_point", 0.25, "trial"))
                .coefficientNote(new CoefficientNote("CE", "*", "carcass", "fat", "per_fat_point", 0.2, "trial"))
                .coefficientNote(new CoefficientNote("CE", "*", "carcass", "bone", "per_fat_point", 0.1, "trial"))
                .coefficientNote(new CoefficientNote("CE", "*", "carcass", "lean", "per_100kg", null, "guess"))
                .covariance(new CovarianceRow("CE", "*", "carcass", "lean", "", "lean", "", 225))
                .covariance(new CovarianceRow("CE", "*", "carcass", "lean", "", "fat", "", -134.5))
                .covariance(new CovarianceRow("CE", "*", "carcass", "bone", "", "lean", "", -90.5))
                .covariance(new CovarianceRow("CE", "*", "carcass", "fat", "", "fat", "", 144))
                .covariance(new CovarianceRow("CE", "*", "carcass", "fat", "", "bone", "", -9.5))
                .covariance(new CovarianceRow("CE", "*", "carcass", "bone", "", "bone", "", 100))
                .covariance(new CovarianceRow("*", "steaks", "lean", "loin", PER_POINT, "loin", PER_POINT, 0.0625))
                .covariance(new CovarianceRow("*", "steaks", "lean", "loin", PER_POINT, "trim", PER_POINT, -0.0625))
                .covariance(new CovarianceRow("*", "steaks", "lean", "trim", PER_POINT, "trim", PER_POINT, 0.0625))
                .expectation(new Expectation(
                        "fat",
                        null,
                        "side",
                        Variable.FAT,
                        Expectation.Direction.RISES,
                        true,
                        Expectation.Over.ALLOWED,
                        "fatter carcasses have more of it"))
                .expectation(new Expectation(
                        null,
                        CutKind.BONE,
                        "side",
                        Variable.WEIGHT,
                        Expectation.Direction.FALLS,
                        false,
                        Expectation.Over.FITTED,
                        ""))
                .extraColumn(new ExtraColumn(
                        "breakdown", "checked_by", "string", List.of("AB", "", "a, b", "\"AB\"", " AB ", "C\u00f6")))
                .extraColumn(new ExtraColumn("sources", "year", "integer", List.of("2025", "")))
                .provenance(new Provenance("breakdown of lean", Provenance.CODE))
                .provenance(new Provenance("breakdown of carcass", "other@1#0123456789ab"));
        Map<String, Double> shares = new LinkedHashMap<>();
        shares.put("lean", 0.5);
        shares.put("fat", 0.4);
        shares.put("bone", 1.0);
        shares.forEach((cut, share) -> builder.quartering(new QuarteringRow("straight", cut, share, "guess")));
        builder.cut(Cut.of("marrow", "Marrow", "cuts", CutKind.BONE))
                .row(new ClassRow("*", "*", "bone", "R", "3", "marrow", 1000, 0, "guess"))
                .decimals(TableColumn.G_PER_KG, 0);
        return builder.build();
    }

    private static TableDefinition byClass() {
        return small("by-class")
                .row(new ClassRow("*", "*", BreakdownRow.ROOT, "R", "3", "lean", 690.125, 2, "trial"))
                .row(new ClassRow("*", "*", BreakdownRow.ROOT, "R", "3", "fat", 130.375, 2, "trial"))
                .row(new ClassRow("*", "*", BreakdownRow.ROOT, "R", "3", "bone", 179.5, 2, "guess"))
                .build();
    }
}
