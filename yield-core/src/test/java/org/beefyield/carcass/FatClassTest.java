package org.beefyield.carcass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class FatClassTest {
    @ParameterizedTest
    @CsvSource({
        "1-,1,1,1",
        "1=,2,1,1",
        "1+,3,1,1",
        "2-,4,1,2",
        "3=,8,1,3",
        "4-,10,1,4",
        "4+,12,1,4",
        "5+,15,1,5",
        "1,2,3,1",
        "2,5,3,2",
        "3,8,3,3",
        "4,11,3,4",
        "5,14,3,5",
        "4L,10.25,1.5,4",
        "4H,11.75,1.5,4",
        "5L,13.25,1.5,5",
        "5H,14.75,1.5,5"
    })
    void aFatClassSitsAtTheMiddleOfWhatItCovers(String text, double position, double width, int classNumber) {
        FatClass fatClass = FatClass.parse(text);

        assertThat(fatClass.position()).isEqualTo(position);
        assertThat(fatClass.width()).isEqualTo(width);
        assertThat(fatClass.classNumber()).isEqualTo(classNumber);
        assertThat(fatClass).hasToString(text);
    }

    @ParameterizedTest
    @CsvSource({"4h,4H", "5 l,5L", "' 3\t+',3+", "3 =,3=", "3\u2212,3-", "3\u2013,3-", "' 2 ',2"})
    void whatKillSheetsHoldIsReadAsItsCanonicalForm(String text, String canonical) {
        assertThat(FatClass.parse(text)).isEqualTo(FatClass.parse(canonical)).hasToString(canonical);
    }

    @Test
    void aMachinesPositionKeepsItsFigureAndWidth() {
        FatClass fatClass = FatClass.ofPosition(7.4, 0.2);

        assertThat(fatClass.position()).isEqualTo(7.4);
        assertThat(fatClass.width()).isEqualTo(0.2);
        assertThat(fatClass).hasToString("7.4p width 0.2");
        assertThat(FatClass.ofPosition(8, 1)).hasToString("8p");
        assertThat(FatClass.ofPosition(1, 0)).hasToString("1p width 0");
        assertThat(FatClass.ofPosition(15, 3)).hasToString("15p width 3");
    }

    @ParameterizedTest
    @CsvSource({"1,1", "3.49,1", "3.5,2", "6.49,2", "6.5,3", "9.49,3", "9.5,4", "12.49,4", "12.5,5", "15,5"})
    void thePositionsBetweenTwoEdgesBelongToTheClass(double position, int classNumber) {
        assertThat(FatClass.ofPosition(position, 1).classNumber()).isEqualTo(classNumber);
    }

    @ParameterizedTest
    @ValueSource(strings = {"1-", "1=", "1+", "2-", "3=", "4+", "5-", "5+"})
    void aThirdIsTheClassAtItsWholePosition(String text) {
        FatClass parsed = FatClass.parse(text);

        assertThat(FatClass.third((int) parsed.position())).isEqualTo(parsed).hasToString(text);
    }

    @Test
    void classesAreEqualWhenPositionAndWidthAre() {
        FatClass third = FatClass.parse("3=");

        assertThat(third)
                .isEqualTo(FatClass.parse("3 ="))
                .hasSameHashCodeAs(FatClass.parse("3 ="))
                .isEqualTo(FatClass.ofPosition(8, 1))
                .hasSameHashCodeAs(FatClass.ofPosition(8, 1))
                .isNotEqualTo(FatClass.parse("3"))
                .isNotEqualTo(FatClass.parse("3+"))
                .isNotEqualTo("3=");
        assertThat(FatClass.ofPosition(8, 0.5)).isNotEqualTo(FatClass.ofPosition(8, 0.25));
    }

    @ParameterizedTest
    @CsvSource({"8.4p,8.4,1", "8.4 P,8.4,1", "8.4p width 0.2,8.4,0.2", "8p width 0,8,0"})
    void aPositionIsReadAsItPrints(String text, double position, double width) {
        assertThat(FatClass.parse(text)).isEqualTo(FatClass.ofPosition(position, width));
    }

    @Test
    void aWidthOfMinusZeroIsAWidthOfZero() {
        FatClass zero = FatClass.ofPosition(7.4, 0.0);
        FatClass minusZero = FatClass.ofPosition(7.4, -0.0);

        assertThat(minusZero).isEqualTo(zero).hasSameHashCodeAs(zero);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "0    | fat class 0 is outside 1 to 5",
                "6    | fat class 6 is outside 1 to 5; a position on the 15-point scale belongs in fat_points, in code in FatClass.ofPosition",
                "8    | fat class 8 is outside 1 to 5; a position on the 15-point scale belongs in fat_points, in code in FatClass.ofPosition",
                "15   | fat class 15 is outside 1 to 5; a position on the 15-point scale belongs in fat_points, in code in FatClass.ofPosition",
                "7.4  | fat class 7.4 is no class of 1 to 5; a position on the 15-point scale belongs in fat_points, in code in FatClass.ofPosition",
                "7.4  | fat class 7.4 is no class of 1 to 5; a position on the 15-point scale belongs in fat_points, in code in FatClass.ofPosition",
                "``   | fat class \"\" is not 1 to 5, whole or with one of - = + behind it, or 4L 4H 5L 5H",
                "` `  | fat class \" \" is not 1 to 5, whole or with one of - = + behind it, or 4L 4H 5L 5H",
                "X    | fat class \"X\" is not 1 to 5, whole or with one of - = + behind it, or 4L 4H 5L 5H",
                "-3   | fat class \"-3\" is not 1 to 5, whole or with one of - = + behind it, or 4L 4H 5L 5H",
                "3++  | fat class \"3++\" is not 1 to 5, whole or with one of - = + behind it, or 4L 4H 5L 5H",
                "3L   | fat class \"3L\" is not 1 to 5, whole or with one of - = + behind it, or 4L 4H 5L 5H",
                "3h   | fat class \"3h\" is not 1 to 5, whole or with one of - = + behind it, or 4L 4H 5L 5H",
                "4L+  | fat class \"4L+\" is not 1 to 5, whole or with one of - = + behind it, or 4L 4H 5L 5H",
                "6+   | fat class \"6+\" is not 1 to 5, whole or with one of - = + behind it, or 4L 4H 5L 5H",
                "7.4q | fat class \"7.4q\" is not 1 to 5, whole or with one of - = + behind it, or 4L 4H 5L 5H",
                "16p  | \"16p\": fat position 16 is outside 1 to 15 points",
                "8p width 3.1 | \"8p width 3.1\": fat width 3.1 is outside 0 to 3 points"
            })
    void whatIsNoFatClassIsRefusedInWords(String text, String message) {
        assertThatThrownBy(() -> FatClass.parse(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }

    @ParameterizedTest
    @CsvSource({
        "0.9,1,fat position 0.9 is outside 1 to 15 points",
        "15.1,1,fat position 15.1 is outside 1 to 15 points",
        "-3,1,fat position -3 is outside 1 to 15 points",
        "NaN,1,fat position NaN is outside 1 to 15 points",
        "-Infinity,1,fat position -Infinity is outside 1 to 15 points",
        "8,-0.1,fat width -0.1 is outside 0 to 3 points",
        "8,3.1,fat width 3.1 is outside 0 to 3 points",
        "8,NaN,fat width NaN is outside 0 to 3 points"
    })
    void aPositionOrWidthOffTheScaleIsRefusedWithItsLimits(double position, double width, String message) {
        assertThatThrownBy(() -> FatClass.ofPosition(position, width))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 16, -1, Integer.MAX_VALUE, Integer.MIN_VALUE})
    void aThirdOffTheScaleIsRefusedWithItsLimits(int position) {
        assertThatThrownBy(() -> FatClass.third(position))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("fat position " + position + " is outside 1 to 15 points");
    }
}
