package org.beefyield.data.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.entry;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.carcass.GradeReading;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.RangePolicy;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.junit.jupiter.api.Test;

/** What the shipped edition promises, at every node of its grid. */
class ShippedTableTest {
    private static final YieldTable TABLE = ShippedTables.boneless2026();
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(TABLE);
    private static final List<Double> WEIGHTS = List.of(150.0, 234.0, 340.0, 501.0, 600.0);
    private static final List<Category> SERVED =
            List.of(Category.STEER, Category.HEIFER, Category.YOUNG_BULL, Category.BULL, Category.COW);

    @Test
    void editionCarriesItsNameVersionAndDigest() {
        assertThat(TABLE.identity()).matches("boneless-2026@1\\.0\\.0#[0-9a-f]{12}");
        assertThat(TABLE.digest()).hasSize(64).startsWith(TABLE.identity().substring(20));
        assertThat(ShippedTables.boneless2026()).isSameAs(TABLE);
    }

    @Test
    void categoriesOfSteersHeifersBullsAndCowsAreServedAndCalvesAreNot() {
        assertThat(TABLE.definition().categories()).containsExactlyInAnyOrderElementsOf(SERVED);
        assertThatThrownBy(() -> ESTIMATOR.estimate(carcass(Category.CALF, 8, 8, 200)))
                .isInstanceOf(RefusedCarcassException.class)
                .hasMessage("category Z is not served by table boneless-2026, which serves C E A B D");
    }

    @Test
    void categoriesDifferButForYoungBullsAndBulls() {
        assertThat(TABLE.categoryGroups())
                .extracting(group -> group.stream().map(Category::letter).collect(Collectors.joining()))
                .containsExactly("C", "E", "AB", "D");
    }

    @Test
    void everyLevelClosesForEveryCategoryAndWayAtEveryNode() {
        List<YieldEstimator> estimators = new ArrayList<>();
        for (Cut cut : TABLE.catalogue().cuts()) {
            for (String way : TABLE.ways(cut.code())) {
                estimators.add(ESTIMATOR.with(cut.code(), way));
            }
        }
        assertThat(estimators).hasSize(waysInTheFile()).hasSizeGreaterThan(28);
        for (YieldEstimator estimator : estimators) {
            for (Category category : SERVED) {
                for (int c = 1; c <= 18; c++) {
                    for (int f = 1; f <= 15; f++) {
                        assertCloses(estimator.estimate(carcass(category, c, f, WEIGHTS.get((c + f) % 5))));
                    }
                }
            }
        }
    }

    @Test
    void meatRisesWithConformationAtEveryNode() {
        for (double weight : WEIGHTS) {
            for (int f = 1; f <= 15; f++) {
                for (int c = 1; c < 18; c++) {
                    assertThat(steer(c + 1, f, weight).kg("tissue", "meat"))
                            .as("conformation %d to %d, fat %d, %.0f kg", c, c + 1, f, weight)
                            .isGreaterThan(steer(c, f, weight).kg("tissue", "meat"));
                }
            }
        }
    }

    @Test
    void fatTrimRisesWithFatClassAtEveryNodeAndUnderEverySpecification() {
        for (String specification : List.of("steaks", "joints", "trim")) {
            YieldEstimator estimator = ESTIMATOR.withSpecification(specification);
            for (double weight : WEIGHTS) {
                for (int c = 1; c <= 18; c++) {
                    for (int f = 1; f < 15; f++) {
                        YieldEstimate leaner = estimator.estimate(carcass(Category.STEER, c, f, weight));
                        YieldEstimate fatter = estimator.estimate(carcass(Category.STEER, c, f + 1, weight));
                        assertThat(fatter.kg("tissue", "fat-trim")).isGreaterThan(leaner.kg("tissue", "fat-trim"));
                        assertThat(fatter.fatTrimKg()).isGreaterThan(leaner.fatTrimKg());
                    }
                }
            }
        }
    }

    @Test
    void wholeClassEqualsItsMiddleThird() {
        for (String letter : List.of("S", "E", "U", "R", "O", "P")) {
            for (int fat = 1; fat <= 5; fat++) {
                YieldEstimate whole = ESTIMATOR.estimate(
                        Carcass.of(Category.COW, Conformation.parse(letter), FatClass.parse("" + fat), 287.5));
                YieldEstimate third = ESTIMATOR.estimate(
                        Carcass.of(Category.COW, Conformation.parse(letter + "="), FatClass.parse(fat + "="), 287.5));

                for (String level : TABLE.levels()) {
                    assertThat(whole.lines(level)).isEqualTo(third.lines(level));
                }
            }
        }
    }

    /** Halves lie at 10.25 and 11.75 of class U, between the nodes 10 to 12. */
    @Test
    void halvesOfAClassLieEvenlyAroundItsMiddle() {
        double lower = halves("-U").kg("tissue", "meat");
        double upper = halves("U+").kg("tissue", "meat");
        double whole = halves("U").kg("tissue", "meat");

        assertThat((lower + upper) / 2).isCloseTo(whole, within(1e-9));
        assertThat(upper - lower).isCloseTo(1.5 * 11.7292 * 0.340, within(1e-3));
    }

    @Test
    void carcassOutsideTheFittedRangeIsNotedAndOutsideTheAllowedRefused() {
        assertThat(steer(2, 3, 234).rangeNotes()).isEmpty();
        assertThat(steer(14, 13, 501).rangeNotes()).isEmpty();
        assertThat(steer(15, 14, 502).rangeNotes()).hasSize(3);
        assertThatThrownBy(() -> steer(8, 8, 149.9)).isInstanceOf(RefusedCarcassException.class);
        assertThatThrownBy(() -> steer(8, 8, 600.1)).isInstanceOf(RefusedCarcassException.class);
        YieldEstimator strict = ESTIMATOR.with(RangePolicy.REFUSE_OUTSIDE_FITTED);
        assertThatThrownBy(() -> strict.estimate(carcass(Category.STEER, 15, 8, 340)))
                .isInstanceOf(RefusedCarcassException.class);
    }

    @Test
    void firstSpecificationIsUsedWhenNoneIsChosen() {
        assertThat(TABLE.specifications()).extracting(Object::toString).containsExactly("steaks", "joints", "trim");
        assertThat(ESTIMATOR.specification()).isEqualTo(TABLE.specification("steaks"));
    }

    @Test
    void everyDeclaredExpectationIsProved() {
        int expectations = TABLE.definition().expectations().size();

        // besides: closure of the three levels, no share below 0 in each of four groups of categories
        assertThat(expectations).isEqualTo(33);
        assertThat(TABLE.proof().findings()).hasSize(expectations + 7);
        assertThat(TABLE.proof().findings()).allMatch(finding -> finding.marginGPerKg() >= -1e-9);
    }

    @Test
    void closingCorrectionsAreNoMoreThanTheRoundingOfTheFile() {
        assertThat(TABLE.closingCorrections())
                .allMatch(correction -> Math.abs(correction.excess())
                        <= (correction.column().equals("level_g_per_kg") ? 14 * 0.0005 : 14 * 0.00005));
    }

    @Test
    void everyRowNamesASourceAndWhatIsCarriedOverOrChosenIsCalledAssumption() {
        Map<String, SourceKind> ofCategories = new TreeMap<>();
        for (BreakdownRow row : TABLE.definition().breakdown()) {
            SourceRow source = source(row.source());
            if (!row.category().equals(BreakdownRow.ANY)) {
                ofCategories.put(row.category() + " " + row.parent(), source.kind());
            }
        }
        assertThat(ofCategories)
                .containsOnly(
                        entry("AB carcass", SourceKind.DERIVED),
                        entry("AB meat", SourceKind.DERIVED),
                        entry("E carcass", SourceKind.DERIVED),
                        entry("E meat", SourceKind.ASSUMPTION),
                        entry("D carcass", SourceKind.ASSUMPTION));
        assertThat(TABLE.definition().sources())
                .filteredOn(source -> source.kind() == SourceKind.PUBLISHED)
                .hasSizeGreaterThan(5)
                .allMatch(source -> source.citation().length() > 20);
    }

    @Test
    void retailCutsOfEverySpecificationAreTheKindsThatAreSoldAndWhatIsLeft() {
        for (String specification : List.of("steaks", "joints", "trim")) {
            Set<CutKind> kinds = new TreeSet<>();
            ESTIMATOR
                    .withSpecification(specification)
                    .estimate(carcass(Category.STEER, 8, 8, 340))
                    .lines("retail")
                    .forEach(line -> kinds.add(line.kg() > 0 ? line.cut().kind() : CutKind.LOSS));
            Set<CutKind> expected = new TreeSet<>(
                    List.of(CutKind.DICE, CutKind.LEAN_TRIM, CutKind.FAT_TRIM, CutKind.BONE, CutKind.LOSS));
            if (!specification.equals("trim")) {
                expected.addAll(List.of(CutKind.STEAK, CutKind.JOINT));
            }
            assertThat(kinds).as(specification).isEqualTo(expected);
        }
    }

    private static int waysInTheFile() {
        Set<String> ways = new TreeSet<>();
        TABLE.definition().breakdown().stream()
                .filter(row -> !row.way().equals(BreakdownRow.ANY))
                .forEach(row -> ways.add(row.parent() + " " + row.way()));
        return ways.size();
    }

    private static SourceRow source(String name) {
        return TABLE.definition().sources().stream()
                .filter(source -> source.source().equals(name))
                .findFirst()
                .orElseThrow();
    }

    private static void assertCloses(YieldEstimate estimate) {
        for (String level : TABLE.levels()) {
            double sum = 0;
            for (CutLine line : estimate.lines(level)) {
                if (line.kg() < 0) {
                    throw new AssertionError(line + " of " + estimate);
                }
                sum += line.kg();
            }
            if (!(Math.abs(sum - estimate.coldWeightKg()) <= 1e-9)) {
                throw new AssertionError(level + " of " + estimate + " adds up to " + sum);
            }
        }
    }

    private static YieldEstimate halves(String conformation) {
        return ESTIMATOR.estimate(Carcass.of(
                Category.STEER, Conformation.parse(conformation, GradeReading.HALVES), FatClass.parse("3"), 340));
    }

    private static YieldEstimate steer(int conformation, int fat, double kg) {
        return ESTIMATOR.estimate(carcass(Category.STEER, conformation, fat, kg));
    }

    private static Carcass carcass(Category category, int conformation, int fat, double kg) {
        return Carcass.of(category, Conformation.third(conformation), FatClass.third(fat), kg);
    }

    @Test
    void anEstimatorOfItTravelsInLessThanAHundredKilobytes() throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
            out.writeObject(ESTIMATOR);
        }
        assertThat(bytes.size()).isBetween(1_000, 100_000);
    }
}
