package org.beefyield.text;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Objects;

/**
 * The last place to which figures are printed: tenths, ones, tens. It is chosen by how sure the figures are, for digits far
 * behind an interval say nothing.
 */
public final class Place {
    /** Decimals; below 0 that many zeros before the decimal point. */
    private final int decimals;

    private Place(int decimals) {
        this.decimals = decimals;
    }

    /**
     * A place behind the decimal point, or ones.
     *
     * @param decimals decimals to print, 0 or more
     * @return the place
     * @throws IllegalArgumentException if the decimals are below 0
     */
    public static Place decimals(int decimals) {
        Numbers.checkDecimals(decimals);
        return new Place(decimals);
    }

    /**
     * A tenth of the place of a figure's first digit: of an SD of 234 the tens, of 23.4 the ones, of 2.34 the tenths.
     *
     * @param figure a figure above 0
     * @return the place
     * @throws IllegalArgumentException if the figure is not finite and above 0
     */
    public static Place tenthOf(double figure) {
        return new Place(1 + firstDecimal(figure));
    }

    /**
     * The place of a figure's first digit.
     *
     * @param figure a figure above 0
     * @return the place
     * @throws IllegalArgumentException if the figure is not finite and above 0
     */
    public static Place of(double figure) {
        return new Place(firstDecimal(figure));
    }

    private static int firstDecimal(double figure) {
        if (!(figure > 0 && figure < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(
                    "figure " + Numbers.exact(figure) + " has no first digit; one above 0 has");
        }
        return -(int) Math.floor(Math.log10(figure));
    }

    /**
     * The place that lies further left.
     *
     * @param other place
     * @return this or the other
     */
    public Place coarser(Place other) {
        Objects.requireNonNull(other, "other");
        return decimals <= other.decimals ? this : other;
    }

    /**
     * The place that lies further right.
     *
     * @param other place
     * @return this or the other
     */
    public Place finer(Place other) {
        Objects.requireNonNull(other, "other");
        return decimals >= other.decimals ? this : other;
    }

    /**
     * A figure to this place, half up.
     *
     * @param value value
     * @return such as {@code 9430} for 9427.3 to the tens
     */
    public String text(double value) {
        if (decimals >= 0 || !Double.isFinite(value)) {
            return Numbers.fixed(value, Math.max(0, decimals));
        }
        return round(value, RoundingMode.HALF_UP);
    }

    /**
     * A figure to this place and no larger than it is.
     *
     * @param value a finite value
     * @return such as {@code 9420} for 9427.3 to the tens
     */
    public String atMost(double value) {
        return round(Checks.finite("value", value), RoundingMode.FLOOR);
    }

    private String round(double value, RoundingMode mode) {
        return BigDecimal.valueOf(value).setScale(decimals, mode).toPlainString();
    }

    /**
     * Parts to this place that add up to their whole to this place, as {@link Rounding#adding} has it.
     *
     * @param parts finite parts
     * @param whole what they add up to, but for floating-point noise
     * @return a figure for each part
     * @throws IllegalArgumentException if the parts don't add up to the whole to less than half a unit of this place
     */
    public List<String> adding(double[] parts, double whole) {
        Objects.requireNonNull(parts, "parts");
        return decimals >= 0
                ? Rounding.adding(parts, whole, decimals)
                : Rounding.exactAdding(parts, whole, decimals).stream()
                        .map(BigDecimal::toPlainString)
                        .toList();
    }

    /**
     * Parts to this place that add up to a whole that is printed already, and may be rounded by as much as one unit for each part: by
     * largest remainder, as {@link Rounding#adding} has it.
     *
     * @param parts finite parts
     * @param whole what they are to add up to, of this place
     * @return a figure for each part
     * @throws IllegalArgumentException if there is no part and the whole isn't 0, or the parts are farther off the whole than that
     */
    public List<BigDecimal> adding(double[] parts, BigDecimal whole) {
        Objects.requireNonNull(parts, "parts");
        Objects.requireNonNull(whole, "whole");
        return Rounding.exactAdding(parts, whole, decimals);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Place that && decimals == that.decimals;
    }

    @Override
    public int hashCode() {
        return Integer.hashCode(decimals);
    }

    /**
     * One line.
     *
     * @return one unit of this place, such as {@code 0.1} or {@code 10}
     */
    @Override
    public String toString() {
        return BigDecimal.ONE.movePointLeft(decimals).toPlainString();
    }
}
