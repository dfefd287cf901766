package org.beefyield.benchmarks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class RegressionBenchmarkTest {
    /** The rows are drawn with {@code (k + 1) / (10 + j)} and errors of 0.01 at most. */
    @Test
    void theLibrarysRegressionFindsTheCoefficientsThatTheRowsWereDrawnWith() {
        double[] coefficients = new RegressionBenchmark().coefficients();

        assertThat(coefficients).hasSize(RegressionBenchmark.RESPONSES * RegressionBenchmark.TERMS);
        for (int k = 0; k < RegressionBenchmark.RESPONSES; k++) {
            for (int j = 0; j < RegressionBenchmark.TERMS; j++) {
                assertThat(coefficients[k * RegressionBenchmark.TERMS + j])
                        .isCloseTo((k + 1) / (10.0 + j), within(1e-4));
            }
        }
    }
}
