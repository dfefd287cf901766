package org.beefyield.grid;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TableProblem;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

public class ClosedErrorsTest {
    /** Beyond this many standard errors a figure of draws with a fixed seed is no chance. */
    private static final double CHANCE = 5;

    /** Covariance of the errors of every two children. */
    public static double[][] matrix(ClosedErrors errors, int children) {
        double[][] matrix = new double[children][children];
        for (int i = 0; i < children; i++) {
            for (int j = 0; j < children; j++) {
                matrix[i][j] = errors.covariance(unit(i, children), unit(j, children), 1)[0];
            }
        }
        return matrix;
    }

    private static double[] unit(int child, int children) {
        double[] weights = new double[children];
        weights[child] = 1;
        return weights;
    }

    /** What must hold of any closed errors: the SDs that were asked for, rows that add up to 0, no negative variance. */
    static void areClosed(ClosedErrors errors, double... sd) {
        double[][] matrix = matrix(errors, sd.length);
        double most = 0;
        for (double one : sd) {
            most = Math.max(most, one);
        }
        for (int i = 0; i < sd.length; i++) {
            assertThat(Math.sqrt(matrix[i][i])).as("SD of child " + i).isCloseTo(sd[i], within(1e-9 * sd[i]));
            double row = 0;
            for (int j = 0; j < sd.length; j++) {
                row += matrix[i][j];
                assertThat(matrix[i][j])
                        .as("covariance of " + i + " and " + j)
                        .isCloseTo(matrix[j][i], within(1e-15 * most * most));
            }
            assertThat(row).as("row " + i).isCloseTo(0, within(1e-14 * sd.length * most * most));
        }
        assertThat(smallestEigenvalue(matrix)).isGreaterThan(-1e-13 * sd.length * most * most);
    }

    private static double smallestEigenvalue(double[][] matrix) {
        double[][] symmetric = new double[matrix.length][matrix.length];
        for (int i = 0; i < matrix.length; i++) {
            for (int j = 0; j < matrix.length; j++) {
                symmetric[i][j] = (matrix[i][j] + matrix[j][i]) / 2;
            }
        }
        double smallest = Double.POSITIVE_INFINITY;
        for (double value : new EigenDecomposition(MatrixUtils.createRealMatrix(symmetric)).getRealEigenvalues()) {
            smallest = Math.min(smallest, value);
        }
        return smallest;
    }

    /** Draws add up to 0 each, and together have the covariance that the errors state. */
    private static void drawsHaveTheCovariance(ClosedErrors errors, int children, long seed) {
        int draws = 40_000;
        Random random = new Random(seed);
        double[][] sums = new double[children][children];
        double[] means = new double[children];
        for (int draw = 0; draw < draws; draw++) {
            double[] its = errors.draw(random);
            double total = 0;
            for (int i = 0; i < children; i++) {
                total += its[i];
                means[i] += its[i] / draws;
                for (int j = 0; j < children; j++) {
                    sums[i][j] += its[i] * its[j] / draws;
                }
            }
            assertThat(total).isCloseTo(0, within(1e-12));
        }
        double[][] matrix = matrix(errors, children);
        for (int i = 0; i < children; i++) {
            assertThat(means[i])
                    .as("mean of child " + i)
                    .isCloseTo(0, within(CHANCE * Math.sqrt(matrix[i][i] / draws) + 1e-15));
            for (int j = 0; j < children; j++) {
                // variance of a product of two normal variables with mean 0
                double chance = Math.sqrt((matrix[i][i] * matrix[j][j] + matrix[i][j] * matrix[i][j]) / draws);
                assertThat(sums[i][j])
                        .as("covariance of " + i + " and " + j)
                        .isCloseTo(matrix[i][j], within(CHANCE * chance + 1e-15));
            }
        }
    }

    @Test
    void equalSdsHaveTheTextbookCovariance() {
        // n independent errors less their mean: variance v(n-1)/n, correlation -1/(n-1)
        for (int n = 3; n <= 10; n++) {
            double[] sd = new double[n];
            Arrays.fill(sd, 2);
            double[][] matrix = matrix(ClosedErrors.conditioned(sd), n);
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    assertThat(matrix[i][j]).isCloseTo(i == j ? 4 : -4.0 / (n - 1), within(1e-12));
                }
            }
        }
    }

    @Test
    void independentErrorsConditionedOnTheirSumComeBack() {
        // v = 1, 2, 3, 10: the covariance diag(v) - vv'/16 by hand
        double[] v = {1, 2, 3, 10};
        double[] sd = {Math.sqrt(15 / 16.0), Math.sqrt(28 / 16.0), Math.sqrt(39 / 16.0), Math.sqrt(60 / 16.0)};
        double[][] matrix = matrix(ClosedErrors.conditioned(sd), 4);
        for (int i = 0; i < 4; i++) {
            for (int j = 0; j < 4; j++) {
                assertThat(matrix[i][j]).isCloseTo((i == j ? v[i] : 0) - v[i] * v[j] / 16, within(1e-9));
            }
        }
    }

    @Test
    void oneChildHasNoErrorAndTwoHaveOppositeOnes() {
        assertThat(ClosedErrors.closes(new double[] {0})).isTrue();
        assertThat(ClosedErrors.closes(new double[] {0.01})).isFalse();
        assertThat(ClosedErrors.closes(new double[] {0.01, 0.01})).isTrue();
        assertThat(ClosedErrors.closes(new double[] {0.01, 0.0101})).isFalse();
        assertThat(ClosedErrors.closes(new double[] {0.01, 0, 0.01})).isTrue();
        assertThat(ClosedErrors.closes(new double[] {0.01, 0, 0.02})).isFalse();
        ClosedErrors two = ClosedErrors.conditioned(new double[] {0.01, 0, 0.01});
        areClosed(two, 0.01, 0, 0.01);
        assertThat(matrix(two, 3)[0][2]).isCloseTo(-1e-4, within(1e-18));
        assertThat(two.isZero()).isFalse();
        ClosedErrors none = ClosedErrors.conditioned(new double[] {0, 0});
        assertThat(none.isZero()).isTrue();
        assertThat(none.draw(new Random(1))).containsExactly(new double[2], within(0.0));
        areClosed(ClosedErrors.conditioned(new double[] {0}), 0);
    }

    @Test
    void theSdsOfTwoChildrenMayDifferByNoiseAlone() {
        assertThat(ClosedErrors.closes(new double[] {0.01, 0.01 * (1 + 5e-10)})).isTrue();
        assertThat(ClosedErrors.closes(new double[] {0.01, 0.01 * (1 + 2e-9)})).isFalse();
        assertThat(ClosedErrors.closes(new double[] {0.01 * (1 + 2e-9), 0, 0.01}))
                .isFalse();
    }

    @Test
    void theMarginalSdsAreThoseGiven() {
        assertThat(ClosedErrors.conditioned(new double[] {0.02, 0.02, 0.01}).sds())
                .containsExactly(0.02, 0.02, 0.01);
        assertThat(ClosedErrors.balanced(new double[] {0.03, 0.02, 0.01}).sds()).containsExactly(0.03, 0.02, 0.01);
    }

    @ParameterizedTest
    @CsvSource({
        // 3-4-5 stands on the boundary: the largest is the independent sum of the others
        "3, 4, 5, false",
        "3, 4, 4.999999, true",
        "3, 4, 5.000001, false",
        "1, 1, 1, true"
    })
    void threeChildrenCloseBelowTheRootOfTheSumOfSquares(double a, double b, double c, boolean closes) {
        assertThat(ClosedErrors.closes(new double[] {a, b, c})).isEqualTo(closes);
        assertThat(ClosedErrors.closes(new double[] {c, b, a})).isEqualTo(closes);
    }

    @ParameterizedTest
    @CsvSource({"3, 4, 6", "3, 4, 7", "6, 3, 4", "4, 6, 3", "0.3976, 0.3578, 0.1988", "1, 1, 1", "3, 4, 5"})
    void standardErrorsOfThreeChildrenHaveTheOneCovarianceThereIs(double a, double b, double c) {
        double[] sd = {a, b, c};
        ClosedErrors errors = ClosedErrors.ofStandardErrors(sd);
        areClosed(errors, sd);
        double[][] matrix = matrix(errors, 3);
        for (int k = 0; k < 3; k++) {
            int i = (k + 1) % 3;
            int j = (k + 2) % 3;
            // of i + j + k = 0: var(k) = var(i) + var(j) + 2 cov(i, j)
            assertThat(matrix[i][j])
                    .isCloseTo((sd[k] * sd[k] - sd[i] * sd[i] - sd[j] * sd[j]) / 2, within(1e-12 * c * c + 1e-12));
        }
    }

    @Test
    void aLedChildTakesTheOppositeOfTheOthersWhichHaveOneCorrelation() {
        // 1, 2, 3 and 5: 25 = 14 + 2 r (2 + 3 + 6), so r is a half
        ClosedErrors errors = ClosedErrors.balanced(new double[] {1, 2, 5, 3});
        areClosed(errors, 1, 2, 5, 3);
        double[][] matrix = matrix(errors, 4);
        assertThat(matrix[0][1]).isCloseTo(1, within(1e-12));
        assertThat(matrix[0][3]).isCloseTo(1.5, within(1e-12));
        assertThat(matrix[1][3]).isCloseTo(3, within(1e-12));
        assertThat(matrix[0][2]).isCloseTo(-3.5, within(1e-12));
    }

    @Test
    void drawsOfConditionedErrorsHaveTheirCovariance() {
        double[] sd = {0.024, 0.024, 0.012, 0.001, 0.03};
        drawsHaveTheCovariance(ClosedErrors.conditioned(sd), sd.length, 20260101);
        // one child takes nearly all that the others give
        double[] near = {0.003, 0.004, 0.0049999};
        drawsHaveTheCovariance(ClosedErrors.conditioned(near), near.length, 20260102);
        double[] two = {0.02, 0, 0.02};
        drawsHaveTheCovariance(ClosedErrors.conditioned(two), two.length, 20260103);
    }

    @Test
    void drawsOfLedErrorsHaveTheirCovariance() {
        double[] sd = {0.001, 0.002, 0.005, 0.003};
        drawsHaveTheCovariance(ClosedErrors.ofStandardErrors(sd), sd.length, 20260104);
        double[] edge = {0.003, 0.007, 0.004};
        drawsHaveTheCovariance(ClosedErrors.ofStandardErrors(edge), edge.length, 20260105);
    }

    /** Tables with SDs or standard errors that shares adding up to 1 can't have. */
    @Nested
    class Impossible {
        private static final String COVARIANCE =
                "; correct them, or state the covariance in the resource residual-covariance";

        private static TableDefinition.Builder table() {
            return TableDefinition.builder("sds", "1")
                    .levels("cut")
                    .categories(Category.STEER)
                    .source(TestTables.source(TestTables.SOURCE))
                    .cut(Cut.of("steak", "Steak", "cut", CutKind.STEAK))
                    .cut(Cut.of("joint", "Joint", "cut", CutKind.JOINT))
                    .cut(Cut.of("bone", "Bone", "cut", CutKind.BONE));
        }

        private static TableDefinition.Builder row(
                TableDefinition.Builder builder, String cut, double sd, double level) {
            return builder.row(BreakdownRow.ROOT, cut, sd, TestTables.SOURCE, level);
        }

        private static TableDefinition.Builder three(double steak, double joint, double bone) {
            return row(row(row(table(), "steak", steak, 300), "joint", joint, 500), "bone", bone, 200);
        }

        private void refused(TableDefinition.Builder builder, String... problems) {
            TableDefinition definition = builder.build();
            InvalidTableException refusal =
                    catchThrowableOfType(InvalidTableException.class, () -> YieldTable.of(definition));
            assertThat(refusal).as("a refusal").isNotNull();
            assertThat(refusal.problems()).extracting(TableProblem::toString).containsExactlyInAnyOrder(problems);
        }

        @Test
        void aSingleChildWithAnSdIsRefused() {
            TableDefinition.Builder builder = TableDefinition.builder("sds", "1")
                    .levels("cut")
                    .categories(Category.STEER)
                    .source(TestTables.source(TestTables.SOURCE))
                    .cut(Cut.of("steak", "Steak", "cut", CutKind.STEAK))
                    .row(BreakdownRow.ROOT, "steak", 5, TestTables.SOURCE, 1000);
            refused(
                    builder,
                    "breakdown row 1, sd_g_per_kg \"5\": the SDs of the children of carcass can't belong to shares that"
                            + " add up to 1: steak varies more than all others together (a single child has SD 0)"
                            + COVARIANCE + " (category C)");
        }

        @Test
        void twoUnequalSdsAreRefusedNamingTheLarger() {
            TableDefinition small = TestTables.changeRow(TestTables.small(), 7, row -> sd(row, 6))
                    .build();
            refused(
                    small.toBuilder(),
                    "breakdown row 7, sd_g_per_kg \"6\": the SDs of the children of meat can't belong to shares that add"
                            + " up to 1: fore varies more than all others together (two children have equal SDs)"
                            + COVARIANCE + " (category CED)");
        }

        private static BreakdownRow sd(BreakdownRow row, double sd) {
            return new BreakdownRow(
                    row.category(), row.way(), row.parent(), row.cut(), row.coefficients(), sd, row.source());
        }

        @Test
        void oneOfThreeThatIsTooLargeIsRefusedWithTheFigureItMustStayBelow() {
            assertThat(YieldTable.of(three(3, 4, 4.99).build()).statesSds()).isTrue();
            refused(
                    three(3, 4, 5.5),
                    "breakdown row 3, sd_g_per_kg \"5.5\": the SDs of the children of carcass can't belong to shares"
                            + " that add up to 1: bone varies more than all others together (its SD is below 5, the"
                            + " root of the sum of the others' squares)" + COVARIANCE + " (category C)");
            // exactly on the boundary too: the largest would have to be all that the others give
            refused(
                    three(5, 4, 3),
                    "breakdown row 1, sd_g_per_kg \"5\": the SDs of the children of carcass can't belong to shares that"
                            + " add up to 1: steak varies more than all others together (its SD is below 5, the root of"
                            + " the sum of the others' squares)" + COVARIANCE + " (category C)");
        }

        @Test
        void theWayIsNamed() {
            TableDefinition three = TestTables.threeLevels();
            int steak = 0;
            for (int i = 0; i < three.breakdown().size(); i++) {
                steak = three.breakdown().get(i).cut().equals("rump-steak") ? i + 1 : steak;
            }
            // 15, 15, 15 and 2 g/kg stand beside it
            refused(
                    TestTables.changeRow(three, steak, row -> sd(row, 27)),
                    "breakdown row " + steak + ", sd_g_per_kg \"27\": the SDs of the children of rump in the way steaks"
                            + " can't belong to shares that add up to 1: rump-steak varies more than all others"
                            + " together (its SD is below 26.058, the root of the sum of the others' squares)"
                            + COVARIANCE + " (category CEAD)");
        }

        @Test
        void oneCellOfATableByClassIsEnough() {
            TableDefinition.Builder builder =
                    table().ranges(TestTables.range(7, 9, 7, 12, 150, 600), TestTables.range(7, 9, 7, 12, 150, 600));
            for (String fat : new String[] {"3", "4"}) {
                builder.row(new ClassRow("*", "*", BreakdownRow.ROOT, "R", fat, "steak", 300, 10, TestTables.SOURCE))
                        .row(new ClassRow("*", "*", BreakdownRow.ROOT, "R", fat, "joint", 500, 10, TestTables.SOURCE))
                        .row(new ClassRow(
                                "*",
                                "*",
                                BreakdownRow.ROOT,
                                "R",
                                fat,
                                "bone",
                                200,
                                fat.equals("3") ? 10 : 15,
                                TestTables.SOURCE));
            }
            TableDefinition definition = builder.build();
            InvalidTableException refusal =
                    catchThrowableOfType(InvalidTableException.class, () -> YieldTable.of(definition));
            assertThat(refusal).as("a refusal").isNotNull();
            assertThat(refusal.problems()).singleElement().satisfies(problem -> {
                assertThat(problem.resource()).isEqualTo("breakdown-by-class");
                assertThat(problem.value()).isEqualTo("15");
                assertThat(problem.message())
                        .contains("bone varies more than all others together (its SD is below 14.142,");
            });
        }

        @Test
        void aStandardErrorThatStandsAloneIsRefused() {
            refused(
                    three(3, 4, 4).coefficientNote(note("bone", "per_fat_point", 0.3)),
                    "breakdown, per_fat_point: the standard errors of the children of carcass can't belong to shares that"
                            + " add up to 1: the largest, 0.3, is above the sum of the others; state those of all"
                            + " children (category C)");
        }

        @Test
        void aStandardErrorAboveTheSumOfTheOthersIsRefused() {
            refused(
                    three(3, 4, 4)
                            .coefficientNote(note("steak", "per_fat_point", 0.2))
                            .coefficientNote(note("joint", "per_fat_point", 0.3))
                            .coefficientNote(note("bone", "per_fat_point", 0.51)),
                    "breakdown, per_fat_point: the standard errors of the children of carcass can't belong to shares that"
                            + " add up to 1: the largest, 0.51, is above the sum of the others; state those of all"
                            + " children (category C)");
            assertThat(YieldTable.of(three(3, 4, 4)
                                    .coefficientNote(note("steak", "per_fat_point", 0.2))
                                    .coefficientNote(note("joint", "per_fat_point", 0.3))
                                    .coefficientNote(note("bone", "per_fat_point", 0.5))
                                    .build())
                            .statesSds())
                    .isTrue();
        }

        private static CoefficientNote note(String cut, String term, double standardError) {
            return new CoefficientNote("*", "*", BreakdownRow.ROOT, cut, term, standardError, TestTables.SOURCE);
        }
    }
}
