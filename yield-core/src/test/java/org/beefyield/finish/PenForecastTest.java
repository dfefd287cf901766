package org.beefyield.finish;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.beefyield.finish.Finishing.flat;
import static org.beefyield.finish.Finishing.steer;
import static org.beefyield.finish.Finishing.still;
import static org.beefyield.finish.Finishing.sure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.feedback.FeedbackSheet;
import org.beefyield.feedback.FeedbackSheets;
import org.beefyield.price.TestPrices;
import org.beefyield.price.Valuer;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

class PenForecastTest {
    private static PenForecast pen(int head, double haulage) {
        List<FinishAnimal> animals = IntStream.range(0, head)
                .mapToObj(i -> sure(steer(540 + 10 * i, "3=", DayCurve.falling(1.5 - 0.06 * i, 0.01)))
                        .withId("TM-" + (char) ('A' + i)))
                .toList();
        return HoldOrSell.builder(flat(5.5))
                .costs(HoldingCosts.builder()
                        .yardagePerDay(3)
                        .haulagePerLoad(haulage)
                        .build())
                .assumptions(still(0.6))
                .build()
                .pen(animals);
    }

    @Test
    void theDrawListGoesByBestDay() {
        // (1.5 - 0.06 i - 3 / 5.5 / 0.6) / 0.01 days: 59, 53, 47, 41 ...
        PenForecast pen = pen(6, 0);
        assertThat(pen.drawList().stream().map(one -> one.animal().id().orElseThrow()))
                .containsExactly("TM-F", "TM-E", "TM-D", "TM-C", "TM-B", "TM-A");
        assertThat(pen.drawList().stream().map(one -> one.bestWithinLimits().day()))
                .containsExactly(29, 35, 41, 47, 53, 59);
        assertThat(pen.toFrame().numbers("draw on day")).containsExactly(29, 35, 41, 47, 53, 59);
        assertThat(pen.toText()).contains("TM-F").contains("6 animals: none is best sold today, the last on day 59.");
        assertThat(pen.netByDay()[10])
                .isCloseTo(
                        pen.forecasts().stream()
                                .mapToDouble(one -> one.days().get(10).net())
                                .sum(),
                        within(1e-9));
        assertThat(pen.daysFrame().rows()).isEqualTo(6 * 85);
    }

    @Test
    void loadsAreTheBestPartingOfTheDrawList() {
        for (double haulage : new double[] {0, 1, 5, 500}) {
            PenForecast pen = pen(6, haulage);
            List<Load> loads = pen.loads(4);
            double found = loads.stream().mapToDouble(Load::net).sum() - haulage * loads.size();
            assertThat(found).isCloseTo(best(pen, 0, haulage), within(1e-9));
            assertThat(loads).allMatch(load -> load.animals().size() <= 4);
            assertThat(loads.stream().mapToInt(load -> load.animals().size()).sum())
                    .isEqualTo(6);
            assertThat(loads).isSortedAccordingTo((a, b) -> a.day() - b.day());
        }
        assertThat(pen(6, 0).loads(4)).hasSize(6).allMatch(load -> load.given() < 1e-9);
        assertThat(pen(6, 500).loads(4)).hasSize(2);
        assertThat(pen(6, 500).blocks(4).toText()).contains("In 2 loads: ").contains("1000.00 EUR of haulage");
    }

    /** Every parting, every day. */
    private static double best(PenForecast pen, int from, double haulage) {
        int count = pen.drawList().size();
        if (from == count) {
            return 0;
        }
        double most = Double.NEGATIVE_INFINITY;
        for (int to = from + 1; to <= Math.min(count, from + 4); to++) {
            double alone = Double.NEGATIVE_INFINITY;
            for (int day = 0; day <= 84; day++) {
                double net = -haulage;
                for (int i = from; i < to; i++) {
                    net += pen.drawList().get(i).days().get(day).net();
                }
                alone = Math.max(alone, net);
            }
            most = Math.max(most, alone + best(pen, to, haulage));
        }
        return most;
    }

    @Test
    void oneDayForAllKeepsTheLimitsOfAll() {
        // 30 months on day 16 and never; without cost each gains to the end
        PenForecast pen = HoldOrSell.builder(flat(5.5))
                .market(Finishing.market())
                .assumptions(still(0.6))
                .days(20)
                .build()
                .pen(List.of(
                        sure(steer(560, "3=", DayCurve.constant(1)).withId("TM-1"))
                                .withAge(Age.months(29.5)),
                        sure(steer(500, "3=", DayCurve.constant(1)).withId("TM-2"))));
        assertThat(pen.lastDayWithinLimits()).isEqualTo(15);
        assertThat(pen.bestSingleDay()).isEqualTo(15);
        double[] net = pen.netByDay();
        assertThat(pen.toText())
                .contains("2 animals: none is best sold today, the last on day 20.")
                .contains(
                        "Today: about 274 to 307 kg cold, 291 on average; conformation R=, fat class 3=; in specification 1.0 of 2.")
                .contains("1 animal says no age, which retail limits: it counts as missing that limit.")
                .contains(String.format(
                        Locale.ROOT,
                        "all on one day within the limits of all of them most on day 15, %.2f EUR (on day 20 %.2f EUR, past a limit"
                                + " of 1 of them).",
                        net[15],
                        net[20]))
                .contains(
                        "1 animal leaves most on day 20, the last that was looked at: look further to see where that ends.");
        PenForecast one = HoldOrSell.builder(flat(5.5))
                .build()
                .pen(List.of(sure(steer(560, "3=", DayCurve.constant(0)).withId("TM-1"))));
        assertThat(one.toText())
                .contains("Today: about 307 kg cold; conformation R=, fat class 3=.")
                .contains(
                        "Sold today it leaves 1690.92 EUR, on its best day within the limits 1690.92 EUR, 0.00 EUR more.");
    }

    @Test
    void aPenSaysWhatTheHallHasOfIt() {
        List<FinishAnimal> animals = List.of(
                sure(steer(560, "3=", DayCurve.constant(1)).withId("TM-1")),
                sure(steer(600, "3=", DayCurve.constant(1)).withId("TM-2")));
        HoldOrSell.Builder decides = HoldOrSell.builder(flat(5.5))
                .valuer(Valuer.of(TestPrices.BY_KIND, ESTIMATOR))
                .days(10);
        PenForecast pen = decides.build().pen(animals);
        double today = 0;
        double then = 0;
        for (Forecast one : pen.forecasts()) {
            today += one.today().hall().orElseThrow().margin();
            then += one.days().get(10).hall().orElseThrow().margin();
        }
        assertThat(pen.toText())
                .contains(String.format(
                        Locale.ROOT,
                        "The hall has %.2f EUR over its payment if they go today, %.2f EUR if each goes on its own best day.",
                        today,
                        then))
                .contains("hall's margin, EUR  best for both, day");
        assertThat(Arrays.stream(pen.toFrame().numbers("margin")).sum()).isCloseTo(then, within(1e-9));
        assertThat(pen.toFrame().numbers("best day for both"))
                .containsExactly(pen.drawList().stream()
                        .mapToDouble(one -> one.bestTogether().orElseThrow().day())
                        .toArray());
        assertThat(pen(2, 0).toText()).doesNotContain("hall");
        assertThat(pen(2, 0).toFrame().numbers("best day for hall")).containsOnly(Double.NaN);
    }

    @Test
    void aPenSaysWhatIsPastItsLimitAlready() {
        PenForecast pen = HoldOrSell.builder(Finishing.stepped())
                .market(Finishing.market())
                .costs(HoldingCosts.builder().yardagePerDay(9).build())
                .build()
                .pen(List.of(sure(steer(600, "3=", DayCurve.constant(1)).withId("TM-1"))
                        .withAge(Age.months(31))));
        // the bonus of 0.20 on 329 kg
        assertThat(pen.toText()).contains("past age already, which costs 66");
    }

    @Test
    void tagsAreTheirOwn() {
        HoldOrSell decides = HoldOrSell.builder(flat(5)).build();
        FinishAnimal animal = steer(600, "3=", DayCurve.constant(1)).withId("TM-1");
        assertThatThrownBy(() -> decides.pen(List.of(animal, steer(610, "3=", DayCurve.constant(1)), animal)))
                .hasMessage("tag TM-1 stands twice in the pen, at places 1 and 3");
        assertThatThrownBy(() -> decides.pen(List.of())).hasMessage("a pen needs one animal or more");
        assertThatThrownBy(() -> pen(2, 0).loads(0)).hasMessage("a load of 0 animals holds none; 1 or more are needed");
    }

    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));

    private static SaleAdvice advice(double feedPerDay, double gain) {
        return SaleAdvice.of(
                HoldOrSell.builder(flat(5.5))
                        .costs(HoldingCosts.builder().yardagePerDay(feedPerDay).build())
                        .build(),
                gain);
    }

    private static List<YieldEstimate> sold(int count) {
        List<YieldEstimate> sold = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            sold.add(ESTIMATOR.estimate(TestPrices.steer("R=", "3=", 340).withSupplier("Tarrowmere")));
        }
        return sold;
    }

    @Test
    void animalsThatGainedMoreThanTheyCostWouldHaveBeenSoldLater() {
        // 1.2 kg of which 0.66 at 5.50 is 4.356 a day
        SaleAdvice.OtherDay later = advice(3, 1.2).otherDay(sold(3)).orElseThrow();
        assertThat(later.daysLater()).isEqualTo(28);
        assertThat(later.morePerHead()).isCloseTo(28 * (4.356 - 3), within(1e-6));
        SaleAdvice.OtherDay sooner = advice(5, 1.2).otherDay(sold(3)).orElseThrow();
        assertThat(sooner.daysLater()).isEqualTo(-28);
        assertThat(sooner.morePerHead()).isCloseTo(28 * (5 - 4.356), within(1e-6));
        assertThat(advice(5, 1.2).advise(sold(3)))
                .hasValue(
                        "at the costs given and 1.2 kg of live gain a day, sold 28 days sooner, the most that was looked at,"
                                + " they would have left about 18 EUR a head more.");
        assertThat(advice(4.3, 1.2).advise(sold(1)))
                .hasValue(
                        "at the costs given it left about as much as on any other day up to 28 days sooner or later.");
    }

    @Test
    void adviceNeverAsksForADayOnWhichFewerAreTaken() {
        SaleAdvice advice = SaleAdvice.of(
                HoldOrSell.builder(Finishing.stepped())
                        .market(Finishing.market())
                        .build(),
                1.2);
        // nothing costs anything, but 12 kg later it is heavier than the customer takes
        List<YieldEstimate> heavy =
                List.of(ESTIMATOR.estimate(TestPrices.steer("R=", "3=", 368).withAgeMonths(26)));
        SaleAdvice.OtherDay other = advice.otherDay(heavy).orElseThrow();
        assertThat(368 + other.daysLater() * 1.2 * 0.66).isBetween(379.0, 380.0);
        // at 29 months it may be 30 after half a month
        List<YieldEstimate> old =
                List.of(ESTIMATOR.estimate(TestPrices.steer("R=", "3=", 330).withAgeMonths(29)));
        assertThat(advice.otherDay(old).orElseThrow().daysLater()).isEqualTo(15);
    }

    @Test
    void aFeedbackSheetSaysWhatAnotherDayWouldHaveLeft() {
        FeedbackSheets.Collector collector =
                FeedbackSheets.builder(ESTIMATOR).timeOfSale(advice(5, 1.2)).collector();
        sold(3).forEach(animal -> collector.add(animal.carcass()));
        FeedbackSheet sheet = collector.result().sheet("Tarrowmere");
        assertThat(sheet.advice().orElseThrow())
                // three animals of one supplier are no hall's average
                .startsWith("Advice: at the costs given")
                .endsWith(
                        "sold 28 days sooner, the most that was looked at, they would have left about 18 EUR a head more.");
        FeedbackSheets.Collector market = FeedbackSheets.builder(ESTIMATOR)
                .market(Finishing.market())
                .timeOfSale(advice(5, 1.2))
                .collector();
        market.add(TestPrices.steer("R=", "3=", 395).withAgeMonths(24).withSupplier("Tarrowmere"));
        // too heavy: the costs say when, in the place of a rule of thumb
        assertThat(market.result().sheet("Tarrowmere").advice().orElseThrow())
                .startsWith("Advice: at the costs given")
                .doesNotContain("heavier than this customer takes");
    }
}
