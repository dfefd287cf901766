package org.beefyield.text;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class RoundingTest {
    @ParameterizedTest
    @CsvSource({
        "342,1,342.0",
        "342.25,1,342.3",
        "1.005,2,1.01",
        "0.0005,3,0.001",
        "0.00049999,3,0.000",
        "-0.0005,3,-0.001",
        "-0.0004,3,0.000",
        "-0.0,2,0.00",
        "2.5,0,3",
        "1234567.891,1,1234567.9",
        "1.0E-9,3,0.000",
        "0,7,0.0000000",
        "1.0E21,0,1000000000000000000000"
    })
    void aFigureHasItsDecimalsAndRoundsHalvesAwayFromZero(double value, int decimals, String text) {
        assertThat(Numbers.fixed(value, decimals)).isEqualTo(text);
    }

    static Stream<Arguments> partsThatAddUp() {
        return Stream.of(
                // rounded one by one these would add up to 99.9
                Arguments.of(new double[] {33.3333, 33.3333, 33.3334}, 100, 1, new String[] {"33.3", "33.3", "33.4"}),
                // rounded one by one these would add up to 3
                Arguments.of(new double[] {0.5, 0.5, 1}, 2, 0, new String[] {"1", "0", "1"}),
                // a tie goes to the earlier part
                Arguments.of(new double[] {1.25, 2.25, 3.5}, 7, 1, new String[] {"1.3", "2.2", "3.5"}),
                Arguments.of(new double[] {0.1005, 0.2005, 0.3}, 0.601, 3, new String[] {"0.101", "0.200", "0.300"}),
                // the largest remainder wins over an earlier part
                Arguments.of(new double[] {1.1, 1.2, 1.7}, 4, 0, new String[] {"1", "1", "2"}),
                Arguments.of(new double[] {0.4, 0.4, 0.2}, 1, 0, new String[] {"1", "0", "0"}),
                // a cut that isn't there prints as zero, whatever the noise of its sum
                Arguments.of(new double[] {-1e-17, 1.0}, 1, 3, new String[] {"0.000", "1.000"}),
                Arguments.of(new double[] {0.3335, -1e-17, 0.6665}, 1, 3, new String[] {"0.334", "0.000", "0.666"}),
                Arguments.of(new double[] {1e-17, 0.3335, 0.6665}, 1, 3, new String[] {"0.000", "0.334", "0.666"}),
                Arguments.of(new double[] {-0.0, 2.0}, 2, 1, new String[] {"0.0", "2.0"}),
                // noise in the whole: 0.1 + 0.2 is 0.30000000000000004
                Arguments.of(new double[] {0.1, 0.2}, 0.1 + 0.2, 1, new String[] {"0.1", "0.2"}),
                // negative parts
                Arguments.of(new double[] {-0.25, 1.25}, 1, 1, new String[] {"-0.2", "1.2"}),
                Arguments.of(new double[] {-0.9, 1.9}, 1, 0, new String[] {"-1", "2"}),
                Arguments.of(new double[] {-0.9, -0.9, 2.8}, 1, 0, new String[] {"-1", "-1", "3"}),
                // never an exponent
                Arguments.of(new double[] {0, 1}, 1, 7, new String[] {"0.0000000", "1.0000000"}),
                Arguments.of(new double[] {342.0}, 342, 2, new String[] {"342.00"}),
                Arguments.of(new double[] {}, 0, 1, new String[] {}));
    }

    @ParameterizedTest
    @MethodSource("partsThatAddUp")
    void partsAddUpToTheRoundedWholeByLargestRemainder(double[] parts, double whole, int decimals, String[] printed) {
        assertThat(Rounding.adding(parts, whole, decimals)).containsExactly(printed);
    }

    static Stream<Arguments> partsThatDoNotAddUp() {
        return Stream.of(
                Arguments.of(new double[] {1, 1}, 3.0, 1, "parts do not add up to 3.0"),
                Arguments.of(new double[] {1, 1}, 1.5, 1, "parts do not add up to 1.5"),
                Arguments.of(new double[] {}, 5.0, 0, "parts do not add up to 5.0"),
                // the remainders would hide a difference of nearly three units
                Arguments.of(new double[] {0.9, 0.9, 0.9}, 0.0, 0, "parts do not add up to 0.0"),
                Arguments.of(new double[] {1.0, 1.0, 1.0}, 6.0, 0, "parts do not add up to 6.0"),
                // more units than an int can count
                Arguments.of(new double[] {0}, 1e12, 3, "parts do not add up to 1.0E12"));
    }

    @ParameterizedTest
    @MethodSource("partsThatDoNotAddUp")
    void partsThatDoNotAddUpAreRefused(double[] parts, double whole, int decimals, String message) {
        assertThatThrownBy(() -> Rounding.adding(parts, whole, decimals))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }

    @Test
    void theCallersPartsAreLeftAlone() {
        double[] parts = {0.4, 0.4, 0.2};

        assertThat(Rounding.adding(parts, 1, 0)).hasSize(3);
        assertThat(parts).containsExactly(0.4, 0.4, 0.2);
    }

    @Test
    void whatIsWholeUnitsStaysAsItIsWhenATableIsRoundedBothWays() {
        List<List<BigDecimal>> rounded =
                Rounding.addingBothWays(new double[][] {{0.333, 0, 0.3}, {0.333, 5, 0.334}}, new BigDecimal("6.3"));
        assertThat(texts(rounded))
                .containsExactly(
                        List.of("0.3", "0.0", "0.3", "0.6"),
                        List.of("0.3", "5.0", "0.4", "5.7"),
                        List.of("0.6", "5.0", "0.7", "6.3"));
    }

    private static List<List<String>> texts(List<List<BigDecimal>> rows) {
        return rows.stream()
                .map(row -> row.stream().map(BigDecimal::toPlainString).toList())
                .toList();
    }

    @Test
    void figuresAreWhatIsPrinted() {
        double[] parts = {0.4, 0.4, 0.2};
        assertThat(Rounding.figuresAdding(parts, 1, 2))
                .extracting(BigDecimal::toPlainString)
                .isEqualTo(Rounding.adding(parts, 1, 2))
                .containsExactly("0.40", "0.40", "0.20");
        // two that are as far from whole units are told apart by their decimals
        assertThat(Rounding.figuresAdding(new double[] {0.5, 0.5}, 1, 0))
                .extracting(BigDecimal::toPlainString)
                .isEqualTo(Rounding.adding(new double[] {0.5, 0.5}, 1, 0))
                .containsExactly("1", "0");
    }

    /** A half rounded up less one rounded down is a whole unit, and the parts come with the noise of their sums. */
    @Test
    void aWholeThatIsAUnitOffIsAddedUpToWhateverTheNoise() {
        assertThat(texts(Rounding.addingBothWays(new double[][] {{1, 2 - 8e-9}}, new BigDecimal("3.01"))))
                .containsExactly(List.of("1.00", "2.01", "3.01"), List.of("1.00", "2.01", "3.01"));
    }

    @Test
    void aTableThatDoesNotAddUpIsRefused() {
        assertThatThrownBy(() -> Rounding.addingBothWays(new double[][] {{1, 2}}, new BigDecimal("3.02")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("parts do not add up to 3.02");
    }
}
