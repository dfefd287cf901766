package org.beefyield.data.file;

import java.time.LocalDate;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Problem;
import org.jspecify.annotations.Nullable;

/** A row by column, with a problem for each cell that can't be used. */
public final class CsvRow {
    private final String file;
    private final long line;
    /** By column, empty if there is none. */
    private final UnaryOperator<String> cells;

    private final CsvForm form;
    private final NumberForm numbers;
    private final UnaryOperator<String> names;
    private final Consumer<Problem> problems;
    private boolean bad;

    /**
     * A row of a table.
     *
     * @param file name of the file
     * @param line number of its line, counted from 1
     * @param cells its cells by column
     * @param problems takes a problem for each cell that is refused
     */
    public CsvRow(String file, long line, Map<String, String> cells, Consumer<Problem> problems) {
        this(
                file,
                line,
                column -> cells.getOrDefault(column, ""),
                CsvForm.standard(),
                NumberForm.TABLE,
                column -> column,
                problems);
    }

    private CsvRow(
            String file,
            long line,
            UnaryOperator<String> cells,
            CsvForm form,
            NumberForm numbers,
            UnaryOperator<String> names,
            Consumer<Problem> problems) {
        this.file = file;
        this.line = line;
        this.cells = cells;
        this.form = form;
        this.numbers = numbers;
        this.names = names;
        this.problems = problems;
    }

    /**
     * A row as it was read.
     *
     * @param file name of the file
     * @param header its columns
     * @param form how the file is written
     * @param row the row, with a cell for each column
     * @param problems takes a problem for each cell that is refused
     * @return the row, by our names of the columns
     */
    public static CsvRow of(
            String file, CsvHeader header, CsvForm form, CsvReader.Row row, Consumer<Problem> problems) {
        UnaryOperator<String> cells = column -> {
            int at = header.position(column);
            return at < 0 ? "" : row.cells().get(at);
        };
        return new CsvRow(file, row.line(), cells, form, NumberForm.full(form), header::name, problems);
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
        problems.accept(problem(column, message));
    }

    /**
     * What is wrong with, or worth knowing about, a cell.
     *
     * @param column its column
     * @param message a clause
     * @return a problem that names it as the file does
     */
    public Problem problem(String column, String message) {
        return new Problem(file, line, names.apply(column), text(column), message);
    }

    /**
     * What the file calls a column.
     *
     * @param column our name
     * @return its name there
     */
    public String name(String column) {
        return names.apply(column);
    }

    /**
     * A cell as text.
     *
     * @param column its column
     * @return the text without blanks at its ends, empty if there is no such column
     */
    public String text(String column) {
        return cells.apply(column).strip();
    }

    /**
     * A cell as a number.
     *
     * @param column its column
     * @return the number, NaN if the cell is refused
     */
    public double number(String column) {
        return number(column, text(column));
    }

    private double number(String column, String text) {
        Double number = parsedOrNull(column, text, cell -> numbers.parse(cell, form.units()));
        return number == null ? Double.NaN : number;
    }

    /**
     * A cell as a number that may be missing.
     *
     * @param column its column
     * @return the number, NaN if the cell is refused, null if it is empty
     */
    public @Nullable Double optionalNumber(String column) {
        String text = text(column);
        return text.isEmpty() ? null : Double.valueOf(number(column, text));
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
        String text = text(column);
        return text.isEmpty() ? null : parsedOrNull(column, text, parser);
    }

    /**
     * A day, however the file writes it: two ways of writing one would be two days.
     *
     * @param column its column
     * @return year-month-day, empty if the cell is blank or refused
     */
    public String day(String column) {
        LocalDate day = optional(column, text -> DateCell.parse(text, form.dates()));
        return day == null ? "" : day.toString();
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
        return parsedOrNull(column, text(column), parser);
    }

    private <T> @Nullable T parsedOrNull(String column, String text, Function<String, T> parser) {
        try {
            return parser.apply(text);
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
     * A cell that says yes or no, in the words of the file.
     *
     * @param column its column
     * @return what it says, null if it is empty or refused
     */
    public @Nullable Boolean yesNo(String column) {
        return optional(
                column,
                word -> word.equalsIgnoreCase(form.yes())
                        || (!word.equalsIgnoreCase(form.no()) && either(word, form.yes(), form.no())));
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
