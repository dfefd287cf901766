package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.beefyield.carcass.Category;
import org.beefyield.data.table.TableReader;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.ReferencePoint;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A plant's own look-up sheet, as messy as it is kept, to a table that estimates its kill sheet. */
class TableImportTest {
    /** Semicolons, decimal commas, a byte order mark, own names, a count, a total without the loss, own cuts. */
    private static final String SHEET = """
            \uFEFFKlasse;Fett;Anzahl;Topside;Striploin;Stew beef;Lean trim;FAT TRIM;bone;Summe
            O;2;14;5,9;4,2;17,4;43,5;6,0;21,8;98,8
            O;3;31;5,8;4,3;17,3;40,0;9,8;21,6;98,8
            R;2;22;6,3;4,5;18,1;44,1;5,6;20,2;98,8
            R;3;57;6,2;4,6;17,9;41,0;9,2;19,9;98,8
            """;

    @TempDir
    Path folder;

    private String out = "";
    private String err = "";

    @BeforeEach
    void sheets() throws IOException {
        Files.writeString(folder.resolve("Hall 2.csv"), SHEET);
        Files.writeString(folder.resolve("cuts.csv"), "cut;name;kind\nstew-beef;Stew beef;dice\n");
    }

    private String at(String name) {
        return folder.resolve(name).toString();
    }

    private int run(String... arguments) {
        Ran ran = Ran.with(List.of(arguments));
        out = ran.out();
        err = ran.err();
        return ran.code();
    }

    private int imported(String... more) {
        return run(Stream.concat(
                        Stream.of(
                                "table",
                                "--import",
                                at("Hall 2.csv"),
                                "--separator",
                                ";",
                                "--decimal-comma",
                                "--columns",
                                "Klasse=conformation,Fett=fat_class"),
                        Stream.of(more))
                .toArray(String[]::new));
    }

    private int whole(String... more) {
        return imported(Stream.concat(
                        Stream.of("--leave-out", "Anzahl, Summe", "--cuts", at("cuts.csv"), "--rest", "loss"),
                        Stream.of(more))
                .toArray(String[]::new));
    }

    @Test
    void aMessySheetIsProvedWrittenReadBackAndEstimatesAKillSheet() {
        assertThat(whole("--write", at("our-hall"))).isZero();

        YieldTable table = TableReader.read(folder.resolve("our-hall"));
        assertThat(err).isEmpty();
        assertThat(table.identity()).startsWith("hall-2@1#");
        assertThat(out.lines().toList().subList(0, 10))
                .containsExactly(
                        "Table " + table.identity() + ": Look-up sheet hall-2",
                        "No categories are given: every row serves C A B D E, as the shipped edition does",
                        "What rows lack of 100 % is loss: 1.2 %",
                        "Left out: Anzahl, Summe",
                        "Kind, pieces, fat content and notes are those of the shipped edition for topside, striploin, lean-trim,"
                                + " fat-trim, bone, loss",
                        "All cuts stand at one level, primal, which is compared with the level of that name of another table",
                        "It serves conformation O- to R+, fat class 2- to 3+ and 150 to 600 kg, the weights of the shipped"
                                + " edition, for none are given; a share is the same at every weight",
                        "No SDs are given: intervals hold nothing of how carcasses of a grade differ",
                        "Nothing is said of how lots, runs and halls differ, of standard errors, ways of cutting, quarters and"
                                + " of how the carcasses were handled; what it promises of itself is nothing but shares of 0 or"
                                + " more",
                        "");
        assertThat(out).endsWith("\n\nTable " + table.identity() + " written to " + at("our-hall") + "\n");
        assertThat(run("table", "--table", at("our-hall"), "--baseline", at("our-hall"), "--budget", "0"))
                .isZero();

        run("--killsheet", "examples/tarrowmere-2026-11.csv", "--table", at("our-hall"));
        assertThat(out).contains("Table " + table.identity()).containsPattern("\nTotal +[0-9.,]+ +100\\.0\n");
    }

    @Test
    void anImportIsComparedAndHeldToABudgetLikeAnyTable() {
        assertThat(whole("--baseline", "boneless-2026", "--budget", "5", "--write", at("our-hall")))
                .isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .contains(" against boneless-2026@1.0.0#")
                .contains("Nothing is written to " + at("our-hall") + ": the table moves beyond the budget\n");
        assertThat(folder.resolve("our-hall")).doesNotExist();
    }

    @Test
    void nameVersionCategoriesWeightsAndReferenceAreOptions() {
        assertThat(whole(
                        "--name",
                        "our-hall",
                        "--version",
                        "2026.1",
                        "--categories",
                        "ce",
                        "--weights",
                        "220-420.5",
                        "--reference",
                        "O+,2=,300",
                        "--write",
                        at("t.zip")))
                .isZero();

        YieldTable table = TableReader.read(folder.resolve("t.zip"));
        assertThat(table.identity()).startsWith("our-hall@2026.1#");
        assertThat(table.definition().categories()).containsExactlyInAnyOrder(Category.STEER, Category.HEIFER);
        assertThat(table.definition().allowed()).hasToString("conformation 4 to 9, fat 4 to 9, 220 to 420.5 kg");
        assertThat(table.definition().reference()).isEqualTo(new ReferencePoint(6, 5, 300));
    }

    @Test
    void whatIsMissingIsListedAndNothingIsWritten() throws IOException {
        Files.writeString(folder.resolve("Hall 2.csv"), SHEET.replaceFirst("R;2;.*\n", ""));

        assertThat(whole("--write", at("our-hall"))).isEqualTo(ExitCode.SOME_REFUSED);
        assertThat(out)
                .isEqualTo(
                        "The table is refused, 1 problem\n" + at("Hall 2.csv") + "\n  " + at("Hall 2.csv")
                                + ": the row of this grade is missing: R 2; every grade between the lowest and the highest has one\n");
        assertThat(folder.resolve("our-hall")).doesNotExist();
    }

    @Test
    void everyColumnThatIsNotKnownIsNamed() {
        assertThat(imported()).isEqualTo(ExitCode.SOME_REFUSED);

        String remedy = "; a cut of your own is declared: withCuts(...), --cuts; a column that is none is left out:"
                + " without(...), --leave-out\n";
        assertThat(out)
                .startsWith("The table is refused, 3 problems\n")
                .contains(" line 1, Anzahl: no cut \"Anzahl\"; nearest: meat, knuckle, flank" + remedy)
                .contains(" line 1, Stew beef: no cut \"Stew beef\"; nearest: topside, striploin, shoulder" + remedy)
                .contains(" line 1, Summe: no cut \"Summe\"; nearest: rump, blade, dice" + remedy);
    }

    @Test
    void thePageSaysTheSame() throws IOException {
        assertThat(whole("--html", at("page.html"))).isZero();

        assertThat(Files.readString(folder.resolve("page.html")))
                .contains("<p>Left out: Anzahl, Summe</p>")
                .contains("<p>No SDs are given: intervals hold nothing of how carcasses of a grade differ</p>");
    }

    @Test
    void theSheetIsNeverReplaced() {
        assertThat(whole("--html", at("Hall 2.csv"))).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err)
                .isEqualTo("--html would replace --import: both are " + at("Hall 2.csv") + "; name another place\n");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "--import x --table y          | --import and --table are two tables; one is looked at",
                "--table x --rest loss         | --rest needs --import",
                "--table x --cuts c            | --cuts needs --import",
                "--table x --leave-out a       | --leave-out needs --import",
                "--import x --weights 150      | --weights \"150\" is not two weights such as 150-600",
                "--import x --weights 600-150  | --weights \"600-150\": the lower one stands first",
                "--import x --categories CX    | --categories \"CX\": category \"X\" is none of C A B D E Z",
                "--import x --reference R=,3=  | --reference \"R=,3=\" is not a carcass such as R=,3=,340",
                "--import x --reference Q,3,340| --reference \"Q,3,340\": conformation \"Q\" is none of S E U R O P",
            })
    void anOptionThatIsNotUnderstoodEndsWithTwo(String options, String message) {
        assertThat(run(("table " + options).split(" "))).isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(out).isEmpty();
        assertThat(err).startsWith(message + "\n");
    }
}
