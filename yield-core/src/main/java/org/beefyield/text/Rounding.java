package org.beefyield.text;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/** Rounding of printed figures. */
public final class Rounding {
    private Rounding() {}

    /**
     * One figure with fixed decimals, half up.
     *
     * @param value a finite value
     * @param decimals decimals to print, 0 or more
     * @return the figure
     */
    public static String fixed(double value, int decimals) {
        BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
        return rounded.toPlainString();
    }

    /**
     * Parts rounded so that they add up to their rounded whole, by largest remainder: each part is rounded down, and the
     * units still missing go to the parts that lost most, the earlier one in a tie.
     *
     * @param parts finite parts
     * @param whole what they add up to, but for floating-point noise
     * @param decimals decimals to print, 0 or more
     * @return a figure for each part, each within one unit of the last decimal of its value
     * @throws IllegalArgumentException if the parts don't add up to the whole to less than half a unit of the last decimal
     */
    public static List<String> adding(double[] parts, double whole, int decimals) {
        BigDecimal unit = BigDecimal.ONE.movePointLeft(decimals);
        BigDecimal missing = BigDecimal.valueOf(whole).setScale(decimals, RoundingMode.HALF_UP);
        List<BigDecimal> rounded = new ArrayList<>();
        List<Integer> byRemainder = new ArrayList<>();
        double[] remainder = new double[parts.length];
        for (int i = 0; i < parts.length; i++) {
            BigDecimal exact = BigDecimal.valueOf(parts[i]);
            BigDecimal floor = exact.setScale(decimals, RoundingMode.FLOOR);
            rounded.add(floor);
            missing = missing.subtract(floor);
            remainder[i] = exact.subtract(floor).doubleValue();
            byRemainder.add(i);
        }
        if (!(Math.abs(Arrays.stream(parts).sum() - whole) < unit.doubleValue() / 2)) {
            throw new IllegalArgumentException("parts do not add up to " + whole);
        }
        int units = missing.movePointRight(decimals).intValueExact();
        byRemainder.sort(Comparator.comparingDouble(i -> -remainder[i]));
        for (int i : byRemainder.subList(0, units)) {
            rounded.set(i, rounded.get(i).add(unit));
        }
        return rounded.stream().map(BigDecimal::toPlainString).toList();
    }

    /**
     * A table rounded so that it adds up both ways: every row to its total, every column to its total, and the totals to
     * the whole. Each figure and each total is within one unit of the last decimal of its value, and one that is whole
     * units stays as it is, but for the largest cell, which also takes what the whole was rounded by.
     *
     * @param parts rows of finite parts, one row or more, each with as many columns, one or more
     * @param whole what all of them add up to, with the decimals to print, rounded by one unit or less
     * @return the rows with their total behind each, and behind them the row of the totals
     * @throws IllegalArgumentException if the parts don't add up to the whole to within a unit of its last decimal
     */
    public static List<List<String>> addingBothWays(double[][] parts, BigDecimal whole) {
        return new BothWays(parts, whole, whole.scale()).rounded(whole.scale());
    }
}
