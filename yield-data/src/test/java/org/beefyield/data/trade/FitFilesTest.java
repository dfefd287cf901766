package org.beefyield.data.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.data.InvalidDataException;
import org.beefyield.market.MarketSpecification;
import org.beefyield.market.SizeWindow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Pack sizes and market specifications as files. */
class FitFilesTest {
    private static final Path EXAMPLES = Path.of("examples");

    private static final String MARKET =
            "specification,weight,from_kg,to_kg,category,conformation_from,conformation_to,fat_from,fat_to,under_months,"
                    + "assured,note\n";

    private static final String WINDOWS = "cut,way,from_kg,to_kg,otherwise\n";

    @TempDir
    Path folder;

    private Path file(String content) throws IOException {
        return Files.writeString(folder.resolve("x.csv"), content);
    }

    private List<String> marketProblems(String content) throws IOException {
        Path file = file(content);
        return problems(catchThrowableOfType(InvalidDataException.class, () -> MarketSpecificationReader.read(file)));
    }

    private List<String> windowProblems(String content) throws IOException {
        Path file = file(content);
        return problems(catchThrowableOfType(InvalidDataException.class, () -> SizeWindowReader.read(file)));
    }

    private List<String> problems(InvalidDataException refused) {
        return refused.problems().stream()
                .map(problem ->
                        problem.toString().replace(folder.resolve("x.csv").toString(), "x.csv"))
                .toList();
    }

    @Test
    void theExamplesAreRead() {
        assertThat(SizeWindowReader.read(EXAMPLES.resolve("tarrowmere-windows.csv")))
                .containsExactly(
                        new SizeWindow("striploin", "steaks", 5, 10, "joints"),
                        new SizeWindow("cube-roll", "steaks", 0, 8, "joints"),
                        new SizeWindow("fillet", "*", 1.8, Double.POSITIVE_INFINITY, ""));
        assertThat(MarketSpecificationReader.read(EXAMPLES.resolve("tarrowmere-market.csv")))
                .extracting(MarketSpecification::toString)
                .containsExactly(
                        "retail: 270 to 380 kg cold; category C A E; conformation R to U; fat class 3 to 4L (4= and 4 count as"
                                + " 4L); under 30 months",
                        "quality: 280 to 360 kg cold; category C E; conformation R= to U+; fat class 3 to 4L (4= and 4 count"
                                + " as 4L); under 30 months; farm-assured");
    }

    @Test
    void blankCellsSetNoLimitAndColumnsStandInAnyOrder() throws IOException {
        assertThat(MarketSpecificationReader.read(file(MARKET + "open,,,,,,,,,,,\n")))
                .extracting(MarketSpecification::toString)
                .containsExactly("open: no limits");
        assertThat(SizeWindowReader.read(file("to_kg,cut,otherwise,way,from_kg\n10,striploin,,,\n")))
                .containsExactly(new SizeWindow("striploin", "*", 0, 10, ""));
    }

    @Test
    void weightsAreHotOnlyWhereTheRowSaysSo() throws IOException {
        assertThat(MarketSpecificationReader.read(
                        file(MARKET + "a,hot,270,380,,,,,,,,\nb,cold,270,380,,,,,,,,\nc,,,380,,,,,,,,\n")))
                .extracting(MarketSpecification::toString)
                .containsExactly("a: 270 to 380 kg hot", "b: 270 to 380 kg cold", "c: up to 380 kg cold");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "a,warm,,,,,,,,,, | weight: \"warm\" is none of hot cold",
                "a,,x,,,,,,,,, | from_kg: \"x\" is not a plain number such as 342.5",
                "a,,380,270,,,,,,,, | from_kg: weights from 380 to 270 kg: two ascending weights of 0 kg or more are needed",
                "a,,,,CX,,,,,,, | category: category \"X\" is none of C A B D E Z",
                "a,,,,,X,,,,,, | conformation_from: conformation \"X\" is none of S E U R O P",
                "a,,,,,U,R,,,,, | conformation_from: conformation from U to R: the poorer comes first",
                "a,,,,,,,6,,,, | fat_from: fat class 6 is outside 1 to 5; a position on the 15-point scale belongs in"
                        + " fat_points, in code in FatClass.ofPosition",
                "a,,,,,,,4,3,,, | fat_from: fat class from 4 to 3: the leaner comes first",
                "a,,,,,,,,,thirty,, | under_months: \"thirty\" is not a whole number of months such as 30",
                "a,,,,,,,,,0,, | under_months: under 0 months takes no carcass; 1 or more is needed",
                "a,,,,,,,,,,perhaps, | assured: \"perhaps\" is none of yes no",
                ",,,,,,,,,,, | specification: a specification has a name"
            })
    void aBadCellOfASpecificationIsNamed(String row, String problem) throws IOException {
        assertThat(marketProblems(MARKET + row + "\n")).contains("x.csv line 2, " + problem);
    }

    @Test
    void everyBadRowIsReported() throws IOException {
        assertThat(marketProblems(MARKET + "a,,,,,,,,,,,\na,,,,,,,,,,,\nb,warm,,,,X,,,,,,\n"))
                .containsExactly(
                        "x.csv line 3, specification: a specification of this name stands above",
                        "x.csv line 4, weight: \"warm\" is none of hot cold",
                        "x.csv line 4, conformation_from: conformation \"X\" is none of S E U R O P");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                ",,,10, | cut: every row names a cut",
                "striploin,steaks,10,5,joints | from_kg: pieces from 10 to 5 kg: two ascending weights of 0 kg or more are"
                        + " needed",
                "striploin,steaks,,-1, | from_kg: pieces from 0 to -1 kg: two ascending weights of 0 kg or more are needed",
                "striploin,*,5,10,joints | from_kg: a piece of striploin that doesn't fit as * can't go as joints; name a way"
                        + " that needs the window and another one without it"
            })
    void aBadCellOfAWindowIsNamed(String row, String problem) throws IOException {
        assertThat(windowProblems(WINDOWS + row + "\n")).containsExactly("x.csv line 2, " + problem);
    }

    @Test
    void aFileHasALimitOfRows() throws IOException {
        String most = WINDOWS
                + IntStream.range(0, 100_000).mapToObj(k -> "c" + k + ",,,,\n").collect(Collectors.joining());

        assertThat(SizeWindowReader.read(file(most))).hasSize(100_000);
        assertThat(windowProblems(most + "d,,,,\ne,,,,\n"))
                .containsExactly("x.csv line 100002: at most 100000 rows are read here");
    }

    @Test
    void aHeaderBelowBlankLinesIsNamedByItsOwnLine() throws IOException {
        assertThat(windowProblems("\n\ncut,way,from_kg,to_kg,other\n"))
                .containsExactly(
                        "x.csv line 3, otherwise: the column \"otherwise\" is missing; columns: cut, way, from_kg, to_kg,"
                                + " otherwise",
                        "x.csv line 3, other: there is no column \"other\"; columns: cut, way, from_kg, to_kg, otherwise");
    }

    @Test
    void aWindowGivenTwiceIsRefused() throws IOException {
        assertThat(windowProblems(WINDOWS + "striploin,,5,10,\nstriploin,*,5,11,\n"))
                .containsExactly("x.csv line 3, way: a window for this way of the cut stands above");
    }

    @Test
    void whatIsNoSuchFileIsRefused() throws IOException {
        assertThat(windowProblems("cut,weigh\nstriploin,1\n"))
                .containsExactly(
                        "x.csv line 1, way: the column \"way\" is missing; columns: cut, way, from_kg, to_kg, otherwise",
                        "x.csv line 1, from_kg: the column \"from_kg\" is missing; columns: cut, way, from_kg, to_kg,"
                                + " otherwise",
                        "x.csv line 1, to_kg: the column \"to_kg\" is missing; columns: cut, way, from_kg, to_kg, otherwise",
                        "x.csv line 1, otherwise: the column \"otherwise\" is missing; columns: cut, way, from_kg, to_kg,"
                                + " otherwise",
                        "x.csv line 1, weigh: there is no column \"weigh\"; columns: cut, way, from_kg, to_kg, otherwise");
        assertThat(windowProblems(WINDOWS)).containsExactly("x.csv: the file has a header but no row");
        assertThat(windowProblems(""))
                .containsExactly("x.csv: the file is empty; a header with the names of the columns is needed");
        assertThat(windowProblems(WINDOWS + "striploin,,,10\n"))
                .containsExactly(
                        "x.csv line 2: the row has 4 cells but the header has 5; an empty cell keeps its \",\"");
        assertThat(catchThrowableOfType(
                                InvalidDataException.class, () -> SizeWindowReader.read(folder.resolve("none.csv")))
                        .problems())
                .singleElement()
                .satisfies(problem ->
                        assertThat(problem.message()).startsWith("the file can't be read: there is no file"));
    }
}
