package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.market.SizeWindow;
import org.beefyield.pack.PieceWeight;
import org.beefyield.pack.WindowChance;
import org.junit.jupiter.api.Test;

/** The shipped table against what the trade knows: common practice, no source. */
class CommonPracticeTest {
    @Test
    void betterConformationGivesMoreSteaksAndJointsAndWorseMoreMinceAndDice() {
        for (String specification : List.of("steaks", "joints")) {
            YieldEstimator under = Shipped.ESTIMATOR.withSpecification(specification);
            YieldEstimate good = under.estimate(steer("U=", "3=", 340));
            YieldEstimate fair = under.estimate(steer("O=", "3=", 340));

            assertThat(good.shareOfMeat(CutKind.STEAK) + good.shareOfMeat(CutKind.JOINT))
                    .as(specification)
                    .isGreaterThan(fair.shareOfMeat(CutKind.STEAK) + fair.shareOfMeat(CutKind.JOINT));
            assertThat(fair.minceShare()).as(specification).isGreaterThan(good.minceShare());
            assertThat(fair.shareOfMeat(CutKind.DICE)).as(specification).isGreaterThan(good.shareOfMeat(CutKind.DICE));
        }
    }

    /** The same in mince brought to 15 % fat: the fat it takes up doesn't turn the order round. */
    @Test
    void worseConformationGivesMoreMinceToo() {
        YieldEstimator minced = Shipped.ESTIMATOR.with(MinceTarget.fatPercent(15));

        assertThat(minced.estimate(steer("O=", "3=", 340)).minceShare())
                .isGreaterThan(minced.estimate(steer("U=", "3=", 340)).minceShare());
    }

    @Test
    void fatClassFourHighGivesMoreFatTrimAndLessToSellThanThree() {
        for (String specification : List.of("steaks", "joints", "trim")) {
            YieldEstimator under = Shipped.ESTIMATOR.withSpecification(specification);
            YieldEstimate three = under.estimate(steer("R=", "3", 340));
            YieldEstimate fourHigh = under.estimate(steer("R=", "4H", 340));

            assertThat(fourHigh.fatTrimKg()).as(specification).isGreaterThan(three.fatTrimKg());
            assertThat(fourHigh.saleableKg()).as(specification).isLessThan(three.saleableKg());
        }
    }

    /** An oversized striploin is cut as joints. */
    @Test
    void oversizedStriploinCutAsJointsGivesJointsAndNoSteaks() {
        YieldEstimator underSteaks = Shipped.ESTIMATOR.withSpecification("steaks");
        YieldEstimate steaks = underSteaks.estimate(steer("U=", "4=", 340));
        YieldEstimate mixed = underSteaks.with("striploin", "joints").estimate(steer("U=", "4=", 340));

        assertThat(mixed.kg("striploin-steak")).isZero();
        assertThat(mixed.kg("striploin-joint")).isGreaterThan(steaks.kg("striploin-steak"));
        assertThat(mixed.kg("rump-steak")).isEqualTo(steaks.kg("rump-steak"));
        assertThat(mixed.kg("primal", "striploin")).isEqualTo(steaks.kg("primal", "striploin"));
    }

    /**
     * Striploins of 360 kg carcasses suit the retail pack, those of 495 kg carcasses are above common pack limits, here 10 kg
     * a piece before trimming. The left-right SD of 3 % is an assumption of the table.
     */
    @Test
    void aStriploinOf360KgFitsAPackOf10KgAndOneOf495KgDoesNot() {
        SizeWindow window = new SizeWindow("striploin", "*", 0, 10, "");
        WindowChance suits = WindowChance.of(
                window, PieceWeight.of(Shipped.ESTIMATOR.estimate(steer("R=", "3=", 360)), "striploin"));
        WindowChance large = WindowChance.of(
                window, PieceWeight.of(Shipped.ESTIMATOR.estimate(steer("U=", "4=", 495)), "striploin"));

        assertThat(suits.inside()).isGreaterThanOrEqualTo(0.9);
        assertThat(large.inside()).isLessThanOrEqualTo(0.05);
    }

    private static Carcass steer(String conformation, String fatClass, double kg) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse(fatClass), kg);
    }
}
