package org.beefyield.text;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PlaceTest {
    @ParameterizedTest
    @CsvSource({
        "234, 10",
        "100, 10",
        "99.9, 1",
        "10, 1",
        "9.99, 0.1",
        "1, 0.1",
        "0.3, 0.01",
        "1234567, 100000",
        "1000, 100",
        "4e-7, 0.00000001"
    })
    void anSdJustifiesATenthOfThePlaceOfItsFirstDigit(double sd, String unit) {
        assertThat(Place.tenthOf(sd)).hasToString(unit);
    }

    @ParameterizedTest
    @CsvSource({"234, 100", "2, 1", "0.5, 0.1", "0.02, 0.01"})
    void aFigureIsSeenAtThePlaceOfItsFirstDigit(double figure, String unit) {
        assertThat(Place.of(figure)).hasToString(unit);
    }

    @ParameterizedTest
    @CsvSource({
        "234, 9427.3, 9430, 9420",
        "234, 4.9, 0, 0",
        "234, 5, 10, 0",
        "234, -3, 0, -10",
        "23, 9427.5, 9428, 9427",
        "2.3, 9427.35, 9427.4, 9427.3",
        "2300, 31, 0, 0",
        "2300, 49050, 49100, 49000"
    })
    void aFigureIsRoundedHalfUpToAPlaceOrDown(double sd, double value, String text, String atMost) {
        assertThat(Place.tenthOf(sd).text(value)).isEqualTo(text);
        assertThat(Place.tenthOf(sd).atMost(value)).isEqualTo(atMost);
    }

    @Test
    void partsAddUpToTheirWholeToTheTensAsToTheTenths() {
        // 14 + 24 + 62 = 100: rounded one by one to the tens they would add up to 90
        double[] parts = {14.5, 24.5, 61};
        assertThat(Place.tenthOf(100).adding(parts, 100)).containsExactly("20", "20", "60");
        assertThat(Place.tenthOf(1000).adding(parts, 100)).containsExactly("0", "0", "100");
        assertThat(Place.decimals(1).adding(parts, 100)).containsExactly("14.5", "24.5", "61.0");
        assertThatThrownBy(() -> Place.tenthOf(100).adding(parts, 120)).hasMessage("parts do not add up to 120.0");
    }

    @Test
    void theCoarserPlaceLiesFurtherLeftAndTheFinerFurtherRight() {
        Place tens = Place.tenthOf(100);
        Place tenths = Place.decimals(1);
        for (List<Place> both : List.of(List.of(tens, tenths), List.of(tenths, tens))) {
            assertThat(both.get(0).coarser(both.get(1))).isEqualTo(tens);
            assertThat(both.get(0).finer(both.get(1))).isEqualTo(tenths);
        }
        assertThat(tens).isNotEqualTo(tenths).isEqualTo(Place.of(10)).hasSameHashCodeAs(Place.of(10));
    }

    @Test
    void whatHasNoFirstDigitIsRefused() {
        assertThatThrownBy(() -> Place.tenthOf(0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("figure 0 has no first digit; one above 0 has");
        assertThatThrownBy(() -> Place.of(Double.NaN)).hasMessage("figure NaN has no first digit; one above 0 has");
        assertThatThrownBy(() -> Place.decimals(-1)).hasMessage("-1 decimals can't be printed; 0 or more can");
        assertThatThrownBy(() -> Place.decimals(0).atMost(Double.POSITIVE_INFINITY))
                .hasMessage("value: Infinity is not a finite number");
        assertThat(Place.tenthOf(100).text(Double.NaN)).isEqualTo("NaN");
    }
}
