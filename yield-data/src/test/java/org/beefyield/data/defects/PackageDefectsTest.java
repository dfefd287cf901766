package org.beefyield.data.defects;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.table.TableReader;
import org.beefyield.data.table.TableWriter;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/** Defects of a table's files: each is found, and the message says in which file, line and column, and what is valid. */
class PackageDefectsTest {
    /** A line of the descriptor that a person finds by the key. */
    private static final long SOME_LINE = -1;

    @TempDir
    Path temp;

    private Path good;
    private YieldTable table;

    @BeforeEach
    void writeTheSmallTable() {
        good = temp.resolve("good");
        table = YieldTable.of(SmallTable.definition());
        TableWriter.write(table, good);
    }

    /** What is done to the folder of a good table. */
    private interface Plant {
        void in(Path folder) throws IOException;
    }

    private static Plant replace(String file, String old, String with) {
        return folder -> {
            String text = Files.readString(folder.resolve(file));
            assertThat(text).as("%s has something to spoil", file).contains(old);
            int at = text.indexOf(old);
            Files.writeString(folder.resolve(file), text.substring(0, at) + with + text.substring(at + old.length()));
        };
    }

    private static Plant lines(String file, Consumer<List<String>> change) {
        return folder -> {
            List<String> lines = new ArrayList<>(Files.readAllLines(folder.resolve(file)));
            change.accept(lines);
            Files.writeString(folder.resolve(file), String.join("\n", lines) + "\n");
        };
    }

    private Path spoilt(String what, Plant plant) throws IOException {
        Path folder = temp.resolve(what.replaceAll("[^a-zA-Z0-9]+", "-"));
        Files.createDirectories(folder);
        try (Stream<Path> files = Files.list(good)) {
            for (Path file : files.toList()) {
                Files.copy(file, folder.resolve(file.getFileName().toString()));
            }
        }
        plant.in(folder);
        return folder;
    }

    private DynamicTest defect(String what, Plant plant, String file, long line, String... words) {
        return DynamicTest.dynamicTest(what, () -> {
            Path folder = spoilt(what, plant);
            InvalidDataException refused =
                    catchThrowableOfType(InvalidDataException.class, () -> TableReader.read(folder));
            assertThat(refused).as("%s is found", what).isNotNull();
            assertThat(refused.problems())
                    .as("%s, named in: %s", what, refused.getMessage())
                    .anySatisfy(problem -> {
                        assertThat(problem.file()).endsWith(file);
                        assertThat(line == SOME_LINE ? problem.line() > 0 : problem.line() == line)
                                .as("line %s", line)
                                .isTrue();
                        assertThat(problem + " " + problem.value()).contains(words);
                    });
        });
    }

    private DynamicTest accepted(String what, Plant plant) {
        return DynamicTest.dynamicTest(
                what, () -> assertThat(TableReader.read(spoilt(what, plant))).isEqualTo(table));
    }

    @Test
    void theGoodFolderIsRead() {
        assertThatCode(() -> TableReader.read(good)).doesNotThrowAnyException();
    }

    @TestFactory
    Stream<DynamicTest> whatMeansNothingIsAccepted() {
        return Stream.of(
                accepted("a byte order mark", replace("cuts.csv", "cut,", "\uFEFFcut,")),
                accepted("CRLF at line ends", folder -> {
                    Path file = folder.resolve("breakdown.csv");
                    Files.writeString(file, Files.readString(file).replace("\n", "\r\n"));
                }),
                accepted("no line end at the end", folder -> {
                    Path file = folder.resolve("breakdown.csv");
                    Files.writeString(file, Files.readString(file).stripTrailing());
                }),
                accepted("rows in another order", lines("breakdown.csv", lines -> lines.add(lines.remove(1)))),
                accepted("a file beside the table", folder -> Files.writeString(folder.resolve("notes.txt"), "x")));
    }

    @TestFactory
    Stream<DynamicTest> rowsThatBreakTheTable() {
        return Stream.of(
                defect(
                        "a level that is 1 off",
                        replace("breakdown.csv", "carcass,bone,184,", "carcass,bone,185,"),
                        "breakdown.csv",
                        0,
                        "carcass",
                        "level_g_per_kg",
                        "1001",
                        "1000"),
                defect(
                        "a row twice",
                        lines("breakdown.csv", lines -> lines.add(lines.get(2))),
                        "breakdown.csv",
                        19,
                        "fat-trim",
                        "twice"),
                defect(
                        "a cut that there isn't",
                        replace("breakdown.csv", "meat,loin,", "meat,lion,"),
                        "breakdown.csv",
                        8,
                        "cut",
                        "lion",
                        "no such cut"),
                defect(
                        "a source that there isn't",
                        replace("quartering.csv", "loin,0,guess", "loin,0,book"),
                        "quartering.csv",
                        2,
                        "source",
                        "book"),
                defect(
                        "a missing cell",
                        lines("breakdown-by-class.csv", lines -> lines.remove(10)),
                        "breakdown-by-class.csv",
                        0,
                        "chuck"),
                defect(
                        "an expectation that fails",
                        replace("expectations.csv", "bone,,tissue,fat,falls", "bone,,tissue,fat,rises"),
                        "expectations.csv",
                        4,
                        "bone",
                        "rises"));
    }

    @TestFactory
    Stream<DynamicTest> cellsThatCantBeRead() {
        return Stream.of(
                defect(
                        "a word for a number",
                        replace("breakdown.csv", "carcass,bone,184,", "carcass,bone,much,"),
                        "breakdown.csv",
                        4,
                        "level_g_per_kg",
                        "much",
                        "number"),
                defect(
                        "a decimal comma",
                        replace("breakdown.csv", "carcass,bone,184,", "carcass,bone,\"184,0\","),
                        "breakdown.csv",
                        4,
                        "level_g_per_kg",
                        "184,0"),
                defect(
                        "not a number",
                        replace("breakdown.csv", "carcass,bone,184,", "carcass,bone,NaN,"),
                        "breakdown.csv",
                        4,
                        "level_g_per_kg",
                        "NaN"),
                defect(
                        "a number beyond all numbers",
                        replace("breakdown.csv", "carcass,bone,184,", "carcass,bone,1e999,"),
                        "breakdown.csv",
                        4,
                        "level_g_per_kg",
                        "1e999"),
                defect(
                        "a blank that must be filled",
                        replace("breakdown.csv", "carcass,bone,184,", "carcass,bone,,"),
                        "breakdown.csv",
                        4,
                        "level_g_per_kg"),
                defect(
                        "a kind that there isn't",
                        replace("cuts.csv", "retail,steak", "retail,stake"),
                        "cuts.csv",
                        5,
                        "kind",
                        "stake",
                        "steak"),
                defect(
                        "a code in capitals",
                        replace("cuts.csv", "loin-steak,", "Loin-Steak,"),
                        "cuts.csv",
                        5,
                        "cut",
                        "Loin-Steak",
                        "lower-case"),
                defect(
                        "a direction that there isn't",
                        replace("expectations.csv", "fat,falls", "fat,sinks"),
                        "expectations.csv",
                        4,
                        "direction",
                        "sinks",
                        "rises",
                        "falls"),
                defect(
                        "neither true nor false",
                        replace("expectations.csv", "fat,falls,true", "fat,falls,yes"),
                        "expectations.csv",
                        4,
                        "strict",
                        "yes",
                        "true",
                        "false"),
                defect(
                        "a range that there isn't",
                        replace("expectations.csv", "fat,falls,true,allowed", "fat,falls,true,all"),
                        "expectations.csv",
                        4,
                        "over",
                        "all",
                        "fitted",
                        "allowed"),
                defect(
                        "a variable that there isn't",
                        replace("expectations.csv", "bone,,tissue,fat,", "bone,,tissue,fatness,"),
                        "expectations.csv",
                        4,
                        "variable",
                        "fatness",
                        "conformation",
                        "weight"),
                defect(
                        "a kind of source that there isn't",
                        replace("sources.csv", "trial,assumption", "trial,rumour"),
                        "sources.csv",
                        2,
                        "kind",
                        "rumour",
                        "published"),
                defect(
                        "a fore share of 1.2",
                        replace("quartering.csv", "chuck,1,", "chuck,1.2,"),
                        "quartering.csv",
                        3,
                        "fore_share",
                        "1.2",
                        "0 to 1"),
                defect(
                        "a row that is too short",
                        replace("specifications.csv", "steaks,loin,steaks", "steaks,loin"),
                        "specifications.csv",
                        2,
                        "2",
                        "3"),
                defect(
                        "a row that is too long",
                        replace("specifications.csv", "steaks,loin,steaks", "steaks,loin,steaks,4"),
                        "specifications.csv",
                        2,
                        "4",
                        "3"),
                defect(
                        "a quote that doesn't end",
                        replace("sources.csv", "trial,assumption,Invented", "trial,assumption,\"Invented"),
                        "sources.csv",
                        2,
                        "quote"),
                defect(
                        "bytes that are no UTF-8",
                        folder -> Files.write(
                                folder.resolve("sources.csv"),
                                Files.readString(folder.resolve("sources.csv"))
                                        .replace("Invented boning", "Erfundene \u00fcbung")
                                        .getBytes(StandardCharsets.ISO_8859_1)),
                        "sources.csv",
                        2,
                        "UTF-8"));
    }

    @TestFactory
    Stream<DynamicTest> filesThatDontFitTheDescriptor() {
        return Stream.of(
                defect(
                        "a figure changed after the digest was taken",
                        replace("breakdown.csv", ",24,trial", ",23,trial"),
                        "datapackage.json",
                        SOME_LINE,
                        "digest",
                        table.digest(),
                        "stamp it anew with: table --table FOLDER --write FOLDER2"),
                defect(
                        "an extra column that is not declared",
                        lines("specifications.csv", lines -> lines.replaceAll(line -> line + ",x")),
                        "specifications.csv",
                        1,
                        "x"),
                defect(
                        "a column that is missing",
                        lines(
                                "specifications.csv",
                                lines -> lines.replaceAll(line -> line.substring(0, line.lastIndexOf(',')))),
                        "specifications.csv",
                        1,
                        "way"),
                defect(
                        "a column twice",
                        replace("specifications.csv", "specification,parent,way", "specification,parent,parent"),
                        "specifications.csv",
                        1,
                        "parent",
                        "twice"),
                defect(
                        "an empty file",
                        folder -> Files.writeString(folder.resolve("cuts.csv"), ""),
                        "cuts.csv",
                        0,
                        "empty"),
                defect(
                        "a header without rows",
                        lines(
                                "cuts.csv",
                                lines -> lines.subList(1, lines.size()).clear()),
                        "breakdown.csv",
                        2,
                        "no such cut"),
                defect(
                        "a file that is missing",
                        folder -> Files.delete(folder.resolve("quartering.csv")),
                        "quartering.csv",
                        0,
                        "no such file"),
                defect(
                        "a descriptor that is missing",
                        folder -> Files.delete(folder.resolve("datapackage.json")),
                        "datapackage.json",
                        0,
                        "no such file"),
                defect(
                        "a file cut off in the middle",
                        folder -> {
                            String text = Files.readString(folder.resolve("breakdown.csv"));
                            Files.writeString(
                                    folder.resolve("breakdown.csv"),
                                    text.substring(0, text.indexOf("meat,chuck") + 12));
                        },
                        "breakdown.csv",
                        9,
                        "5 cells",
                        "13"),
                defect(
                        "a path out of the folder",
                        replace("datapackage.json", "\"quartering.csv\"", "\"../good/quartering.csv\""),
                        "datapackage.json",
                        SOME_LINE,
                        "../good/quartering.csv"),
                defect(
                        "an address for a path",
                        replace("datapackage.json", "\"quartering.csv\"", "\"https://example.org/quartering.csv\""),
                        "datapackage.json",
                        SOME_LINE,
                        "https://example.org/quartering.csv"),
                defect(
                        "a resource of a name that there isn't",
                        replace("datapackage.json", "\"name\": \"quartering\"", "\"name\": \"quarters\""),
                        "datapackage.json",
                        0,
                        "quarters",
                        "quartering"));
    }

    @TestFactory
    Stream<DynamicTest> descriptorsThatCantBeUsed() {
        return Stream.of(
                defect(
                        "no JSON",
                        replace("datapackage.json", "\"levels\": [", "\"levels\": "),
                        "datapackage.json",
                        12,
                        "JSON"),
                defect(
                        "a newer major format",
                        replace("datapackage.json", "\"format\": \"1.0\"", "\"format\": \"2.0\""),
                        "datapackage.json",
                        SOME_LINE,
                        "format",
                        "2.0",
                        "1"),
                defect(
                        "no format",
                        replace("datapackage.json", "\"format\": \"1.0\",", ""),
                        "datapackage.json",
                        0,
                        "format"),
                defect(
                        "a misspelt key",
                        replace("datapackage.json", "\"fitted_range\"", "\"fited_range\""),
                        "datapackage.json",
                        SOME_LINE,
                        "fited_range"),
                defect(
                        "a key twice",
                        replace("datapackage.json", "\"width_fit\": 1", "\"width_fit\": 1, \"width_fit\": 3"),
                        "datapackage.json",
                        SOME_LINE,
                        "width_fit"),
                defect(
                        "a range the wrong way round",
                        folder -> {
                            Path file = folder.resolve("datapackage.json");
                            Files.writeString(
                                    file, Files.readString(file).replaceFirst("(?s)150,(\\s+)600", "600,$1150"));
                        },
                        "datapackage.json",
                        SOME_LINE,
                        "allowed_range",
                        "600",
                        "150"),
                defect(
                        "a range with one end",
                        folder -> {
                            Path file = folder.resolve("datapackage.json");
                            Files.writeString(file, Files.readString(file).replaceFirst("(?s)150,(\\s+)600", "150"));
                        },
                        "datapackage.json",
                        SOME_LINE,
                        "allowed_range",
                        "weight_kg"),
                defect(
                        "a letter that is no category",
                        replace("datapackage.json", "\"C\"", "\"Q\""),
                        "datapackage.json",
                        SOME_LINE,
                        "categories",
                        "Q",
                        "C A B D E Z"),
                defect(
                        "a term of a kind that there isn't",
                        replace("datapackage.json", "\"kind\": \"hinge\"", "\"kind\": \"square\""),
                        "datapackage.json",
                        SOME_LINE,
                        "terms",
                        "square",
                        "hinge"),
                defect(
                        "a hinge in weight",
                        replace("datapackage.json", "\"variable\": \"fat\"", "\"variable\": \"weight\""),
                        "datapackage.json",
                        SOME_LINE,
                        "terms",
                        "weight",
                        "conformation or fat"),
                defect(
                        "a knot between two positions",
                        replace("datapackage.json", "\"knot\": 3", "\"knot\": 3.5"),
                        "datapackage.json",
                        SOME_LINE,
                        "knot",
                        "3.5"),
                defect(
                        "decimals of a column that there isn't",
                        replace("datapackage.json", "\"g_per_kg\": 1", "\"g_per_kilo\": 1"),
                        "datapackage.json",
                        SOME_LINE,
                        "beefyield.decimals",
                        "g_per_kilo"),
                defect(
                        "a number as text",
                        replace("datapackage.json", "\"width_fit\": 1", "\"width_fit\": \"1\""),
                        "datapackage.json",
                        SOME_LINE,
                        "width_fit"));
    }
}
