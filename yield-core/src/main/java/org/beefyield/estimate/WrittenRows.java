package org.beefyield.estimate;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** Carcasses at nodes, in the order in which they came, with the numbers of their lots and runs. */
final class WrittenRows {
    /** So many rows of one lot and run behind each other, on average, are worth to be kept as a stretch. */
    private static final int SHORT = 8;

    private int[] cells = {};
    private double[] ts = {};
    private int size;
    /** By row, or by stretch of rows. */
    private int[] lots = {};

    private int[] runs = {};
    /** By stretch, where it ends; null if each row is one. */
    private int @Nullable [] ends;

    /** The same apart, in little room. */
    WrittenRows copy() {
        WrittenRows copy = new WrittenRows();
        copy.cells = Arrays.copyOf(cells, size);
        copy.ts = Arrays.copyOf(ts, size);
        copy.size = size;
        int[] known = stretches();
        if (known.length == 0) {
            copy.lots = Arrays.copyOf(lots, size);
            copy.runs = Arrays.copyOf(runs, size);
        } else {
            copy.ends = known;
            copy.lots = new int[known.length];
            copy.runs = new int[known.length];
            for (int stretch = 0; stretch < known.length; stretch++) {
                copy.lots[stretch] = lots[known[stretch] - 1];
                copy.runs[stretch] = runs[known[stretch] - 1];
            }
        }
        return copy;
    }

    /** Where stretches end, or nothing if they are short. */
    private int[] stretches() {
        int[] found = new int[size / SHORT + 1];
        int count = 0;
        for (int row = 1; row < size; row++) {
            if (lots[row] != lots[row - 1] || runs[row] != runs[row - 1]) {
                if (count == found.length - 1) {
                    return new int[0];
                }
                found[count++] = row;
            }
        }
        found[count++] = size;
        return Arrays.copyOf(found, count);
    }

    void clear() {
        size = 0;
    }

    /** Makes room for more. */
    void reserve(int more) {
        if (size + more > cells.length) {
            int length = Math.max(size + more, 2 * size);
            cells = Arrays.copyOf(cells, length);
            ts = Arrays.copyOf(ts, length);
            lots = Arrays.copyOf(lots, length);
            runs = Arrays.copyOf(runs, length);
        }
    }

    /** Takes rows whose cells and weights as t stand from the size on. */
    void add(CarcassColumns carcasses, int from, int to) {
        carcasses.copyNumbers(from, to, lots, runs, size);
        size += to - from;
    }

    int size() {
        return size;
    }

    int[] cells() {
        return cells;
    }

    double[] ts() {
        return ts;
    }

    /** Number of stretches of a copy. */
    int stretchCount() {
        return lots.length;
    }

    int lot(int stretch) {
        return lots[stretch];
    }

    int run(int stretch) {
        return runs[stretch];
    }

    int end(int stretch) {
        return ends == null ? stretch + 1 : ends[stretch];
    }
}
