package org.beefyield.pay;

import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.beefyield.estimate.Interval;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * What the carcasses of a supplier or a grade left beside the hall's average of all carcasses, and for which causes.
 *
 * @param name supplier, or grade
 * @param margin their margin
 * @param beside their margin less what as many kg leave on the hall's average; below 0 if more was paid for them
 * @param interval 90 % interval of that, of what will be weighed, errors in common with the other carcasses cancelled; null if the
 *     table states no SDs, there are no other carcasses, or mince of all together has no price
 * @param effects what each cause did; they add up to {@code beside}
 * @param before their margin a kg in the baseline, or null if there is none
 */
public record PaidBeside(
        String name,
        Margin margin,
        double beside,
        @Nullable Interval interval,
        Map<PayCause, PayEffect> effects,
        @Nullable Double before) {
    /** Copies the effects. */
    public PaidBeside {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(margin, "margin");
        Checks.noNullIn(effects, "effects");
        Map<PayCause, PayEffect> all = new EnumMap<>(PayCause.class);
        for (PayCause cause : PayCause.values()) {
            all.put(cause, Objects.requireNonNullElse(effects.get(cause), PayEffect.NONE));
        }
        effects = Collections.unmodifiableMap(all);
    }

    /**
     * What a cause did.
     *
     * @param cause cause
     * @return its effect on worth and payment
     */
    public PayEffect effect(PayCause cause) {
        Objects.requireNonNull(cause, "cause");
        return Objects.requireNonNullElse(effects.get(cause), PayEffect.NONE);
    }

    /**
     * Money that was overpaid whatever the carcasses turn out to weigh: what lies beyond the interval.
     *
     * @return 0 or more
     */
    public double beyond() {
        return interval == null ? 0 : Math.max(0, -interval.high());
    }

    /**
     * Whether more was paid than the hall pays on average for what they are worth, beyond what chance makes.
     *
     * @return true if the whole interval lies below 0
     */
    public boolean isOverpaid() {
        return beyond() > 0;
    }

    /**
     * The cause that took most.
     *
     * @return the cause with the largest loss, or empty if they are not overpaid
     */
    public Optional<PayCause> mainCause() {
        return isOverpaid()
                ? effects.entrySet().stream()
                        .min(Comparator.comparingDouble(
                                entry -> entry.getValue().amount()))
                        .map(Map.Entry::getKey)
                : Optional.empty();
    }

    /**
     * How much more a kg leaves than in the baseline.
     *
     * @return amount per kg of cold weight, or empty without a baseline or if they are not in it
     */
    public OptionalDouble changePerKg() {
        return before == null ? OptionalDouble.empty() : OptionalDouble.of(margin.perKg() - before);
    }

    PaidBeside since(@Nullable Double earlier) {
        return new PaidBeside(name, margin, beside, interval, effects, earlier);
    }
}
