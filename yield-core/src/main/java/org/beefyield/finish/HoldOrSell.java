package org.beefyield.finish;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.beefyield.market.MarketSpecification;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.price.Valuer;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Says what animals near finish bring on each day to come. Immutable and thread-safe.
 *
 * <p>An animal gains live weight as it says, of which a part is carcass; its conformation rises with the carcass, its fat class
 * with the days; what isn't sure about it is followed through all days, spread evenly and the same every time, so that figures
 * repeat. Each possible carcass is paid as the grid says and held against the specification, graded in thirds of classes; the
 * expected carcass goes through the table to its worth for the hall. A place that the next animal waits for costs what that one
 * would earn there a day on average ({@link Replacement}).
 */
public final class HoldOrSell {
    /** Days that are looked at unless said otherwise, twelve weeks. */
    public static final int USUAL_DAYS = 84;

    /** The most days that are looked at. */
    public static final int MOST_DAYS = 730;

    private final Setup setup;

    private HoldOrSell(Setup setup) {
        this.setup = setup;
    }

    Setup setup() {
        return setup;
    }

    /**
     * What decides, beginning with what is paid.
     *
     * @param grid payment grid; if it has a bonus for being in specification, that of {@link Builder#market}
     * @return a builder
     */
    public static Builder builder(PaymentGrid grid) {
        Objects.requireNonNull(grid, "grid");
        return new Builder(grid);
    }

    /** Collects what decides. Not thread-safe. */
    public static final class Builder {
        private final PaymentGrid grid;
        private @Nullable MarketSpecification market;
        private @Nullable Valuer valuer;
        private HoldingCosts costs = HoldingCosts.NONE;
        private Assumptions assumptions = Assumptions.shipped();
        private List<PriceMove> moves = List.of();
        private int horizonDays = USUAL_DAYS;

        private Builder(PaymentGrid grid) {
            this.grid = Objects.requireNonNull(grid, "grid");
        }

        /**
         * What the customer takes; its limits of age and fat class are those that a day of sale may lie past.
         *
         * @param specification the specification
         * @return this
         */
        public Builder market(MarketSpecification specification) {
            this.market = Objects.requireNonNull(specification, "specification");
            return this;
        }

        /**
         * What carcasses are worth to the hall.
         *
         * @param prices prices and yields
         * @return this
         */
        public Builder valuer(Valuer prices) {
            this.valuer = Objects.requireNonNull(prices, "prices");
            return this;
        }

        /**
         * What it costs to hold an animal.
         *
         * @param held the costs
         * @return this
         */
        public Builder costs(HoldingCosts held) {
            this.costs = Objects.requireNonNull(held, "held");
            return this;
        }

        /**
         * What is assumed of animals; else the shipped assumptions.
         *
         * @param assumed the assumptions
         * @return this
         */
        public Builder assumptions(Assumptions assumed) {
            this.assumptions = Objects.requireNonNull(assumed, "assumed");
            return this;
        }

        /**
         * How prices move.
         *
         * @param ascending moves, days ascending; each holds until the next
         * @return this
         * @throws IllegalArgumentException if the days don't ascend
         */
        public Builder priceMoves(List<PriceMove> ascending) {
            Checks.noNullIn(ascending, "ascending");
            for (int i = 1; i < ascending.size(); i++) {
                if (ascending.get(i).fromDay() <= ascending.get(i - 1).fromDay()) {
                    throw new IllegalArgumentException(
                            "prices move from day " + ascending.get(i).fromDay() + ", which stands behind day "
                                    + ascending.get(i - 1).fromDay() + "; days ascend");
                }
            }
            this.moves = List.copyOf(ascending);
            return this;
        }

        /**
         * How far to look.
         *
         * @param days the last day from today, 0 to {@value #MOST_DAYS}; else {@value #USUAL_DAYS}
         * @return this
         * @throws IllegalArgumentException if it is outside its range
         */
        public Builder days(int days) {
            if (days < 0 || days > MOST_DAYS) {
                throw new IllegalArgumentException(days + " days to look at are outside 0 to " + MOST_DAYS);
            }
            this.horizonDays = days;
            return this;
        }

        /**
         * What decides.
         *
         * @return it
         * @throws IllegalArgumentException if the grid has a bonus for being in specification and none is given, or the hall's
         *     prices are in another currency
         */
        public HoldOrSell build() {
            if (grid.asksForSpecification() && market == null) {
                throw new IllegalArgumentException(
                        "the payment grid has a bonus for being in specification, but not what is"
                                + " in specification; give the market");
            }
            if (valuer != null) {
                valuer.prices().checkCurrency(grid.currency());
            }
            return new HoldOrSell(new Setup(
                    market == null ? grid : grid.with(market), market, valuer, costs, assumptions, moves, horizonDays));
        }
    }

    /**
     * An animal day by day.
     *
     * @param animal the animal as it stands today
     * @return its forecast
     * @throws IllegalArgumentException if the grid doesn't pay for a grade that the animal may have, or its carcass would weigh
     *     nothing or more than a carcass can
     */
    public Forecast forecast(FinishAnimal animal) {
        Objects.requireNonNull(animal, "animal");
        return forecast(animal, Projection.noTables());
    }

    private Forecast forecast(FinishAnimal animal, Map<Projection.PayKey, PayTable> tables) {
        return Forecast.of(setup, animal, new Projection(setup, animal, tables));
    }

    /**
     * The animals of a pen.
     *
     * @param animals one or more, each with its own tag if with any
     * @return the forecast of each, the order in which to draw them, and loads
     * @throws IllegalArgumentException if there is none, two have the same tag, or as {@link #forecast} says
     */
    public PenForecast pen(List<FinishAnimal> animals) {
        Checks.noNullIn(animals, "animals");
        if (animals.isEmpty()) {
            throw new IllegalArgumentException("a pen needs one animal or more");
        }
        Map<String, Integer> tags = new HashMap<>();
        for (int i = 0; i < animals.size(); i++) {
            String tag = animals.get(i).id().orElse("");
            Integer before = tag.isEmpty() ? null : tags.put(tag, i);
            if (before != null) {
                throw new IllegalArgumentException("tag " + tag + " stands twice in the pen, at places "
                        + Numbers.exact(before + 1) + " and " + Numbers.exact(i + 1));
            }
        }
        Map<Projection.PayKey, PayTable> tables = Projection.noTables();
        List<Forecast> forecasts = new ArrayList<>();
        animals.forEach(animal -> forecasts.add(forecast(animal, tables)));
        return PenForecast.of(setup, forecasts);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof HoldOrSell that && setup.equals(that.setup);
    }

    @Override
    public int hashCode() {
        return setup.hashCode();
    }

    /**
     * One line.
     *
     * @return what is paid, and how far it looks
     */
    @Override
    public String toString() {
        return "hold or sell over " + setup.horizonDays() + " days by a " + setup.grid();
    }
}
