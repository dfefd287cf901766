package org.beefyield.data;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** A row by column, with a problem for each cell that can't be used. */
final class CsvRow {
    private final String file;
    private final long line;
    private final Map<String, String> cells;
    private final Consumer<Problem> problems;
    private boolean bad;

    CsvRow(String file, long line, Map<String, String> cells, Consumer<Problem> problems) {
        this.file = file;
        this.line = line;
        this.cells = cells;
        this.problems = problems;
    }

    static CsvRow of(String file, List<String> header, CsvReader.Row row, Consumer<Problem> problems) {
        Map<String, String> cells = new LinkedHashMap<>();
        for (int i = 0; i < header.size(); i++) {
            cells.put(header.get(i), row.cells().get(i));
        }
        return new CsvRow(file, row.line(), cells, problems);
    }

    long line() {
        return line;
    }

    /** Whether a cell of it was refused. */
    boolean isBad() {
        return bad;
    }

    void refuse(String column, String message) {
        bad = true;
        problems.accept(new Problem(file, line, column, text(column), message));
    }

    /** The cell without blanks at its ends, empty if there is no such column. */
    String text(String column) {
        return cells.getOrDefault(column, "").strip();
    }

    double number(String column) {
        return parsed(column, NumberForm.POINT_OR_EXPONENT::parse, Double.NaN);
    }

    @Nullable
    Double optionalNumber(String column) {
        return text(column).isEmpty() ? null : Double.valueOf(number(column));
    }

    /** What the cell says, or null if it is empty or refused. */
    <T> @Nullable T optional(String column, Function<String, T> parser) {
        return text(column).isEmpty() ? null : parsedOrNull(column, parser);
    }

    <T> @Nullable T parsedOrNull(String column, Function<String, T> parser) {
        try {
            return parser.apply(text(column));
        } catch (IllegalArgumentException e) {
            refuse(column, String.valueOf(e.getMessage()));
            return null;
        }
    }

    <T> T parsed(String column, Function<String, T> parser, T otherwise) {
        T value = parsedOrNull(column, parser);
        return value == null ? otherwise : value;
    }

    /** True for one word, false for another. */
    static boolean either(String word, String yes, String no) {
        if (word.equals(yes) || word.equals(no)) {
            return word.equals(yes);
        }
        throw new IllegalArgumentException("\"" + word + "\" is none of " + yes + " " + no);
    }
}
