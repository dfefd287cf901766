package org.beefyield.calibrate;

import java.util.Objects;
import java.util.OptionalDouble;
import org.apache.commons.math3.distribution.TDistribution;
import org.beefyield.stats.Bounds;
import org.beefyield.stats.RandomEffects;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * By how much more or less runs return of a group of products since a day than they did before, each against what the table in use
 * expects of their carcasses. Nothing is changed because of it: a person decides.
 *
 * @param group name of the group
 * @param runsBefore runs before the day
 * @param runs runs from the day on
 * @param gPerKg change of the mean difference, g per kg of intake
 * @param bounds its 90 % bounds
 * @param expectedGPerKg what the table in use expects of the runs from the day on, g per kg of intake
 */
public record Drift(String group, int runsBefore, int runs, double gPerKg, Bounds bounds, double expectedGPerKg) {
    private static final double PER_CENT = 100;
    private static final double UPPER = 0.95;

    /**
     * Checks that nothing is missing.
     *
     * @throws IllegalArgumentException if there are fewer than two runs on a side, or a figure is not finite
     */
    public Drift {
        Objects.requireNonNull(group, "group");
        Objects.requireNonNull(bounds, "bounds");
        if (runsBefore < 2 || runs < 2) {
            throw new IllegalArgumentException(group + ": " + runsBefore + " runs before and " + runs
                    + " after; it takes two or more of each to tell a change");
        }
        Checks.finite(group + ": change, g/kg", gPerKg);
        Checks.notNegative(group + ": expected, g/kg", expectedGPerKg);
    }

    static Drift of(String group, RandomEffects before, RandomEffects after, double expectedGPerKg) {
        double change = after.mean() - before.mean();
        double ofBefore = Math.pow(before.widenedMeanError(), 2);
        double ofAfter = Math.pow(after.widenedMeanError(), 2);
        double all = ofBefore + ofAfter;
        double degrees =
                all * all / (ofBefore * ofBefore / (before.count() - 1) + ofAfter * ofAfter / (after.count() - 1));
        double off = new TDistribution(null, degrees).inverseCumulativeProbability(UPPER) * Math.sqrt(all);
        return new Drift(
                group, before.count(), after.count(), change, new Bounds(change - off, change + off), expectedGPerKg);
    }

    /**
     * The change of what the table in use expects.
     *
     * @return per cent, or empty if it expects nothing
     */
    public OptionalDouble percent() {
        return expectedGPerKg > 0 ? OptionalDouble.of(PER_CENT * gPerKg / expectedGPerKg) : OptionalDouble.empty();
    }

    /**
     * Whether the bounds lie on one side of 0. By chance one group in ten does where nothing has changed.
     *
     * @return false if there may be no change
     */
    public boolean isBeyondChance() {
        return bounds.low() > 0 || bounds.high() < 0;
    }

    /**
     * One line.
     *
     * @return such as {@code Striploin steak -2.6 % over 30 runs, -3.3 to -1.9: change the table?}
     */
    @Override
    public String toString() {
        boolean asPercent = expectedGPerKg > 0;
        double times = asPercent ? PER_CENT / expectedGPerKg : 1;
        return group + " " + Numbers.signed(times * gPerKg, 1) + (asPercent ? " %" : " g/kg") + " over "
                + Numbers.counted(runs, "run", "runs") + ", " + Numbers.signed(times * bounds.low(), 1) + " to "
                + Numbers.signed(times * bounds.high(), 1)
                + (isBeyondChance() ? ": change the table?" : ": may be chance");
    }
}
