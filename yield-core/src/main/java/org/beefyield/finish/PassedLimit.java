package org.beefyield.finish;

import java.util.Objects;
import org.beefyield.market.MarketFault;

/**
 * A limit of the customer's that a day of sale lies past.
 *
 * @param limit age or fat class
 * @param lastDay the last day within it, below 0 if it is past it today already
 * @param lost what is paid less on the day for it, than if the animal was as it is but within that limit
 */
public record PassedLimit(MarketFault.Limit limit, int lastDay, double lost) {
    /** Checks that nothing is missing. */
    public PassedLimit {
        Objects.requireNonNull(limit, "limit");
    }

    /**
     * Whether it can be kept no more.
     *
     * @return true if the animal is past it today
     */
    public boolean isPastToday() {
        return lastDay < 0;
    }
}
