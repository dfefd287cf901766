package org.beefyield.cut;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class CutKindTest {
    @Test
    void theCodesAreTheOnesOfTheFiles() {
        assertThat(Arrays.stream(CutKind.values()).map(CutKind::code))
                .containsExactly(
                        "meat", "primal", "steak", "joint", "dice", "lean-trim", "mince", "fat-trim", "bone", "loss");
    }

    @ParameterizedTest
    @EnumSource
    void aCodeIsReadBack(CutKind kind) {
        assertThat(CutKind.parse(kind.code())).isEqualTo(kind);
    }

    /** In Turkish the small letter of I has no dot. */
    @Test
    void codesAreAlikeWhateverTheLanguageOfTheMachine() {
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.forLanguageTag("tr"));
            assertThat(CutKind.MINCE.code()).isEqualTo("mince");
        } finally {
            Locale.setDefault(before);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"offal", "", "FAT_TRIM", "fat trim", "Bone"})
    void anUnknownKindIsRefusedWithTheOnesThereAre(String code) {
        assertThatThrownBy(() -> CutKind.parse(code))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("kind \"" + code
                        + "\" is none of meat primal steak joint dice lean-trim mince fat-trim bone loss");
    }
}
