package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.table.TableReader;
import org.beefyield.data.table.TableWriter;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Editions by name and as files to edit, and tables that are stamped anew. */
class TableFilesTest {
    private static final YieldTable SHIPPED = ShippedTables.boneless2026();
    private static final Path SHIPPED_FILES = Path.of("src/main/resources/org/beefyield/data/tables/boneless-2026");

    /** The working directory can't be changed, so that a folder called like an edition has to stand in it for a while. */
    private static final Path NAMESAKE = Path.of("boneless-2026");

    @TempDir
    Path folder;

    private String out = "";
    private String err = "";

    private int run(String... arguments) {
        Ran ran = Ran.with(List.of(arguments));
        out = ran.out();
        err = ran.err();
        return ran.code();
    }

    private String at(String name) {
        return folder.resolve(name).toString();
    }

    private static List<String> names(Path where) throws IOException {
        try (Stream<Path> files = Files.list(where)) {
            return files.map(file -> file.getFileName().toString()).sorted().toList();
        }
    }

    private void moveThreeGrams(String table) throws IOException {
        Path file = folder.resolve(table).resolve("breakdown.csv");
        String text = Files.readString(file);
        String moved = text.replace(",meat,topside,99.372,", ",meat,topside,102.372,")
                .replace(",meat,silverside,70.184,", ",meat,silverside,67.184,");
        assertThat(moved).isNotEqualTo(text);
        Files.writeString(file, moved);
    }

    // --export

    @Test
    void anEditionIsWrittenByteForByteWithItsPage() throws IOException {
        assertThat(run("table", "--export", at("mine"))).isZero();

        assertThat(out)
                .isEqualTo(
                        "Edition boneless-2026 written to " + at("mine") + ": its CSV files are for a spreadsheet or an"
                                + " editor, its README.md says what the figures rest on\n");
        assertThat(names(folder.resolve("mine")))
                .isEqualTo(names(SHIPPED_FILES))
                .contains("README.md", "datapackage.json", "breakdown.csv");
        for (String file : names(SHIPPED_FILES)) {
            assertThat(folder.resolve("mine").resolve(file)).hasSameBinaryContentAs(SHIPPED_FILES.resolve(file));
        }
    }

    @Test
    void anEditionIsAlsoWrittenAsAZip() {
        assertThat(run("table", "--export", at("mine.zip"))).isZero();

        assertThat(TableReader.read(folder.resolve("mine.zip"))).isEqualTo(SHIPPED);
    }

    @Test
    void anEditedCopyIsReadWithoutAWordAboutDigests() throws IOException {
        run("table", "--export", at("mine"));
        moveThreeGrams("mine");

        assertThat(run("table", "--table", at("mine"))).isZero();
        assertThat(out).doesNotContain("digest");
    }

    @Test
    void anExportReplacesNothingNotEvenAnEmptyFolder() throws IOException {
        Files.createDirectory(folder.resolve("mine"));

        assertThat(run("table", "--export", at("mine"))).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(out).isEmpty();
        assertThat(err)
                .isEqualTo(at("mine")
                        + " can't be written: there is something of that name, and an edition is never written"
                        + " over anything; name another place\n");
        assertThat(names(folder.resolve("mine"))).isEmpty();
    }

    // editions by name

    @Test
    void anEditionIsABaselineByItsName() throws IOException {
        run("table", "--export", at("mine"));
        moveThreeGrams("mine");

        assertThat(run("table", "--table", at("mine"), "--baseline", "boneless-2026", "--budget", "5"))
                .isZero();
        assertThat(out).contains(" against " + SHIPPED.identity() + "\n");
        assertThat(run("table", "--table", at("mine"), "--baseline", "boneless-2026", "--budget", "2"))
                .isEqualTo(ExitCode.SOME_REFUSED);
    }

    @Test
    void everyCommandKnowsEditionsByTheirName() {
        assertThat(run("table", "--table", "boneless-2026")).isZero();
        assertThat(out).startsWith("Table " + SHIPPED.identity() + ": ");
        assertThat(run("--killsheet", "examples/tarrowmere-2026-11.csv", "--table", "boneless-2026"))
                .isZero();
        assertThat(out).contains("Table " + SHIPPED.identity());
        run("calibrate", "--trials", "examples/tarrowmere-trials.csv", "--baseline", "boneless-2026");
        assertThat(out).contains(SHIPPED.identity());
    }

    @Test
    void anUnknownNameIsRefusedByEveryCommandWithTheNamesThatThereAre() {
        String words = "boneless-2016: there is no such folder or zip file; by its name alone there is boneless-2026\n";

        assertThat(run("table", "--table", "boneless-2016")).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).isEqualTo(words);
        assertThat(run("table", "--table", "boneless-2026", "--baseline", "boneless-2016"))
                .isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).isEqualTo(words);
        assertThat(run("--killsheet", "examples/tarrowmere-2026-11.csv", "--table", "boneless-2016"))
                .isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).isEqualTo(words);
        assertThat(run("calibrate", "--trials", "examples/tarrowmere-trials.csv", "--baseline", "boneless-2016"))
                .isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).isEqualTo(words);
    }

    @Test
    void aFolderCalledLikeAnEditionIsNoTrapForTheGate() throws IOException {
        String words =
                "boneless-2026: this is the name of an edition that comes with beefyield, but another table is called"
                        + " so here; write ./boneless-2026 for that one, or give it another name\n";
        assertThat(NAMESAKE).doesNotExist();
        try {
            assertThat(run("table", "--export", "boneless-2026")).isZero();

            // it holds the edition, so that the name means one table whatever is taken
            assertThat(run("table", "--table", "./boneless-2026", "--baseline", "boneless-2026", "--budget", "0"))
                    .isZero();

            Path file = NAMESAKE.resolve("datapackage.json");
            Files.writeString(file, Files.readString(file).replace("\"1.0.0\"", "\"1.0.1\""));
            assertThat(run("table", "--table", "boneless-2026", "--baseline", "boneless-2026", "--budget", "0"))
                    .isEqualTo(ExitCode.COULD_NOT_RUN);
            assertThat(out).isEmpty();
            assertThat(err).isEqualTo(words);
            assertThat(run("--killsheet", "examples/tarrowmere-2026-11.csv", "--table", "boneless-2026"))
                    .isEqualTo(ExitCode.COULD_NOT_RUN);
            assertThat(err).isEqualTo(words);
            assertThat(run("table", "--table", "./boneless-2026")).isZero();
            assertThat(out).startsWith("Table boneless-2026@1.0.1#");
        } finally {
            if (Files.exists(NAMESAKE)) {
                for (String name : names(NAMESAKE)) {
                    Files.delete(NAMESAKE.resolve(name));
                }
                Files.delete(NAMESAKE);
            }
        }
    }

    // --write

    @Test
    void anEditedTableIsStampedWithItsDigest() throws IOException {
        run("table", "--export", at("mine"));
        moveThreeGrams("mine");

        assertThat(run(
                        "table",
                        "--table",
                        at("mine"),
                        "--baseline",
                        "boneless-2026",
                        "--budget",
                        "5",
                        "--write",
                        at("our-hall"),
                        "--name",
                        "our-hall",
                        "--version",
                        "2"))
                .isZero();

        YieldTable written = TableReader.read(folder.resolve("our-hall"));
        TableDefinition mine = TableReader.read(folder.resolve("mine")).definition();
        assertThat(written.definition())
                .isEqualTo(mine.toBuilder("our-hall", "2").build());
        assertThat(Files.readString(folder.resolve("our-hall/datapackage.json")))
                .contains("\"digest\": \"" + written.digest() + "\"");
        assertThat(out)
                .startsWith(
                        "Table " + written.identity() + ": Boneless yields of graded beef carcasses, edition 2026\n\n")
                .endsWith("\n\nTable " + written.identity() + " written to " + at("our-hall") + "\n");
    }

    @Test
    void onlyWriteTakesATableWhoseDigestIsStaleAndSaysSo() throws IOException {
        TableWriter.write(SHIPPED, folder.resolve("mine"));
        moveThreeGrams("mine");

        assertThat(run("table", "--table", at("mine"))).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out).contains("/datapackage.json line ").contains("beefyield.digest");

        assertThat(run("table", "--table", at("mine"), "--write", at("anew"))).isZero();
        assertThat(out.lines().toList().get(1))
                .isEqualTo("The digest in " + at("mine")
                        + "/datapackage.json is stale: the files were changed after it was" + " taken");
        assertThat(TableReader.read(folder.resolve("anew")).digest()).isNotEqualTo(SHIPPED.digest());
    }

    @Test
    void aTableBeyondTheBudgetIsNotWritten() throws IOException {
        run("table", "--export", at("mine"));
        moveThreeGrams("mine");

        assertThat(run(
                        "table",
                        "--table",
                        at("mine"),
                        "--baseline",
                        "boneless-2026",
                        "--budget",
                        "1",
                        "--write",
                        at("our-hall")))
                .isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .endsWith("\n\nNothing is written to " + at("our-hall") + ": the table moves beyond the budget\n");
        assertThat(folder.resolve("our-hall")).doesNotExist();
    }

    @Test
    void aRefusedTableIsNotWritten() throws IOException {
        run("table", "--export", at("mine"));
        Path file = folder.resolve("mine/breakdown.csv");
        Files.writeString(file, Files.readString(file).replace(",meat,topside,99.372,", ",meat,topside,102.372,"));

        assertThat(run("table", "--table", at("mine"), "--write", at("our-hall")))
                .isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(folder.resolve("our-hall")).doesNotExist();
    }

    @Test
    void theTableThatIsReadIsNeverReplacedAndTheWordsSayHowAPersonDoes() throws IOException {
        run("table", "--export", at("mine"));

        assertThat(run("table", "--table", at("mine"), "--write", at("mine"))).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(out).isEmpty();
        assertThat(err)
                .isEqualTo("--write would replace --table: both are " + at("mine")
                        + "; name another place, look at what is written there, and then rename the two\n");
        assertThat(names(folder.resolve("mine"))).isEqualTo(names(SHIPPED_FILES));
    }

    @Test
    void aNameThatNoTableMayHaveIsRefusedBeforeAnythingIsWritten() {
        assertThat(run("table", "--table", "boneless-2026", "--write", at("x"), "--name", "Our hall"))
                .isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).startsWith("table, name \"Our hall\": a name is lower-case letters, digits and . _ -\n");
        assertThat(folder.resolve("x")).doesNotExist();
    }
}
