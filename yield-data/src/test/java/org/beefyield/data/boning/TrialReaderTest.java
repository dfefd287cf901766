package org.beefyield.data.boning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.beefyield.boning.RefusedTrial;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
import org.beefyield.calibrate.Calibrated;
import org.beefyield.calibrate.Calibration;
import org.beefyield.calibrate.Finding;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.samples.TarrowmereTrials;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.table.TableReader;
import org.beefyield.data.table.TableWriter;
import org.beefyield.table.TableComparison;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Boning trials as files, and what becomes of those of the Tarrowmere hall. */
class TrialReaderTest {
    private static final Path EXAMPLE = Path.of(System.getProperty("basedir", ""), "examples", TarrowmereTrials.FILE);
    private static final YieldTable SHIPPED = ShippedTables.boneless2026();
    private static final String HEADER = "carcass,category,conformation,fat_class,cold_weight_kg,day";

    @TempDir
    Path folder;

    private TrialSheet read(String content, String... groups) throws IOException {
        Path file = Files.writeString(folder.resolve("x.csv"), content);
        return TrialReader.read(Source.of(file), CsvForm.standard(), SHIPPED, Set.of(groups));
    }

    private List<String> words(List<Problem> problems) {
        return problems.stream()
                .map(problem ->
                        problem.toString().replace(folder.resolve("x.csv").toString(), "x.csv"))
                .toList();
    }

    private List<String> refused(String content) {
        return words(catchThrowableOfType(InvalidDataException.class, () -> read(content))
                .problems());
    }

    @Test
    void aRowIsATrialAndABlankCellWasNotWeighed() throws IOException {
        TrialSheet sheet = read(
                HEADER + ",bone,fat-trim,striploin/lean-trim,rest\nA1,C,R=,3+,342,2026-03-01,62.5,,1.2,40\n", "rest");

        assertThat(sheet.problems()).isEmpty();
        Trial trial = sheet.trials().get(0);
        assertThat(trial.carcass()).hasToString("A1 C R= 3+ 342 kg");
        assertThat(trial.day()).isEqualTo("2026-03-01");
        assertThat(trial.kg())
                .containsOnlyKeys("bone", "striploin/lean-trim", "rest")
                .containsEntry("bone", 62.5);
        assertThat(sheet).hasToString(folder.resolve("x.csv") + ": 1 trial, 0 problems");
    }

    @Test
    void quartersBringTheirOwnWeights() throws IOException {
        Trial trial = read(HEADER + ",quarter:fore,quarter:hind,fore:bone,hind:bone,hind:rump\n"
                        + "A1,C,R=,3+,342,,170,171,30,31,15\n")
                .trials()
                .get(0);

        assertThat(trial.quarters())
                .extracting(quarter -> quarter.name() + " " + quarter.coldKg() + " " + quarter.kg())
                .containsExactly("fore 170.0 {bone=30.0}", "hind 171.0 {bone=31.0, rump=15.0}");
        assertThat(trial.kg()).containsEntry("bone", 61.0).containsEntry("rump", 15.0);
    }

    @Test
    void badRowsAreNamedAndTheOthersRead() throws IOException {
        TrialSheet sheet = read(HEADER + ",bone\n"
                + "A1,C,R=,3+,342,,62\n"
                + "A1,C,R=,3+,342,,62\n"
                + "A2,X,R=,9,342,,62\n"
                + "A3,C,R=,3+,\"342,5\",,-1\n"
                + ",C,R=,3+,0,,x\n"
                + "A5,C,R=,3+,340,,60\n"
                + "A6,C,R=,3+,340,03.04.2026,60\n");

        assertThat(sheet.trials()).extracting(Trial::id).containsExactly("A1", "A5");
        assertThat(words(sheet.problems()))
                .containsExactly(
                        "x.csv line 3, carcass: a trial of carcass A1 stands above",
                        "x.csv line 4, category: category \"X\" is none of C A B D E Z",
                        "x.csv line 4, fat_class: fat class 9 is outside 1 to 5; a position on the 15-point scale belongs in fat_points, in code in FatClass.ofPosition",
                        "x.csv line 5, cold_weight_kg: \"342,5\" is not a plain number such as 342.5; if its comma is a decimal comma, declare it: CsvForm.builder().decimalComma(), --decimal-comma",
                        "x.csv line 5, bone: a weight is 0 kg or more; blank if it was not weighed",
                        "x.csv line 6, carcass: every row names a carcass",
                        "x.csv line 6, bone: \"x\" is not a plain number such as 342.5",
                        "x.csv line 6, cold_weight_kg: cold weight 0 kg is not above 0 and at most 1200 kg",
                        "x.csv line 8, day: \"03.04.2026\" is not a date such as 2026-11-03 (year-month-day)");
    }

    @Test
    void aWrongHeaderIsNamedWhole() {
        assertThat(refused("carcass,category,conformation,fat_class,bones,fore:bone\n"))
                .containsExactly(
                        "x.csv line 1, cold_weight_kg: the column \"cold_weight_kg\" is missing; required: carcass, category, conformation, fat_class, cold_weight_kg",
                        "x.csv line 1, bones: no cut \"bones\"; nearest: bone, loss, blade",
                        "x.csv line 1, fore:bone: the column \"quarter:fore\" with the weight of that quarter is missing");
        assertThat(words(catchThrowableOfType(
                                InvalidDataException.class, () -> TrialReader.read(folder.resolve("none.csv"), SHIPPED))
                        .problems()))
                .containsExactly(folder.resolve("none.csv") + ": the file can't be read: there is no file "
                        + folder.resolve("none.csv"));
    }

    @Test
    void aQuarterIsWeighedIfItsCutsAre() throws IOException {
        TrialSheet sheet = read(HEADER + ",quarter:fore,fore:bone\n"
                + "A1,C,R=,3+,342,,,30\n"
                + "A2,C,R=,3+,342,,0,\n"
                + "A3,C,R=,3+,342,,,\n"
                + "A4,C,R=,3+,342,,170,\n");

        assertThat(words(sheet.problems()))
                .containsExactly(
                        "x.csv line 2, quarter:fore: the weight of the quarter is missing, but cuts of it were weighed",
                        "x.csv line 3, quarter:fore: the weight of a quarter is above 0");
        assertThat(sheet.trials())
                .extracting(trial -> trial.id() + " " + trial.quarters().size())
                .containsExactly("A3 0", "A4 1");
    }

    @Test
    void aFileWithoutRowsIsSaid() throws IOException {
        assertThat(words(read(HEADER + ",bone\n").problems()))
                .containsExactly("x.csv: the file has a header but no row; a row for each carcass is needed");
    }

    @Test
    void parentsAndGroupsOfAColumnAreLookedUpToo() {
        assertThat(refused(HEADER + ",striplion/dice,quarter:fore,fore:bone\n"))
                .containsExactly("x.csv line 1, striplion/dice: no cut \"striplion\"; nearest: striploin, topside,"
                        + " striploin-joint");
        assertThat(words(
                        catchThrowableOfType(InvalidDataException.class, () -> read(HEADER + ",rst\n", "rest", "shins"))
                                .problems()))
                .singleElement()
                .asString()
                .startsWith("x.csv line 1, rst: no cut \"rst\"; nearest: ")
                .containsPattern("; groups: (rest, shins|shins, rest)$");
    }

    @Test
    void theExamplesAreWhatTestCodeWrites() throws IOException {
        assertThat(Files.readAllBytes(EXAMPLE)).isEqualTo(TarrowmereTrials.bytes());
        assertThat(Files.readAllBytes(EXAMPLE.resolveSibling(TarrowmereTrials.STRIPLOIN_FILE)))
                .isEqualTo(TarrowmereTrials.striploinBytes());
    }

    @Test
    void theExampleMakesATableThatIsWrittenAndReadAndCompared() {
        TrialSheet sheet = TrialReader.read(EXAMPLE, SHIPPED);
        assertThat(sheet.problems()).isEmpty();
        assertThat(sheet.trials()).hasSize(300);
        TrialSet trials = TrialSet.of(SHIPPED, sheet.trials());
        assertThat(trials.refused())
                .extracting(RefusedTrial::toString)
                .containsExactly(
                        "carcass TH-017: 8.3 kg of 298.1 kg (2.8 %) are missing; at most 2 % may",
                        "carcass TH-067: 10.0 kg of 345.8 kg (2.9 %) are missing; at most 2 % may",
                        "carcass TH-117: 11.6 kg of 306.3 kg (3.8 %) are missing; at most 2 % may",
                        "carcass TH-167: 6.9 kg of 249.8 kg (2.8 %) are missing; at most 2 % may",
                        "carcass TH-217: 16.4 kg of 309.9 kg (5.3 %) are missing; at most 2 % may",
                        "carcass TH-267: 19.6 kg of 362.2 kg (5.4 %) are missing; at most 2 % may");

        Calibrated calibrated = Calibration.of(trials).fit();
        assertThat(calibrated.findings())
                .filteredOn(finding -> finding.kind() == Finding.Kind.DAY)
                .extracting(Finding::toString)
                .containsExactly(
                        "breakdown of carcass: day 2026-03-19 is off: its 11 carcasses average loss +9.6 g/kg (t = 8.0)"
                                + " against the fit, beyond what days differ by (t beyond 3.9); look at that day's scale, cutting and"
                                + " trimming; more is missing than on other days, as if a scale read too little");
        // the hall cuts its chuck 6 g/kg longer
        assertThat(calibrated.fit("meat").coefficient("chuck-neck", "level_g_per_kg"))
                .isCloseTo(157.915 + 6, within(1.5));
        YieldTable table = calibrated.table("tarrowmere-hall", "1.0.0");
        TableWriter.write(table, folder.resolve("hall"));
        YieldTable again = TableReader.read(folder.resolve("hall"));

        assertThat(again.digest()).isEqualTo(table.digest());
        assertThat(TableComparison.of(SHIPPED, again).toText())
                .contains("chuck-neck          primal                     +5.");
    }

    @Test
    void aQuarterHasAName() {
        assertThat(refused("\n" + HEADER + ",bone,:bone,quarter:,quarter:fore\n"))
                .containsExactly(
                        "x.csv line 2, quarter:: behind the colon stands the name of a quarter",
                        "x.csv line 2, :bone: before the colon stands the name of a quarter, such as fore:bone");
    }
}
