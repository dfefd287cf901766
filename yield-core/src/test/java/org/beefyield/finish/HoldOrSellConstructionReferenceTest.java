package org.beefyield.finish;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.beefyield.finish.Finishing.flat;
import static org.beefyield.finish.Finishing.steer;
import static org.beefyield.finish.Finishing.still;
import static org.beefyield.finish.Finishing.sure;
import static org.beefyield.finish.Finishing.with;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.pay.PaymentGrid;
import org.junit.jupiter.api.Test;

/** Days of sale that can be worked out by hand. */
class HoldOrSellConstructionReferenceTest {
    private static final double PRICE = 5.5;

    /** Carcass gain 0.9 - 0.004 t, 5.50 a kg, 4 a day: the last day that pays is t = (0.9 - 4/5.5) / 0.004 = 43.18. */
    @Test
    void slowingGainIsBestWhereADaysGainIsWorthADaysCost() {
        Forecast forecast = HoldOrSell.builder(flat(PRICE))
                .costs(HoldingCosts.builder().yardagePerDay(4).build())
                .assumptions(still(0.6))
                .build()
                .forecast(sure(steer(600, "3=", DayCurve.falling(0.9 / 0.6, 0.004 / 0.6))));
        assertThat(forecast.best().day()).isEqualTo(43);
        // the area under the gain to day 43 is 0.9 x 43 - 0.002 x 43^2 = 35.002 kg
        assertThat(forecast.best().more()).isCloseTo(PRICE * 35.002 - 4 * 43, within(1e-9));
        assertThat(forecast.best().state().coldKg() - forecast.today().state().coldKg())
                .isCloseTo(35.002, within(1e-9));
        // 1 EUR less than the best: (t - 43.18)^2 x 0.011 = 1, 9.5 days to either side
        assertThat(forecast.within(1).stream().map(FinishDay::day)).first().isEqualTo(34);
        assertThat(forecast.within(1)).last().extracting(FinishDay::day).isEqualTo(52);
    }

    /** A bull of 700 kg eats 12 kg at 440 EUR a tonne and gains 1.5 kg of which 59 % is carcass at 5.50: 0.885 kg, 4.87 for 5.28. */
    @Test
    void aBullThatEatsMoreThanItGainsIsSold() {
        FinishAnimal bull = FinishAnimal.ofLiveKg(
                        Category.YOUNG_BULL,
                        Conformation.parse("U="),
                        FatClass.parse("3="),
                        700,
                        DayCurve.constant(1.5))
                .withKillingOut(0.59);
        Forecast forecast = HoldOrSell.builder(flat(PRICE))
                .costs(HoldingCosts.builder().feed(Feed.kgPerDay(12, 0.440)).build())
                .assumptions(still(0.59))
                .build()
                .forecast(sure(bull));
        assertThat(forecast.best().day()).isZero();
        assertThat(forecast.days().get(1).cost().feed()).isCloseTo(5.28, within(1e-9));
        assertThat(forecast.days().get(1).payment() - forecast.today().payment())
                .isCloseTo(4.8675, within(1e-9));
        // the column rounds the carcass to 0.89 kg and says 4.90: 38 cents short
        assertThat(forecast.days().get(1).more()).isCloseTo(-0.38, within(0.035));
        assertThat(forecast.toText())
                .contains("The best day for the farmer is today: sell; one day more would cost 0.41 EUR.");
    }

    /** The best day is that of an enumeration of its own, and inside a class or the last day before one is left. */
    @Property(tries = 200)
    void withStepsOfAClassTheBestDayIsThatOfAnEnumeration(
            @ForAll @DoubleRange(min = 0.3, max = 1.2) double gain,
            @ForAll @DoubleRange(min = 0, max = 0.01) double slows,
            @ForAll @DoubleRange(min = 1, max = 6) double cost,
            @ForAll @DoubleRange(min = 0.01, max = 0.1) double fatPerDay,
            @ForAll @DoubleRange(min = 0, max = 0.6) double less,
            @ForAll @IntRange(min = 5, max = 10) int fatThird) {
        double share = 0.6;
        PaymentGrid grid = PaymentGrid.builder("EUR")
                .base(null, PRICE)
                .grade(null, null, null, 0)
                .grade(null, null, FatClass.parse("4"), -less)
                .grade(null, null, FatClass.parse("5"), -less)
                .build();
        Forecast forecast = HoldOrSell.builder(grid)
                .costs(HoldingCosts.builder().yardagePerDay(cost).build())
                .assumptions(with(still(share), Quantity.FAT_POINTS_PER_DAY, fatPerDay))
                .build()
                .forecast(sure(steer(
                        600, FatClass.third(fatThird).toString(), DayCurve.falling(gain / share, slows / share))));
        double cold = 600 * 0.549;
        int best = 0;
        double most = Double.NEGATIVE_INFINITY;
        for (int t = 0; t <= HoldOrSell.USUAL_DAYS; t++) {
            double grown = slows == 0 || t < gain / slows ? gain * t - slows * t * t / 2.0 : gain * gain / 2 / slows;
            double net = (cold + grown) * (isFat(fatThird, fatPerDay, t) ? PRICE - less : PRICE) - cost * t;
            if (net > most + 1e-9) {
                most = net;
                best = t;
            }
        }
        assertThat(forecast.best().net()).isCloseTo(most, within(1e-6));
        if (forecast.best().day() != best) {
            // two days that are the same but for the last bits
            assertThat(forecast.days().get(best).net()).isCloseTo(most, within(1e-6));
        }
        double free = slows == 0 ? Double.NaN : (gain - cost / PRICE) / slows;
        double dearer = slows == 0 ? Double.NaN : (gain - cost / (PRICE - less)) / slows;
        boolean inside = Math.abs(best - free) <= 0.5 || Math.abs(best - dearer) <= 0.5;
        boolean last = !isFat(fatThird, fatPerDay, best) && isFat(fatThird, fatPerDay, best + 1);
        assertThat(inside || last || best == 0 || best == HoldOrSell.USUAL_DAYS).isTrue();
    }

    private static boolean isFat(int fatThird, double fatPerDay, int day) {
        return fatThird + fatPerDay * day >= 9.5;
    }

    /**
     * A place filled with such animals again and again earns most at the largest average a day, its empty days counted; the next
     * animal at that average says the same day by what another day brings.
     */
    @Test
    void withAReplacementTheAverageDecides() {
        double bought = 1500;
        double empty = 7;
        Forecast alone = HoldOrSell.builder(flat(PRICE))
                .costs(HoldingCosts.builder().yardagePerDay(3).build())
                .assumptions(still(0.6))
                .days(200)
                .build()
                .forecast(sure(steer(500, "3=", DayCurve.falling(1.5, 0.005))));
        int best = 0;
        double most = Double.NEGATIVE_INFINITY;
        for (FinishDay day : alone.days()) {
            double average = (day.net() - bought) / (day.day() + empty);
            if (average > most) {
                most = average;
                best = day.day();
            }
        }
        Replacement next = new Replacement(alone.days().get(best).net() - bought, best, empty);
        assertThat(next.perDay()).isCloseTo(most, within(1e-12));
        Forecast replaced = HoldOrSell.builder(flat(PRICE))
                .costs(HoldingCosts.builder().yardagePerDay(3).replacement(next).build())
                .assumptions(still(0.6))
                .days(200)
                .build()
                .forecast(sure(steer(500, "3=", DayCurve.falling(1.5, 0.005))));
        assertThat(best).isLessThan(alone.best().day()).isGreaterThan(0);
        assertThat(replaced.best().day()).isEqualTo(best);
    }

    /** Simple interest, deaths and yardage by hand: 1000 EUR at 7.3 % for 50 days are 10; a year of 20 % deaths leaves 0.8^(50/365). */
    @Test
    void everyCostIsWhatArithmeticSays() {
        Forecast forecast = HoldOrSell.builder(flat(5))
                .costs(HoldingCosts.builder()
                        .feed(Feed.kgPerDay(10, 0.3))
                        .yardagePerDay(0.9)
                        .interestPercentPerYear(7.3)
                        .deathsPercentPerYear(20)
                        .replacement(new Replacement(100, 93, 7))
                        .build())
                .assumptions(still(0.6))
                .build()
                .forecast(sure(FinishAnimal.ofColdKg(
                        Category.HEIFER, Conformation.parse("R="), FatClass.parse("3="), 200, DayCurve.constant(1))));
        FinishDay day = forecast.days().get(50);
        assertThat(day.payment()).isCloseTo(1150, within(1e-9));
        assertThat(day.cost().feedKg()).isCloseTo(500, within(1e-9));
        assertThat(day.cost().feed()).isCloseTo(150, within(1e-9));
        assertThat(day.cost().yardage()).isCloseTo(45, within(1e-9));
        assertThat(day.cost().interest()).isCloseTo(10, within(1e-9));
        assertThat(day.cost().place()).isCloseTo(50, within(1e-9));
        assertThat(day.cost().deaths()).isCloseTo(1150 * (1 - Math.pow(0.8, 50 / 365.0)), within(1e-9));
        assertThat(day.net()).isCloseTo(1150 - day.cost().total(), within(1e-9));
    }

    /** Feed by energy is eaten day by day at the weight and gain of the day. */
    @Test
    void feedByEnergyIsTheSumOfItsDays() {
        NetEnergy.Diet diet = new NetEnergy.Diet(75, 18.45, 650, 0);
        Forecast forecast = HoldOrSell.builder(flat(5))
                .costs(HoldingCosts.builder().feed(Feed.byEnergy(diet, 0.3)).build())
                .assumptions(still(0.6))
                .build()
                .forecast(sure(steer(600, "3=", DayCurve.constant(1.2))));
        double kg = 0;
        for (int day = 0; day < 30; day++) {
            kg += diet.dryMatterKg(Category.STEER, 600 + 1.2 * day, 1.2);
        }
        assertThat(forecast.days().get(30).cost().feedKg()).isCloseTo(kg, within(1e-9));
        assertThat(forecast.days().get(30).cost().feed()).isCloseTo(0.3 * kg, within(1e-9));
    }
}
