package org.beefyield.data.derivation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.beefyield.data.table.ReferenceRows;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The files of the shipped table: are they what the derivation writes, whole, closed, and true to what they promise? */
class ShippedTableDerivationTest {
    /** What the derivation gives, for whoever regenerates an edition. */
    private static final Path DERIVED = Path.of("target", "derived-tables", ShippedTableFiles.NAME);

    private static final String REGENERATE = """
            is not what the derivation gives. If that is meant and the edition not yet released, copy what this test left
              cp yield-data/target/derived-tables/boneless-2026/* \
            yield-data/src/main/resources/org/beefyield/data/tables/boneless-2026
            A released edition never changes: the change then needs a new edition""";

    private static final double ONE_GRAM = 0.001;

    private static final ShippedTableDerivation DERIVATION = new ShippedTableDerivation();
    private static final ReferenceFigures FIGURES = DERIVATION.figures();
    private static final TableShares SHARES = new TableShares(DERIVATION.breakdown(), FIGURES);

    @Test
    void everyShippedFileIsByteForByteWhatTheDerivationWrites() throws IOException {
        Map<String, String> derived = DERIVATION.files();
        Files.createDirectories(DERIVED);
        for (Map.Entry<String, String> file : derived.entrySet()) {
            Files.writeString(DERIVED.resolve(file.getKey()), file.getValue());
        }
        derived.forEach((name, text) ->
                assertThat(shipped(name)).as(name + " " + REGENERATE).isEqualTo(text));
    }

    @Test
    void nothingElseIsShippedBesideTheDerivedFiles() throws Exception {
        Path folder = Path.of(ShippedTableDerivation.class
                        .getResource(ShippedTableDerivation.CLASS_PATH_FOLDER + "datapackage.json")
                        .toURI())
                .getParent();
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files.map(file -> file.getFileName().toString()))
                    .containsExactlyInAnyOrderElementsOf(DERIVATION.files().keySet());
        }
    }

    @Test
    void everyShippedBreakdownClosesWithinHalfAUnitForEachChild() {
        Map<String, String> tolerances = new LinkedHashMap<>();
        tolerances.put("level_g_per_kg", "0.0005");
        for (String slope : List.of(
                "per_conformation_point", "per_fat_point", "per_100kg", "fat_below_3", "conformation_above_15")) {
            tolerances.put(slope, "0.00005");
        }
        Map<String, List<Map<String, String>>> groups = shippedBreakdowns();
        assertThat(groups).hasSizeGreaterThan(100);
        groups.forEach((name, rows) -> tolerances.forEach((column, halfUnit) -> {
            BigDecimal sum =
                    rows.stream().map(row -> new BigDecimal(row.get(column))).reduce(BigDecimal.ZERO, BigDecimal::add);
            BigDecimal target = column.equals("level_g_per_kg") ? BigDecimal.valueOf(1000) : BigDecimal.ZERO;
            BigDecimal allowed = new BigDecimal(halfUnit).multiply(BigDecimal.valueOf(rows.size()));
            assertThat(sum.subtract(target).abs()).as(name + " " + column).isLessThanOrEqualTo(allowed);
        }));
    }

    @ParameterizedTest
    @ValueSource(strings = {"C", "E", "A", "D"})
    void noShareFallsBelowZeroAtAnyGradeOrWeight(String category) {
        for (double c = 1; c <= 18; c++) {
            for (double f = 1; f <= 15; f++) {
                for (double w : new double[] {150, 340, 600}) {
                    TableShares.Position position = new TableShares.Position(c, f, w);
                    for (Map<String, String> ways : DERIVATION.specifications().values()) {
                        assertThat(SHARES.retail(category, ways, position).values())
                                .as("%s", position)
                                .allMatch(share -> share >= 0);
                    }
                    assertThat(SHARES.primal(category, position).values())
                            .as("%s", position)
                            .allMatch(share -> share > 0);
                }
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"C", "E", "A", "D"})
    void everyDeclaredExpectationHoldsAtEveryGradeAndWeightOfItsRange(String category) {
        List<Map<String, String>> declared = ReferenceRows.rows("expectations", shipped("expectations.csv"));
        assertThat(declared).isNotEmpty();
        for (Map<String, String> expectation : declared) {
            double smallest = smallestStep(expectation, category);
            if (Boolean.parseBoolean(expectation.get("strict"))) {
                assertThat(smallest).as("%s", expectation).isGreaterThan(1e-9);
            } else {
                assertThat(smallest).as("%s", expectation).isGreaterThan(-1e-9);
            }
        }
    }

    /** Why nothing is promised of them: too little to survive a calibration; g per kg of carcass and point, all categories. */
    @ParameterizedTest
    @CsvSource({"flank, 0.198", "blade, 0.015"})
    void flankAndBladeRiseWithConformationInTheFittedRangeByLittleAndNotEverywhere(String cut, double least) {
        assertThat(Stream.of("C", "E", "A", "D")
                        .mapToDouble(category -> smallestStep(rises(cut, "fitted"), category))
                        .min())
                .hasValueCloseTo(least, within(0.0005));
        assertThat(smallestStep(rises(cut, "allowed"), "C")).isNegative();
    }

    @Test
    void everySourceNamedIsListedAndEveryKindIsKnown() {
        Map<String, String> kinds = new HashMap<>();
        ReferenceRows.rows("sources", shipped("sources.csv"))
                .forEach(row -> kinds.put(row.get("source"), row.get("kind")));
        assertThat(kinds.values()).isSubsetOf("published", "derived", "common-practice", "unverified", "assumption");
        for (String file : List.of("breakdown.csv", "quartering.csv", "coefficient-notes.csv")) {
            assertThat(ReferenceRows.rows(file, shipped(file)))
                    .as(file)
                    .allMatch(row -> kinds.containsKey(row.get("source")));
        }
        assertThat(kinds)
                .containsEntry("grange", "published")
                .containsEntry("unece2007", "unverified")
                .containsEntry("retail-derived", "derived")
                .containsEntry("sex-derived", "derived")
                .containsEntry("retail-partly", "assumption")
                .containsEntry("cows", "assumption");
    }

    @Test
    void everySpecificationNamesAnExistingWayForEachPrimal() {
        Map<String, Set<String>> primals = new LinkedHashMap<>();
        for (Map<String, String> row : ReferenceRows.rows("specifications", shipped("specifications.csv"))) {
            assertThat(ShippedTableDerivation.waysOf(row.get("parent")))
                    .as("%s", row)
                    .containsKey(row.get("way"));
            primals.computeIfAbsent(row.get("specification"), name -> new LinkedHashSet<>())
                    .add(row.get("parent"));
        }
        assertThat(primals).containsOnlyKeys("steaks", "joints", "trim");
        assertThat(primals.values()).allSatisfy(named -> assertThat(named).hasSize(14));
    }

    /** Half of each, the largest no more than the sum of the others as rounded. */
    @Test
    void standardErrorsOfAColumnAreHalfOfItsSlopesAndCanClose() {
        assertThat(DERIVATION.slopeStandardErrors(List.of(0.0003, 0.0003, -0.0009)))
                .containsExactly(0.0002, 0.0002, 0.0004);
    }

    @Test
    void pageStatesThatAFifthOfTheMeatHasAPublishedRetailSplitUnderSteaks() {
        ShippedTableReadme page = new ShippedTableReadme(DERIVATION);
        Map<String, Double> kg = page.kgBySource("steaks");
        assertThat(kg.values().stream().mapToDouble(Double::doubleValue).sum())
                .isCloseTo(page.meatKg(), within(ONE_GRAM));
        // rump 19.164 + striploin 16.251 + cube roll 12.445 of 235.660 kg
        assertThat(kg.get("retail-derived") / page.meatKg()).isCloseTo(47.860 / 235.660, within(0.0001));
        assertThat(page.text())
                .contains("| `steaks` | 20.3 (14.1) |")
                .contains("| Rump | 19.164 | 8.1 | tests | assumption | assumption |")
                .doesNotContain("${");
    }

    private static Map<String, String> rises(String cut, String over) {
        return Map.of(
                "cut",
                cut,
                "kind",
                "",
                "level",
                "primal",
                "variable",
                "conformation",
                "direction",
                "rises",
                "over",
                over);
    }

    private double ofKind(Map<String, Double> cuts, String kind) {
        return DERIVATION.cuts().stream()
                .filter(cut -> cut.get("kind").equals(kind))
                .mapToDouble(cut -> cuts.getOrDefault(cut.get("cut"), 0.0))
                .sum();
    }

    /** Rows that serve one category, by category, parent and way; a row of the category replaces one for `*`. */
    private static Map<String, List<Map<String, String>>> shippedBreakdowns() {
        List<Map<String, String>> rows = ReferenceRows.rows("breakdown", shipped("breakdown.csv"));
        Map<String, Map<String, Map<String, String>>> groups = new LinkedHashMap<>();
        for (String category : ShippedTableFiles.CATEGORIES) {
            for (Map<String, String> row : rows) {
                if (row.get("category").equals("*") || row.get("category").contains(category)) {
                    groups.computeIfAbsent(
                                    category + " " + row.get("parent") + " " + row.get("way"),
                                    name -> new LinkedHashMap<>())
                            .put(row.get("cut"), row);
                }
            }
        }
        Map<String, List<Map<String, String>>> breakdowns = new LinkedHashMap<>();
        groups.forEach((name, cuts) -> breakdowns.put(name, new ArrayList<>(cuts.values())));
        return breakdowns;
    }

    /** The smallest step in the expected direction over all nodes of the range, over all specifications at retail. */
    private double smallestStep(Map<String, String> expectation, String category) {
        String cut = expectation.get("cut");
        String kind = expectation.get("kind");
        double sign = expectation.get("direction").equals("rises") ? 1 : -1;
        List<ToDoubleFunction<TableShares.Position>> quantities = new ArrayList<>();
        switch (expectation.get("level")) {
            case "tissue" ->
                quantities.add(position -> SHARES.tissue(category, position).get(cut));
            case "primal" ->
                quantities.add(position -> SHARES.primal(category, position).get(cut));
            default ->
                DERIVATION
                        .specifications()
                        .values()
                        .forEach(ways -> quantities.add(position -> {
                            Map<String, Double> retail = SHARES.retail(category, ways, position);
                            return kind.isEmpty() ? retail.get(cut) : ofKind(retail, kind);
                        }));
        }
        return quantities.stream()
                .mapToDouble(
                        quantity -> smallestStep(quantity, expectation.get("variable"), sign, expectation.get("over")))
                .min()
                .orElseThrow();
    }

    private double smallestStep(
            ToDoubleFunction<TableShares.Position> quantity, String variable, double sign, String over) {
        boolean conformation = variable.equals("conformation");
        double lightest = FIGURES.factor(over + "_min", "weight_kg");
        double heaviest = FIGURES.factor(over + "_max", "weight_kg");
        double lastConformation = FIGURES.factor(over + "_max", "conformation") - (conformation ? 1 : 0);
        double lastFat = FIGURES.factor(over + "_max", "fat") - (conformation ? 0 : 1);
        double smallest = Double.POSITIVE_INFINITY;
        for (double c = FIGURES.factor(over + "_min", "conformation"); c <= lastConformation; c++) {
            for (double f = FIGURES.factor(over + "_min", "fat"); f <= lastFat; f++) {
                double[] steps = new double[3];
                for (int i = 0; i < 3; i++) {
                    double w = lightest + i * (heaviest - lightest) / 2;
                    TableShares.Position next =
                            new TableShares.Position(conformation ? c + 1 : c, conformation ? f : f + 1, w);
                    steps[i] = sign
                            * (quantity.applyAsDouble(next)
                                    - quantity.applyAsDouble(new TableShares.Position(c, f, w)));
                }
                smallest = Math.min(smallest, smallestOfQuadratic(steps[0], steps[1], steps[2]));
            }
        }
        return smallest;
    }

    /** Shares of tissue and primal level are linear in weight, so their product is a quadratic: its least value. */
    private static double smallestOfQuadratic(double first, double middle, double last) {
        double curvature = (first + last) / 2 - middle;
        double slope = (last - first) / 2;
        double smallest = Math.min(first, last);
        if (curvature > 0 && Math.abs(slope) < 2 * curvature) {
            smallest = Math.min(smallest, middle - slope * slope / (4 * curvature));
        }
        return smallest;
    }

    private static String shipped(String name) {
        try (InputStream in =
                ShippedTableDerivation.class.getResourceAsStream(ShippedTableDerivation.CLASS_PATH_FOLDER + name)) {
            assertThat(in).as(name + " is not on the class path").isNotNull();
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new IllegalStateException(name, e);
        }
    }
}
