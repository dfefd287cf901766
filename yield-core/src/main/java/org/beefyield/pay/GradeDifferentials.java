package org.beefyield.pay;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.DoubleBinaryOperator;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.Difference;
import org.beefyield.frame.Frame;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.table.definition.TableRange;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.ShownInBlocks;
import org.jspecify.annotations.Nullable;

/**
 * What every grade is worth against a base grade at one weight and category: the payment grid that a plant could defend,
 * and, beside the one it pays, where the two differ. Cells are those that the table allows, conformation from best to
 * poorest down, fat class from lean to fat across. Immutable.
 */
public final class GradeDifferentials implements ShownInBlocks {

    private final Valuer valuer;
    private final Carcass base;
    private final List<Conformation> conformations;
    private final List<FatClass> fatClasses;
    private final @Nullable PaymentGrid grid;

    private GradeDifferentials(
            Valuer valuer,
            Carcass base,
            List<Conformation> conformations,
            List<FatClass> fatClasses,
            @Nullable PaymentGrid grid) {
        this.valuer = valuer;
        this.base = base;
        this.conformations = conformations;
        this.fatClasses = fatClasses;
        this.grid = grid;
    }

    /**
     * Cells of whole classes; each is valued at its middle.
     *
     * @param valuer prices and yields
     * @param base carcass of the base grade; its category and weight are those of every cell
     * @return the differentials
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for the base
     * @throws IllegalArgumentException if the base is worth 0 or less
     */
    public static GradeDifferentials classes(Valuer valuer, Carcass base) {
        Objects.requireNonNull(valuer, "valuer");
        Objects.requireNonNull(base, "base");
        return of(valuer, base, Conformation.classes(), FatClass.classes());
    }

    /**
     * Cells of thirds of classes.
     *
     * @param valuer prices and yields
     * @param base carcass of the base grade; its category and weight are those of every cell
     * @return the differentials
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for the base
     * @throws IllegalArgumentException if the base is worth 0 or less
     */
    public static GradeDifferentials thirds(Valuer valuer, Carcass base) {
        Objects.requireNonNull(valuer, "valuer");
        Objects.requireNonNull(base, "base");
        List<Conformation> bestFirst = new ArrayList<>(Conformation.thirds());
        Collections.reverse(bestFirst);
        return of(valuer, base, bestFirst, FatClass.thirds());
    }

    private static GradeDifferentials of(
            Valuer valuer, Carcass base, List<Conformation> conformations, List<FatClass> fatClasses) {
        double perKg = valuer.value(base).perKg();
        if (!(perKg > 0)) {
            throw new IllegalArgumentException("the base " + base + " is worth " + Numbers.brief(perKg)
                    + " a kg; differentials need a base that is worth more than 0");
        }
        TableRange allowed = valuer.estimator().table().definition().allowed();
        return new GradeDifferentials(
                valuer,
                base,
                conformations.stream()
                        .filter(grade -> allowed.conformation().contains(grade.position()))
                        .toList(),
                fatClasses.stream()
                        .filter(grade -> allowed.fat().contains(grade.position()))
                        .toList(),
                null);
    }

    /**
     * The same beside what a plant pays.
     *
     * @param paid payment grid; if it has a bonus for being in specification, with a test of it
     * @return the differentials
     * @throws IllegalArgumentException if it is in another currency, or doesn't pay for the base
     */
    public GradeDifferentials beside(PaymentGrid paid) {
        Objects.requireNonNull(paid, "paid");
        valuer.prices().checkCurrency(paid.currency());
        paid.paid(base);
        return new GradeDifferentials(valuer, base, conformations, fatClasses, paid);
    }

    /**
     * Prices and yields behind the figures.
     *
     * @return the valuer
     */
    public Valuer valuer() {
        return valuer;
    }

    /**
     * The base.
     *
     * @return carcass of the base grade; its category and weight are those of every cell
     */
    public Carcass base() {
        return base;
    }

    /**
     * What the plant pays by.
     *
     * @return the payment grid, or empty if none is looked at
     */
    public Optional<PaymentGrid> grid() {
        return Optional.ofNullable(grid);
    }

    /**
     * Rows of every matrix.
     *
     * @return conformations, best first
     */
    public List<Conformation> conformations() {
        return conformations;
    }

    /**
     * Columns of every matrix.
     *
     * @return fat classes, leanest first
     */
    public List<FatClass> fatClasses() {
        return fatClasses;
    }

    private interface Cell {
        double of(Carcass carcass);
    }

    private double[][] matrix(Cell cell) {
        double[][] matrix = new double[conformations.size()][fatClasses.size()];
        for (int i = 0; i < matrix.length; i++) {
            for (int j = 0; j < matrix[i].length; j++) {
                matrix[i][j] = cell.of(
                        Carcass.of(base.category(), conformations.get(i), fatClasses.get(j), base.coldWeightKg()));
            }
        }
        return matrix;
    }

    /**
     * SDs of what each grade is expected to be worth more than the base, prices as given: errors that all grades have in common
     * cancel, and how single carcasses, lots and runs differ is not in them.
     *
     * @return per kg of cold weight, a row for each conformation and a column for each fat class
     */
    public double[][] expectedSdPerKg() {
        return matrix(grade -> perKg(grade.conformation(), grade.fatClass()).expectedSdKg());
    }

    /** What these SDs hold, in words. */
    List<String> sdWords() {
        return conformations.stream()
                .map(conformation -> perKg(conformation, base.fatClass()).expectedIntervalWords())
                .filter(words -> !words.isEmpty())
                .findFirst()
                .orElse(List.of());
    }

    private static double[][] both(double[][] a, double[][] b, DoubleBinaryOperator operator) {
        double[][] result = new double[a.length][];
        for (int i = 0; i < a.length; i++) {
            result[i] = new double[a[i].length];
            for (int j = 0; j < a[i].length; j++) {
                result[i][j] = operator.applyAsDouble(a[i][j], b[i][j]);
            }
        }
        return result;
    }

    /**
     * What a kg is worth in every cell.
     *
     * @return values per kg of cold weight
     */
    public double[][] valuePerKg() {
        return matrix(carcass -> valuer.value(carcass).perKg());
    }

    /**
     * How much more a kg is worth than of the base.
     *
     * @return differences per kg of cold weight, below 0 for less
     */
    public double[][] perKg() {
        double ofBase = valuer.value(base).perKg();
        return matrix(carcass -> valuer.value(carcass).perKg() - ofBase);
    }

    /**
     * How much more a kg of one grade is worth than of the base, and how sure that is. Meant is the expectation, of many carcasses
     * of either grade: see {@link Difference#expectedInterval}.
     *
     * @param conformation conformation
     * @param fatClass fat class
     * @return difference per kg of cold weight, in the currency in place of kg
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for the grade
     */
    public Difference perKg(Conformation conformation, FatClass fatClass) {
        Objects.requireNonNull(conformation, "conformation");
        Objects.requireNonNull(fatClass, "fatClass");
        Value ofBase = valuer.value(base);
        Value ofGrade = valuer.value(Carcass.of(base.category(), conformation, fatClass, base.coldWeightKg()));
        double perKg = 1 / base.coldWeightKg();
        Difference ofCuts = ofGrade.outturn()
                .minus(
                        ofGrade.figure().times(perKg),
                        ofBase.outturn(),
                        ofBase.figure().times(perKg));
        return ofCuts.plus(ofGrade.perKg() - ofBase.perKg() - ofCuts.kg());
    }

    /**
     * How much more a kg is worth than of the base, relatively.
     *
     * @return per cent of the base's value, below 0 for less
     */
    public double[][] percent() {
        double ofBase = valuer.value(base).perKg();
        return matrix(carcass -> 100 * (valuer.value(carcass).perKg() / ofBase - 1));
    }

    /**
     * How much more the plant pays for a kg than of the base.
     *
     * @return differences per kg of cold weight, NaN for cells that its grid doesn't pay; empty without a grid
     */
    public Optional<double[][]> paidPerKg() {
        return Optional.ofNullable(grid).map(paid -> {
            double ofBase = paid.paid(base).perKg().doubleValue();
            return matrix(
                    carcass -> paid.pays(carcass) ? paid.paid(carcass).perKg().doubleValue() - ofBase : Double.NaN);
        });
    }

    /**
     * How much better a grade is than what is paid for it, against the base.
     *
     * @return {@link #perKg()} less {@link #paidPerKg()}: above 0 where the grid pays too little for the grade, below 0
     *     where it pays too much; empty without a grid
     */
    public Optional<double[][]> gapPerKg() {
        return paidPerKg().map(paid -> both(perKg(), paid, (worth, pays) -> worth - pays));
    }

    /**
     * What one point of conformation, one point of fat and 10 kg are worth at the base.
     *
     * @return changes in value
     */
    public Marginals marginals() {
        return Marginals.of(valuer, base);
    }

    /**
     * The same at any cell.
     *
     * @param conformation conformation
     * @param fatClass fat class
     * @return changes in value of a carcass of the base's category and weight
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for the grade
     */
    public Marginals marginals(Conformation conformation, FatClass fatClass) {
        Objects.requireNonNull(conformation, "conformation");
        Objects.requireNonNull(fatClass, "fatClass");
        return Marginals.of(valuer, Carcass.of(base.category(), conformation, fatClass, base.coldWeightKg()));
    }

    /**
     * The differentials as a frame, a row for each grade.
     *
     * @return {@code table}; {@code category} and {@code cold weight} in kg, the same in every row; {@code conformation};
     *     {@code fat class}; in the currency a kg of cold weight {@code value}, {@code worth more} than the base,
     *     {@code 90 % interval low} and {@code high} of that, the expectation's; {@code worth more share} in % of the base's
     *     value; and beside a grid {@code paid more} than the base and {@code gap}, what the grade is worth more than is paid
     *     for it, missing where the grid doesn't pay
     */
    public Frame toFrame() {
        return new GradeDifferentialsText(this).frame();
    }

    /**
     * The differentials for people: tables per kg and per cent and, beside a grid, what it pays and the gap.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new GradeDifferentialsText(this).blocks();
    }

    /**
     * One line.
     *
     * @return such as {@code Grades of category C at 340 kg against R= 3=, worth 4.651 EUR a kg}
     */
    @Override
    public String toString() {
        return new GradeDifferentialsText(this).sentence();
    }
}
