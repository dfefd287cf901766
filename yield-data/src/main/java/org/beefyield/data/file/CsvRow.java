package org.beefyield.data.file;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.Function;
import org.beefyield.data.Problem;
import org.jspecify.annotations.Nullable;

/** A row by column, with a problem for each cell that can't be used. */
public final class CsvRow {
    private final String file;
    private final long line;
    private final Map<String, String> cells;
    private final Consumer<Problem> problems;
    private boolean bad;

    /**
     * A row.
     *
     * @param file name of the file
     * @param line number of its line, counted from 1
     * @param cells its cells by column
     * @param problems takes a problem for each cell that is refused
     */
    public CsvRow(String file, long line, Map<String, String> cells, Consumer<Problem> problems) {
        this.file = file;
        this.line = line;
        this.cells = cells;
        this.problems = problems;
    }

    /**
     * A row as it was read.
     *
     * @param file name of the file
     * @param header names of the columns
     * @param row the row, with a cell for each column
     * @param problems takes a problem for each cell that is refused
     * @return the row
     */
    public static CsvRow of(String file, List<String> header, CsvReader.Row row, Consumer<Problem> problems) {
        Map<String, String> cells = new LinkedHashMap<>();
        for (int i = 0; i < header.size(); i++) {
            cells.put(header.get(i), row.cells().get(i));
        }
        return new CsvRow(file, row.line(), cells, problems);
    }

    /**
     * Its line.
     *
     * @return number counted from 1
     */
    public long line() {
        return line;
    }

    /**
     * Whether a cell of it was refused.
     *
     * @return true if one was
     */
    public boolean isBad() {
        return bad;
    }

    /**
     * Refuses a cell.
     *
     * @param column its column
     * @param message what is wrong and what would be valid
     */
    public void refuse(String column, String message) {
        bad = true;
        problems.accept(new Problem(file, line, column, text(column), message));
    }

    /**
     * A cell as text.
     *
     * @param column its column
     * @return the text without blanks at its ends, empty if there is no such column
     */
    public String text(String column) {
        return cells.getOrDefault(column, "").strip();
    }

    /**
     * A cell as a number.
     *
     * @param column its column
     * @return the number, NaN if the cell is refused
     */
    public double number(String column) {
        return parsed(column, NumberForm.POINT_OR_EXPONENT::parse, Double.NaN);
    }

    /**
     * A cell as a number that may be missing.
     *
     * @param column its column
     * @return the number, NaN if the cell is refused, null if it is empty
     */
    public @Nullable Double optionalNumber(String column) {
        return text(column).isEmpty() ? null : Double.valueOf(number(column));
    }

    /**
     * What a cell says that may be empty.
     *
     * @param column its column
     * @param parser reads it, or throws IllegalArgumentException with what is wrong
     * @param <T> what it says
     * @return that, or null if the cell is empty or refused
     */
    public <T> @Nullable T optional(String column, Function<String, T> parser) {
        return text(column).isEmpty() ? null : parsedOrNull(column, parser);
    }

    /**
     * What a cell says.
     *
     * @param column its column
     * @param parser reads it, or throws IllegalArgumentException with what is wrong
     * @param <T> what it says
     * @return that, or null if the cell is refused
     */
    public <T> @Nullable T parsedOrNull(String column, Function<String, T> parser) {
        try {
            return parser.apply(text(column));
        } catch (IllegalArgumentException e) {
            refuse(column, String.valueOf(e.getMessage()));
            return null;
        }
    }

    /**
     * What a cell says.
     *
     * @param column its column
     * @param parser reads it, or throws IllegalArgumentException with what is wrong
     * @param otherwise what a refused cell stands for, so that reading goes on
     * @param <T> what it says
     * @return that
     */
    public <T> T parsed(String column, Function<String, T> parser, T otherwise) {
        T value = parsedOrNull(column, parser);
        return value == null ? otherwise : value;
    }

    /**
     * True for one word, false for another.
     *
     * @param word the word
     * @param yes the one
     * @param no the other
     * @return whether it is the one
     * @throws IllegalArgumentException if it is neither
     */
    public static boolean either(String word, String yes, String no) {
        if (word.equals(yes) || word.equals(no)) {
            return word.equals(yes);
        }
        throw new IllegalArgumentException("\"" + word + "\" is none of " + yes + " " + no);
    }
}
