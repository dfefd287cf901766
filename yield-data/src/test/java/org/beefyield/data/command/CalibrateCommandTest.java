package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.table.TableReader;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CalibrateCommandTest {
    private static final YieldTable SHIPPED = ShippedTables.boneless2026();
    private static final Path EXAMPLE = Path.of("examples/tarrowmere-trials.csv");
    private static final Path STRIPLOINS = Path.of("examples/tarrowmere-striploin-trials.csv");

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

    private int calibrate(String... arguments) {
        return run(Stream.concat(Stream.of("calibrate"), Stream.of(arguments)).toArray(String[]::new));
    }

    /** The first rows of the example. */
    private Path rows(int count) throws IOException {
        List<String> lines = Files.readAllLines(EXAMPLE).subList(0, count + 1);
        return Files.write(folder.resolve("trials.csv"), lines);
    }

    private static List<BreakdownRow> rows(YieldTable table, String parent, String way) {
        return table.definition().breakdown().stream()
                .filter(row -> row.parent().equals(parent) && row.way().equals(way))
                .toList();
    }

    @Test
    void theExampleGivesATableThatTheTableCommandAcceptsAndSaysWhatChanges() throws IOException {
        Path hall = folder.resolve("hall");
        Path page = folder.resolve("hall.html");

        assertThat(calibrate(
                        "--trials",
                        EXAMPLE.toString(),
                        "--out",
                        hall.toString(),
                        "--name",
                        "tarrowmere-hall",
                        "--version",
                        "2",
                        "--report",
                        page.toString()))
                .isEqualTo(ExitCode.SOME_REFUSED);

        YieldTable table = TableReader.read(hall);
        assertThat(err).isEmpty();
        assertThat(out)
                .startsWith("Trials " + EXAMPLE + ": 300 trials, 0 problems\n\nCalibration of " + SHIPPED.identity()
                        + "\n  There is a table, and it keeps all its promises. 294 trials accepted, 6 refused\n"
                        + "  Furthest from the table in use, of the carcass: fat-trim ")
                .contains("\nLeft out\n  carcass TH-017: 8.3 kg of 298.1 kg (2.8 %) are missing; at most 2 % may\n")
                .contains("Closing\n  carcass: 294 carcasses, 0.74 % missing on average; closed by the loss in 294")
                .contains("294 carcasses on 25 days, learnt: all terms")
                .contains("\nTable " + table.identity() + " written to " + hall + "\n\nTable " + table.identity()
                        + " against " + SHIPPED.identity() + "\n")
                .endsWith("\n\nPage written to " + page + "\n");
        assertThat(table.identity()).startsWith("tarrowmere-hall@2#");
        assertThat(Files.readString(page))
                .startsWith("<!DOCTYPE html>\n<html lang=\"en\">")
                .contains("<h1>Calibration from tarrowmere-trials.csv</h1>\n<p>Table " + table.identity()
                        + " written to ")
                .contains(">Table " + table.identity() + " against " + SHIPPED.identity() + "</h2>")
                .contains("<h3>Calibration of " + SHIPPED.identity() + "</h3>")
                .endsWith("</body></html>\n");

        Path shipped = Path.of("src/main/resources/org/beefyield/data/tables/boneless-2026");
        assertThat(run("table", "--table", hall.toString(), "--baseline", shipped.toString()))
                .isZero();
        assertThat(out).startsWith("Table " + table.identity() + ": ").contains("against " + SHIPPED.identity());
    }

    @Test
    void trialsThatAllBalanceEndWithZeroAndMayGoIntoAZip() throws IOException {
        Path zip = folder.resolve("hall.zip");

        assertThat(calibrate("--trials", rows(16).toString(), "--out", zip.toString()))
                .isZero();

        assertThat(TableReader.read(zip).identity()).startsWith("boneless-2026-calibrated@1#");
        assertThat(out).contains("16 carcasses on 2 days");
    }

    @Test
    void whatABreakdownInOneWayWasCutToIsFittedAndTheOtherWaysStay() {
        Path hall = folder.resolve("hall");

        assertThat(calibrate(
                        "--trials",
                        STRIPLOINS.toString(),
                        "--out",
                        hall.toString(),
                        "--specification",
                        "steaks",
                        "--without-baseline",
                        "--terms",
                        "level_g_per_kg,per_fat_point"))
                .isZero();

        YieldTable table = TableReader.read(hall);
        BreakdownRow steak = rows(table, "striploin", "steaks").get(0);
        assertThat(steak.cut()).isEqualTo("striploin-steak");
        // the hall trims 23 g/kg more than the shipped table has it, and 4 g/kg for each point of fat
        assertThat(steak.coefficients().get(0)).isBetween(776.0, 784.0);
        assertThat(steak.coefficients().get(2)).isBetween(-5.5, -2.5);
        assertThat(rows(table, "striploin", "joints")).isEqualTo(rows(SHIPPED, "striploin", "joints"));
        assertThat(rows(table, "carcass", "*")).isEqualTo(rows(SHIPPED, "carcass", "*"));
        assertThat(out)
                .contains("Breakdown of striploin, steaks\n  40 carcasses on 4 days, learnt: all terms")
                .containsPattern("\nstriploin-steak +retail +-[0-9.]+ +category");
    }

    @Test
    void cutsThatWereWeighedTogetherAreDeclared() throws IOException {
        List<String> lines = new ArrayList<>();
        for (String line : Files.readAllLines(EXAMPLE)) {
            List<String> cells = new ArrayList<>(List.of(line.split(",", -1)));
            String silverside = cells.remove(7);
            boolean isHeader = silverside.equals("silverside");
            cells.set(
                    6,
                    isHeader
                            ? "rounds"
                            : Double.toString(Double.parseDouble(cells.get(6)) + Double.parseDouble(silverside)));
            lines.add(String.join(",", cells));
        }
        Path trials = Files.write(folder.resolve("grouped.csv"), lines);

        assertThat(calibrate("--trials", trials.toString(), "--group", "rounds=topside+silverside"))
                .isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .contains(
                        "breakdown of meat: the cuts of rounds were weighed together; they move together, in proportion to"
                                + " their prior levels");
        assertThat(calibrate("--trials", trials.toString())).isEqualTo(2);
        assertThat(err).contains("rounds: no cut \"rounds\"; nearest: ");
    }

    @Test
    void categoriesApartAreFittedApart() {
        assertThat(calibrate("--trials", EXAMPLE.toString(), "--categories", "apart"))
                .isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .contains("Breakdown of carcass (category C)\n", "Breakdown of carcass (category D)\n")
                .contains("breakdown of carcass (category A): no carcass was weighed; it stays as in the prior table");
    }

    @Test
    void badRowsAreListedAndTheOthersFitted() throws IOException {
        Path trials = rows(16);
        Files.writeString(trials, Files.readString(trials).replace("TH-002,D,", "TH-002,X,"));

        assertThat(calibrate("--trials", trials.toString())).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .startsWith("Trials " + trials + ": 15 trials, 1 problem\n  " + trials
                        + " line 3, category: category \"X\" is none of C A B D E Z\n\n")
                .contains("15 trials accepted, 0 refused");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "''                             | option --trials is missing",
                "--trials x --categories some   | --categories \"some\" is none of together, levels, apart",
                "--trials x --expect-missing 30 | expected to be missing: 30 % is outside 0 to 20 %",
                "--trials x --boxes y           | --boxes needs --intake",
                "--intake y                     | option --boxes is missing",
                "--trials x --group topside     | --group \"topside\" is not a name and its cuts, such as rounds=topside+silverside",
                "--trials x --group a=topside   | --group \"a=topside\" is not a name and its cuts, such as rounds=topside+silverside",
                "--trials x --group a=b+c,a=d+e | --group \"a\" stands twice",
                "--trials x --group a=topside+lion | no cut \"lion\"; nearest: dice, bone, loss",
                "--trials x --terms level_g_per_kg,age | no term \"age\"; terms: level_g_per_kg, per_conformation_point, per_fat_point, per_100kg, fat_below_3, conformation_above_15",
                "--trials x --specification fillets | no cutting specification \"fillets\" in table boneless-2026; it has steaks, joints, trim",
                "--trials x --name Our-Table    | table, name \"Our-Table\": a name is lower-case letters, digits and . _ -",
            })
    void anOptionThatIsNotUnderstoodEndsWithTwo(String options, String message) {
        assertThat(calibrate(
                        options.isEmpty()
                                ? new String[0]
                                : options.replace(" x", " " + EXAMPLE).split(" ")))
                .isEqualTo(2);
        assertThat(out).isEmpty();
        assertThat(err).isEqualTo(message + "\n" + (options.isEmpty() ? CalibrateCommand.USAGE : Main.HELP));
    }

    @Test
    void noSuchFileEndsWithTwo() {
        Path none = folder.resolve("none.csv");

        assertThat(calibrate("--trials", none.toString())).isEqualTo(2);
        assertThat(err).isEqualTo(none + ": the file can't be read: there is no file " + none + "\n");
        assertThat(calibrate(
                        "--trials",
                        EXAMPLE.toString(),
                        "--baseline",
                        folder.resolve("none").toString()))
                .isEqualTo(2);
        assertThat(out).isEmpty();
    }

    @Test
    void helpEndsWithZero() {
        assertThat(calibrate("--help")).isZero();
        assertThat(out).isEqualTo(CalibrateCommand.USAGE);
    }

    /** Expecting what drips, carcasses pass that would else be refused. */
    @Test
    void whatIsExpectedToBeMissingIsDeclared() {
        calibrate("--trials", EXAMPLE.toString(), "--terms", "level_g_per_kg", "--expect-missing", "3");

        assertThat(out).contains("are missing; 3 % are expected, at most 2 % more or less may");
    }

    /** The season of everyday runs teaches alone, and after trials. */
    @Test
    void everydayRunsTeachATable() {
        Path season = Path.of("examples/season");
        Path hall = folder.resolve("hall");

        calibrate(
                "--intake", season.resolve("intake.csv").toString(),
                "--boxes", season.resolve("boxes.csv").toString(),
                "--products", season.resolve("products.csv").toString(),
                "--rest", season.resolve("rest.csv").toString(),
                "--out", hall.toString());

        assertThat(err).isEmpty();
        YieldTable table = TableReader.read(hall);
        assertThat(out).startsWith("Runs: ").contains("Table " + table.identity() + " written to " + hall);
        assertThat(table.digest()).isNotEqualTo(SHIPPED.digest());
    }
}
