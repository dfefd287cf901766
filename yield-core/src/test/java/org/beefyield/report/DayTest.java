package org.beefyield.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.pay.MarginReport;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.price.TestPrices;
import org.beefyield.price.Valuer;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

class DayTest {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));
    private static final Valuer VALUER = Valuer.of(TestPrices.BY_KIND, ESTIMATOR);

    @Test
    void whatStandsFirstIsWhatAManagerAsks() {
        List<Carcass> carcasses = List.of(TestPrices.steer("R=", "3=", 340), TestPrices.steer("U-", "4=", 410));
        LotEstimate lot = ESTIMATOR.estimateLot(carcasses);
        MarginReport.Collector margins = MarginReport.collector(
                VALUER,
                PaymentGrid.builder("EUR")
                        .base(null, 5)
                        .grade(null, null, null, 0)
                        .build());
        carcasses.forEach(margins::add);
        double sum = carcasses.stream()
                .mapToDouble(one -> VALUER.value(one).amount())
                .sum();
        Day day = Day.builder("Tuesday")
                .rows(5, 1, 2)
                .refusals(Map.of("no weight", 2L))
                .otherReasons(3)
                .lot(lot)
                .value(VALUER.value(lot), sum)
                .margins(margins.result())
                .promise(0.95)
                .build();

        assertThat(day).hasToString("Tuesday: 5 rows, 2 estimated, 1 condemned, 2 refused");
        assertThat(day.lines())
                .extracting(Day.Line::name)
                .startsWith("Head", "Cold weight", "Saleable meat", "Worth", "Paid", "Margin", "Margin a kg")
                .hasSize(10);
        Day.Line worth = day.lines().get(3);
        assertThat(worth.value()).isEqualTo(sum);
        assertThat((worth.interval().low() + worth.interval().high()) / 2).isCloseTo(sum, within(1e-6));
        assertThat(day.lines().get(4).value()).isEqualTo(3750);
        assertThat(day.lines().get(5).value()).isCloseTo(sum - 3750, within(1e-9));
        assertThat(day.togetherMore()).isCloseTo(0, within(1e-9));
        assertThat(day.lines().get(9).promise()).isPositive();
        assertThat(day.toText())
                .startsWith("""
                        Tuesday: 5 rows, 2 estimated, 1 condemned, 2 refused
                        Refused, 2 rows: no weight
                        Refused for 3 other reasons: stated below
                        """)
                .contains("95 % sure, at least")
                .containsPattern("\nPaid, EUR +3,750\\.00\n");
        assertThat(day.toFrame().texts("figure")).hasSize(10);
    }

    @Test
    void aDayWithoutCarcassesSaysSo() {
        Day day = Day.builder("Sunday").rows(0, 0, 0).build();
        assertThat(day.toText()).isEqualTo("Sunday: 0 rows, 0 estimated, 0 condemned, 0 refused\n");
        assertThat(Day.builder("Sunday").rows(1, 0, 0).build().toString()).contains(": 1 row, 1 estimated");
        assertThatThrownBy(() -> Day.builder("x").rows(1, 1, 1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Day.builder("x").otherReasons(-1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Day.builder("x").promise(95)).hasMessageContaining("is outside 0 to 1");
    }
}
