package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.abort;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.table.TableWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The commands of a week in a hall, good and bad, one after the other in one folder, and every word that they say.
 *
 * <p>{@code week.txt} holds them: a line that starts with {@code #} says what is done, one that starts with {@code $} is the
 * command, in which {@code HALL} stands for the folder; then the exit code, and a line with {@code |} for each of standard
 * output and with {@code !} for each of standard error. After words were changed, {@code mvn test -pl yield-data -am
 * -Dtest=WeekOfCommandsTest -Dsurefire.failIfNoSpecifiedTests=false -Dbeefyield.rewrite=true} writes what they are now, for
 * a person to read the difference.
 */
class WeekOfCommandsTest {
    private static final Path WEEK = Path.of("src/test/resources/org/beefyield/data/command/week.txt");
    private static final Path EXAMPLES = Path.of("examples");

    @TempDir
    Path hall;

    @Test
    void everyWordIsTheOneThatIsExpected() throws IOException, InterruptedException {
        setUp();
        String expected = Files.readString(WEEK);
        StringBuilder said = new StringBuilder();
        int commands = 0;
        for (String line : expected.lines().toList()) {
            if (line.startsWith("#") || line.isEmpty()) {
                said.append(line).append('\n');
            } else if (line.startsWith("$")) {
                said.append(line).append('\n').append(said(line.substring(2)));
                commands++;
            }
        }
        if (Boolean.getBoolean("beefyield.rewrite")) {
            Files.writeString(WEEK, said);
        } else {
            assertThat(said.toString()).isEqualTo(expected);
        }
        assertThat(commands).isGreaterThanOrEqualTo(30);
    }

    private String said(String command) {
        List<String> arguments = new ArrayList<>();
        for (String word : command.split(" ", -1)) {
            arguments.add(word.replace("HALL", hall.toString()));
        }
        Ran ran = Ran.with(arguments);
        return "exit " + ran.code() + "\n" + lines("|", ran.out()) + lines("!", ran.err());
    }

    private String lines(String before, String text) {
        assertThat(text).as("its last line ends").matches("(?s).*\n|");
        StringBuilder lines = new StringBuilder();
        text.replace(hall.toString(), "HALL")
                .lines()
                .forEach(line -> lines.append(before)
                        .append(line.isEmpty() ? "" : " ")
                        .append(line)
                        .append('\n'));
        return lines.toString();
    }

    private void setUp() throws IOException, InterruptedException {
        for (String example :
                List.of("2026-11", "messy", "prices", "grid", "market", "windows", "trials", "striploin-trials")) {
            Files.copy(EXAMPLES.resolve("tarrowmere-" + example + ".csv"), hall.resolve(example + ".csv"));
        }
        Path season = Files.createDirectory(hall.resolve("season"));
        for (String file : List.of("intake.csv", "boxes.csv", "products.csv", "rest.csv")) {
            Files.copy(EXAMPLES.resolve("season").resolve(file), season.resolve(file));
        }
        Files.writeString(hall.resolve("commas.csv"), """
                carcass;category;conformation;fat_class;cold_weight_kg
                A1;C;-U;4L;340,5
                A2;E;U+;3;288,2
                """);
        TableWriter.write(ShippedTables.boneless2026(), hall.resolve("table"));
        TableWriter.write(ShippedTables.boneless2026(), hall.resolve("in-use.zip"));
        TableWriter.write(ShippedTables.boneless2026(), hall.resolve("typing-error"));
        change("typing-error", "*,*,carcass,bone,188.671,", "*,*,carcass,bone,bony,");
        TableWriter.write(ShippedTables.boneless2026(), hall.resolve("moved"));
        change("moved", ",meat,topside,99.372,", ",meat,topside,102.372,");
        change("moved", ",meat,silverside,70.184,", ",meat,silverside,68.684,");
        change("moved", ",meat,eye-of-round,28.133,", ",meat,eye-of-round,26.633,");
        Path descriptor = hall.resolve("moved/datapackage.json");
        Files.writeString(descriptor, Files.readString(descriptor).replaceFirst("\\s*\"digest\": \"[0-9a-f]+\",", ""));
        Files.createSymbolicLink(hall.resolve("latest.csv"), Path.of("monday.csv"));
        Files.createSymbolicLink(hall.resolve("sheet-of-today.csv"), Path.of("2026-11.csv"));
        Files.createSymbolicLink(hall.resolve("circle.csv"), Path.of("circle.csv"));
        try {
            assumeTrue(new ProcessBuilder("mkfifo", hall.resolve("pipe").toString())
                            .start()
                            .waitFor()
                    == 0);
        } catch (IOException e) {
            abort("no pipes here: " + e);
        }
    }

    private void change(String table, String text, String other) throws IOException {
        Path file = hall.resolve(table).resolve("breakdown.csv");
        String whole = Files.readString(file);
        assertThat(whole).containsOnlyOnce(text);
        Files.writeString(file, whole.replace(text, other));
    }
}
