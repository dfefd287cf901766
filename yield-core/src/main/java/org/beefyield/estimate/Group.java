package org.beefyield.estimate;

import java.io.Serializable;
import java.util.Arrays;
import java.util.function.IntPredicate;
import java.util.function.IntUnaryOperator;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * Carcasses of one lot in one run: as they are while there are few, for so they take less memory than their sums by cell and
 * cost nothing but writing them down; then as their sums. A cell is a category and a node, as {@link Moments} numbers them.
 */
final class Group implements Serializable {
    private static final long serialVersionUID = 1;

    /** So many are kept as they are: more would hardly cost less, for each goes into the sums once. */
    static final int MOST = 1 << 12;

    /**
     * What makes carcasses those of one group.
     *
     * @param lot lot
     * @param run run
     * @serial exclude
     */
    record Key(LotKey lot, RunKey run) implements Serializable, Comparable<Key> {
        static final Key NOT_KNOWN = new Key(LotKey.NOT_KNOWN, RunKey.NOT_KNOWN);

        @Override
        public int compareTo(Key other) {
            int byLot = lot.compareTo(other.lot);
            return byLot == 0 ? run.compareTo(other.run) : byLot;
        }
    }

    /** Sums of t^j by cell, of the cells that have any. */
    static final class Sums implements Serializable {
        private static final long serialVersionUID = 1;

        private static final int FIRST = 16;

        private final int powers;
        /** By cell, its place counted from 1; 0 if it has none. */
        private final int[] placeOf;
        /** By place, the cell. */
        private int[] used = new int[FIRST];

        private double[] sums;
        private int size;

        Sums(int cells, int powers) {
            this.powers = powers;
            this.placeOf = new int[cells];
            this.sums = new double[FIRST * powers];
        }

        private Sums(Sums like) {
            this.powers = like.powers;
            this.placeOf = like.placeOf.clone();
            this.used = Arrays.copyOf(like.used, like.size);
            this.sums = Arrays.copyOf(like.sums, like.size * powers);
            this.size = like.size;
        }

        private int at(int cell) {
            if (placeOf[cell] == 0) {
                if (size == used.length) {
                    used = Arrays.copyOf(used, 2 * size);
                    sums = Arrays.copyOf(sums, 2 * size * powers);
                }
                used[size++] = cell;
                placeOf[cell] = size;
            }
            return (placeOf[cell] - 1) * powers;
        }

        private void add(int cell, double t, double part) {
            int at = at(cell);
            double power = part;
            for (int j = 0; j < powers; j++) {
                sums[at + j] += power;
                power *= t;
            }
        }

        /** Adds so many carcasses, whose sums of t, t^2 and so on stand in an array from a place on. */
        private void add(int cell, double carcasses, double[] from, int first) {
            int at = at(cell);
            sums[at] += carcasses;
            for (int j = 1; j < powers; j++) {
                sums[at + j] += from[first + j - 1];
            }
        }

        private void add(Sums other, IntUnaryOperator cellOf) {
            for (int i = 0; i < other.size; i++) {
                add(cellOf.applyAsInt(other.used[i]), other.sums[i * powers], other.sums, i * powers + 1);
            }
        }

        /** The cells that have any, in their order. */
        int[] cells() {
            int[] cells = Arrays.copyOf(used, size);
            Arrays.sort(cells);
            return cells;
        }

        double of(int cell, int power) {
            return sums[(placeOf[cell] - 1) * powers + power];
        }

        /** Begins anew. */
        void clear() {
            for (int i = 0; i < size; i++) {
                placeOf[used[i]] = 0;
            }
            Arrays.fill(sums, 0, size * powers, 0);
            size = 0;
        }

        private boolean isOf(int cells, IntPredicate isCell) {
            return placeOf.length == cells
                    && size <= used.length
                    && size * powers <= sums.length
                    && IntStream.range(0, size).allMatch(i -> isCell.test(used[i]) && placeOf[used[i]] == i + 1);
        }

        private boolean sameAs(Sums other) {
            int[] cells = cells();
            return Arrays.equals(cells, other.cells())
                    && Arrays.stream(cells)
                            .allMatch(cell -> IntStream.range(0, powers)
                                    .allMatch(j -> Double.compare(of(cell, j), other.of(cell, j)) == 0));
        }
    }

    private final int tableCells;
    private final int powers;
    private int[] cells = {};
    private double[] ts = {};
    /** What each counts for; null while all are whole carcasses at nodes. */
    private double @Nullable [] parts;

    private int size;
    private @Nullable Sums sums;

    /**
     * A group without carcasses.
     *
     * @param tableCells number of cells of the table
     * @param powers number of sums of a cell
     */
    Group(int tableCells, int powers) {
        this.tableCells = tableCells;
        this.powers = powers;
    }

    /** The same apart, with no more room than it needs. */
    Group copy() {
        Group copy = new Group(tableCells, powers);
        copy.cells = Arrays.copyOf(cells, size);
        copy.ts = Arrays.copyOf(ts, size);
        copy.parts = parts == null ? null : Arrays.copyOf(parts, size);
        copy.size = size;
        copy.sums = sums == null ? null : new Sums(sums);
        return copy;
    }

    /** Adds whole carcasses at nodes, which stand in arrays from a place to another. */
    void add(int[] moreCells, double[] moreTs, int from, int to) {
        int more = to - from;
        if (!reserve(more)) {
            Sums known = sums();
            for (int i = from; i < to; i++) {
                known.add(moreCells[i], moreTs[i], 1);
            }
            return;
        }
        System.arraycopy(moreCells, from, cells, size, more);
        System.arraycopy(moreTs, from, ts, size, more);
        if (parts != null) {
            Arrays.fill(parts, size, size + more, 1);
        }
        size += more;
    }

    /** Adds a carcass at a node, or its part. */
    void add(int cell, double t, double part) {
        if (!reserve(1)) {
            sums().add(cell, t, part);
            return;
        }
        if (part != 1 && parts == null) {
            double[] whole = new double[cells.length];
            Arrays.fill(whole, 1);
            parts = whole;
        }
        cells[size] = cell;
        ts[size] = t;
        if (parts != null) {
            parts[size] = part;
        }
        size++;
    }

    /** Makes room for more that are kept as they are; if they become too many, sums them up and returns false. */
    private boolean reserve(int more) {
        if (sums == null && size + more <= MOST) {
            if (size + more > cells.length) {
                int length = Math.max(size + more, Math.min(2 * size, MOST));
                cells = Arrays.copyOf(cells, length);
                ts = Arrays.copyOf(ts, length);
                parts = parts == null ? null : Arrays.copyOf(parts, length);
            }
            return true;
        }
        if (size > 0) {
            addRows(sums(), cell -> cell);
            cells = new int[0];
            ts = new double[0];
            parts = null;
            size = 0;
        }
        return false;
    }

    /** Adds so many carcasses of a cell, whose sums of t, t^2 and so on stand in an array from a place on. */
    void add(int cell, int carcasses, double[] from, int first) {
        sums().add(cell, carcasses, from, first);
    }

    private Sums sums() {
        Sums known = sums;
        if (known == null) {
            known = new Sums(tableCells, powers);
            sums = known;
        }
        return known;
    }

    private void addRows(Sums to, IntUnaryOperator cellOf) {
        for (int i = 0; i < size; i++) {
            to.add(cellOf.applyAsInt(cells[i]), ts[i], parts == null ? 1 : parts[i]);
        }
    }

    void add(Group other) {
        if (other.sums != null) {
            sums().add(other.sums, cell -> cell);
        }
        for (int i = 0; i < other.size; i++) {
            add(other.cells[i], other.ts[i], other.parts == null ? 1 : other.parts[i]);
        }
    }

    /** Adds all of them to sums, those of a cell to another. */
    void addTo(Sums to, IntUnaryOperator cellOf) {
        if (sums != null) {
            to.add(sums, cellOf);
        }
        addRows(to, cellOf);
    }

    /** Whether it is one of a table with such cells. */
    boolean isOf(int cellsOfTable, int powersOfTable, IntPredicate isCell) {
        return tableCells == cellsOfTable
                && powers == powersOfTable
                && size <= ts.length
                && (parts == null || size <= parts.length)
                && Arrays.stream(cells, 0, size).allMatch(isCell)
                && (sums == null || (sums.powers == powers && sums.isOf(cellsOfTable, isCell)));
    }

    /** Equal if their sums are, to the last bit. */
    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Group that
                && tableCells == that.tableCells
                && powers == that.powers
                && (this == that || all().sameAs(that.all()));
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(all().cells());
    }

    private Sums all() {
        Sums all = new Sums(tableCells, powers);
        addTo(all, cell -> cell);
        return all;
    }
}
