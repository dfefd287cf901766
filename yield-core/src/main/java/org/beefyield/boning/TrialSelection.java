package org.beefyield.boning;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.beefyield.text.Checks;

/**
 * Trials that pass their balance because they are unlike the others. Where a hall loses more than its rule expects, those
 * that pass are those that lost least, and a table that is made from them has too little loss.
 *
 * <p>More than a tenth of what was weighed completely is refused, more than chance does where a twentieth should be, and at
 * most half of that were if what is missing at the median were expected. So boxes that were forgotten and a scale that
 * was wrong for a day are no such finding, and neither are weights that scatter to both sides.
 *
 * @param weighed what was weighed before: {@code carcass}, or {@code quarter} if what is missing is missing of each quarter
 * @param checked how many were weighed completely
 * @param passed how many of these balance
 * @param medianPct what is missing at the median, % of the weight before, below 0 if there is more after than before
 * @param passedMedianPct what is missing at the median of those that balance, empty if none does
 * @param rule the rule that they were held to
 */
public record TrialSelection(
        String weighed, int checked, int passed, double medianPct, OptionalDouble passedMedianPct, BalanceRule rule) {
    /** What was weighed before where nothing is said of quarters. */
    static final String CARCASS = "carcass";

    /** What was weighed before where each quarter is held against what came of it. */
    static final String QUARTER = "quarter";

    /** Fewest from which a selection is seen. */
    private static final int FEWEST = 5;

    /** Part refused above which those that pass may be selected. */
    private static final double REFUSED = 0.1;

    /** Part that slips of the pen and of the scale may refuse where nothing is wrong. */
    private static final double BY_SLIPS = 0.05;

    /** SDs beyond which one of twenty normal figures lies. */
    private static final double ONE_OF_TWENTY = 1.645;

    /** Decimals of what is proposed to expect. */
    private static final double TENTHS = 10;

    /**
     * Checks the figures.
     *
     * @throws IllegalArgumentException if they are no counts of trials, or what is missing isn't finite
     */
    public TrialSelection {
        Objects.requireNonNull(weighed, "weighed");
        Objects.requireNonNull(passedMedianPct, "passedMedianPct");
        Objects.requireNonNull(rule, "rule");
        if (!weighed.equals(CARCASS) && !weighed.equals(QUARTER)) {
            throw new IllegalArgumentException(
                    "weighed before: \"" + weighed + "\" is neither " + CARCASS + " nor " + QUARTER);
        }
        if (passed < 0 || passed > checked || checked < 1 || passed > 0 != passedMedianPct.isPresent()) {
            throw new IllegalArgumentException(passed + " of " + checked
                    + " pass is not none or more of one or more, with their median if any do");
        }
        Checks.finite("missing at the median, %", medianPct);
        passedMedianPct.ifPresent(pct -> Checks.finite("missing at the median of those that pass, %", pct));
    }

    /** What is found in some balances, of which those that aren't complete say nothing. */
    static Optional<TrialSelection> of(String weighed, List<Balance> balances, BalanceRule rule) {
        List<Balance> complete = balances.stream().filter(Balance::complete).toList();
        List<Balance> passed = complete.stream().filter(Balance::holds).toList();
        int checked = complete.size();
        int refused = checked - passed.size();
        if (checked < FEWEST || refused <= REFUSED * checked || isChance(refused, checked)) {
            return Optional.empty();
        }
        double median = median(complete);
        long stillRefused = complete.stream()
                .filter(balance -> Math.abs(balance.missingPct() - median) > rule.limitPct())
                .count();
        if (2 * stillRefused > refused) {
            return Optional.empty();
        }
        return Optional.of(new TrialSelection(
                weighed,
                checked,
                passed.size(),
                median,
                passed.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(median(passed)),
                rule));
    }

    /** Whether so many or more are refused by slips alone more often than in one of twenty sets. */
    private static boolean isChance(int refused, int checked) {
        double sd = Math.sqrt(checked * BY_SLIPS * (1 - BY_SLIPS));
        // the half between two counts
        return refused - 1.0 / 2 <= checked * BY_SLIPS + ONE_OF_TWENTY * sd;
    }

    private static double median(List<Balance> balances) {
        double[] sorted =
                balances.stream().mapToDouble(Balance::missingPct).sorted().toArray();
        return (sorted[(sorted.length - 1) / 2] + sorted[sorted.length / 2]) / 2;
    }

    /**
     * How many don't balance, of those that were weighed completely.
     *
     * @return fraction of 1
     */
    public double refusedShare() {
        return (checked - passed) / (double) checked;
    }

    /**
     * Whether those that pass lie against the limit: half of them or more are beyond half of it, on the side where the others
     * are refused.
     *
     * @return true if they do; false too if none passes
     */
    public boolean isAgainstLimit() {
        double side = Math.signum(medianPct - expectedPct());
        return passedMedianPct.isPresent()
                && side * (passedMedianPct.getAsDouble() - expectedPct()) > rule.limitPct() / 2;
    }

    /**
     * What to expect to be missing, so that those that pass are like the others: what is missing at the median, if that is
     * evaporation and drip that nobody weighed. A person has to know that; a box that is never weighed looks the same.
     *
     * @return % in tenths, for {@link BalanceRule#withExpectedPct(double)}; empty if that is below 0, where a scale is wrong, or
     *     more than a carcass loses
     */
    public OptionalDouble toExpectPct() {
        double tenths = Math.rint(TENTHS * medianPct) / TENTHS;
        return tenths >= 0 && tenths <= BalanceRule.MOST_PCT ? OptionalDouble.of(tenths + 0.0) : OptionalDouble.empty();
    }

    /** What was expected to be missing, %. */
    double expectedPct() {
        return weighed.equals(QUARTER) ? rule.inQuarterPct() : rule.expectedPct();
    }

    /**
     * The finding in words.
     *
     * @return one sentence
     */
    @Override
    public String toString() {
        return TrialSelectionText.of(this);
    }
}
