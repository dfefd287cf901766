package org.beefyield.feedback;

import static org.assertj.core.api.Assertions.assertThat;
import static org.beefyield.price.TestPrices.steer;

import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.EdgeRule;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.market.MarketSpecification;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** One carcass, one rule: grid, market and fat target take it for the same half. */
class EdgeInOneRunTest {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));

    @ParameterizedTest
    @CsvSource({
        "4=, LOWER, true",
        "4, LOWER, true",
        "4=, UPPER, false",
        "4, UPPER, false",
        "4L, UPPER, true",
        "4H, LOWER, false"
    })
    void gridMarketAndTargetReadAGradeAlike(String fatClass, EdgeRule rule, boolean low) {
        Carcass carcass = steer("R=", fatClass, 320);
        FatClass limit = FatClass.parse("4L");
        PaymentGrid grid = PaymentGrid.builder("EUR")
                .base(null, 5)
                .grade(null, null, limit, 0)
                .grade(null, null, FatClass.parse("4H"), -0.2)
                .build()
                .with(rule);

        assertThat(grid.paid(carcass).perKg().doubleValue()).isEqualTo(low ? 5 : 4.8);
        assertThat(MarketSpecification.builder("to 4L")
                        .fatClass(null, limit)
                        .build()
                        .with(rule)
                        .test(carcass))
                .isEqualTo(low);
        assertThat(Overfat.against(ESTIMATOR, limit).with(rule).cost(carcass).isEmpty())
                .isEqualTo(low);
    }
}
