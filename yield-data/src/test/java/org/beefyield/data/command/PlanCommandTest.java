package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.data.frame.FrameFile;
import org.beefyield.frame.Frame;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Days of the first carcasses of the example's chill list. */
class PlanCommandTest {
    private static final Path EXAMPLES = Path.of("examples");
    private static final String HEADER =
            "order,customer,product,way,fat_pct,min_kg,max_kg,price,currency,penalty,carcasses,piece_from_kg,piece_to_kg,note";

    @TempDir
    Path folder;

    private String out = "";
    private String err = "";

    private String at(String name) {
        return folder.resolve(name).toString();
    }

    /** So many carcasses, and orders. */
    private void day(int carcasses, String... orders) throws IOException {
        Files.write(
                folder.resolve("chill.csv"),
                Files.readAllLines(EXAMPLES.resolve("plan/chill.csv")).subList(0, carcasses + 1));
        Files.write(
                folder.resolve("orders.csv"),
                Stream.concat(Stream.of(HEADER), Arrays.stream(orders)).toList());
    }

    private int run(String... more) {
        List<String> arguments = new ArrayList<>(List.of(
                "plan",
                "--killsheet",
                at("chill.csv"),
                "--orders",
                at("orders.csv"),
                "--prices",
                EXAMPLES.resolve("tarrowmere-prices.csv").toString()));
        arguments.addAll(List.of(more));
        Ran ran = Ran.with(arguments);
        out = ran.out();
        err = ran.err();
        return ran.code();
    }

    private Frame frame(String name) {
        return FrameFile.read(folder.resolve(name));
    }

    private List<String> left() throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(file -> file.getFileName().toString()).sorted().toList();
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "--orders o --prices p               | option --killsheet is missing",
                "--killsheet k --prices p            | option --orders is missing",
                "--killsheet k --orders o            | option --prices is missing",
                "--killsheet k --orders o --prices p --hours 9      | --hours needs --labour",
                "--killsheet k --orders o --prices p --hour-price 9 | --hour-price needs --labour",
                "--killsheet k --orders o --prices p --choose all   | --choose \"all\" is none of piece, primal, carcass, fixed",
                "--killsheet k --orders o --prices p --cells 2.5    | --cells \"2.5\" is no whole number of 1 or more, such as 40",
                "--killsheet k --orders o --prices p --cells 0      | --cells \"0\" is no whole number of 1 or more, such as 40",
                "--killsheet k --orders o --prices p --margin -1    | --margin \"-1\" is below 0; give per cent, such as 3",
                "--killsheet k --orders o --prices p --promise 100  | --promise \"100\" is outside 0 to 100 (both excluded); give per cent, such as 95",
            })
    void whatIsAskedWronglyIsSaid(String arguments, String message) {
        List<String> all = new ArrayList<>(List.of("plan"));
        all.addAll(List.of(arguments.split(" ", -1)));
        assertThat(Ran.with(all)).isEqualTo(new Ran(2, "", message + "\n" + Main.HELP));
    }

    @Test
    void noOutputReplacesAnInputOrAnotherOutput() throws IOException {
        day(2, "A,,dice,,,1,2,8,EUR,1,,,,");
        for (String option : List.of("--list", "--out", "--report")) {
            assertThat(run(option, at("orders.csv"))).isEqualTo(ExitCode.COULD_NOT_RUN);
            assertThat(err)
                    .isEqualTo(option + " would replace --orders: both are " + at("orders.csv")
                            + "; name another place\n");
        }
        assertThat(run("--list", at("x.csv"), "--out", at("x.csv"))).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).contains("x.csv").contains("--list").contains("--out");
        assertThat(left()).containsExactly("chill.csv", "orders.csv");
    }

    @Test
    void anOrderThatCannotBeReadEndsTheRunWithItsPlace() throws IOException {
        day(2, "A,,dice,,,1,2,dear,EUR,1,,,,", "B,,chops,,,1,2,8,EUR,1,,,,");
        assertThat(run("--out", at("out.csv"))).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).contains(at("orders.csv") + " line 2, price: \"dear\" is not a plain number such as 342.5\n");
        day(2, "B,,chops,,,1,2,8,EUR,1,,,,");
        assertThat(run("--out", at("out.csv"))).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err)
                .startsWith("order B: nothing that table boneless-2026")
                .contains(" becomes chops; there are ")
                .contains("striploin-steak");
        day(2, "A,,dice,,,1,2,8,GBP,1,,,,");
        assertThat(run("--out", at("out.csv"))).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).contains("EUR").contains("GBP");
        assertThat(run("--specification", "chops")).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(left()).containsExactly("chill.csv", "orders.csv");
    }

    @Test
    void theListOfTheHallTheOrdersAndThePageAreWritten() throws IOException {
        day(12, "A,<b>Mere & Co</b>,striploin-joint,,,70,70,12,EUR,,,,,", "B,,dice,,,100,200,9,EUR,1,,,,");
        assertThat(run(
                        "--choose",
                        "primal",
                        "--list",
                        at("list.csv"),
                        "--out",
                        at("out.csv"),
                        "--report",
                        at("page.html")))
                .isEqualTo(ExitCode.GOOD);
        assertThat(out)
                .startsWith("Kill sheet " + at("chill.csv") + ": 12 carcasses\n\n12 carcasses, ")
                .contains(": 2 of 2 orders expected to be met, ")
                .endsWith("\nList of the hall written to " + at("list.csv") + "\nOrders written to " + at("out.csv")
                        + "\nPage written to " + at("page.html") + "\n");
        Frame list = frame("list.csv");
        Map<String, Set<String>> cutsOf = new TreeMap<>();
        for (int row = 0; row < list.rows(); row++) {
            assertThat(cutsOf.computeIfAbsent(list.texts("carcass").get(row), key -> new LinkedHashSet<>())
                            .add(list.texts("cut").get(row)))
                    .isTrue();
        }
        assertThat(cutsOf).hasSize(12);
        assertThat(cutsOf.values())
                .allSatisfy(cuts -> assertThat(cuts).hasSize(14).contains("striploin", "flank"));
        List<String> striploins = IntStream.range(0, list.rows())
                .filter(row -> list.texts("cut").get(row).equals("striploin"))
                .mapToObj(row -> list.texts("way").get(row))
                .toList();
        assertThat(striploins).contains("joints", "steaks");
        Frame orders = frame("out.csv");
        assertThat(orders.texts("order")).containsExactly("A", "B");
        assertThat(orders.numbers("planned")[0]).isCloseTo(70, within(1e-6));
        assertThat(orders.numbers("planned")[1]).isCloseTo(200, within(1e-6));
        assertThat(Files.readString(folder.resolve("page.html")))
                .contains("<h1>Plan of chill.csv</h1>", ">What orders get</title>", "<svg")
                .contains("&lt;b&gt;Mere &amp; Co&lt;/b&gt;")
                .doesNotContain("<b>Mere");
    }

    @Test
    void ordersThatConflictAreNamedWithWhatIsMissingAndTheRestIsPlanned() throws IOException {
        day(
                6,
                "A,,striploin-joint,,,70,70,12,EUR,,,,,",
                "B,,striploin-steak,,,60,90,23,EUR,,,,,",
                "C,,dice,,,100,200,9,EUR,,,,,");
        assertThat(run("--choose", "primal", "--out", at("out.csv"))).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .containsPattern(
                        "\nOrders A, B can't all be met, though all but one of them could; missing at least, say: [0-9.]+ kg of [AB]\n")
                .containsPattern("\nOrder [AB] is [0-9.]+ kg short: other orders need the rest\n");
        assertThat(frame("out.csv").numbers("missing")[2]).isZero();

        day(6, "A,,striploin-joint,,,700,700,12,EUR,,,,,");
        assertThat(run("--choose", "primal")).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .containsPattern(
                        "\nOrder A can't be met by these carcasses, hours and stock: at least [0-9.]+ kg are missing\n")
                .containsPattern("\nOrder A is [0-9.]+ kg short: these carcasses don't return more than [0-9]+ kg\n");
    }

    @Test
    void carcassesThatAreRefusedAreListedAndTheRestIsPlanned() throws IOException {
        day(4, "A,,dice,,,10,20,9,EUR,1,,,,");
        Path sheet = folder.resolve("chill.csv");
        List<String> lines = new ArrayList<>(Files.readAllLines(sheet));
        lines.set(1, lines.get(1).replace(",376.0,", ",heavy,"));
        lines.set(2, lines.get(2).replace(",344.8,", ",44.8,"));
        Files.write(sheet, lines);
        assertThat(run("--choose", "fixed")).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .startsWith("Kill sheet " + at("chill.csv") + ": 3 carcasses; 1 refusal:\n  " + at("chill.csv")
                        + " line 2, cold_weight_kg: \"heavy\" is not a plain number such as 342.5\n\n2 carcasses, ")
                .contains("\n1 carcass is left out, the first: ");
    }

    @Test
    void aMarginCutsMoreThanTheLeastAndTheOwnHallMakesPromisesLarger() throws IOException {
        // so cheap that no more than has to be is given away
        day(12, "A,,dice,,,200,600,1,EUR,20,,,,");
        assertThat(run("--choose", "fixed", "--out", at("plain.csv"))).isEqualTo(ExitCode.GOOD);
        assertThat(out).contains("promise at 95 %, kg", "a table calibrated to the own hall makes promises larger");
        assertThat(run("--choose", "fixed", "--margin", "10", "--promise", "80", "--out", at("margin.csv")))
                .isEqualTo(ExitCode.GOOD);
        assertThat(out).contains("promise at 80 %, kg");
        assertThat(run("--choose", "fixed", "--own-hall", "--out", at("own.csv")))
                .isEqualTo(ExitCode.GOOD);
        assertThat(out).doesNotContain("a table calibrated to the own hall");
        assertThat(frame("plain.csv").numbers("planned")[0]).isCloseTo(200, within(1e-6));
        assertThat(frame("margin.csv").numbers("planned")[0]).isCloseTo(220, within(1e-6));
        assertThat(frame("own.csv").numbers("promise")[0])
                .isGreaterThan(frame("plain.csv").numbers("promise")[0]);
    }

    @Test
    void lessFreedomAndLimitsAreSaidWhereTheyAreAskedFor() throws IOException {
        day(4, "A,,striploin-joint,,,15,15,12,EUR,,,,,");
        assertThat(run("--choose", "carcass", "--less", "--prices-of-limits")).isEqualTo(ExitCode.GOOD);
        assertThat(out)
                .contains("\nWhat the day brings by what may be chosen:\n\nchosen ")
                .contains("\na cutting specification for each carcass ")
                .contains("\none cutting specification for all ")
                .doesNotContain("a way for each cut of each carcass")
                .contains("\nWhat limits cost:\n\nlimit ")
                .contains("\namount of order A, kg ");
    }
}
