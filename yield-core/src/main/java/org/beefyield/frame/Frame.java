package org.beefyield.frame;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.stats.Sample;
import org.beefyield.text.Checks;
import org.beefyield.text.Names;
import org.beefyield.text.Shown;
import org.jspecify.annotations.Nullable;

/**
 * A table of named columns, each of numbers with their unit or of texts. Immutable; every call gives a new frame.
 *
 * <p>Columns are asked for by name ({@code cold weight}) or by header ({@code cold weight, kg}). Rows count from 0.
 *
 * <p><b>Order.</b> Texts sort by their characters, grades by what they mean: conformation from S to P, fat from 1 to 5.
 *
 * <p><b>Totals.</b> A column says what it comes to ({@link Column#total}): kg, head and money add up; what has another unit,
 * or none, has no total unless one is declared by {@link #totalling}.
 *
 * <p><b>Missing.</b> A number that is not known is NaN, a text the empty string. Both print blank, sort behind all others
 * (before them once {@link #reversed()}), and form a group of their own. {@link #describe()}, sums and means leave missing
 * numbers out; of nothing but missing ones they are missing. An infinite number, or one beyond 1e12 in size, is refused.
 */
public final class Frame implements Shown {
    /** Largest number, in size, that a frame takes; up to here numbers add up as printed. A million tonnes in g. */
    public static final double LARGEST = Cells.LARGEST;

    private static final int NAMED_IN_A_LINE = 8;

    private final Map<String, Column> byName;
    private final List<Column> columns;
    private final List<Cells> cells;
    private final int rows;
    private final boolean totalled;

    private Frame(List<Column> columns, List<Cells> cells, boolean totalled) {
        if (columns.isEmpty()) {
            throw new IllegalArgumentException("a frame has a column or more");
        }
        this.columns = List.copyOf(columns);
        this.cells = List.copyOf(cells);
        this.rows = cells.get(0).size();
        this.totalled = totalled;
        this.byName = new LinkedHashMap<>();
        for (int i = 0; i < columns.size(); i++) {
            Column column = columns.get(i);
            if (byName.put(column.name(), column) != null) {
                throw new IllegalArgumentException("two columns are called \"" + column.name() + "\"");
            }
            if (cells.get(i).size() != rows) {
                throw new IllegalArgumentException("column \"" + column + "\" has "
                        + cells.get(i).size() + " rows and column \"" + columns.get(0) + "\" " + rows);
            }
        }
    }

    /**
     * A frame of arrays or lists. Under each header, a name or a name and unit such as {@code cold weight, kg}, stands a
     * {@code double[]}, {@code int[]}, {@code long[]}, or an array or list of numbers or of texts, in which null is missing.
     * The arrays are copied.
     *
     * @param columns columns in order: give a map that keeps it, such as a {@link LinkedHashMap}
     * @return the frame
     * @throws IllegalArgumentException if there is no column, a header can't be used, or columns have the same name,
     *     another number of rows, or something else in them
     */
    public static Frame of(Map<String, ?> columns) {
        Checks.noNullIn(columns, "columns");
        List<Column> heads = new ArrayList<>();
        List<Cells> cells = new ArrayList<>();
        columns.forEach((header, given) -> {
            Cells column = Cells.of(header, given);
            heads.add(column instanceof Cells.Numbers ? Column.number(header) : Column.text(header));
            cells.add(column);
        });
        return new Frame(heads, cells, false);
    }

    /**
     * A frame of arrays or lists under declared columns.
     *
     * @param columns columns in order
     * @param values for each column an array or list, as {@link #of(Map)} takes them; copied
     * @return the frame
     * @throws IllegalArgumentException if there is no column, or as many values as columns are not given, or columns have the
     *     same name, another number of rows, or something else in them than they declare
     */
    public static Frame of(List<Column> columns, List<?> values) {
        Checks.noNullIn(columns, "columns");
        Checks.noNullIn(values, "values");
        if (columns.size() != values.size()) {
            throw new IllegalArgumentException(columns.size() + " columns are given " + values.size() + " arrays");
        }
        return new Frame(
                columns,
                IntStream.range(0, columns.size())
                        .mapToObj(i -> Cells.of(columns.get(i), values.get(i)))
                        .toList(),
                false);
    }

    /**
     * A frame of a list, a row for each of its elements, in the making.
     *
     * @param rows what each row is of
     * @param <T> its type
     * @return a builder without columns
     */
    public static <T> Builder<T> ofEach(List<T> rows) {
        Checks.noNullIn(rows, "rows");
        return new Builder<>(rows);
    }

    /**
     * Columns of a list, one after the other. Not thread-safe.
     *
     * @param <T> what each row is of
     */
    public static final class Builder<T> {
        private final List<T> rows;
        private final List<Column> columns = new ArrayList<>();
        private final List<Cells> cells = new ArrayList<>();

        private Builder(List<T> rows) {
            this.rows = List.copyOf(rows);
        }

        /**
         * Adds a column of numbers.
         *
         * @param header name, or name and unit, such as {@code cold weight, kg}
         * @param value makes the number of a row; NaN is missing
         * @return this
         * @throws IllegalArgumentException if the header can't be used, or a number is beyond 1e12 in size
         */
        public Builder<T> number(String header, ToDoubleFunction<T> value) {
            return number(Column.number(Objects.requireNonNull(header, "header")), value);
        }

        /**
         * Adds a column of numbers.
         *
         * @param column the column
         * @param value makes the number of a row; NaN is missing
         * @return this
         * @throws IllegalArgumentException if the column holds texts, or a number is beyond 1e12 in size
         */
        public Builder<T> number(Column column, ToDoubleFunction<T> value) {
            Objects.requireNonNull(column, "column");
            Objects.requireNonNull(value, "value");
            columns.add(column);
            cells.add(Cells.of(column, rows.stream().mapToDouble(value).toArray()));
            return this;
        }

        /**
         * Adds a column of texts.
         *
         * @param name name
         * @param value makes the text of a row; the empty one is missing
         * @return this
         * @throws IllegalArgumentException if the name can't be used
         */
        public Builder<T> text(String name, Function<T, String> value) {
            return text(Column.text(Objects.requireNonNull(name, "name")), value);
        }

        /**
         * Adds a column of texts of some type. A column of days in which one text is no day becomes one of texts.
         *
         * @param column the column
         * @param value makes the text of a row; the empty one is missing
         * @return this
         * @throws IllegalArgumentException if the column holds numbers
         */
        public Builder<T> text(Column column, Function<T, String> value) {
            Objects.requireNonNull(column, "column");
            Objects.requireNonNull(value, "value");
            List<String> texts = rows.stream().map(value).toList();
            boolean days = texts.stream().allMatch(text -> text.isEmpty() || Column.isDay(text));
            Column its = column.type() == Column.Type.DATE && !days ? column.of(Column.Type.TEXT) : column;
            columns.add(its);
            cells.add(Cells.of(its, texts));
            return this;
        }

        /**
         * The frame so far.
         *
         * @return the frame
         * @throws IllegalArgumentException if it has no column, or two of the same name
         */
        public Frame frame() {
            return new Frame(columns, cells, false);
        }
    }

    /**
     * The columns.
     *
     * @return an unmodifiable list, in order
     */
    public List<Column> columns() {
        return columns;
    }

    /**
     * The number of rows.
     *
     * @return 0 or more
     */
    public int rows() {
        return rows;
    }

    /**
     * The numbers of a column.
     *
     * @param column name or header
     * @return a copy, a number for each row, NaN where missing
     * @throws IllegalArgumentException if there is no such column, then the nearest names are offered, or it holds texts
     */
    public double[] numbers(String column) {
        Objects.requireNonNull(column, "column");
        return numbersAt(index(column)).toArray();
    }

    /**
     * The texts of a column.
     *
     * @param column name or header
     * @return an unmodifiable list, a text for each row, empty where missing
     * @throws IllegalArgumentException if there is no such column, then the nearest names are offered, or it holds numbers
     */
    public List<String> texts(String column) {
        Objects.requireNonNull(column, "column");
        return textsAt(index(column)).values();
    }

    Cells cells(int column) {
        return cells.get(column);
    }

    boolean isTotalled() {
        return totalled;
    }

    private Cells.Numbers numbersAt(int column) {
        if (cells.get(column) instanceof Cells.Numbers numbers) {
            return numbers;
        }
        throw new IllegalArgumentException("column \"" + columns.get(column) + "\" holds texts, not numbers");
    }

    private Cells.Texts textsAt(int column) {
        if (cells.get(column) instanceof Cells.Texts texts) {
            return texts;
        }
        throw new IllegalArgumentException("column \"" + columns.get(column) + "\" holds numbers, not texts");
    }

    private int index(String name) {
        Column column = byName.get(name);
        int index =
                column == null ? columns.stream().map(Column::header).toList().indexOf(name) : columns.indexOf(column);
        if (index < 0) {
            throw new IllegalArgumentException(
                    "no column \"" + name + "\"; nearest: " + Names.nearest(name, byName.keySet()));
        }
        return index;
    }

    /** One row of a frame, for conditions and derived columns. */
    public final class Row {
        private final int index;

        private Row(int index) {
            this.index = index;
        }

        /**
         * Which row it is.
         *
         * @return 0 or more
         */
        public int index() {
            return index;
        }

        /**
         * A number of the row.
         *
         * @param column name or header
         * @return the number, NaN if missing
         * @throws IllegalArgumentException if there is no such column, or it holds texts
         */
        public double number(String column) {
            Objects.requireNonNull(column, "column");
            return numbersAt(Frame.this.index(column)).get(index);
        }

        /**
         * A text of the row.
         *
         * @param column name or header
         * @return the text, empty if missing
         * @throws IllegalArgumentException if there is no such column, or it holds numbers
         */
        public String text(String column) {
            Objects.requireNonNull(column, "column");
            return textsAt(Frame.this.index(column)).get(index);
        }
    }

    private Frame pick(IntStream which) {
        int[] picked = which.toArray();
        return new Frame(
                columns, cells.stream().map(column -> column.pick(picked)).toList(), false);
    }

    /**
     * The first rows.
     *
     * @param count how many, 0 or more; all if there are no more
     * @return a frame
     * @throws IllegalArgumentException if the count is below 0
     */
    public Frame head(int count) {
        return pick(IntStream.range(0, counted(count)));
    }

    /**
     * The last rows.
     *
     * @param count how many, 0 or more; all if there are no more
     * @return a frame
     * @throws IllegalArgumentException if the count is below 0
     */
    public Frame tail(int count) {
        return pick(IntStream.range(rows - counted(count), rows));
    }

    private int counted(int count) {
        if (count < 0) {
            throw new IllegalArgumentException(count + " rows are none; ask for 0 or more");
        }
        return Math.min(count, rows);
    }

    /**
     * Some of the columns.
     *
     * @param names names or headers, one or more, in the order wanted
     * @return a frame
     * @throws IllegalArgumentException if there is no such column, then the nearest names are offered, or none or one twice
     */
    public Frame select(String... names) {
        Checks.noNullIn(names, "names");
        int[] which = Arrays.stream(names).mapToInt(this::index).toArray();
        return new Frame(
                Arrays.stream(which).mapToObj(columns::get).toList(),
                Arrays.stream(which).mapToObj(cells::get).toList(),
                false);
    }

    /**
     * The rows for which a condition holds.
     *
     * @param condition condition; a comparison with a missing number doesn't hold
     * @return a frame
     */
    public Frame where(Predicate<Row> condition) {
        Objects.requireNonNull(condition, "condition");
        return pick(IntStream.range(0, rows).filter(row -> condition.test(new Row(row))));
    }

    /**
     * The rows in ascending order, by the first column named, then by the next. Texts are in the order of their characters,
     * grades from S to P and from 1 to 5, rows that are equal in these columns in the order in which they were, and what is
     * missing last.
     *
     * @param names names or headers
     * @return a frame
     * @throws IllegalArgumentException if there is no such column; the nearest names are offered
     */
    public Frame sortedBy(String... names) {
        Checks.noNullIn(names, "names");
        int[] which = Arrays.stream(names).mapToInt(this::index).toArray();
        List<Integer> order = new ArrayList<>(IntStream.range(0, rows).boxed().toList());
        order.sort((row, other) -> {
            int difference = 0;
            for (int i = 0; difference == 0 && i < which.length; i++) {
                difference = cells.get(which[i]).compare(columns.get(which[i]).type(), row, other);
            }
            return difference;
        });
        return pick(order.stream().mapToInt(row -> row));
    }

    /**
     * The rows from last to first.
     *
     * @return a frame
     */
    public Frame reversed() {
        return pick(IntStream.range(0, rows).map(row -> rows - 1 - row));
    }

    /**
     * With a column of numbers, in the place of one that is called the same or else behind the others.
     *
     * @param header name, or name and unit, such as {@code striploin value, EUR}
     * @param value makes the number of a row; NaN is missing, and so is what is infinite, as after a division by 0
     * @return a frame
     * @throws IllegalArgumentException if the header can't be used, or a finite number is beyond 1e12 in size
     */
    public Frame with(String header, ToDoubleFunction<Row> value) {
        Objects.requireNonNull(header, "header");
        Objects.requireNonNull(value, "value");
        double[] values = IntStream.range(0, rows)
                .mapToDouble(row -> value.applyAsDouble(new Row(row)))
                .map(number -> Double.isInfinite(number) ? Double.NaN : number)
                .toArray();
        Column column = Column.number(header);
        return with(column, Cells.numbers(column, values));
    }

    /**
     * With a column of texts, in the place of one that is called the same or else behind the others.
     *
     * @param header name
     * @param value makes the text of a row; the empty one is missing
     * @return a frame
     * @throws IllegalArgumentException if the header can't be used
     */
    public Frame withText(String header, Function<Row, String> value) {
        Objects.requireNonNull(header, "header");
        Objects.requireNonNull(value, "value");
        List<String> values = IntStream.range(0, rows)
                .mapToObj(row -> value.apply(new Row(row)))
                .toList();
        return with(Column.text(header), new Cells.Texts(values));
    }

    private Frame with(Column column, Cells values) {
        List<Column> newColumns = new ArrayList<>(columns);
        List<Cells> newCells = new ArrayList<>(cells);
        Column old = byName.get(column.name());
        if (old == null) {
            newColumns.add(column);
            newCells.add(values);
        } else {
            newColumns.set(columns.indexOf(old), column);
            newCells.set(columns.indexOf(old), values);
        }
        return new Frame(newColumns, newCells, false);
    }

    /**
     * The same rows under a column that comes to something else in all. What a total is weighted by is looked up when it is
     * printed.
     *
     * @param column name or header of a column of numbers
     * @param total what its numbers come to over all rows
     * @return a frame
     * @throws IllegalArgumentException if there is no such column, or it holds texts, or the total is weighted by a column that
     *     isn't there or holds texts
     */
    public Frame totalling(String column, Total total) {
        Objects.requireNonNull(column, "column");
        Objects.requireNonNull(total, "total");
        total.weight().ifPresent(weight -> numbersAt(index(weight)));
        List<Column> newColumns = new ArrayList<>(columns);
        int which = index(column);
        newColumns.set(which, columns.get(which).totalling(total));
        return new Frame(newColumns, cells, totalled);
    }

    /** What a column comes to; NaN where its total is blank. */
    double total(int column) {
        if (!(cells.get(column) instanceof Cells.Numbers numbers)) {
            return Double.NaN;
        }
        Total total = columns.get(column).total();
        if (total.equals(Total.SUM)) {
            return Arrays.stream(numbers.present()).sum();
        }
        return total.weight()
                .map(byName::get)
                .filter(Column::numeric)
                .map(weight -> {
                    Cells.Numbers weights = numbersAt(columns.indexOf(weight));
                    int[] known = IntStream.range(0, rows)
                            .filter(row -> !numbers.isMissing(row) && !weights.isMissing(row))
                            .toArray();
                    return Statistic.mean(picked(numbers, known), picked(weights, known));
                })
                .orElse(Double.NaN);
    }

    private static double[] picked(Cells.Numbers numbers, int[] picked) {
        return Arrays.stream(picked).mapToDouble(numbers::get).toArray();
    }

    /**
     * The rows of this frame, then those of another.
     *
     * @param other a frame with equal columns in the same order
     * @return a frame
     * @throws IllegalArgumentException if its columns are others
     */
    public Frame plus(Frame other) {
        Objects.requireNonNull(other, "other");
        if (!columns.equals(other.columns)) {
            throw new IllegalArgumentException(
                    "frames go together only if their columns are equal: " + this + " against " + other);
        }
        List<Cells> both = new ArrayList<>();
        for (int i = 0; i < columns.size(); i++) {
            both.add(cells.get(i).plus(other.cells.get(i)));
        }
        return new Frame(columns, both, false);
    }

    /**
     * The same frame, printed with a row of totals beneath: each column's {@linkplain Column#total own}. Of a column that adds
     * up the printed figures add up to the printed total. The total is no row of the frame; other calls give frames without.
     *
     * @return a frame
     */
    public Frame withTotal() {
        return new Frame(columns, cells, true);
    }

    /**
     * The rows in groups: those that are equal in the columns named, in the order in which each group first comes.
     *
     * @param names names or headers; none for one group of all rows
     * @return the groups
     * @throws IllegalArgumentException if there is no such column, then the nearest names are offered, or one stands twice
     */
    public Groups groupBy(String... names) {
        Checks.noNullIn(names, "names");
        return new Groups(Arrays.stream(names).map(this::index).toList());
    }

    /** Rows of a frame in groups. Immutable. */
    public final class Groups {
        private final List<Integer> by;
        private final Map<List<Object>, List<Integer>> rowsByKey = new LinkedHashMap<>();

        private Groups(List<Integer> by) {
            this.by = by;
            if (by.stream().distinct().count() < by.size()) {
                throw new IllegalArgumentException("a column to group by stands twice");
            }
            for (int row = 0; row < rows; row++) {
                int at = row;
                rowsByKey
                        .computeIfAbsent(
                                by.stream()
                                        .map(column -> cells.get(column).key(at))
                                        .toList(),
                                key -> new ArrayList<>())
                        .add(row);
            }
        }

        /**
         * The sum of each group, missing numbers left out.
         *
         * @param names columns of numbers that {@linkplain Total#SUM add up}; none for all of them
         * @return a row for each group: the columns that it is grouped by, and the sums
         * @throws IllegalArgumentException if there is no such column, or it doesn't add up
         */
        public Frame sum(String... names) {
            Checks.noNullIn(names, "names");
            return each(
                    summed(names), Total.SUM, present -> Arrays.stream(present).sum());
        }

        /**
         * The plain mean of each group, every row counted alike, missing numbers left out. Means have no total.
         *
         * @param names columns of numbers; none for all of them
         * @return a row for each group: the columns that it is grouped by, and the means
         * @throws IllegalArgumentException if there is no such column, or it holds texts
         */
        public Frame mean(String... names) {
            Checks.noNullIn(names, "names");
            return each(
                    chosen(names),
                    Total.NONE,
                    present -> Arrays.stream(present).average().orElse(Double.NaN));
        }

        /**
         * The number of rows of each group.
         *
         * @return a row for each group: the columns that it is grouped by, and {@code rows}
         */
        public Frame count() {
            List<Column> newColumns =
                    new ArrayList<>(by.stream().map(columns::get).toList());
            List<Cells> newCells = new ArrayList<>(keys());
            newColumns.add(Column.number("rows").totalling(Total.SUM));
            newCells.add(new Cells.Numbers(
                    rowsByKey.values().stream().mapToDouble(List::size).toArray()));
            return new Frame(newColumns, newCells, false);
        }

        private List<Integer> summed(String... names) {
            List<Integer> chosen = chosen(names);
            if (names.length == 0) {
                return chosen.stream()
                        .filter(column -> columns.get(column).total().equals(Total.SUM))
                        .toList();
            }
            chosen.forEach(this::checkAddsUp);
            return chosen;
        }

        private void checkAddsUp(int column) {
            if (!columns.get(column).total().equals(Total.SUM)) {
                throw new IllegalArgumentException("column \"" + columns.get(column)
                        + "\" doesn't add up; it has a mean, or declare that it does: totalling(\""
                        + columns.get(column).name() + "\", Total.SUM)");
            }
        }

        private List<Integer> chosen(String... names) {
            List<Integer> chosen = names.length == 0
                    ? IntStream.range(0, columns.size())
                            .filter(column -> columns.get(column).numeric() && !by.contains(column))
                            .boxed()
                            .toList()
                    : Arrays.stream(names).map(Frame.this::index).toList();
            chosen.forEach(Frame.this::numbersAt);
            return chosen;
        }

        private List<Cells> keys() {
            int[] first =
                    rowsByKey.values().stream().mapToInt(group -> group.get(0)).toArray();
            return by.stream().map(column -> cells.get(column).pick(first)).toList();
        }

        /**
         * Several figures of each group.
         *
         * @param figures one or more
         * @return a row for each group: the columns that it is grouped by, {@code rows}, how many there are, and a column for
         *     each figure, such as {@code SD of cold weight, kg}; counts and sums add up, the others have no total
         * @throws IllegalArgumentException if there is no such column, or it holds texts, a sum is asked of one that doesn't
         *     add up, or a figure is asked for twice
         */
        public Frame figures(Statistic... figures) {
            Checks.noNullIn(figures, "figures");
            Frame counted = count();
            List<Column> newColumns = new ArrayList<>(counted.columns);
            List<Cells> newCells = new ArrayList<>(counted.cells);
            for (Statistic figure : figures) {
                int column = index(figure.column());
                Cells.Numbers numbers = numbersAt(column);
                if (figure.isSum()) {
                    checkAddsUp(column);
                }
                Optional<Integer> weight = figure.weight().map(Frame.this::index);
                Cells.Numbers weights = weight.map(Frame.this::numbersAt).orElse(numbers);
                Column header = figure.header(
                        columns.get(column), weight.map(columns::get).orElse(null));
                double[] values = rowsByKey.values().stream()
                        .mapToDouble(group -> {
                            int[] known = group.stream()
                                    .mapToInt(row -> row)
                                    .filter(row -> !numbers.isMissing(row) && !weights.isMissing(row))
                                    .toArray();
                            return figure.of(picked(numbers, known), picked(weights, known));
                        })
                        .toArray();
                newColumns.add(header);
                newCells.add(Cells.numbers(header, values));
            }
            return new Frame(newColumns, newCells, false);
        }

        private Frame each(List<Integer> chosen, Total total, ToDoubleFunction<double[]> of) {
            List<Column> newColumns =
                    new ArrayList<>(by.stream().map(columns::get).toList());
            List<Cells> newCells = new ArrayList<>(keys());
            for (int column : chosen) {
                Cells.Numbers numbers = numbersAt(column);
                double[] values = rowsByKey.values().stream()
                        .mapToDouble(group -> {
                            double[] present = group.stream()
                                    .mapToDouble(numbers::get)
                                    .filter(value -> !Double.isNaN(value))
                                    .toArray();
                            return present.length == 0 ? Double.NaN : of.applyAsDouble(present);
                        })
                        .toArray();
                newColumns.add(columns.get(column).totalling(total));
                newCells.add(Cells.numbers(columns.get(column), values));
            }
            return new Frame(newColumns, newCells, false);
        }
    }

    /**
     * Each column of numbers in figures. Quartiles and median are interpolated linearly between the sorted numbers: the
     * part p of n numbers lies at place 1 + (n - 1) p (definition 7 of Hyndman and Fan 1996, The American Statistician 50,
     * 361 to 365). The SD divides by n - 1.
     *
     * @return a row for each column of numbers: {@code column}, {@code unit}, {@code count} of the numbers there are,
     *     {@code missing}, {@code mean}, {@code SD}, {@code min}, {@code lower quartile}, {@code median},
     *     {@code upper quartile}, {@code max}; all but the counts in the row's unit, and missing where there are too
     *     few numbers
     */
    public Frame describe() {
        List<Integer> numeric = IntStream.range(0, columns.size())
                .filter(column -> columns.get(column).numeric())
                .boxed()
                .toList();
        List<double[]> sorted = numeric.stream()
                .map(column ->
                        Arrays.stream(numbersAt(column).present()).sorted().toArray())
                .toList();
        Map<String, Object> described = new LinkedHashMap<>();
        described.put(
                "column",
                numeric.stream().map(column -> columns.get(column).name()).toList());
        described.put(
                "unit",
                numeric.stream().map(column -> columns.get(column).unit()).toList());
        Map<String, ToDoubleFunction<double[]>> figures = new LinkedHashMap<>();
        figures.put("count", values -> values.length);
        figures.put("missing", values -> rows - values.length);
        figures.put("mean", Sample::mean);
        figures.put("SD", Sample::sd);
        figures.put("min", values -> Sample.quantile(values, 0));
        figures.put("lower quartile", values -> Sample.quantile(values, 0.25));
        figures.put("median", values -> Sample.quantile(values, 0.5));
        figures.put("upper quartile", values -> Sample.quantile(values, 0.75));
        figures.put("max", values -> Sample.quantile(values, 1));
        figures.forEach((name, figure) ->
                described.put(name, sorted.stream().mapToDouble(figure).toArray()));
        return of(described);
    }

    /**
     * The columns as arrays, for other libraries; {@link #of(List, List)} makes the same frame of them and {@link #columns()}.
     *
     * @return under each header a {@code double[]}, NaN where missing, or a {@code String[]}, empty where missing; the
     *     map, in the order of the columns, can't be changed, and the arrays are copies
     */
    public Map<String, Object> toMap() {
        Map<String, Object> map = new LinkedHashMap<>();
        for (int i = 0; i < columns.size(); i++) {
            map.put(columns.get(i).header(), cells.get(i).toArray());
        }
        return Collections.unmodifiableMap(map);
    }

    /**
     * The frame for people. Up to 40 rows print whole; of more the first and the last 10, and how many are left out. Where
     * the columns don't fit on a line of 120 characters they go on in a further table, which repeats the first column.
     * Long texts wrap. A column prints with 2 decimals or, if its largest figure is below 10, three significant digits of
     * that; with none if all its figures are whole or one is a million or more. A figure that would show fewer than three
     * significant digits so prints with as many decimals as show them; in a column with a printed sum all then have the
     * decimals that show the first digit of the smallest, 8 decimals and 12 digits of the sum at most.
     *
     * @return lines of plain text
     */
    @Override
    public String toText() {
        return new FrameText(this).toText();
    }

    /**
     * The frame as HTML without style sheets, more than 20 rows in a box that scrolls below its header. Up to 1000 rows
     * are shown whole; of more the first and the last 500, and how many are left out. Decimals as in {@link #toText()}.
     *
     * @return a table, and a paragraph if rows are left out
     */
    @Override
    public String toHtml() {
        return new FrameText(this).toHtml();
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Frame that && columns.equals(that.columns) && cells.equals(that.cells);
    }

    @Override
    public int hashCode() {
        return 31 * columns.hashCode() + cells.hashCode();
    }

    /**
     * One line.
     *
     * @return such as {@code 200 rows: carcass; lot; cold weight, kg; and 21 more columns}
     */
    @Override
    public String toString() {
        String named =
                columns.stream().limit(NAMED_IN_A_LINE).map(Column::header).collect(Collectors.joining("; "));
        int more = columns.size() - NAMED_IN_A_LINE;
        return rows
                + (rows == 1 ? " row: " : " rows: ")
                + named
                + (more > 0 ? "; and " + more + (more == 1 ? " more column" : " more columns") : "");
    }
}
