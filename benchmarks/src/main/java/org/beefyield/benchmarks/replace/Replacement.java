package org.beefyield.benchmarks.replace;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.table.TableReader;
import org.beefyield.data.table.TableWriter;
import org.beefyield.table.YieldTable;

/**
 * Reads a table while another process replaces it by turns with two editions, as fast as both can, and counts what came
 * out: either edition, a refusal, or a mix of both, which would be neither.
 *
 * <p>Run: {@code benchmarks/replace}, which writes {@code benchmarks/replace.csv}, or {@code java -cp
 * benchmarks/target/benchmarks.jar org.beefyield.benchmarks.replace.Replacement FILE READS}. Exit code 0: no mix, and no
 * refusal where none is promised; 1: there was one.
 */
public final class Replacement {
    /** How the table is replaced. */
    public enum Way {
        /** The writer replaces a zip file. */
        ZIP("zip, by the library"),
        /** The writer replaces a folder. */
        FOLDER("folder, by the library"),
        /** A folder whose descriptor has no digest is renamed away and another one to its name, as by hand. */
        RENAMED("folder, renamed by hand, without digest"),
        /** Files are copied over those of the folder, one by one, as by hand. */
        COPIED("folder, file by file by hand, with digest");

        private final String words;

        Way(String words) {
            this.words = words;
        }

        /**
         * Whether no reading may be refused.
         *
         * @return true if the library replaces it
         */
        public boolean isNeverRefused() {
            return this == ZIP || this == FOLDER;
        }
    }

    /**
     * What came out.
     *
     * @param way how the table was replaced
     * @param reads readings
     * @param first those that gave the first edition
     * @param other those that gave the other one
     * @param mixes those that gave neither
     * @param changes how often a reading gave another edition than the one before it
     * @param refusals how often each message stood in the place of a table
     */
    public record Outcome(
            Way way, long reads, long first, long other, long mixes, long changes, Map<String, Long> refusals) {
        /**
         * Readings that gave no table.
         *
         * @return their number
         */
        public long refused() {
            return refusals.values().stream().mapToLong(Long::longValue).sum();
        }
    }

    private Replacement() {}

    /**
     * Reads, or, if the first argument is a way, replaces until it is killed.
     *
     * @param args the file of results and the number of readings of each way; or a way and the table's place
     * @throws IOException if a file can't be written
     * @throws InterruptedException if waiting is interrupted
     */
    public static void main(String[] args) throws IOException, InterruptedException {
        for (Way way : Way.values()) {
            if (args[0].equals(way.name())) {
                replaceForEver(way, Path.of(args[1]));
            }
        }
        Path scratch = Files.createTempDirectory("replace");
        StringBuilder csv = new StringBuilder("replaced,reads,first,other,changes,refusals,mixes\n");
        boolean good = true;
        for (Way way : Way.values()) {
            Outcome outcome = read(way, scratch, Long.parseLong(args[1]), Long.MAX_VALUE);
            csv.append('"').append(way.words).append('"');
            for (long count : List.of(
                    outcome.reads(),
                    outcome.first(),
                    outcome.other(),
                    outcome.changes(),
                    outcome.refused(),
                    outcome.mixes())) {
                csv.append(',').append(count);
            }
            csv.append('\n');
            outcome.refusals().forEach((message, count) -> System.out.println(count + " x " + message));
            good &= outcome.mixes() == 0 && !(way.isNeverRefused() && outcome.refused() > 0);
        }
        delete(scratch);
        System.out.print(csv);
        Files.writeString(Path.of(args[0]), csv);
        System.exit(good ? 0 : 1);
    }

    /**
     * Reads a table while a process of its own replaces it.
     *
     * @param way how it is replaced
     * @param scratch an empty folder
     * @param reads how often it is read
     * @param nanoseconds when reading ends in any case
     * @return what came out
     * @throws IOException if the table or the process can't be started
     * @throws InterruptedException if waiting is interrupted
     */
    public static Outcome read(Way way, Path scratch, long reads, long nanoseconds)
            throws IOException, InterruptedException {
        List<YieldTable> editions = Editions.both();
        Path place = scratch.resolve(way == Way.ZIP ? "hall.zip" : "hall");
        Path errors = scratch.resolve("errors.txt");
        put(way, editions.get(0), place, scratch.resolve("first"));
        Process writer = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-XX:TieredStopAtLevel=1",
                        "-cp",
                        System.getProperty("java.class.path"),
                        Replacement.class.getName(),
                        way.name(),
                        place.toString())
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(errors.toFile())
                .start();
        long[] counts = new long[3];
        long changes = 0;
        long done = 0;
        int last = -1;
        Map<String, Long> refusals = new TreeMap<>();
        try {
            awaitTheOther(way, place, editions.get(1));
            long start = System.nanoTime();
            for (; done < reads && System.nanoTime() - start < nanoseconds; done++) {
                try {
                    int which = editions.indexOf(TableReader.read(place));
                    counts[which < 0 ? 2 : which]++;
                    changes += last >= 0 && which != last ? 1 : 0;
                    last = which;
                } catch (InvalidDataException e) {
                    // digests differ from reading to reading
                    String message = String.valueOf(e.getMessage())
                            .replace(scratch.toString(), "")
                            .replaceAll("[0-9a-f]{64}", "...");
                    refusals.merge(message, 1L, Long::sum);
                }
            }
            if (!writer.isAlive()) {
                throw new IOException("the writer ended: " + Files.readString(errors));
            }
        } finally {
            writer.destroyForcibly().waitFor();
        }
        return new Outcome(way, done, counts[0], counts[1], counts[2], changes, refusals);
    }

    /** Waits until the writer is at work. */
    private static void awaitTheOther(Way way, Path place, YieldTable other) throws InterruptedException, IOException {
        long start = System.nanoTime();
        while (System.nanoTime() - start < TimeUnit.MINUTES.toNanos(1)) {
            try {
                if (TableReader.read(place).equals(other)) {
                    return;
                }
            } catch (InvalidDataException e) {
                // it is at work, too
                return;
            }
            Thread.sleep(1);
        }
        throw new IOException("nothing replaces the table by way of " + way);
    }

    private static void replaceForEver(Way way, Path place) throws IOException {
        List<YieldTable> editions = Editions.both();
        for (int i = 1; ; i++) {
            put(way, editions.get(i % 2), place, place.resolveSibling("next"));
        }
    }

    private static void put(Way way, YieldTable table, Path place, Path beside) throws IOException {
        if (way == Way.ZIP || way == Way.FOLDER) {
            TableWriter.write(table, place);
            return;
        }
        TableWriter.write(table, beside);
        if (way == Way.COPIED) {
            Files.createDirectories(place);
            for (Path file : files(beside)) {
                Files.copy(file, place.resolve(file.getFileName()), StandardCopyOption.REPLACE_EXISTING);
            }
            return;
        }
        Path descriptor = beside.resolve("datapackage.json");
        Files.writeString(
                descriptor,
                Files.readString(descriptor, StandardCharsets.UTF_8)
                        .replaceFirst(",\\s*\"digest\": \"[0-9a-f]+\"", ""));
        Path away = place.resolveSibling("away");
        if (Files.exists(place)) {
            Files.move(place, away);
        }
        Files.move(beside, place);
        delete(away);
    }

    private static List<Path> files(Path folder) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.sorted().toList();
        }
    }

    private static void delete(Path path) {
        if (Files.exists(path)) {
            try (Stream<Path> all = Files.walk(path)) {
                for (Path one :
                        new ArrayList<>(all.sorted(Comparator.reverseOrder()).toList())) {
                    Files.delete(one);
                }
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}
