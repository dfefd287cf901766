package org.beefyield.data.killsheet;

import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import org.beefyield.data.Outputs;
import org.beefyield.data.Problem;
import org.beefyield.data.file.CsvLine;
import org.beefyield.data.file.OutputFiles;
import org.beefyield.data.file.StreamOutput;
import org.beefyield.data.file.TextOutput;

/**
 * Writes problems and notes as CSV, a row each, so that those of a long file needn't be held.
 *
 * <p>UTF-8, comma, LF; packed with gzip if the name of the file ends in {@code .gz}. Columns: {@code kind} ({@code refused}
 * or {@code note}), {@code file}, {@code line} (from 1; 0: the whole file), {@code column} (blank: the whole row),
 * {@code value}, {@code message}. The file appears, or is replaced, when {@link #finish()} is called; closing without it
 * leaves the place as it was.
 */
public final class ProblemWriter implements AutoCloseable {
    private final TextOutput file;

    /**
     * Starts a file.
     *
     * @param target where it will stand, in a folder that exists
     * @throws UncheckedIOException if it can't be written there
     */
    public ProblemWriter(Path target) {
        this(OutputFiles.alone(target));
    }

    /**
     * Starts a file that gets its place with the other outputs of a run.
     *
     * @param target where it will stand, in a folder that exists
     * @param outputs the outputs of the run
     * @throws UncheckedIOException if it can't be written there, or would replace an input or another output
     */
    public ProblemWriter(Path target, Outputs outputs) {
        this(outputs.unwrap(OutputFiles.class).started(target));
    }

    /**
     * Starts to write to a stream, which is flushed by {@link #finish()} and stays the caller's to close.
     *
     * @param stream the stream
     * @throws UncheckedIOException if it can't be written
     */
    public ProblemWriter(OutputStream stream) {
        this(new StreamOutput(stream));
    }

    private ProblemWriter(TextOutput file) {
        this.file = file;
        write(List.of("kind", "file", "line", "column", "value", "message"));
    }

    /**
     * Writes what is wrong with a row that is refused.
     *
     * @param problem the problem
     * @throws UncheckedIOException if writing fails
     */
    public void problem(Problem problem) {
        write("refused", problem);
    }

    /**
     * Writes what is worth knowing about a row that is used.
     *
     * @param note the note
     * @throws UncheckedIOException if writing fails
     */
    public void note(Problem note) {
        write("note", note);
    }

    private void write(String kind, Problem problem) {
        write(List.of(
                kind,
                problem.file(),
                Long.toString(problem.line()),
                problem.column(),
                problem.value(),
                problem.message()));
    }

    private void write(List<String> cells) {
        file.write(CsvLine.of(cells));
    }

    /**
     * Ends the file and puts it in its place; with other outputs it gets it when {@link Outputs#finish()} is called.
     *
     * @throws UncheckedIOException if that fails
     */
    public void finish() {
        file.finish();
    }

    /**
     * Ends writing; without {@link #finish()} nothing is left behind.
     *
     * @throws UncheckedIOException if that fails
     */
    @Override
    public void close() {
        file.close();
    }
}
