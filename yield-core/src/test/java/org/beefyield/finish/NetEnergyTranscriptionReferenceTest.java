package org.beefyield.finish;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.beefyield.carcass.Category;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Equations of the 2019 Refinement to the 2006 IPCC Guidelines, volume 4, chapter 10, worked by hand from the coefficients that
 * are printed there.
 */
class NetEnergyTranscriptionReferenceTest {
    /** Equation 10.6: live weight 300 kg, mature weight 600 kg, C 1, 1 kg a day: 22.02 (300/600)^0.75. */
    @Test
    void growthOfThreeHundredKgTakesThirteenMegajoules() {
        assertThat(NetEnergy.growthMj(1, 300, 600, 1)).isCloseTo(13.0932, within(5e-5));
    }

    /** Equation 10.6: 2 kg a day take 2^1.097 times as much; C of females, castrates and bulls. */
    @Test
    void growthRisesWithGainAndFallsWithC() {
        assertThat(NetEnergy.growthMj(1, 300, 600, 2) / NetEnergy.growthMj(1, 300, 600, 1))
                .isCloseTo(2.13909, within(1e-4));
        assertThat(NetEnergy.growthCoefficient(Category.HEIFER)).isEqualTo(0.8);
        assertThat(NetEnergy.growthCoefficient(Category.COW)).isEqualTo(0.8);
        assertThat(NetEnergy.growthCoefficient(Category.STEER)).isEqualTo(1.0);
        assertThat(NetEnergy.growthCoefficient(Category.YOUNG_BULL)).isEqualTo(1.2);
        assertThat(NetEnergy.growthCoefficient(Category.BULL)).isEqualTo(1.2);
        assertThat(NetEnergy.growthMj(1, 300, 600, -0.5)).isZero();
    }

    /** Equation 10.3: 0.322 MJ per kg of metabolic weight, of bulls 0.370 (2006 Guidelines, table 10.4): 500^0.75 = 105.7371. */
    @ParameterizedTest
    @CsvSource({"STEER, 34.0473", "HEIFER, 34.0473", "COW, 34.0473", "YOUNG_BULL, 39.1227", "BULL, 39.1227"})
    void maintenanceIsOfMetabolicWeight(Category category, double mj) {
        assertThat(NetEnergy.maintenanceMj(category, 500)).isCloseTo(mj, within(1e-3));
    }

    /** Equations 10.14 and 10.15 at 75 % digestible energy: terms 0.3069, 0.0633375, 0.338667 and 0.387, 0.073575, 0.498667. */
    @Test
    void ratiosOfNetToDigestibleEnergyAreThePrintedPolynomials() {
        assertThat(NetEnergy.maintenanceRatio(75)).isCloseTo(0.540771, within(1e-6));
        assertThat(NetEnergy.growthRatio(75)).isCloseTo(0.351908, within(1e-6));
    }

    /** Equation 10.16: (34.0473 / 0.540771 + 13.0932 x (5/3)^0.75 / 0.351908) / 0.75, over 18.45 MJ a kg. */
    @Test
    void dryMatterCoversMaintenanceAndGrowth() {
        NetEnergy.Diet diet = new NetEnergy.Diet(75, NetEnergy.USUAL_GROSS_MJ_PER_KG, 600, 0);
        double growth = 13.0932 * Math.pow(5.0 / 3, 0.75);
        assertThat(diet.dryMatterKg(Category.STEER, 500, 1))
                .isCloseTo((34.0473 / 0.540771 + growth / 0.351908) / 0.75 / 18.45, within(1e-3));
        assertThat(new NetEnergy.Diet(75, NetEnergy.USUAL_GROSS_MJ_PER_KG, 600, 0.17)
                        .dryMatterKg(Category.STEER, 500, 0))
                .isCloseTo(1.17 * 34.0473 / 0.540771 / 0.75 / 18.45, within(1e-3));
    }

    @Test
    void aDietOutsideItsRangesIsRefused() {
        assertThatThrownBy(() -> new NetEnergy.Diet(30, 18.45, 600, 0))
                .hasMessage("digestible energy of a diet, %: 30 is outside 45 to 90");
        assertThatThrownBy(() -> new NetEnergy.Diet(75, 18.45, 60, 0))
                .hasMessage("mature live weight, kg: 60 is outside 200 to 1500");
    }
}
