package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.table.TableReader;
import org.beefyield.data.table.TableWriter;
import org.beefyield.estimate.Cautions;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TableCommandTest {
    private static final YieldTable SHIPPED = ShippedTables.boneless2026();
    private static final Path SHIPPED_FILES = Path.of("src/main/resources/org/beefyield/data/tables/boneless-2026");

    private static final String REST_OF_OPTIONS =
            " --killsheet --prices --value-level --specification --mince --totals-row"
                    + " --sides-apart --import --cuts --rest --leave-out --categories --weights --reference --separator --charset"
                    + " --dates --columns --yes-no --unit --halves --row-a-side --decimal-comma --formula-cells --blank-rows --help";

    @TempDir
    Path folder;

    private Path baseline;
    private Path table;
    private String out = "";
    private String err = "";

    @BeforeEach
    void copyTheShippedTable() throws IOException {
        baseline = folder.resolve("in-use.zip");
        TableWriter.write(SHIPPED, baseline);
        table = Files.createDirectory(folder.resolve("hall"));
        try (Stream<Path> files = Files.list(SHIPPED_FILES)) {
            for (Path file : files.toList()) {
                Files.copy(file, table.resolve(file.getFileName()));
            }
        }
    }

    private int run(String... arguments) {
        Ran ran =
                Ran.with(Stream.concat(Stream.of("table"), Stream.of(arguments)).toList());
        out = ran.out();
        err = ran.err();
        return ran.code();
    }

    private void replace(String file, String text, String other) throws IOException {
        String whole = Files.readString(table.resolve(file));
        assertThat(whole).containsOnlyOnce(text);
        Files.writeString(table.resolve(file), whole.replace(text, other));
    }

    /** Moves 4 g/kg of every carcass from bone to meat. */
    private void moveFromBoneToMeat() throws IOException {
        replace("breakdown.csv", "*,*,carcass,meat,693.119,", "*,*,carcass,meat,697.119,");
        replace("breakdown.csv", "\nE,*,carcass,meat,685.319,", "\nE,*,carcass,meat,689.319,");
        replace("breakdown.csv", "\nAB,*,carcass,meat,700.919,", "\nAB,*,carcass,meat,704.919,");
        replace("breakdown.csv", "\nD,*,carcass,meat,668.119,", "\nD,*,carcass,meat,672.119,");
        replace("breakdown.csv", "*,*,carcass,bone,188.671,", "*,*,carcass,bone,184.671,");
        replace("breakdown.csv", "\nD,*,carcass,bone,203.671,", "\nD,*,carcass,bone,199.671,");
    }

    // exit code 0

    @Test
    void aGoodTableIsProvedAndEndsWithZero() {
        assertThat(run("--table", table.toString())).isZero();

        assertThat(err).isEmpty();
        assertThat(out.lines().toList().subList(0, 3))
                .containsExactly(
                        "Table " + SHIPPED.identity() + ": Boneless yields of graded beef carcasses, edition 2026",
                        "",
                        "Proved over categories C E A B D, conformation 1 to 18, fat 1 to 15 (270 nodes), 150 to 600 kg;"
                                + " shares in every mix of ways; what the table expects where ways matter, under its cutting"
                                + " specifications steaks, joints, trim");
        assertThat(out).endsWith(SHIPPED.proof().toText());
        assertThat(out).doesNotContain("against").doesNotContain("moves");
    }

    @Test
    void roundingThatIsTakenOffIsSaid() throws IOException {
        replace("breakdown.csv", "*,*,carcass,bone,188.671,", "*,*,carcass,bone,188.672,");

        Path page = folder.resolve("page.html");

        assertThat(run("--table", table.toString(), "--html", page.toString())).isZero();
        assertThat(out)
                .contains(
                        "\n\nRounding taken off so that it closes: carcass, level_g_per_kg: 0.001 g/kg\n\nProved over ");
        assertThat(Files.readString(page))
                .contains("<p>Rounding taken off so that it closes: carcass, level_g_per_kg: 0.001 g/kg</p>");
    }

    @Test
    void roundingOfSlopesIsSaidInTheirUnits() throws IOException {
        replace(
                "breakdown.csv",
                "*,*,carcass,bone,188.671,-7.3556,-2.3856,0,0,0,",
                "*,*,carcass,bone,188.671,-7.3555,-2.3857,0.0001,0.0001,-0.0001,");

        assertThat(run("--table", table.toString())).isZero();
        assertThat(out)
                .contains(
                        "\nRounding taken off so that it closes: carcass, per_conformation_point: 0.0001 g/kg per point of"
                                + " conformation; carcass, per_fat_point: -0.0001 g/kg per point of fat; carcass, per_100kg: 0.0001"
                                + " g/kg per 100 kg; carcass, fat_below_3: 0.0001 g/kg per point of fat below position 3; carcass,"
                                + " conformation_above_15: -0.0001 g/kg per point of conformation above position 15\n");
    }

    @Test
    void equalTablesDifferNowhere() {
        assertThat(run("--table", table.toString(), "--baseline", baseline.toString(), "--budget", "0"))
                .isZero();

        assertThat(out).contains("Table " + SHIPPED.identity() + " against " + SHIPPED.identity() + "\n");
        assertThat(out)
                .containsPattern("\n\nAll [0-9]+ shares of cuts at their levels: equal\nNothing changed\n")
                .endsWith("\nNo cut moves more than 0 g/kg anywhere in any mix of ways, and nothing else changed\n");
    }

    @Test
    void aMoveWithinTheBudgetEndsWithZero() throws IOException {
        moveFromBoneToMeat();

        assertThat(run("--table=" + table, "--baseline=" + baseline, "--budget=4"))
                .isZero();
        assertThat(out)
                .contains("-4.00")
                .endsWith("\nNo cut moves more than 4 g/kg anywhere in any mix of ways, and nothing else changed\n");
    }

    @Test
    void withoutABudgetNoMoveIsTooFar() throws IOException {
        moveFromBoneToMeat();

        assertThat(run("--table", table.toString(), "--baseline", baseline.toString()))
                .isZero();
        assertThat(out).contains("-4.00").doesNotContain("budget").doesNotContain("more than");
    }

    // exit code 4

    @Test
    void aMoveBeyondTheBudgetEndsWithFourAndNamesEveryCutThatMovesFurther() throws IOException {
        moveFromBoneToMeat();

        assertThat(run("--table", table.toString(), "--baseline", baseline.toString(), "--budget", "3.5"))
                .isEqualTo(ExitCode.SOME_REFUSED);

        assertThat(err).isEmpty();
        // the difference is the same everywhere, so where it is largest is a matter of the last digits
        String where = " g/kg at category [CEABD], [a-z]+, [SEUROP][-=+] [1-5][-=+], [0-9.]+ kg\n";
        assertThat(out)
                .containsPattern("\n\n4 shares of 2 cuts move more than 3\\.5 g/kg:\n"
                        + "  meat at level tissue: 4\\.0000" + where
                        + "  bone at level tissue: -4\\.0000" + where
                        + "  bone at level primal: -4\\.0000" + where
                        + "  bone at level retail: -4\\.0000" + where + "$");
    }

    @Test
    void oneCutThatMovesFurtherIsSaidInTheSingular() throws IOException {
        replace("breakdown.csv", ",meat,topside,99.372,", ",meat,topside,102.372,");
        replace("breakdown.csv", ",meat,silverside,70.184,", ",meat,silverside,68.684,");
        replace("breakdown.csv", ",meat,eye-of-round,28.133,", ",meat,eye-of-round,26.633,");

        assertThat(run("--table", table.toString(), "--baseline", baseline.toString(), "--budget", "2.3"))
                .isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .containsPattern(
                        "\n1 share of 1 cut moves more than 2\\.3 g/kg:\n  topside at level primal: 2\\.[0-9]{4} g/kg at ");
    }

    @Test
    void aRefusedTableEndsWithFourAndShowsEveryProblemByFile() throws IOException {
        replace("breakdown.csv", "*,*,carcass,bone,188.671,", "*,*,carcass,bone,bony,");
        replace("sources.csv", "boning-loss,", "boning-loss,x");
        replace("cuts.csv", "\nbone,", "\nBone,");

        assertThat(run("--table", table.toString(), "--baseline", baseline.toString(), "--budget", "5"))
                .isEqualTo(ExitCode.SOME_REFUSED);

        assertThat(err).isEmpty();
        assertThat(out.lines().toList().subList(0, 5))
                .satisfiesExactly(
                        line -> assertThat(line).isEqualTo("The table is refused, 3 problems"),
                        line -> assertThat(line).isEqualTo(table + "/cuts.csv"),
                        line -> assertThat(line)
                                .startsWith("  " + table + "/cuts.csv line ")
                                .endsWith("cut \"Bone\" is not lower-case letters and digits joined by single hyphens"),
                        line -> assertThat(line).isEqualTo(table + "/breakdown.csv"),
                        line -> assertThat(line)
                                .isEqualTo(
                                        "  " + table + "/breakdown.csv line 4, level_g_per_kg: \"bony\" is not a plain"
                                                + " number such as 342.5"));
    }

    @Test
    void aTableThatIsNotProvedIsRefusedWithItsPlace() throws IOException {
        replace("breakdown.csv", "*,*,carcass,loss,6,", "*,*,carcass,loss,5,");

        assertThat(run("--table", table.toString())).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .startsWith("The table is refused, 4 problems\n" + table + "/breakdown.csv\n  " + table
                        + "/breakdown.csv, level_g_per_kg: \"999\": the children of carcass add up to 999 g/kg, not 1000;"
                        + " rounding explains at most 0.002; they are meat 693.119, fat-trim 112.21, bone 188.671, loss 5"
                        + " (category C) (lines 2 to 5)\n");
    }

    @Test
    void noPageIsWrittenForARefusedTable() throws IOException {
        replace("breakdown.csv", "*,*,carcass,loss,6,", "*,*,carcass,loss,5,");
        Path page = folder.resolve("page.html");

        assertThat(run("--table", table.toString(), "--html", page.toString())).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(page).doesNotExist();
    }

    // exit code 2

    @Test
    void noSuchTableEndsWithTwo() {
        Path none = folder.resolve("none");

        assertThat(run("--table", none.toString())).isEqualTo(2);
        assertThat(out).isEmpty();
        assertThat(err)
                .isEqualTo(none + ": there is no such folder or zip file; by its name alone there is boneless-2026\n");
    }

    @Test
    void noSuchBaselineEndsWithTwo() {
        Path none = folder.resolve("none");

        assertThat(run("--table", table.toString(), "--baseline", none.toString()))
                .isEqualTo(2);
        assertThat(out).isEmpty();
        assertThat(err)
                .isEqualTo(none + ": there is no such folder or zip file; by its name alone there is boneless-2026\n");
    }

    @Test
    void aBaselineThatIsRefusedEndsWithTwo() throws IOException {
        replace("breakdown.csv", "*,*,carcass,loss,6,", "*,*,carcass,loss,5,");

        assertThat(run("--table", baseline.toString(), "--baseline", table.toString()))
                .isEqualTo(2);
        assertThat(err).startsWith(table + "/breakdown.csv, level_g_per_kg: ");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "''                        | option --table is missing",
                "--tabel x                 | unknown option \"--tabel\"; options: --table --baseline --budget --allow --sd-budget --html --write --name --version --export"
                        + REST_OF_OPTIONS,
                "--table                   | option --table needs a value",
                "--table=                  | option --table has an empty value",
                "--table x --table y       | option --table stands twice",
                "x                         | unknown option \"x\"; options: --table --baseline --budget --allow --sd-budget --html --write --name --version --export"
                        + REST_OF_OPTIONS,
                "--table x --name y        | --name needs --write",
                "--table x --version y     | --version needs --write",
                "--export x --table y      | --export writes an edition as it is, so that no other option goes with it",
                "--table x --budget 5      | --budget needs a --baseline to hold the table against",
                "--table x --baseline y --budget five | --budget \"five\" is not a number such as 15",
                "--table x --baseline y --budget -1   | --budget -1 is outside 0 to 1000 g/kg",
            })
    void anOptionThatIsNotUnderstoodEndsWithTwo(String options, String message) {
        assertThat(run(options.isEmpty() ? new String[0] : options.split(" "))).isEqualTo(2);
        assertThat(out).isEmpty();
        assertThat(err).isEqualTo(message + "\n" + (options.isEmpty() ? TableCommand.USAGE : Main.HELP));
    }

    @Test
    void aPageThatCantBeWrittenEndsWithTwo() {
        assertThat(run("--table", table.toString(), "--html", folder.toString()))
                .isEqualTo(2);
        assertThat(out).isEmpty();
        assertThat(err).isEqualTo(folder + " can't be written: it is a folder, not a file\n");
    }

    @Test
    void helpEndsWithZero() {
        assertThat(run("--help")).isZero();
        assertThat(out).isEqualTo(TableCommand.USAGE);
        assertThat(err).isEmpty();
    }

    // the page

    @Test
    void thePageSaysTheSame() throws IOException {
        moveFromBoneToMeat();
        replace("datapackage.json", "\"title\": \"Boneless", "\"title\": \"<b>Boneless & co");
        Path page = folder.resolve("page.html");

        assertThat(run(
                        "--table",
                        table.toString(),
                        "--baseline",
                        baseline.toString(),
                        "--budget",
                        "3.5",
                        "--html",
                        page.toString()))
                .isEqualTo(ExitCode.SOME_REFUSED);

        YieldTable moved = TableReader.read(table);
        assertThat(out).endsWith("\n\nPage written to " + page + "\n");
        assertThat(Files.readString(page))
                .startsWith("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">")
                .endsWith("</body></html>\n")
                .contains("<h1>Table " + moved.identity() + "</h1>")
                .contains("&lt;b&gt;Boneless &amp; co yields")
                .doesNotContain("<b>Boneless")
                .contains(
                        "<strong>4 shares of 2 cuts move more than 3.5 g/kg</strong></p>\n<ul>\n<li>meat at level tissue: 4.0000 g/kg")
                .contains("Table " + moved.identity() + " against " + SHIPPED.identity())
                .contains(moved.proof().toHtml())
                .contains(Cautions.PLANNING);
    }
}
