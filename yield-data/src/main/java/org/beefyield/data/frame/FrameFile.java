package org.beefyield.data.frame;

import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Outputs;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvLine;
import org.beefyield.data.file.CsvReader;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.OutputFiles;
import org.beefyield.data.file.StreamOutput;
import org.beefyield.data.file.TextOutput;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;

/**
 * Frames as CSV, written with commas, LF, decimal points and in UTF-8: a header of names with their units such as
 * {@code "cold weight, kg"}, and a row for each row. Numbers are written in full, so that what is read is what was written; what is missing is blank.
 *
 * <p>Beside {@code lots.csv} stands {@code lots.datapackage.json}, the descriptor of a Tabular Data Package: for each column
 * its type ({@code string}, {@code number}, {@code date}), its unit in words and, under {@code beefyield}, its total and which
 * grades stand in it. Whoever reads by it gets an id of {@code 007} as a text and a kill date as a day.
 *
 * <p>Texts are written as they are, as in every file of this library. A spreadsheet may take one that starts with
 * {@code = + - @} for a formula: import the columns as text there if their content is not your own.
 */
public final class FrameFile {
    private static final char DELETE = 0x7F;

    private FrameFile() {}

    /**
     * Writes a frame and its descriptor. The two appear, or are replaced, whole or not at all.
     *
     * @param frame the frame
     * @param target where it will stand, in a folder that exists; packed with gzip if the name ends in {@code .gz}
     * @throws IllegalArgumentException if a text holds a line end or another control character, or there are more than
     *     1000 columns, or the only one has ; or | in its name: what could not be read back isn't written
     * @throws UncheckedIOException if it can't be written there
     */
    public static void write(Frame frame, Path target) {
        try (OutputFiles outputs = new OutputFiles()) {
            write(frame, target, outputs);
            outputs.finish();
        }
    }

    /**
     * Writes a frame and its descriptor as files of a run: they appear with its other outputs.
     *
     * @param frame the frame
     * @param target where it will stand, in a folder that exists; packed with gzip if the name ends in {@code .gz}
     * @param outputs the run's outputs
     * @throws IllegalArgumentException as {@link #write(Frame, Path)}
     * @throws UncheckedIOException if it can't be written there, or one of the two would replace an input or another output
     */
    public static void write(Frame frame, Path target, Outputs outputs) {
        write(frame, target, outputs.unwrap(OutputFiles.class));
    }

    private static void write(Frame frame, Path target, OutputFiles outputs) {
        Objects.requireNonNull(target, "target");
        List<List<String>> columns = columns(frame);
        try (TextOutput file = outputs.started(target)) {
            write(frame, columns, file);
        }
        outputs.write(
                "",
                FrameDescriptor.beside(target),
                FrameDescriptor.text(frame.columns(), target.getFileName().toString()));
    }

    /**
     * Writes a frame to a stream, without a descriptor. The stream is flushed and stays the caller's to close.
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
     * What may be read of a file that was written here, with the descriptor beside it.
     *
     * @param file the file
     * @return a reader of all of it
     * @throws InvalidDataException if there is no descriptor beside it, or it declares something else than a frame holds
     */
    public static FrameReader reader(Path file) {
        Objects.requireNonNull(file, "file");
        return reader(
                Source.of(file), CsvForm.standard(), FrameDescriptor.columns(Source.of(FrameDescriptor.beside(file))));
    }

    /**
     * What may be read of a file.
     *
     * @param source the file
     * @param form how it is written
     * @param columns its columns, in the order in which the frame will have them; in the file they may stand in any
     * @return a reader of all of it
     * @throws IllegalArgumentException if two columns are the same
     */
    public static FrameReader reader(Source source, CsvForm form, List<Column> columns) {
        return FrameReader.of(source, form, columns);
    }

    /**
     * Reads a frame that was written here, by the descriptor beside it: it is equal to the one that was written.
     *
     * @param file the file
     * @return the frame
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found
     */
    public static Frame read(Path file) {
        return reader(file).read();
    }

    /**
     * Reads a frame from a file of the standard form, which is the one that is written, without a descriptor.
     *
     * @param file the file
     * @param columns its columns, in the order in which the frame will have them; in the file they may stand in any
     * @return the frame
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found
     * @throws IllegalArgumentException if no column is declared, or two of the same name
     */
    public static Frame read(Path file, List<Column> columns) {
        return reader(Source.of(file), CsvForm.standard(), columns).read();
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
        return reader(source, form, columns).read();
    }
}
