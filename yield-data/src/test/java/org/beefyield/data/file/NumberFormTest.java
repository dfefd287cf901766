package org.beefyield.data.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class NumberFormTest {
    @Test
    void plainDecimalsAreRead() {
        assertThat(NumberForm.POINT.parse("-12.5")).isEqualTo(-12.5);
        assertThat(NumberForm.POINT.parse(" 342 ")).isEqualTo(342);
        assertThat(NumberForm.POINT.parse("0.1")).isEqualTo(0.1);
        assertThat(NumberForm.COMMA.parse("342,5")).isEqualTo(342.5);
        assertThat(NumberForm.COMMA.parse("-0,25")).isEqualTo(-0.25);
        assertThat(NumberForm.POINT_OR_EXPONENT.parse("342.5")).isEqualTo(342.5);
    }

    @Test
    void minusZeroIsZero() {
        assertThat(Double.doubleToRawLongBits(NumberForm.POINT.parse("-0.0"))).isZero();
    }

    @ParameterizedTest
    @ValueSource(doubles = {1e-3, 1.0E-5, 4.9e-324, Double.MAX_VALUE, -1.2345678901234566E-7, 0, 0.1})
    void theShortestTextOfADoubleIsReadBackWhereAnExponentIsAllowed(double number) {
        assertThat(NumberForm.POINT_OR_EXPONENT.parse(Double.toString(number))).isEqualTo(number);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "NaN",
                "Infinity",
                "-Infinity",
                "0x1F",
                "0x1p3",
                "1e3",
                "1,234.5",
                "1,234,567",
                "1'234",
                "1 234",
                "+5",
                ".5",
                "5.",
                "12.5d",
                "12f",
                "--1",
                "342.5 kg",
                "\u0663\u0664",
                "1e999"
            })
    void whatIsNoPlainDecimalIsRefused(String text) {
        assertThatThrownBy(() -> NumberForm.POINT.parse(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("\"" + text + "\" is not a plain number such as 342.5");
    }

    @Test
    void aDecimalCommaThatIsNotDeclaredIsRefusedWithItsDeclaration() {
        assertThatThrownBy(() -> NumberForm.POINT.parse("342,5"))
                .hasMessage(
                        "\"342,5\" is not a plain number such as 342.5; if its comma is a decimal comma, declare it:"
                                + " CsvForm.builder().decimalComma(), --decimal-comma");
        assertThatThrownBy(() -> NumberForm.TABLE.parse("342,5"))
                .hasMessage("\"342,5\" is not a plain number such as 342.5; a table has decimal points: save the file"
                        + " with them, or declare \"decimalChar\": \",\" of the field in datapackage.json");
    }

    @Test
    void aDecimalPointIsRefusedWhereTheDecimalCommaIsDeclared() {
        assertThatThrownBy(() -> NumberForm.COMMA.parse("342.5"))
                .hasMessage("\"342.5\" is not a plain number such as 342,5; the decimal comma is declared");
        assertThatThrownBy(() -> NumberForm.COMMA.parse("1.342,5"))
                .hasMessage("\"1.342,5\" is not a plain number such as 342,5");
    }

    @ParameterizedTest
    @ValueSource(strings = {"1e999", "-1e999", "1e-999", "0.01e-330"})
    void aNumberThatNoDoubleComesNearIsRefused(String text) {
        assertThatThrownBy(() -> NumberForm.POINT_OR_EXPONENT.parse(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("\"" + text + "\" is beyond the range of numbers, 1e-323 to 1e308 in size");
    }

    @Test
    void zeroWithAnExponentIsZero() {
        assertThat(NumberForm.POINT_OR_EXPONENT.parse("0.0e-5")).isZero();
    }
}
