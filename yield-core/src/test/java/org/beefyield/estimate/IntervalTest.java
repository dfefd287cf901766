package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class IntervalTest {
    @ParameterizedTest
    @CsvSource({
        "9, 3, 9.0 to 3.0",
        "NaN, 3, NaN to 3.0",
        "3, NaN, 3.0 to NaN",
        "Infinity, -Infinity, Infinity to -Infinity"
    })
    void endsThatDoNotAscendAreRefused(double low, double high, String said) {
        assertThatThrownBy(() -> new Interval(low, high, 0.9))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("interval from " + said + ": two ascending numbers are needed");
    }

    @ParameterizedTest
    @ValueSource(doubles = {7, 1, 0, -0.1, Double.NaN})
    void aProbabilityOutsideItsRangeIsRefused(double probability) {
        String message = "probability " + probability + " is outside 0 to 1 (both excluded)";
        assertThatThrownBy(() -> new Interval(3, 9, probability)).hasMessage(message);
        assertThatThrownBy(() -> Interval.normal(6, 1, probability)).hasMessage(message);
        assertThatThrownBy(() -> Interval.student(6, 1, 10, probability)).hasMessage(message);
    }

    @ParameterizedTest
    @ValueSource(doubles = {-1, Double.NaN, Double.POSITIVE_INFINITY})
    void anSdThatIsNoneIsRefused(double sd) {
        assertThatThrownBy(() -> Interval.normal(6, sd, 0.9))
                .hasMessage("SD " + sd + " of an interval is not a finite number of 0 or more");
    }

    @Test
    void anIntervalOfOnePointIsOne() {
        assertThat(Interval.normal(6, 0, 0.9))
                .isEqualTo(new Interval(6, 6, 0.9))
                .hasToString("6.00 to 6.00 (90 %)");
    }

    /** An SD of 10.1 is worth ones, of 2.3 tenths, of 234 tens; money is whole or has all of its decimals. */
    @Test
    void endsArePrintedToATenthOfTheFirstDigitOfTheSd() {
        assertThat(Interval.normal(99, 10.1, 0.9).place(2).text(82.4)).isEqualTo("82");
        assertThat(Interval.normal(99, 2.3, 0.9).place(2).text(95.23)).isEqualTo("95.2");
        assertThat(Interval.normal(99, 2.3, 0.5).place(2).text(95.23)).isEqualTo("95.2");
        assertThat(Interval.normal(4567, 234, 0.9).place(2).text(4182.1)).isEqualTo("4180");
        assertThat(Interval.normal(99, 0.001, 0.9).place(2).text(95.234)).isEqualTo("95.23");
        assertThat(Interval.normal(99, 0, 0.9).place(2).text(99)).isEqualTo("99.00");
        assertThat(Interval.normal(99, 2.3, 0.9).placeOfMoney(2).text(95.23)).isEqualTo("95.23");
        assertThat(Interval.normal(99, 10.1, 0.9).placeOfMoney(2).text(82.4)).isEqualTo("82");
    }
}
