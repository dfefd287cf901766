package org.beefyield.estimate;

import java.io.Serializable;
import java.math.BigDecimal;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * The fat content that mince is brought to. Whoever makes one says whether the figure is per cent or a fraction, and neither
 * is taken for the other: targets lie from 1 to below 100 %. Immutable.
 *
 * @serial exclude
 */
public final class MinceTarget implements Serializable {
    private static final long serialVersionUID = 1;
    private static final double LEAST = 0.01;

    private final double fat;

    private MinceTarget(double fat) {
        this.fat = fat;
    }

    private static MinceTarget of(double fat, String hint) {
        if (!(fat > 0 && fat < 1)) {
            throw new IllegalArgumentException("mince fat content " + Numbers.percent(fat)
                    + " % is outside 0 to 100 % (both excluded)" + (fat >= 1 ? hint : ""));
        }
        if (fat < LEAST) {
            throw new IllegalArgumentException("mince fat content " + Numbers.percent(fat) + " % is below 1 %" + hint);
        }
        return new MinceTarget(fat);
    }

    /**
     * A target given as fat content in per cent: 15 for 15 %.
     *
     * @param percent fat, per cent by weight, 1 or more and below 100
     * @return the target
     * @throws IllegalArgumentException if it is outside its range; a figure below 1 is taken for a fraction by mistake
     */
    public static MinceTarget fatPercent(double percent) {
        String hint = percent > 0 && percent < 1 ? "; give per cent, such as 15, or a fraction to ofFraction" : "";
        return of(
                Double.isFinite(percent)
                        ? BigDecimal.valueOf(percent).movePointLeft(2).doubleValue()
                        : percent,
                hint);
    }

    /**
     * A target given as a fraction: 0.15 for 15 %.
     *
     * @param fraction fat, fraction by weight, 0.01 or more and below 1
     * @return the target
     * @throws IllegalArgumentException if it is outside its range; a figure of 1 or more is per cent by mistake
     */
    public static MinceTarget ofFraction(double fraction) {
        return of(fraction, "; give a fraction, such as 0.15, or per cent to fatPercent");
    }

    /**
     * A target given as chemical lean, which is 100 less the fat content. Visual lean is a label without such a rule:
     * give the fat content that your own customer means by it.
     *
     * @param percent chemical lean, per cent, 1 or more and at most 99
     * @return the target
     * @throws IllegalArgumentException if it is outside its range
     */
    public static MinceTarget chemicalLean(double percent) {
        if (percent > 0 && percent < 1) {
            throw new IllegalArgumentException(
                    "chemical lean " + Numbers.exact(percent) + " % is below 1 %; give per cent, such as 85");
        }
        // in decimals, so that 84.9 lean and 15.1 fat are the same target
        return of(
                Double.isFinite(percent)
                        ? BigDecimal.valueOf(100)
                                .subtract(BigDecimal.valueOf(percent))
                                .movePointLeft(2)
                                .doubleValue()
                        : percent,
                "");
    }

    /**
     * The fat content.
     *
     * @return fraction by weight, 0.01 or more and below 1
     */
    public double fat() {
        return fat;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof MinceTarget that && fat == that.fat;
    }

    @Override
    public int hashCode() {
        return Double.hashCode(fat);
    }

    /**
     * The target in words.
     *
     * @return such as {@code mince at 15 % fat}
     */
    @Override
    public String toString() {
        return "mince at " + Numbers.percent(fat) + " % fat";
    }
}
