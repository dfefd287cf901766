package org.beefyield.boning;

import java.util.Objects;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * What went into the knife's work and what came out of it.
 *
 * @param carcass id of the carcass
 * @param part {@code carcass}, the name of a quarter, {@code quarters} for all of them against the carcass, or the code of
 *     a cut that was broken down
 * @param inKg weight before, kg
 * @param outKg weight of what was weighed after, kg
 * @param complete whether all that comes of it was weighed; if not, only too much can be seen
 */
public record Balance(String carcass, String part, double inKg, double outKg, boolean complete) {
    /**
     * Checks that nothing is missing and that figures are figures.
     *
     * @throws IllegalArgumentException if the weight before isn't above 0, or that after is below 0 or not finite
     */
    public Balance {
        Objects.requireNonNull(carcass, "carcass");
        Objects.requireNonNull(part, "part");
        if (!(inKg > 0 && Double.isFinite(inKg))) {
            throw new IllegalArgumentException(
                    "weight before, kg: " + Numbers.exact(inKg) + " is not a finite number above 0");
        }
        Checks.notNegative("weight after, kg", outKg);
    }

    /** The most that may be missing or too much, % of the weight before: Heggli and others 2023, Animal, for quarters. */
    public static final double LIMIT_PCT = 2;

    /**
     * What is missing.
     *
     * @return kg, below 0 if there is more after than before
     */
    public double missingKg() {
        return inKg - outKg;
    }

    /**
     * What is missing of the weight before.
     *
     * @return per cent, below 0 if there is more after than before
     */
    public double missingPct() {
        return 100 * missingKg() / inKg;
    }

    /**
     * Whether it is within {@value #LIMIT_PCT} %.
     *
     * @return true if it balances
     */
    public boolean holds() {
        return complete ? Math.abs(missingPct()) <= LIMIT_PCT : missingPct() >= -LIMIT_PCT;
    }

    /**
     * The balance in words.
     *
     * @return such as {@code carcass T-17: 7.9 kg of 342.0 kg (2.3 %) are missing; at most 2 % may}
     */
    @Override
    public String toString() {
        double missing = missingKg();
        return "carcass " + carcass + (part.equals("carcass") ? "" : ", " + part) + ": "
                + Numbers.fixed(Math.abs(missing), 1) + " kg of " + Numbers.fixed(inKg, 1) + " kg ("
                + Numbers.fixed(Math.abs(missingPct()), 1) + " %) are "
                + (missing < 0 ? "too much" : complete ? "missing" : "not weighed")
                + (holds() ? "" : "; at most " + Numbers.fixed(LIMIT_PCT, 0) + " % may");
    }
}
