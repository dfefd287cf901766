package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.CoefficientNote;
import org.junit.jupiter.api.Test;

class DifferenceTest {
    /** Meat and fat trim of the carcass have standard errors of 0.5 g/kg per point of fat. */
    private static final YieldTable TABLE = YieldTable.of(TestTables.small().toBuilder()
            .coefficientNote(new CoefficientNote("*", "*", "carcass", "meat", "per_fat_point", 0.5, TestTables.SOURCE))
            .coefficientNote(
                    new CoefficientNote("*", "*", "carcass", "fat-trim", "per_fat_point", 0.5, TestTables.SOURCE))
            .build());

    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE);

    private static final Figure MEAT = Figure.cut("tissue", "meat");

    private static Carcass carcass(String fatClass, double kg) {
        return Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse(fatClass), kg);
    }

    private static Difference difference(Carcass a, Carcass b) {
        return ESTIMATOR.estimate(a).minus(ESTIMATOR.estimate(b), MEAT);
    }

    @Test
    void itsUncertaintyIsThatOfTheCoefficientsThatTellTheTwoApart() {
        Difference difference = difference(carcass("5=", 300), carcass("3=", 300));

        // 6 points of fat, 0.5 g/kg each, 300 kg
        assertThat(difference.expectedSdKg()).isCloseTo(6 * 0.0005 * 300, within(1e-12));
        assertThat(difference.kg())
                .isEqualTo(ESTIMATOR.estimate(carcass("5=", 300)).kg("tissue", "meat")
                        - ESTIMATOR.estimate(carcass("3=", 300)).kg("tissue", "meat"));
        assertThat(difference.expectedInterval(0.9).high() - difference.kg()).isCloseTo(1.6449 * 0.9, within(1e-4));
    }

    @Test
    void equalCarcassesDifferByNothingForSure() {
        Difference difference = difference(carcass("5=", 300), carcass("5=", 300));
        assertThat(difference.kg()).isZero();
        assertThat(difference.expectedSdKg()).isZero();
    }

    @Test
    void theOtherWayRoundItTurnsItsSign() {
        Difference there = difference(carcass("4+", 310), carcass("2=", 350));
        Difference back = difference(carcass("2=", 350), carcass("4+", 310));

        assertThat(back.kg()).isEqualTo(-there.kg());
        assertThat(back.expectedSdKg()).isCloseTo(there.expectedSdKg(), within(1e-12));
    }

    @Test
    void aLotAddsItsDifferencesCoherently() {
        Carcass fat = carcass("5=", 300);
        Carcass lean = carcass("3=", 300);
        Difference ofThree = ESTIMATOR
                .estimateLot(List.of(fat, fat, fat))
                .minus(ESTIMATOR.estimateLot(List.of(lean, lean, lean)), MEAT);

        assertThat(ofThree.kg()).isCloseTo(3 * difference(fat, lean).kg(), within(1e-12));
        assertThat(ofThree.expectedSdKg()).isCloseTo(3 * difference(fat, lean).expectedSdKg(), within(1e-12));
    }

    @Test
    void aBiasOfTheScaleThatBothShareCancelsAsFarAsTheyAreAlike() {
        YieldEstimator biased = ESTIMATOR.with(new ScaleError(0, 2));
        Carcass lean = carcass("3=", 300).withKillDate("2026-03-02");
        Carcass heavier = carcass("3=", 310).withKillDate("2026-03-02");
        Difference same = biased.estimate(lean).minus(biased.estimate(heavier), MEAT);
        double alone = biased.estimate(lean).sd(MEAT, UncertaintyPart.SCALE_BIAS);

        assertThat(same.expectedSdKg()).isLessThan(0.1 * alone);
        assertThat(alone).isGreaterThan(1);
    }

    @Test
    void aBiasOfTheScaleOnDaysThatMayBeOthersDoesNotCancel() {
        YieldEstimator biased = ESTIMATOR.with(new ScaleError(0, 2));
        Carcass lean = carcass("3=", 300);
        double alone = biased.estimate(lean).sd(MEAT, UncertaintyPart.SCALE_BIAS);
        for (Carcass other : List.of(lean, lean.withKillDate("2026-03-03"))) {
            Difference days = biased.estimate(lean).minus(biased.estimate(other), MEAT);

            assertThat(days.sdKg(UncertaintyPart.SCALE_BIAS)).isCloseTo(Math.sqrt(2) * alone, within(1e-12));
        }
    }

    @Test
    void outturnsOfOtherEstimatorsAreRefused() {
        assertThatThrownBy(() -> ESTIMATOR
                        .estimate(carcass("3=", 300))
                        .minus(ESTIMATOR.with(new ScaleError(1, 0)).estimate(carcass("3=", 300)), MEAT))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
