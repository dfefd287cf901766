package org.beefyield.data.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.tuple;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CsvReaderTest {
    private static final Charset WINDOWS_1252 = Charset.forName("windows-1252");

    private final List<Problem> problems = new ArrayList<>();
    private long rows;

    @Test
    void quotedCellsKeepSeparatorsAndQuotes() throws IOException {
        assertThat(read("a,b,c\n\"x,y\",\"say \"\"moo\"\"\",\"\"\n"))
                .containsExactly(new CsvReader.Row(2, List.of("x,y", "say \"moo\"", "")));
        assertThat(problems).isEmpty();
    }

    @Test
    void cellsStandAsTheyAreEmptyOnesIncluded() throws IOException {
        assertThat(read("a,b,c\n 1 ,,\n,,\nnull,\\n,#\n"))
                .containsExactly(
                        new CsvReader.Row(2, List.of(" 1 ", "", "")),
                        new CsvReader.Row(3, List.of("", "", "")),
                        new CsvReader.Row(4, List.of("null", "\\n", "#")));
    }

    @Test
    void byteOrderMarkCrLfBlankLinesAndAMissingLastLineEndAreAccepted() throws IOException {
        assertThat(read("\uFEFF\r\n a , b\r\n1,2\r\n\r\n  \r\n3,4"))
                .containsExactly(new CsvReader.Row(3, List.of("1", "2")), new CsvReader.Row(6, List.of("3", "4")));
        assertThat(problems).isEmpty();
        assertThat(rows).isEqualTo(2);
    }

    @Test
    void linesLongerThanTheBufferAreReadWhole() throws IOException {
        String cell = "0123456789".repeat(20_000);
        assertThat(read("a,b\n" + cell + ",1\n" + cell + ",2\n"))
                .containsExactly(new CsvReader.Row(2, List.of(cell, "1")), new CsvReader.Row(3, List.of(cell, "2")));
    }

    @Test
    void aStreamThatGivesItsBytesInDribsIsReadTheSame() throws IOException {
        InputStream dribs = new ByteArrayInputStream("a,b\r\n1,2\r\n3,4".getBytes(StandardCharsets.UTF_8)) {
            @Override
            public synchronized int read(byte[] target, int offset, int length) {
                return super.read(target, offset, Math.min(1, length));
            }
        };
        assertThat(rows(new CsvReader("a.csv", dribs, CsvForm.standard(), problems::add)))
                .containsExactly(new CsvReader.Row(2, List.of("1", "2")), new CsvReader.Row(3, List.of("3", "4")));
    }

    @Test
    void theHeaderIsGivenWithoutBlanksAndOnlyAHeaderHasNoRows() throws IOException {
        CsvReader csv = open(" a,\"b \",c d", ',', StandardCharsets.UTF_8);
        assertThat(csv.header()).containsExactly("a", "b", "c d");
        assertThat(csv.next()).isNull();
        assertThat(csv.rows()).isZero();
    }

    @ParameterizedTest
    @ValueSource(chars = {';', '\t', '|', ','})
    void theDeclaredSeparatorCounts(char separator) throws IOException {
        String text = "a,b\n1,\n,2\n,\n".replace(',', separator);
        assertThat(read(text.getBytes(StandardCharsets.UTF_8), separator, StandardCharsets.UTF_8))
                .extracting(CsvReader.Row::cells)
                .containsExactly(List.of("1", ""), List.of("", "2"), List.of("", ""));
        assertThat(problems).isEmpty();
    }

    @Test
    void theDeclaredCharsetCounts() throws IOException {
        assertThat(read("a,b\nZ\u00fcchter,1\n".getBytes(WINDOWS_1252), ',', WINDOWS_1252))
                .containsExactly(new CsvReader.Row(2, List.of("Z\u00fcchter", "1")));
    }

    @Test
    void aByteInAnotherEncodingSpoilsItsOwnRowOnly() throws IOException {
        assertThat(read("a,b\n1,2\nZ\u00fcchter,2\n3,4\n".getBytes(WINDOWS_1252), ',', StandardCharsets.UTF_8))
                .extracting(CsvReader.Row::line)
                .containsExactly(2L, 4L);
        assertThat(problems)
                .containsExactly(new Problem(
                        "a.csv",
                        3,
                        "",
                        "Z\uFFFDchter,2",
                        "the line is not valid UTF-8; save the file as UTF-8, or declare its charset"));
        assertThat(rows).isEqualTo(3);
    }

    @Test
    void aStrayQuoteSpoilsItsOwnRowOnly() throws IOException {
        assertThat(read("a,b\n1,\"2\n3,4\n\"5\"x,6\n7\" wide,8\n9, \"10\"\n\"1\"\"1\",12\n"))
                .containsExactly(new CsvReader.Row(3, List.of("3", "4")), new CsvReader.Row(7, List.of("1\"1", "12")));
        assertThat(problems)
                .extracting(Problem::toString)
                .containsExactly(
                        "a.csv line 2: a double quote has no partner on its line; a line break inside a cell is not"
                                + " supported, and a double quote inside a quoted cell is written twice",
                        "a.csv line 4: text follows the closing double quote of a cell; \",\" must follow it, and a double"
                                + " quote inside a quoted cell is written twice",
                        "a.csv line 5: a double quote stands inside the cell 7\" wide; such a cell needs double quotes"
                                + " around it, and its own written twice",
                        "a.csv line 6: a double quote stands inside the cell  \"10\"; such a cell needs double quotes"
                                + " around it, and its own written twice");
        assertThat(rows).isEqualTo(6);
    }

    @Test
    void aLineBreakInsideACellIsRefusedOnBothItsLines() throws IOException {
        assertThat(read("a,b\n1,\"two\nlines\"\n3,4\n"))
                .extracting(CsvReader.Row::line)
                .containsExactly(4L);
        assertThat(problems).extracting(Problem::line).containsExactly(2L, 3L);
    }

    @Test
    void aRowWithMoreOrFewerCellsThanTheHeaderIsRefused() throws IOException {
        assertThat(read("a,b\n342,5,1\n1\n1,2\n3;4\n"))
                .extracting(CsvReader.Row::line)
                .containsExactly(4L);
        assertThat(problems)
                .containsExactly(
                        new Problem(
                                "a.csv",
                                2,
                                "",
                                "342,5,1",
                                "the row has 3 cells but the header has 2; a text or number that holds \",\" belongs in"
                                        + " double quotes"),
                        new Problem(
                                "a.csv",
                                3,
                                "",
                                "1",
                                "the row has 1 cell but the header has 2; an empty cell keeps its \",\""),
                        new Problem(
                                "a.csv",
                                5,
                                "",
                                "3;4",
                                "the line is a single cell that holds \";\", but the declared separator is \",\"; declare the"
                                        + " one that the whole file uses"));
    }

    @Test
    void aCarriageReturnInsideALineIsRefused() throws IOException {
        assertThat(read("a,b\n1,2\r3,4\n5,6\n")).extracting(CsvReader.Row::line).containsExactly(3L);
        assertThat(problems)
                .extracting(Problem::message)
                .containsExactly("a carriage return stands inside the line; lines end with LF or CRLF");
    }

    @Test
    void aControlCharacterSpoilsItsRowOnlyUnlessItSeparates() throws IOException {
        assertThat(read("a,b\n1,\u0000\n2,\u001f\n\u007f,3\n4,\t\n5, \n"))
                .extracting(CsvReader.Row::line)
                .containsExactly(5L, 6L);
        String end = " stands inside the line; only text and tabs may";
        assertThat(problems)
                .containsExactly(
                        new Problem("a.csv", 2, "", "1,\u0000", "the control character U+0000" + end),
                        new Problem("a.csv", 3, "", "2,\u001f", "the control character U+001F" + end),
                        new Problem("a.csv", 4, "", "\u007f,3", "the control character U+007F" + end));

        byte[] separated = "a\u001fb\n1\u001f2\n".getBytes(StandardCharsets.UTF_8);
        assertThat(read(separated, '\u001f', StandardCharsets.UTF_8))
                .containsExactly(new CsvReader.Row(2, List.of("1", "2")));
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1})
    void aLineWithoutAnEndStopsTheReading(int beyond) throws IOException {
        int longest = 64 << 20;
        InputStream endless = new InputStream() {
            private int left = longest + beyond;

            @Override
            public int read() {
                return left-- > 0 ? 'x' : -1;
            }

            @Override
            public int read(byte[] buffer, int offset, int length) {
                int count = Math.min(length, left);
                Arrays.fill(buffer, offset, offset + count, (byte) 'x');
                left -= count;
                return count == 0 ? -1 : count;
            }
        };
        InputStream start = new ByteArrayInputStream("a,b\n1,2\n".getBytes(StandardCharsets.UTF_8));
        CsvReader csv =
                new CsvReader("a.csv", new SequenceInputStream(start, endless), CsvForm.standard(), problems::add);

        assertThat(csv.next()).isEqualTo(new CsvReader.Row(2, List.of("1", "2")));
        if (beyond == 0) {
            assertThat(csv.next()).isNull();
            assertThat(problems)
                    .containsExactly(new Problem(
                            "a.csv", 3, "", "x".repeat(200) + "...", "the line is longer than 1048576 bytes"));
        } else {
            assertThatThrownBy(csv::next)
                    .isInstanceOf(IOException.class)
                    .hasMessage("line 3 is longer than 67108864 bytes");
        }
    }

    @Test
    void aLineOverTheLimitIsRefusedAndTheNextOneRead() throws IOException {
        String longest = "x".repeat(CsvReader.LONGEST_LINE - 2);
        assertThat(read("a,b\n" + longest + ",1\n" + longest + ",12\n3,4\n"))
                .extracting(CsvReader.Row::line)
                .containsExactly(2L, 4L);
        assertThat(problems)
                .extracting(Problem::line, Problem::message)
                .containsExactly(tuple(3L, "the line is longer than 1048576 bytes"));
        assertThat(rows).isEqualTo(3);
    }

    @Test
    void aFileWithoutALineIsEmpty() {
        for (String text : new String[] {"", "\uFEFF", "\r\n \n"}) {
            assertThatThrownBy(() -> open(text, ',', StandardCharsets.UTF_8))
                    .isInstanceOf(InvalidDataException.class)
                    .hasMessage("a.csv: the file is empty; a header with the names of the columns is needed");
        }
    }

    @Test
    void aSeparatorThatIsNotDeclaredIsNamed() {
        assertThatThrownBy(() -> open("a;b\n1;2\n", ',', StandardCharsets.UTF_8))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage("a.csv line 1: the line is a single cell that holds \";\", but the declared separator is"
                        + " \",\"; declare the one that the whole file uses");
        assertThatThrownBy(() -> open("a\tb\n", ';', StandardCharsets.UTF_8))
                .hasMessageContaining(
                        "holds tab, but the declared separator is \";\"; declare the one that the whole file uses");
        assertThatThrownBy(() -> open("|b\n", ',', StandardCharsets.UTF_8)).hasMessageContaining("holds \"|\", but");
        assertThatThrownBy(() -> open("a,b\n", '\t', StandardCharsets.UTF_8))
                .hasMessageContaining(
                        "holds \",\", but the declared separator is tab; declare the one that the whole file uses");
    }

    @Test
    void columnsNeedNamesOfTheirOwnAndAllThatHaveNoneAreNamed() {
        assertThatThrownBy(() -> open("a,b,a,\n", ',', StandardCharsets.UTF_8))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage(
                        "a.csv line 1, a: columns 1 and 3 are both called \"a\"; every column needs a name of its own\n"
                                + "a.csv line 1: column 4 has no name; every column needs one of its own, in the first line of the file");
    }

    @Test
    void theHeaderHasALimitOfColumnsAndOfTheirNames() throws IOException {
        String longest = "n".repeat(400);
        String columns = IntStream.rangeClosed(2, 1000).mapToObj(k -> ",c" + k).collect(Collectors.joining());

        assertThat(open(longest + columns, ',', StandardCharsets.UTF_8).header())
                .hasSize(1000)
                .startsWith(longest, "c2");
        assertThatThrownBy(() -> open("c1" + columns + ",c1001", ',', StandardCharsets.UTF_8))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage("a.csv line 1: the header has 1001 columns; at most 1000 are read");
        assertThat(catchThrowableOfType(
                                InvalidDataException.class,
                                () -> open("\na,b,n" + longest, ',', StandardCharsets.UTF_8))
                        .problems())
                .containsExactly(new Problem(
                        "a.csv",
                        2,
                        "",
                        "n".repeat(200) + "...",
                        "the name of column 3 has 401 characters; at most 400 are read"));
    }

    @Test
    void theHeaderHasTheNumberOfItsLine() throws IOException {
        assertThat(open("a,b", ',', StandardCharsets.UTF_8).headerLine()).isEqualTo(1);
        CsvReader late = open("\n  \na,b\n1,2\n", ',', StandardCharsets.UTF_8);
        assertThat(late.next()).isNotNull();
        assertThat(late.headerLine()).isEqualTo(3);
    }

    @Test
    void aHeaderThatCannotBeDecodedIsShownAsFarAsItCanBe() {
        byte[] bytes = " \nZ\u00fcchter,b".getBytes(WINDOWS_1252);
        assertThat(catchThrowableOfType(InvalidDataException.class, () -> read(bytes, ',', StandardCharsets.UTF_8))
                        .problems())
                .containsExactly(new Problem(
                        "a.csv",
                        2,
                        "",
                        "Z\uFFFDchter,b",
                        "the line is not valid UTF-8; save the file as UTF-8, or declare its charset"));
        assertThat(catchThrowableOfType(InvalidDataException.class, () -> open("a,\"b", ',', StandardCharsets.UTF_8))
                        .problems())
                .extracting(Problem::value)
                .containsExactly("a,\"b");
    }

    @Test
    void aHeaderThatCannotBeReadIsTheFilesProblem() {
        assertThatThrownBy(() -> open("a,\"b\n", ',', StandardCharsets.UTF_8))
                .isInstanceOf(InvalidDataException.class)
                .hasMessageStartingWith("a.csv line 1: a double quote has no partner on its line");
        assertThatThrownBy(() -> new CsvReader(
                        "a.csv",
                        new ByteArrayInputStream("a,b".getBytes(StandardCharsets.UTF_16)),
                        CsvForm.standard(),
                        problems::add))
                .hasMessage("a.csv line 1: the file is UTF-16; save it as UTF-8");
        assertThatThrownBy(() -> new CsvReader(
                        "a.csv",
                        new ByteArrayInputStream("a,\u00fc".getBytes(StandardCharsets.ISO_8859_1)),
                        CsvForm.standard(),
                        problems::add))
                .hasMessage(
                        "a.csv line 1: the line is not valid UTF-8; save the file as UTF-8, or declare its charset");
    }

    @Test
    void aByteOrderMarkContradictsAnotherCharset() {
        assertThatThrownBy(() -> new CsvReader(
                        "a.csv",
                        new ByteArrayInputStream("\uFEFFa,b".getBytes(StandardCharsets.UTF_8)),
                        form(',', WINDOWS_1252),
                        problems::add))
                .isInstanceOf(InvalidDataException.class)
                .hasMessage("a.csv line 1: the file starts with a UTF-8 byte order mark, but windows-1252 is declared;"
                        + " declare UTF-8");
    }

    private List<CsvReader.Row> read(String text) throws IOException {
        return read(text.getBytes(StandardCharsets.UTF_8), ',', StandardCharsets.UTF_8);
    }

    private List<CsvReader.Row> read(byte[] bytes, char separator, Charset charset) throws IOException {
        return rows(new CsvReader("a.csv", new ByteArrayInputStream(bytes), form(separator, charset), problems::add));
    }

    private List<CsvReader.Row> rows(CsvReader csv) throws IOException {
        List<CsvReader.Row> all = new ArrayList<>();
        for (CsvReader.Row row = csv.next(); row != null; row = csv.next()) {
            all.add(row);
        }
        rows = csv.rows();
        return all;
    }

    private CsvReader open(String text, char separator, Charset charset) throws IOException {
        return new CsvReader(
                "a.csv",
                new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)),
                form(separator, charset),
                problems::add);
    }

    private static CsvForm form(char separator, Charset charset) {
        return CsvForm.builder().separator(separator).charset(charset).build();
    }

    @Test
    void aFileInUtf16IsNamed() {
        for (Charset utf16 : List.of(StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE)) {
            byte[] bytes = "\uFEFFa,b\n1,2\n".getBytes(utf16);
            assertThatThrownBy(() -> KillSheetReader.read(Source.of("a.csv", bytes), KillSheetFormat.standard()))
                    .isInstanceOf(InvalidDataException.class)
                    .hasMessage("a.csv line 1: the file is UTF-16; save it as UTF-8");
        }
    }
}
