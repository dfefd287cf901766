package org.beefyield.report;

import java.util.Objects;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.jspecify.annotations.Nullable;

/**
 * A season or a plant that is compared with others.
 *
 * @param name name for people
 * @param valuer prices, and how it cuts
 * @param lot its carcasses, by the valuer's estimator or an equal one
 * @param unexplained what its runs weighed more than its carcasses explain, or null if that isn't known
 */
public record Compared(
        String name,
        Valuer valuer,
        LotEstimate lot,
        @Nullable Unexplained unexplained) {
    /**
     * Checks that nothing is missing.
     *
     * @throws IllegalArgumentException if the name is blank
     */
    public Compared {
        if (Objects.requireNonNull(name, "name").isBlank()) {
            throw new IllegalArgumentException("the name of what is compared is blank; give one");
        }
        Objects.requireNonNull(valuer, "valuer");
        lot = Objects.requireNonNull(lot, "lot").withName(name);
    }

    /**
     * What its own carcasses are worth.
     *
     * @return the value of its lot
     */
    public Value value() {
        return valuer.value(lot);
    }

    double unexplainedPerKg() {
        return unexplained == null ? 0 : unexplained.perKg();
    }

    double unexplainedVariance() {
        return unexplained == null ? 0 : unexplained.sdPerKg() * unexplained.sdPerKg();
    }

    /** Square of that by its degrees of freedom. */
    double unexplainedSpread() {
        return unexplained == null ? 0 : Math.pow(unexplainedVariance(), 2) / (unexplained.runs() - 1);
    }
}
