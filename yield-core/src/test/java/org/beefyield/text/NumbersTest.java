package org.beefyield.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NumbersTest {
    @ParameterizedTest
    @CsvSource({
        "0.125, 2, 0.13",
        "-0.125, 2, -0.13",
        "2.5, 0, 3",
        "-0.04, 1, 0.0",
        "1e12, 1, 1000000000000.0",
        "1.005, 2, 1.01",
        "0.00000005, 7, 0.0000001"
    })
    void fixedDecimalsAreRoundedHalfUpAsTheyStand(double value, int decimals, String text) {
        assertThat(Numbers.fixed(value, decimals)).isEqualTo(text);
    }

    @ParameterizedTest
    @CsvSource({"0.125, 2, +0.13", "-0.125, 2, -0.13", "0, 1, +0.0", "-0.0, 1, +0.0", "-0.04, 1, -0.0"})
    void aSignedNumberAlwaysHasItsSign(double value, int decimals, String text) {
        assertThat(Numbers.signed(value, decimals)).isEqualTo(text);
    }

    @ParameterizedTest
    @CsvSource({
        "0.25, 0.25",
        "340, 340",
        "-0.0, 0",
        "1e10, 10000000000",
        "1.5e-7, 0.00000015",
        "0.1, 0.1",
        "NaN, NaN",
        "Infinity, Infinity"
    })
    void anExactNumberHasAllDecimalsAndNoExponent(double value, String text) {
        assertThat(Numbers.exact(value)).isEqualTo(text);
    }

    @Test
    void anExactDecimalHasNoZerosAtItsEnd() {
        assertThat(Numbers.exact(new BigDecimal("4.50"))).isEqualTo("4.5");
        assertThat(Numbers.exact(new BigDecimal("1E+3"))).isEqualTo("1000");
        assertThat(Numbers.exact(new BigDecimal("0.000"))).isEqualTo("0");
    }

    @ParameterizedTest
    @CsvSource({"4.1235, 3, 4.124", "4.1, 3, 4.1", "-0.0004, 3, 0", "20, 1, 20", "19.96, 1, 20", "NaN, 1, NaN"})
    void aNumberUpToSomeDecimalsHasNoMoreThanItNeeds(double value, int decimals, String text) {
        assertThat(Numbers.upTo(value, decimals)).isEqualTo(text);
    }

    @ParameterizedTest
    @CsvSource({"342.5, 342.5", "0.0004, 0", "0.0005, 0.001", "-2.30004, -2.3", "Infinity, Infinity"})
    void aSentenceSaysThreeDecimalsAtMost(double value, String text) {
        assertThat(Numbers.brief(value)).isEqualTo(text);
    }

    @ParameterizedTest
    @CsvSource({"0.0041, 1, 0.004", "90.00000000000001, 6, 90", "123456, 2, 120000", "0, 3, 0", "NaN, 3, NaN"})
    void significantDigitsAreCountedFromTheFirst(double value, int digits, String text) {
        assertThat(Numbers.digits(value, digits)).isEqualTo(text);
    }

    @ParameterizedTest
    @CsvSource({"0.29, 29", "0.125, 12.5", "0, 0", "1, 100", "NaN, NaN"})
    void aFractionAsPerCentIsExactWhereItsProductWouldNotBe(double fraction, String text) {
        assertThat(Numbers.percent(fraction)).isEqualTo(text);
    }

    @Test
    void aFractionAsPerCentCanHaveFixedDecimals() {
        assertThat(Numbers.percent(0.12345, 1)).isEqualTo("12.3");
    }

    @ParameterizedTest
    @CsvSource({"0.25, 0.250", "-25.4791, -25.479", "0.001, 0.001", "0.00041, 0.000410", "0.000041, 4.10e-05"})
    void whatHardlyShowsIsWrittenWithThreeDigits(double value, String text) {
        assertThat(Numbers.visible(value)).isEqualTo(text);
    }

    @Test
    void runsOfPlacesAreDrawnTogether() {
        assertThat(Numbers.places("line", List.of())).isEmpty();
        assertThat(Numbers.places("row", List.of(9L))).isEqualTo(" (row 9)");
        assertThat(Numbers.places("line", List.of(2L, 3L))).isEqualTo(" (lines 2, 3)");
        assertThat(Numbers.places("line", List.of(2L, 3L, 4L, 5L, 8L, 9L, 12L))).isEqualTo(" (lines 2 to 5, 8, 9, 12)");
    }
}
