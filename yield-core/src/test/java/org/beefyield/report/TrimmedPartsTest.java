package org.beefyield.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.TestPrices;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

class TrimmedPartsTest {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));
    private static final Carcass CARCASS = TestPrices.steer("R=", "3=", 340);

    @Test
    void whatIsCutOffGoesFromTheCutsThereAndTheRestIsAsOfTheWholeCarcass() {
        TrimmedParts parts = TrimmedParts.collector(ESTIMATOR)
                .add(CARCASS, Map.of(TrimmedParts.Region.HIND, 6.0))
                .result();

        assertThat(parts.corrections().values().stream().mapToDouble(kg -> kg).sum())
                .isCloseTo(0, within(1e-9));
        String level = parts.level().orElseThrow();
        var left = ESTIMATOR.estimate(CARCASS);
        var whole = ESTIMATOR.estimate(CARCASS.withColdWeightKg(346));
        double taken = 0;
        for (var entry : parts.corrections().entrySet()) {
            String code = entry.getKey().code();
            double back = whole.kg(level, code) - left.kg(level, code);
            taken += back - entry.getValue();
            assertThat(back - entry.getValue()).isGreaterThanOrEqualTo(-1e-12);
        }
        assertThat(taken).isCloseTo(6, within(1e-9));
        assertThat(parts.toString()).isEqualTo("6.0 kg trimmed off 1 carcass: hind 6.0");
        assertThat(parts.unplacedKg()).isZero();
    }

    @Test
    void withoutAQuarteringItIsSaidThatEveryCutMayBeLighter() {
        TrimmedParts parts = TrimmedParts.collector(YieldEstimator.of(YieldTable.of(TestTables.small())))
                .add(CARCASS, Map.of(TrimmedParts.Region.NECK, 4.0))
                .result();
        assertThat(parts.unplacedKg()).isEqualTo(4);
        assertThat(parts.toText())
                .contains("4.0 kg of it can be taken off no cut")
                .contains("lighter, by as much in all");
    }

    @Test
    void noCutGetsLighterThanNothing() {
        TrimmedParts parts = TrimmedParts.collector(ESTIMATOR)
                .add(TestPrices.steer("R=", "3=", 250), Map.of(TrimmedParts.Region.HIND, 100.0))
                .result();
        assertThat(ESTIMATOR.tryEstimate(TestPrices.steer("R=", "3=", 350)).estimate())
                .isPresent();
        assertThat(parts.unplacedKg()).isEqualTo(100);
        assertThat(parts.corrections().values()).containsOnly(0.0);
    }

    @Test
    void partsMergeAndNonsenseIsRefused() {
        TrimmedParts.Collector one =
                TrimmedParts.collector(ESTIMATOR).add(CARCASS, Map.of(TrimmedParts.Region.FORE, 2.0));
        TrimmedParts.Collector two =
                TrimmedParts.collector(ESTIMATOR).add(CARCASS, Map.of(TrimmedParts.Region.FLANK, 3.0));
        TrimmedParts both = one.add(two).result();
        assertThat(both.carcasses()).isEqualTo(2);
        assertThat(both.trimmedKg()).isEqualTo(Map.of(TrimmedParts.Region.FORE, 2.0, TrimmedParts.Region.FLANK, 3.0));
        assertThatThrownBy(() -> one.add(CARCASS, Map.of(TrimmedParts.Region.FORE, 0.0)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("trimmed 0.0 kg off the fore is not a finite number above 0");
    }
}
