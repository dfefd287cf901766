package org.beefyield.finish;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.market.MarketFault;
import org.junit.jupiter.api.Test;

/**
 * Intervals and chances against animals drawn by code of its own: killing-out with an SD of 1.6 to 2.2 %, gain 0.27 kg a day,
 * grades a point. The whole study, with the worth to the hall, is of benchmarks/finish.
 */
class FinishCoverageTest {
    private static final int DRAWN = 20_000;
    private static final int DAY = 42;

    @Test
    void intervalsHoldNinetyOfAHundredDrawnAnimalsAndChancesAreTheirShares() {
        for (double killingOutSd : new double[] {0.016, 0.022}) {
            FinishAnimal animal = Finishing.steer(640, "3=", DayCurve.falling(1.4, 0.004))
                    .withAge(Age.months(27))
                    .withKillingOut(0.55)
                    .withKillingOutSd(killingOutSd);
            Forecast forecast = HoldOrSell.builder(Finishing.stepped())
                    .market(Finishing.market())
                    .costs(HoldingCosts.builder()
                            .feed(Feed.byEnergy(new NetEnergy.Diet(75, 18.45, 650, 0), 0.28))
                            .yardagePerDay(0.8)
                            .build())
                    .build()
                    .forecast(animal);
            FinishDay day = forecast.days().get(DAY);
            Random random = new Random(27);
            int held = 0;
            int more = 0;
            int heldMore = 0;
            int taken = 0;
            int fat = 0;
            double net = 0;
            for (int i = 0; i < DRAWN; i++) {
                double cold = 640 * (0.55 + killingOutSd * random.nextGaussian());
                double error = 0.27 * random.nextGaussian();
                double c = 8 + random.nextGaussian();
                double f = 8 + random.nextGaussian();
                double perDay = 0.0365 + 0.012 * random.nextGaussian();
                double feed = 0;
                NetEnergy.Diet diet = new NetEnergy.Diet(75, 18.45, 650, 0);
                for (int t = 0; t < DAY; t += 7) {
                    // a week at a time, at its middle
                    double middle = t + 3.5;
                    double live = 640 + 1.4 * middle - 0.002 * middle * middle + error * middle;
                    feed += 7 * 0.28 * diet.dryMatterKg(Category.STEER, live, 1.4 - 0.004 * middle + error);
                }
                double gained = 0.66 * (1.4 * DAY - 0.002 * DAY * DAY + error * DAY);
                double today = pays(cold, c, f);
                double then = pays(cold + gained, c + 0.018 * gained, f + perDay * DAY) - feed - 0.8 * DAY;
                held += day.netInterval().contains(then) ? 1 : 0;
                heldMore += day.moreInterval().contains(then - today) ? 1 : 0;
                more += then > today ? 1 : 0;
                net += then / DRAWN;
                double kg = cold + gained;
                int third = third(f + perDay * DAY, 15);
                boolean in = kg >= 270 && kg <= 380 && third(c + 0.018 * gained, 18) >= 5 && third >= 6 && third <= 11;
                taken += in ? 1 : 0;
                fat += third < 6 || third > 11 ? 1 : 0;
            }
            assertThat(100.0 * held / DRAWN).isCloseTo(90, within(2.0));
            assertThat(100.0 * heldMore / DRAWN).isCloseTo(90, within(2.0));
            assertThat((double) more / DRAWN).isCloseTo(day.chanceOfMore(), within(0.02));
            assertThat((double) taken / DRAWN).isCloseTo(day.inSpecification().orElseThrow(), within(0.02));
            assertThat((double) fat / DRAWN)
                    .isCloseTo(day.missed().getOrDefault(MarketFault.Limit.FAT_CLASS, 0.0), within(0.02));
            assertThat(net).isCloseTo(day.net(), within(4.0));
        }
    }

    private static int third(double position, int most) {
        return (int) Math.max(1, Math.min(most, Math.round(position)));
    }

    private static double pays(double kg, double conformation, double fat) {
        int third = third(fat, 15);
        boolean in = kg >= 270 && kg <= 380 && third(conformation, 18) >= 5 && third >= 6 && third <= 11;
        double perKg = 5.5 + (third >= 13 ? -0.8 : third >= 10 ? -0.3 : 0) + (kg >= 400 ? -0.2 : 0) + (in ? 0.2 : 0);
        return kg * perKg;
    }

    @Test
    void drawsAreEvenlySpreadAndInNoOrderWithEachOther() {
        double[][] columns = Draws.columns(6);
        for (int a = 0; a < columns.length; a++) {
            double mean = 0;
            double square = 0;
            for (double z : columns[a]) {
                mean += z / Draws.SIZE;
                square += z * z / Draws.SIZE;
            }
            assertThat(mean).isCloseTo(0, within(1e-9));
            assertThat(square).isCloseTo(1, within(0.01));
            for (int b = 0; b < a; b++) {
                double product = 0;
                for (int i = 0; i < Draws.SIZE; i++) {
                    product += columns[a][i] * columns[b][i] / Draws.SIZE;
                }
                assertThat(product).as(a + " and " + b).isCloseTo(0, within(0.03));
            }
        }
        assertThat(Conformation.thirds()).hasSize(18);
        assertThat(FatClass.thirds()).hasSize(15);
    }
}
