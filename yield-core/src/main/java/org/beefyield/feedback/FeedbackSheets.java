package org.beefyield.feedback;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
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
 * Makes a feedback sheet for each supplier of a hall: add all its carcasses, then ask for the sheets. Averages are those
 * of the whole hall by category; no sheet names another supplier. Not thread-safe.
 */
public final class FeedbackSheets {
    private final YieldEstimator estimator;
    private final @Nullable MarketSpecification market;
    private final @Nullable Overfat overfat;
    private final @Nullable Valuer valuer;
    private final boolean showsValue;
    private final Map<Category, LotEstimate.Collector> hall = new EnumMap<>(Category.class);
    private final Map<String, List<Carcass>> bySupplier = new LinkedHashMap<>();
    private long withoutSupplier;

    private FeedbackSheets(Builder builder) {
        this.estimator = builder.estimator;
        this.market = builder.market;
        this.overfat = builder.overfat;
        this.valuer = builder.valuer;
        this.showsValue = builder.showsValue;
    }

    /**
     * Sheets that say what animals returned.
     *
     * @param estimator estimator
     * @return a builder, for what else they say
     */
    public static Builder builder(YieldEstimator estimator) {
        return new Builder(estimator);
    }

    /** What sheets say. Not thread-safe. */
    public static final class Builder {
        private final YieldEstimator estimator;
        private @Nullable MarketSpecification market;
        private @Nullable Overfat overfat;
        private @Nullable Valuer valuer;
        private boolean showsValue;

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
            this.showsValue = true;
            return prices(prices);
        }

        /**
         * The sheets, of no carcasses yet.
         *
         * @return them
         */
        public FeedbackSheets build() {
            return new FeedbackSheets(this);
        }
    }

    /**
     * Adds a carcass of the hall. One without a supplier counts in the averages alone.
     *
     * @param carcass carcass
     * @return this
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for it; nothing is added
     */
    public FeedbackSheets add(Carcass carcass) {
        hall.computeIfAbsent(carcass.category(), category -> estimator.collector())
                .add(carcass);
        carcass.supplier()
                .ifPresentOrElse(
                        supplier -> bySupplier
                                .computeIfAbsent(supplier, name -> new ArrayList<>())
                                .add(carcass),
                        () -> withoutSupplier++);
        return this;
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
     * @return the sheet, against the averages so far
     * @throws IllegalArgumentException if no carcass has that supplier
     */
    public FeedbackSheet sheet(String supplier) {
        List<Carcass> carcasses = bySupplier.get(supplier);
        if (carcasses == null) {
            throw new IllegalArgumentException("no carcass has the supplier \"" + supplier + "\"");
        }
        Map<Category, LotEstimate> averages = new EnumMap<>(Category.class);
        for (Carcass carcass : carcasses) {
            LotEstimate.Collector collector = hall.get(carcass.category());
            if (collector != null && !averages.containsKey(carcass.category())) {
                averages.put(carcass.category(), collector.lot());
            }
        }
        return new FeedbackSheet(
                supplier,
                carcasses.stream().map(estimator::estimate).toList(),
                averages,
                market,
                overfat,
                valuer,
                showsValue);
    }
}
