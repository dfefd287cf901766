package org.beefyield.pack;

import java.util.Objects;

/**
 * What it costs that pieces may miss their window and go another way.
 *
 * @param chance the window and the chances of missing it
 * @param kg kg of the cut that is expected to go the other way: heavy pieces, which miss a window more often, count for
 *     more
 * @param lossPerKg value of a kg of the cut in the way asked for, less that in the other way; below 0 where the other way
 *     is worth more
 */
public record Downgrade(WindowChance chance, double kg, double lossPerKg) {
    /** Checks that nothing is missing. */
    public Downgrade {
        Objects.requireNonNull(chance, "chance");
    }

    /**
     * The expected loss.
     *
     * @return amount, below 0 for a gain
     */
    public double amount() {
        return kg * lossPerKg;
    }
}
