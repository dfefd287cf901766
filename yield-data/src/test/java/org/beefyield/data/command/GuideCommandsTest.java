package org.beefyield.data.command;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.beefyield.data.samples.OpenTrials;
import org.beefyield.data.table.TableWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Does what the guide says, word by word: runs the commands of its {@code console} blocks one after the other in an empty folder
 * that holds the examples, edits the cells that it names, writes the files that it shows, and holds each line behind a command to
 * what was printed. A line of {@code ...} stands for any lines.
 */
class GuideCommandsTest {
    private static final Path GUIDE = Path.of("GUIDE.md");

    private static final Pattern STEP = Pattern.compile(
            "```console\n(?<console>.*?)```"
                    + "|```csv (?<file>\\S+)\n(?<content>.*?)```"
                    + "|- in `(?<edited>[^`]+)`, row `(?<row>[^`]+)`, column `(?<column>[^`]+)`: `(?<from>[^`]+)` becomes `(?<to>[^`]+)`",
            Pattern.DOTALL);

    @TempDir
    Path folder;

    private int commands;
    private int edits;

    @Test
    void everyCommandPrintsWhatStandsBehindIt() throws IOException, InterruptedException {
        for (String example : List.of(
                "tarrowmere-2026-11.csv",
                "tarrowmere-prices.csv",
                "tarrowmere-windows.csv",
                "tarrowmere-trials.csv",
                "tarrowmere-pen.csv",
                "tarrowmere-costs.csv",
                "tarrowmere-grid.csv",
                "tarrowmere-market.csv")) {
            Files.copy(Path.of("examples", example), folder.resolve(example));
        }
        Files.createDirectory(folder.resolve("season"));
        for (String file : List.of("intake.csv", "boxes.csv", "products.csv", "rest.csv")) {
            Path part = Path.of("season", file);
            Files.copy(Path.of("examples").resolve(part), folder.resolve(part));
        }
        Files.createDirectory(folder.resolve("plan"));
        for (String file : List.of("chill.csv", "orders.csv", "stock.csv", "labour.csv", "market.csv")) {
            Path part = Path.of("plan", file);
            Files.copy(Path.of("examples").resolve(part), folder.resolve(part));
        }
        Path open = Path.of("open-trials");
        Files.createDirectory(folder.resolve(open));
        for (String file : List.of(OpenTrials.FILE, OpenTrials.LAYOUT)) {
            Files.copy(
                    Path.of("examples").resolve(open).resolve(file),
                    folder.resolve(open).resolve(file));
        }
        TableWriter.write(OpenTrials.table(), folder.resolve(open).resolve(OpenTrials.TABLE));
        Matcher step = STEP.matcher(Files.readString(GUIDE));
        while (step.find()) {
            if (step.group("console") != null) {
                console(step.group("console"));
            } else if (step.group("file") != null) {
                Files.writeString(folder.resolve(step.group("file")), step.group("content"));
            } else {
                edit(step);
            }
        }
        assertThat(commands).isGreaterThanOrEqualTo(8);
        assertThat(edits).isEqualTo(2);
    }

    /** Commands, each behind a dollar sign, and what they print. */
    private void console(String block) throws IOException, InterruptedException {
        for (String one : block.split("(?m)^\\$ beefyield ", -1)) {
            if (!one.isEmpty()) {
                // as a shell takes them
                List<String> lines =
                        one.replace(" \\\n   ", "").replace("';'", ";").lines().toList();
                List<String> expected = lines.subList(1, lines.size());
                List<String> printed = printed(lines.get(0));
                assertThat(matches(expected, printed))
                        .as(
                                "%s prints%n%s%nnot%n%s",
                                lines.get(0), String.join("\n", printed), String.join("\n", expected))
                        .isTrue();
                commands++;
            }
        }
    }

    private static boolean matches(List<String> expected, List<String> printed) {
        if (expected.isEmpty()) {
            return printed.isEmpty();
        }
        List<String> rest = expected.subList(1, expected.size());
        if (!expected.get(0).equals("...")) {
            return !printed.isEmpty()
                    && printed.get(0).equals(expected.get(0))
                    && matches(rest, printed.subList(1, printed.size()));
        }
        for (int from = 0; from <= printed.size(); from++) {
            if (matches(rest, printed.subList(from, printed.size()))) {
                return true;
            }
        }
        return false;
    }

    /** In a process of its own, for only one of its own can stand in the folder. */
    private List<String> printed(String words) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-cp",
                absolute(System.getProperty("java.class.path")),
                Main.class.getName()));
        command.addAll(Arrays.asList(words.split(" ")));
        Path out = Files.createTempFile("guide", ".txt");
        try {
            Process process = new ProcessBuilder(command)
                    .directory(folder.toFile())
                    .redirectErrorStream(true)
                    .redirectOutput(out.toFile())
                    .start();
            assertThat(process.waitFor(2, TimeUnit.MINUTES)).isTrue();
            return Files.readString(out, UTF_8).lines().toList();
        } finally {
            Files.delete(out);
        }
    }

    private static String absolute(String classPath) {
        String separator = System.getProperty("path.separator");
        return String.join(
                separator,
                Arrays.stream(classPath.split(Pattern.quote(separator)))
                        .filter(entry -> !entry.isEmpty())
                        .map(entry -> Path.of(entry).toAbsolutePath().toString())
                        .toList());
    }

    private void edit(Matcher step) throws IOException {
        Path file = folder.resolve(step.group("edited"));
        List<String> lines = new ArrayList<>(Files.readAllLines(file));
        int column = Arrays.asList(lines.get(0).split(",")).indexOf(step.group("column"));
        assertThat(column).as(step.group("column")).isNotNegative();
        int found = 0;
        for (int i = 0; i < lines.size(); i++) {
            if (lines.get(i).startsWith(step.group("row") + ",")) {
                String[] cells = lines.get(i).split(",", -1);
                assertThat(cells[column]).isEqualTo(step.group("from"));
                cells[column] = step.group("to");
                lines.set(i, String.join(",", cells));
                found++;
            }
        }
        assertThat(found).as(step.group("row")).isEqualTo(1);
        Files.write(file, lines);
        edits++;
    }
}
