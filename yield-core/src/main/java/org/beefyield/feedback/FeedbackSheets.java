package org.beefyield.feedback;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.market.MarketSpecification;
import org.beefyield.price.Valuer;
import org.jspecify.annotations.Nullable;

/**
 * A feedback sheet for each supplier of a hall. Averages are those of the whole hall by category, of at least
 * {@value #LEAST_ANIMALS} animals of {@value #LEAST_SUPPLIERS} suppliers, so that nobody can work out a neighbour's figures; no sheet
 * names another supplier. Immutable; a {@link Collector} takes all carcasses of the hall.
 */
public final class FeedbackSheets {
    /** Animals of a category of which there must be as many for a hall's average. */
    public static final int LEAST_ANIMALS = 5;

    /** Suppliers of a category of which there must be as many for a hall's average. */
    public static final int LEAST_SUPPLIERS = 3;

    private final FeedbackSheet.Settings settings;
    private final Map<Category, LotEstimate> hall = new EnumMap<>(Category.class);
    private final Map<String, List<Carcass>> bySupplier = new LinkedHashMap<>();
    private final long withoutSupplier;

    private FeedbackSheets(Collector collector) {
        this.settings = collector.settings;
        collector.hall.forEach((category, those) -> {
            LotEstimate lot = those.lot.lot();
            if (lot.carcasses() >= LEAST_ANIMALS && those.suppliers.size() >= LEAST_SUPPLIERS) {
                hall.put(category, lot);
            }
        });
        collector.bySupplier.forEach((supplier, carcasses) -> bySupplier.put(supplier, List.copyOf(carcasses)));
        this.withoutSupplier = collector.withoutSupplier;
    }

    /**
     * Sheets that say what animals returned.
     *
     * @param estimator estimator
     * @return a builder, for what else they say
     */
    public static Builder builder(YieldEstimator estimator) {
        Objects.requireNonNull(estimator, "estimator");
        return new Builder(estimator);
    }

    /** What sheets say. Not thread-safe. */
    public static final class Builder {
        private final YieldEstimator estimator;
        private @Nullable MarketSpecification market;
        private @Nullable Overfat overfat;
        private @Nullable Valuer valuer;
        private boolean showsValue;
        private @Nullable TimeOfSale timeOfSale;

        private Builder(YieldEstimator estimator) {
            this.estimator = Objects.requireNonNull(estimator, "estimator");
        }

        /**
         * Whether animals are in a customer's specification, and what to do about those that are not.
         *
         * @param specification what the customer takes
         * @return this
         */
        public Builder market(MarketSpecification specification) {
            this.market = Objects.requireNonNull(specification, "specification");
            return this;
        }

        /**
         * How much fat trim it means to be fatter than a target.
         *
         * @param cost the cost of fat
         * @return this
         */
        public Builder overfat(Overfat cost) {
            this.overfat = Objects.requireNonNull(cost, "cost");
            return this;
        }

        /**
         * Advice is about what costs most at these prices; the sheets don't show them.
         *
         * @param prices what animals are worth, by the same estimator
         * @return this
         */
        public Builder prices(Valuer prices) {
            this.valuer = Objects.requireNonNull(prices, "prices");
            return this;
        }

        /**
         * Shows on the sheets what each animal was worth; for suppliers who may see that.
         *
         * @param prices what animals are worth, by the same estimator
         * @return this
         */
        public Builder shownPrices(Valuer prices) {
            Objects.requireNonNull(prices, "prices");
            this.showsValue = true;
            return prices(prices);
        }

        /**
         * What another day of sale would have left; it takes the place of advice to sell sooner or later without costs.
         *
         * @param advice what is said about the day of sale
         * @return this
         */
        public Builder timeOfSale(TimeOfSale advice) {
            this.timeOfSale = Objects.requireNonNull(advice, "advice");
            return this;
        }

        /**
         * A collector of carcasses for such sheets; several of one builder can be merged.
         *
         * @return an empty collector
         */
        public Collector collector() {
            return new Collector(
                    new FeedbackSheet.Settings(estimator, market, overfat, valuer, showsValue, timeOfSale));
        }
    }

    /** The hall's animals of a category. */
    private static final class OfCategory {
        private final LotEstimate.Collector lot;
        private final Set<String> suppliers = new HashSet<>();

        OfCategory(YieldEstimator estimator) {
            lot = estimator.collector();
        }
    }

    /**
     * Takes the carcasses of a hall; it keeps those that name a supplier. Not thread-safe; let each thread have its own and
     * merge them.
     */
    public static final class Collector {
        private final FeedbackSheet.Settings settings;
        private final Map<Category, OfCategory> hall = new EnumMap<>(Category.class);
        private final Map<String, List<Carcass>> bySupplier = new LinkedHashMap<>();
        private long withoutSupplier;

        private Collector(FeedbackSheet.Settings settings) {
            this.settings = settings;
        }

        /**
         * Adds a carcass of the hall. One without a supplier counts in the averages alone.
         *
         * @param carcass carcass
         * @return this
         * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for it; nothing is added
         */
        public Collector add(Carcass carcass) {
            Objects.requireNonNull(carcass, "carcass");
            OfCategory those = hall.get(carcass.category());
            if (those == null) {
                those = new OfCategory(settings.estimator());
            }
            those.lot.add(carcass);
            // only now: if the first of a category is refused, there is no lot of it
            hall.put(carcass.category(), those);
            carcass.supplier().map(Collector::oneSpelling).ifPresent(those.suppliers::add);
            carcass.supplier().ifPresentOrElse(supplier -> carcasses(supplier).add(carcass), () -> withoutSupplier++);
            return this;
        }

        /** One farm in two spellings isn't two suppliers among whom a neighbour could hide. */
        private static String oneSpelling(String supplier) {
            String letters = supplier.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", "");
            return letters.isEmpty() ? supplier : letters;
        }

        private List<Carcass> carcasses(String supplier) {
            return bySupplier.computeIfAbsent(supplier, any -> new ArrayList<>());
        }

        /**
         * Adds all that another collector holds, as if its carcasses had been added behind those here; that one stays as it
         * is.
         *
         * @param other a collector for sheets that say the same
         * @return this
         * @throws IllegalArgumentException if its sheets say something else
         */
        public Collector add(Collector other) {
            Objects.requireNonNull(other, "other");
            if (!settings.equals(other.settings)) {
                throw new IllegalArgumentException("feedback sheets go together only if they are to say the same:"
                        + " same estimator, market specification, cost of fat and prices");
            }
            other.hall.forEach((category, more) -> {
                OfCategory those = hall.computeIfAbsent(category, any -> new OfCategory(settings.estimator()));
                those.lot.add(more.lot);
                those.suppliers.addAll(more.suppliers);
            });
            other.bySupplier.forEach((supplier, those) -> carcasses(supplier).addAll(those));
            withoutSupplier += other.withoutSupplier;
            return this;
        }

        /**
         * The sheets so far.
         *
         * @return the sheets, against the averages of all carcasses added
         */
        public FeedbackSheets result() {
            return new FeedbackSheets(this);
        }
    }

    /**
     * The suppliers, in the order of their first carcass.
     *
     * @return names
     */
    public Set<String> suppliers() {
        return Collections.unmodifiableSet(bySupplier.keySet());
    }

    /**
     * Carcasses that name no supplier.
     *
     * @return 0 or more
     */
    public long withoutSupplier() {
        return withoutSupplier;
    }

    /**
     * The sheet of a supplier.
     *
     * @param supplier name
     * @return the sheet, against the hall's averages
     * @throws IllegalArgumentException if no carcass has that supplier
     */
    public FeedbackSheet sheet(String supplier) {
        Objects.requireNonNull(supplier, "supplier");
        List<Carcass> carcasses = bySupplier.get(supplier);
        if (carcasses == null) {
            throw new IllegalArgumentException("no carcass has the supplier \"" + supplier + "\"");
        }
        Map<Category, LotEstimate> averages = new EnumMap<>(hall);
        averages.keySet().retainAll(carcasses.stream().map(Carcass::category).toList());
        return new FeedbackSheet(
                supplier, carcasses.stream().map(settings.estimator()::estimate).toList(), averages, settings);
    }
}
