package org.beefyield.benchmarks.finish;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The committed results are complete and as demanded, and a sample drawn here agrees with them. */
class FinishStudyTest {
    /** Of samples: another one than that of the results. */
    private static final long SEED = 77;

    private static final Pattern COMMA = Pattern.compile(",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)");

    private static List<String[]> rows(String file) throws IOException {
        return Files.readAllLines(Path.of(file)).stream()
                .skip(1)
                .map(COMMA::split)
                .toList();
    }

    @Test
    void everySituationAndDayIsThereAndHoldsNinetyInAHundredWithinTwo() throws IOException {
        List<String[]> rows = rows("finish.csv");
        // two figures today, four on each other day, and the worth of three of the situations
        assertThat(rows).hasSize(FinishStudy.situations().size() * (2 + 3 * 4) + 3 * FinishStudy.DAYS.size());
        for (String[] row : rows) {
            assertThat(Double.parseDouble(row[3]))
                    .as(String.join(",", row))
                    .isBetween(Double.parseDouble(row[5]), Double.parseDouble(row[6]));
        }
        for (FinishStudy.Situation situation : FinishStudy.situations()) {
            assertThat(rows.stream()
                            .filter(row -> row[0].equals("\"" + situation.name() + "\"") && row[2].contains("90 %"))
                            .map(row -> Double.parseDouble(row[3])))
                    .hasSizeGreaterThanOrEqualTo(7)
                    .allMatch(held -> Math.abs(held - 0.9) <= 0.02);
        }
    }

    @Test
    void aSampleAgreesWithTheResults() {
        FinishStudy.Situation steers = FinishStudy.situations().get(2);
        assertThat(FinishStudy.coverage(steers, 42, 2_000, SEED)).allSatisfy(found -> {
            double beside = 3 * found.standardError();
            assertThat(found.value()).as(found.line()).isBetween(found.low() - beside, found.high() + beside);
        });
        FinishStudy.Finding worth = FinishStudy.worth(FinishStudy.situations().get(1), 14, 300, SEED);
        assertThat(worth.value()).as(worth.line()).isCloseTo(0.9, within(0.06));
    }

    @Test
    void publishedGroupsAreBesideOursAsTheyAreNow() throws IOException {
        List<String> now = Stream.concat(
                        Stream.of(Published.HEADER), Published.rows().stream().map(Published::line))
                .toList();
        assertThat(Files.readAllLines(Path.of("finish-published.csv"))).isEqualTo(now);
        assertThat(Published.rows().stream().filter(row -> row.group().startsWith("72 steers")))
                .allMatch(Published::isWithin);
        // whatever isn't within what was published says why
        assertThat(Published.rows().stream().filter(row -> Double.isNaN(row.published()) || !row.isWithin()))
                .allMatch(row -> !row.why().isEmpty());
        // by the kg the table's fat trim is less than dissected fat, by the days about as much, and why is said
        assertThat(Published.rows().stream().filter(row -> row.figure().startsWith("fat in ")))
                .hasSize(8)
                .allMatch(row -> !row.why().isEmpty() && row.ours() > 30 && row.ours() < 55)
                .filteredOn(row -> row.figure().endsWith("points a kg"))
                .allMatch(row -> row.ours() < row.published());
    }
}
