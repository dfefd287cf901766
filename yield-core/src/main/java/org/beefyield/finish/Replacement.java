package org.beefyield.finish;

import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * The animal that comes to the place once it is free. While the old one stands there the new one earns nothing: each day costs
 * the average that the place would earn, its empty days counted. So with a replacement an animal goes as soon as one more day
 * brings less than that average, and not only when it brings less than it costs. For a place that is filled with such animals
 * again and again that is the largest average a day.
 *
 * @param marginPerHead what the next animal leaves in all, its own costs paid, below 0 for a loss
 * @param daysOnPlace days that it stands there, above 0
 * @param emptyDays days that the place is empty before it comes, 0 or more
 */
public record Replacement(double marginPerHead, double daysOnPlace, double emptyDays) {
    /**
     * Checks the numbers.
     *
     * @throws IllegalArgumentException if a number is not finite, the days on the place are not above 0, or the empty days below
     *     0
     */
    public Replacement {
        Checks.finite("margin of the next animal", marginPerHead);
        Checks.notNegative("empty days", emptyDays);
        if (!(Checks.finite("days on the place", daysOnPlace) > 0)) {
            throw new IllegalArgumentException("days on the place: " + Numbers.exact(daysOnPlace) + " is not above 0");
        }
    }

    /**
     * What the place earns a day.
     *
     * @return margin over all days, empty ones too; 0 if the next animal leaves nothing, for then the place may stay empty
     */
    public double perDay() {
        return Math.max(0, marginPerHead / (daysOnPlace + emptyDays));
    }
}
