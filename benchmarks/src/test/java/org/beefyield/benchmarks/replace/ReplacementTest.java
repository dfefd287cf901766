package org.beefyield.benchmarks.replace;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.beefyield.benchmarks.replace.Replacement.Outcome;
import org.beefyield.benchmarks.replace.Replacement.Way;
import org.beefyield.data.table.TableReader;
import org.beefyield.data.table.TableWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** A sample of what {@code benchmarks/replace} counts, and the file of its results. */
class ReplacementTest {
    private static final Path RESULTS = Path.of("replace.csv");
    private static final int READS = 1500;
    private static final long LONGEST_NANOSECONDS = TimeUnit.SECONDS.toNanos(4);

    @TempDir
    Path scratch;

    @ParameterizedTest
    @EnumSource(Way.class)
    void aTableThatIsReadWhileItIsReplacedIsOneOfTheTwo(Way way) throws Exception {
        Outcome outcome = Replacement.read(way, scratch, READS, LONGEST_NANOSECONDS);

        assertThat(outcome.mixes()).isZero();
        assertThat(outcome.first()).isPositive();
        assertThat(outcome.other()).isPositive();
        assertThat(outcome.first() + outcome.other() + outcome.refused()).isEqualTo(outcome.reads());
        if (way.isNeverRefused()) {
            assertThat(outcome.refusals()).isEmpty();
        }

        // what is left of the writer, which was killed, goes with the next one
        if (way == Way.ZIP || way == Way.FOLDER) {
            Path place = scratch.resolve(way == Way.ZIP ? "hall.zip" : "hall");
            assertThat(TableReader.read(place)).isIn(Editions.both());
            TableWriter.write(Editions.both().get(0), place);
            try (Stream<Path> all = Files.list(scratch)) {
                assertThat(all.map(path -> path.getFileName().toString()))
                        .containsExactlyInAnyOrder(
                                "errors.txt", place.getFileName().toString());
            }
        }
    }

    @Test
    void theTwoDifferInEveryFile() throws IOException {
        List<Path> folders = new ArrayList<>();
        for (int i = 0; i < 2; i++) {
            folders.add(scratch.resolve("edition-" + i));
            TableWriter.write(Editions.both().get(i), folders.get(i));
        }
        try (Stream<Path> files = Files.list(folders.get(0))) {
            List<Path> all = files.toList();
            assertThat(all).hasSize(9);
            for (Path file : all) {
                assertThat(Files.mismatch(file, folders.get(1).resolve(file.getFileName())))
                        .as(file.getFileName().toString())
                        .isNotNegative();
            }
        }
    }

    @Test
    void theResultsAreThoseOfTenThousandReadingsEachWithoutAMix() throws IOException {
        List<String> lines = Files.readAllLines(RESULTS);

        assertThat(lines.get(0)).isEqualTo("replaced,reads,first,other,changes,refusals,mixes");
        assertThat(lines).hasSize(1 + Way.values().length);
        int line = 0;
        for (Way way : Way.values()) {
            String[] cells = lines.get(++line).replaceAll("\".*\",", "").split(",", -1);
            assertThat(cells[0]).isEqualTo("10000");
            assertThat(cells[5]).isEqualTo("0");
            if (way.isNeverRefused()) {
                assertThat(cells[4]).isEqualTo("0");
            }
        }
    }
}
