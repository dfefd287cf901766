package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.beefyield.carcass.Carcass;
import org.beefyield.pay.Marginals;
import org.beefyield.price.Attribution;
import org.beefyield.price.Factor;
import org.beefyield.price.PriceList;
import org.beefyield.price.Value;
import org.beefyield.price.ValueLine;
import org.beefyield.price.Valuer;
import org.junit.jupiter.api.Test;

/**
 * What grades are worth with the shipped table. Prices are the relative ones of {@code prices.csv}, an assumption in round
 * figures, on primal cuts, scaled so that a kg of a steer R= 3= of 340 kg is worth 296 cent; what is lost is worth nothing.
 */
class ShippedTableValueTest {
    private static final Carcass BASE = Shipped.steer("R=", "3=", Shipped.KG).carcass();

    private static final Valuer VALUER = ReferencePrices.valuer(Shipped.ESTIMATOR, BASE);

    /** With one price for all meat the slopes are those of meat, fat trim and bone, g/kg per point of the tissue level. */
    @Test
    void withOnePriceForAllMeatTheSlopesAreThoseOfTheTissues() {
        double ofMeat = VALUER.value(BASE).lines().stream()
                        .filter(line -> Shipped.primals().contains(line.code()))
                        .mapToDouble(ValueLine::amount)
                        .sum()
                / Shipped.ESTIMATOR.estimate(BASE).meatKg();
        PriceList.Builder flat = VALUER.prices().toBuilder();
        Shipped.primals().forEach(cut -> flat.cut(cut, ofMeat));
        PriceList prices = flat.build();
        Marginals marginals = Marginals.of(Valuer.of(prices, Shipped.ESTIMATOR, "primal"), BASE);
        double fatTrim = prices.cuts().get("fat-trim");
        double bone = prices.cuts().get("bone");

        assertThat(marginals.conformationPoint().perKg())
                .isCloseTo((11.729 * ofMeat - 4.374 * fatTrim - 7.356 * bone) / 1000, within(0.001));
        assertThat(marginals.fatPoint().perKg())
                .isCloseTo((-9.542 * ofMeat + 11.928 * fatTrim - 2.386 * bone) / 1000, within(0.001));
    }

    @Test
    void atEqualWeightTheWholeOfTheUBeforeTheOIsItsConformation() {
        Value better = VALUER.value(Shipped.steer("U=", "3=", Shipped.KG).carcass());
        Value worse = VALUER.value(Shipped.steer("O=", "3=", Shipped.KG).carcass());
        Attribution why = Attribution.of(better, worse);

        assertThat(why.amount(Factor.CONFORMATION)).isCloseTo(why.difference(), within(1e-6));
        // six points at about what a point is worth at R= 3=
        assertThat(why.difference() / Shipped.KG)
                .isCloseTo(6 * Marginals.of(VALUER, BASE).conformationPoint().perKg(), within(0.5));
    }
}
