package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.beefyield.data.frame.FrameFile;
import org.beefyield.frame.Frame;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FinishCommandTest {
    private static final List<String> TERMS = List.of(
            "--grid",
            "examples/tarrowmere-grid.csv",
            "--market",
            "examples/tarrowmere-market.csv",
            "--costs",
            "examples/tarrowmere-costs.csv");

    @TempDir
    Path folder;

    private static Ran run(String line, String... more) {
        List<String> arguments = new ArrayList<>(List.of("finish"));
        if (!line.isEmpty()) {
            arguments.addAll(List.of(line.split(" ")));
        }
        arguments.addAll(List.of(more));
        return Ran.with(arguments);
    }

    @Test
    void aPenIsDrawnInOrderPartedInLoadsAndWritten() throws IOException {
        List<String> arguments = new ArrayList<>(TERMS);
        arguments.addAll(
                List.of("--pen", "examples/tarrowmere-pen.csv", "--day", "2026-11-03", "--load", "8", "--days", "42"));
        arguments.addAll(List.of("--html", folder.resolve("pen.html").toString()));
        arguments.addAll(List.of("--out", folder.resolve("pen.csv").toString()));
        Ran ran = run("", arguments.toArray(String[]::new));
        assertThat(ran.err()).isEmpty();
        assertThat(ran.code()).isEqualTo(ExitCode.GOOD);
        assertThat(ran.out())
                .contains("Pen examples/tarrowmere-pen.csv: 14 animals, 0 problems")
                .contains("14 animals: 4 are best sold today")
                .contains("In 2 loads: ")
                .contains("today        TM-2211  C ")
                .contains(
                        "Fitness for transport, animal welfare, withdrawal periods of medicines and movement rules come first");
        assertThat(Files.readString(folder.resolve("pen.html")))
                .contains("<title>Hold or sell: tarrowmere-pen.csv</title>")
                .contains("<svg")
                .contains("Day of sale of a pen");
        Frame frame = FrameFile.read(folder.resolve("pen.csv"));
        assertThat(frame.rows()).isEqualTo(14 * 43);
        assertThat(folder.resolve("pen.datapackage.json")).exists();
    }

    @Test
    void oneAnimalIsGivenByOptions() {
        Ran ran = run(
                "--category C --conformation R= --fat-class 3- --live-kg 610 --age-months 28.6 --tag TM-1 --days 60",
                TERMS.toArray(String[]::new));
        assertThat(ran.err()).isEmpty();
        assertThat(ran.code()).isEqualTo(ExitCode.GOOD);
        assertThat(ran.out())
                .startsWith("TM-1, C R= 3-, 610 kg live, 28.6 months: about 335 kg cold today, ")
                .contains("The last day within the limit of age is day 42.");
        // 12 kg at 0.44 EUR for 1.5 kg of which 59 % is carcass: a bull that is sold
        assertThat(
                        run("--category A --conformation U= --fat-class 3= --live-kg 700 --killing-out 59 --gain 1.5 --price 5.50")
                                .out())
                .contains(
                        "Counted a head, in EUR: nothing; not counted: feed, yardage, interest, deaths, the next animal on its"
                                + " place.");
    }

    @Test
    void badRowsOfAPenAreListedAndTheRestGoesOn() throws IOException {
        Path pen = folder.resolve("pen.csv");
        Files.writeString(
                pen,
                "tag,category,conformation,fat_class,live_kg,gain_kg_per_day\nT1,C,R=,3=,600,1.2\nT2,C,R=,9,600,1.2\n");
        Ran ran = run("--price 5.5 --days 14", "--pen", pen.toString());
        assertThat(ran.code()).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(ran.out())
                .contains(": 1 animal, 1 problem")
                .contains("line 3, fat_class")
                .contains("T1");
        Files.writeString(pen, "tag,category,conformation,fat_class,live_kg,gain_kg_per_day\nT2,C,R=,9,600,1.2\n");
        assertThat(run("--price 5.5", "--pen", pen.toString()).code()).isEqualTo(ExitCode.COULD_NOT_RUN);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "--price 5|option --category is missing",
                "--category C --conformation R --fat-class 3 --price 5 --gain 1|an animal needs --live-kg or --cold-kg, one of the two; or"
                        + " give --pen",
                "--category C --conformation R --fat-class 3 --live-kg 600 --price 5|--gain is missing, and no costs file says what"
                        + " animals gain",
                "--category C --conformation R --fat-class 3 --live-kg 600 --gain 1|what is paid is said by --grid or by --price, one"
                        + " of the two",
                "--category X --conformation R --fat-class 3 --live-kg 600 --gain 1 --price 5|--category: category \"X\" is none of C A"
                        + " B D E Z",
                "--category C --conformation R --fat-class 3 --live-kg 600 --gain 1 --price 5 --days 800|--days: 800 days to look at"
                        + " are outside 0 to 730",
                "--category C --conformation R --fat-class 3 --live-kg 600 --gain 1 --price 5 --load 8|--load needs --pen",
                "--pen examples/tarrowmere-pen.csv --price 5 --gain 7 --day 2026-11-03|--gain 7 kg a day is outside -5 to 5",
                "--category C --conformation R --fat-class 3 --live-kg 600 --gain 1 --price 5 --table x|--table needs --prices",
                "--pen x.csv --price 5 --live-kg 600|--live-kg is of one animal, which the rows of --pen say themselves",
                "--pen examples/tarrowmere-pen.csv --price 5 --gain 1 --day soon|--day \"soon\" is not a day such as 2026-11-03",
                "--pen examples/tarrowmere-pen.csv --price 5 --currency GBP --costs examples/tarrowmere-costs.csv|costs are in EUR, but"
                        + " GBP is paid; give both in one",
            })
    void whatCantBeUnderstoodIsSaid(String line, String message) {
        Ran ran = run(line);
        assertThat(ran.code()).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(ran.err()).contains(message);
    }

    @Test
    void feedbackSheetsUseTheCosts() throws IOException {
        List<String> arguments = List.of(
                "--killsheet",
                "examples/tarrowmere-2026-11.csv",
                "--prices",
                "examples/tarrowmere-prices.csv",
                "--grid",
                "examples/tarrowmere-grid.csv",
                "--costs",
                "examples/tarrowmere-costs.csv",
                "--feedback",
                folder.resolve("sheets").toString());
        assertThat(Ran.with(arguments).code()).isEqualTo(ExitCode.GOOD);
        try (var files = Files.list(folder.resolve("sheets"))) {
            List<Path> sheets = files.filter(
                            file -> file.toString().endsWith(".txt") && !file.endsWith("feedback-sheets.txt"))
                    .toList();
            assertThat(sheets).isNotEmpty();
            for (Path sheet : sheets) {
                assertThat(Files.readString(sheet)).contains("t the costs given ");
            }
        }
        assertThat(Ran.with(List.of("--killsheet", "x.csv", "--costs", "y.csv")).err())
                .contains("--costs needs --feedback");
    }
}
