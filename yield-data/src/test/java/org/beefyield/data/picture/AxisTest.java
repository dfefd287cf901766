package org.beefyield.data.picture;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class AxisTest {
    @Test
    void figuresThatOnlyFloatingPointTellsApartAreOne() {
        Axis axis = Axis.rounded(7.402866792758495, 7.402866792758497, 5);
        assertThat(axis).isEqualTo(Axis.rounded(7.402866792758495, 7.402866792758495, 5));
        assertThat(axis.labels())
                .startsWith("6.0")
                .allSatisfy(label -> assertThat(label).hasSizeLessThan(4));
    }
}
