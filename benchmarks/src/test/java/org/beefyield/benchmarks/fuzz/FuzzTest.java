package org.beefyield.benchmarks.fuzz;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FuzzTest {
    private static final long SEED = 20_261_103;
    private static final int CASES = 4_000;

    @TempDir
    Path scratch;

    @Test
    void everythingHoldsInThousandsOfCases() throws IOException {
        List<Fuzz> halves = new ArrayList<>();
        for (String half : List.of("one", "other")) {
            halves.add(new Fuzz(SEED, Files.createDirectory(scratch.resolve(half))));
        }
        IntStream.range(0, 2).parallel().forEach(half -> halves.get(half).run(half * CASES / 2, CASES / 2));

        // a failure prints seed and case: FuzzMain --seed S --from CASE --cases 1 runs it alone
        assertThat(halves).flatMap(Fuzz::failures).isEmpty();
        Map<String, Long> outcomes = new TreeMap<>();
        halves.forEach(half -> half.outcomes().forEach((outcome, count) -> outcomes.merge(outcome, count, Long::sum)));
        assertThat(outcomes.values().stream().mapToLong(Long::longValue).sum()).isEqualTo(CASES);
        // mutants that are all refused at the door, or all let in, would test little
        for (String outcome : List.of("package read", "package refused", "sheet read", "sheet refused")) {
            assertThat(outcomes.getOrDefault(outcome, 0L)).as(outcome).isGreaterThan(200L);
        }
        for (String outcome : List.of("zip read", "zip refused")) {
            assertThat(outcomes.getOrDefault(outcome, 0L)).as(outcome).isGreaterThan(10L);
        }
    }

    @Test
    void aCaseAloneIsTheSameAsInItsRow() throws IOException {
        Fuzz row = new Fuzz(7, scratch);
        row.run(0, 100);
        Fuzz alone = new Fuzz(7, scratch);
        for (int number = 99; number >= 0; number--) {
            alone.run(number, 1);
        }

        assertThat(alone.outcomes()).isEqualTo(row.outcomes()).hasSizeGreaterThan(3);
    }
}
