package org.beefyield.data.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.beefyield.data.samples.OpenTrials;
import org.beefyield.data.samples.TarrowmereTrials;
import org.beefyield.data.table.TableReader;
import org.beefyield.table.definition.BreakdownRow;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Tables from trials of another layout, in one command. */
class CalibrateLayoutTest {
    @TempDir
    Path folder;

    private String out = "";
    private String err = "";

    private int calibrate(String... arguments) {
        Ran ran = Ran.with(
                Stream.concat(Stream.of("calibrate"), Stream.of(arguments)).toList());
        out = ran.out();
        err = ran.err();
        return ran.code();
    }

    @Test
    void openTrialsOfAnotherLayoutMakeATableByCategoryInOneCommand() throws IOException {
        Path open = Path.of("examples", "open-trials");
        Path table = folder.resolve("by-category");

        assertThat(calibrate(
                        "--trials",
                        open.resolve(OpenTrials.FILE).toString(),
                        "--layout",
                        open.resolve(OpenTrials.LAYOUT).toString(),
                        "--separator=;",
                        "--decimal-comma",
                        "--baseline",
                        open.resolve(OpenTrials.TABLE).toString(),
                        "--categories=apart",
                        "--out",
                        table.toString()))
                .isEqualTo(ExitCode.SOME_REFUSED);

        assertThat(err).isEmpty();
        assertThat(out)
                .startsWith("Trials " + open.resolve(OpenTrials.FILE)
                        + ": 42 trials, 0 problems, 3 carcasses left out as declared\n")
                .contains("41 trials accepted, 1 refused\n")
                .contains("\nLeft out\n  carcass 7012, hindquarter: ");
        List<BreakdownRow> rows = TableReader.read(table).definition().breakdown();
        assertThat(rows).extracting(BreakdownRow::category).contains("A", "D", "E");
        // a bull was made leaner than a heifer, by 26 g/kg of fat
        double bull = level(rows, "A", "fat");
        assertThat(level(rows, "E", "fat") - bull).isBetween(10.0, 30.0);
    }

    private static double level(List<BreakdownRow> rows, String category, String cut) {
        return rows.stream()
                .filter(row -> row.category().equals(category) && row.cut().equals(cut))
                .mapToDouble(row -> row.coefficients().get(0))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theExampleOfOpenTrialsIsWhatTestCodeWrites() throws IOException {
        Path open = Path.of("examples", "open-trials");
        assertThat(Files.readAllBytes(open.resolve(OpenTrials.FILE)))
                .isEqualTo(OpenTrials.bytes(open.resolve(OpenTrials.LAYOUT)));
        assertThat(TableReader.read(open.resolve(OpenTrials.TABLE)).digest())
                .isEqualTo(OpenTrials.table().digest());
    }

    @Test
    void aLayoutHasTheGroups() throws IOException {
        Path trials = Files.write(
                folder.resolve("trials.csv"),
                Files.readAllLines(Path.of("examples", TarrowmereTrials.FILE)).subList(0, 17));
        List<String> lines = new ArrayList<>(List.of("column,holds,quarter,code,stands_for,factor"));
        for (String column : Files.readAllLines(trials).get(0).split(",", -1)) {
            lines.add(column + "," + (column.equals("topside") ? "rounds" : column) + ",,,,");
        }
        lines.set(lines.indexOf("silverside,silverside,,,,"), "silverside,rounds,,,,");
        lines.add(",group,,rounds,topside+silverside,");
        Path layout = Files.write(folder.resolve("layout.csv"), lines);

        assertThat(calibrate("--trials", trials.toString(), "--layout", layout.toString()))
                .isZero();
        assertThat(out).contains("rounds");
        assertThat(calibrate(
                        "--trials",
                        trials.toString(),
                        "--layout",
                        layout.toString(),
                        "--group",
                        "rounds=topside+silverside"))
                .isEqualTo(ExitCode.COULD_NOT_RUN);
        assertThat(err).contains("--group and --layout don't go together; the layout has the groups");
        assertThat(calibrate(
                        "--trials", trials.toString(), "--layout", layout.toString(), "--report", layout.toString()))
                .isEqualTo(ExitCode.COULD_NOT_RUN);
    }
}
