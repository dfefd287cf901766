package org.beefyield.reconcile;

import java.util.Objects;
import java.util.Optional;
import org.beefyield.price.Money;
import org.beefyield.stats.ControlChart;
import org.jspecify.annotations.Nullable;

/**
 * Runs in which a group of products was off what the hall's other runs let expect.
 *
 * @param group name of the group
 * @param kind what raised the alarm
 * @param since name of the first run that is in it
 * @param noticed name of the run in which it was raised
 * @param until name of the last run that is in it
 * @param runs number of runs in it
 * @param gPerKg how far they are off the mean of the others, g per kg of intake
 * @param kg what that comes to over these runs, kg
 * @param amount what that is worth at the group's prices, or null without prices
 */
public record SeasonAlarm(
        String group,
        ControlChart.Kind kind,
        String since,
        String noticed,
        String until,
        int runs,
        double gPerKg,
        double kg,
        @Nullable Money amount) {
    /** Checks that nothing is missing. */
    public SeasonAlarm {
        Objects.requireNonNull(group, "group");
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(since, "since");
        Objects.requireNonNull(noticed, "noticed");
        Objects.requireNonNull(until, "until");
    }

    /**
     * What it is worth.
     *
     * @return amount, below 0 if it is lost; empty without prices
     */
    public Optional<Money> money() {
        return Optional.ofNullable(amount);
    }
}
