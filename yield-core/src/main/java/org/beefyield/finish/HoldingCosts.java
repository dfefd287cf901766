package org.beefyield.finish;

import java.util.Objects;
import java.util.Optional;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/** What it costs to hold an animal, in the currency of the payment. What isn't given costs nothing, and results say so. Immutable. */
public final class HoldingCosts {
    private static final double DAYS_A_YEAR = 365;
    private static final double PER_CENT = 100;

    /** Nothing costs anything. */
    public static final HoldingCosts NONE = builder().build();

    private final @Nullable Feed feed;
    private final double yardagePerDay;
    private final double interestPercentPerYear;
    private final double deathsPercentPerYear;
    private final @Nullable Replacement replacement;
    private final double haulagePerLoad;

    private HoldingCosts(Builder builder) {
        this.feed = builder.feed;
        this.yardagePerDay = builder.yardagePerDay;
        this.interestPercentPerYear = builder.interestPercentPerYear;
        this.deathsPercentPerYear = builder.deathsPercentPerYear;
        this.replacement = builder.replacement;
        this.haulagePerLoad = builder.haulagePerLoad;
    }

    /**
     * Costs of nothing yet.
     *
     * @return a builder
     */
    public static Builder builder() {
        return new Builder();
    }

    /** Collects costs. Not thread-safe. */
    public static final class Builder {
        private @Nullable Feed feed;
        private double yardagePerDay;
        private double interestPercentPerYear;
        private double deathsPercentPerYear;
        private @Nullable Replacement replacement;
        private double haulagePerLoad;

        private Builder() {}

        /**
         * Feed.
         *
         * @param eaten what is eaten and what it costs
         * @return this
         */
        public Builder feed(Feed eaten) {
            this.feed = Objects.requireNonNull(eaten, "eaten");
            return this;
        }

        /**
         * All else that a day costs: bedding, labour, housing, veterinary.
         *
         * @param perDay a head and day, 0 or more
         * @return this
         * @throws IllegalArgumentException if it is below 0 or not finite
         */
        public Builder yardagePerDay(double perDay) {
            this.yardagePerDay = Checks.notNegative("yardage a day", perDay);
            return this;
        }

        /**
         * Interest on what the animal would bring today.
         *
         * @param percent % a year, 0 to 100
         * @return this
         * @throws IllegalArgumentException if it is outside its range
         */
        public Builder interestPercentPerYear(double percent) {
            this.interestPercentPerYear = percent("interest, % a year", percent);
            return this;
        }

        /**
         * Animals that die.
         *
         * @param percent % of animals a year, 0 to 100; such as 4, the 1.83 % in 167 days of 43,629 lots in feedlots of the USA
         * @return this
         * @throws IllegalArgumentException if it is outside its range
         */
        public Builder deathsPercentPerYear(double percent) {
            this.deathsPercentPerYear = percent("deaths, % a year", percent);
            return this;
        }

        private static double percent(String what, double percent) {
            return Checks.atMost(what, Checks.notNegative(what, percent), PER_CENT);
        }

        /**
         * What the place is worth to the next animal.
         *
         * @param next the animal that comes once the place is free
         * @return this
         */
        public Builder replacement(Replacement next) {
            this.replacement = Objects.requireNonNull(next, "next");
            return this;
        }

        /**
         * What a load to the plant costs, whoever is on it; it decides how a pen is parted in loads.
         *
         * @param perLoad a load, 0 or more
         * @return this
         * @throws IllegalArgumentException if it is below 0 or not finite
         */
        public Builder haulagePerLoad(double perLoad) {
            this.haulagePerLoad = Checks.notNegative("haulage a load", perLoad);
            return this;
        }

        /**
         * The costs.
         *
         * @return them
         */
        public HoldingCosts build() {
            return new HoldingCosts(this);
        }
    }

    /**
     * Feed.
     *
     * @return what is eaten, or empty if it costs nothing
     */
    public Optional<Feed> feed() {
        return Optional.ofNullable(feed);
    }

    /**
     * All else that a day costs.
     *
     * @return a head and day
     */
    public double yardagePerDay() {
        return yardagePerDay;
    }

    /**
     * Interest on what the animal would bring today.
     *
     * @return % a year
     */
    public double interestPercentPerYear() {
        return interestPercentPerYear;
    }

    /**
     * Animals that die.
     *
     * @return % a year
     */
    public double deathsPercentPerYear() {
        return deathsPercentPerYear;
    }

    /**
     * The next animal.
     *
     * @return it, or empty if the place is worth nothing to another
     */
    public Optional<Replacement> replacement() {
        return Optional.ofNullable(replacement);
    }

    /**
     * What a load costs.
     *
     * @return a load
     */
    public double haulagePerLoad() {
        return haulagePerLoad;
    }

    /** Part of the animals that are alive on a day. */
    double alive(int day) {
        return Math.pow(1 - deathsPercentPerYear / PER_CENT, day / DAYS_A_YEAR);
    }

    /** Simple interest on a capital until a day. */
    double interest(double capital, int day) {
        return capital * interestPercentPerYear / PER_CENT * day / DAYS_A_YEAR;
    }

    /** What the place would earn until a day. */
    double place(int day) {
        return replacement == null ? 0 : replacement.perDay() * day;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof HoldingCosts that
                && Objects.equals(feed, that.feed)
                && yardagePerDay == that.yardagePerDay
                && interestPercentPerYear == that.interestPercentPerYear
                && deathsPercentPerYear == that.deathsPercentPerYear
                && Objects.equals(replacement, that.replacement)
                && haulagePerLoad == that.haulagePerLoad;
    }

    @Override
    public int hashCode() {
        return Objects.hash(
                feed, yardagePerDay, interestPercentPerYear, deathsPercentPerYear, replacement, haulagePerLoad);
    }

    /**
     * One line.
     *
     * @return such as {@code feed 12 kg a day at 0.44 a kg; not counted: yardage, interest, deaths, the next animal on its place}
     */
    @Override
    public String toString() {
        return new HoldingCostsText(this).line();
    }
}
