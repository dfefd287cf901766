package org.beefyield.carcass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ConformationTest {
    @ParameterizedTest
    @CsvSource({
        "P-,1,1", "P=,2,1", "P+,3,1", "O-,4,1", "R=,8,1", "U+,12,1", "E+,15,1", "S-,16,1", "S=,17,1", "S+,18,1",
        "P,2,3", "O,5,3", "R,8,3", "U,11,3", "E,14,3", "S,17,3"
    })
    void underThirdsAGradeSitsAtTheMiddleOfWhatItCovers(String text, double position, double width) {
        Conformation conformation = Conformation.parse(text);

        assertThat(conformation).isEqualTo(Conformation.parse(text, GradeReading.THIRDS));
        assertThat(conformation.position()).isEqualTo(position);
        assertThat(conformation.width()).isEqualTo(width);
        assertThat(conformation).hasToString(text);
    }

    @ParameterizedTest
    @CsvSource({
        "-P,1.25,1.5",
        "P+,2.75,1.5",
        "-O,4.25,1.5",
        "O+,5.75,1.5",
        "R,8,3",
        "-U,10.25,1.5",
        "U+,11.75,1.5",
        "S+,17.75,1.5"
    })
    void underHalvesAGradeSitsAtTheMiddleOfItsHalf(String text, double position, double width) {
        Conformation conformation = Conformation.parse(text, GradeReading.HALVES);

        assertThat(conformation.position()).isEqualTo(position);
        assertThat(conformation.width()).isEqualTo(width);
        assertThat(conformation).hasToString(width == 3 ? text : text + " half");
    }

    @Test
    void theSameTextUnderAnotherReadingIsAnotherGrade() {
        assertThat(Conformation.parse("U+", GradeReading.HALVES)).isNotEqualTo(Conformation.parse("U+"));
        assertThat(Conformation.parse("U", GradeReading.HALVES)).isEqualTo(Conformation.parse("U"));
    }

    @ParameterizedTest
    @CsvSource({"r+,R+", "R +,R+", "' r\t= ',R=", "e-,E-", "' s ',S", "R\u2212,R-", "R\u2013,R-"})
    void whatKillSheetsHoldIsReadAsItsCanonicalForm(String text, String canonical) {
        assertThat(Conformation.parse(text))
                .isEqualTo(Conformation.parse(canonical))
                .hasToString(canonical);
    }

    @ParameterizedTest
    @CsvSource({
        "-U half,10.25,1.5",
        "U+ half,11.75,1.5",
        "u+HALF,11.75,1.5",
        "8.4p,8.4,1",
        "8.4 P,8.4,1",
        "8.4p width 0.2,8.4,0.2",
        "8p width 0,8,0"
    })
    void whatAGradePrintsIsReadTheSameUnderEveryReading(String text, double position, double width) {
        for (GradeReading reading : GradeReading.values()) {
            Conformation conformation = Conformation.parse(text, reading);

            assertThat(conformation).isEqualTo(Conformation.ofPosition(position, width));
            assertThat(conformation).isEqualTo(Conformation.parse(text));
        }
    }

    @Test
    void aWordProcessorsMinusInFrontIsReadUnderHalves() {
        assertThat(Conformation.parse("\u2212 u", GradeReading.HALVES))
                .isEqualTo(Conformation.parse("-U", GradeReading.HALVES));
    }

    @Test
    void aMachinesPositionKeepsItsFigureAndWidth() {
        Conformation conformation = Conformation.ofPosition(7.4, 0.2);

        assertThat(conformation.position()).isEqualTo(7.4);
        assertThat(conformation.width()).isEqualTo(0.2);
        assertThat(conformation).hasToString("7.4p width 0.2");
        assertThat(Conformation.ofPosition(8, 1)).hasToString("8p");
        assertThat(Conformation.ofPosition(1, 0)).hasToString("1p width 0");
        assertThat(Conformation.ofPosition(18, 3)).hasToString("18p width 3");
    }

    @ParameterizedTest
    @CsvSource({
        "1,P", "3.49,P", "3.5,O", "6.49,O", "6.5,R", "9.49,R", "9.5,U", "12.49,U", "12.5,E", "15.49,E", "15.5,S", "18,S"
    })
    void thePositionsBetweenTwoEdgesBelongToTheClass(double position, String letter) {
        assertThat(Conformation.ofPosition(position, 1).classLetter()).isEqualTo(letter);
    }

    @ParameterizedTest
    @ValueSource(strings = {"P-", "P=", "P+", "O-", "R-", "R=", "R+", "S+"})
    void aThirdIsTheGradeAtItsWholePosition(String text) {
        Conformation parsed = Conformation.parse(text);

        assertThat(Conformation.third((int) parsed.position()))
                .isEqualTo(parsed)
                .hasToString(text);
    }

    @Test
    void gradesAreEqualWhenPositionAndWidthAre() {
        Conformation third = Conformation.parse("R=");

        assertThat(third)
                .isEqualTo(Conformation.parse("r ="))
                .hasSameHashCodeAs(Conformation.parse("r ="))
                .isEqualTo(Conformation.ofPosition(8, 1))
                .hasSameHashCodeAs(Conformation.ofPosition(8, 1))
                .isNotEqualTo(Conformation.parse("R"))
                .isNotEqualTo(Conformation.parse("R+"))
                .isNotEqualTo("R=");
        assertThat(Conformation.ofPosition(8, 0.5)).isNotEqualTo(Conformation.ofPosition(8, 0.25));
    }

    @Test
    void aWidthOfMinusZeroIsAWidthOfZero() {
        Conformation zero = Conformation.ofPosition(7.4, 0.0);
        Conformation minusZero = Conformation.ofPosition(7.4, -0.0);

        assertThat(minusZero).isEqualTo(zero).hasSameHashCodeAs(zero);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "X   | conformation \"X\" is none of S E U R O P",
                "``  | conformation \"\" is none of S E U R O P",
                "` ` | conformation \" \" is none of S E U R O P",
                "+   | conformation \"+\" is none of S E U R O P",
                "3+  | conformation \"3+\" is none of S E U R O P; a position on the 18-point scale belongs in conformation_points, in code in Conformation.ofPosition",
                "RR  | conformation \"RR\" is none of S E U R O P",
                "8   | conformation \"8\" is none of S E U R O P; a position on the 18-point scale belongs in conformation_points, in code in Conformation.ofPosition",
                "7.4 | conformation \"7.4\" is none of S E U R O P; a position on the 18-point scale belongs in conformation_points, in code in Conformation.ofPosition",
                "7,4 | conformation \"7,4\" is none of S E U R O P; a position on the 18-point scale belongs in conformation_points, in code in Conformation.ofPosition",
                "R++ | conformation \"R++\" has more than one sign",
                "r + -| conformation \"r + -\" has more than one sign",
                "-R- | conformation \"-R-\" has more than one sign",
                "-U  | conformation \"-U\" has its sign in front, which only the halves reading allows; valid under thirds: U- U= U+",
                "+U  | conformation \"+U\" has its sign in front, which only the halves reading allows; valid under thirds: U- U= U+",
                "R half | conformation \"R half\" is none of R+ R -R under the halves reading",
                "U-half | conformation \"U-half\" is none of U+ U -U under the halves reading",
                "19p | \"19p\": conformation position 19 is outside 1 to 18 points",
                "8 p width 4 | \"8 p width 4\": conformation width 4 is outside 0 to 3 points",
                "8p width | conformation \"8p width\" is none of S E U R O P",
                "=o  | conformation \"=o\" has its sign in front, which only the halves reading allows; valid under thirds: O- O= O+"
            })
    void whatIsNoGradeUnderThirdsIsRefusedInWords(String text, String message) {
        assertThatThrownBy(() -> Conformation.parse(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }

    @ParameterizedTest
    @CsvSource({
        "U-,conformation \"U-\" is none of U+ U -U under the halves reading",
        "U=,conformation \"U=\" is none of U+ U -U under the halves reading",
        "=U,conformation \"=U\" is none of U+ U -U under the halves reading",
        "+u,conformation \"+u\" is none of U+ U -U under the halves reading",
        "-U-,conformation \"-U-\" has more than one sign",
        "X,conformation \"X\" is none of S E U R O P"
    })
    void whatIsNoGradeUnderHalvesIsRefusedInWords(String text, String message) {
        assertThatThrownBy(() -> Conformation.parse(text, GradeReading.HALVES))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }

    @ParameterizedTest
    @CsvSource({
        "0.9,1,conformation position 0.9 is outside 1 to 18 points",
        "18.1,1,conformation position 18.1 is outside 1 to 18 points",
        "-3,1,conformation position -3 is outside 1 to 18 points",
        "NaN,1,conformation position NaN is outside 1 to 18 points",
        "Infinity,1,conformation position Infinity is outside 1 to 18 points",
        "8,-0.1,conformation width -0.1 is outside 0 to 3 points",
        "8,3.1,conformation width 3.1 is outside 0 to 3 points",
        "8,NaN,conformation width NaN is outside 0 to 3 points"
    })
    void aPositionOrWidthOffTheScaleIsRefusedWithItsLimits(double position, double width, String message) {
        assertThatThrownBy(() -> Conformation.ofPosition(position, width))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 19, -1, Integer.MAX_VALUE, Integer.MIN_VALUE})
    void aThirdOffTheScaleIsRefusedWithItsLimits(int position) {
        assertThatThrownBy(() -> Conformation.third(position))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("conformation position " + position + " is outside 1 to 18 points");
    }
}
