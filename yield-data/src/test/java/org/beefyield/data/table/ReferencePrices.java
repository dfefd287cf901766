package org.beefyield.data.table;

import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.PriceList;
import org.beefyield.price.Valuer;

/** The relative prices of {@code prices.csv}, an assumption in round figures, on primal cuts. */
public final class ReferencePrices {
    /** What a kg was worth where grange published values. */
    private static final double CENT_PER_KG = 296;

    private ReferencePrices() {}

    /** Values at prices at which a kg of the carcass given is worth 296 cent; what is lost is worth nothing. */
    public static Valuer valuer(YieldEstimator estimator, Carcass base) {
        PriceList.Builder relative = PriceList.builder("cent").kind(CutKind.LOSS, 0);
        for (Map<String, String> row : ReferenceRows.of("prices.csv")) {
            relative.cut(row.get("cut_or_kind"), Double.parseDouble(row.get("relative_price")));
        }
        PriceList prices = relative.build();
        double worth = Valuer.of(prices, estimator, "primal").value(base).perKg();
        return Valuer.of(prices.times(CENT_PER_KG / worth), estimator, "primal");
    }
}
