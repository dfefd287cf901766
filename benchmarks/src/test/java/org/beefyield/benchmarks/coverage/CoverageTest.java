package org.beefyield.benchmarks.coverage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.DoubleStream;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A sample of {@link CoverageStudy}, and whether its results are those of the tables and situations there are. */
class CoverageTest {
    /** Written by {@code benchmarks/coverage}. */
    private static final Path RESULTS = Path.of("coverage.csv");

    /** Another one than the study's. */
    private static final long SEED = 7;

    private static final int SETS = 8;
    private static final int DRAWS = 500;

    /** Draws for the SD of one part. */
    private static final int OF_PART = 2000;

    private static final StudyTable MADE = StudyTable.made();

    private static Situation situation(StudyTable table, String name) {
        return table.situations().stream()
                .filter(one -> one.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    private static double fourStandardErrors(double probability, int draws) {
        return 4 * Math.sqrt(probability * (1 - probability) / draws);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "one carcass graded in whole classes",
                "lot of 40",
                "20 steers and 20 cows in one run",
                "own hall: lot of 40",
                "promise of a lot of 40",
                "two carcasses of one run",
                "two lots of 40 in one hall",
                "expected difference of two lots of 40 in two halls",
                "lot of 40 cut two ways"
            })
    void whatIsStatedHolds(String name) {
        Situation situation = situation(MADE, name);

        List<Result> results = CoverageStudy.run(MADE, situation, SETS, DRAWS, SEED);

        assertThat(results)
                .hasSizeGreaterThan(4)
                .allSatisfy(result -> assertThat(result.coverage())
                        .as(result.toString())
                        .isCloseTo(situation.nominal(), within(fourStandardErrors(situation.nominal(), SETS * DRAWS))));
    }

    @Test
    void aSeasonOfLotsThatSpanRunsHoldsToo() {
        for (String name : List.of("season of 40 lots in 20 runs", "own hall: season of 40 lots in 20 runs")) {
            assertThat(CoverageStudy.run(MADE, situation(MADE, name), 2, DRAWS, SEED))
                    .hasSize(MADE.measures().size())
                    .allSatisfy(result -> assertThat(result.coverage())
                            .as(result.toString())
                            .isCloseTo(Situations.SURE, within(fourStandardErrors(Situations.SURE, 2 * DRAWS))));
        }
    }

    @Test
    void theShippedTableHoldsToo() {
        StudyTable shipped = StudyTable.shipped();
        for (String name : List.of("lot of 40", "own hall: lot of 40")) {
            assertThat(CoverageStudy.run(shipped, situation(shipped, name), 4, DRAWS, SEED))
                    .hasSize(shipped.measures().size())
                    .allSatisfy(result -> assertThat(result.coverage())
                            .as(result.toString())
                            .isCloseTo(Situations.SURE, within(fourStandardErrors(Situations.SURE, 4 * DRAWS))));
        }
    }

    /** As {@link #whatIsStatedHolds} would fail: by more than four standard errors. */
    @Test
    void whatTheLibraryIsToldWronglyIsSeen() {
        List<Situation> controls = Situations.controls();

        assertThat(controls).hasSize(5).allSatisfy(control -> {
            int sets = 2;
            assertThat(CoverageStudy.run(MADE, control, sets, DRAWS, SEED))
                    .hasSize(MADE.measures().size())
                    .allSatisfy(result -> assertThat(result.coverage())
                            .as(result.toString())
                            .isNotCloseTo(Situations.SURE, within(fourStandardErrors(Situations.SURE, sets * DRAWS))));
        });
    }

    private static Map<UncertaintyPart, Nature> natures() {
        Map<UncertaintyPart, Nature> natures = new EnumMap<>(UncertaintyPart.class);
        natures.put(UncertaintyPart.BETWEEN_CARCASSES, new Nature(1, 0, 0, 0, 0, 0, 0, 0, false));
        natures.put(UncertaintyPart.GRADE_RESOLUTION, new Nature(0, 1, 0, 0, 0, 0, 0, 0, false));
        natures.put(UncertaintyPart.LOT, new Nature(0, 0, 1, 0, 0, 0, 0, 0, false));
        natures.put(UncertaintyPart.RUN, new Nature(0, 0, 0, 1, 0, 0, 0, 0, false));
        natures.put(UncertaintyPart.HALL, new Nature(0, 0, 0, 0, 1, 0, 0, 0, false));
        natures.put(UncertaintyPart.COEFFICIENTS, new Nature(0, 0, 0, 0, 0, 1, 0, 0, false));
        natures.put(UncertaintyPart.SCALE_REPEATABILITY, new Nature(0, 0, 0, 0, 0, 0, 1, 0, false));
        natures.put(UncertaintyPart.SCALE_BIAS, new Nature(0, 0, 0, 0, 0, 0, 0, 1, false));
        return natures;
    }

    /** Steers and cows of three lots, each boned in two of four runs, some graded in whole classes. */
    private static Herd mixed(int firstLot, int firstRun, RandomGenerator random) {
        Herd herd = new Herd();
        for (int i = 0; i < 24; i++) {
            Category category = i % 3 == 0 ? Category.COW : Category.STEER;
            herd.add(new Herd.Head(
                    i % 4 == 0 ? MADE.inThirds(category, random) : MADE.inClasses(category, random),
                    firstLot + i / 8,
                    firstRun + i / 6,
                    0));
        }
        return herd;
    }

    /** Of lots with keys in common that are cut alike, and of one that is cut in two ways. */
    @Test
    void eachPartAloneHasTheSdThatIsStatedForALotADifferenceAndAnotherWayOfCutting() {
        SplittableRandom random = new SplittableRandom(SEED);
        List<Herd> herds = List.of(mixed(0, 0, random), mixed(1, 2, random));
        YieldEstimator estimator = MADE.estimator(0);
        YieldEstimator otherEstimator = MADE.estimator(1);
        LotEstimate lot = Keys.numbered(estimator, herds.get(0));
        LotEstimate other = Keys.numbered(estimator, herds.get(1));
        LotEstimate otherwise = Keys.numbered(otherEstimator, herds.get(0));
        // errors of first order, and 4 standard errors of an SD
        double tolerance = 0.01 + 4 / Math.sqrt(2.0 * OF_PART);
        Map<UncertaintyPart, Nature> natures = natures();
        assertThat(natures).containsOnlyKeys(UncertaintyPart.values());
        natures.forEach((part, nature) -> {
            World world = new World(MADE.table().definition(), MADE.scale(), nature, MADE.ways(List.of(0, 1)));
            Map<String, List<Double>> drawn = new LinkedHashMap<>();
            Map<String, Double> stated = new LinkedHashMap<>();
            for (Measure measure : MADE.measures()) {
                var figure = measure.figure(lot, estimator);
                stated.put(measure.name(), lot.sd(figure, part));
                stated.put(
                        measure.name() + ", difference",
                        lot.minus(figure, other, measure.figure(other, estimator))
                                .sdKg(part));
                stated.put(
                        measure.name() + ", two ways",
                        lot.changeFrom(figure, otherwise, measure.figure(otherwise, otherEstimator))
                                .sdKg(part));
            }
            for (int draw = 0; draw < OF_PART; draw++) {
                Outcome[][] outcomes = world.draw(herds, random);
                for (Measure measure : MADE.measures()) {
                    double kg = measure.of(outcomes[0][0]);
                    keep(drawn, measure.name(), kg);
                    keep(drawn, measure.name() + ", difference", kg - measure.of(outcomes[1][0]));
                    keep(drawn, measure.name() + ", two ways", kg - measure.of(outcomes[0][1]));
                }
            }
            stated.forEach((what, sd) -> assertThat(sd(drawn.getOrDefault(what, List.of())))
                    .as(part + ", " + what)
                    .isCloseTo(sd, within(1e-6 + tolerance * sd)));
        });
    }

    private static void keep(Map<String, List<Double>> drawn, String what, double value) {
        drawn.computeIfAbsent(what, any -> new ArrayList<>()).add(value);
    }

    private static double sd(List<Double> values) {
        DoubleStream all = values.stream().mapToDouble(Double::doubleValue);
        double mean = all.average().orElseThrow();
        return Math.sqrt(values.stream()
                        .mapToDouble(value -> (value - mean) * (value - mean))
                        .sum()
                / (values.size() - 1));
    }

    /** A line of the results by column. */
    private static List<Map<String, String>> results() throws IOException {
        List<String> lines = Files.readAllLines(RESULTS);
        String[] columns = lines.get(0).split(",", -1);
        return lines.stream()
                .skip(1)
                .map(line -> {
                    String[] cells = line.split(",", -1);
                    assertThat(cells).as(line).hasSameSizeAs(columns);
                    Map<String, String> row = new LinkedHashMap<>();
                    for (int i = 0; i < columns.length; i++) {
                        row.put(columns[i], cells[i]);
                    }
                    return row;
                })
                .toList();
    }

    private static double number(Map<String, String> row, String column) {
        return Double.parseDouble(row.getOrDefault(column, ""));
    }

    @Test
    void theResultsAreOfTheTablesAsTheyAreAndOfEverySituation() throws IOException {
        List<String> wanted = new ArrayList<>();
        StudyTable.all()
                .forEach(table -> table.situations()
                        .forEach(situation -> wanted.add(table.table().identity() + ", " + situation.name())));

        // if this fails, a table or the study has changed since: run benchmarks/coverage
        assertThat(results().stream()
                        .map(row -> row.get("table") + ", " + row.get("situation"))
                        .distinct())
                .containsExactlyElementsOf(wanted);
    }

    @Test
    void theResultsHaveEveryFigureOfManyDrawsAndAreAsDemanded() throws IOException {
        for (StudyTable table : StudyTable.all()) {
            List<String> figures = table.measures().stream().map(Measure::name).toList();
            for (Situation situation : table.situations()) {
                List<Map<String, String>> rows = results().stream()
                        .filter(row -> table.table().identity().equals(row.get("table"))
                                && situation.name().equals(row.get("situation")))
                        .toList();
                List<String> its = rows.stream().map(row -> row.get("figure")).toList();
                if (situation.cuttings().size() == 1) {
                    assertThat(its).isEqualTo(figures);
                } else {
                    // what both ways give alike doesn't differ
                    assertThat(its).isSubsetOf(figures).hasSizeGreaterThan(4);
                }
                assertThat(rows).allSatisfy(row -> {
                    assertThat(number(row, "draws")).isGreaterThanOrEqualTo(10_000);
                    double coverage = number(row, "coverage");
                    double nominal = number(row, "stated");
                    String range = nominal == 0.9 ? "0.89 to 0.91" : "0.94 to 0.96";
                    boolean held = Math.abs(coverage - nominal) <= 0.01;
                    String demanded = row.getOrDefault("demanded", "");
                    if (situation.demand() == Situation.Demand.NONE || number(row, "least_sds_from_zero") < 3) {
                        assertThat(demanded).isEmpty();
                    } else if (situation.demand() == Situation.Demand.HELD) {
                        assertThat(demanded).as(row.toString()).isEqualTo(range);
                        assertThat(held).as(row.toString()).isTrue();
                    } else {
                        assertThat(demanded).as(row.toString()).isEqualTo("not " + range);
                        assertThat(held).as(row.toString()).isFalse();
                    }
                });
            }
        }
    }

    /** Rows such as {@code lot of 40   90 %   89.6 %  90.4 %}: of the shipped table, the figures that hold least and most. */
    @Test
    void theGuideStatesWhatTheResultsSay() throws IOException {
        Pattern row = Pattern.compile("(.+?) {2,}(\\d+) % +([\\d.]+) % +([\\d.]+) %");
        List<String> lines = Files.readAllLines(Path.of("..", "yield-data", "GUIDE.md"));
        List<Matcher> rows =
                lines.stream().map(row::matcher).filter(Matcher::matches).toList();
        assertThat(rows).hasSizeGreaterThan(10);
        for (Matcher stated : rows) {
            double[] coverage = results().stream()
                    .filter(result -> result.getOrDefault("table", "").startsWith("boneless-2026@")
                            && stated.group(1).equals(result.get("situation"))
                            && number(result, "stated") * 100 == Double.parseDouble(stated.group(2)))
                    .mapToDouble(result -> 100 * number(result, "coverage"))
                    .toArray();
            assertThat(coverage).as(stated.group(1)).isNotEmpty();
            assertThat(Double.parseDouble(stated.group(3)))
                    .as(stated.group(1))
                    .isCloseTo(Arrays.stream(coverage).min().orElseThrow(), within(0.051));
            assertThat(Double.parseDouble(stated.group(4)))
                    .as(stated.group(1))
                    .isCloseTo(Arrays.stream(coverage).max().orElseThrow(), within(0.051));
        }
    }

    @Test
    void aSampleAgreesWithTheResults() throws IOException {
        for (String name : List.of("lot of 40", "runs err twice as declared: lot of 40", "heavy tails: lot of 40")) {
            for (Result sampled : CoverageStudy.run(MADE, situation(MADE, name), SETS, DRAWS, SEED)) {
                Map<String, String> row = results().stream()
                        .filter(one -> sampled.table().equals(one.get("table"))
                                && name.equals(one.get("situation"))
                                && sampled.figure().equals(one.get("figure")))
                        .findFirst()
                        .orElseThrow();
                double error = Math.hypot(number(row, "standard_error"), sampled.standardError());
                assertThat(sampled.coverage())
                        .as(sampled.toString())
                        .isCloseTo(number(row, "coverage"), within(4 * error));
            }
        }
    }
}
