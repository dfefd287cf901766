package org.beefyield.data.finish;

import java.util.Objects;
import java.util.Optional;
import org.beefyield.finish.Assumptions;
import org.beefyield.finish.DayCurve;
import org.beefyield.finish.HoldingCosts;

/**
 * What a costs file holds.
 *
 * @param currency label of the currency, empty if no amount is given
 * @param costs what it costs to hold an animal
 * @param assumptions the shipped assumptions, with those of the file in their places
 * @param gain what animals gain that don't say themselves, kg of live weight a day, or empty
 */
public record HoldingSheet(String currency, HoldingCosts costs, Assumptions assumptions, Optional<DayCurve> gain) {
    /** Checks that nothing is missing. */
    public HoldingSheet {
        Objects.requireNonNull(currency, "currency");
        Objects.requireNonNull(costs, "costs");
        Objects.requireNonNull(assumptions, "assumptions");
        Objects.requireNonNull(gain, "gain");
    }
}
