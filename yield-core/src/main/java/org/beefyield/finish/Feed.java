package org.beefyield.finish;

import java.util.Objects;
import java.util.Optional;
import org.beefyield.carcass.Category;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** What an animal eats and what a kg of that costs: kg a day as the caller knows them, or as much as its energy takes. Immutable. */
public final class Feed {
    private final @Nullable DayCurve kgPerDay;
    private final NetEnergy.@Nullable Diet diet;
    private final double pricePerKg;

    private Feed(@Nullable DayCurve kgPerDay, NetEnergy.@Nullable Diet diet, double pricePerKg) {
        this.kgPerDay = kgPerDay;
        this.diet = diet;
        this.pricePerKg = Checks.notNegative("price of a kg of feed", pricePerKg);
    }

    /**
     * As many kg every day.
     *
     * @param kg kg a day, 0 or more
     * @param pricePerKg price of a kg, as fed or of dry matter like the kg, 0 or more
     * @return the feed
     * @throws IllegalArgumentException if a number is below 0 or not finite
     */
    public static Feed kgPerDay(double kg, double pricePerKg) {
        return kgPerDay(DayCurve.constant(Checks.notNegative("feed, kg a day", kg)), pricePerKg);
    }

    /**
     * Kg by day.
     *
     * @param kg kg a day, 0 or more
     * @param pricePerKg price of a kg, 0 or more
     * @return the feed
     * @throws IllegalArgumentException if a number is below 0 or not finite
     */
    public static Feed kgPerDay(DayCurve kg, double pricePerKg) {
        Objects.requireNonNull(kg, "kg");
        kg.points().forEach(point -> Checks.notNegative("feed, kg a day", point.value()));
        return new Feed(kg, null, pricePerKg);
    }

    /**
     * As much as the animal's energy takes for its weight and gain.
     *
     * @param diet the diet
     * @param pricePerKgDryMatter price of a kg of dry matter, 0 or more
     * @return the feed
     * @throws IllegalArgumentException if the price is below 0 or not finite
     */
    public static Feed byEnergy(NetEnergy.Diet diet, double pricePerKgDryMatter) {
        Objects.requireNonNull(diet, "diet");
        return new Feed(null, diet, pricePerKgDryMatter);
    }

    /**
     * Price of a kg.
     *
     * @return in the currency of the payment
     */
    public double pricePerKg() {
        return pricePerKg;
    }

    /**
     * The diet by whose energy feed is counted.
     *
     * @return the diet, or empty if kg are given
     */
    public Optional<NetEnergy.Diet> diet() {
        return Optional.ofNullable(diet);
    }

    /**
     * What is eaten from one day to the next.
     *
     * @param category category
     * @param day days from today
     * @param liveKg live weight, kg
     * @param gainKg live weight gained on that day, kg
     * @return kg
     */
    public double kg(Category category, int day, double liveKg, double gainKg) {
        Objects.requireNonNull(category, "category");
        if (diet != null) {
            return diet.dryMatterKg(category, liveKg, gainKg);
        }
        return kgPerDay == null ? 0 : kgPerDay.until(day + 1) - kgPerDay.until(day);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Feed that
                && Objects.equals(kgPerDay, that.kgPerDay)
                && Objects.equals(diet, that.diet)
                && pricePerKg == that.pricePerKg;
    }

    @Override
    public int hashCode() {
        return Objects.hash(kgPerDay, diet, pricePerKg);
    }

    /**
     * One line.
     *
     * @return such as {@code 12 kg a day at 0.44 a kg}
     */
    @Override
    public String toString() {
        return (diet == null
                        ? kgPerDay + " kg a day"
                        : "by energy, " + Numbers.brief(diet.digestiblePercent())
                                + " % of it digestible, mature weight " + Numbers.brief(diet.matureKg()) + " kg,")
                + " at " + Numbers.brief(pricePerKg) + " a kg" + (diet == null ? "" : " of dry matter");
    }
}
