package org.beefyield.data.frame;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvLine;
import org.beefyield.data.file.CsvReader;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.GzipInput;
import org.beefyield.data.file.OutputFiles;
import org.beefyield.data.file.Reason;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.data.file.StreamOutput;
import org.beefyield.data.file.TextOutput;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;

/**
 * Frames as CSV, written with commas, LF, decimal points and in UTF-8: a header of names with their units such as
 * {@code "cold weight, kg"}, and a row for each row. Numbers are written in full, so that what is read is what was written; what is missing is blank.
 *
 * <p>Texts are written as they are, as in every file of this library. A spreadsheet may take one that starts with
 * {@code = + - @} for a formula: import the columns as text there if their content is not your own.
 */
public final class FrameFile {
    private static final char DELETE = 0x7F;

    private FrameFile() {}

    /**
     * Writes a frame. The file appears, or is replaced, whole or not at all.
     *
     * @param frame the frame
     * @param target where it will stand, in a folder that exists
     * @throws IllegalArgumentException if a text holds a line end or another control character, or there are more than
     *     1000 columns, or the only one has ; or | in its name: what could not be read back isn't written
     * @throws UncheckedIOException if it can't be written there
     */
    public static void write(Frame frame, Path target) {
        List<List<String>> columns = columns(frame);
        try (TextOutput file = OutputFiles.alone(target)) {
            write(frame, columns, file);
        }
    }

    /**
     * Writes a frame to a stream, which is flushed and stays the caller's to close.
     *
     * @param frame the frame
     * @param stream the stream
     * @throws IllegalArgumentException as {@link #write(Frame, Path)}
     * @throws UncheckedIOException if it can't be written
     */
    public static void write(Frame frame, OutputStream stream) {
        write(frame, columns(frame), new StreamOutput(stream));
    }

    private static List<List<String>> columns(Frame frame) {
        if (frame.columns().size() > CsvReader.MOST_COLUMNS) {
            throw new IllegalArgumentException(
                    frame.columns().size() + " columns are more than the " + CsvReader.MOST_COLUMNS + " of a file");
        }
        String only = frame.columns().get(0).header();
        if (frame.columns().size() == 1 && (only.indexOf(';') >= 0 || only.indexOf('|') >= 0)) {
            throw new IllegalArgumentException(
                    "a file of the one column \"" + only + "\" could not be told from one with another separator");
        }
        return frame.columns().stream().map(column -> cells(frame, column)).toList();
    }

    private static void write(Frame frame, List<List<String>> columns, TextOutput file) {
        file.write(CsvLine.of(frame.columns().stream().map(Column::header).toList()));
        for (int row = 0; row < frame.rows(); row++) {
            int at = row;
            List<String> cells = columns.stream().map(column -> column.get(at)).toList();
            // a blank line is no row to a reader
            boolean blank = cells.size() == 1 && cells.get(0).isBlank();
            file.write(blank ? '"' + cells.get(0) + "\"\n" : CsvLine.of(cells));
        }
        file.finish();
    }

    private static List<String> cells(Frame frame, Column column) {
        if (column.numeric()) {
            return Arrays.stream(frame.numbers(column.name()))
                    .mapToObj(number -> Double.isNaN(number) ? "" : Double.toString(number))
                    .toList();
        }
        List<String> texts = frame.texts(column.name());
        for (int row = 0; row < texts.size(); row++) {
            if (texts.get(row).chars().anyMatch(c -> (c < ' ' && c != '\t') || c == DELETE)) {
                throw new IllegalArgumentException("row " + row + ", column \"" + column + "\": "
                        + Excerpt.quote(texts.get(row).replaceAll("\\p{Cntrl}", "?"))
                        + " holds a line end or another control character, which no row of a file can");
            }
        }
        return texts;
    }

    /**
     * Reads a frame from a file of the standard form, which is the one that is written.
     *
     * @param file the file
     * @param columns its columns, in the order in which the frame will have them; in the file they may stand in any
     * @return the frame
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found
     * @throws IllegalArgumentException if no column is declared, or two of the same name
     */
    public static Frame read(Path file, List<Column> columns) {
        return read(Source.of(file), CsvForm.standard(), columns);
    }

    /**
     * Reads a frame.
     *
     * @param source the file
     * @param form how it is written
     * @param columns its columns, in the order in which the frame will have them; in the file they may stand in any
     * @return the frame
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found
     * @throws IllegalArgumentException if no column is declared, or two of the same name
     */
    public static Frame read(Source source, CsvForm form, List<Column> columns) {
        List<Problem> problems = new ArrayList<>();
        String name = source.name();
        List<String> headers = columns.stream().map(Column::header).toList();
        List<List<String>> rows = new ArrayList<>();
        Map<String, Object> read = new LinkedHashMap<>();
        try (InputStream in = GzipInput.open(source)) {
            CsvReader csv = new CsvReader(name, in, form, problems::add);
            SmallCsv.checkHeader(name, csv, headers, "; ");
            List<double[]> numbers = new ArrayList<>();
            for (CsvReader.Row row = csv.next(); row != null; row = csv.next()) {
                List<String> cells = new ArrayList<>();
                double[] figures = new double[columns.size()];
                CsvRow cellsOf = CsvRow.of(name, csv.columns(), form, row, problems::add);
                for (int i = 0; i < columns.size(); i++) {
                    String header = headers.get(i);
                    cells.add(row.cells().get(csv.columns().position(header)));
                    figures[i] = columns.get(i).numeric() ? number(cellsOf, header) : 0;
                }
                rows.add(cells);
                numbers.add(figures);
            }
            for (int i = 0; i < columns.size(); i++) {
                int at = i;
                Object column = columns.get(i).numeric()
                        ? numbers.stream().mapToDouble(figures -> figures[at]).toArray()
                        : rows.stream().map(cells -> cells.get(at)).toArray(String[]::new);
                if (read.put(headers.get(i), column) != null) {
                    throw new IllegalArgumentException("two columns are declared as \"" + headers.get(i) + "\"");
                }
            }
        } catch (IOException e) {
            problems.add(new Problem(name, 0, "", "", "the file can't be read: " + Reason.of(e)));
        }
        if (!problems.isEmpty()) {
            throw new InvalidDataException(problems);
        }
        return Frame.of(read);
    }

    private static double number(CsvRow row, String column) {
        Double number = row.optionalNumber(column);
        if (number != null && Math.abs(number) > Frame.LARGEST) {
            row.refuse(column, Excerpt.quote(row.text(column)) + " is beyond " + Frame.LARGEST + " in size");
        }
        return number == null ? Double.NaN : number;
    }
}
