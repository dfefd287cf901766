package org.beefyield.benchmarks.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A sample of {@link ChanceStudy}, and whether its results are as stated. */
class ChanceStudyTest {
    /** Another one than the study's. */
    private static final long SEED = 11;

    private static final int DRAWS = 120;

    @Test
    void aSampleHoldsWhatIsStated() {
        List<ChanceStudy.Result> results = ChanceStudy.run(1, DRAWS, SEED);
        assertThat(results).hasSize(5).allSatisfy(result -> {
            // of one day's draws, beside what the study found to be off
            assertThat(result.held())
                    .as(result.order())
                    .isCloseTo(ChanceStudy.STATED, within(0.02 + 4 * result.standardError()));
            assertThat(result.met())
                    .as(result.order())
                    .isCloseTo(result.chance(), within(0.02 + 4 * Math.sqrt(0.25 / DRAWS)));
        });
    }

    @Test
    void resultsHoldNinetyInAHundredWithinTwo() throws IOException {
        List<String> lines = Files.readAllLines(Path.of("chances.csv"));
        assertThat(lines.get(0)).isEqualTo(ChanceStudy.Result.HEADER);
        assertThat(lines).hasSize(6);
        for (String line : lines.subList(1, lines.size())) {
            String[] cells = line.split(",", -1);
            assertThat(cells[7]).isEqualTo(Integer.toString(ChanceStudy.DAYS * ChanceStudy.DRAWS));
            assertThat(cells[8]).isEqualTo(Long.toString(ChanceStudy.SEED));
            double twoErrors = 2 * Double.parseDouble(cells[5]);
            assertThat(Double.parseDouble(cells[1])).as(line).isCloseTo(0.9, within(0.02 + twoErrors));
            assertThat(Double.parseDouble(cells[3])).as(line).isCloseTo(Double.parseDouble(cells[4]), within(0.02));
        }
    }
}
