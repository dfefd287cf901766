package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.table.TableWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** No output of the command replaces an input or another output. */
class OutputPathsTest {
    private static final Path EXAMPLES = Path.of("examples");
    private static final String SHEET = "in.csv";

    @TempDir
    Path folder;

    private String copy(String example, String name) throws IOException {
        return Files.copy(EXAMPLES.resolve(example), folder.resolve(name)).toString();
    }

    private String sheet() throws IOException {
        return copy("tarrowmere-2026-11.csv", SHEET);
    }

    private String at(String name) {
        return folder.resolve(name).toString();
    }

    private String table(String name) {
        TableWriter.write(ShippedTables.boneless2026(), folder.resolve(name));
        return at(name);
    }

    private Map<String, String> contents() throws IOException {
        Map<String, String> contents = new TreeMap<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path one : all.toList()) {
                contents.put(
                        folder.relativize(one).toString(),
                        Files.isRegularFile(one) ? Files.readString(one, StandardCharsets.ISO_8859_1) : "");
            }
        }
        return contents;
    }

    /** Ends with 2 and that sentence, and everything is as it was. */
    private void assertRefused(String message, String... arguments) throws IOException {
        Map<String, String> before = contents();
        assertThat(Ran.with(List.of(arguments))).isEqualTo(new Ran(2, "", message + "\n"));
        assertThat(contents()).isEqualTo(before);
    }

    @ParameterizedTest
    @ValueSource(strings = {"--out", "--problems", "--feedback"})
    void noOutputReplacesTheKillSheet(String option) throws IOException {
        String in = sheet();
        assertRefused(
                option + " would replace --killsheet: both are " + in + "; name another place",
                "--killsheet",
                in,
                option,
                in);
    }

    @Test
    void noOutputReplacesAFileThatTheRunReadsByWhateverName() throws IOException {
        String in = sheet();
        Map<String, String> read = Map.of(
                "--prices", copy("tarrowmere-prices.csv", "prices.csv"),
                "--grid", copy("tarrowmere-grid.csv", "grid.csv"),
                "--market", copy("tarrowmere-market.csv", "market.csv"),
                "--windows", copy("tarrowmere-windows.csv", "windows.csv"));
        for (Map.Entry<String, String> file : read.entrySet()) {
            List<String> arguments = new ArrayList<>(List.of("--killsheet", in, "--out", file.getValue()));
            read.forEach((option, path) -> arguments.addAll(List.of(option, path)));
            assertRefused(
                    "--out would replace " + file.getKey() + ": both are " + file.getValue() + "; name another place",
                    arguments.toArray(String[]::new));
        }
        String link = Files.createSymbolicLink(folder.resolve("link.csv"), Path.of(SHEET))
                .toString();
        assertRefused(
                "--out would replace --killsheet: " + link + " and " + in + " are the same; name another place",
                "--killsheet",
                in,
                "--out",
                link);
        assertRefused(
                "--out would replace --killsheet: " + in + " and " + link + " are the same; name another place",
                "--killsheet",
                link,
                "--out",
                in);
        String relative =
                Path.of("").toAbsolutePath().relativize(folder.resolve(SHEET)).toString();
        assertRefused(
                "--out would replace --killsheet: " + relative + " and " + in + " are the same; name another place",
                "--killsheet",
                in,
                "--out",
                relative);
    }

    @Test
    void theOtherCaseIsTheSameFileWhereTheFileSystemSaysSo() throws IOException {
        String in = sheet();
        assumeTrue(Files.exists(folder.resolve("IN.CSV")));
        assertRefused(
                "--out would replace --killsheet: " + at("IN.CSV") + " and " + in + " are the same; name another place",
                "--killsheet",
                in,
                "--out",
                at("IN.CSV"));
    }

    @Test
    void noOutputReplacesAnotherOne() throws IOException {
        String in = sheet();
        assertRefused(
                "--problems would replace --out: both are " + at("a.csv") + "; name another place",
                "--killsheet",
                in,
                "--out",
                at("a.csv"),
                "--problems",
                at("a.csv"));
        assertRefused(
                "--feedback would replace --out: both are " + at("a") + "; name another place",
                "--killsheet",
                in,
                "--out",
                at("a"),
                "--feedback",
                at("a"));
    }

    @Test
    void noOutputStandsInATableThatIsRead() throws IOException {
        String in = sheet();
        String hall = table("hall");
        String zip = table("hall.zip");
        assertRefused(
                "--out would stand in --table: " + hall + "/out.csv is in " + hall + "; name another place",
                "--killsheet",
                in,
                "--table",
                hall,
                "--out",
                hall + "/out.csv");
        assertRefused(
                "--feedback would replace --table: both are " + hall + "; name another place",
                "--killsheet",
                in,
                "--table",
                hall,
                "--feedback",
                hall);
        assertRefused(
                "--out would replace --table: both are " + zip + "; name another place",
                "--killsheet",
                in,
                "--table",
                zip,
                "--out",
                zip);
        assertRefused(
                "--html would stand in --baseline: " + hall + "/page.html is in " + hall + "; name another place",
                "table",
                "--table",
                zip,
                "--baseline",
                hall,
                "--html",
                hall + "/page.html");
        assertRefused(
                "--html would replace --table: both are " + zip + "; name another place",
                "table",
                "--table",
                zip,
                "--html",
                zip);
    }

    @Test
    void aCalibratedTableReplacesNeitherItsBaselineNorItsTrials() throws IOException {
        String hall = table("hall");
        String trials = copy("tarrowmere-trials.csv", "trials.csv");
        String inside = copy("tarrowmere-trials.csv", "hall/trials.csv");
        assertRefused(
                "--out would replace --baseline: both are " + hall + "; name another place",
                "calibrate",
                "--trials",
                trials,
                "--baseline",
                hall,
                "--out",
                hall);
        assertRefused(
                "--out would replace --trials: " + inside + " is in " + hall + "; name another place",
                "calibrate",
                "--trials",
                inside,
                "--out",
                hall);
        assertRefused(
                "--report would replace --trials: both are " + trials + "; name another place",
                "calibrate",
                "--trials",
                trials,
                "--report",
                trials);
        assertRefused(
                "--report would stand in --out: " + hall + "/page.html is in " + hall + "; name another place",
                "calibrate",
                "--trials",
                trials,
                "--out",
                hall,
                "--report",
                hall + "/page.html");
    }

    @Test
    void aFeedbackSheetReplacesNeitherAnInputNorAnotherOutput() throws IOException {
        Path sheets = Files.createDirectory(folder.resolve("sheets"));
        String in = copy("tarrowmere-2026-11.csv", "sheets/mere-end.txt");
        String is = " are the same; name another place";
        assertRefused(
                "a feedback sheet would replace --killsheet: both are " + in + "; name another place",
                "--killsheet",
                in,
                "--out",
                at("out.csv"),
                "--feedback",
                sheets.toString());
        String link = Files.createSymbolicLink(sheets.resolve("mere-end.html"), Path.of("../out.csv"))
                .toString();
        assertRefused(
                "a feedback sheet would replace --out: " + link + " and " + at("out.csv") + is,
                "--killsheet",
                EXAMPLES.resolve("tarrowmere-2026-11.csv").toString(),
                "--out",
                at("out.csv"),
                "--feedback",
                sheets.toString());
    }

    @Test
    void whereAnOutputCannotStandIsSaidBeforeAnythingIsRead() throws IOException {
        String none = at("none.csv");
        assertRefused(
                at("gone/out.csv") + " can't be written: there is no folder " + at("gone"),
                "--killsheet",
                none,
                "--out",
                at("gone/out.csv"));
        assertRefused(
                at("gone/sheets") + " can't be written: there is no folder " + at("gone"),
                "--killsheet",
                none,
                "--feedback",
                at("gone/sheets"));
        assertRefused(
                at("gone/hall") + " can't be written: there is no folder " + at("gone"),
                "calibrate",
                "--trials",
                none,
                "--out",
                at("gone/hall"));
    }

    @Test
    void anOutputThatFailsAtTheEndLeavesAllOthersAsTheyWere() throws IOException {
        Files.writeString(folder.resolve("out.csv"), "old");
        Path sheets = Files.createDirectory(folder.resolve("sheets"));
        Files.createDirectory(sheets.resolve("mere-end.txt"));
        assertRefused(
                sheets.resolve("mere-end.txt") + " can't be written: it is a folder, not a file",
                "--killsheet",
                EXAMPLES.resolve("tarrowmere-2026-11.csv").toString(),
                "--out",
                at("out.csv"),
                "--problems",
                at("problems.csv"),
                "--feedback",
                sheets.toString());
    }

    @Test
    void aStandardOutputThatIsFullEndsWithTwo() {
        PrintStream full = new PrintStream(
                new OutputStream() {
                    @Override
                    public void write(int one) throws IOException {
                        throw new IOException("No space left on device");
                    }
                },
                true,
                StandardCharsets.UTF_8);
        ByteArrayOutputStream err = new ByteArrayOutputStream();

        assertThat(Main.run(List.of("--help"), full, new PrintStream(err, true, StandardCharsets.UTF_8)))
                .isEqualTo(2);
        assertThat(err.toString(StandardCharsets.UTF_8))
                .isEqualTo("standard output can't be written, so that what is printed there is not whole\n");
    }
}
