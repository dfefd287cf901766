package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ConcurrentHashMap;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.grid.Nodes;
import org.beefyield.grid.TableLayout;
import org.beefyield.grid.YieldGrid;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * Estimates many carcasses into arrays of the caller's: kilograms of every cut of one level, or of all, the same to the
 * last bit as {@link YieldEstimator#estimate} gives one by one, and SDs where they are asked for. Nothing is allocated for a carcass, and no row throws:
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

    /** Rows of a column that are filled at a time: so many that memory is written in long runs. */
    private static final int RUN = 512;

    /** Coefficients of a polynomial in weight that {@link #shares} holds: those of a breakdown twice over. */
    private static final int COEFFICIENTS = 3;

    /** Grades and widths of which the variances of all columns are kept; far above what a herd has. */
    private static final int MOST_KEPT = 5_000;

    private final Model model;
    private final RowChecks checks;
    private final YieldGrid[] grids;
    private final double referenceWeightKg;
    /**
     * The columns' polynomials at every node, node by node and column by column: constant, slope and square, in the order in
     * which they are read. Null where only {@link YieldGrid#kg} knows: with mince, and for polynomials of a higher degree.
     */
    private final double @Nullable [] shares;

    /** By node of {@link RowChecks}, where its polynomials stand. */
    private final int[] sharesOf;

    private final int length;
    private final int from;
    private final int slots;
    private final List<YieldColumn> columns = new ArrayList<>();
    private final @Nullable MinceTarget minceTarget;
    private final MinceSlots minceSlots;
    /** Of every column, a polynomial in t. */
    private final Map<Graded, double[][]> variances = new ConcurrentHashMap<>();

    /** Where a row's variances are those of another. */
    private record Graded(Category category, int node, double conformationWidth, double fatWidth) {}

    YieldColumns(Model model, int firstLevel, int lastLevel) {
        this.model = model;
        checks = new RowChecks(model);
        List<Category> categories = checks.categories();
        grids = new YieldGrid[categories.size()];
        for (int i = 0; i < grids.length; i++) {
            grids[i] = model.grid(categories.get(i));
        }
        length = grids[0].length();
        TableLayout layout = model.layout();
        from = layout.start(firstLevel);
        slots = layout.start(lastLevel + 1) - from;
        for (int level = firstLevel; level <= lastLevel; level++) {
            for (Cut cut : layout.cutsAt(level)) {
                columns.add(new YieldColumn(layout.levels().get(level), cut));
            }
        }
        boolean minced = lastLevel == layout.levels().size() - 1;
        minceTarget = minced ? model.minceTarget().orElse(null) : null;
        minceSlots = model.minceSlots();
        if (minceTarget != null) {
            String level = layout.levels().get(lastLevel);
            columns.add(new YieldColumn(level, Outturn.mince(level)));
        }
        referenceWeightKg = grids[0].referenceWeightKg();
        sharesOf = new int[checks.nodes()];
        shares = minceTarget == null && grids[0].coefficients() <= COEFFICIENTS ? shares() : null;
    }

    /** Only what the columns show, close together: what a second-level cache holds. Categories may share a grid. */
    private double[] shares() {
        Nodes nodes = grids[0].nodes();
        List<YieldGrid> different = Arrays.stream(grids).distinct().toList();
        double[] all = new double[different.size() * nodes.size() * COEFFICIENTS * slots];
        for (int category = 0; category < grids.length; category++) {
            for (int c = checks.lowThirdOfConformation(); c <= checks.highThirdOfConformation(); c++) {
                for (int f = checks.lowThirdOfFat(); f <= checks.highThirdOfFat(); f++) {
                    int node = nodes.at(c, f);
                    int at = checks.node(different.indexOf(grids[category]), node) * COEFFICIENTS * slots;
                    sharesOf[checks.node(category, node)] = at;
                    for (int k = 0; k < slots; k++) {
                        double[] polynomial = grids[category].ofSlots(node, from + k);
                        for (int j = 0; j < polynomial.length; j++) {
                            all[at + k * COEFFICIENTS + j] = polynomial[j];
                        }
                    }
                }
            }
        }
        return all;
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
        Objects.requireNonNull(carcasses, "carcasses");
        Objects.requireNonNull(kg, "kg");
        Objects.requireNonNull(flags, "flags");
        int rows = checkRows(carcasses, from, to, flags);
        int width = columns.size();
        if (kg.length < (long) rows * width) {
            throw new IllegalArgumentException(
                    "kg has " + kg.length + " places, " + rows + " rows of " + width + " columns need more");
        }
        return byRow(carcasses, from, rows, kg, flags, 0, new double[length]);
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
        Checks.noNullIn(kg, "kg");
        Objects.requireNonNull(carcasses, "carcasses");
        Objects.requireNonNull(flags, "flags");
        int rows = checkRows(carcasses, from, to, flags);
        checkColumns(kg, rows);
        byte[] conformation = carcasses.conformationThirds();
        byte[] fat = carcasses.fatThirds();
        return shares != null && conformation != null && fat != null
                ? byColumn(shares, carcasses, conformation, fat, from, rows, kg, flags)
                : byTile(carcasses, from, rows, kg, flags);
    }

    /**
     * Estimates a chunk into one array for each column, with SDs beside the kilograms: those that {@link YieldEstimate#sd} gives
     * one by one. They take longer than the kilograms, least for grades that are whole positions and without mince.
     *
     * @param carcasses carcasses
     * @param from first row of the chunk
     * @param to row behind its last
     * @param kg takes kilograms, both sides together; NaN where a row is refused
     * @param sdKg takes SDs from all parts of the uncertainty together, kg, as {@code kg} does
     * @param flags takes the flags of row {@code from + i} at i
     * @return number of rows that were refused
     * @throws IndexOutOfBoundsException if there are no such rows
     * @throws IllegalArgumentException if there is another number of arrays than of columns, or one is too short
     */
    public int estimate(CarcassColumns carcasses, int from, int to, double[][] kg, double[][] sdKg, byte[] flags) {
        Objects.requireNonNull(carcasses, "carcasses");
        Objects.requireNonNull(flags, "flags");
        Checks.noNullIn(kg, "kg");
        Checks.noNullIn(sdKg, "sdKg");
        int rows = checkRows(carcasses, from, to, flags);
        checkColumns(sdKg, rows);
        int refused = estimate(carcasses, from, to, kg, flags);
        for (int i = 0; i < rows; i++) {
            if (RowFlag.isRefused(flags[i])) {
                for (double[] column : sdKg) {
                    column[i] = Double.NaN;
                }
            } else {
                sds(carcasses, from + i, sdKg, i);
            }
        }
        return refused;
    }

    private void sds(CarcassColumns carcasses, int row, double[][] sdKg, int at) {
        double conformation = carcasses.conformation(row);
        double fat = carcasses.fat(row);
        if (minceTarget == null && conformation == Math.rint(conformation) && fat == Math.rint(fat)) {
            Graded graded = new Graded(
                    checks.categories().get(checks.category(carcasses.category(row))),
                    model.nodes().at((int) conformation, (int) fat),
                    carcasses.conformationWidth(row),
                    carcasses.fatWidth(row));
            double t = (carcasses.coldWeightKg(row) - referenceWeightKg) / 100;
            double[][] polynomials = variances(graded);
            for (int k = 0; k < sdKg.length; k++) {
                sdKg[k][at] = Math.sqrt(Math.max(0, Variances.at(polynomials[k], t)));
            }
            return;
        }
        YieldEstimate estimate = YieldEstimate.of(model, carcasses.carcass(row));
        for (int k = 0; k < sdKg.length; k++) {
            sdKg[k][at] =
                    estimate.sd(columns.get(k).level(), columns.get(k).cut().code());
        }
    }

    private double[][] variances(Graded graded) {
        double[][] found = variances.get(graded);
        if (found == null) {
            Moments moments = new Moments(model);
            found = new double[slots][];
            for (int k = 0; k < slots; k++) {
                double[] figure = new double[length];
                figure[from + k] = 1;
                Spread spread = new Spread(moments, figure);
                found[k] = spread.covariance(
                        graded.category(), graded.node(), graded.conformationWidth(), graded.fatWidth(), spread);
            }
            if (variances.size() < MOST_KEPT) {
                variances.put(graded, found);
            }
        }
        return found;
    }

    private void checkColumns(double[][] arrays, int rows) {
        if (arrays.length != columns.size()) {
            throw new IllegalArgumentException(arrays.length + " arrays for " + columns.size() + " columns");
        }
        for (double[] column : arrays) {
            if (column.length < rows) {
                throw new IllegalArgumentException("a column has " + column.length + " places for " + rows + " rows");
            }
        }
    }

    /** Row by row into a tile, and from there into columns. */
    private int byTile(CarcassColumns carcasses, int from, int rows, double[][] kg, byte[] flags) {
        int width = columns.size();
        double[] scratch = new double[length];
        double[] tile = new double[TILE * width];
        int refused = 0;
        for (int start = 0; start < rows; start += TILE) {
            int height = Math.min(TILE, rows - start);
            refused += byRow(carcasses, from + start, height, tile, flags, start, scratch);
            for (int k = 0; k < width; k++) {
                for (int i = 0; i < height; i++) {
                    kg[k][start + i] = tile[i * width + k];
                }
            }
        }
        return refused;
    }

    /** Column by column: what nearly every row is, and over it those few that are something else. */
    private int byColumn(
            double[] shares,
            CarcassColumns carcasses,
            byte[] conformation,
            byte[] fat,
            int from,
            int rows,
            double[][] kg,
            byte[] flags) {
        byte[] categories = carcasses.categories();
        double[] weights = carcasses.coldWeightsKg();
        int[] at = new int[RUN];
        double[] t = new double[RUN];
        double[] w = new double[RUN];
        int[] unusual = new int[RUN];
        double[] row = new double[slots];
        double[] scratch = new double[length];
        int refused = 0;
        for (int start = 0; start < rows; start += RUN) {
            int height = Math.min(RUN, rows - start);
            int others = 0;
            for (int i = 0; i < height; i++) {
                int of = from + start + i;
                int node = checks.usualNode(categories[of], conformation[of], fat[of], weights[of]);
                flags[start + i] = 0;
                at[i] = node >= 0 ? sharesOf[node] : 0;
                w[i] = weights[of];
                t[i] = (weights[of] - referenceWeightKg) / 100;
                if (node < 0) {
                    unusual[others] = i;
                    others++;
                }
            }
            int k = 0;
            for (; k + 4 <= slots; k += 4) {
                fillFour(shares, at, k, t, w, height, kg[k], kg[k + 1], kg[k + 2], kg[k + 3], start);
            }
            for (; k < slots; k++) {
                fill(shares, at, k, t, w, height, kg[k], start);
            }
            for (int other = 0; other < others; other++) {
                int i = start + unusual[other];
                refused += row(carcasses, from + i, row, 0, flags, i, scratch);
                for (k = 0; k < slots; k++) {
                    kg[k][i] = row[k];
                }
            }
        }
        return refused;
    }

    /** In the order of operations of {@link YieldGrid#kg}, whose bits these are. */
    private static double kg(double[] shares, int at, double t, double w) {
        return ((shares[at + 2] * t + shares[at + 1]) * t + shares[at]) * w;
    }

    private static void fill(
            double[] shares, int[] at, int k, double[] t, double[] w, int rows, double[] kg, int start) {
        for (int i = 0; i < rows; i++) {
            int a = at[i] + k * COEFFICIENTS;
            kg[start + i] = kg(shares, a, t[i], w[i]);
        }
    }

    // four columns at once, for what they need of a node lies side by side
    private static void fillFour(
            double[] shares,
            int[] at,
            int k,
            double[] t,
            double[] w,
            int rows,
            double[] kg0,
            double[] kg1,
            double[] kg2,
            double[] kg3,
            int start) {
        for (int i = 0; i < rows; i++) {
            int a = at[i] + k * COEFFICIENTS;
            double ti = t[i];
            double wi = w[i];
            kg0[start + i] = kg(shares, a, ti, wi);
            kg1[start + i] = kg(shares, a + COEFFICIENTS, ti, wi);
            kg2[start + i] = kg(shares, a + 2 * COEFFICIENTS, ti, wi);
            kg3[start + i] = kg(shares, a + 3 * COEFFICIENTS, ti, wi);
        }
    }

    static int checkRows(CarcassColumns carcasses, int from, int to, byte[] flags) {
        Objects.checkFromToIndex(from, to, carcasses.size());
        if (flags.length < to - from) {
            throw new IllegalArgumentException("flags has " + flags.length + " places for " + (to - from) + " rows");
        }
        return to - from;
    }

    private int byRow(
            CarcassColumns carcasses, int from, int rows, double[] kg, byte[] flags, int firstFlag, double[] scratch) {
        byte[] categories = carcasses.categories();
        byte[] conformation = carcasses.conformationThirds();
        byte[] fat = carcasses.fatThirds();
        double[] weights = carcasses.coldWeightsKg();
        int width = columns.size();
        int refused = 0;
        for (int i = 0; i < rows; i++) {
            int of = from + i;
            double weight = weights[of];
            int node = shares != null && conformation != null && fat != null
                    ? checks.usualNode(categories[of], conformation[of], fat[of], weight)
                    : -1;
            if (shares != null && node >= 0) {
                flags[firstFlag + i] = 0;
                fill(shares, sharesOf[node], slots, (weight - referenceWeightKg) / 100, weight, kg, i * width);
            } else {
                refused += row(carcasses, of, kg, i * width, flags, firstFlag + i, scratch);
            }
        }
        return refused;
    }

    private static void fill(double[] shares, int a, int slots, double t, double w, double[] kg, int at) {
        int b = a;
        int k = at;
        for (; k + 4 <= at + slots; k += 4) {
            kg[k] = kg(shares, b, t, w);
            kg[k + 1] = kg(shares, b + COEFFICIENTS, t, w);
            kg[k + 2] = kg(shares, b + 2 * COEFFICIENTS, t, w);
            kg[k + 3] = kg(shares, b + 3 * COEFFICIENTS, t, w);
            b += 4 * COEFFICIENTS;
        }
        for (; k < at + slots; k++) {
            kg[k] = kg(shares, b, t, w);
            b += COEFFICIENTS;
        }
    }

    /** Any row; returns 1 if it is refused. */
    private int row(
            CarcassColumns carcasses, int row, double[] kg, int at, byte[] flags, int flagAt, double[] scratch) {
        byte flag = checks.flags(carcasses, row);
        flags[flagAt] = flag;
        if (RowFlag.isRefused(flag)) {
            Arrays.fill(kg, at, at + columns.size(), Double.NaN);
            return 1;
        }
        grids[checks.category(carcasses.category(row))].kg(
                carcasses.conformation(row), carcasses.fat(row), carcasses.coldWeightKg(row), scratch);
        if (minceTarget != null) {
            kg[at + slots] = mince(minceTarget, scratch);
        }
        System.arraycopy(scratch, from, kg, at, slots);
        return 0;
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
