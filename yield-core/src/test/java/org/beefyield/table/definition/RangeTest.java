package org.beefyield.table.definition;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RangeTest {
    @Test
    void bothEndsLieInside() {
        Range range = new Range(3, 13);
        assertThat(range.contains(3)).isTrue();
        assertThat(range.contains(13)).isTrue();
        assertThat(range.contains(Math.nextDown(3.0))).isFalse();
        assertThat(range.contains(Math.nextUp(13.0))).isFalse();
        assertThat(range.contains(Double.NaN)).isFalse();
    }

    @Test
    void theDistanceIsToTheNearerEnd() {
        Range range = new Range(3, 13);
        assertThat(range.distance(1)).isEqualTo(2);
        assertThat(range.distance(14.5)).isEqualTo(1.5);
        assertThat(range.distance(3)).isZero();
        assertThat(range.distance(8)).isZero();
    }

    @Test
    void itPrintsWithoutExponentsOrIdleZeros() {
        assertThat(new Range(0, 1e7)).hasToString("0 to 10000000");
        assertThat(new Range(-0.0, 0.125)).hasToString("0 to 0.125");
    }

    @ParameterizedTest
    @CsvSource({
        "5, 3, range 5.0 to 3.0 is not two finite ascending numbers",
        "NaN, 3, range NaN to 3.0 is not two finite ascending numbers",
        "3, NaN, range 3.0 to NaN is not two finite ascending numbers",
        "-Infinity, 3, range -Infinity to 3.0 is not two finite ascending numbers",
        "3, Infinity, range 3.0 to Infinity is not two finite ascending numbers"
    })
    void endsThatAreNoRangeAreRefused(double low, double high, String message) {
        assertThatThrownBy(() -> new Range(low, high))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }

    @Test
    void aSinglePointIsARange() {
        assertThat(new Range(4, 4).contains(4)).isTrue();
    }
}
