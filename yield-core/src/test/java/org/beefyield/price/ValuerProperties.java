package org.beefyield.price;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.RandomTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.TableDefinition;

/** Values of any carcass of any table at any prices, at every level. */
class ValuerProperties {
    @Provide
    Arbitrary<RandomTables.Shape> shapes() {
        return RandomTables.shapes();
    }

    private static YieldEstimator estimator(TableDefinition definition, Random random) {
        TableDefinition.Builder builder = definition.toBuilder();
        RandomTables.mix(definition, random).forEach((parent, way) -> builder.specification("mix", parent, way));
        return YieldEstimator.of(YieldTable.of(builder.build()));
    }

    private static PriceList prices(YieldEstimator estimator, String level, Random random) {
        PriceList.Builder prices = PriceList.builder("EUR");
        for (Cut cut : estimator.yields(level)) {
            prices.cut(cut.code(), random.nextDouble(20) - 1);
        }
        return prices.otherPerHead("Hide", random.nextDouble(40))
                .otherPerKg("Boning", -random.nextDouble(1))
                .build();
    }

    /** One list whose prices are the sums of two others' is worth what those two are together. */
    @Property(tries = 100)
    void valueIsLinearInPrices(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        Random random = new Random(seed);
        TableDefinition definition = shape.table();
        YieldEstimator estimator = estimator(definition, random);
        for (String level : estimator.table().levels()) {
            PriceList one = prices(estimator, level, random);
            PriceList two = prices(estimator, level, random);
            double factor = random.nextDouble(5) - 2;
            PriceList.Builder sum = one.toBuilder();
            one.cuts()
                    .forEach((cut, price) ->
                            sum.cut(cut, price + factor * two.cuts().get(cut)));
            two.times(factor).others().forEach(line -> {
                if (line.per() == PriceList.OtherLine.Per.HEAD) {
                    sum.otherPerHead(line.name(), line.amount());
                } else {
                    sum.otherPerKg(line.name(), line.amount());
                }
            });
            Carcass carcass = RandomTables.carcass(definition, random);
            double expected = amount(one, estimator, level, carcass) + factor * amount(two, estimator, level, carcass);

            assertThat(amount(sum.build(), estimator, level, carcass))
                    .isCloseTo(expected, within(1e-9 * (1 + Math.abs(expected))));
        }
    }

    private static double amount(PriceList prices, YieldEstimator estimator, String level, Carcass carcass) {
        return Valuer.of(prices, estimator, level).value(carcass).amount();
    }

    @Property(tries = 100)
    void aBetterPriceListNeverLowersTheValue(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        Random random = new Random(seed);
        TableDefinition definition = shape.table();
        YieldEstimator estimator = estimator(definition, random);
        for (String level : estimator.table().levels()) {
            PriceList prices = prices(estimator, level, random);
            PriceList.Builder better = prices.toBuilder();
            prices.cuts().forEach((cut, price) -> better.cut(cut, price + random.nextDouble(3)));
            Carcass carcass = RandomTables.carcass(definition, random);

            assertThat(amount(better.build(), estimator, level, carcass))
                    .isGreaterThanOrEqualTo(amount(prices, estimator, level, carcass) - 1e-9);
        }
    }

    @Property(tries = 60)
    void aLotIsWorthWhatItsCarcassesAre(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        Random random = new Random(seed);
        TableDefinition definition = shape.table();
        YieldEstimator estimator = estimator(definition, random);
        String last = estimator.table().levels().get(estimator.table().levels().size() - 1);
        Valuer valuer = Valuer.of(prices(estimator, last, random), estimator);
        List<Carcass> carcasses = new ArrayList<>();
        double sum = 0;
        for (int i = 0; i < 12; i++) {
            carcasses.add(RandomTables.carcass(definition, random));
            sum += valuer.value(carcasses.get(i)).amount();
        }
        LotEstimate lot = estimator.estimateLot(carcasses);
        LotEstimate parts =
                estimator.estimateLot(carcasses.subList(0, 5)).plus(estimator.estimateLot(carcasses.subList(5, 12)));

        assertThat(valuer.value(lot).amount()).isCloseTo(sum, within(1e-9 * (1 + Math.abs(sum))));
        assertThat(valuer.value(parts).amount()).isCloseTo(sum, within(1e-9 * (1 + Math.abs(sum))));
    }
}
