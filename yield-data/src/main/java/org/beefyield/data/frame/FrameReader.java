package org.beefyield.data.frame;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvReader;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.GzipInput;
import org.beefyield.data.file.Reason;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * What of a file becomes a frame: all of it, or some columns, rows for which a condition holds, the first of them. The file
 * is read row by row, so that memory grows with what is kept. Immutable.
 */
public final class FrameReader {
    /** Rows that are looked at together. */
    private static final int TOGETHER = 2048;

    private final Source source;
    private final CsvForm form;
    private final List<Column> columns;
    private final String @Nullable [] selected;
    private final Predicate<Frame.Row> condition;
    private final int limit;

    private FrameReader(
            Source source,
            CsvForm form,
            List<Column> columns,
            String @Nullable [] selected,
            Predicate<Frame.Row> condition,
            int limit) {
        this.source = source;
        this.form = form;
        this.columns = columns;
        this.selected = selected;
        this.condition = condition;
        this.limit = limit;
    }

    static FrameReader of(Source source, CsvForm form, List<Column> columns) {
        Objects.requireNonNull(source, "source");
        Objects.requireNonNull(form, "form");
        Checks.noNullIn(columns, "columns");
        List<String> headers = columns.stream().map(Column::header).toList();
        for (int i = 0; i < headers.size(); i++) {
            if (headers.indexOf(headers.get(i)) < i) {
                throw new IllegalArgumentException("two columns are declared as \"" + headers.get(i) + "\"");
            }
        }
        return new FrameReader(source, form, List.copyOf(columns), null, row -> true, Integer.MAX_VALUE);
    }

    /**
     * Some of the columns alone. A condition may look at the others too.
     *
     * @param names names or headers, one or more, in the order wanted
     * @return a reader
     * @throws IllegalArgumentException if the file has no such column, then the nearest names are offered, or none or one twice
     */
    public FrameReader select(String... names) {
        Checks.noNullIn(names, "names");
        empty().select(names);
        return new FrameReader(source, form, columns, names.clone(), condition, limit);
    }

    /**
     * The rows alone for which a condition holds, and for which those asked for before do.
     *
     * @param newCondition condition; {@link Frame.Row#index()} is not that of the file. A comparison with a missing number
     *     doesn't hold
     * @return a reader
     */
    public FrameReader where(Predicate<Frame.Row> newCondition) {
        Objects.requireNonNull(newCondition, "newCondition");
        return new FrameReader(source, form, columns, selected, condition.and(newCondition), limit);
    }

    /**
     * The first of the rows alone. What stands behind them in the file is not looked at, nor is what is wrong there.
     *
     * @param rows most rows, 0 or more
     * @return a reader
     * @throws IllegalArgumentException if that is below 0
     */
    public FrameReader limit(int rows) {
        if (rows < 0) {
            throw new IllegalArgumentException(rows + " rows are none; ask for 0 or more");
        }
        return new FrameReader(source, form, columns, selected, condition, rows);
    }

    /**
     * Reads the frame.
     *
     * @return the frame
     * @throws InvalidDataException if anything is wrong in what is read; it names file, line, column and value of everything
     *     found
     * @throws IllegalArgumentException if no column is declared, or two of the same name
     */
    public Frame read() {
        List<Problem> problems = new ArrayList<>();
        List<Frame> kept = new ArrayList<>();
        String name = source.name();
        try (InputStream in = GzipInput.open(source)) {
            CsvReader csv = new CsvReader(name, in, form, problems::add);
            SmallCsv.checkHeader(name, csv, columns.stream().map(Column::header).toList(), "; ");
            int rows = 0;
            for (List<Object[]> some = some(csv, problems);
                    !some.isEmpty() && rows < limit;
                    some = some(csv, problems)) {
                // what is wrong in a row is no value for a condition
                Frame part = problems.isEmpty() ? part(some).head(limit - rows) : empty();
                rows += part.rows();
                kept.add(part);
            }
        } catch (IOException e) {
            problems.add(new Problem(name, 0, "", "", "the file can't be read: " + Reason.of(e)));
        }
        if (!problems.isEmpty()) {
            throw new InvalidDataException(problems);
        }
        return chosen(joined(kept));
    }

    private Frame empty() {
        return part(List.of());
    }

    private Frame part(List<Object[]> rows) {
        Frame all = Frame.of(
                columns,
                IntStream.range(0, columns.size())
                        .mapToObj(i -> columns.get(i).numeric()
                                ? rows.stream()
                                        .mapToDouble(row -> (Double) row[i])
                                        .toArray()
                                : rows.stream().map(row -> (String) row[i]).toArray(String[]::new))
                        .toList());
        return all.where(condition);
    }

    private Frame chosen(Frame frame) {
        return selected == null ? frame : frame.select(selected);
    }

    /** Two by two, so that no row is copied often. */
    private Frame joined(List<Frame> parts) {
        if (parts.isEmpty()) {
            return empty();
        }
        int half = parts.size() / 2;
        return half == 0
                ? parts.get(0)
                : joined(parts.subList(0, half)).plus(joined(parts.subList(half, parts.size())));
    }

    private List<Object[]> some(CsvReader csv, List<Problem> problems) throws IOException {
        List<Object[]> some = new ArrayList<>();
        CsvReader.Row row = csv.next();
        while (row != null) {
            CsvRow named = CsvRow.of(source.name(), csv.columns(), form, row, problems::add);
            Object[] values = new Object[columns.size()];
            for (int i = 0; i < values.length; i++) {
                values[i] = value(
                        named,
                        row.cells().get(csv.columns().position(columns.get(i).header())),
                        columns.get(i));
            }
            some.add(values);
            row = some.size() < TOGETHER ? csv.next() : null;
        }
        return some;
    }

    private static Object value(CsvRow row, String cell, Column column) {
        if (column.numeric()) {
            Double number = row.optionalNumber(column.header());
            if (number != null && Math.abs(number) > Frame.LARGEST) {
                row.refuse(
                        column.header(),
                        Excerpt.quote(row.text(column.header())) + " is beyond " + Frame.LARGEST + " in size");
            }
            return number == null ? Double.NaN : number;
        }
        if (column.type() == Column.Type.DATE && !cell.isEmpty() && !Column.isDay(cell)) {
            row.refuse(column.header(), Excerpt.quote(cell) + " is no day such as 2026-11-03");
        }
        return cell;
    }
}
