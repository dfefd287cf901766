package org.beefyield.carcass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CarcassWeightsTest {
    @ParameterizedTest
    @CsvSource({"350,343", "100,98", "342.5,335.65", "1200,1176"})
    void coldIsTwoPerCentLessThanHot(double hotKg, double coldKg) {
        assertThat(CarcassWeights.coldFromHot(hotKg)).isEqualTo(coldKg, within(1e-12));
    }

    @Test
    void theHeaviestWeightIsStillAWeight() {
        assertThat(CarcassWeights.HEAVIEST_KG).isEqualTo(1200);
        assertThat(CarcassWeights.check("weight", CarcassWeights.HEAVIEST_KG)).isEqualTo(1200);
        assertThat(CarcassWeights.check("weight", Double.MIN_VALUE)).isEqualTo(Double.MIN_VALUE);
    }

    @ParameterizedTest
    @CsvSource({
        "0,hot weight 0 kg is not above 0 and at most 1200 kg",
        "-3,hot weight -3 kg is not above 0 and at most 1200 kg",
        "1200.001,hot weight 1200.001 kg is not above 0 and at most 1200 kg",
        "3400,hot weight 3400 kg is not above 0 and at most 1200 kg",
        "NaN,hot weight NaN kg is not above 0 and at most 1200 kg",
        "-Infinity,hot weight -Infinity kg is not above 0 and at most 1200 kg"
    })
    void whatIsNoHotWeightIsRefusedWithItsLimits(double hotKg, String message) {
        assertThatThrownBy(() -> CarcassWeights.coldFromHot(hotKg))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }
}
