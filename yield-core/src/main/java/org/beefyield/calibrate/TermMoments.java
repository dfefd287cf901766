package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.beefyield.carcass.Carcass;
import org.beefyield.stats.Regression;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.TableRange;
import org.beefyield.text.Checks;

/**
 * The mean squares and products of a table's terms over carcasses: what one carcass behind the table says about its
 * coefficients. With them, a strength of shrinkage counts carcasses.
 */
public final class TermMoments {
    private final List<String> columns;
    /** Terms of each carcass, times the root of its part of the whole. */
    private final double[][] rows;

    private TermMoments(List<String> columns, double[][] rows) {
        this.columns = columns;
        this.rows = rows;
    }

    /**
     * Over given carcasses, such as those that a table was calibrated from.
     *
     * @param table the table whose terms they are
     * @param carcasses the carcasses, at least one
     * @return the moments
     * @throws IllegalArgumentException if there is no carcass
     */
    public static TermMoments of(YieldTable table, List<Carcass> carcasses) {
        Checks.noNullIn(carcasses, "carcasses");
        Objects.requireNonNull(table, "table");
        if (carcasses.isEmpty()) {
            throw new IllegalArgumentException("moments of terms need at least one carcass");
        }
        Terms terms = new Terms(table.definition());
        return new TermMoments(
                terms.columns, scaled(carcasses.stream().map(terms::of).toArray(double[][]::new), carcasses.size()));
    }

    /**
     * Over a range, every whole position of the grades and every weight alike: a stand-in where nothing is known of the
     * carcasses behind the table. Over its allowed range all of its terms vary, so that shrinkage holds those that the
     * trials can't tell apart.
     *
     * @param table the table whose terms they are
     * @param range the range, such as the table's allowed one
     * @return the moments
     * @throws IllegalArgumentException if no whole position lies in the range
     */
    public static TermMoments over(YieldTable table, TableRange range) {
        Objects.requireNonNull(range, "range");
        Objects.requireNonNull(table, "table");
        Terms terms = new Terms(table.definition());
        double middle = (range.weightKg().low() + range.weightKg().high()) / 2;
        // two weights with the mean and variance of all of them
        double off = (range.weightKg().high() - range.weightKg().low()) / Math.sqrt(12);
        List<double[]> all = new ArrayList<>();
        for (int c = (int) Math.ceil(range.conformation().low());
                c <= range.conformation().high();
                c++) {
            for (int f = (int) Math.ceil(range.fat().low()); f <= range.fat().high(); f++) {
                all.add(terms.of(c, f, middle - off));
                all.add(terms.of(c, f, middle + off));
            }
        }
        if (all.isEmpty()) {
            throw new IllegalArgumentException(
                    "no whole position lies in conformation " + range.conformation() + ", fat " + range.fat());
        }
        return new TermMoments(terms.columns, scaled(all.toArray(double[][]::new), all.size()));
    }

    static TermMoments ofRows(List<String> columns, double[][] rows, double whole) {
        return new TermMoments(columns, scaled(rows, whole));
    }

    private static double[][] scaled(double[][] rows, double whole) {
        double root = Math.sqrt(whole);
        double[][] scaled = new double[rows.length][];
        for (int i = 0; i < rows.length; i++) {
            scaled[i] = rows[i].clone();
            for (int j = 0; j < scaled[i].length; j++) {
                scaled[i][j] /= root;
            }
        }
        return scaled;
    }

    /**
     * The mean of the product of two terms.
     *
     * @param column column of a term, such as {@code per_fat_point}
     * @param otherColumn column of a term, the same one for its mean square
     * @return the mean, in the units of both terms
     * @throws IllegalArgumentException if the table has no such term
     */
    public double moment(String column, String otherColumn) {
        Objects.requireNonNull(column, "column");
        Objects.requireNonNull(otherColumn, "otherColumn");
        int a = index(column);
        int b = index(otherColumn);
        double sum = 0;
        for (double[] row : rows) {
            sum += row[a] * row[b];
        }
        return sum;
    }

    private int index(String column) {
        int index = columns.indexOf(column);
        if (index < 0) {
            throw new IllegalArgumentException("no term \"" + column + "\"; terms: " + String.join(", ", columns));
        }
        return index;
    }

    /** A matrix whose square these moments are, for some of the terms. */
    double[][] root(List<String> terms) {
        double[][] chosen = new double[terms.size()][rows.length];
        for (int j = 0; j < terms.size(); j++) {
            int column = index(terms.get(j));
            for (int i = 0; i < rows.length; i++) {
                chosen[j][i] = rows[i][column];
            }
        }
        return Regression.root(chosen);
    }
}
