package org.beefyield.data.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.beefyield.cut.CutKind;
import org.junit.jupiter.api.Test;

class InkTest {
    /** For text, and for parts of pictures: Web Content Accessibility Guidelines 2.1, criteria 1.4.3 and 1.4.11. */
    private static final double TEXT_CONTRAST = 4.5;

    private static final double PART_CONTRAST = 3;

    /** The eight colours as red, green and blue of 255: Okabe and Ito (2008), https://jfly.uni-koeln.de/color/. */
    @Test
    void theColoursAreThoseOfOkabeAndIto() {
        assertThat(List.of(
                        Ink.BLACK,
                        Ink.ORANGE,
                        Ink.SKY_BLUE,
                        Ink.BLUISH_GREEN,
                        Ink.YELLOW,
                        Ink.BLUE,
                        Ink.VERMILLION,
                        Ink.REDDISH_PURPLE))
                .extracting(ink -> (ink.rgb() >> 16) + " " + (ink.rgb() >> 8 & 0xFF) + " " + (ink.rgb() & 0xFF))
                .containsExactly(
                        "0 0 0",
                        "230 159 0",
                        "86 180 233",
                        "0 158 115",
                        "240 228 66",
                        "0 114 178",
                        "213 94 0",
                        "204 121 167");
    }

    /** The ends of the scale are exact by the guidelines' definition. */
    @Test
    void contrastGoesFromOneToTwentyOne() {
        assertThat(Ink.contrast(0, 0xFFFFFF)).isCloseTo(21, within(1e-9));
        assertThat(Ink.contrast(0x777777, 0x777777)).isEqualTo(1);
    }

    @Test
    void textIsEasyToReadOnTheGroundAndOnEveryShade() {
        assertThat(Ink.contrast(Ink.TEXT.rgb(), Ink.WHITE.rgb())).isGreaterThan(TEXT_CONTRAST);
        for (int k = 0; k <= 100; k++) {
            assertThat(Ink.contrast(Ink.BLACK.rgb(), Ink.shade(k / 100.0))).isGreaterThan(TEXT_CONTRAST);
        }
    }

    @Test
    void shadesOnlyGetDarkerAndTheirStepsShowInGrey() {
        for (int k = 1; k <= 100; k++) {
            assertThat(Ink.luminance(Ink.shade(k / 100.0))).isLessThan(Ink.luminance(Ink.shade((k - 1) / 100.0)));
        }
        assertThat(lightness(Ink.shade(0)) - lightness(Ink.shade(1))).isGreaterThan(30);
    }

    @Test
    void linesStandOutFromTheGround() {
        for (YieldByGrade.Style line : YieldByGrade.LINES) {
            assertThat(Ink.contrast(line.pen().rgb(), Ink.WHITE.rgb())).isGreaterThan(PART_CONTRAST);
        }
    }

    @Test
    void linesDifferByMarksAndDashesAndNotByColourAlone() {
        List<YieldByGrade.Style> lines = YieldByGrade.LINES;
        assertThat(lines).hasSize(5);
        assertThat(lines.stream().map(line -> line.pen().dashPx()).distinct()).hasSize(5);
        assertThat(lines.stream().map(YieldByGrade.Style::mark).distinct()).hasSize(5);
        assertThat(lines.stream().map(line -> line.pen().rgb()).distinct()).hasSize(5);
    }

    /** Of the levels of a carcass; meat and primals share one key, lean trim and mince never stand together. */
    @Test
    void kindsOfALevelDifferInGreyByStripesOrLightness() {
        List<List<CutKind>> levels = List.of(
                List.of(CutKind.MEAT, CutKind.FAT_TRIM, CutKind.BONE, CutKind.LOSS),
                List.of(
                        CutKind.STEAK,
                        CutKind.JOINT,
                        CutKind.DICE,
                        CutKind.LEAN_TRIM,
                        CutKind.FAT_TRIM,
                        CutKind.BONE,
                        CutKind.LOSS));
        for (List<CutKind> level : levels) {
            for (CutKind one : level) {
                for (CutKind other : level) {
                    Pen a = CarcassSteps.pen(one);
                    Pen b = CarcassSteps.pen(other);
                    if (one != other && a.dashPx().equals(b.dashPx())) {
                        assertThat(Math.abs(lightness(a.rgb()) - lightness(b.rgb())))
                                .as(one + " and " + other)
                                .isGreaterThan(10);
                    }
                }
            }
        }
    }

    /** L* of CIE 1976 from relative luminance, 0 black to 100 white. */
    private static double lightness(int rgb) {
        double luminance = Ink.luminance(rgb);
        return luminance > 216.0 / 24389 ? 116 * Math.cbrt(luminance) - 16 : 24389.0 / 27 * luminance;
    }
}
