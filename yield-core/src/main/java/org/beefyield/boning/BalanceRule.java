package org.beefyield.boning;

import java.util.Objects;
import org.beefyield.text.Numbers;

/**
 * What may be missing of a carcass that was boned. Immutable; each {@code with} gives another.
 *
 * <p><b>Expected</b> is what nobody weighs: evaporation and drip between intake and boning, and what stays in the saw and on
 * the floor. It is held against weights that were taken at intake: the carcass's, for it is the carcass's cold weight that
 * a table's shares are of. {@link Quarter Quarters} are weighed when they are cut, just before boning, so that it is missing
 * of the quarters against the carcass and nothing of each quarter; unless they hung after they were weighed, which is said by
 * {@link Quarters#AT_INTAKE}. Cuts that were weighed and broken down lose nothing that is worth expecting.
 *
 * <p><b>Limit</b> is how much more or less than that may be missing, for the carcass, each quarter and each cut.
 *
 * @param expectedPct what is expected to be missing between intake and boning, % of the weight at intake
 * @param limitPct how much more or less may be missing, % of the weight before
 * @param quarters when quarters were weighed
 */
public record BalanceRule(double expectedPct, double limitPct, Quarters quarters) {
    /** Nothing is expected to be missing, {@value Balance#LIMIT_PCT} % may be, and quarters were weighed at boning. */
    public static final BalanceRule DEFAULT = new BalanceRule(0, Balance.LIMIT_PCT, Quarters.AT_BONING);

    /** The most that may be expected or be the limit, %; anything above is a slip of the pen (our limit, no source). */
    static final double MOST_PCT = 20;

    /** When quarters were weighed. */
    public enum Quarters {
        /** When they were cut, just before boning: what is expected to be missing is missing of them. */
        AT_BONING,
        /** With the carcass or in its place, and then they hung: what is expected to be missing is missing of what came of them. */
        AT_INTAKE
    }

    /**
     * Checks the figures.
     *
     * @throws IllegalArgumentException if less than 0 or more than 20 % are expected, or the limit isn't above 0 and at most
     *     20 %
     */
    public BalanceRule {
        Objects.requireNonNull(quarters, "quarters");
        check(expectedPct, limitPct);
    }

    static void check(double expectedPct, double limitPct) {
        if (!(expectedPct >= 0 && expectedPct <= MOST_PCT)) {
            throw new IllegalArgumentException("expected to be missing: " + Numbers.exact(expectedPct)
                    + " % is outside 0 to " + Numbers.exact(MOST_PCT) + " %");
        }
        if (!(limitPct > 0 && limitPct <= MOST_PCT)) {
            throw new IllegalArgumentException("limit of a balance: " + Numbers.exact(limitPct)
                    + " % is not above 0 and at most " + Numbers.exact(MOST_PCT) + " %");
        }
    }

    /**
     * Expects more or less to be missing.
     *
     * @param pct % of the weight at intake, 0 to 20
     * @return a rule
     * @throws IllegalArgumentException if it is outside that
     */
    public BalanceRule withExpectedPct(double pct) {
        return new BalanceRule(pct, limitPct, quarters);
    }

    /**
     * Draws the limit wider or closer.
     *
     * @param pct % of the weight before, above 0 and at most 20
     * @return a rule
     * @throws IllegalArgumentException if it is outside that
     */
    public BalanceRule withLimitPct(double pct) {
        return new BalanceRule(expectedPct, pct, quarters);
    }

    /**
     * Says when quarters were weighed.
     *
     * @param weighed when
     * @return a rule
     */
    public BalanceRule withQuarters(Quarters weighed) {
        Objects.requireNonNull(weighed, "weighed");
        return new BalanceRule(expectedPct, limitPct, weighed);
    }

    /** What is expected to be missing of quarters against their carcass, %. */
    double ofQuartersPct() {
        return quarters == Quarters.AT_BONING ? expectedPct : 0;
    }

    /** What is expected to be missing of what came of a quarter, %. */
    double inQuarterPct() {
        return quarters == Quarters.AT_INTAKE ? expectedPct : 0;
    }
}
