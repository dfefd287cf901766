package org.beefyield.data.command;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.beefyield.data.Outputs;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The command in a virtual machine of its own, killed at any moment, on a full disk, and twice at once: every output is as
 * it was or whole, and what is left beside goes. {@code -Dbeefyield.kills=200} kills it more often than 10 times.
 */
class KilledRunTest {
    private static final Path EXAMPLE = Path.of("examples/tarrowmere-2026-11.csv");
    private static final int KILLS = Integer.getInteger("beefyield.kills", 10);
    private static final int DISKS = 6;
    private static final int COPIES = 8;

    @TempDir
    Path folder;

    private Path large;
    private Path small;

    @BeforeEach
    void makeSheets() throws IOException {
        List<String> rows = Files.readAllLines(EXAMPLE);
        List<String> many = new ArrayList<>(List.of(rows.get(0)));
        for (int copy = 0; copy < COPIES; copy++) {
            for (String row : rows.subList(1, rows.size())) {
                many.add(copy + "-" + row);
            }
        }
        many.add("bad,2026-11-02,L01,Mere End,C,X,3=,340,20,yes");
        large = Files.write(folder.resolve("large.csv"), many);
        // a row of each supplier, so that both give the same files
        Set<String> suppliers = new LinkedHashSet<>();
        List<String> few = new ArrayList<>(List.of(rows.get(0)));
        rows.stream()
                .skip(1)
                .filter(row -> suppliers.add(row.split(",", -1)[3]))
                .forEach(few::add);
        small = Files.write(folder.resolve("small.csv"), few);
    }

    private List<String> arguments(Path sheet) {
        return List.of(
                "--killsheet",
                sheet.toString(),
                "--out",
                folder.resolve("out.csv").toString(),
                "--problems",
                folder.resolve("problems.csv.gz").toString(),
                "--feedback",
                folder.resolve("sheets").toString());
    }

    private static List<String> java(List<String> arguments) {
        List<String> command = new ArrayList<>(
                List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString()));
        command.addAll(List.of(
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-XX:-UsePerfData",
                "-cp",
                System.getProperty("java.class.path"),
                Main.class.getName()));
        command.addAll(arguments);
        return command;
    }

    private static ProcessBuilder child(List<String> command) {
        return new ProcessBuilder(command)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(ProcessBuilder.Redirect.DISCARD);
    }

    private static int end(Process process) throws InterruptedException {
        assertThat(process.waitFor(2, TimeUnit.MINUTES)).isTrue();
        return process.exitValue();
    }

    /** Every file in the folder but the two sheets, links and locks included. */
    private Map<String, String> outputs() throws IOException {
        Map<String, String> contents = new TreeMap<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path one : all.filter(Files::isRegularFile).toList()) {
                if (!one.equals(large) && !one.equals(small)) {
                    contents.put(folder.relativize(one).toString(), Files.readString(one, ISO_8859_1));
                }
            }
        }
        return contents;
    }

    private Map<String, String> runSmall() throws IOException {
        assertThat(Ran.with(arguments(small)).code()).isEqualTo(ExitCode.GOOD);
        return outputs();
    }

    private Map<String, String> runLarge() throws IOException {
        assertThat(Ran.with(arguments(large)).code()).isEqualTo(ExitCode.SOME_REFUSED);
        return outputs();
    }

    @Test
    void aRunThatIsKilledAtAnyMomentLeavesEveryFileAsItWasOrWhole() throws Exception {
        byte[] largeBefore = Files.readAllBytes(large);
        byte[] smallBefore = Files.readAllBytes(small);
        Map<String, String> whole = runLarge();
        Map<String, String> old = runSmall();
        assertThat(whole.keySet()).isEqualTo(old.keySet()).hasSize(2 + 1 + 2 * 5);

        long start = System.nanoTime();
        assertThat(end(child(java(arguments(large))).start())).isEqualTo(ExitCode.SOME_REFUSED);
        long took = System.nanoTime() - start;
        assertThat(outputs()).isEqualTo(whole);

        Random random = new Random(20261128);
        int killed = 0;
        int left = 0;
        int mixed = 0;
        for (int i = 0; i < KILLS; i++) {
            assertThat(runSmall()).isEqualTo(old);
            // every other one near the end, where files get their places
            double from = i % 2 == 0 ? 0 : 0.8;
            long moment = (long) (took * (from + (1.1 - from) * random.nextDouble()));
            Process process = child(java(arguments(large))).start();
            if (!process.waitFor(moment, TimeUnit.NANOSECONDS)) {
                killed++;
            }
            process.destroyForcibly().waitFor();

            Map<String, String> after = outputs();
            int replaced = 0;
            for (String name : old.keySet()) {
                assertThat(after.get(name)).as(name).isIn(old.get(name), whole.get(name));
                if (!after.get(name).equals(old.get(name))) {
                    replaced++;
                }
            }
            left += after.size() > old.size() ? 1 : 0;
            mixed += replaced > 0 && replaced < old.size() ? 1 : 0;
            assertThat(large).hasBinaryContent(largeBefore);
            assertThat(small).hasBinaryContent(smallBefore);
        }
        assertThat(runSmall()).isEqualTo(old);
        System.out.println(KILLS + " runs: " + killed + " killed before their end, " + left + " left parts behind, "
                + mixed + " had put some files in their places and not all");
        assertThat(killed).isPositive();
        assertThat(left).isPositive();
    }

    @Test
    void onADiskThatIsFullEveryFileIsAsItWasAndTheMessageNamesTheFileAndTheReason() throws Exception {
        assumeTrue(Files.isExecutable(Path.of("/bin/bash")));
        Map<String, String> whole = runLarge();
        long largest = whole.values().stream().mapToLong(String::length).max().orElseThrow();
        Map<String, String> old = runSmall();
        Random random = new Random(20261128);
        Path errors = Files.createTempFile("errors", ".txt");
        try {
            for (int i = 0; i < DISKS; i++) {
                // small ones too: sheets are but a few kilobytes
                long kilobytes = i % 3 == 0 ? random.nextInt(12) : random.nextLong(largest / 1024);
                List<String> command =
                        new ArrayList<>(List.of("/bin/bash", "-c", "ulimit -f " + kilobytes + "; exec \"$@\"", "bash"));
                command.addAll(java(arguments(large)));
                Process process = new ProcessBuilder(command)
                        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                        .redirectError(errors.toFile())
                        .start();

                assertThat(end(process)).as(kilobytes + " kB").isEqualTo(ExitCode.COULD_NOT_RUN);
                assertThat(Files.readString(errors, UTF_8))
                        .isEqualTo(folder.resolve("out.csv") + " can't be written: File too large\n");
                assertThat(outputs()).as(kilobytes + " kB").isEqualTo(old);
            }
        } finally {
            Files.delete(errors);
        }
    }

    @Test
    void ofTwoRunsAtOnceEveryFileIsWholeFromOneOfThem() throws Exception {
        Map<String, String> one = runSmall();
        Map<String, String> other = runLarge();
        for (int i = 0; i < 2; i++) {
            Process first = child(java(arguments(large))).start();
            Process second = child(java(arguments(small))).start();
            assertThat(end(first)).isEqualTo(ExitCode.SOME_REFUSED);
            assertThat(end(second)).isEqualTo(ExitCode.GOOD);

            Map<String, String> after = outputs();
            assertThat(after.keySet()).isEqualTo(one.keySet());
            after.forEach((name, content) -> assertThat(content).as(name).isIn(one.get(name), other.get(name)));
        }
    }

    @Test
    void whatARunThatIsAliveWritesIsLeftAloneByOtherProcesses() throws Exception {
        Path own = folder.resolve("own.csv");
        try (Outputs alive = new Outputs()) {
            alive.write(own, "own");
            // this process must not even read its own lock file: closing it would drop the lock
            assertThat(Ran.with(arguments(small)).code()).isEqualTo(ExitCode.GOOD);
            assertThat(end(child(java(arguments(small))).start())).isEqualTo(ExitCode.GOOD);
            alive.finish();
        }
        assertThat(own).hasContent("own");
        assertThat(outputs()).hasSize(1 + 2 + 1 + 2 * 5);
    }

    @Test
    void aStandardOutputThatIsFullEndsWithTwoAndOneLine() throws Exception {
        File full = new File("/dev/full");
        assumeTrue(full.exists());
        Path errors = Files.createTempFile("errors", ".txt");
        try {
            Process process = new ProcessBuilder(java(List.of("--killsheet", small.toString())))
                    .redirectOutput(full)
                    .redirectError(errors.toFile())
                    .start();
            assertThat(end(process)).isEqualTo(ExitCode.COULD_NOT_RUN);
            assertThat(Files.readString(errors, UTF_8))
                    .isEqualTo("standard output can't be written, so that what is printed there is not whole\n");
        } finally {
            Files.delete(errors);
        }
    }
}
