package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.DrawnCarcass;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

/** Tables that state the full covariance of their errors. */
class CovarianceTest {
    /** SDs 20, 15 and 25 of three children: 25 squared is 20 squared plus 15 squared, so that meat and bone are apart. */
    private static TableDefinition.Builder table() {
        return TableDefinition.builder("covariances", "1")
                .levels("tissue")
                .categories(Category.STEER, Category.HEIFER)
                .source(new SourceRow("made", SourceKind.ASSUMPTION, "Made for a test", ""))
                .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                .cut(Cut.of("fat-trim", "Fat trim", "tissue", CutKind.FAT_TRIM))
                .row("carcass", "meat", 20, "made", 700, 0, -10, 0)
                .row("carcass", "bone", 15, "made", 180, 0, -2, 0)
                .row("carcass", "fat-trim", 25, "made", 120, 0, 12, 0);
    }

    private static CovarianceRow between(String cut, String other, double value) {
        return CovarianceRow.residual("carcass", cut, other, value);
    }

    private static TableDefinition.Builder withResidual() {
        return table().covariance(between("meat", "meat", 400))
                .covariance(between("meat", "bone", 0))
                .covariance(between("bone", "bone", 225))
                .covariance(between("fat-trim", "meat", -400))
                .covariance(between("bone", "fat-trim", -225))
                .covariance(between("fat-trim", "fat-trim", 625));
    }

    private static CovarianceRow coefficients(String cut, String term, String other, String otherTerm, double value) {
        return new CovarianceRow("*", "*", "carcass", cut, term, other, otherTerm, value);
    }

    /** Level and fat slope of the meat err against those of the fat trim, and a high level goes with a low slope. */
    private static TableDefinition.Builder withCoefficients() {
        TableDefinition.Builder table = table();
        List<String> cuts = List.of("meat", "bone", "fat-trim");
        double[] sign = {1, 0, -1};
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                table.covariance(coefficients(
                        cuts.get(i), "level_g_per_kg", cuts.get(j), "per_fat_point", -0.9 * sign[i] * sign[j]));
                if (j <= i) {
                    table.covariance(coefficients(
                            cuts.get(i), "level_g_per_kg", cuts.get(j), "level_g_per_kg", 4 * sign[i] * sign[j]));
                    table.covariance(coefficients(
                            cuts.get(i), "per_fat_point", cuts.get(j), "per_fat_point", 0.25 * sign[i] * sign[j]));
                }
            }
        }
        return table;
    }

    private static YieldEstimate estimate(TableDefinition.Builder table, String fatClass) {
        return YieldEstimator.of(YieldTable.of(table.build()))
                .estimate(Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse(fatClass), 300));
    }

    private static void refused(TableDefinition.Builder table, String... problems) {
        assertThatThrownBy(() -> YieldTable.of(table.build()))
                .isInstanceOfSatisfying(
                        InvalidTableException.class,
                        e -> assertThat(e.problems())
                                .extracting(TableProblem::toString)
                                .containsExactly(problems));
    }

    @Test
    void sdsThatDoNotCloseByThemselvesAreTakenWithTheirCovariance() {
        YieldEstimate estimate = estimate(withResidual(), "3=");

        assertThat(estimate.sd("meat")).isCloseTo(0.020 * 300, within(1e-9));
        assertThat(estimate.sd("bone")).isCloseTo(0.015 * 300, within(1e-9));
        assertThat(estimate.sd("fat-trim")).isCloseTo(0.025 * 300, within(1e-9));
        assertThat(estimate.covariance(Figure.cut("meat"), Figure.cut("bone"))).isCloseTo(0, within(1e-9));
        assertThat(estimate.covariance(Figure.cut("meat"), Figure.cut("fat-trim")))
                .isCloseTo(-400e-6 * 9e4, within(1e-9));
        refused(
                table(),
                "breakdown row 3, sd_g_per_kg \"25\": the SDs of the children of carcass can't belong to shares that add up"
                        + " to 1: fat-trim varies more than all others together (its SD is below 25, the root of the sum of"
                        + " the others' squares); correct them, or state the covariance in the resource"
                        + " residual-covariance (category CE)");
    }

    @Test
    void drawnCarcassesVaryAsTheCovarianceSays() {
        YieldEstimate estimate = estimate(withResidual(), "3=");
        double meatBone = 0;
        double meatFat = 0;
        int draws = 40_000;
        for (DrawnCarcass drawn : estimate.sample(new Random(5), draws).carcasses()) {
            double meat = drawn.kg("meat") - estimate.kg("meat");
            meatBone += meat * (drawn.kg("bone") - estimate.kg("bone")) / draws;
            meatFat += meat * (drawn.kg("fat-trim") - estimate.kg("fat-trim")) / draws;
            assertThat(drawn.kg("meat") + drawn.kg("bone") + drawn.kg("fat-trim"))
                    .isCloseTo(300, within(1e-9));
        }

        assertThat(meatBone).isCloseTo(0, within(0.6));
        assertThat(meatFat).isCloseTo(-36, within(1.0));
    }

    @Test
    void coefficientsThatErrTogetherDoSoInTheEstimate() {
        // at fat class 5=, 6 points off: level 2 with slope 0.5 a point, correlation -0.9
        double variance = 4 + 36 * 0.25 - 2 * 6 * 0.9;
        YieldEstimate far = estimate(
                withCoefficients()
                        .covariance(between("meat", "meat", 400))
                        .covariance(between("meat", "bone", 0))
                        .covariance(between("bone", "bone", 225))
                        .covariance(between("fat-trim", "meat", -400))
                        .covariance(between("bone", "fat-trim", -225))
                        .covariance(between("fat-trim", "fat-trim", 625)),
                "5=");

        assertThat(far.sd(Figure.cut("meat"), UncertaintyPart.COEFFICIENTS))
                .isCloseTo(Math.sqrt(variance) * 0.3, within(1e-9));
        assertThat(far.sd(Figure.cut("bone"), UncertaintyPart.COEFFICIENTS)).isCloseTo(0, within(1e-9));
    }

    @Test
    void theMostSpecificCovarianceServesACategory() {
        TableDefinition.Builder table = withResidual()
                .covariance(new CovarianceRow("E", "*", "carcass", "meat", "", "meat", "", 400))
                .covariance(new CovarianceRow("E", "*", "carcass", "bone", "", "meat", "", 0));

        assertThat(YieldTable.of(table.build()).categoryGroups()).hasSize(1);
    }

    @Test
    void missingPairsAreListed() {
        refused(
                table().covariance(between("meat", "meat", 400)),
                "residual-covariance, value: the children of carcass: 5 of 6 covariances are missing: bone and meat; bone and"
                        + " bone; fat-trim and meat; bone and fat-trim; fat-trim and fat-trim (category CE)");
    }

    /** Heifers have rows of their own, and an error in one term fewer. */
    @Test
    void theTermsOfACovarianceAreThoseOfTheRowsThatServeACategory() {
        TableDefinition.Builder table = TableDefinition.builder("terms", "1")
                .levels("tissue")
                .categories(Category.STEER, Category.HEIFER)
                .source(new SourceRow("made", SourceKind.ASSUMPTION, "Made for a test", ""))
                .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                .row("C", "*", "carcass", "meat", 20, "made", 800, 0, -10, 0)
                .row("C", "*", "carcass", "bone", 20, "made", 200, 0, 10, 0)
                .row("E", "*", "carcass", "meat", 20, "made", 780, 0, -10, 0)
                .row("E", "*", "carcass", "bone", 20, "made", 220, 0, 10, 0);
        double[][] values = {{4, -0.9}, {-0.9, 0.25}};
        List<String> terms = List.of("level_g_per_kg", "per_fat_point");
        List<String> cuts = List.of("meat", "bone");
        for (int a = 0; a < 4; a++) {
            for (int b = 0; b <= a; b++) {
                double value = (a % 2 == b % 2 ? 1 : -1) * values[a / 2][b / 2];
                for (String category : a / 2 + b / 2 == 0 ? List.of("C", "E") : List.of("C")) {
                    table.covariance(new CovarianceRow(
                            category,
                            "*",
                            "carcass",
                            cuts.get(a % 2),
                            terms.get(a / 2),
                            cuts.get(b % 2),
                            terms.get(b / 2),
                            value));
                }
            }
        }
        YieldEstimator estimator = YieldEstimator.of(YieldTable.of(table.build()));

        for (Category category : List.of(Category.STEER, Category.HEIFER)) {
            double variance = 4 + (category == Category.STEER ? 36 * 0.25 - 2 * 6 * 0.9 : 0);
            YieldEstimate estimate =
                    estimator.estimate(Carcass.of(category, Conformation.parse("R="), FatClass.parse("5="), 300));
            assertThat(estimate.sd(Figure.cut("meat"), UncertaintyPart.COEFFICIENTS))
                    .isCloseTo(Math.sqrt(variance) * 0.3, within(1e-9));
        }
    }

    @Test
    void aPairThatStandsTwiceIsRefused() {
        refused(
                withResidual().covariance(between("bone", "meat", 0)),
                "residual-covariance, cut \"bone\": the covariance of bone and meat stands twice for carcass; each pair"
                        + " stands once, in either order (category CE)");
    }

    @Test
    void covariancesThatDoNotAddUpToZeroAreRefused() {
        refused(
                table().covariance(between("meat", "meat", 400))
                        .covariance(between("meat", "bone", 10))
                        .covariance(between("bone", "bone", 225))
                        .covariance(between("fat-trim", "meat", -400))
                        .covariance(between("bone", "fat-trim", -225))
                        .covariance(between("fat-trim", "fat-trim", 625)),
                "residual-covariance, value \"10\": the children of carcass: the covariances of meat with meat to fat-trim"
                        + " add up to this, not 0; shares add up to 1, so that their errors add up to 0 (category CE)");
    }

    @Test
    void whatIsNoCovarianceIsRefused() {
        refused(
                table().covariance(between("meat", "meat", 400))
                        .covariance(between("meat", "bone", -500))
                        .covariance(between("bone", "bone", 225))
                        .covariance(between("fat-trim", "meat", 100))
                        .covariance(between("bone", "fat-trim", 275))
                        .covariance(between("fat-trim", "fat-trim", -375)),
                "residual-covariance, value \"-579.006392\": the children of carcass: these can't be covariances: a sum of the"
                        + " errors would have this for its variance, below 0 (category CE)");
    }

    @Test
    void anSdOtherThanTheRootOfItsVarianceIsRefused() {
        TableDefinition.Builder table = withResidual();
        TableDefinition other = table.build();
        TableDefinition.Builder changed = other.toBuilder().clearBreakdown();
        other.breakdown()
                .forEach(row -> changed.row(
                        row.parent(),
                        row.cut(),
                        row.cut().equals("bone") ? 16 : row.sdGPerKg(),
                        row.source(),
                        row.coefficients().stream()
                                .mapToDouble(Double::doubleValue)
                                .toArray()));

        refused(
                changed,
                "breakdown row 2, sd_g_per_kg \"16\": the root of its variance in residual-covariance is 15 (category CE)");
    }

    @Test
    void aStandardErrorOtherThanTheRootOfItsVarianceIsRefused() {
        TableDefinition.Builder table = withCoefficients();
        withResidual().build().covariances().forEach(table::covariance);
        TableDefinition good = table.coefficientNote(
                        new CoefficientNote("*", "*", "carcass", "meat", "level_g_per_kg", 2.01, "made"))
                .build();
        YieldTable.of(good);

        refused(
                good.toBuilder()
                        .coefficientNote(new CoefficientNote("*", "*", "carcass", "meat", "per_fat_point", 0.6, "made"))
                        .coefficientNote(new CoefficientNote("*", "*", "carcass", "meat", "per_100kg", 0.1, "made")),
                "coefficient-notes, standard_error \"0.6\": the root of the variance of per_fat_point of meat in"
                        + " coefficient-covariance is 0.5 (category CE)",
                "coefficient-notes, standard_error \"0.1\": the root of the variance of per_100kg of meat in"
                        + " coefficient-covariance is 0 (category CE)");
    }

    /** Quantiles of Student's t with 10 degrees of freedom at 0.95: 1.812 (any table of it). */
    @Test
    void intervalsOfACarcassAreStudentsWhereTheCovarianceWasEstimated() {
        YieldEstimate estimate = estimate(withResidual().residualDegreesOfFreedom(10), "3=");

        assertThat(estimate.interval("meat", 0.9).high() - estimate.kg("meat"))
                .isCloseTo(1.812 * estimate.sd("meat"), within(0.005));
        assertThat(YieldEstimator.of(estimate.table())
                        .estimateLot(List.of(estimate.carcass()))
                        .interval("meat", 0.9)
                        .high())
                .isCloseTo(estimate.kg("meat") + 1.645 * estimate.sd("meat"), within(0.005));
        refused(
                withResidual().residualDegreesOfFreedom(0),
                "table, residual_degrees_of_freedom \"0\": degrees of freedom are above 0");
    }

    @Test
    void keysThatNothingHasAreRefused() {
        refused(
                withResidual()
                        .covariance(new CovarianceRow("Z", "*", "carcass", "meat", "", "meat", "", 1))
                        .covariance(CovarianceRow.residual("meat", "lion", "meat", Double.NaN))
                        .covariance(coefficients("meat", "per_point", "meat", "level_g_per_kg", 1)),
                "residual-covariance row 7, category \"Z\": a category is * or letters of the categories that this table"
                        + " serves (CE), each once",
                "residual-covariance row 8, parent \"meat\": no row of breakdown has this parent",
                "residual-covariance row 8, cut \"lion\": no such cut in cuts; nearest: bone, meat, fat-trim",
                "residual-covariance row 8, value \"NaN\": a covariance is a finite number",
                "coefficient-covariance row 1, term \"per_point\": no such term; terms: level_g_per_kg,"
                        + " per_conformation_point, per_fat_point, per_100kg");
    }

    @Test
    void anOverrideKeepsCovariancesAsLongAsTheirRowsStay() {
        YieldTable base = YieldTable.of(withResidual().build());
        BreakdownRow sameSd =
                new BreakdownRow("*", "*", "carcass", "meat", List.of(700.0, 0.0, -10.0, 0.0), 20, "made");
        TableDefinition kept =
                TableOverride.of(base, "kept", "1").row(sameSd).build().definition();

        assertThat(kept.covariances()).hasSize(6);
        assertThatThrownBy(() -> TableOverride.of(base, "lost", "1")
                        .row(new BreakdownRow("*", "*", "carcass", "meat", List.of(700.0, 0.0, -10.0, 0.0), 21, "made"))
                        .row(new BreakdownRow("*", "*", "carcass", "bone", List.of(180.0, 0.0, -2.0, 0.0), 12, "made"))
                        .build())
                .hasMessageContaining("varies more than all others together");
        assertThat(TableOverride.of(base, "given", "1")
                        .covariances("carcass", List.copyOf(base.definition().covariances()))
                        .build()
                        .definition()
                        .covariances())
                .isEqualTo(base.definition().covariances());
        assertThatThrownBy(() -> TableOverride.of(base, "x", "1")
                        .covariances("meat", base.definition().covariances()))
                .hasMessage("a covariance of carcass is none of meat, whose are given");
    }
}
