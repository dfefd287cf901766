package org.beefyield.reconcile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.beefyield.price.TestPrices.steer;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.Intake;
import org.beefyield.boning.IntakePart;
import org.beefyield.boning.IntakeWeighing;
import org.beefyield.boning.Movement;
import org.beefyield.boning.Product;
import org.beefyield.boning.Rest;
import org.beefyield.boning.RestKind;
import org.beefyield.carcass.Carcass;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.stats.Bounds;
import org.junit.jupiter.api.Test;

/** Bounds of a run's weighed less expected, of runs whose differences are given. */
class SeasonBoundsTest {
    private static final YieldEstimator ESTIMATOR = TestRuns.ESTIMATOR;
    private static final String GROUP = "Striploin steak";
    private static final List<Product> PRODUCTS = List.of(Product.of("SL", GROUP, "striploin-steak"));

    /** Student's t that 5 % lie above, one and two degrees of freedom; of every table of it. */
    private static final double T1 = 6.31375;

    private static final double T2 = 2.91999;

    /** A run of so many carcasses that weighed as they should, of which the striploin is so many g per kg more than expected. */
    private static BoningRun run(int day, int carcasses, double gPerKg) {
        List<Intake> intake = new ArrayList<>();
        for (int i = 0; i < carcasses; i++) {
            Carcass carcass = steer("R=", "3=", 340).withId(day + "-" + i).withLot("Lowfold");
            intake.add(Intake.of(carcass, IntakePart.CARCASS, 340, Movement.BONED, ""));
        }
        double kg = carcasses
                * (ESTIMATOR.estimate(steer("R=", "3=", 340)).kg("retail", "striploin-steak") + 0.34 * gPerKg);
        return new BoningRun(
                "Tarrowmere",
                "2026-11-0" + day,
                IntakeWeighing.COLD_WEIGHED,
                intake,
                List.of(Box.of("1", "SL", "", kg, 0)),
                List.of(new Rest(RestKind.WASTE, 340 * carcasses - kg, "")));
    }

    private static double variance(Season season, int run) {
        double sd = Season.withinSd(season.judged().get(run), GROUP);
        return sd * sd;
    }

    /** Of two other runs alike the interval is the one of every textbook for a next value: mean and t times s times root of 1 + 1/n. */
    @Test
    void ofRunsAlikeTheyAreThoseOfANextValueWithoutTheRunItself() {
        Season season = Season.of(List.of(run(1, 2, -12), run(2, 2, 3), run(3, 2, 15)), ESTIMATOR, PRODUCTS);
        double[] values = {-12, 3, 15};
        for (int run = 0; run < 3; run++) {
            double one = values[(run + 1) % 3];
            double other = values[(run + 2) % 3];
            double s = Math.abs(one - other) / Math.sqrt(2);
            assertThat(s * s).isGreaterThan(variance(season, 0));
            Bounds bounds = season.bounds(GROUP, run).orElseThrow();
            double half = T1 * s * Math.sqrt(1.5);
            assertThat(bounds.low()).isCloseTo((one + other) / 2 - half, within(0.02));
            assertThat(bounds.high()).isCloseTo((one + other) / 2 + half, within(0.02));
        }
    }

    @Test
    void ofARunInAnAlarmTheyAreThoseOfTheOthersWithItsOwnVariance() {
        Season season = Season.of(
                        List.of(run(1, 2, -12), run(2, 2, 3), run(3, 2, 15), run(4, 8, 900)), ESTIMATOR, PRODUCTS)
                .judgedBy(3, 10);
        assertThat(season.chart(GROUP).alarms())
                .singleElement()
                .satisfies(alarm -> assertThat(alarm.since()).isEqualTo(3));
        double ofRuns = (14.0 * 14 + 1 + 13 * 13) / 2;
        double own = variance(season, 3);
        assertThat(own).isLessThan(0.9 * variance(season, 0));
        double half = T2 * Math.sqrt(ofRuns - variance(season, 0) + own + ofRuns / 3);
        Bounds bounds = season.bounds(GROUP, 3).orElseThrow();
        assertThat(bounds.low()).isCloseTo(2 - half, within(0.01));
        assertThat(bounds.high()).isCloseTo(2 + half, within(0.01));
    }

    @Test
    void aSeasonOfTwoRunsHasNone() {
        assertThat(Season.of(List.of(run(1, 2, 3), run(2, 2, 9)), ESTIMATOR, PRODUCTS)
                        .bounds(GROUP, 0))
                .isEmpty();
        Season season = Season.of(List.of(run(1, 2, 3)), ESTIMATOR, PRODUCTS);
        assertThat(season.bounds(GROUP, 0)).isEmpty();
        assertThatThrownBy(() -> season.bounds(GROUP, 1)).isInstanceOf(IndexOutOfBoundsException.class);
        assertThatThrownBy(() -> season.bounds("Fillet", 0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no group \"Fillet\" is watched; there are Striploin steak, losses, unweighed");
    }

    /** What the striploin has more the losses have less, so neither can differ by more than the other does. */
    @Test
    void anSdAsATableTakesItIsNoLargerThanThatOfAllOthers() {
        Season season = Season.of(List.of(run(1, 2, -12), run(2, 2, 3), run(3, 2, 15)), ESTIMATOR, PRODUCTS);
        RunEffect striploin = season.effects().get(0);
        RunEffect losses = season.effects().get(1);
        assertThat(striploin.sd()).isGreaterThan(1).isNotEqualTo(losses.sd());
        double least = Math.min(striploin.sd(), losses.sd());
        assertThat(striploin.closedSd()).isCloseTo(least, within(1e-9));
        assertThat(losses.closedSd()).isCloseTo(least, within(1e-9));
    }
}
