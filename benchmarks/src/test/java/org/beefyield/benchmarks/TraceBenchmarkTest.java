package org.beefyield.benchmarks;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class TraceBenchmarkTest {
    /** Five runs of 200 carcasses and 4,000 boxes. */
    @Test
    void everyBoxIsFoundFromTheCarcassesAndEveryCarcassFromTheBoxes() {
        TraceBenchmark benchmark = new TraceBenchmark();
        benchmark.draw();

        assertThat(benchmark.bothWays()).isEqualTo(5 * (4_000 + 200));
    }
}
