package org.beefyield.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.Factor;
import org.beefyield.price.PriceList;
import org.beefyield.price.TestPrices;
import org.beefyield.price.Valuer;
import org.beefyield.table.RandomTables;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

class ComparisonTest {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));
    private static final Valuer VALUER = Valuer.of(TestPrices.BY_KIND, ESTIMATOR);

    private static List<Carcass> carcasses(int seed, int n) {
        Random random = new Random(seed);
        List<Carcass> all = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            all.add(RandomTables.carcass(ESTIMATOR.table().definition(), random));
        }
        return all;
    }

    private static Compared part(String name, int seed, Unexplained unexplained) {
        return new Compared(name, VALUER, ESTIMATOR.estimateLot(carcasses(seed, 30)), unexplained);
    }

    /** With one table, one way and one price list nothing but the carcasses differs, so at one mix nothing does. */
    @Test
    void atOneMixOnlyWhatPlantsDoDiffers() {
        Comparison comparison = Comparison.of(List.of(part("Mereside", 1, null), part("Bridgefoot", 2, null)));

        assertThat(comparison.atOneMixPerKg(0)).isEqualTo(comparison.atOneMixPerKg(1));
        assertThat(comparison.rank(0)).hasToString("1 to 2");
        assertThat(comparison.rank(1)).hasToString("1 to 2");
        // nothing is known of how they differ, which is no difference of 0 without an error
        assertThat(comparison.atOneMixMore(1, 0)).isEmpty();
        assertThat(comparison.toFrame().numbers("90 % interval high")[1]).isNaN();
        assertThat(comparison.toText())
                .contains("no boning runs of two or more say how they differ")
                .doesNotContain("rank");
        double more = comparison.parts().get(1).value().perKg()
                - comparison.parts().get(0).value().perKg();
        assertThat(more).isNotCloseTo(0, within(1e-6));
        assertThat(Stream.of(Factor.values())
                        .mapToDouble(comparison.attribution(1)::perKg)
                        .sum())
                .isCloseTo(more, within(1e-9));
        assertThat(comparison.toText()).contains("Mereside").contains("Bridgefoot");
    }

    /** All carcasses together, as each prices them: here with bone that costs ten cents more. */
    @Test
    void pricesMakeTheDifferenceAtOneMix() {
        PriceList dearer =
                TestPrices.BY_KIND.toBuilder().kind(CutKind.BONE, -0.2).build();
        Valuer other = Valuer.of(dearer, ESTIMATOR);
        Compared first = part("Mereside", 1, null);
        Compared second = new Compared("Bridgefoot", other, ESTIMATOR.estimateLot(carcasses(2, 30)), null);
        Comparison comparison = Comparison.of(List.of(first, second));
        List<Carcass> all = Stream.concat(carcasses(1, 30).stream(), carcasses(2, 30).stream())
                .toList();
        double bone =
                ESTIMATOR.estimateLot(all).boneKg() / ESTIMATOR.estimateLot(all).coldWeightKg();

        assertThat(comparison.atOneMixPerKg(1) - comparison.atOneMixPerKg(0)).isCloseTo(-0.1 * bone, within(1e-9));
        Interval more = comparison.atOneMixMore(1, 0).orElseThrow();
        assertThat(more.high()).isNegative();
        assertThat(comparison.rank(0)).hasToString("1");
        assertThat(comparison.rank(1)).hasToString("2");
    }

    @Test
    void whatRunsWeighedWithoutAReasonCountsWithItsError() {
        Comparison sure = Comparison.of(List.of(
                part("Mereside", 1, new Unexplained(0.02, 0.005, 20)),
                part("Bridgefoot", 2, new Unexplained(-0.03, 0.005, 20))));
        // two means of 20 runs each: Student's t with 38 degrees of freedom
        assertThat(sure.atOneMixMore(1, 0).orElseThrow().low())
                .isCloseTo(-0.05 - 1.6859545 * Math.sqrt(2) * 0.005, within(1e-6));
        assertThat(sure.rank(0)).hasToString("1");
        Comparison unsure = Comparison.of(List.of(
                part("Mereside", 1, new Unexplained(0.02, 0.05, 20)),
                part("Bridgefoot", 2, new Unexplained(-0.03, 0.05, 20))));
        assertThat(unsure.rank(0)).hasToString("1 to 2");
        assertThat(unsure.toFrame().numbers("unexplained")).containsExactly(0.02, -0.03);
    }

    /** What one weighed without a reason says nothing of the other, and two runs say less than twenty. */
    @Test
    void runsOfOneAloneRankNothingAndFewRunsLeaveItOpen() {
        Comparison one = Comparison.of(
                List.of(part("Mereside", 1, new Unexplained(0.02, 0.001, 20)), part("Bridgefoot", 2, null)));
        assertThat(one.atOneMixMore(1, 0)).isEmpty();
        assertThat(one.rank(0)).hasToString("1 to 2");
        Comparison few = Comparison.of(List.of(
                part("Mereside", 1, new Unexplained(0.02, 0.012, 2)),
                part("Bridgefoot", 2, new Unexplained(-0.03, 0.012, 2))));
        // Student's t with 2 degrees of freedom
        assertThat(few.atOneMixMore(1, 0).orElseThrow().high())
                .isCloseTo(-0.05 + 2.9199856 * Math.sqrt(2) * 0.012, within(1e-6));
        assertThat(few.rank(0)).hasToString("1");
        // a normal interval would have ranked these
        Comparison wider = Comparison.of(List.of(
                part("Mereside", 1, new Unexplained(0.02, 0.014, 2)),
                part("Bridgefoot", 2, new Unexplained(-0.03, 0.014, 2))));
        assertThat(wider.rank(0)).hasToString("1 to 2");
    }

    @Test
    void whatCantBeComparedIsRefusedInWords() {
        assertThatThrownBy(() -> Comparison.of(List.of(part("Mereside", 1, null))))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("a comparison takes two or more; there is 1 lot");
        assertThatThrownBy(() -> Comparison.of(List.of(part("Mereside", 1, null), part("Mereside", 2, null))))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("two lots are called \"Mereside\"; each has its own name");
        assertThatThrownBy(() -> new Unexplained(0, -1, 3))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("an error of 0 or more");
    }
}
