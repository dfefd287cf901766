package org.beefyield.table;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * What a column of a breakdown's children adds up to, and how far rounding explains that it misses what it should.
 *
 * <p>A typo must not pass for rounding, so that there are three bounds. First, what rounding can come to: n numbers, each rounded
 * by itself, are off by up to half a unit of the last decimal, together with an SD of sqrt(n/12) units. They never miss by more
 * than n/2 units, and by more than 4 SD less than once in 10,000 columns; for 7 children and more that is the tighter bound, for
 * 18 it is 4 units in place of 9. Second, what it does to the shares: a tenth is nothing in a level but a gram in a slope, 10
 * points from the reference. Half a gram per kg of parent is what a share that is printed in whole grams is off by anyway, and a
 * tenth of what a change of table is usually let through for, so that one column's rounding takes no more than that off a
 * breakdown anywhere in the allowed range. Third, all columns together take off less than a gram. A column of whole numbers thus
 * closes as it stands or not at all. What is off by a unit within these bounds can't be told from rounding.
 */
final class ColumnSum {
    /** Noise of adding doubles: a column that is exact may be off by so much. */
    static final double NOISE = 1e-9;

    /** Decimals below which a number is noise. */
    private static final int MOST_DECIMALS = 9;

    private static final double SDS = 4;

    /** What the rounding of one column takes off a breakdown at the most, g per kg of parent. */
    private static final double MOST_G_PER_KG = 0.5;

    /** What the rounding of all columns together stays below. */
    private static final double TOGETHER_G_PER_KG = 1;

    /** Children that a message names with their numbers; the rows of all of them follow. */
    private static final int CHILDREN_LISTED = 20;

    /** A child's number in the column. */
    record Child(int row, String cut, double value) {}

    private final TableSchema resource;
    private final String column;
    private final String unit;
    private final double wanted;
    private final List<Child> children;
    private final double sum;
    private final double explained;

    /**
     * Adds the numbers.
     *
     * @param declared decimals that the table declares for the column, null if it is exact; where the numbers show more, they
     *     are taken as rounded to these
     */
    ColumnSum(
            TableSchema resource,
            String column,
            String unit,
            @Nullable Integer declared,
            double wanted,
            List<Child> children) {
        this.resource = resource;
        this.column = column;
        this.unit = unit;
        this.wanted = wanted;
        this.children =
                children.stream().sorted(Comparator.comparingInt(Child::row)).toList();
        double added = 0;
        for (Child child : children) {
            added += child.value();
        }
        this.sum = added;
        this.explained = declared == null
                ? 0
                : explained(
                        children.size(),
                        Math.max(declared, decimals(children.stream().mapToDouble(Child::value))));
    }

    /** What the rounding of so many numbers to so many decimals explains. */
    static double explained(int numbers, int decimals) {
        // numbers of whole units are off by whole units
        double units = Math.floor(Math.min(numbers / 2.0, SDS * Math.sqrt(numbers / 12.0)));
        return units * Math.pow(10, -decimals);
    }

    /** The most decimals that any of some numbers shows, noise aside. */
    static int decimals(DoubleStream numbers) {
        return numbers.filter(Double::isFinite)
                .mapToInt(number -> BigDecimal.valueOf(number)
                        .setScale(MOST_DECIMALS, RoundingMode.HALF_EVEN)
                        .stripTrailingZeros()
                        .scale())
                .map(scale -> Math.max(0, scale))
                .max()
                .orElse(0);
    }

    String column() {
        return column;
    }

    /** What it is off by, in the column's unit. */
    double off() {
        return sum - wanted;
    }

    /** Whether nothing but noise is off. */
    boolean isClosed() {
        return Math.abs(off()) <= NOISE;
    }

    /** Whether rounding explains what is off, where one of the column's unit moves shares by so many g/kg at the most. */
    boolean isRounding(double reach) {
        return Math.abs(off()) <= Math.min(explained, MOST_G_PER_KG / reach) + NOISE;
    }

    static boolean isRoundingTogether(double gPerKg) {
        return gPerKg < TOGETHER_G_PER_KG - NOISE;
    }

    /** Says that it is off by more than rounding. */
    TableProblem off(double reach, String ofWhat) {
        double most = MOST_G_PER_KG / reach;
        String limit;
        if (explained <= most) {
            limit = "rounding explains at most " + words(explained);
        } else {
            limit = "at most " + Numbers.digits(most, 3) + " is taken for rounding"
                    + (reach == 1 ? "" : ", which is " + words(MOST_G_PER_KG) + " g/kg at an end of the allowed range");
        }
        return problem(ofWhat, limit);
    }

    /** Says that it is off, with other columns, by more than rounding. */
    TableProblem offTogether(double gPerKg, String ofWhat) {
        return problem(
                ofWhat,
                "with the other columns that are off it comes to " + Numbers.digits(gPerKg, 3)
                        + " g/kg in the allowed range; less than " + words(TOGETHER_G_PER_KG)
                        + " g/kg is taken for rounding");
    }

    private TableProblem problem(String ofWhat, String limit) {
        int more = children.size() - CHILDREN_LISTED;
        return new TableProblem(
                resource,
                TableProblem.NO_ROW,
                column,
                words(sum),
                ofWhat + " add up to " + words(sum) + " " + unit + ", not " + words(wanted) + "; " + limit
                        + "; they are "
                        + children.stream()
                                .limit(CHILDREN_LISTED)
                                .map(child -> child.cut() + " " + Numbers.exact(child.value()))
                                .collect(Collectors.joining(", "))
                        + (more > 0 ? " and " + more + " more" : ""),
                children.stream().map(Child::row).toList());
    }

    private static String words(double number) {
        return Numbers.upTo(number, MOST_DECIMALS);
    }
}
