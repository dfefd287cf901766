package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.table.TableLayout;
import org.beefyield.table.YieldGrid;
import org.jspecify.annotations.Nullable;

/**
 * Estimates many carcasses into arrays of the caller's: kilograms of every cut of one level, or of all, the same to the
 * last bit as {@link YieldEstimator#estimate} gives one by one. Nothing is allocated for a carcass, and no row throws:
 * one without an estimate is NaN in every column and says why in its flags ({@link RowFlag}). Immutable and thread-safe;
 * threads may fill different chunks.
 *
 * <pre>{@code
 * byte[] category = {'C', 'E'};
 * byte[] conformation = {8, 11}; // R=, U=
 * byte[] fat = {8, 9}; // 3=, 3+
 * double[] coldKg = {340.0, 305.5};
 * CarcassColumns carcasses = CarcassColumns.thirds(category, conformation, fat, coldKg);
 * YieldColumns columns = YieldEstimator.of(table).columns("primal");
 * double[] kg = new double[carcasses.size() * columns.columns().size()];
 * byte[] flags = new byte[carcasses.size()];
 * int refused = columns.estimate(carcasses, 0, carcasses.size(), kg, flags);
 * }</pre>
 */
public final class YieldColumns {
    /** Rows that are estimated before they are turned into columns: what a first-level cache holds. */
    private static final int TILE = 64;

    private final RowChecks checks;
    private final YieldGrid[] grids;
    private final int length;
    private final int from;
    private final int slots;
    private final List<YieldColumn> columns = new ArrayList<>();
    private final @Nullable MinceTarget minceTarget;
    private final MinceSlots minceSlots;

    YieldColumns(YieldEstimator estimator, int firstLevel, int lastLevel) {
        checks = new RowChecks(estimator);
        List<Category> categories = checks.categories();
        grids = new YieldGrid[categories.size()];
        for (int i = 0; i < grids.length; i++) {
            grids[i] = estimator.grid(categories.get(i));
        }
        length = grids[0].length();
        TableLayout layout = estimator.table().layout();
        from = layout.start(firstLevel);
        slots = layout.start(lastLevel + 1) - from;
        for (int level = firstLevel; level <= lastLevel; level++) {
            for (Cut cut : layout.cutsAt(level)) {
                columns.add(new YieldColumn(layout.levels().get(level), cut));
            }
        }
        boolean minced = lastLevel == layout.levels().size() - 1;
        minceTarget = minced ? estimator.minceTarget().orElse(null) : null;
        minceSlots = estimator.minceSlots();
        if (minceTarget != null) {
            String level = layout.levels().get(lastLevel);
            columns.add(new YieldColumn(level, Outturn.mince(level)));
        }
    }

    /**
     * What the columns hold: level by level every cut that stands there, in printing order, whether or not the cutting
     * specification yields it; with a mince target the mince behind them, and lean trim is 0.
     *
     * @return an unmodifiable list
     */
    public List<YieldColumn> columns() {
        return List.copyOf(columns);
    }

    /**
     * Estimates a chunk row by row: column k of carcass {@code from + i} stands at {@code kg[i * columns + k]}.
     *
     * @param carcasses carcasses
     * @param from first row of the chunk
     * @param to row behind its last
     * @param kg takes kilograms, both sides together; NaN where a row is refused
     * @param flags takes the flags of row {@code from + i} at i
     * @return number of rows that were refused
     * @throws IndexOutOfBoundsException if there are no such rows
     * @throws IllegalArgumentException if an array is too short
     */
    public int estimate(CarcassColumns carcasses, int from, int to, double[] kg, byte[] flags) {
        int rows = checkRows(carcasses, from, to, flags);
        int width = columns.size();
        if (kg.length < (long) rows * width) {
            throw new IllegalArgumentException(
                    "kg has " + kg.length + " places, " + rows + " rows of " + width + " columns need more");
        }
        return estimate(carcasses, from, rows, kg, flags, 0, new double[length]);
    }

    /**
     * Estimates a chunk into one array for each column: column k of carcass {@code from + i} stands at {@code kg[k][i]}.
     *
     * @param carcasses carcasses
     * @param from first row of the chunk
     * @param to row behind its last
     * @param kg takes kilograms, both sides together; NaN where a row is refused
     * @param flags takes the flags of row {@code from + i} at i
     * @return number of rows that were refused
     * @throws IndexOutOfBoundsException if there are no such rows
     * @throws IllegalArgumentException if there is another number of arrays than of columns, or one is too short
     */
    public int estimate(CarcassColumns carcasses, int from, int to, double[][] kg, byte[] flags) {
        int rows = checkRows(carcasses, from, to, flags);
        int width = columns.size();
        if (kg.length != width) {
            throw new IllegalArgumentException(kg.length + " arrays for " + width + " columns");
        }
        for (double[] column : kg) {
            if (column.length < rows) {
                throw new IllegalArgumentException("a column has " + column.length + " places for " + rows + " rows");
            }
        }
        double[] scratch = new double[length];
        double[] tile = new double[TILE * width];
        int refused = 0;
        for (int start = 0; start < rows; start += TILE) {
            int height = Math.min(TILE, rows - start);
            refused += estimate(carcasses, from + start, height, tile, flags, start, scratch);
            for (int k = 0; k < width; k++) {
                take(tile, k, width, height, kg[k], start);
            }
        }
        return refused;
    }

    private static void take(double[] tile, int column, int width, int height, double[] into, int at) {
        for (int i = 0; i < height; i++) {
            into[at + i] = tile[i * width + column];
        }
    }

    static int checkRows(CarcassColumns carcasses, int from, int to, byte[] flags) {
        Objects.checkFromToIndex(from, to, carcasses.size());
        if (flags.length < to - from) {
            throw new IllegalArgumentException("flags has " + flags.length + " places for " + (to - from) + " rows");
        }
        return to - from;
    }

    private int estimate(
            CarcassColumns carcasses, int from, int rows, double[] kg, byte[] flags, int firstFlag, double[] scratch) {
        int width = columns.size();
        int refused = 0;
        for (int i = 0; i < rows; i++) {
            int category = checks.category(carcasses.category(from + i));
            double conformation = carcasses.conformation(from + i);
            double fat = carcasses.fat(from + i);
            double weight = carcasses.coldWeightKg(from + i);
            byte flag = checks.flags(category, conformation, fat, weight);
            flags[firstFlag + i] = flag;
            int at = i * width;
            if (flag != 0 && RowFlag.isRefused(flag)) {
                Arrays.fill(kg, at, at + width, Double.NaN);
                refused++;
            } else {
                grids[category].kg(conformation, fat, weight, scratch);
                if (minceTarget != null) {
                    kg[at + width - 1] = mince(minceTarget, scratch);
                }
                System.arraycopy(scratch, this.from, kg, at, slots);
            }
        }
        return refused;
    }

    /** Turns lean trim and fat trim into mince, as {@link Mince} does. */
    private double mince(MinceTarget target, double[] kg) {
        double lean = minceSlots.leanKg(kg);
        double fatTrim = minceSlots.fatTrimKg(kg);
        double added = Mince.addedKg(target, lean, minceSlots.fatInLeanKg(kg), fatTrim, minceSlots.fatOfFatTrim(kg));
        for (int slot : minceSlots.fatTrim) {
            kg[slot] = Mince.leftKg(kg[slot], added, fatTrim);
        }
        for (int slot : minceSlots.lean) {
            kg[slot] = 0;
        }
        return lean + added;
    }
}
