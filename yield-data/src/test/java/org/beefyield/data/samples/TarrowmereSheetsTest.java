package org.beefyield.data.samples;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.data.Problem;
import org.beefyield.data.killsheet.KillSheet;
import org.beefyield.data.killsheet.KillSheetEntry;
import org.beefyield.data.killsheet.KillSheetReader;
import org.junit.jupiter.api.Test;

class TarrowmereSheetsTest {
    private static final Path EXAMPLES = Path.of(System.getProperty("basedir", ""), "examples");

    private final KillSheet clean = KillSheetReader.read(EXAMPLES.resolve(TarrowmereSheets.CLEAN));
    private final KillSheet messy = KillSheetReader.read(EXAMPLES.resolve(TarrowmereSheets.MESSY));

    @Test
    void theShippedSheetsAreTheOnesWrittenHereByteForByte() throws IOException {
        assertThat(Files.readAllBytes(EXAMPLES.resolve(TarrowmereSheets.CLEAN))).isEqualTo(TarrowmereSheets.clean());
        assertThat(Files.readAllBytes(EXAMPLES.resolve(TarrowmereSheets.MESSY))).isEqualTo(TarrowmereSheets.messy());
    }

    @Test
    void theCleanSheetIsClean() {
        assertThat(clean.counts()).isEqualTo(new KillSheet.Counts(200, 200, 0, 0));
        assertThat(clean.problems()).isEmpty();
        assertThat(clean.notes()).isEmpty();
    }

    @Test
    void theCleanSheetIsNovemberOfTheTarrowmereGroup() {
        assertThat(clean.entries()).allSatisfy(entry -> {
            assertThat(entry.carcass().killDate()).isEqualTo(entry.killDate().map(LocalDate::toString));
            assertThat(entry.killDate().map(YearMonth::from)).contains(YearMonth.of(2026, 11));
            assertThat(entry.carcass().assured()).isPresent();
            assertThat(entry.carcass().ageMonths()).isPresent();
        });
        assertThat(clean.carcasses().stream().map(Carcass::supplier).distinct().count())
                .isEqualTo(5);
        // a lot comes from one supplier on one day
        assertThat(clean.entries().stream()
                        .map(entry -> entry.carcass().lot().orElseThrow()
                                + entry.killDate()
                                + entry.carcass().supplier())
                        .distinct()
                        .count())
                .isEqualTo(
                        clean.carcasses().stream().map(Carcass::lot).distinct().count())
                .isGreaterThan(8);
        assertThat(clean.entries().stream()
                        .filter(entry -> entry.carcass().assured().orElseThrow())
                        .count())
                .isBetween(170L, 195L);
        assertThat(clean.entries().stream()
                        .map(KillSheetEntry::killDate)
                        .map(date -> date.map(LocalDate::getDayOfMonth).orElseThrow())
                        .distinct()
                        .count())
                .isEqualTo(8);
    }

    @Test
    void steersAndHeifersHaveTheGradesOfTheCitedStatisticsWithinSamplingError() {
        // Irish beef carcass classification results 2015, Department of Agriculture, Food and the Marine: steers U 12,
        // R 37,
        // O 42, P 10 %, heifers U 17, R 52, O 28, P 4 % (each adds to 101 by rounding)
        assertFrequencies(Category.STEER, 12, 37, 42, 10);
        assertFrequencies(Category.HEIFER, 17, 52, 28, 4);
    }

    private void assertFrequencies(Category category, double... percentFromU) {
        List<Carcass> carcasses = of(category);
        assertThat(carcasses).hasSizeGreaterThan(60);
        double total = Arrays.stream(percentFromU).sum();
        for (int k = 0; k < 4; k++) {
            String letter = "UROP".substring(k, k + 1);
            double expected = percentFromU[k] / total;
            double found = carcasses.stream()
                            .filter(carcass ->
                                    carcass.conformation().classLetter().equals(letter))
                            .count()
                    / (double) carcasses.size();
            // 2.58 standard errors hold 99 samples out of 100
            double error = Math.sqrt(expected * (1 - expected) / carcasses.size());
            assertThat(found).as(category + " " + letter).isCloseTo(expected, within(2.58 * error));
        }
    }

    @Test
    void youngBullsAndCowsWeighAndGradeAboutWhatTheCitedStatisticsSay() {
        // Norwegian classification statistics for cattle 2023, Animalia: young bulls 316 kg, conformation 6.07; cows
        // 300 kg,
        // conformation 3.93; so few carcasses allow three standard errors, with the invented SDs of 30 and 38 kg
        assertMeans(Category.YOUNG_BULL, 316, 30, 6.07, 2);
        assertMeans(Category.COW, 300, 38, 3.93, 1.6);
    }

    private void assertMeans(Category category, double kg, double sdKg, double position, double sdPosition) {
        List<Carcass> carcasses = of(category);
        assertThat(carcasses).hasSizeBetween(10, 25);
        double errors = 3 / Math.sqrt(carcasses.size());
        double foundPosition = carcasses.stream()
                .mapToDouble(carcass -> carcass.conformation().position())
                .average()
                .orElseThrow();
        assertThat(foundPosition).isCloseTo(position, within(errors * sdPosition));
        // 5 kg come with each point of conformation above 6
        assertThat(carcasses.stream()
                        .mapToDouble(Carcass::coldWeightKg)
                        .average()
                        .orElseThrow())
                .isCloseTo(kg + 5 * (foundPosition - 6), within(errors * sdKg));
    }

    @Test
    void allCleanCarcassesAreInTheAllowedRangeAndAHandfulOutsideTheFittedOne() {
        assertThat(clean.carcasses()).allSatisfy(carcass -> {
            assertThat(carcass.conformation().position()).isBetween(1.0, 18.0);
            assertThat(carcass.fatClass().position()).isBetween(1.0, 15.0);
            assertThat(carcass.coldWeightKg()).isBetween(150.0, 600.0);
        });
        long outside = clean.carcasses().stream()
                .filter(carcass -> carcass.conformation().position() < 2
                        || carcass.conformation().position() > 14
                        || carcass.fatClass().position() < 3
                        || carcass.fatClass().position() > 13
                        || carcass.coldWeightKg() < 234
                        || carcass.coldWeightKg() > 501)
                .count();
        assertThat(outside).isBetween(5L, 20L);
    }

    @Test
    void theMessySheetStartsWithAByteOrderMarkAndEndsItsLinesWithCrLf() {
        String text = new String(TarrowmereSheets.messy(), StandardCharsets.UTF_8);
        assertThat(text).startsWith("\uFEFFcarcass").contains("\r\n");
        assertThat(text.replace("\r\n", "")).doesNotContain("\r", "\n");
    }

    @Test
    void theMessySheetLosesNoRow() {
        assertThat(messy.counts()).isEqualTo(new KillSheet.Counts(32, 7, 1, 24));
        assertThat(messy.carcasses().stream().map(carcass -> carcass.id().orElseThrow()))
                .containsExactly("TM-0701", "TM-0702", "TM-0703", "TM-0711", "TM-0723", "TM-0725", "TM-0731");
        assertThat(messy.carcasses()).extracting(Carcass::killDate).containsOnly(Optional.of("2026-11-30"));
        assertThat(messy.condemned()).extracting(KillSheet.Condemned::id).containsExactly("TM-0719");
    }

    @Test
    void theMessySheetShowsEveryFaultWithItsMessage() {
        assertThat(lines(messy.problems()))
                .containsExactly(
                        "line 5, carcass: carcass \"TM-0701\" of the same kill date and lot stands in line 2 already; each has one row; if each side has one, declare that: KillSheetFormat.withRowASide(), --row-a-side",
                        "line 6, conformation: conformation \"R++\" has more than one sign",
                        "line 7, conformation: conformation \"-U\" has its sign in front, which only the halves reading allows; valid under thirds: U- U= U+",
                        "line 8, conformation: conformation \"X\" is none of S E U R O P",
                        "line 10, fat_class: fat class 0 is outside 1 to 5",
                        "line 11, fat_class: fat class 6 is outside 1 to 5; a position on the 15-point scale belongs in fat_points, in code in FatClass.ofPosition",
                        "line 12, fat_class: fat class 8 is outside 1 to 5; a position on the 15-point scale belongs in fat_points, in code in FatClass.ofPosition",
                        "line 14, cold_weight_kg: cold weight 0 kg is not above 0 and at most 1200 kg",
                        "line 15, cold_weight_kg: cold weight -3 kg is not above 0 and at most 1200 kg",
                        "line 16, cold_weight_kg: \"NaN\" is not a plain number such as 342.5",
                        "line 17, cold_weight_kg: cold weight 3400 kg is not above 0 and at most 1200 kg",
                        "line 18, cold_weight_kg: \"342,5\" is not a plain number such as 342.5; if its comma is a decimal comma, declare it: CsvForm.builder().decimalComma(), --decimal-comma",
                        "line 19: the row has 19 cells but the header has 18; a text or number that holds \",\" belongs in double quotes",
                        "line 20: the line is a single cell that holds \";\", but the declared separator is \",\"; declare the one that the whole file uses",
                        "line 22, age_months: age 9 months does not fit category C (castrated male of 12 months and over)",
                        "line 23, hot_weight_kg: hot weight 331.0 kg is below cold weight 342.0 kg; cold / hot must lie in 0.95 to 1",
                        "line 24, conformation: conformation \"R=\" and conformation_points \"8\" are both given; a row has one of them",
                        "line 26, dressing: dressing \"horns-left-on\" is none of kidneys-left-on kidney-fat-left-on pelvic-fat-left-on liver-left-on thin-skirt-left-on thick-skirt-left-on tail-left-on spinal-cord-left-on mammary-fat-left-on testicles-left-on cod-fat-left-on topside-inside-fat-left-on jugular-vein-left-on external-fat-removed brisket-fat-removed flank-fat-removed",
                        "line 28, status: \"sold\" is neither condemned nor passed",
                        "line 28, kill_date: \"30/11/2026\" is not a date such as 2026-11-03 (year-month-day)",
                        "line 28, assured: \"perhaps\" is neither yes nor no",
                        "line 29: a double quote has no partner on its line; a line break inside a cell is not supported, and a double quote inside a quoted cell is written twice",
                        "line 30: the line is not valid UTF-8; save the file as UTF-8, or declare its charset",
                        "line 31, carcass: no carcass id is given; every row needs one",
                        "line 31, category: no category is given; every row needs one of C A B D E Z",
                        "line 31, conformation: no conformation is given; every row needs conformation or conformation_points",
                        "line 31, fat_class: no fat class is given; every row needs fat_class or fat_points",
                        "line 31, cold_weight_kg: no weight is given; every row needs cold_weight_kg or hot_weight_kg",
                        "line 32: the row has 6 cells but the header has 18; an empty cell keeps its \",\"",
                        "line 33: every cell of the row is blank; a row needs a carcass, or has to go");
    }

    @Test
    void theMessySheetShowsEveryNote() {
        assertThat(lines(messy.notes()))
                .containsExactly(
                        "line 4, cold_weight_kg: carcass TM-0703: cold weight 338.5 kg counts, hot weight 345.4 kg is given too",
                        "line 27, left_kg: carcass TM-0725: left side 180.5 kg and right side 152.5 kg together differ from the weight 348.0 kg by more than 2 %");
    }

    private List<Carcass> of(Category category) {
        return clean.carcasses().stream()
                .filter(carcass -> carcass.category() == category)
                .collect(Collectors.toList());
    }

    private static List<String> lines(List<Problem> problems) {
        return problems.stream()
                .map(problem -> problem.toString().substring(problem.toString().indexOf(" line ") + 1))
                .toList();
    }
}
