package org.beefyield.estimate;

import java.util.Arrays;
import java.util.List;
import java.util.function.Function;

/** Rows that were written down, sorted by their lots and runs. */
final class SortedRows {
    private static final int FIRST = 1 << 6;

    private final List<WrittenRows> written;
    /** By stretch of all, its group's number from 0 in the order in which they come. */
    private final int[] groupOf;
    /** By number of a group. */
    private int[] lots = new int[FIRST];

    private int[] runs = new int[FIRST];
    private int[] sizes = new int[FIRST];
    /** By what a lot and run hash to, or from there on, the group's number counted from 1; at least four times as many. */
    private int[] places = new int[4 * FIRST];

    private int groups;

    /** Finds out which rows belong together. */
    SortedRows(List<WrittenRows> written) {
        this.written = written;
        this.groupOf =
                new int[written.stream().mapToInt(WrittenRows::stretchCount).sum()];
        int first = 0;
        for (WrittenRows rows : written) {
            number(rows, first);
            first += rows.stretchCount();
        }
    }

    private void number(WrittenRows rows, int first) {
        int from = 0;
        for (int stretch = 0; stretch < rows.stretchCount(); stretch++) {
            int group = number(rows.lot(stretch), rows.run(stretch));
            groupOf[first + stretch] = group;
            sizes[group] += rows.end(stretch) - from;
            from = rows.end(stretch);
        }
    }

    /** Number of groups. */
    int groups() {
        return groups;
    }

    private int number(int lot, int run) {
        int place = place(lot, run);
        if (places[place] > 0) {
            return places[place] - 1;
        }
        if (groups == lots.length) {
            grow();
            place = place(lot, run);
        }
        lots[groups] = lot;
        runs[groups] = run;
        places[place] = ++groups;
        return groups - 1;
    }

    /** Where the number of a group stands, or is to stand. */
    private int place(int lot, int run) {
        int hash = 0x9E3779B9 * (31 * lot + run);
        int place = hash >>> Integer.numberOfLeadingZeros(places.length - 1);
        while (places[place] > 0 && (lots[places[place] - 1] != lot || runs[places[place] - 1] != run)) {
            place = (place + 1) & (places.length - 1);
        }
        return place;
    }

    private void grow() {
        lots = Arrays.copyOf(lots, 2 * groups);
        runs = Arrays.copyOf(runs, 2 * groups);
        sizes = Arrays.copyOf(sizes, 2 * groups);
        places = new int[8 * groups];
        for (int group = 0; group < groups; group++) {
            places[place(lots[group], runs[group])] = group + 1;
        }
    }

    /**
     * Adds all rows to their groups, those of a group together and in their order.
     *
     * @param groupAt the group of a key
     */
    void addTo(Function<Group.Key, Group> groupAt) {
        int[] next = new int[groups];
        for (int group = 1; group < groups; group++) {
            next[group] = next[group - 1] + sizes[group - 1];
        }
        int size = written.stream().mapToInt(WrittenRows::size).sum();
        int[] cells = new int[size];
        double[] ts = new double[size];
        int first = 0;
        for (WrittenRows rows : written) {
            scatter(rows, first, next, cells, ts);
            first += rows.stretchCount();
        }
        for (int group = 0; group < groups; group++) {
            Group.Key key = new Group.Key(LotKey.numbered(lots[group]), RunKey.numbered(runs[group]));
            groupAt.apply(key).add(cells, ts, next[group] - sizes[group], next[group]);
        }
    }

    private void scatter(WrittenRows rows, int first, int[] next, int[] cells, double[] ts) {
        int[] fromCells = rows.cells();
        double[] fromTs = rows.ts();
        int row = 0;
        for (int stretch = 0; stretch < rows.stretchCount(); stretch++) {
            int place = next[groupOf[first + stretch]];
            while (row < rows.end(stretch)) {
                cells[place] = fromCells[row];
                ts[place] = fromTs[row];
                place++;
                row++;
            }
            next[groupOf[first + stretch]] = place;
        }
    }
}
