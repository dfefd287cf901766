package org.beefyield.finish;

import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * How prices stand from a day on, against today's, until the next move.
 *
 * @param fromDay days from today from which it counts, 0 or more
 * @param paidPerKg how much more is paid for a kg of cold carcass, below 0 for less
 * @param worthPerKg how much more the meat of a kg of cold carcass is worth to the hall, below 0 for less
 */
public record PriceMove(int fromDay, double paidPerKg, double worthPerKg) {
    /**
     * Checks the numbers.
     *
     * @throws IllegalArgumentException if the day is below 0 or a price is not finite
     */
    public PriceMove {
        if (fromDay < 0) {
            throw new IllegalArgumentException("prices move from day " + fromDay + "; day 0 is today, and none before");
        }
        Checks.finite("change of payment a kg", paidPerKg);
        Checks.finite("change of worth a kg", worthPerKg);
    }

    /**
     * One line.
     *
     * @return such as {@code from day 14: 0.1 less paid a kg, worth as today}
     */
    @Override
    public String toString() {
        return "from day " + fromDay + ": " + words("paid", paidPerKg) + ", " + words("worth", worthPerKg);
    }

    private static String words(String what, double more) {
        return more == 0
                ? what + " as today"
                : Numbers.brief(Math.abs(more)) + (more < 0 ? " less " : " more ") + what + " a kg";
    }
}
