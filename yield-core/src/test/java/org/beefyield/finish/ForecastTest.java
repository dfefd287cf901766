package org.beefyield.finish;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.beefyield.finish.Finishing.flat;
import static org.beefyield.finish.Finishing.market;
import static org.beefyield.finish.Finishing.steer;
import static org.beefyield.finish.Finishing.stepped;
import static org.beefyield.finish.Finishing.still;
import static org.beefyield.finish.Finishing.sure;
import static org.beefyield.finish.Finishing.with;

import java.time.LocalDate;
import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.frame.Frame;
import org.beefyield.market.MarketFault;
import org.beefyield.market.MarketSpecification;
import org.beefyield.price.TestPrices;
import org.beefyield.price.Valuer;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.SourceKind;
import org.junit.jupiter.api.Test;

class ForecastTest {
    private static final Valuer VALUER =
            Valuer.of(TestPrices.BY_KIND, YieldEstimator.of(YieldTable.of(TestTables.threeLevels())));
    private static final HoldingCosts COSTS = HoldingCosts.builder()
            .feed(Feed.kgPerDay(11, 0.25))
            .yardagePerDay(0.75)
            .build();

    @Test
    void pastTheAgeLimitItSaysWhatThatCosts() {
        // 30 months on day 31: a bonus of 0.20 a kg is lost, gain goes on at 0.858 kg x 5.50
        Forecast forecast = HoldOrSell.builder(stepped())
                .market(market())
                .assumptions(still(0.66))
                .build()
                .forecast(sure(steer(540, "3=", DayCurve.constant(1.3))).withAge(Age.months(29)));
        assertThat(forecast.lastDayWithin(MarketFault.Limit.AGE)).hasValue(30);
        assertThat(forecast.lastDayWithin(MarketFault.Limit.FAT_CLASS)).isEmpty();
        assertThat(forecast.best().day()).isEqualTo(84);
        assertThat(forecast.bestWithinLimits().day()).isEqualTo(30);
        assertThat(forecast.passed()).singleElement().satisfies(limit -> {
            assertThat(limit.limit()).isEqualTo(MarketFault.Limit.AGE);
            assertThat(limit.lastDay()).isEqualTo(30);
            assertThat(limit.isPastToday()).isFalse();
            assertThat(limit.lost()).isCloseTo(0.2 * forecast.best().state().coldKg(), within(1e-9));
        });
        assertThat(forecast.toText())
                .contains(
                        "Day 84 lies past the limit of age of retail, of which day 30 is the last within; that costs about")
                .contains("whether it is taken at all is the customer's to say")
                .contains("Within the limits the best day is day 30");
    }

    @Test
    void pastTheFatLimitItSaysWhatThatCosts() {
        Forecast forecast = HoldOrSell.builder(stepped())
                .market(market())
                .assumptions(with(still(0.66), Quantity.FAT_POINTS_PER_DAY, 0.1))
                .build()
                .forecast(sure(steer(540, "4=", DayCurve.constant(1.3))).withAge(Age.months(25)));
        // 4= is 11, to 4+ at 11.5 on day 5 and to class 5 at 12.5 on day 15
        assertThat(forecast.lastDayWithin(MarketFault.Limit.FAT_CLASS)).hasValue(4);
        FinishDay best = forecast.best();
        assertThat(best.day()).isEqualTo(84);
        assertThat(forecast.passed().get(0).limit()).isEqualTo(MarketFault.Limit.FAT_CLASS);
        // within the limit it is class 4 and in specification
        assertThat(forecast.passed().get(0).lost())
                .isCloseTo((0.8 - 0.3 + 0.2) * best.state().coldKg(), within(1e-9));
    }

    @Test
    void aLimitPassedTodayCountsNoMoreAndIsSaid() {
        Forecast forecast = HoldOrSell.builder(stepped())
                .market(market())
                .costs(COSTS)
                .build()
                .forecast(FinishAnimal.ofLiveKg(
                                Category.COW,
                                Conformation.parse("O-"),
                                FatClass.parse("5"),
                                690,
                                DayCurve.constant(0.4))
                        .withAge(Age.months(90)));
        assertThat(forecast.lastDayWithin(MarketFault.Limit.AGE)).hasValue(-1);
        assertThat(forecast.best().day()).isZero();
        assertThat(forecast.bestWithinLimits()).isEqualTo(forecast.best());
        assertThat(forecast.passed()).allMatch(PassedLimit::isPastToday).hasSize(2);
        assertThat(forecast.toText())
                .contains("The best day for the farmer is today: sell; one day more would cost ")
                .contains("It is past the limit of fat class of retail today already; that costs about ");
    }

    @Test
    void ofTwoLimitsTheOnePassedAndTheOneKeptAreBothSaid() {
        Forecast forecast = HoldOrSell.builder(stepped())
                .market(market())
                .costs(COSTS)
                .assumptions(with(still(0.66), Quantity.FAT_POINTS_PER_DAY, 0.05))
                .build()
                .forecast(sure(steer(600, "3=", DayCurve.constant(0.4))).withAge(Age.months(31)));
        assertThat(forecast.best().day()).isZero();
        // 8 to above 4= at 11.5 on day 70
        assertThat(forecast.toText())
                .contains("It is past the limit of age of retail today already; that costs about ")
                .contains("whether it is taken at all is the customer's to say")
                .contains("The last day within the limit of fat class is day 69.");
    }

    @Test
    void whatTheCustomerLimitsAndTheAnimalDoesntSayIsNamed() {
        Forecast forecast = HoldOrSell.builder(flat(5))
                .market(MarketSpecification.builder("quality")
                        .underMonths(30)
                        .assured()
                        .build())
                .build()
                .forecast(steer(600, "3=", DayCurve.constant(1)));
        assertThat(forecast.toText())
                .contains("Its age isn't given, which quality limits: it counts as missing that limit.")
                .contains("Whether it is farm-assured isn't given, which quality asks for: it counts as not.");
    }

    @Test
    void daysEndWhereACarcassCantBeThatOfItsLiveWeight() {
        Forecast forecast =
                HoldOrSell.builder(flat(5)).days(200).build().forecast(steer(600, "3=", DayCurve.constant(-4)));
        FinishState last = forecast.days().get(forecast.days().size() - 1).state();
        // (600 x 0.549 - 2.64 t) / (600 - 4 t) = 0.3 at t = 103.75
        assertThat(forecast.days()).hasSize(104);
        assertThat(last.coldKg() / last.liveKg()).isBetween(0.3, 0.31);
        assertThat(forecast.notes())
                .containsExactly(
                        "Days end at day 103: its carcass leaves what it can be of its live weight, 30 to 75 %");
        assertThat(forecast.toText()).doesNotContain("look further");
    }

    @Test
    void aYoungBullThatBecomesABullIsSaid() {
        FinishAnimal bull = FinishAnimal.ofLiveKg(
                        Category.YOUNG_BULL,
                        Conformation.parse("U="),
                        FatClass.parse("3="),
                        650,
                        DayCurve.constant(1.5))
                .withAge(Age.born(LocalDate.of(2024, 11, 20), LocalDate.of(2026, 11, 3)));
        Forecast forecast = HoldOrSell.builder(flat(5)).build().forecast(bull);
        assertThat(forecast.notes()).containsExactly("From day 17 on it is of category B, 24 months old");
        assertThat(forecast.days().get(16).state().category()).isEqualTo(Category.YOUNG_BULL);
        assertThat(forecast.days().get(17).state().category()).isEqualTo(Category.BULL);
        assertThat(bull.withGain(DayCurve.constant(1)).gain()).isEqualTo(DayCurve.constant(1));
    }

    @Test
    void anAnimalThatLosesWeightIsSoldToday() {
        Forecast forecast = HoldOrSell.builder(flat(5)).build().forecast(steer(600, "3=", DayCurve.constant(-0.4)));
        assertThat(forecast.best().day()).isZero();
        assertThat(forecast.aWeekFrom(0).getAsDouble()).isCloseTo(-0.4 * 0.66 * 7 * 5, within(1e-6));
        assertThat(forecast.today().chanceOfMore()).isZero();
        assertThat(forecast.toText())
                .contains(
                        "Counted a head, in EUR: nothing; not counted: feed, yardage, interest, deaths, the next animal on its"
                                + " place.");
    }

    @Test
    void aHorizonOfADayAndOfNone() {
        HoldOrSell.Builder builder = HoldOrSell.builder(flat(5)).costs(COSTS);
        assertThat(builder.days(1)
                        .build()
                        .forecast(steer(600, "3=", DayCurve.constant(1.3)))
                        .toText())
                .contains("The best day is the last that was looked at: look further to see where it ends.");
        Forecast today = builder.days(0).build().forecast(steer(600, "3=", DayCurve.constant(1.3)));
        assertThat(today.days()).hasSize(1);
        assertThat(today.toText()).contains("is today: sell; no other day was looked at.");
        assertThat(today.aWeekFrom(0)).isEmpty();
    }

    @Test
    void aPriceThatFallsAtADayIsLeftTheDayBefore() {
        Forecast forecast = HoldOrSell.builder(flat(5.5))
                .costs(COSTS)
                .assumptions(still(0.66))
                .priceMoves(List.of(new PriceMove(7, 0.05, 0), new PriceMove(20, -0.3, -0.1)))
                .build()
                .forecast(sure(steer(600, "3=", DayCurve.constant(1.3))));
        assertThat(forecast.best().day()).isEqualTo(19);
        assertThat(forecast.best().payment() / forecast.best().state().coldKg()).isCloseTo(5.55, within(1e-9));
        assertThat(forecast.toText())
                .contains(
                        "Prices move from day 7: 0.05 more paid a kg, worth as today; from day 20: 0.3 less paid a kg, 0.1 less worth a"
                                + " kg.");
    }

    @Test
    void ofTwoEqualDaysTheEarlierIsBest() {
        Forecast forecast = HoldOrSell.builder(flat(5)).build().forecast(sure(steer(600, "3=", DayCurve.constant(0))));
        assertThat(forecast.best().day()).isZero();
        assertThat(forecast.within(0)).hasSize(85);
    }

    @Test
    void aYoungBullIsABullAtTwentyFourMonthsAndACalfNoCalfAtTwelve() {
        Forecast bull = HoldOrSell.builder(flat(5))
                .build()
                .forecast(FinishAnimal.ofLiveKg(
                                Category.YOUNG_BULL,
                                Conformation.parse("U="),
                                FatClass.parse("3-"),
                                640,
                                DayCurve.constant(1.5))
                        .withAge(Age.born(LocalDate.of(2024, 12, 10), LocalDate.of(2026, 11, 30))));
        assertThat(bull.days().get(9).state().category()).isEqualTo(Category.YOUNG_BULL);
        assertThat(bull.days().get(10).state().category()).isEqualTo(Category.BULL);
        Forecast calf = HoldOrSell.builder(flat(5))
                .build()
                .forecast(FinishAnimal.ofLiveKg(
                                Category.CALF,
                                Conformation.parse("R="),
                                FatClass.parse("2="),
                                330,
                                DayCurve.constant(1.2))
                        .withAge(Age.months(11)));
        assertThat(calf.days()).hasSize(31);
        assertThat(calf.notes())
                .singleElement()
                .asString()
                .startsWith("Days end at day 30: it is no calf from 12 months on");
    }

    @Test
    void theHallSeesMeatFallAndFatRiseThroughTheTable() {
        Forecast forecast = HoldOrSell.builder(flat(5))
                .valuer(VALUER)
                .costs(COSTS)
                .assumptions(Assumptions.shipped())
                .build()
                .forecast(sure(steer(580, "3=", DayCurve.constant(1.2))));
        FinishDay today = forecast.today();
        FinishDay later = forecast.days().get(56);
        Carcass carcass = later.state().carcass();
        assertThat(later.hall().orElseThrow().value())
                .isCloseTo(VALUER.value(carcass).amount(), within(1e-9));
        assertThat(later.hall().orElseThrow().margin())
                .isCloseTo(VALUER.value(carcass).amount() - later.payment(), within(1e-9));
        assertThat(later.hall().orElseThrow().saleableShare())
                .isLessThan(today.hall().orElseThrow().saleableShare());
        double atToday = VALUER.estimator()
                .estimate(carcass.with(today.state().carcass().fatClass()))
                .fatTrimKg();
        assertThat(later.hall().orElseThrow().extraFatTrimKg())
                .isCloseTo(VALUER.estimator().estimate(carcass).fatTrimKg() - atToday, within(1e-9))
                .isPositive();
        assertThat(later.hall().orElseThrow().extraFatFeedKg().orElseThrow())
                .isBetween(0.0, later.cost().feedKg());
        assertThat(later.together().orElseThrow())
                .isCloseTo(later.net() + later.hall().orElseThrow().margin(), within(1e-9));
        assertThat(forecast.toText())
                .contains("The best day for the hall is ")
                .contains("kg of it for the higher fat class");
    }

    @Test
    void whereTheTableGivesNoEstimateTheHallIsLeftOutAndThatIsSaid() {
        Forecast forecast = HoldOrSell.builder(flat(5))
                .valuer(VALUER)
                .build()
                .forecast(sure(FinishAnimal.ofColdKg(
                        Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 590, DayCurve.constant(1))));
        assertThat(forecast.days().get(10).hall()).isPresent();
        assertThat(forecast.days().get(30).hall()).isEmpty();
        assertThat(forecast.notes())
                .singleElement()
                .asString()
                .startsWith("What it is to the hall isn't told from day ");
    }

    @Test
    void aGradeThatTheGridDoesntPayIsNamed() {
        var grid = org.beefyield.pay.PaymentGrid.builder("EUR")
                .base(null, 5)
                .grade(null, Conformation.parse("R"), null, 0)
                .build();
        assertThatThrownBy(() -> HoldOrSell.builder(grid)
                        .build()
                        .forecast(steer(600, "3=", DayCurve.constant(1)).withId("TM-1")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageStartingWith(
                        "animal TM-1 C R= 3= 600 kg live, which may be so graded on day 0: the payment grid has"
                                + " no row for the grade of carcass");
    }

    @Test
    void theFrameHasARowForEachDay() {
        Frame frame = HoldOrSell.builder(stepped())
                .market(market())
                .costs(COSTS)
                .days(7)
                .build()
                .forecast(steer(600, "3=", DayCurve.constant(1.3)).withId("TM-1"))
                .toFrame();
        assertThat(frame.rows()).isEqualTo(8);
        assertThat(frame.texts("animal")).containsOnly("TM-1");
        assertThat(frame.numbers("day")).containsExactly(0, 1, 2, 3, 4, 5, 6, 7);
        assertThat(frame.numbers("in specification")[0]).isBetween(0.0, 100.0);
        assertThat(frame.numbers("worth")).containsOnly(Double.NaN);
    }

    @Test
    void assumptionsSayKindAndSourceAndAreReplaced() {
        Assumptions shipped = Assumptions.shipped();
        assertThat(shipped.all()).hasSize(Quantity.values().length);
        assertThat(shipped.value(Quantity.FAT_POINTS_PER_DAY)).isBetween(0.033, 0.040);
        assertThat(shipped.value(Quantity.CONFORMATION_POINTS_PER_KG)).isEqualTo(0.018);
        assertThat(shipped.value(Quantity.KILLING_OUT_PER_CLASS_PERCENT)).isBetween(0.54, 1.20);
        assertThat(shipped.value(Quantity.KILLING_OUT_SD_PERCENT)).isBetween(1.6, 2.2);
        Assumption own =
                new Assumption(Quantity.FAT_POINTS_PER_DAY, 0.02, SourceKind.COMMON_PRACTICE, "grass at Tarrowmere");
        assertThat(shipped.with(own).of(Quantity.FAT_POINTS_PER_DAY)).isEqualTo(own);
        assertThat(shipped.with(own)).hasToString("10 assumptions, 1 of the caller's");
        assertThat(shipped.toText()).contains("fat gained: 0.0365 points a day (derived): suckler steers");
        assertThat(shipped.toFrame().rows()).isEqualTo(10);
        assertThatThrownBy(() -> new Assumption(Quantity.FAT_POINTS_PER_DAY, 2, SourceKind.ASSUMPTION, "x"))
                .hasMessage("fat gained, points a day: 2 is outside -0.2 to 0.2");
    }

    @Test
    void killingOutFollowsConformationUnlessTheAnimalSays() {
        Forecast poor = HoldOrSell.builder(flat(5))
                .build()
                .forecast(sure(FinishAnimal.ofLiveKg(
                        Category.STEER, Conformation.parse("O="), FatClass.parse("3="), 600, DayCurve.constant(1))));
        assertThat(poor.today().state().coldKg()).isCloseTo(600 * (0.549 - 0.0087), within(1e-9));
        Forecast own = HoldOrSell.builder(flat(5))
                .build()
                .forecast(sure(steer(600, "3=", DayCurve.constant(1)).withKillingOut(0.58)));
        assertThat(own.today().state().coldKg()).isCloseTo(348, within(1e-9));
    }

    @Test
    void whatDoesntGoTogetherIsRefused() {
        assertThatThrownBy(() -> HoldOrSell.builder(stepped()).build())
                .hasMessageContaining("bonus for being in specification");
        assertThatThrownBy(() -> HoldOrSell.builder(flat(5)).days(731))
                .hasMessage("731 days to look at are outside 0 to 730");
        assertThatThrownBy(() ->
                        HoldOrSell.builder(flat(5)).priceMoves(List.of(new PriceMove(7, 0, 0), new PriceMove(7, 0, 0))))
                .hasMessage("prices move from day 7, which stands behind day 7; days ascend");
        assertThatThrownBy(() -> steer(0, "3=", DayCurve.constant(1)))
                .hasMessage("live weight 0 kg is not above 0 and at most 2000 kg");
        assertThatThrownBy(() -> steer(600, "3=", DayCurve.constant(7)))
                .hasMessage("live gain 7 kg a day is outside -5 to 5 kg a day");
        assertThatThrownBy(() -> steer(600, "3=", DayCurve.constant(1)).withKillingOut(55))
                .hasMessage("killing-out 5500 % of live weight is outside 30 to 75 %");
        assertThatThrownBy(() -> steer(600, "3=", DayCurve.constant(1)).withKillingOutSd(1.6))
                .hasMessage("SD of killing-out, % of live weight: 160 is above 10, the most there can be");
        assertThatThrownBy(() -> steer(600, "3=", DayCurve.constant(1)).withGainSd(3))
                .hasMessage("SD of live gain, kg a day: 3 is above 2, the most there can be");
        assertThatThrownBy(() -> steer(600, "3=", DayCurve.constant(1)).withWeightSdKg(151))
                .hasMessage("SD of the weight, kg: 151 is above 150, the most there can be");
        assertThatThrownBy(() -> steer(600, "3=", DayCurve.constant(1)).withAge(Age.months(8)))
                .hasMessageContaining("age 8 months does not fit category C");
        assertThatThrownBy(() -> HoldingCosts.builder().interestPercentPerYear(101))
                .hasMessage("interest, % a year: 101 is above 100, the most there can be");
        assertThatThrownBy(() -> new Replacement(1, 0, 0)).hasMessage("days on the place: 0 is not above 0");
        assertThatThrownBy(() -> DayCurve.through(List.of())).hasMessage("a curve needs one point or more");
    }

    @Test
    void curvesAreStraightBetweenPointsAndAddUp() {
        DayCurve curve = DayCurve.through(List.of(new DayCurve.Point(10, 1), new DayCurve.Point(20, 2)));
        assertThat(curve.at(0)).isEqualTo(1);
        assertThat(curve.at(15)).isEqualTo(1.5);
        assertThat(curve.at(50)).isEqualTo(2);
        assertThat(curve.until(20)).isCloseTo(10 + 15, within(1e-12));
        assertThat(curve.until(-5)).isCloseTo(-5, within(1e-12));
        assertThat(DayCurve.falling(1.5, 0.1).until(100)).isCloseTo(1.5 * 15 / 2, within(1e-12));
        assertThat(DayCurve.falling(1.5, 0)).isEqualTo(DayCurve.constant(1.5));
        assertThat(curve).hasToString("1 on day 10, 2 on day 20");
    }

    @Test
    void agesFollowTheCalendar() {
        Age born = Age.born(LocalDate.of(2024, 5, 31), LocalDate.of(2026, 11, 15));
        assertThat(born.completedMonths(0)).isEqualTo(29);
        assertThat(born.completedMonths(14)).isEqualTo(29);
        assertThat(born.completedMonths(15)).isEqualTo(29);
        assertThat(born.completedMonths(16)).isEqualTo(30);
        assertThat(Age.months(29.5).completedMonths(15)).isEqualTo(29);
        assertThat(Age.months(29.5).completedMonths(16)).isEqualTo(30);
        assertThatThrownBy(() -> Age.born(LocalDate.of(2026, 5, 2), LocalDate.of(2026, 5, 1)))
                .hasMessage("born on 2026-05-02, after today, 2026-05-01");
    }
}
