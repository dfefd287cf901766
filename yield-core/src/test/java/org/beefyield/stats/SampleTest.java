package org.beefyield.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class SampleTest {
    private static final double[] VALUES = {2, 4, 4, 7};

    @Test
    void meanAndSdAreThoseOfASample() {
        assertThat(Sample.mean(VALUES)).isEqualTo(4.25);
        assertThat(Sample.sd(VALUES)).isCloseTo(Math.sqrt(12.75 / 3), within(1e-15));
    }

    @Test
    void quantilesLieBetweenTheNumbersInProportion() {
        assertThat(Sample.quantile(VALUES, 0)).isEqualTo(2);
        assertThat(Sample.quantile(VALUES, 0.25)).isEqualTo(3.5);
        assertThat(Sample.quantile(VALUES, 0.5)).isEqualTo(4);
        assertThat(Sample.quantile(VALUES, 0.9)).isCloseTo(6.1, within(1e-12));
        assertThat(Sample.quantile(VALUES, 1)).isEqualTo(7);
    }

    @Test
    void ofTooFewNumbersTheFiguresAreNotNumbers() {
        assertThat(Sample.mean(new double[0])).isNaN();
        assertThat(Sample.sd(new double[] {1})).isNaN();
        assertThat(Sample.quantile(new double[0], 0.5)).isNaN();
    }

    @Test
    void aPartOutsideTheNumbersIsRefused() {
        assertThatThrownBy(() -> Sample.quantile(VALUES, 1.5))
                .hasMessage("the part 1.5 of a quantile is outside 0 to 1");
    }
}
