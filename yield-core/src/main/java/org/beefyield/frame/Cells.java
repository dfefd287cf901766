package org.beefyield.frame;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** What stands in a column. Never changed. */
sealed interface Cells {
    /** Largest number of a column, in size. */
    double LARGEST = 1e12;

    int size();

    Cells pick(int[] rows);

    /** These, then others of the same sort. */
    Cells plus(Cells other);

    boolean isMissing(int row);

    /** In the order of the type; what is missing stands last. */
    int compare(Column.Type type, int row, int other);

    /** Two rows that stand in one group have equal keys. */
    Object key(int row);

    /** A copy for the caller: {@code double[]} or {@code String[]}. */
    Object toArray();

    /** Numbers, NaN where missing. */
    final class Numbers implements Cells {
        private final double[] values;

        Numbers(double[] values) {
            this.values = values;
        }

        double get(int row) {
            return values[row];
        }

        /** All that are not missing, in the order of the rows. */
        double[] present() {
            return Arrays.stream(values).filter(value -> !Double.isNaN(value)).toArray();
        }

        @Override
        public int size() {
            return values.length;
        }

        @Override
        public Cells pick(int[] rows) {
            return new Numbers(
                    Arrays.stream(rows).mapToDouble(row -> values[row]).toArray());
        }

        @Override
        public Cells plus(Cells other) {
            return new Numbers(DoubleStream.concat(Arrays.stream(values), Arrays.stream(((Numbers) other).values))
                    .toArray());
        }

        @Override
        public boolean isMissing(int row) {
            return Double.isNaN(values[row]);
        }

        @Override
        public int compare(Column.Type type, int row, int other) {
            // NaN is the largest to Double
            return Double.compare(values[row], values[other]);
        }

        @Override
        public Object key(int row) {
            return values[row];
        }

        @Override
        public double[] toArray() {
            return values.clone();
        }

        @Override
        public boolean equals(@Nullable Object other) {
            return other instanceof Numbers that && Arrays.equals(values, that.values);
        }

        @Override
        public int hashCode() {
            return Arrays.hashCode(values);
        }
    }

    /** Texts, empty where missing. */
    final class Texts implements Cells {
        private final List<String> values;

        Texts(List<String> values) {
            this.values = List.copyOf(values);
        }

        String get(int row) {
            return values.get(row);
        }

        List<String> values() {
            return values;
        }

        @Override
        public int size() {
            return values.size();
        }

        @Override
        public Cells pick(int[] rows) {
            return new Texts(Arrays.stream(rows).mapToObj(values::get).toList());
        }

        @Override
        public Cells plus(Cells other) {
            return new Texts(Stream.concat(values.stream(), ((Texts) other).values.stream())
                    .toList());
        }

        @Override
        public boolean isMissing(int row) {
            return values.get(row).isEmpty();
        }

        @Override
        public int compare(Column.Type type, int row, int other) {
            int missing = Boolean.compare(isMissing(row), isMissing(other));
            if (missing != 0 || isMissing(row)) {
                return missing;
            }
            String one = values.get(row);
            return switch (type) {
                case CONFORMATION -> Grades.compareConformation(one, values.get(other));
                case FAT_CLASS -> Grades.compareFat(one, values.get(other));
                case NUMBER, TEXT, DATE -> one.compareTo(values.get(other));
            };
        }

        @Override
        public Object key(int row) {
            return values.get(row);
        }

        @Override
        public String[] toArray() {
            return values.toArray(String[]::new);
        }

        @Override
        public boolean equals(@Nullable Object other) {
            return other instanceof Texts that && values.equals(that.values);
        }

        @Override
        public int hashCode() {
            return values.hashCode();
        }
    }

    /** Numbers that were checked, -0 made 0. */
    static Numbers numbers(Column column, double[] values) {
        double[] checked = new double[values.length];
        for (int row = 0; row < values.length; row++) {
            if (Math.abs(values[row]) > LARGEST) {
                throw new IllegalArgumentException("row " + row + ", column \"" + column + "\": " + values[row]
                        + " is beyond " + LARGEST + " in size; a figure that is missing is NaN");
            }
            checked[row] = values[row] + 0.0;
        }
        return new Numbers(checked);
    }

    /** Texts that were checked. */
    static Texts texts(Column column, List<String> values) {
        for (int row = 0; column.type() == Column.Type.DATE && row < values.size(); row++) {
            if (!values.get(row).isEmpty() && !Column.isDay(values.get(row))) {
                throw new IllegalArgumentException("row " + row + ", column \"" + column + "\": \"" + values.get(row)
                        + "\" is no day such as 2026-11-03");
            }
        }
        return new Texts(values);
    }

    /** What a caller gives as a column, an array or a list, if it holds what the column does. */
    static Cells of(Column column, Object given) {
        Cells cells = of(column.header(), given);
        if (column.numeric()
                && cells instanceof Texts texts
                && texts.values().stream().allMatch(String::isEmpty)) {
            return new Numbers(
                    texts.values().stream().mapToDouble(text -> Double.NaN).toArray());
        }
        if (column.numeric() != cells instanceof Numbers) {
            throw new IllegalArgumentException("column \"" + column + "\" is given "
                    + (column.numeric() ? "texts and holds numbers" : "numbers and holds texts"));
        }
        return cells instanceof Texts texts ? texts(column, texts.values()) : cells;
    }

    /** What a caller gives as a column: an array or a list. */
    static Cells of(String header, Object given) {
        if (given instanceof double[] doubles) {
            return numbers(Column.number(header), doubles);
        }
        if (given instanceof int[] ints) {
            return numbers(
                    Column.number(header), Arrays.stream(ints).asDoubleStream().toArray());
        }
        if (given instanceof long[] longs) {
            return numbers(
                    Column.number(header), Arrays.stream(longs).asDoubleStream().toArray());
        }
        if (given instanceof Object[] objects) {
            return ofList(header, Arrays.asList(objects));
        }
        if (given instanceof List<?> list) {
            return ofList(header, list);
        }
        throw new IllegalArgumentException("column \"" + header + "\" is a "
                + given.getClass().getSimpleName() + "; it should be an array or a list of numbers or texts");
    }

    private static Cells ofList(String header, List<?> list) {
        boolean numeric = list.stream().anyMatch(Number.class::isInstance);
        for (int row = 0; row < list.size(); row++) {
            Object value = list.get(row);
            if (value != null && !(numeric ? value instanceof Number : value instanceof CharSequence)) {
                throw new IllegalArgumentException("row " + row + ", column \"" + header + "\": " + value + " is no "
                        + (numeric ? "number; the column holds numbers" : "text and no number"));
            }
        }
        return numeric
                ? numbers(
                        Column.number(header),
                        list.stream()
                                .mapToDouble(
                                        value -> value instanceof Number number ? number.doubleValue() : Double.NaN)
                                .toArray())
                : new Texts(
                        list.stream().map(value -> Objects.toString(value, "")).toList());
    }
}
