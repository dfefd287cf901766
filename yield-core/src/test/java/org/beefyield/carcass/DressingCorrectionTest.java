package org.beefyield.carcass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class DressingCorrectionTest {
    private static final FatClass FAT_3 = FatClass.parse("3");

    @Test
    void theCodeIsInLowerCaseWithHyphens() {
        assertThat(DressingCorrection.KIDNEY_FAT_LEFT_ON.code()).isEqualTo("kidney-fat-left-on");
        assertThat(DressingCorrection.TOPSIDE_INSIDE_FAT_LEFT_ON.code()).isEqualTo("topside-inside-fat-left-on");
    }

    @ParameterizedTest
    @EnumSource
    void aCodeIsReadBackInEitherCaseAndWithBlanksAround(DressingCorrection correction) {
        assertThat(DressingCorrection.parse(correction.code())).isEqualTo(correction);
        assertThat(DressingCorrection.parse(" " + correction.code().toUpperCase(Locale.ROOT) + "\t"))
                .isEqualTo(correction);
    }

    /** In Turkish the small letter of I has no dot. */
    @Test
    void codesAreAlikeWhateverTheLanguageOfTheMachine() {
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.forLanguageTag("tr"));
            assertThat(DressingCorrection.THIN_SKIRT_LEFT_ON.code()).isEqualTo("thin-skirt-left-on");
            assertThat(DressingCorrection.parse("THIN-SKIRT-LEFT-ON")).isEqualTo(DressingCorrection.THIN_SKIRT_LEFT_ON);
        } finally {
            Locale.setDefault(before);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"head left on", "", "kidneys left on", "KIDNEYS_LEFT_ON", "kidneys-left-on liver-left-on"})
    void anUnknownDressingIsRefusedWithTheOnesThereAre(String code) {
        assertThatThrownBy(() -> DressingCorrection.parse(code))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("dressing \"" + code + "\" is none of kidneys-left-on kidney-fat-left-on"
                        + " pelvic-fat-left-on liver-left-on thin-skirt-left-on thick-skirt-left-on tail-left-on"
                        + " spinal-cord-left-on mammary-fat-left-on testicles-left-on cod-fat-left-on"
                        + " topside-inside-fat-left-on jugular-vein-left-on external-fat-removed brisket-fat-removed"
                        + " flank-fat-removed");
    }

    @Test
    void aCarcassInTheReferenceDressingKeepsItsWeightExactly() {
        assertThat(DressingCorrection.toReference(333.3, Set.of(), FAT_3)).isEqualTo(333.3);
    }

    @Test
    void theOrderOfTheDeparturesMakesNoDifference() {
        Set<DressingCorrection> all = EnumSet.allOf(DressingCorrection.class);
        Set<DressingCorrection> inOtherOrder = Set.copyOf(all);

        assertThat(DressingCorrection.toReference(333.3, inOtherOrder, FAT_3))
                .isEqualTo(DressingCorrection.toReference(333.3, all, FAT_3));
    }

    @Test
    void theCorrectionCommutesWithTheColdWeight() {
        Set<DressingCorrection> departures =
                EnumSet.of(DressingCorrection.TAIL_LEFT_ON, DressingCorrection.KIDNEY_FAT_LEFT_ON);

        assertThat(CarcassWeights.coldFromHot(DressingCorrection.toReference(350, departures, FAT_3)))
                .isEqualTo(
                        DressingCorrection.toReference(CarcassWeights.coldFromHot(350), departures, FAT_3),
                        within(1e-12));
    }

    @ParameterizedTest
    @CsvSource({
        "0,weight 0 kg is not above 0 and at most 1200 kg",
        "-3,weight -3 kg is not above 0 and at most 1200 kg",
        "NaN,weight NaN kg is not above 0 and at most 1200 kg",
        "3400,weight 3400 kg is not above 0 and at most 1200 kg"
    })
    void whatIsNoWeightIsRefusedWithItsLimits(double kg, String message) {
        assertThatThrownBy(() -> DressingCorrection.toReference(kg, Set.of(), FAT_3))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }
}
