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
    private static final String PLAIN_TERMS = "level_g_per_kg,per_conformation_point,per_fat_point,per_100kg";

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
                        + "\n  294 trials accepted, 6 refused\n\nLeft out\n"
                        + "  carcass TH-017: 8.3 kg of 298.1 kg (2.8 %) are missing; at most 2 % may\n")
                .contains("Closing\n  carcass: 294 carcasses, 0.74 % missing on average; closed by the loss in 294")
                .contains("294 carcasses, 6 terms, the prior table counts for 10 carcasses, 290.1 degrees of freedom")
                .contains("\nTable " + table.identity() + " written to " + hall + "\n\nTable " + table.identity()
                        + " against " + SHIPPED.identity() + "\n")
                .containsPattern("\nfat-trim +tissue +\\+19\\.[0-9]{2}  category ")
                .endsWith("\n\nPage written to " + page + "\n");
        assertThat(table.identity()).startsWith("tarrowmere-hall@2#");
        assertThat(Files.readString(page))
                .startsWith("<!DOCTYPE html>\n<html lang=\"en\">")
                .contains("<h1>Calibration from tarrowmere-trials.csv</h1>\n<p>Table " + table.identity()
                        + " written to ")
                .contains(">Table " + table.identity() + " against " + SHIPPED.identity() + "</h2>")
                .contains("<h2>Report</h2>\n<h3>Calibration of " + SHIPPED.identity() + "</h3>")
                .endsWith("</body></html>\n");

        Path shipped = Path.of("src/main/resources/org/beefyield/data/tables/boneless-2026");
        assertThat(run("table", "--table", hall.toString(), "--baseline", shipped.toString()))
                .isZero();
        assertThat(out).startsWith("Table " + table.identity() + ": ").contains("against " + SHIPPED.identity());
    }

    @Test
    void trialsThatAllBalanceEndWithZeroAndMayGoIntoAZip() throws IOException {
        Path zip = folder.resolve("hall.zip");

        assertThat(calibrate("--trials", rows(16).toString(), "--out", zip.toString(), "--shrink", "100"))
                .isZero();

        assertThat(TableReader.read(zip).identity()).startsWith("boneless-2026-calibrated@1#");
        assertThat(out).contains("the prior table counts for 100 carcasses");
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
                        "--shrink",
                        "0",
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
                .contains("Breakdown of striploin, steaks\n  40 carcasses, 2 terms, the prior table counts for nothing")
                .containsPattern("\nstriploin-steak +retail +-[0-9.]+ +category");
    }

    @Test
    void aTableThatIsNotProvedIsRefusedWithItsPlaceAndWhatWouldHelp() throws IOException {
        Path hall = folder.resolve("hall");
        String trials = rows(40).toString();

        assertThat(calibrate("--trials", trials, "--out", hall.toString(), "--shrink", "0", "--terms", PLAIN_TERMS))
                .isEqualTo(ExitCode.SOME_REFUSED);

        assertThat(out)
                .contains(
                        "the table does not hold:\n  breakdown row 144, cut \"fat-trim\": its share of carcass is -6.223 g/kg"
                                + " at category C, fat-trim of carcass, S+ 1-, 150 kg; a share is at least 0 over the whole allowed")
                .endsWith("""
                        it holds over a narrower allowed range: conformation 2 to 17, fat 2 to 14, 166 to 562 kg
                        it holds over the whole range if shrunk towards the prior table with the strength of 3 carcasses
                        No table is written; take the offer with --if-refused narrower-range or more-shrinkage
                        """);
        assertThat(hall).doesNotExist();
    }

    @Test
    void anOfferIsTakenOnRequest() throws IOException {
        Path hall = folder.resolve("hall");
        List<String> arguments = List.of(
                "--trials", rows(40).toString(), "--out", hall.toString(), "--shrink", "0", "--terms", PLAIN_TERMS);
        List<String> narrower = new ArrayList<>(arguments);
        narrower.addAll(List.of("--if-refused", "narrower-range"));
        List<String> stronger = new ArrayList<>(arguments);
        stronger.addAll(List.of("--if-refused", "more-shrinkage"));

        calibrate(narrower.toArray(String[]::new));
        assertThat(out).contains("\nAs asked, the narrower range is taken\n");
        YieldTable narrow = TableReader.read(hall);
        assertThat(narrow.definition().allowed().weightKg()).hasToString("166 to 562");

        calibrate(stronger.toArray(String[]::new));
        assertThat(out)
                .contains("\nAs asked, every breakdown is shrunk towards the baseline with that strength\n")
                .contains("the prior table counts for 3 carcasses");
        YieldTable shrunk = TableReader.read(hall);
        assertThat(shrunk.definition().allowed()).isEqualTo(SHIPPED.definition().allowed());
        assertThat(shrunk.digest()).isNotEqualTo(narrow.digest());
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

        assertThat(calibrate("--trials", trials.toString(), "--group", "rounds=topside+silverside", "--shrink", "30"))
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
        assertThat(calibrate("--trials", EXAMPLE.toString(), "--categories-apart", "--shrink", "300"))
                .isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .contains("Breakdown of carcass (category C)\n", "Breakdown of carcass (category D)\n")
                .contains("breakdown of carcass (category A): no carcass was weighed; it stays as in the prior table");
    }

    @Test
    void trialsThatDetermineNothingEndWithFourAndNoTable() throws IOException {
        Path hall = folder.resolve("hall");
        Path page = folder.resolve("page.html");

        assertThat(calibrate(
                        "--trials",
                        rows(3).toString(),
                        "--out",
                        hall.toString(),
                        "--shrink",
                        "0",
                        "--report",
                        page.toString()))
                .isEqualTo(ExitCode.SOME_REFUSED);

        assertThat(out)
                .contains("breakdown of carcass: ")
                .endsWith("\nNothing could be fitted, so that there is no table\n\nPage written to " + page + "\n");
        assertThat(hall).doesNotExist();
        assertThat(page).content().contains("<p>Nothing could be fitted, so that there is no table</p>");
    }

    @Test
    void badRowsAreListedAndTheOthersFitted() throws IOException {
        Path trials = rows(16);
        Files.writeString(trials, Files.readString(trials).replace("TH-002,D,", "TH-002,X,"));

        assertThat(calibrate("--trials", trials.toString(), "--shrink", "100")).isEqualTo(ExitCode.SOME_REFUSED);
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
                "--trials x --shrink none       | --shrink \"none\" is neither a number of carcasses, 0 or more, nor cross-validated",
                "--trials x --shrink -1         | --shrink \"-1\" is neither a number of carcasses, 0 or more, nor cross-validated",
                "--trials x --if-refused force  | --if-refused \"force\" is none of narrower-range, more-shrinkage",
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
        assertThat(err).isEqualTo(message + "\n" + CalibrateCommand.USAGE);
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
}
