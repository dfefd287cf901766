package org.beefyield.finish;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.beefyield.estimate.Interval;
import org.beefyield.market.MarketFault;
import org.beefyield.text.Checks;

/**
 * A day of sale: what the animal is then, what is paid, what it has cost since today, and what that leaves.
 *
 * @param day days from today, 0 for today
 * @param state the animal as expected
 * @param payment what is expected to be paid for it alive, over all weights and grades that it may have
 * @param cost what it has cost, expected
 * @param net payment less cost
 * @param netInterval the interval that holds payment less cost with 90 % if it lives
 * @param more how much more that is than if it is sold today
 * @param moreInterval the interval that holds that with 90 % if it lives; what is unsure today is unsure on the day too and cancels
 * @param chanceOfMore the chance that it leaves more than today if it lives
 * @param inSpecification the chance that the customer takes it, or empty if no specification is given
 * @param missed the chance that it misses each limit; several may be missed, and those that can't be are left out
 * @param hall what it is to the hall, or empty if there are no prices or the table gives no estimate
 */
public record FinishDay(
        int day,
        FinishState state,
        double payment,
        HeldCost cost,
        double net,
        Interval netInterval,
        double more,
        Interval moreInterval,
        double chanceOfMore,
        OptionalDouble inSpecification,
        Map<MarketFault.Limit, Double> missed,
        Optional<HallDay> hall) {
    /** Checks that nothing is missing and copies the map. */
    public FinishDay {
        Objects.requireNonNull(state, "state");
        Objects.requireNonNull(cost, "cost");
        Objects.requireNonNull(netInterval, "netInterval");
        Objects.requireNonNull(moreInterval, "moreInterval");
        Objects.requireNonNull(inSpecification, "inSpecification");
        Checks.noNullIn(missed, "missed");
        Objects.requireNonNull(hall, "hall");
        Map<MarketFault.Limit, Double> copy = new EnumMap<>(MarketFault.Limit.class);
        copy.putAll(missed);
        missed = Collections.unmodifiableMap(copy);
    }

    /**
     * What the day leaves farmer and hall together.
     *
     * @return net plus the hall's margin, or empty if there is none
     */
    public OptionalDouble together() {
        return hall.map(of -> OptionalDouble.of(net + of.margin())).orElse(OptionalDouble.empty());
    }

    static String words(int day) {
        return day == 0 ? "today" : "day " + day;
    }

    static String onDay(int day) {
        return day == 0 ? "today" : "on day " + day;
    }
}
