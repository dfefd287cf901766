package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.Problem;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Metadata;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a descriptor says beside a table's figures is kept, what a newer minor version adds too, and nothing stands aside unseen. */
class MetadataFilesTest {
    private static final String DESCRIPTOR = "datapackage.json";
    private static final String PROFILE = "\"profile\": \"tabular-data-package\",";

    /** Where written tables stay for the open standard's validator. */
    private static final Path FOR_VALIDATION = Path.of("target", "written-tables");

    @TempDir
    Path temporary;

    private PackageCopy hall;

    @BeforeEach
    void copyTheShippedPackage() {
        hall = new PackageCopy(temporary);
    }

    @Test
    void whatADescriptorSaysToPeopleIsKeptAndChangesNoDigest() throws IOException {
        hall.replace(
                DESCRIPTOR,
                PROFILE,
                PROFILE
                        + "\"contributors\": [{\"title\": \"Tarrowmere farm group\", \"role\": \"author\"}],"
                        + "\"keywords\": [\"beef\", \"yield\"], \"created\": \"2026-11-29T08:00:00Z\","
                        + "\"homepage\": \"https://example.org/tables\", \"image\": \"table.png\","
                        + "\"sources\": [{\"title\": \"Trials\", \"weight\": 0.1}], \"our_number\": 12345678901234567890,");
        hall.replace(
                DESCRIPTOR, "\"name\": \"cuts\",", "\"name\": \"cuts\", \"title\": \"The cuts\", \"reviewed\": null,");
        hall.replace(
                DESCRIPTOR,
                "\"name\": \"pieces_per_side\",",
                "\"name\": \"pieces_per_side\", \"title\": \"Pieces\", \"description\": \"of one side\",");
        YieldTable read = hall.read();
        assertThat(read.digest()).isEqualTo(ShippedTables.boneless2026().digest());
        assertThat(read).isEqualTo(ShippedTables.boneless2026());
        assertThat(read.definition().metadata())
                .containsExactly(
                        new Metadata("", "contributors", "[{\"title\":\"Tarrowmere farm group\",\"role\":\"author\"}]"),
                        new Metadata("", "keywords", "[\"beef\",\"yield\"]"),
                        new Metadata("", "created", "\"2026-11-29T08:00:00Z\""),
                        new Metadata("", "homepage", "\"https://example.org/tables\""),
                        new Metadata("", "image", "\"table.png\""),
                        new Metadata("", "sources", "[{\"title\":\"Trials\",\"weight\":0.1}]"),
                        new Metadata("", "our_number", "12345678901234567890"),
                        new Metadata("cuts", "title", "\"The cuts\""),
                        new Metadata("cuts", "reviewed", "null"),
                        new Metadata("cuts/pieces_per_side", "title", "\"Pieces\""),
                        new Metadata("cuts/pieces_per_side", "description", "\"of one side\""));

        Path place = FOR_VALIDATION.resolve("metadata");
        Files.createDirectories(FOR_VALIDATION);
        TableWriter.write(read, place);
        YieldTable again = TableReader.read(place);
        assertThat(again.definition()).isEqualTo(read.definition());
        TableWriter.write(again, temporary.resolve("again"));
        assertThat(Files.readString(temporary.resolve("again").resolve(DESCRIPTOR)))
                .isEqualTo(Files.readString(place.resolve(DESCRIPTOR)));
    }

    @Test
    void constraintsAndFormatsOfFurtherColumnsAreKept() {
        hall.addColumn("specifications.csv", "page");
        hall.replace(
                DESCRIPTOR,
                "\"name\": \"way\",\n            \"type\": \"string\",\n            \"constraints\": {\n              \"required\": true\n            }\n          }\n        ],\n        \"missingValues\": [\n          \"\"\n        ],\n        \"primaryKey\": [\n          \"specification\",",
                "\"name\": \"way\",\n            \"type\": \"string\",\n            \"constraints\": {\n              \"required\": true\n            }\n          }, {\"name\": \"page\", \"type\": \"string\", \"format\": \"uri\", \"constraints\": {\"maxLength\": 9}}\n        ],\n        \"missingValues\": [\n          \"\"\n        ],\n        \"primaryKey\": [\n          \"specification\",");
        YieldTable read = hall.read();
        TableWriter.write(read, temporary.resolve("again"));

        assertThat(read.definition().metadata())
                .containsExactly(
                        new Metadata("specifications/page", "format", "\"uri\""),
                        new Metadata("specifications/page", "constraints", "{\"maxLength\":9}"));
        assertThat(TableReader.read(temporary.resolve("again")).definition()).isEqualTo(read.definition());
    }

    @Test
    void metadataThatCantBeWrittenAreRefusedAndNothingIsWritten() {
        TableDefinition.Builder builder = ShippedTables.boneless2026().definition().toBuilder();
        YieldTable broken = YieldTable.of(
                builder.metadata(new Metadata("", "homepage", "example.org")).build());
        assertThatThrownBy(() -> TableWriter.write(broken, temporary.resolve("broken")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the value of /homepage is no JSON: example.org");
        YieldTable twice = YieldTable.of(ShippedTables.boneless2026().definition().toBuilder()
                .metadata(new Metadata("", "title", "\"Another\""))
                .build());
        assertThatThrownBy(() -> TableWriter.write(twice, temporary.resolve("broken")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(
                        "the table can't be written: its metadata hold the key title, which the package has already");
        assertThat(temporary.resolve("broken")).doesNotExist();
    }

    // versions

    @Test
    void aNewerMinorVersionIsReadAndItsKeysAreKeptNotedAndWrittenBack() throws IOException {
        hall.replace(
                DESCRIPTOR,
                "\"format\": \"1.0\",",
                "\"format\": \"1.1\", \"seal\": {\"by\": \"Tarrowmere\", \"on\": \"2026-11-29\"},");
        YieldTable read = hall.read();

        assertThat(read).isEqualTo(ShippedTables.boneless2026());
        assertThat(read.notes())
                .containsExactly("The table is written in a newer format: its key \"seal\" is kept and not read; by the"
                        + " format's rule it changes no figure");
        Path place = temporary.resolve("again");
        TableWriter.write(read, place);
        assertThat(Files.readString(place.resolve(DESCRIPTOR)))
                .contains("\"beefyield\": {\n    \"digest\": \"" + read.digest() + "\",\n    \"format\": \"1.1\",\n")
                .contains("\"seal\": {\n      \"by\": \"Tarrowmere\",\n      \"on\": \"2026-11-29\"\n    }");
        assertThat(TableReader.read(place).definition()).isEqualTo(read.definition());
        assertThat(ShippedTables.boneless2026().notes()).isEmpty();
    }

    @Test
    void aKeyThatThisVersionDoesNotKnowIsASlipInAFileOfThisVersion() {
        long line = hall.replace(DESCRIPTOR, "\"format\": \"1.0\",", "\"format\": \"1.0\", \"seal\": 1,");

        assertThat(hall.problems()).singleElement().satisfies(problem -> {
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.column()).isEqualTo("beefyield.seal");
            assertThat(problem.message()).startsWith("unknown key; valid here: allowed_range, basis, ");
        });
    }

    @Test
    void aNewerMinorVersionHasNoOtherKeysBelowItsOwnAndMissesNone() {
        hall.replace(DESCRIPTOR, "\"format\": \"1.0\"", "\"format\": \"1.1\"");
        hall.replace(DESCRIPTOR, "\"width_fit\": 1,", "");
        hall.replace(DESCRIPTOR, "\"basis\": {", "\"basis\": {\"stunning\": 1,");

        assertThat(hall.problems())
                .extracting(Problem::message)
                .contains(
                        "missing here: width_fit",
                        "unknown key; valid here: ageing_days, boneless, fat_cover_mm, hanging, quartering");
    }

    // nothing stands aside unseen

    @Test
    void aFileOfAPartThatIsNotListedIsRefused() {
        hall.write("names.csv", "cut,language,name\nmeat,de,Fleisch\n");

        String message =
                "the file is here, and no resource of datapackage.json names it; list it there, or take it away";
        assertThat(hall.problems()).containsExactly(hall.problem("names.csv", 0, "", "", message));

        hall.delete("names.csv");
        hall.write("cuts-2.csv", hall.text("cuts.csv"));
        hall.replace(DESCRIPTOR, "\"path\": \"cuts.csv\"", "\"path\": \"cuts-2.csv\"");
        assertThat(hall.problems()).containsExactly(hall.problem("cuts.csv", 0, "", "", message));
    }

    @Test
    void twoResourcesHaveTwoFilesAlsoWhereCapitalsDontCount() {
        long line = hall.replace(DESCRIPTOR, "\"path\": \"sources.csv\"", "\"path\": \"Cuts.csv\"");
        String path = "resources.7.path";
        assertThat(hall.problems())
                .containsExactly(hall.problem(
                        DESCRIPTOR,
                        line,
                        path,
                        "Cuts.csv",
                        "\"Cuts.csv\": a resource above has the file cuts.csv, and many computers can't tell names apart"
                                + " that differ in capitals alone"));

        hall.replace(DESCRIPTOR, "\"path\": \"Cuts.csv\"", "\"path\": \"cuts.csv\"");
        assertThat(hall.problems())
                .containsExactly(hall.problem(
                        DESCRIPTOR,
                        line,
                        path,
                        "cuts.csv",
                        "\"cuts.csv\": a resource above has this file; each has one of its own"));
    }

    @Test
    void aKeyThatPutsRowsElsewhereIsRefusedByName() {
        hall.replace(DESCRIPTOR, "\"path\": \"cuts.csv\",", "\"path\": \"cuts.csv\", \"compression\": \"gz\",");

        assertThat(hall.problems())
                .containsExactly(
                        hall.problem(
                                DESCRIPTOR,
                                hall.line(DESCRIPTOR, "\"compression\""),
                                "resources.0.compression",
                                "\"gz\"",
                                "\"\"gz\"\": rows are read from a plain CSV file alone; put them into one and take this key out"));
    }

    @Test
    void namesThatAreBlankOrStandForTwoCutsAreRefused() {
        hall.replace("cuts.csv", "silverside,Silverside,", "silverside,Topside,");
        hall.replace("cuts.csv", "knuckle,Knuckle,", "knuckle, ,");

        assertThat(hall.problems())
                .containsExactlyInAnyOrder(
                        hall.problem(
                                "cuts.csv",
                                hall.line("cuts.csv", "silverside,"),
                                "name",
                                "Topside",
                                "\"Topside\": the cut topside has this name above; people could not tell it from"
                                        + " silverside"),
                        hall.problem(
                                "cuts.csv",
                                hall.line("cuts.csv", "knuckle,"),
                                "name",
                                "",
                                "a cut has a name for people; write one for knuckle"));
    }

    @Test
    void namesInALanguageAreCheckedAlike() {
        hall.declare("names", "names.csv", "cut", "language", "name");
        hall.write("names.csv", """
                cut,language,name
                topside,de,Oberschale
                silverside,de,Oberschale
                knuckle,,Kugel
                rump,de,
                flank,fr,Oberschale
                """);

        assertThat(hall.problems())
                .containsExactlyInAnyOrder(
                        hall.problem(
                                "names.csv",
                                3,
                                "name",
                                "Oberschale",
                                "\"Oberschale\": the cut topside has this name above; people could not tell it from"
                                        + " silverside"),
                        hall.problem("names.csv", 4, "language", "", "a name is in a language, such as de"),
                        hall.problem("names.csv", 5, "name", "", "a cut has a name for people; write one for rump"));
    }

    @Test
    void aPublishedSourceHasACitation() {
        long line = hall.append("sources.csv", "book,published,,");

        assertThat(hall.problems())
                .containsExactly(hall.problem(
                        "sources.csv",
                        line,
                        "citation",
                        "",
                        "a published source has a citation; write where book can be found, or another kind"));
    }

    @Test
    void aQuarteringOfTheBasisThatTheTableDoesNotHaveIsNoted() {
        hall.replace(DESCRIPTOR, "\"quartering\": \"10-rib forequarter\"", "\"quartering\": \"10 rib\"");

        assertThat(hall.read().notes())
                .containsExactly("The basis names the quartering \"10 rib\", which quartering doesn't have; it has"
                        + " 10-rib forequarter");
    }

    @Test
    void waysOfTheCarcassGiveAValidPackage() throws IOException {
        YieldTable table = YieldTable.of(TableDefinition.builder("ways-of-the-carcass", "1")
                .levels("side")
                .categories(Category.STEER)
                .cut(Cut.of("lean", "Lean", "side", CutKind.MEAT))
                .cut(Cut.of("bone", "Bone", "side", CutKind.BONE))
                .source(new SourceRow("trial", SourceKind.DERIVED, "Trial", ""))
                .row("*", "hot", "carcass", "lean", 0, "trial", 800)
                .row("*", "hot", "carcass", "bone", 0, "trial", 200)
                .row("*", "cold", "carcass", "lean", 0, "trial", 790)
                .row("*", "cold", "carcass", "bone", 0, "trial", 210)
                .specification("hot-boned", "carcass", "hot")
                .specification("cold-boned", "carcass", "cold")
                .build());
        Path place = FOR_VALIDATION.resolve("ways-of-the-carcass");
        Files.createDirectories(FOR_VALIDATION);
        TableWriter.write(table, place);

        assertThat(TableReader.read(place)).isEqualTo(table);
        // the validator can't know that the carcass is no cut
        List<String> lines = Files.readAllLines(place.resolve(DESCRIPTOR));
        assertThat(lines.stream()
                        .dropWhile(line -> !line.contains("\"name\": \"specifications\""))
                        .takeWhile(line -> !line.contains("\"name\": \"sources\"")))
                .isNotEmpty()
                .noneMatch(line -> line.contains("foreignKeys"));
    }
}
