package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.data.frame.FrameFile;
import org.beefyield.frame.Frame;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Runs of the example season, few of them at a time. */
class ReconcileCommandTest {
    private static final Path SEASON = Path.of("examples", "season");
    private static final String PRICES = "examples/tarrowmere-prices.csv";
    private static final List<String> FILES = List.of("intake", "boxes", "products", "rest");

    @TempDir
    Path folder;

    private String out = "";
    private String err = "";

    @BeforeEach
    void twoDays() throws IOException {
        days("2026-01-05", "2026-01-06");
    }

    /** The files of some days, or of all if none is named. */
    private void days(String... days) throws IOException {
        for (String name : FILES) {
            List<String> lines = Files.readAllLines(SEASON.resolve(name + ".csv"));
            List<String> kept = new ArrayList<>(List.of(lines.get(0)));
            for (String line : lines.subList(1, lines.size())) {
                boolean ofDay = List.of(days).stream().anyMatch(day -> line.startsWith("Tarrowmere," + day + ","));
                if (name.equals("products") || days.length == 0 || ofDay) {
                    kept.add(line);
                }
            }
            Files.write(folder.resolve(name + ".csv"), kept);
        }
    }

    private void change(String name, UnaryOperator<String> change) throws IOException {
        Path file = folder.resolve(name + ".csv");
        String before = Files.readString(file);
        String after = change.apply(before);
        assertThat(after).isNotEqualTo(before);
        Files.writeString(file, after);
    }

    private String at(String name) {
        return folder.resolve(name).toString();
    }

    private int run(String... more) {
        List<String> arguments = new ArrayList<>(List.of("reconcile"));
        FILES.forEach(name -> arguments.addAll(List.of("--" + name, at(name + ".csv"))));
        arguments.addAll(List.of(more));
        Ran ran = Ran.with(arguments);
        out = ran.out();
        err = ran.err();
        return ran.code();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "--boxes b --products p                  | option --intake is missing",
                "--intake i --products p                 | option --boxes is missing",
                "--intake i --boxes b                    | option --products is missing",
                "--intake i --boxes b --products p --carcass 1 --box 2 | --carcass and --box are two questions; ask one at a time",
                "--intake i --boxes b --products p --box 2 --day 2026-01-05 | --day shows what a run weighed; --box asks over all runs, so leave one of them out",
                "--intake i --boxes b --products p --zone UTC | --zone needs --epcis",
                "--intake i --boxes b --products p --address https://a.example/ | --address needs --epcis",
                "--intake i --boxes b --products p --epcis e | --epcis needs --address",
                "--intake i --boxes b --products p --epcis e --address https://a.example/ | --epcis needs --zone",
                "--intake i --boxes b --products p --epcis e --address https://a.example/ --zone Mars | --zone \"Mars\" is no time zone such as Europe/Dublin",
                "--intake i --boxes b --products p --epcis e --address a:b:%% --zone UTC | --address \"a:b:%%\" is no address to name things under, such as https://id.tarrowmere.example/",
            })
    void whatIsAskedWronglyIsSaid(String arguments, String message) {
        List<String> all = new ArrayList<>(List.of("reconcile"));
        all.addAll(List.of(arguments.split(" ", -1)));
        assertThat(Ran.with(all)).isEqualTo(new Ran(2, "", message + "\n" + Main.HELP));
    }

    private void assertUsage(String message, String... more) {
        assertThat(run(more)).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).isEqualTo(message + "\n" + Main.HELP);
        assertThat(out).isEmpty();
    }

    @Test
    void whatIsNotThereIsSaidWithWhatIs() {
        assertUsage(
                "--day \"2026-01-07\": there is no such run; there are Tarrowmere 2026-01-05 to Tarrowmere 2026-01-06",
                "--day",
                "2026-01-07");
        assertUsage(
                "no cutting specification \"chops\" in table boneless-2026; it has steaks, joints, trim",
                "--specification",
                "chops");
        assertUsage(
                "--carcass \"TS-01102x\": no run boned anything of such a carcass; there are 40, such as TS-01102 and TS-01103",
                "--carcass",
                "TS-01101,TS-01102x");
        assertUsage("--box \"0\": no run packed such a box; there are " + boxes() + ", such as 010001", "--box", "0");
        assertUsage(
                "--address \"id\" is no address to name things under, such as https://id.tarrowmere.example/",
                "--epcis",
                at("e.json"),
                "--address",
                "id",
                "--zone",
                "UTC");
        assertThat(folder.resolve("e.json")).doesNotExist();
    }

    private long boxes() {
        try {
            return Files.readAllLines(folder.resolve("boxes.csv")).stream()
                            .map(line -> line.split(",", -1)[2])
                            .distinct()
                            .count()
                    - 1;
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    @Test
    void theRunOfADayIsShownAndElseTheLast() {
        assertThat(run("--day", "2026-01-05")).isZero();
        assertThat(out)
                .startsWith("Runs: 2 runs, 0 problems\n\nTarrowmere: 2 runs, 2026-01-05 to 2026-01-06;")
                .contains("\n\nTarrowmere 2026-01-05: ")
                .doesNotContain("\n\nTarrowmere 2026-01-06: ", "EUR", "hold together");
        assertThat(run()).isZero();
        assertThat(out).contains("\n\nTarrowmere 2026-01-06: ").doesNotContain("\n\nTarrowmere 2026-01-05: ");
    }

    @Test
    void aRunWithACarcassThatHasNoEstimateIsLeftOutWithTheReason() throws IOException {
        change("intake", text -> text.replace("TS-01101,C,U=,4-,347.3", "TS-01101,C,U=,4-,47.3"));
        assertThat(run()).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .contains(
                        "\nTarrowmere 2026-01-05 is left out: carcass TS-01101: cold weight 47.3 kg is 102.7 kg outside"
                                + " the allowed range 150 to 600 kg\n")
                .contains("\n\nTarrowmere 2026-01-06: ")
                .contains("carcass TS-01101 weighs 729 % of the cold weight of 47.3 kg");
        String reason = out.lines()
                .filter(line -> line.contains("is left out"))
                .findFirst()
                .orElseThrow();
        assertUsage("--day \"2026-01-05\": " + reason, "--day", "2026-01-05");
        // where it went is known all the same
        assertThat(run("--carcass", "TS-01101")).isZero();
        assertThat(out).contains("carcass TS-01101: 1 piece of 1 carcass, 1 batch, ");
    }

    @Test
    void aRunOfWhichRowsAreRefusedIsLeftOutAndSoAreItsEvents() throws IOException {
        change("boxes", text -> text.replace("010002,RUMP,R01-1,22.15", "010002,RUMP,R01-1,heavy"));
        assertThat(run("--epcis", at("e.json"), "--address", "https://id.tarrowmere.example/", "--zone", "UTC"))
                .isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .startsWith("Runs: 2 runs, 1 problem\n  " + at("boxes.csv")
                        + " line 3, gross_kg: \"heavy\" is not a plain number such as 342.5\n"
                        + "Tarrowmere 2026-01-05 is left out: rows of it are refused\n\n")
                .endsWith("\nEvents of 1 run written to " + at("e.json") + "; left out: 1 run that may lack rows\n");
        assertThat(folder.resolve("e.json")).content().contains("2026-01-06").doesNotContain("2026-01-05");
        assertThat(run("--box", "010001")).isEqualTo(ExitCode.SOME_REFUSED);
        String lacking =
                "\nNot whole: rows that are refused are of Tarrowmere 2026-01-05 or may be, so boxes and carcasses may be missing from"
                        + " these lists; mend those rows and ask again before anything is called back by them\n";
        assertThat(out).contains(lacking);
        assertThat(run("--carcass", "TS-01101")).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out).contains(lacking);
        assertThat(run("--box", "010002")).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err)
                .contains("--box \"010002\": no run packed such a box; there are ")
                .contains("; it may stand in one of 1 row that is refused, the first of them: " + at("boxes.csv")
                        + " line 3, gross_kg: \"heavy\" is not a plain number such as 342.5\n");
    }

    @Test
    void aRestOfNoCutOfTheTableIsARowThatIsRefused() throws IOException {
        change("rest", text -> text.replaceFirst("858,", "858,fat-trimm"));
        assertThat(run()).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .startsWith("Runs: 2 runs, 1 problem\n  " + at("rest.csv")
                        + " line 3, cut: no cut \"fat-trimm\"; nearest: fat-trim, lean-trim, topside\n"
                        + "Tarrowmere 2026-01-05 is left out: rows of it are refused\n\n");
    }

    @Test
    void aRowWhoseDayCannotBeReadLeavesOutTheRunsOfItsHallAndSaysWhy() throws IOException {
        change(
                "intake",
                text -> text
                        + text.lines()
                                .skip(1)
                                .map(line ->
                                        line.replace("Tarrowmere,", "Overmere,").replace("TS-", "OV-") + "\n")
                                .collect(Collectors.joining()));
        change(
                "intake",
                text -> text.replace(
                        "Tarrowmere,2026-01-05,cold-weighed,TS-01102", "Tarrowmere,5.1.2026,cold-weighed,TS-01102"));
        assertThat(run()).isEqualTo(ExitCode.SOME_REFUSED);
        String why = "a row whose day can't be read (" + at("intake.csv") + " line 3) may be of it";
        assertThat(out)
                .contains("\nTarrowmere 2026-01-05 is left out: " + why + "\nTarrowmere 2026-01-06 is left out: " + why
                        + "\n\nOvermere: 2 runs, ");
    }

    @Test
    void aRunThatTheIntakeLacksIsSaidOnceAndLeftOut() throws IOException {
        change(
                "intake",
                text -> text.lines()
                        .filter(line -> !line.startsWith("Tarrowmere,2026-01-06,"))
                        .map(line -> line + "\n")
                        .collect(Collectors.joining()));
        assertThat(run()).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out.lines().filter(line -> line.contains("2026-01-06"))).hasSize(2);
        assertThat(out)
                .startsWith("Runs: 1 run, 1 problem\n  " + at("boxes.csv"))
                .contains(
                        ", day: the intake has no row of Tarrowmere 2026-01-06; runs: Tarrowmere 2026-01-05; so it is with ")
                .contains(" further rows\nTarrowmere 2026-01-06 is left out: the intake has no row of it\n\n");
        assertUsage(
                "--day \"2026-01-06\": Tarrowmere 2026-01-06 is left out: the intake has no row of it",
                "--day",
                "2026-01-06");
        assertThat(run("--carcass", "TS-01101")).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out).contains("\nNot whole: rows that are refused are of Tarrowmere 2026-01-06 or may be, so boxes");
    }

    @Test
    void nothingToJudgeIsSaid() throws IOException {
        days("2026-01-05");
        change("boxes", text -> text.replace("010002,RUMP,R01-1,22.15", "010002,RUMP,R01-1,heavy"));
        assertThat(run("--out", at("runs.csv"))).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .contains("\nThere is no run to judge\n")
                .endsWith("\nNothing is written to " + at("runs.csv") + ": there is no run to write of\n");
        assertThat(folder.resolve("runs.csv")).doesNotExist();
    }

    @Test
    void aPageHasPicturesAndItsTextIsText() throws IOException {
        days("2026-01-05", "2026-01-06", "2026-01-07");
        change("intake", text -> text.replace("Tarrowmere,", "<b>Mere & Co</b>,"));
        for (String name : List.of("boxes", "rest")) {
            change(name, text -> text.replace("Tarrowmere,", "<b>Mere & Co</b>,"));
        }
        assertThat(run("--report", at("page.html"), "--prices", PRICES)).isZero();
        assertThat(out).endsWith("\n\nPage written to " + at("page.html") + "\n");
        String page = Files.readString(folder.resolve("page.html"));
        assertThat(page)
                .contains("<h1>Boning runs from intake.csv</h1>", "<p>Runs: 3 runs, 0 problems</p>")
                .contains("&lt;b&gt;Mere &amp; Co&lt;/b&gt; 2026-01-07", ">From expected to weighed, EUR</title>")
                .contains(", run by run</title>")
                .doesNotContain("<b>Mere");
        assertThat(page.split("<svg", -1)).hasSize(3);
        String withoutPictures = page.replaceAll("(?s)<svg.*?</svg>", "");
        assertThat(withoutPictures).contains("<td").doesNotContain("<svg");

        assertThat(run("--report", at("page.html"))).isZero();
        assertThat(Files.readString(folder.resolve("page.html")).split("<svg", -1))
                .hasSize(2);
    }

    @Test
    void theGroupsInAnAlarmAreDrawnNewestFirst() throws IOException {
        days();
        assertThat(run("--report", at("page.html"))).isZero();
        String page = Files.readString(folder.resolve("page.html"));
        int fillet = page.indexOf(">Fillet steak, run by run</title>");
        int losses = page.indexOf(">Losses, unweighed, run by run</title>");
        assertThat(fillet).isPositive();
        assertThat(losses).isGreaterThan(fillet);
    }

    @Test
    void figuresOfASeasonAndOfARunAreFrames() throws IOException {
        assertThat(run("--out", at("runs.csv"))).isZero();
        assertThat(out).endsWith("\n\nFigures written to " + at("runs.csv") + "\n");
        Frame season = FrameFile.read(folder.resolve("runs.csv"));
        assertThat(season.texts("run")).contains("Tarrowmere 2026-01-05", "Tarrowmere 2026-01-06");
        assertThat(season.texts("alarm")).containsOnly("");

        days("2026-01-06");
        assertThat(run("--out", at("run.csv"), "--prices", PRICES)).isZero();
        assertThat(out)
                .startsWith("Runs: 1 run, 0 problems\n\nTarrowmere 2026-01-06: ")
                .contains("EUR");
        Frame one = FrameFile.read(folder.resolve("run.csv"));
        assertThat(one.texts("run")).containsOnly("Tarrowmere 2026-01-06");
        assertThat(one.texts("group")).contains("Striploin steak", "losses, unweighed");
        assertThat(one.columns().toString()).contains("cutting worth, EUR");
    }

    @Test
    void aCarcassGoesIntoItsBatchAndABoxCallsBackAllOfItsBatch() throws IOException {
        assertThat(run("--carcass", "TS-01101, TS-01102", "--out", at("boxes-of-it.csv")))
                .isZero();
        Frame boxes = FrameFile.read(folder.resolve("boxes-of-it.csv"));
        assertThat(boxes.texts("batch")).containsOnly("R01-1");
        assertThat(out)
                .startsWith(
                        "Runs: 2 runs, 0 problems\n\ncarcasses TS-01101, TS-01102: 2 pieces of 2 carcasses, 1 batch, "
                                + boxes.rows() + " boxes with ")
                .doesNotContain("g per kg of intake");

        assertThat(run("--box", "010003", "--out", at("called-back.csv"))).isZero();
        assertThat(out)
                .contains("\nbox 010003: 10 pieces of 10 carcasses, 1 batch, 1 box with 22.")
                .contains("\n\nrecall of box 010003: 10 pieces of 10 carcasses, 1 batch, " + boxes.rows()
                        + " boxes with ");
        assertThat(FrameFile.read(folder.resolve("called-back.csv"))).isEqualTo(boxes);
    }

    @Test
    void whatDoesNotHoldTogetherIsSaidTwentyLinesOfIt() throws IOException {
        change("boxes", text -> text.replace(",RUMP,R01-1,", ",RUMP,,"));
        assertThat(run()).isZero();
        assertThat(out)
                .contains("\nWhat doesn't hold together in the records, 1 finding:\nTarrowmere 2026-01-05: ")
                .contains(" boxes name no batch (");
        String rework = IntStream.range(0, 25)
                .mapToObj(i -> "Tarrowmere,2026-01-05,X" + i + ",RUMP,R01-1,10,0,,rework,Y" + i + "\n")
                .reduce("", String::concat);
        twoDays();
        change("boxes", text -> text + rework);
        assertThat(run("--carcass", "TS-01101")).isZero();
        assertThat(out)
                .contains("\nWhat doesn't hold together in the records, 25 findings:\nTarrowmere 2026-01-05: box X0 was"
                        + " packed again from Y0, which no run up to its own packed\n")
                .contains(" X19 was packed")
                .endsWith("\nand 5 more\n")
                .doesNotContain("X20 was");
    }

    @Test
    void eventsAreWritten() throws IOException {
        assertThat(run(
                        "--epcis",
                        at("e.json"),
                        "--address",
                        "https://id.tarrowmere.example",
                        "--zone",
                        "Europe/Dublin"))
                .isZero();
        assertThat(out).endsWith("\n\nEvents of 2 runs written to " + at("e.json") + "\n");
        JsonNode document = new JsonMapper().readTree(folder.resolve("e.json").toFile());
        JsonNode events = document.get("epcisBody").get("eventList");
        assertThat(events.size()).isEqualTo(4 + boxes());
        assertThat(events.get(0).get("bizLocation").get("id").asString())
                .isEqualTo("https://id.tarrowmere.example/hall/Tarrowmere");
    }

    @Test
    void whatLooksOddInPricesIsNoted() throws IOException {
        Path cents = Files.writeString(
                folder.resolve("cents.csv"),
                Files.readString(Path.of(PRICES)).replace("fillet-steak,34.00", "fillet-steak,3400"));
        assertThat(run("--prices", cents.toString())).isZero();
        assertThat(out).startsWith("Runs: 2 runs, 0 problems\nNote: " + cents + " line 2, price: ");
    }

    @Test
    void noOutputReplacesAnInput() throws IOException {
        String before = Files.readString(folder.resolve("boxes.csv"));
        for (String option : List.of("--report", "--out", "--epcis")) {
            List<String> more = new ArrayList<>(List.of(option, at("boxes.csv")));
            if (option.equals("--epcis")) {
                more.addAll(List.of("--address", "https://id.tarrowmere.example/", "--zone", "UTC"));
            }
            assertThat(run(more.toArray(String[]::new))).isEqualTo(ExitCode.COULD_NOT_RUN);
            assertThat(err)
                    .isEqualTo(
                            option + " would replace --boxes: both are " + at("boxes.csv") + "; name another place\n");
        }
        assertThat(folder.resolve("boxes.csv")).content().isEqualTo(before);
    }

    @Test
    void semicolonsAndDecimalCommasSayTheSame() throws IOException {
        assertThat(run()).isZero();
        String points = out;
        for (String name : FILES) {
            change(name, text -> text.replace(',', ';').replace('.', ','));
        }
        assertThat(run("--separator", ";", "--decimal-comma")).isZero();
        assertThat(out).isEqualTo(points);
    }
}
