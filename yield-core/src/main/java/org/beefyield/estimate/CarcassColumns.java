package org.beefyield.estimate;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Objects;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.jspecify.annotations.Nullable;

/**
 * Many carcasses as columns: arrays of one length, row i of each belonging to one carcass. The arrays are the caller's
 * and are not copied, so that a chunk can be filled again and again; nobody may change them while they are read. What
 * they hold is checked row by row when it is estimated.
 */
public final class CarcassColumns {
    /** A whole class. */
    private static final double WIDEST = 3;

    private final byte[] categories;
    private final byte @Nullable [] conformationThirds;
    private final byte @Nullable [] fatThirds;
    private final double @Nullable [] conformationPositions;
    private final double @Nullable [] fatPositions;
    /** Of all rows, unless each has its own. */
    private final double conformationWidth;

    private final double fatWidth;
    private final double @Nullable [] conformationWidths;
    private final double @Nullable [] fatWidths;
    private final double[] coldWeightsKg;
    /** What each row has in common with others. */
    private final Keys keys;

    /** Lots and runs of the rows, as far as they are known: by number, or those of carcasses. */
    private static final class Keys {
        static final Keys NOT_KNOWN = new Keys(null, null, null);

        private final int @Nullable [] lots;
        private final int @Nullable [] runs;
        private final @Nullable List<Carcass> carcasses;

        Keys(int @Nullable [] lots, int @Nullable [] runs, @Nullable List<Carcass> carcasses) {
            this.lots = lots;
            this.runs = runs;
            this.carcasses = carcasses;
        }

        boolean isKnown() {
            return lots != null || runs != null || carcasses != null;
        }
    }

    private CarcassColumns(CarcassColumns like, Keys keys) {
        this(
                like.categories,
                like.conformationThirds,
                like.fatThirds,
                like.conformationPositions,
                like.fatPositions,
                like.conformationWidth,
                like.fatWidth,
                like.conformationWidths,
                like.fatWidths,
                like.coldWeightsKg,
                keys);
    }

    private CarcassColumns(
            byte[] categories,
            byte @Nullable [] conformationThirds,
            byte @Nullable [] fatThirds,
            double @Nullable [] conformationPositions,
            double @Nullable [] fatPositions,
            double conformationWidth,
            double fatWidth,
            double @Nullable [] conformationWidths,
            double @Nullable [] fatWidths,
            double[] coldWeightsKg,
            Keys keys) {
        this.categories = categories;
        this.conformationThirds = conformationThirds;
        this.fatThirds = fatThirds;
        this.conformationPositions = conformationPositions;
        this.fatPositions = fatPositions;
        this.conformationWidth = conformationWidth;
        this.fatWidth = fatWidth;
        this.conformationWidths = conformationWidths;
        this.fatWidths = fatWidths;
        this.coldWeightsKg = coldWeightsKg;
        this.keys = keys;
    }

    /**
     * The same carcasses with the lot of each row: those of a lot have errors in common. The array is the caller's and isn't
     * copied.
     *
     * @param lots numbers of the lots, 0 or more; one number is one lot in all columns that are added up or compared; below 0:
     *     not known, and all of these are taken for one lot
     * @return carcasses in columns
     * @throws IllegalArgumentException if the array has another length than the columns
     */
    public CarcassColumns withLots(int[] lots) {
        checkKeys(Objects.requireNonNull(lots, "lots"), "lots");
        return new CarcassColumns(this, new Keys(lots, keys.runs, null));
    }

    /**
     * The same carcasses with the run of each row: those that one hall bones in one run have errors in common. The array is the
     * caller's and isn't copied. All runs are taken to be of one hall.
     *
     * @param runs numbers of the runs, 0 or more; one number is one run in all columns that are added up or compared; below 0:
     *     not known, and all of these are taken for one run
     * @return carcasses in columns
     * @throws IllegalArgumentException if the array has another length than the columns
     */
    public CarcassColumns withRuns(int[] runs) {
        checkKeys(Objects.requireNonNull(runs, "runs"), "runs");
        return new CarcassColumns(this, new Keys(keys.lots, runs, null));
    }

    private void checkKeys(int[] numbers, String what) {
        if (numbers.length != size()) {
            throw new IllegalArgumentException(
                    "columns of different lengths: " + size() + " carcasses, " + numbers.length + " " + what);
        }
    }

    /** Whether lots or runs of rows are known. */
    boolean hasKeys() {
        return keys.isKnown();
    }

    /** The same rows as one lot of one run. */
    CarcassColumns withoutKeys() {
        return hasKeys() ? new CarcassColumns(this, Keys.NOT_KNOWN) : this;
    }

    /** Number of a row's lot, below 0 if not known. */
    int lotNumber(int row) {
        return keys.lots == null ? -1 : keys.lots[row];
    }

    /** Number of a row's run, below 0 if not known. */
    int runNumber(int row) {
        return keys.runs == null ? -1 : keys.runs[row];
    }

    /** Copies the numbers of rows' lots and runs, below 0 if not known, to a place on. */
    void copyNumbers(int from, int to, int[] lots, int[] runs, int at) {
        copy(keys.lots, from, to, lots, at);
        copy(keys.runs, from, to, runs, at);
    }

    private static void copy(int @Nullable [] numbers, int from, int to, int[] copies, int at) {
        if (numbers == null) {
            Arrays.fill(copies, at, at + to - from, -1);
        } else {
            System.arraycopy(numbers, from, copies, at, to - from);
        }
    }

    LotKey lot(int row) {
        return keys.carcasses != null ? LotKey.of(keys.carcasses.get(row)) : LotKey.numbered(lotNumber(row));
    }

    RunKey run(int row) {
        return keys.carcasses != null ? RunKey.of(keys.carcasses.get(row)) : RunKey.numbered(runNumber(row));
    }

    /**
     * Carcasses graded in thirds of classes.
     *
     * @param categories letters of the categories in ASCII, such as {@code 'C'}
     * @param conformation positions on the 18-point scale: 1 is P-, 8 is R=, 18 is S+
     * @param fat positions on the 15-point scale: 1 is 1-, 8 is 3=, 15 is 5+
     * @param coldWeightsKg cold weights, kg
     * @return the carcasses
     * @throws IllegalArgumentException if the arrays differ in length
     */
    public static CarcassColumns thirds(byte[] categories, byte[] conformation, byte[] fat, double[] coldWeightsKg) {
        Objects.requireNonNull(categories, "categories");
        Objects.requireNonNull(conformation, "conformation");
        Objects.requireNonNull(fat, "fat");
        Objects.requireNonNull(coldWeightsKg, "coldWeightsKg");
        checkLengths(categories.length, conformation.length, fat.length, coldWeightsKg.length);
        return new CarcassColumns(
                categories, conformation, fat, null, null, 1, 1, null, null, coldWeightsKg, Keys.NOT_KNOWN);
    }

    /**
     * Carcasses graded in any other way, at the middle of what the grade covers: whole classes (R is 8, of width 3),
     * halves (width 1.5), or the positions of a grading machine.
     *
     * @param categories letters of the categories in ASCII, such as {@code 'C'}
     * @param conformation positions on the 18-point scale
     * @param conformationWidth part of the scale that each stands for, 0 to 3 points
     * @param fat positions on the 15-point scale
     * @param fatWidth part of the scale that each stands for, 0 to 3 points
     * @param coldWeightsKg cold weights, kg
     * @return the carcasses
     * @throws IllegalArgumentException if the arrays differ in length or a width is outside its range
     */
    public static CarcassColumns positions(
            byte[] categories,
            double[] conformation,
            double conformationWidth,
            double[] fat,
            double fatWidth,
            double[] coldWeightsKg) {
        Objects.requireNonNull(categories, "categories");
        Objects.requireNonNull(conformation, "conformation");
        Objects.requireNonNull(fat, "fat");
        Objects.requireNonNull(coldWeightsKg, "coldWeightsKg");
        checkLengths(categories.length, conformation.length, fat.length, coldWeightsKg.length);
        return new CarcassColumns(
                categories,
                null,
                null,
                conformation,
                fat,
                Conformation.ofPosition(1, conformationWidth).width(),
                FatClass.ofPosition(1, fatWidth).width(),
                null,
                null,
                coldWeightsKg,
                Keys.NOT_KNOWN);
    }

    /**
     * Carcasses of which each is graded in its own way, such as R, R= and 4L in one column: at the middle of what the grade
     * covers, and how much that is. A row whose width is outside its range is refused for that grade.
     *
     * @param categories letters of the categories in ASCII, such as {@code 'C'}
     * @param conformation positions on the 18-point scale
     * @param conformationWidths part of the scale that each stands for, 0 to 3 points
     * @param fat positions on the 15-point scale
     * @param fatWidths part of the scale that each stands for, 0 to 3 points
     * @param coldWeightsKg cold weights, kg
     * @return the carcasses
     * @throws IllegalArgumentException if the arrays differ in length
     */
    public static CarcassColumns positions(
            byte[] categories,
            double[] conformation,
            double[] conformationWidths,
            double[] fat,
            double[] fatWidths,
            double[] coldWeightsKg) {
        Objects.requireNonNull(categories, "categories");
        Objects.requireNonNull(conformation, "conformation");
        Objects.requireNonNull(conformationWidths, "conformationWidths");
        Objects.requireNonNull(fat, "fat");
        Objects.requireNonNull(fatWidths, "fatWidths");
        Objects.requireNonNull(coldWeightsKg, "coldWeightsKg");
        checkLengths(categories.length, conformation.length, fat.length, coldWeightsKg.length);
        if (conformationWidths.length != categories.length || fatWidths.length != categories.length) {
            throw new IllegalArgumentException("columns of different lengths: " + categories.length + " categories, "
                    + conformationWidths.length + " widths of conformation, " + fatWidths.length
                    + " widths of fat classes");
        }
        return new CarcassColumns(
                categories,
                null,
                null,
                conformation,
                fat,
                WIDEST,
                WIDEST,
                conformationWidths,
                fatWidths,
                coldWeightsKg,
                Keys.NOT_KNOWN);
    }

    /**
     * Carcasses into columns, however each is graded, with their lots, runs and halls.
     *
     * @param carcasses carcasses
     * @return the same in new arrays, in their order
     */
    public static CarcassColumns of(Collection<Carcass> carcasses) {
        int size = Objects.requireNonNull(carcasses, "carcasses").size();
        byte[] categories = new byte[size];
        double[] conformation = new double[size];
        double[] conformationWidths = new double[size];
        double[] fat = new double[size];
        double[] fatWidths = new double[size];
        double[] coldWeightsKg = new double[size];
        int row = 0;
        for (Carcass carcass : carcasses) {
            Objects.requireNonNull(carcass, "carcass in carcasses");
            categories[row] = (byte) carcass.category().letter().charAt(0);
            conformation[row] = carcass.conformation().position();
            conformationWidths[row] = carcass.conformation().width();
            fat[row] = carcass.fatClass().position();
            fatWidths[row] = carcass.fatClass().width();
            coldWeightsKg[row] = carcass.coldWeightKg();
            row++;
        }
        return new CarcassColumns(
                positions(categories, conformation, conformationWidths, fat, fatWidths, coldWeightsKg),
                new Keys(null, null, List.copyOf(carcasses)));
    }

    private static void checkLengths(int categories, int conformation, int fat, int weights) {
        if (conformation != categories || fat != categories || weights != categories) {
            throw new IllegalArgumentException("columns of different lengths: " + categories + " categories, "
                    + conformation + " conformations, " + fat + " fat classes, " + weights + " weights");
        }
    }

    /**
     * Number of carcasses.
     *
     * @return length of each column
     */
    public int size() {
        return categories.length;
    }

    byte[] categories() {
        return categories;
    }

    byte @Nullable [] conformationThirds() {
        return conformationThirds;
    }

    byte @Nullable [] fatThirds() {
        return fatThirds;
    }

    double[] coldWeightsKg() {
        return coldWeightsKg;
    }

    byte category(int row) {
        return categories[row];
    }

    double conformation(int row) {
        return conformationThirds != null ? conformationThirds[row] : at(conformationPositions, row);
    }

    double fat(int row) {
        return fatThirds != null ? fatThirds[row] : at(fatPositions, row);
    }

    private static double at(double @Nullable [] positions, int row) {
        return Objects.requireNonNull(positions)[row];
    }

    double coldWeightKg(int row) {
        return coldWeightsKg[row];
    }

    double conformationWidth() {
        return conformationWidth;
    }

    double fatWidth() {
        return fatWidth;
    }

    /** Whether each row has widths of its own. */
    boolean hasWidths() {
        return conformationWidths != null;
    }

    double conformationWidth(int row) {
        return conformationWidths == null ? conformationWidth : conformationWidths[row];
    }

    double fatWidth(int row) {
        return fatWidths == null ? fatWidth : fatWidths[row];
    }

    static boolean isWidth(double width) {
        return width >= 0 && width <= WIDEST;
    }

    /**
     * One row as a carcass, such as to be told in words why it was refused.
     *
     * @param row row from 0
     * @return the carcass
     * @throws IllegalArgumentException if what the row holds is no carcass
     * @throws IndexOutOfBoundsException if there is no such row
     */
    public Carcass carcass(int row) {
        Category category =
                Category.parse(new String(categories, Objects.checkIndex(row, size()), 1, StandardCharsets.ISO_8859_1));
        return conformationThirds != null && fatThirds != null
                ? Carcass.of(
                        category,
                        Conformation.third(conformationThirds[row]),
                        FatClass.third(fatThirds[row]),
                        coldWeightsKg[row])
                : Carcass.of(
                        category,
                        Conformation.ofPosition(conformation(row), conformationWidth(row)),
                        FatClass.ofPosition(fat(row), fatWidth(row)),
                        coldWeightsKg[row]);
    }

    /**
     * One line.
     *
     * @return such as {@code 1000 carcasses in columns}
     */
    @Override
    public String toString() {
        return size() + (size() == 1 ? " carcass" : " carcasses") + " in columns";
    }
}
