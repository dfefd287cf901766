package org.beefyield.cut;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CutTest {
    private static Cut cut(Double piecesPerSide, Double sideSplitSdPct, Double fatPct) {
        return Cut.of("rump", "Rump", "primal", CutKind.PRIMAL)
                .withPiecesPerSide(piecesPerSide)
                .withSideSplitSdPct(sideSplitSdPct)
                .withFatPct(fatPct)
                .withUnece("2090");
    }

    @ParameterizedTest
    @ValueSource(strings = {"rump", "eye-of-round", "a", "7", "85-vl-trim"})
    void aCodeIsLowerCaseLettersAndDigitsJoinedBySingleHyphens(String code) {
        assertThat(Cut.of(code, "Name", "primal", CutKind.PRIMAL).code()).isEqualTo(code);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                " ",
                "Rump",
                "eye of round",
                "eye_of_round",
                "-rump",
                "rump-",
                "cube--roll",
                "entrec\u00f4te",
                "a\n"
            })
    void anyOtherCodeIsRefused(String code) {
        assertThatThrownBy(() -> Cut.of(code, "Name", "primal", CutKind.PRIMAL))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("cut \"" + code + "\" is not lower-case letters and digits joined by single hyphens");
    }

    @Test
    void aPlainCutStatesNoFigures() {
        Cut plain = Cut.of("rump", "Rump", "primal", CutKind.PRIMAL);

        assertThat(plain).isEqualTo(Cut.of("rump", "Rump", "primal", CutKind.PRIMAL));
        assertThat(plain.pieceKg(10)).isEmpty();
    }

    @Test
    void figuresAtTheEndsOfTheirRangesAreKept() {
        assertThat(cut(100.0, 0.0, 0.0).piecesPerSide()).isEqualTo(100);
        assertThat(cut(0.01, 100.0, 100.0).fatPct()).isEqualTo(100);
    }

    @ParameterizedTest
    @CsvSource({
        "0,,,pieces_per_side 0 is outside 0 to 100 (0 excluded)",
        "-1,,,pieces_per_side -1 is outside 0 to 100 (0 excluded)",
        "100.5,,,pieces_per_side 100.5 is outside 0 to 100 (0 excluded)",
        "NaN,,,pieces_per_side NaN is outside 0 to 100 (0 excluded)",
        ",-0.1,,side_split_sd_pct -0.1 is outside 0 to 100",
        ",100.1,,side_split_sd_pct 100.1 is outside 0 to 100",
        ",NaN,,side_split_sd_pct NaN is outside 0 to 100",
        ",,-0.1,fat_pct -0.1 is outside 0 to 100",
        ",,100.1,fat_pct 100.1 is outside 0 to 100",
        ",,106,fat_pct 106 is outside 0 to 100",
        ",,Infinity,fat_pct Infinity is outside 0 to 100"
    })
    void aFigureOutsideItsRangeIsRefusedByTheNameOfItsColumn(
            Double piecesPerSide, Double sideSplitSdPct, Double fatPct, String message) {
        assertThatThrownBy(() -> cut(piecesPerSide, sideSplitSdPct, fatPct))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }

    @Test
    void aPieceWeighsItsShareOfBothSides() {
        assertThat(cut(1.0, null, null).pieceKg(13.5)).hasValue(6.75);
        assertThat(cut(2.0, null, null).pieceKg(13.5)).hasValue(3.375);
        assertThat(cut(0.5, null, null).pieceKg(13.5)).hasValue(13.5);
    }
}
