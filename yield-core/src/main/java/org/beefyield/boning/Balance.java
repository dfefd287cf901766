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
 * @param expectedPct what was expected to be missing, % of the weight before
 * @param limitPct how much more or less than expected may be missing, % of the weight before
 */
public record Balance(
        String carcass, String part, double inKg, double outKg, boolean complete, double expectedPct, double limitPct) {
    /** The most that may be missing or too much, % of the weight before: Heggli and others 2023, Animal, for quarters. */
    public static final double LIMIT_PCT = 2;

    /** Adding weights and taking per cent errs by less, %. */
    private static final double NOISE_PCT = 1e-9;

    /**
     * Checks that nothing is missing and that figures are figures.
     *
     * @throws IllegalArgumentException if the weight before isn't above 0, that after is below 0 or not finite, or what is
     *     expected or the limit is none that a {@link BalanceRule} may have
     */
    public Balance {
        Objects.requireNonNull(carcass, "carcass");
        Objects.requireNonNull(part, "part");
        if (!(inKg > 0 && Double.isFinite(inKg))) {
            throw new IllegalArgumentException(
                    "weight before, kg: " + Numbers.exact(inKg) + " is not a finite number above 0");
        }
        Checks.notNegative("weight after, kg", outKg);
        BalanceRule.check(expectedPct, limitPct);
    }

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
     * Whether what is missing is what was expected, within the limit.
     *
     * @return true if it balances
     */
    public boolean holds() {
        double beyond = missingPct() - expectedPct;
        return (complete ? Math.abs(beyond) : -beyond) <= limitPct + NOISE_PCT;
    }

    /**
     * The balance in words.
     *
     * @return such as {@code carcass T-17: 7.9 kg of 342.0 kg (2.3 %) are missing; at most 2 % may}, or {@code carcass T-17:
     *     12.3 kg of 342.0 kg (3.6 %) are missing; 1.4 % are expected, at most 2 % more or less may}
     */
    @Override
    public String toString() {
        double missing = missingKg();
        return "carcass " + carcass + (part.equals("carcass") ? "" : ", " + part) + ": "
                + Numbers.fixed(Math.abs(missing), 1) + " kg of " + Numbers.fixed(inKg, 1) + " kg ("
                + pct() + " %) are "
                + (missing < 0 ? "too much" : complete ? "missing" : "not weighed")
                + expectation();
    }

    /** To a digit more where it would look like the limit. */
    private String pct() {
        double pct = Math.abs(missingPct());
        boolean looksLikeLimit = !holds()
                && (Numbers.fixed(pct, 1).equals(Numbers.fixed(limitPct + expectedPct, 1))
                        || Numbers.fixed(pct, 1).equals(Numbers.fixed(Math.abs(limitPct - expectedPct), 1)));
        return Numbers.fixed(pct, looksLikeLimit ? 2 : 1);
    }

    private String expectation() {
        String limit = "at most " + Numbers.brief(limitPct) + " % ";
        if (expectedPct == 0) {
            return holds() ? "" : "; " + limit + "may";
        }
        String expected = "; " + Numbers.brief(expectedPct) + " % are expected"
                + (complete && missingKg() >= 0 ? "" : " to be missing");
        return expected + (holds() ? "" : ", " + limit + "more or less may");
    }
}
