package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.beefyield.Serial;
import org.beefyield.carcass.Carcass;
import org.beefyield.price.PriceList;
import org.beefyield.price.TestPrices;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

/** Results as values: equal or not, there and back by serialization, one line, collected from streams, with a name. */
class ResultValuesTest {
    private static final YieldTable THREE = YieldTable.of(TestTables.threeLevels());

    private static YieldEstimator estimator() {
        return YieldEstimator.of(THREE).withSpecification("steaks").with(MinceTarget.fatPercent(15));
    }

    private static Carcass steer(double kg) {
        return TestPrices.steer("R=", "3+", kg)
                .withId("T 1")
                .withSupplier("Tarrowmere")
                .withLot("north");
    }

    private static PriceList prices(double hide) {
        return TestPrices.BY_KIND.toBuilder()
                .mince(15, 6.2)
                .mince(20, 5.8)
                .mince(5.1)
                .cut("striploin-steak", 30)
                .otherPerHead("hide", hide)
                .build();
    }

    private static void equal(Object one, Object other) {
        assertThat(one).isEqualTo(other).hasSameHashCodeAs(other).hasToString(other.toString());
        assertThat(one.toString()).doesNotContain("\n").doesNotContainPattern("@[0-9a-f]{6}");
    }

    @Test
    void whatIsMadeAlikeIsEqual() {
        equal(estimator(), estimator());
        equal(estimator().estimate(steer(340)), estimator().estimate(steer(340)));
        equal(estimator().tryEstimate(steer(340)), estimator().tryEstimate(steer(340)));
        equal(estimator().tryEstimate(steer(900)), estimator().tryEstimate(steer(900)));
        List<Carcass> carcasses = List.of(steer(340), steer(320));
        equal(estimator().estimateLot(carcasses), estimator().estimateLot(carcasses));
        equal(prices(40), prices(40));
        Valuer valuer = Valuer.of(prices(40), estimator());
        equal(valuer, Valuer.of(prices(40), estimator()));
        equal(valuer.value(steer(340)), Valuer.of(prices(40), estimator()).value(steer(340)));
        equal(
                estimator()
                        .estimate(steer(340))
                        .sample(new Random(1), 1)
                        .carcasses()
                        .get(0),
                estimator()
                        .estimate(steer(340))
                        .sample(new Random(1), 1)
                        .carcasses()
                        .get(0));
    }

    @Test
    void whatDiffersInAnythingIsNot() {
        YieldEstimator estimator = estimator();
        assertThat(estimator)
                .isNotEqualTo(estimator.with(MinceTarget.fatPercent(20)))
                .isNotEqualTo(estimator.withSpecification("joints"))
                .isNotEqualTo(estimator.with(RangePolicy.REFUSE_OUTSIDE_FITTED))
                .isNotEqualTo(estimator.with(new ScaleError(0.5, 0)));
        YieldEstimate estimate = estimator.estimate(steer(340));
        assertThat(estimate)
                .isNotEqualTo(estimator.estimate(steer(341)))
                .isNotEqualTo(estimator.estimate(steer(340).withId("T 2")))
                .isNotEqualTo(estimator.withSpecification("joints").estimate(steer(340)));
        LotEstimate lot = estimator.estimateLot(List.of(steer(340)));
        assertThat(lot)
                .isNotEqualTo(estimator.estimateLot(List.of(steer(341))))
                .isNotEqualTo(estimator.estimateLot(List.of(steer(340), steer(340))))
                .isNotEqualTo(lot.withName("north"))
                .isNotEqualTo(lot.under("joints"));
        Valuer valuer = Valuer.of(prices(40), estimator);
        assertThat(valuer).isNotEqualTo(Valuer.of(prices(41), estimator));
        assertThat(valuer.value(estimate))
                .isNotEqualTo(Valuer.of(prices(41), estimator).value(estimate))
                .isNotEqualTo(valuer.value(steer(341)));
    }

    @Test
    void whatAServiceCachesArrivesEqualAndSaysTheSame() {
        YieldEstimator estimator = estimator();
        YieldEstimate estimate = estimator.estimate(steer(340));
        YieldEstimate arrived = Serial.copy(estimate);
        equal(arrived, estimate);
        assertThat(arrived.toText()).isEqualTo(estimate.toText());
        assertThat(arrived.carcass()).isEqualTo(estimate.carcass());
        equal(Serial.copy(estimator.estimate(steer(340)).rangeNotes()), estimate.rangeNotes());
        LotEstimate lot = estimator.estimateLot(List.of(steer(340), steer(333))).withName("north");
        equal(Serial.copy(lot), lot);
        assertThat(Serial.copy(lot).toText()).isEqualTo(lot.toText());
        equal(Serial.copy(prices(40)), prices(40));
        Valuer valuer = Valuer.of(prices(40), estimator);
        equal(Serial.copy(valuer), valuer);
        for (Value value : List.of(valuer.value(estimate), valuer.value(lot))) {
            Value there = Serial.copy(value);
            equal(there, value);
            assertThat(there.toText()).isEqualTo(value.toText());
            assertThat(there.sd()).isEqualTo(value.sd());
        }
        DrawnCarcass drawn = estimate.sample(new Random(1), 1).carcasses().get(0);
        equal(Serial.copy(drawn), drawn);
    }

    @Test
    void aStreamIsCollectedToALot() {
        List<Carcass> carcasses = Stream.iterate(300.0, kg -> kg + 1)
                .limit(100)
                .map(ResultValuesTest::steer)
                .toList();
        LotEstimate lot = estimator().estimateLot(carcasses);
        equal(carcasses.stream().collect(estimator().collecting()), lot);
        LotEstimate parallel = carcasses.parallelStream().collect(estimator().collecting());
        assertThat(parallel.carcasses()).isEqualTo(100);
        assertThat(parallel.toText()).isEqualTo(lot.toText());
        assertThatThrownBy(() -> Stream.of(steer(900)).collect(estimator().collecting()))
                .isInstanceOf(RefusedCarcassException.class);
    }

    @Test
    void aLotsNameStandsAboveItsTables() {
        LotEstimate lot = estimator().estimateLot(List.of(steer(340), steer(320)));
        assertThat(lot.name()).isEmpty();
        assertThat(lot.toText()).startsWith("Lot of 2 carcasses, 660.0 kg cold\n");
        LotEstimate named = lot.withName("Tarrowmere, 3 March");
        assertThat(named.name()).contains("Tarrowmere, 3 March");
        assertThat(named.toText()).startsWith("Tarrowmere, 3 March, lot of 2 carcasses, 660.0 kg cold\n");
        assertThat(named).hasToString("Tarrowmere, 3 March: " + lot);
        assertThat(named.under("joints").name()).contains("Tarrowmere, 3 March");
        assertThat(named.plus(named).name()).contains("Tarrowmere, 3 March");
        assertThat(named.plus(lot).name()).isEmpty();
        assertThatThrownBy(() -> lot.withName(" "))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the name of a lot is blank; give one, or leave it out");
    }

    @Test
    void nullIsRefusedByName() {
        LotEstimate.Collector collector = estimator().collector();
        assertThatThrownBy(() -> collector.add((Carcass) null))
                .isInstanceOf(NullPointerException.class)
                .hasMessage("carcass");
        assertThatThrownBy(() -> estimator().estimate(null)).hasMessage("carcass");
        assertThatThrownBy(() -> estimator().estimate(steer(340)).kg((String) null))
                .hasMessage("cut");
    }
}
