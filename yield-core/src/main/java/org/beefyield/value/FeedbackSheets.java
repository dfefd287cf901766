package org.beefyield.value;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldEstimator;
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
    private final Map<Category, LotEstimate.Collector> hall = new EnumMap<>(Category.class);
    private final Map<String, List<Carcass>> bySupplier = new LinkedHashMap<>();
    private long withoutSupplier;

    /**
     * No carcasses yet.
     *
     * @param estimator estimator
     * @param market what the customer takes, or null to leave specifications out
     * @param overfat what it costs to be fatter than a target, or null to leave that out
     * @param valuer what animals were worth, if the supplier may see it, of the same estimator; else null
     */
    public FeedbackSheets(
            YieldEstimator estimator,
            @Nullable MarketSpecification market,
            @Nullable Overfat overfat,
            @Nullable Valuer valuer) {
        this.estimator = estimator;
        this.market = market;
        this.overfat = overfat;
        this.valuer = valuer;
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
                supplier, carcasses.stream().map(estimator::estimate).toList(), averages, market, overfat, valuer);
    }
}
