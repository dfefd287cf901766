package org.beefyield.data.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.Predicate;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.jspecify.annotations.Nullable;

/**
 * Reads CSV (RFC 4180) with a header, one physical line at a time, so that a stray quote or a byte in another encoding
 * spoils its own row and no other. Its price: a quoted cell can't hold a line break, and a line says so.
 *
 * <p>Lines end with LF or CRLF; a missing last line end, a byte order mark and blank lines are accepted silently. Every
 * other line after the header is a row: either {@link #next()} returns it, with as many cells as the header has, or the
 * consumer of problems gets exactly one problem for it. Memory doesn't grow with the number of rows. The stream stays
 * the caller's to close.
 */
public final class CsvReader {
    /** Longest line that is read, in bytes. */
    static final int LONGEST_LINE = 1 << 20;

    /** Most columns that a header may have. */
    public static final int MOST_COLUMNS = 1000;

    /** Characters of a column's name. */
    static final int LONGEST_COLUMN_NAME = 400;

    /** Where a line without an end, such as a device gives, ends the reading; bytes. */
    private static final int LONGEST_SKIPPED = 64 << 20;

    private static final int SHOWN = 200;
    private static final char DELETE = 0x7F;

    /**
     * A row.
     *
     * @param line number of its line, counted from 1
     * @param cells its cells as they stand there, quotes resolved
     */
    public record Row(long line, List<String> cells) {}

    /**
     * What the files of a table may do because spreadsheets do it: a header and rows may have empty cells behind their
     * last, and rows may end before cells that are empty.
     *
     * @param mayEndBefore whether a row may end before the column of that name
     * @param skipsInitialSpace whether blanks before a cell don't count
     */
    public record TableCells(Predicate<String> mayEndBefore, boolean skipsInitialSpace) {}

    private final String file;
    private final InputStream in;
    private final @Nullable TableCells table;
    private final char separator;
    private final Charset charset;
    private final boolean formulaCells;
    private final boolean skipsBlankRows;
    private final CharsetDecoder decoder;
    private final Consumer<Problem> problems;
    private final CsvHeader header;
    private final long headerLine;

    private final byte[] buffer = new byte[1 << 16];
    private int bufferAt;
    private int bufferEnd;

    private byte[] lineBytes = new byte[256];
    private int lineLength;
    private boolean lineTooLong;
    private long line;
    private long rows;

    /**
     * Starts to read: takes the header.
     *
     * @param file name of the file, for problems
     * @param in its bytes
     * @param form how it is written
     * @param problems takes one problem for each bad row
     * @throws IOException if the stream fails
     * @throws InvalidDataException if the file is empty or its header can't be used
     */
    public CsvReader(String file, InputStream in, CsvForm form, Consumer<Problem> problems) throws IOException {
        this(file, in, form, null, problems);
    }

    /**
     * Starts to read a file of a table: takes the header.
     *
     * @param file name of the file, for problems
     * @param in its bytes
     * @param form how it is written
     * @param table what its cells may do
     * @param problems takes one problem for each bad row
     * @throws IOException if the stream fails
     * @throws InvalidDataException if the file is empty or its header can't be used
     */
    public CsvReader(String file, InputStream in, CsvForm form, @Nullable TableCells table, Consumer<Problem> problems)
            throws IOException {
        this.file = file;
        this.table = table;
        this.in = in;
        this.separator = form.separator();
        this.charset = form.charset();
        this.formulaCells = form.hasFormulaCells();
        this.skipsBlankRows = form.hasBlankRows();
        this.decoder = charset.newDecoder();
        this.problems = problems;
        List<String> names = readHeader();
        this.headerLine = line;
        this.header = new CsvHeader(file, line, names, form);
    }

    /**
     * Names of the columns.
     *
     * @return blanks around them removed; none is empty and no two are equal
     */
    public List<String> header() {
        return header.names();
    }

    /**
     * The columns under the file's names and ours.
     *
     * @return the header
     */
    public CsvHeader columns() {
        return header;
    }

    /**
     * The header's line: blank ones may stand above it.
     *
     * @return number counted from 1
     */
    public long headerLine() {
        return headerLine;
    }

    /**
     * How many rows have been read so far.
     *
     * @return bad ones included
     */
    public long rows() {
        return rows;
    }

    /**
     * The next row that is not bad.
     *
     * @return the row, or null at the end of the file
     * @throws IOException if the stream fails
     */
    public @Nullable Row next() throws IOException {
        while (readLine()) {
            String text = null;
            try {
                text = text();
                if (isBlank(text)) {
                    continue;
                }
                if (skipsBlankRows && holdsNothing(text)) {
                    continue;
                }
                rows++;
                List<String> cells = cells(text);
                fit(cells);
                checkCount(cells);
                return new Row(line, cells);
            } catch (Fault fault) {
                if (text == null) {
                    rows++;
                }
                problems.accept(problem(text == null ? roughText() : text, fault));
            }
        }
        return null;
    }

    private List<String> readHeader() throws IOException {
        String text = "";
        try {
            while (isBlank(text)) {
                if (!readLine()) {
                    throw new InvalidDataException(List.of(new Problem(
                            file, 0, "", "", "the file is empty; a header with the names of the columns is needed")));
                }
                // what a problem shows is this line, not a blank one before it
                text = "";
                if (line == 1) {
                    dropByteOrderMark();
                }
                text = text();
            }
            List<String> names =
                    new ArrayList<>(cells(text).stream().map(String::strip).toList());
            checkSeparator(names);
            while (table != null
                    && names.size() > 1
                    && names.get(names.size() - 1).isEmpty()) {
                names.remove(names.size() - 1);
            }
            if (names.size() > MOST_COLUMNS) {
                throw new Fault("the header has " + names.size() + " columns; at most " + MOST_COLUMNS + " are read");
            }
            checkNames(names);
            return names;
        } catch (Fault fault) {
            throw new InvalidDataException(List.of(problem(text.isEmpty() ? roughText() : text, fault)), fault);
        }
    }

    private void dropByteOrderMark() throws Fault {
        if (lineLength < 3
                || lineBytes[0] != (byte) 0xEF
                || lineBytes[1] != (byte) 0xBB
                || lineBytes[2] != (byte) 0xBF) {
            return;
        }
        if (!charset.equals(StandardCharsets.UTF_8)) {
            throw new Fault(
                    "the file starts with a UTF-8 byte order mark, but " + charset + " is declared; declare UTF-8");
        }
        lineLength -= 3;
        System.arraycopy(lineBytes, 3, lineBytes, 0, lineLength);
    }

    private void checkSeparator(List<String> cells) throws Fault {
        if (cells.size() > 1) {
            return;
        }
        for (char other : new char[] {';', '\t', '|', ','}) {
            // a separator within a cell stands there in quotes
            if (other != separator && cells.get(0).indexOf(other) >= 0) {
                throw new Fault("the line is a single cell that holds " + name(other)
                        + ", but the declared separator is " + name(separator)
                        + (table == null
                                ? "; declare the one that the whole file uses"
                                : "; declare the one that the whole file uses as \"delimiter\" under \"dialect\" of"
                                        + " the resource in datapackage.json, or save the file with "
                                        + name(separator)));
            }
        }
    }

    private void checkNames(List<String> names) {
        List<Problem> found = new ArrayList<>();
        Map<String, Integer> seen = new HashMap<>();
        for (int k = 0; k < names.size(); k++) {
            String name = names.get(k);
            Integer first = seen.putIfAbsent(name, k + 1);
            if (name.length() > LONGEST_COLUMN_NAME) {
                found.add(new Problem(
                        file,
                        line,
                        "",
                        Excerpt.clip(name, SHOWN),
                        "the name of column " + (k + 1) + " has " + name.length() + " characters; at most "
                                + LONGEST_COLUMN_NAME + " are read"));
            } else if (name.isEmpty()) {
                found.add(new Problem(
                        file,
                        line,
                        "",
                        name,
                        "column " + (k + 1)
                                + " has no name; every column needs one of its own, in the first line of the file"));
            } else if (first != null) {
                found.add(new Problem(
                        file,
                        line,
                        name,
                        name,
                        "columns " + first + " and " + (k + 1) + " are both called " + Excerpt.quote(name)
                                + "; every column needs a name of its own"));
            }
        }
        if (!found.isEmpty()) {
            throw new InvalidDataException(found);
        }
    }

    /** Takes empty cells off the end of a row, or adds those that it may end before, up to the header's number. */
    private void fit(List<String> cells) {
        if (table == null) {
            return;
        }
        while (cells.size() > header().size() && cells.get(cells.size() - 1).isBlank()) {
            cells.remove(cells.size() - 1);
        }
        boolean mayEnd = cells.size() > 1
                && header().subList(Math.min(cells.size(), header().size()), header().size()).stream()
                        .allMatch(table.mayEndBefore());
        while (mayEnd && cells.size() < header().size()) {
            cells.add("");
        }
    }

    private void checkCount(List<String> cells) throws Fault {
        int count = cells.size();
        if (count == header().size()) {
            return;
        }
        checkSeparator(cells);
        throw new Fault(
                "the row has " + count + (count == 1 ? " cell" : " cells") + " but the header has " + header().size()
                        + (count > header().size()
                                ? "; a text or number that holds " + name(separator) + " belongs in double quotes"
                                : "; an empty cell keeps its " + name(separator)));
    }

    private static String name(char separator) {
        return separator == '\t' ? "tab" : "\"" + separator + "\"";
    }

    // a row of separators alone is not blank: its cells are, and the caller says which of them must not be
    private boolean isBlank(String text) {
        return text.isBlank() && text.indexOf(separator) < 0;
    }

    private boolean holdsNothing(String text) {
        return text.chars().allMatch(c -> c == separator || Character.isWhitespace(c));
    }

    private Problem problem(String text, Fault fault) {
        return new Problem(file, line, "", Excerpt.clip(text, SHOWN), fault.message);
    }

    private String text() throws Fault {
        if (lineTooLong) {
            throw new Fault("the line is longer than " + LONGEST_LINE + " bytes");
        }
        try {
            return decoder.decode(ByteBuffer.wrap(lineBytes, 0, lineLength)).toString();
        } catch (CharacterCodingException e) {
            throw new Fault(
                    line == 1 && isUtf16()
                            ? "the file is UTF-16; save it as UTF-8"
                            : "the line is not valid " + charset
                                    + (table == null
                                            ? "; save the file as UTF-8, or declare its charset"
                                            : "; save the file as UTF-8, or declare its \"encoding\" in"
                                                    + " datapackage.json"));
        }
    }

    /** A file in that character set begins with a byte order mark of its own. */
    private boolean isUtf16() {
        return lineLength >= 2
                && ((lineBytes[0] == (byte) 0xFF && lineBytes[1] == (byte) 0xFE)
                        || (lineBytes[0] == (byte) 0xFE && lineBytes[1] == (byte) 0xFF));
    }

    /** The beginning of a line that could not be decoded, with a replacement character for what is wrong. */
    private String roughText() {
        return new String(lineBytes, 0, Math.min(lineLength, 4 * SHOWN), charset);
    }

    private List<String> cells(String text) throws Fault {
        checkCharacters(text);
        List<String> cells = new ArrayList<>();
        int at = 0;
        while (true) {
            int end;
            while (table != null && table.skipsInitialSpace() && at < text.length() && text.charAt(at) == ' ') {
                at++;
            }
            if (at < text.length() && text.charAt(at) == '"') {
                end = closingQuote(text, at + 1) + 1;
                if (end < text.length() && text.charAt(end) != separator) {
                    throw new Fault("text follows the closing double quote of a cell; " + name(separator)
                            + " must follow it, and a double quote inside a quoted cell is written twice");
                }
                cells.add(plain(text.substring(at + 1, end - 1).replace("\"\"", "\"")));
            } else if (formulaCells && text.startsWith("=\"", at)) {
                end = closingQuote(text, at + 2) + 1;
                if (end < text.length() && text.charAt(end) != separator) {
                    throw new Fault("text follows the formula of a cell; " + name(separator) + " must follow it");
                }
                cells.add(text.substring(at + 2, end - 1).replace("\"\"", "\""));
            } else {
                int next = text.indexOf(separator, at);
                end = next < 0 ? text.length() : next;
                String cell = text.substring(at, end);
                if (cell.indexOf('"') >= 0) {
                    throw new Fault("a double quote stands inside the cell " + Excerpt.clip(cell, SHOWN)
                            + "; such a cell needs double quotes around it, and its own written twice");
                }
                cells.add(cell);
            }
            if (end == text.length()) {
                return cells;
            }
            at = end + 1;
        }
    }

    /** The text of a formula that is nothing else, where that is declared. */
    private String plain(String cell) {
        boolean formula = formulaCells && cell.length() > 2 && cell.startsWith("=\"") && cell.endsWith("\"");
        return formula ? cell.substring(2, cell.length() - 1).replace("\"\"", "\"") : cell;
    }

    /** Where the quote stands that closes a cell; those written twice are text. */
    private static int closingQuote(String text, int from) throws Fault {
        int at = text.indexOf('"', from);
        while (at >= 0 && at + 1 < text.length() && text.charAt(at + 1) == '"') {
            at = text.indexOf('"', at + 2);
        }
        if (at < 0) {
            throw new Fault(
                    "a double quote has no partner on its line; a line break inside a cell is not supported, and"
                            + " a double quote inside a quoted cell is written twice");
        }
        return at;
    }

    private void checkCharacters(String text) throws Fault {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '\r') {
                throw new Fault("a carriage return stands inside the line; lines end with LF or CRLF");
            }
            if (((c < ' ' && c != '\t') || c == DELETE) && c != separator) {
                throw new Fault("the control character U+" + String.format("%04X", (int) c)
                        + " stands inside the line; only text and tabs may");
            }
        }
    }

    /** Takes the next physical line into {@link #lineBytes}, without its end; false if there is none. */
    private boolean readLine() throws IOException {
        lineLength = 0;
        lineTooLong = false;
        long skipped = 0;
        boolean any = false;
        while (true) {
            if (bufferAt == bufferEnd) {
                bufferAt = 0;
                bufferEnd = Math.max(0, in.read(buffer));
                if (bufferEnd == 0) {
                    break;
                }
            }
            any = true;
            int start = bufferAt;
            while (bufferAt < bufferEnd && buffer[bufferAt] != '\n') {
                bufferAt++;
            }
            append(start, bufferAt - start);
            skipped += bufferAt - start;
            if (skipped > LONGEST_SKIPPED) {
                throw new IOException("line " + (line + 1) + " is longer than " + LONGEST_SKIPPED + " bytes");
            }
            if (bufferAt < bufferEnd) {
                bufferAt++;
                break;
            }
        }
        if (lineLength > 0 && lineBytes[lineLength - 1] == '\r') {
            lineLength--;
        }
        if (any) {
            line++;
        }
        return any;
    }

    private void append(int start, int count) {
        if (lineTooLong || lineLength + count > LONGEST_LINE) {
            lineTooLong = true;
            return;
        }
        if (lineLength + count > lineBytes.length) {
            lineBytes = Arrays.copyOf(lineBytes, Math.max(lineLength + count, 2 * lineBytes.length));
        }
        System.arraycopy(buffer, start, lineBytes, lineLength, count);
        lineLength += count;
    }

    /** What is wrong with the line at hand; never leaves this class. */
    private static final class Fault extends Exception {
        private static final long serialVersionUID = 1;

        private final String message;

        Fault(String message) {
            super(message, null, false, false);
            this.message = message;
        }
    }
}
