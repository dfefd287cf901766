package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.file.OutputFiles;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A table's writer in a virtual machine of its own that ends at once: before and after each renaming, and at any moment.
 * The table is the old one or the new one, and the next writer takes away what is left.
 */
class KilledWriterTest {
    private static final YieldTable OLD = table("1.0.0");
    private static final YieldTable NEW = table("2.0.0");
    private static final int KILLS = 8;

    @TempDir
    Path temporary;

    private static YieldTable table(String version) {
        TableRange range = new TableRange(new Range(7, 9), new Range(7, 8), new Range(250, 400));
        return YieldTable.of(TableDefinition.builder("killed", version)
                .levels("side")
                .ranges(range, range)
                .widthFit(1)
                .categories(Category.STEER)
                .cut(Cut.of("lean", "Lean", "side", CutKind.MEAT))
                .cut(Cut.of("bone", "Bone", "side", CutKind.BONE))
                .source(new SourceRow("guess", SourceKind.ASSUMPTION, "Invented", version))
                .row("*", "*", "carcass", "lean", 15, "guess", 800, 2)
                .row("*", "*", "carcass", "bone", 15, "guess", 200, -2)
                .build());
    }

    /** Writes the other table; its renamings are counted, and before or after one the machine ends. */
    public static final class Writer {
        private Writer() {}

        /**
         * Starts it.
         *
         * @param args the place, the renaming, and whether it is made before the end; or the place alone, over and over
         */
        public static void main(String[] args) {
            Path place = Path.of(args[0]);
            if (args.length == 1) {
                for (int i = 0; ; i++) {
                    TableWriter.write(i % 2 == 0 ? NEW : OLD, place);
                }
            }
            int[] count = {0};
            try (OutputFiles outputs = new OutputFiles((from, to) -> {
                boolean last = ++count[0] == Integer.parseInt(args[1]);
                if (last && args[2].equals("before")) {
                    Runtime.getRuntime().halt(9);
                }
                Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
                if (last) {
                    Runtime.getRuntime().halt(9);
                }
            })) {
                TableWriter.write(NEW, place, outputs);
                outputs.finish();
            }
        }
    }

    private static Process started(String... arguments) throws IOException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-XX:-UsePerfData",
                "-cp",
                System.getProperty("java.class.path"),
                Writer.class.getName()));
        command.addAll(List.of(arguments));
        return new ProcessBuilder(command)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
    }

    private List<String> names() throws IOException {
        try (Stream<Path> files = Files.list(temporary)) {
            return files.map(file -> file.getFileName().toString()).sorted().toList();
        }
    }

    @ParameterizedTest
    @CsvSource({
        "hall.zip, 1, before, old",
        "hall.zip, 1, after, new",
        "hall, 1, before, old",
        "hall, 1, after, old",
        "hall, 2, before, old",
        "hall, 2, after, new"
    })
    void aWriterThatEndsAtARenamingLeavesATableAndTheNextOneTakesAwayTheRest(
            String name, String renaming, String when, String which) throws Exception {
        Path place = temporary.resolve(name);
        TableWriter.write(OLD, place);

        Process writer = started(place.toString(), renaming, when);
        assertThat(writer.waitFor(1, TimeUnit.MINUTES)).isTrue();

        assertThat(writer.exitValue()).isEqualTo(9);
        assertThat(names()).as("what is left").hasSizeGreaterThan(1);
        assertThat(TableReader.read(place)).isEqualTo(which.equals("old") ? OLD : NEW);
        TableWriter.write(OLD, place);
        assertThat(names()).containsExactly(name);
        assertThat(TableReader.read(place)).isEqualTo(OLD);
    }

    @ParameterizedTest
    @ValueSource(strings = {"hall.zip", "hall"})
    void aWriterThatIsKilledAtAnyMomentDoesSoToo(String name) throws Exception {
        Path place = temporary.resolve(name);
        Random random = new Random(20261129);
        int left = 0;
        for (int i = 0; i < KILLS; i++) {
            TableWriter.write(OLD, place);
            Process writer = started(place.toString());
            // it is at work from here on
            for (int wait = 0; TableReader.read(place).equals(OLD) && wait < 1_000; wait++) {
                // each look reads a table
                Thread.sleep(10);
            }
            Thread.sleep(random.nextInt(40), random.nextInt(1_000_000));
            // few moments are in the middle of writing a zip: every other kill comes when a part is seen
            long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(10);
            while (i % 2 == 1 && names().size() == 1 && System.nanoTime() < end) {
                Thread.onSpinWait();
            }
            writer.destroyForcibly().waitFor();

            left += names().size() > 1 ? 1 : 0;
            assertThat(TableReader.read(place)).isIn(OLD, NEW);
            TableWriter.write(OLD, place);
            assertThat(names()).containsExactly(name);
        }
        assertThat(left).as("killed in the middle of writing").isPositive();
    }

    @Test
    void aWriterThatIsAliveKeepsItsParts() throws Exception {
        Path place = temporary.resolve("hall");
        TableWriter.write(OLD, place);
        Process writer = started(place.toString());
        try {
            for (int wait = 0; TableReader.read(place).equals(OLD) && wait < 1_000; wait++) {
                // each look reads a table
                Thread.sleep(10);
            }
            for (int i = 0; i < 20; i++) {
                TableWriter.write(OLD, temporary.resolve("other.zip"));
            }
            assertThat(writer.isAlive()).as("nothing was taken from under it").isTrue();
        } finally {
            writer.destroyForcibly().waitFor();
        }
        TableWriter.write(OLD, place);
        assertThat(names()).containsExactly("hall", "other.zip");
    }
}
