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
                        Ink.STRONG,
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
    void textIsEasyToReadOnTheGroundAndOnEveryShadeByDayAndByNight() {
        assertThat(Ink.contrast(Ink.TEXT.rgb(), Ink.GROUND.rgb())).isGreaterThan(TEXT_CONTRAST);
        assertThat(Ink.contrast(Ink.TEXT.darkRgb(), Ink.GROUND.darkRgb())).isGreaterThan(TEXT_CONTRAST);
        for (int k = -100; k <= 100; k++) {
            Ink shade = Ink.shade(k / 100.0);
            assertThat(Ink.contrast(Ink.STRONG.rgb(), shade.rgb())).isGreaterThan(TEXT_CONTRAST);
            assertThat(Ink.contrast(Ink.STRONG.darkRgb(), shade.darkRgb()))
                    .as(shade.name())
                    .isGreaterThan(TEXT_CONTRAST);
        }
    }

    @Test
    void shadesAreThoseOfZeroOrGoFartherFromTheGroundWithEachStepAndShowInGrey() {
        assertThat(Ink.shade(0)).isEqualTo(Ink.GROUND);
        assertThat(Ink.shade(0.001)).isEqualTo(Ink.MORE_1);
        assertThat(Ink.shade(-0.001)).isEqualTo(Ink.LESS_1);
        assertThat(Ink.shade(0.2)).isEqualTo(Ink.MORE_1);
        assertThat(Ink.shade(0.21)).isEqualTo(Ink.MORE_2);
        assertThat(Ink.shade(1)).isEqualTo(Ink.MORE_5);
        assertThat(Ink.shade(-7)).isEqualTo(Ink.LESS_5);
        for (int sign : List.of(1, -1)) {
            for (int step = 1; step <= Ink.SHADES; step++) {
                Ink shade = Ink.shade(sign * step / 5.0);
                Ink before = Ink.shade(sign * (step - 1) / 5.0);
                assertThat(lightness(before.rgb()) - lightness(shade.rgb())).isGreaterThan(2.5);
                assertThat(lightness(shade.darkRgb()) - lightness(before.darkRgb()))
                        .isGreaterThan(2.5);
            }
        }
    }

    @Test
    void linesStandOutFromTheGround() {
        for (YieldByGrade.Style line : YieldByGrade.LINES) {
            Ink ink = line.pen().ink();
            assertThat(Ink.contrast(ink.rgb(), Ink.GROUND.rgb()))
                    .as(ink.name())
                    // as Okabe and Ito have it; its line is dotted and named at its end
                    .isGreaterThan(ink == Ink.REDDISH_PURPLE ? 2.9 : PART_CONTRAST);
            assertThat(Ink.contrast(ink.darkRgb(), Ink.GROUND.darkRgb()))
                    .as(ink.name())
                    .isGreaterThan(PART_CONTRAST);
        }
    }

    @Test
    void linesDifferByMarksAndDashesAndNotByColourAlone() {
        List<YieldByGrade.Style> lines = YieldByGrade.LINES;
        assertThat(lines).hasSize(5);
        assertThat(lines.stream().map(line -> line.pen().dashPx()).distinct()).hasSize(5);
        assertThat(lines.stream().map(YieldByGrade.Style::mark).distinct()).hasSize(5);
        assertThat(lines.stream().map(line -> line.pen().ink()).distinct()).hasSize(5);
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
                        assertThat(Math.abs(lightness(a.ink().rgb())
                                        - lightness(b.ink().rgb())))
                                .as(one + " and " + other)
                                .isGreaterThan(10);
                        assertThat(Math.abs(lightness(a.ink().darkRgb())
                                        - lightness(b.ink().darkRgb())))
                                .as(one + " and " + other + " by night")
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
