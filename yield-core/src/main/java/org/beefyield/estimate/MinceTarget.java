package org.beefyield.estimate;

import org.beefyield.text.Rounding;

/**
 * The fat content that mince is brought to.
 *
 * @param fat fat content, fraction by weight, above 0 and below 1
 */
public record MinceTarget(double fat) {
    /**
     * Checks the fat content.
     *
     * @throws IllegalArgumentException if it is outside 0 to 1
     */
    public MinceTarget {
        if (!(fat > 0 && fat < 1)) {
            throw new IllegalArgumentException(
                    "mince fat content " + 100 * fat + " % is outside 0 to 100 % (both excluded)");
        }
    }

    /**
     * A target given as fat content.
     *
     * @param percent fat, per cent by weight, above 0 and below 100
     * @return the target
     * @throws IllegalArgumentException if it is outside its range
     */
    public static MinceTarget fatPercent(double percent) {
        return new MinceTarget(percent / 100);
    }

    /**
     * A target given as chemical lean, which is 100 less the fat content. Visual lean is a label without such a rule:
     * give the fat content that your own customer means by it.
     *
     * @param percent chemical lean, per cent, above 0 and below 100
     * @return the target
     * @throws IllegalArgumentException if it is outside its range
     */
    public static MinceTarget chemicalLean(double percent) {
        return fatPercent(100 - percent);
    }

    /**
     * The target in words.
     *
     * @return such as {@code mince at 15 % fat}
     */
    @Override
    public String toString() {
        return "mince at " + Rounding.fixed(100 * fat, 2).replaceAll("\\.?0+$", "") + " % fat";
    }
}
