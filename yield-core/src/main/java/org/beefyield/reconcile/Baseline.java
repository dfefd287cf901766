package org.beefyield.reconcile;

import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.Mince;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.Value;
import org.beefyield.price.ValueLine;
import org.beefyield.price.Valuer;
import org.jspecify.annotations.Nullable;

/**
 * What a run is compared with, so that other grades, another way of cutting and other prices are told apart: the carcasses that were
 * planned, or those of an earlier day. It counts for as much cold weight as the run has. Immutable.
 */
public final class Baseline {
    private final LotEstimate lot;
    private final @Nullable Value value;

    private Baseline(LotEstimate lot, @Nullable Value value) {
        this.lot = lot;
        this.value = value;
    }

    /**
     * A baseline of carcasses, cut their way, at the run's own prices.
     *
     * @param lot estimate of the carcasses
     * @return the baseline
     */
    public static Baseline of(LotEstimate lot) {
        return new Baseline(Objects.requireNonNull(lot, "lot"), null);
    }

    /**
     * A baseline of carcasses, cut their way, at prices of its own.
     *
     * @param value value of the carcasses
     * @return the baseline
     * @throws IllegalArgumentException if it is the value of a single carcass that was not collected to a lot
     */
    public static Baseline of(Value value) {
        Objects.requireNonNull(value, "value");
        if (value.outturn() instanceof LotEstimate lot) {
            return new Baseline(lot, value);
        }
        throw new IllegalArgumentException("a baseline is the value of a lot; collect the carcass to one");
    }

    LotEstimate lot() {
        return lot;
    }

    /** Cold weight of the run's carcasses per kg of the baseline's. */
    double scaleTo(Outturn run) {
        return run.coldWeightKg() / lot.coldWeightKg();
    }

    /** An estimator that cuts as the baseline's. */
    YieldEstimator sameWay(YieldEstimator run) {
        return run.with(lot.specification());
    }

    void check(YieldEstimator estimator, Optional<String> currency) {
        sameWay(estimator).check(lot);
        Optional<MinceTarget> target = lot.mince().map(Mince::target);
        if (!target.equals(estimator.minceTarget())) {
            throw new IllegalArgumentException("the baseline has " + words(target) + " and the run "
                    + words(estimator.minceTarget()) + "; both are minced alike");
        }
        if (value != null && !currency.equals(Optional.of(value.currency()))) {
            throw new IllegalArgumentException("the baseline is priced in " + value.currency() + " and the run "
                    + currency.map(label -> "in " + label).orElse("not") + "; both are in one currency, or neither is");
        }
    }

    private static String words(Optional<MinceTarget> target) {
        return target.map(MinceTarget::toString).orElse("no mince target");
    }

    /** Prices of a kg by the code of a cut; the run's for cuts that the baseline doesn't yield. */
    Map<String, Double> prices(Map<String, Double> ofRun) {
        Map<String, Double> prices = new HashMap<>(ofRun);
        if (value != null) {
            prices.putAll(prices(value));
        }
        return prices;
    }

    /** Prices of a kg by the code of a cut that its way yields: its own, or those of the run; none without a valuer. */
    Map<String, Double> itsPrices(@Nullable Valuer ofRun) {
        if (value != null) {
            return prices(value);
        }
        return ofRun == null
                ? Map.of()
                : prices(Valuer.of(ofRun.prices(), sameWay(ofRun.estimator()), ofRun.level())
                        .value(lot));
    }

    static Map<String, Double> prices(Value value) {
        Map<String, Double> prices = new HashMap<>();
        for (ValueLine line : value.lines()) {
            if (!line.code().isEmpty()) {
                prices.put(line.code(), line.price());
            }
        }
        return prices;
    }
}
