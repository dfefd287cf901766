package org.beefyield.text;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** Rounding of printed figures that must add up. */
public final class Rounding {
    /** Remainders closer than this, in units, are told apart by their decimals. */
    private static final double CLOSE = 1e-5;

    private Rounding() {}

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
        Objects.requireNonNull(parts, "parts");
        long[] units = unitsAdding(parts, whole, decimals);
        if (units == null) {
            return exactAdding(parts, whole, decimals).stream()
                    .map(BigDecimal::toPlainString)
                    .toList();
        }
        List<String> rounded = new ArrayList<>(parts.length);
        for (long figure : units) {
            rounded.add(Units.text(figure, decimals));
        }
        return rounded;
    }

    /**
     * The same figures as those of {@link #adding(double[], double, int)} as numbers, to go on with.
     *
     * @param parts finite parts
     * @param whole what they add up to, but for floating-point noise
     * @param decimals decimals, 0 or more
     * @return a figure for each part, with these decimals
     * @throws IllegalArgumentException if the parts don't add up to the whole to less than half a unit of the last decimal
     */
    public static List<BigDecimal> figuresAdding(double[] parts, double whole, int decimals) {
        Objects.requireNonNull(parts, "parts");
        long[] units = unitsAdding(parts, whole, decimals);
        return units == null
                ? exactAdding(parts, whole, decimals)
                : Arrays.stream(units)
                        .mapToObj(figure -> BigDecimal.valueOf(figure, decimals))
                        .toList();
    }

    /**
     * The same figures as those of {@link #adding(double[], double, int)}, behind a line of a file that grows.
     *
     * @param line takes each figure
     * @param before character that stands before each of them
     * @param parts finite parts
     * @param whole what they add up to, but for floating-point noise
     * @param decimals decimals to print, 0 or more
     * @throws IllegalArgumentException if the parts don't add up to the whole to less than half a unit of the last decimal
     */
    public static void appendAdding(StringBuilder line, char before, double[] parts, double whole, int decimals) {
        Objects.requireNonNull(line, "line");
        Objects.requireNonNull(parts, "parts");
        long[] units = unitsAdding(parts, whole, decimals);
        if (units == null) {
            exactAdding(parts, whole, decimals)
                    .forEach(figure -> line.append(before).append(figure.toPlainString()));
            return;
        }
        char[] characters = Units.room();
        for (long figure : units) {
            int at = Units.write(figure, decimals, characters);
            characters[--at] = before;
            line.append(characters, at, characters.length - at);
        }
    }

    /** Units of the last decimal without an object for each step, or null where that could differ from the decimals. */
    private static long @Nullable [] unitsAdding(double[] parts, double whole, int decimals) {
        Numbers.checkDecimals(decimals);
        if (!Units.isShort(whole, decimals)) {
            return null;
        }
        long[] units = new long[parts.length];
        double[] remainder = new double[parts.length];
        double sum = 0;
        long missing = Units.rounded(whole, decimals);
        for (int i = 0; i < parts.length; i++) {
            if (!Units.isShort(parts[i], decimals)) {
                return null;
            }
            units[i] = Units.floor(parts[i], decimals);
            remainder[i] = parts[i] * Units.power(decimals) - units[i];
            sum += parts[i];
            missing -= units[i];
        }
        boolean addUp = Math.abs(sum - whole) < 0.25 / Units.power(decimals);
        if (!addUp || missing < 0 || missing > parts.length || !raise(units, remainder, (int) missing)) {
            return null;
        }
        return units;
    }

    /** One unit more for those with the largest remainders; false if two that are treated differently are too close. */
    private static boolean raise(long[] units, double[] remainder, int missing) {
        double least = Double.POSITIVE_INFINITY;
        for (int n = 0; n < missing; n++) {
            int largest = 0;
            for (int i = 1; i < remainder.length; i++) {
                largest = remainder[i] > remainder[largest] ? i : largest;
            }
            units[largest]++;
            least = remainder[largest];
            remainder[largest] = Double.NEGATIVE_INFINITY;
        }
        for (double other : remainder) {
            if (other > least - CLOSE) {
                return false;
            }
        }
        return true;
    }

    /** With decimals below 0 to tens, hundreds and so on. */
    static List<BigDecimal> exactAdding(double[] parts, double whole, int decimals) {
        for (double part : parts) {
            Checks.finite("part", part);
        }
        Checks.finite("whole", whole);
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
        return List.copyOf(rounded);
    }

    /** To a whole that is rounded already, by up to a unit for each part. */
    static List<BigDecimal> exactAdding(double[] parts, BigDecimal whole, int decimals) {
        BigDecimal unit = BigDecimal.ONE.movePointLeft(decimals);
        List<BigDecimal> rounded = new ArrayList<>();
        List<Integer> byRemainder = new ArrayList<>();
        double[] remainder = new double[parts.length];
        BigDecimal missing = whole;
        for (int i = 0; i < parts.length; i++) {
            BigDecimal exact = BigDecimal.valueOf(Checks.finite("part", parts[i]));
            BigDecimal floor = exact.setScale(decimals, RoundingMode.FLOOR);
            rounded.add(floor);
            missing = missing.subtract(floor);
            remainder[i] = exact.subtract(floor).doubleValue();
            byRemainder.add(i);
        }
        int units = missing.movePointRight(decimals).intValueExact();
        if (units < -parts.length || units > 2 * parts.length) {
            throw new IllegalArgumentException("parts do not add up to " + whole.toPlainString());
        }
        byRemainder.sort(Comparator.comparingDouble(i -> -remainder[i]));
        for (int n = 0; n < Math.abs(units); n++) {
            int i = byRemainder.get(units > 0 ? n % parts.length : parts.length - 1 - n);
            rounded.set(i, units > 0 ? rounded.get(i).add(unit) : rounded.get(i).subtract(unit));
        }
        return List.copyOf(rounded);
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
    public static List<List<BigDecimal>> addingBothWays(double[][] parts, BigDecimal whole) {
        Checks.noNullIn(parts, "parts");
        Objects.requireNonNull(whole, "whole");
        return new BothWays(parts, whole, whole.scale()).rounded(whole.scale());
    }
}
