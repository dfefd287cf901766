package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class UncertaintyTest {
    private static final YieldTable SMALL = YieldTable.of(TestTables.small());

    /** Standard errors of three columns, beside those that the table has of a primal's weight column. */
    private static final TableDefinition WITH_STANDARD_ERRORS = standardErrors(TestTables.threeLevels());

    private static final YieldTable THREE = YieldTable.of(WITH_STANDARD_ERRORS);

    private static TableDefinition standardErrors(TableDefinition table) {
        TableDefinition.Builder builder = table.toBuilder();
        for (String term : List.of("per_conformation_point", "per_fat_point", "fat_by_100kg")) {
            note(builder, "*", "meat", term, 0.4);
            note(builder, "D", "meat", term, 0.4);
            note(builder, "*", "fat-trim", term, 0.5);
            note(builder, "D", "fat-trim", term, 0.5);
            note(builder, "*", "bone", term, 0.3);
        }
        return builder.build();
    }

    private static void note(
            TableDefinition.Builder builder, String category, String cut, String term, double standardError) {
        builder.coefficientNote(
                new CoefficientNote(category, "*", "carcass", cut, term, standardError, TestTables.SOURCE));
    }

    /** The same table with every SD times a factor. */
    private static YieldTable sds(TableDefinition table, double factor) {
        TableDefinition.Builder builder = table.toBuilder().clearBreakdown();
        table.breakdown()
                .forEach(row -> builder.row(new BreakdownRow(
                        row.category(),
                        row.way(),
                        row.parent(),
                        row.cut(),
                        row.coefficients(),
                        factor * row.sdGPerKg(),
                        row.source())));
        return YieldTable.of(builder.build());
    }

    private static Carcass carcass(Category category, String conformation, String fatClass, double kg) {
        return Carcass.of(category, Conformation.parse(conformation), FatClass.parse(fatClass), kg);
    }

    private static Carcass steer(String conformation, String fatClass, double kg) {
        return carcass(Category.STEER, conformation, fatClass, kg);
    }

    /** Every cut at every level, every kind, mince and saleable meat. */
    static Map<String, Figure> figures(Outturn outturn) {
        Map<String, Figure> figures = new LinkedHashMap<>();
        for (String level : outturn.table().levels()) {
            for (CutLine line : outturn.lines(level)) {
                figures.put(
                        line.cut().code() + " at " + level,
                        Figure.cut(level, line.cut().code()));
            }
        }
        for (CutKind kind : CutKind.values()) {
            figures.put("kind " + kind, Figure.kind(kind));
        }
        figures.put("saleable meat", Figure.saleable());
        return figures;
    }

    @Nested
    class AgainstSampling {
        private static final int DRAWS = 20_000;

        /** Beyond this many standard errors a figure of draws with a fixed seed is no chance. */
        private static final double CHANCE = 4.5;

        /** What first-order propagation leaves out, as a part of the SD. */
        private static final double SECOND_ORDER = 0.005;

        private static double mean(double[] kg) {
            double sum = 0;
            for (double one : kg) {
                sum += one;
            }
            return sum / kg.length;
        }

        private static double covariance(double[] a, double[] b) {
            double meanA = mean(a);
            double meanB = mean(b);
            double sum = 0;
            for (int i = 0; i < a.length; i++) {
                sum += (a[i] - meanA) * (b[i] - meanB);
            }
            return sum / (a.length - 1);
        }

        private static void agrees(YieldEstimate estimate, long seed) {
            CarcassSample sample = estimate.sample(new Random(seed), DRAWS);
            // truncation at zero is another matter: hardly a draw in a thousand is touched by it here
            assertThat(sample.rejected()).isLessThan(DRAWS / 1000);
            figures(estimate).forEach((name, figure) -> {
                double[] kg = sample.kg(figure);
                double sd = estimate.sd(figure);
                assertThat(mean(kg))
                        .as("mean of " + name)
                        .isCloseTo(estimate.kg(figure), within((CHANCE / Math.sqrt(DRAWS) + 0.01) * sd + 1e-9));
                assertThat(Math.sqrt(covariance(kg, kg)))
                        .as("SD of " + name)
                        .isCloseTo(sd, within((CHANCE / Math.sqrt(2.0 * DRAWS) + SECOND_ORDER) * sd + 1e-9));
            });
            covariancesAgree(estimate, sample);
        }

        private static void covariancesAgree(YieldEstimate estimate, CarcassSample sample) {
            List<CutLine> lines = estimate.lines("retail");
            List<double[]> drawn = lines.stream()
                    .map(line -> sample.kg(Figure.cut("retail", line.cut().code())))
                    .toList();
            for (int i = 0; i < lines.size(); i++) {
                for (int j = 0; j < i; j++) {
                    Figure a = Figure.cut("retail", lines.get(i).cut().code());
                    Figure b = Figure.cut("retail", lines.get(j).cut().code());
                    double size = estimate.sd(a) * estimate.sd(b);
                    assertThat(covariance(drawn.get(i), drawn.get(j)))
                            .as("covariance of " + lines.get(i).cut() + " and "
                                    + lines.get(j).cut())
                            .isCloseTo(
                                    estimate.covariance(a, b),
                                    within((CHANCE * Math.sqrt(2.0 / DRAWS) + SECOND_ORDER) * size + 1e-9));
                    assertThat(estimate.covariance(b, a))
                            .isCloseTo(estimate.covariance(a, b), within(1e-12 * size + 1e-18));
                }
            }
        }

        /** Half of the table's SDs, so that truncation at zero has nothing to do. */
        private static YieldEstimator everything() {
            return YieldEstimator.of(sds(WITH_STANDARD_ERRORS, 0.5)).with(new ScaleError(1.5, 1));
        }

        @Test
        void everyCutAndKindOfACarcassInThirds() {
            agrees(everything().estimate(steer("R+", "3-", 380)), 1);
            agrees(everything().withSpecification("joints").estimate(carcass(Category.COW, "O=", "4-", 290)), 2);
        }

        @Test
        void everyCutAndKindOfACarcassInWholeClasses() {
            agrees(everything().estimate(steer("R", "3", 420)), 3);
        }

        @Test
        void everyCutAndKindWithMince() {
            YieldEstimate estimate =
                    everything().with(MinceTarget.fatPercent(25)).estimate(steer("R", "3+", 380));
            Mince mince = estimate.mince().orElseThrow();
            assertThat(mince.fatTrimKg()).isGreaterThan(2);
            assertThat(mince.isShortOfFatTrim()).isFalse();
            agrees(estimate, 4);
        }

        @Test
        void betweenCarcassesAlone() {
            // at the reference the columns that have standard errors are multiplied by 0
            YieldEstimate estimate =
                    YieldEstimator.of(sds(WITH_STANDARD_ERRORS, 0.5)).estimate(steer("R=", "3=", 340));
            alone(estimate, UncertaintyPart.BETWEEN_CARCASSES);
            agrees(estimate, 5);
        }

        @Test
        void coefficientsAlone() {
            YieldEstimate estimate =
                    YieldEstimator.of(sds(WITH_STANDARD_ERRORS, 0)).estimate(steer("U-", "2+", 470));
            alone(estimate, UncertaintyPart.COEFFICIENTS);
            agrees(estimate, 6);
        }

        @Test
        void gradeResolutionAlone() {
            YieldEstimate estimate =
                    YieldEstimator.of(sds(TestTables.small(), 0)).estimate(steer("R", "3", 470));
            alone(estimate, UncertaintyPart.GRADE_RESOLUTION);
            CarcassSample sample = estimate.sample(new Random(7), DRAWS);
            for (String cut : List.of("meat", "fore", "hind", "fat-trim", "bone")) {
                double[] kg = sample.kg(Figure.cut(cut));
                assertThat(Math.sqrt(covariance(kg, kg)))
                        .as(cut)
                        .isCloseTo(estimate.sd(cut), within(0.02 * estimate.sd(cut)));
            }
            // the same point estimate, and no error of the grade's resolution
            YieldEstimate thirds = YieldEstimator.of(sds(TestTables.small(), 0)).estimate(steer("R=", "3=", 470));
            assertThat(thirds.kg("meat")).isEqualTo(estimate.kg("meat"));
            assertThat(thirds.sd("meat")).isZero();
        }

        @Test
        void theScaleAlone() {
            YieldEstimator estimator = YieldEstimator.of(sds(TestTables.threeLevels(), 0));
            YieldEstimate repeatability = estimator.with(new ScaleError(2, 0)).estimate(steer("R=", "3=", 340));
            alone(repeatability, UncertaintyPart.SCALE_REPEATABILITY);
            agrees(repeatability, 8);
            YieldEstimate bias = estimator.with(new ScaleError(0, 3)).estimate(steer("U=", "3=", 340));
            alone(bias, UncertaintyPart.SCALE_BIAS);
            agrees(bias, 9);
        }

        private static void alone(YieldEstimate estimate, UncertaintyPart only) {
            figures(estimate).forEach((name, figure) -> {
                assertThat(estimate.sd(figure, only)).as(name).isCloseTo(estimate.sd(figure), within(1e-9));
                for (UncertaintyPart part : UncertaintyPart.values()) {
                    if (part != only) {
                        assertThat(estimate.sd(figure, part))
                                .as(name + " " + part)
                                .isCloseTo(0, within(1e-9));
                    }
                }
            });
            assertThat(estimate.sd(Figure.cut("meat"), only)).isGreaterThan(0.5);
        }
    }

    @Nested
    class OneCarcass {
        @Test
        void theSdOfMeatIsTheTablesOwnTimesTheWeight() {
            // 20 g/kg of 350 kg; the slopes of this table have no standard errors
            YieldEstimate estimate = YieldEstimator.of(SMALL).estimate(steer("R=", "3=", 350));
            assertThat(estimate.sd("meat")).isCloseTo(7, within(1e-12));
            assertThat(estimate.sd("bone")).isCloseTo(3.5, within(1e-12));
            // fore primal: 560.8 g/kg of the meat with SD 5, times 700.5 g/kg, all at 350 kg
            double fore = 350 * Math.hypot(0.5608 * 0.020, 0.7005 * 0.005);
            assertThat(estimate.sd("fore")).isCloseTo(fore, within(1e-12));
        }

        @Test
        void partsAddUpAsSquares() {
            YieldEstimate estimate =
                    YieldEstimator.of(THREE).with(new ScaleError(1, 2)).estimate(steer("U", "2", 410));
            figures(estimate).forEach((name, figure) -> {
                double sum = 0;
                for (UncertaintyPart part : UncertaintyPart.values()) {
                    sum += estimate.sd(figure, part) * estimate.sd(figure, part);
                }
                assertThat(estimate.sd(figure)).as(name).isCloseTo(Math.sqrt(sum), within(1e-12));
                assertThat(estimate.covariance(figure, figure)).as(name).isCloseTo(sum, within(1e-10));
            });
        }

        @ParameterizedTest
        @CsvSource({
            "0.5, 0.6744897501960817",
            "0.8, 1.2815515655446004",
            "0.9, 1.6448536269514722",
            "0.95, 1.959963984540054"
        })
        void theIntervalIsNormal(double probability, double z) {
            YieldEstimate estimate = YieldEstimator.of(THREE).estimate(steer("R=", "3=", 340));
            Interval interval = estimate.interval(Figure.cut("striploin"), probability);
            assertThat(interval.probability()).isEqualTo(probability);
            assertThat(interval.high() - estimate.kg("striploin"))
                    .isCloseTo(z * estimate.sd("striploin"), within(1e-9));
            assertThat(estimate.kg("striploin") - interval.low()).isCloseTo(z * estimate.sd("striploin"), within(1e-9));
            assertThat(estimate.interval("striploin", probability)).isEqualTo(interval);
            assertThat(interval.contains(interval.low())).isTrue();
            assertThat(interval.contains(interval.high() + 1e-9)).isFalse();
        }

        @Test
        void anIntervalIsReadAloud() {
            assertThat(new Interval(4.6149, 5.375, 0.9)).hasToString("4.61 to 5.38 (90 %)");
            assertThat(new Interval(-1, 1200, 0.9995)).hasToString("-1.00 to 1200.00 (99.95 %)");
        }

        @Test
        void anIntervalOfACutDoesNotReachBelowZero() {
            // retail dice of the joints: 20 % of nothing much; of loss 6 g/kg with SD 6 there would be negative
            // kilograms
            TableDefinition.Builder builder = TableDefinition.builder("loss", "1")
                    .levels("cut")
                    .categories(Category.STEER)
                    .source(TestTables.source(TestTables.SOURCE))
                    .cut(Cut.of("steak", "Steak", "cut", CutKind.STEAK))
                    .cut(Cut.of("joint", "Joint", "cut", CutKind.JOINT))
                    .cut(Cut.of("loss", "Loss", "cut", CutKind.LOSS))
                    .row("carcass", "steak", 10, TestTables.SOURCE, 500)
                    .row("carcass", "joint", 10, TestTables.SOURCE, 494)
                    .row("carcass", "loss", 6, TestTables.SOURCE, 6);
            YieldEstimate estimate =
                    YieldEstimator.of(YieldTable.of(builder.build())).estimate(steer("R=", "3=", 300));
            Interval loss = estimate.interval("loss", 0.9);
            assertThat(loss.low()).isZero();
            assertThat(loss.high()).isCloseTo(1.8 + 1.6448536 * 1.8, within(1e-6));
            CutLine line = estimate.lines("cut").get(2);
            assertThat(List.of(
                            estimate.interval(CutKind.LOSS, 0.9),
                            estimate.interval("cut", "loss", 0.9),
                            estimate.interval(Figure.cut("loss"), 0.9),
                            estimate.interval(Figure.cut("cut", "loss"), 0.9),
                            estimate.interval(Figure.kind(CutKind.LOSS), 0.9),
                            estimate.interval(
                                    Figure.cut("loss")
                                            .times(0.5)
                                            .plus(Figure.kind(CutKind.LOSS).times(0.5)),
                                    0.9),
                            line.interval(0.9)))
                    .containsOnly(loss);
            assertThat(line.code()).isEqualTo("loss");
            assertThat(line.sdKg()).isEqualTo(estimate.sd("loss")).isEqualTo(estimate.sd("cut", "loss"));
            // as costs, and beside a cut that counts for less than 0, nothing stops at 0
            assertThat(estimate.interval(Figure.cut("loss").times(-1), 0.9).high())
                    .isCloseTo(-1.8 + 1.6448536 * 1.8, within(1e-6));
            assertThat(estimate.interval(
                                    Figure.cut("loss").plus(Figure.cut("steak").times(-1e-9)), 0.9)
                            .low())
                    .isCloseTo(1.8 - 1.6448536 * 1.8, within(1e-6));
        }

        @ParameterizedTest
        @CsvSource({"0", "1", "-0.1", "90", "NaN"})
        void aProbabilityOutsideZeroToOneIsRefused(double probability) {
            YieldEstimate estimate = YieldEstimator.of(SMALL).estimate(steer("R=", "3=", 350));
            assertThatThrownBy(() -> estimate.interval("meat", probability))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("probability " + probability + " is outside 0 to 1 (both excluded)");
        }

        @Test
        void figuresAddUpAndScale() {
            YieldEstimate estimate = YieldEstimator.of(THREE).estimate(steer("R", "3", 400));
            Figure fore = Figure.cut("primal", "brisket").plus(Figure.cut("primal", "chuck"));
            assertThat(estimate.kg(fore)).isCloseTo(estimate.kg("brisket") + estimate.kg("chuck"), within(1e-12));
            double variance = square(estimate.sd("brisket"))
                    + square(estimate.sd("chuck"))
                    + 2 * estimate.covariance(Figure.cut("brisket"), Figure.cut("chuck"));
            assertThat(estimate.sd(fore)).isCloseTo(Math.sqrt(variance), within(1e-10));
            assertThat(estimate.kg(fore.times(-4.5))).isCloseTo(-4.5 * estimate.kg(fore), within(1e-12));
            assertThat(estimate.sd(fore.times(-4.5))).isCloseTo(4.5 * estimate.sd(fore), within(1e-10));
            assertThat(estimate.kg(Figure.saleable())).isCloseTo(estimate.saleableKg(), within(1e-12));
            assertThat(estimate.kg(Figure.kind(CutKind.STEAK))).isCloseTo(estimate.kg(CutKind.STEAK), within(1e-12));
            assertThat(estimate.sd(CutKind.STEAK)).isEqualTo(estimate.sd(Figure.kind(CutKind.STEAK)));
            assertThatThrownBy(() -> estimate.sd("stripoin"))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageStartingWith("no cut \"stripoin\"");
        }

        /** What adds up to the carcass is as sure as its weight. */
        @Test
        void allCutsOfALevelTogetherVaryOnlyWithTheScale() {
            for (YieldEstimator estimator : List.of(
                    YieldEstimator.of(THREE),
                    YieldEstimator.of(THREE).with(MinceTarget.fatPercent(25)),
                    YieldEstimator.of(THREE).withSpecification("joints"))) {
                for (Outturn outturn : List.<Outturn>of(
                        estimator.estimate(carcass(Category.COW, "O", "4", 310)),
                        estimator.estimateLot(List.of(steer("R", "3", 310), carcass(Category.COW, "U-", "2+", 450))))) {
                    for (String level : outturn.table().levels()) {
                        assertThat(outturn.sd(all(outturn, level))).as(level).isCloseTo(0, within(1e-6));
                    }
                }
                YieldEstimate weighed =
                        estimator.with(new ScaleError(3, 4)).estimate(carcass(Category.COW, "O", "4", 310));
                for (String level : weighed.table().levels()) {
                    assertThat(weighed.sd(all(weighed, level))).as(level).isCloseTo(5, within(1e-7));
                }
            }
        }

        private static Figure all(Outturn outturn, String level) {
            List<CutLine> lines = outturn.lines(level);
            Figure all = Figure.cut(level, lines.get(0).cut().code());
            for (CutLine line : lines.subList(1, lines.size())) {
                all = all.plus(Figure.cut(level, line.cut().code()));
            }
            return all;
        }

        @Test
        void saleableMeatAndTheRestMoveAgainstEachOther() {
            YieldEstimate estimate = YieldEstimator.of(THREE).estimate(steer("R=", "3=", 340));
            Figure rest = Figure.kind(CutKind.FAT_TRIM)
                    .plus(Figure.kind(CutKind.BONE))
                    .plus(Figure.kind(CutKind.LOSS));
            assertThat(estimate.sd(rest)).isCloseTo(estimate.sd(Figure.saleable()), within(1e-9));
            assertThat(estimate.covariance(rest, Figure.saleable()))
                    .isCloseTo(-square(estimate.sd(rest)), within(1e-8));
        }

        private static double square(double x) {
            return x * x;
        }
    }

    @Nested
    class GradeResolution {
        private static double kg(YieldEstimator estimator, String cut, double conformation, double fat) {
            return estimator
                    .estimate(Carcass.of(
                            Category.STEER, Conformation.ofPosition(conformation, 1), FatClass.ofPosition(fat, 1), 400))
                    .kg(cut);
        }

        /** Variance of a position spread evenly over the width beyond that of the data, times the slope squared. */
        private static double sd(double slopeC, double widthC, double slopeF, double widthF) {
            return Math.sqrt(((widthC * widthC - 1) * slopeC * slopeC + (widthF * widthF - 1) * slopeF * slopeF) / 12);
        }

        @Test
        void aWholeClassIsWiderThanAThird() {
            YieldEstimator estimator = YieldEstimator.of(THREE);
            YieldEstimate whole = estimator.estimate(steer("R", "3", 400));
            YieldEstimate third = estimator.estimate(steer("R=", "3=", 400));
            for (String cut : List.of("meat", "fat-trim", "striploin", "rump-steak", "lean-trim")) {
                assertThat(whole.kg(cut)).isEqualTo(third.kg(cut));
                double slopeC = (kg(estimator, cut, 9.5, 8) - kg(estimator, cut, 6.5, 8)) / 3;
                double slopeF = (kg(estimator, cut, 8, 9.5) - kg(estimator, cut, 8, 6.5)) / 3;
                assertThat(whole.sd(Figure.cut(cut), UncertaintyPart.GRADE_RESOLUTION))
                        .as(cut)
                        .isCloseTo(sd(slopeC, 3, slopeF, 3), within(1e-9));
                assertThat(third.sd(Figure.cut(cut), UncertaintyPart.GRADE_RESOLUTION))
                        .isZero();
                assertThat(whole.sd(cut)).isGreaterThan(third.sd(cut));
                Interval wide = whole.interval(cut, 0.9);
                Interval narrow = third.interval(cut, 0.9);
                assertThat(wide.low()).isLessThan(narrow.low());
                assertThat(wide.high()).isGreaterThan(narrow.high());
            }
        }

        @Test
        void aHalfLiesBetweenThirdAndWhole() {
            YieldEstimator estimator = YieldEstimator.of(SMALL);
            Figure meat = Figure.cut("meat");
            double[] sds = new double[3];
            double[] widths = {1, 1.5, 3};
            for (int i = 0; i < 3; i++) {
                YieldEstimate estimate = estimator.estimate(Carcass.of(
                        Category.STEER, Conformation.ofPosition(8, widths[i]), FatClass.ofPosition(8, 1), 340));
                sds[i] = estimate.sd(meat, UncertaintyPart.GRADE_RESOLUTION);
                // meat rises by 8 g/kg per point
                assertThat(sds[i]).isCloseTo(340 * 0.008 * Math.sqrt((widths[i] * widths[i] - 1) / 12), within(1e-12));
            }
            assertThat(sds[0]).isZero();
        }

        @Test
        void theSlopeIsCutAtTheEndsOfTheRange() {
            YieldEstimator estimator = YieldEstimator.of(THREE);
            YieldEstimate best = estimator.estimate(steer("S", "1", 400));
            for (String cut : List.of("meat", "fat-trim", "striploin")) {
                // the class S covers 15.5 to 18.5 and class 1 0.5 to 3.5, of which 18 and 1 are the ends
                double slopeC = (kg(estimator, cut, 18, 2) - kg(estimator, cut, 15.5, 2)) / 2.5;
                double slopeF = (kg(estimator, cut, 17, 3.5) - kg(estimator, cut, 17, 1)) / 2.5;
                assertThat(best.sd(Figure.cut(cut), UncertaintyPart.GRADE_RESOLUTION))
                        .as(cut)
                        .isCloseTo(sd(slopeC, 3, slopeF, 3), within(1e-9));
            }
        }

        @Test
        void aTableFittedToWholeClassesHasThatErrorInItsSdsAlready() {
            YieldTable whole =
                    YieldTable.of(TestTables.small().toBuilder().widthFit(3).build());
            YieldEstimate estimate = YieldEstimator.of(whole).estimate(steer("R", "3", 340));
            assertThat(estimate.sd(Figure.cut("meat"), UncertaintyPart.GRADE_RESOLUTION))
                    .isZero();
            assertThat(estimate.sd("meat"))
                    .isEqualTo(YieldEstimator.of(whole)
                            .estimate(steer("R=", "3=", 340))
                            .sd("meat"));
        }
    }

    @Nested
    class Lots {
        @ParameterizedTest
        @EnumSource(UncertaintyPart.class)
        void aLotOfOneIsTheEstimate(UncertaintyPart part) {
            YieldEstimator estimator =
                    YieldEstimator.of(THREE).with(new ScaleError(1, 2)).with(MinceTarget.fatPercent(25));
            Carcass carcass =
                    Carcass.of(Category.HEIFER, Conformation.ofPosition(9.4, 1.5), FatClass.ofPosition(6.7, 3), 377.5);
            YieldEstimate one = estimator.estimate(carcass);
            LotEstimate lot = estimator.estimateLot(List.of(carcass));
            figures(one).forEach((name, figure) -> {
                assertThat(lot.kg(figure)).as(name).isCloseTo(one.kg(figure), within(1e-10));
                assertThat(lot.sd(figure, part)).as(name).isCloseTo(one.sd(figure, part), within(1e-10));
            });
        }

        /** Some errors average out over a lot and some never do. */
        @ParameterizedTest
        @CsvSource({
            "BETWEEN_CARCASSES, 0.5",
            "COEFFICIENTS, 1",
            "GRADE_RESOLUTION, 0.5",
            "SCALE_REPEATABILITY, 0.5",
            "SCALE_BIAS, 1"
        })
        void theSdGrowsWithThisPowerOfTheNumber(UncertaintyPart part, double power) {
            YieldEstimator estimator = YieldEstimator.of(THREE).with(new ScaleError(1, 2));
            Carcass carcass = steer("U", "2", 410);
            for (String cut : List.of("meat", "rump", "striploin-steak", "fat-trim", "bone")) {
                Figure figure = Figure.cut(cut);
                double one = estimator.estimate(carcass).sd(figure, part);
                assertThat(one).as(cut).isPositive();
                for (int n : new int[] {4, 25, 400}) {
                    LotEstimate lot = estimator.estimateLot(Collections.nCopies(n, carcass));
                    assertThat(lot.sd(figure, part))
                            .as(cut + " of " + n)
                            .isCloseTo(one * Math.pow(n, power), within(1e-9 * n));
                }
            }
        }

        @Test
        void aBiasOfTheScaleIsTheSameInEveryCarcass() {
            // 3 kg too much on each of n carcasses is 3n kg of carcass, however many there are
            YieldEstimator estimator = YieldEstimator.of(SMALL).with(new ScaleError(4, 3));
            for (int n : new int[] {1, 10, 1000}) {
                LotEstimate lot = estimator.estimateLot(Collections.nCopies(n, steer("R=", "3=", 340)));
                Figure all = Figure.cut("tissue", "meat")
                        .plus(Figure.cut("tissue", "fat-trim"))
                        .plus(Figure.cut("tissue", "bone"))
                        .plus(Figure.cut("tissue", "loss"));
                assertThat(lot.sd(all, UncertaintyPart.SCALE_BIAS)).isCloseTo(3 * n, within(1e-9 * n));
                assertThat(lot.sd(all, UncertaintyPart.SCALE_REPEATABILITY))
                        .isCloseTo(4 * Math.sqrt(n), within(1e-9 * n));
                // per carcass it never falls below 3
                assertThat(lot.sd(all) / n).isCloseTo(Math.sqrt(9 + 16.0 / n), within(1e-6));
            }
        }

        @Test
        void theScaleErrorTakesTheChangeOfAShareWithWeightAlong() {
            YieldEstimator estimator = YieldEstimator.of(SMALL).with(new ScaleError(0, 3));
            DoubleUnaryOperator fore =
                    kg -> estimator.estimate(steer("R=", "3=", kg)).kg("fore");
            double perKg = (fore.applyAsDouble(420 + 1e-3) - fore.applyAsDouble(420 - 1e-3)) / 2e-3;
            assertThat(estimator.estimate(steer("R=", "3=", 420)).sd(Figure.cut("fore"), UncertaintyPart.SCALE_BIAS))
                    .isCloseTo(3 * perKg, within(1e-6));
        }

        @Test
        void rowsThatCategoriesShareErrAlikeInAll() {
            // meat is broken down by the same rows in steers and cows, with standard errors of the weight column;
            // carcasses
            // at the reference grade, so that the columns of the carcass are multiplied by 0 but for fat by weight
            YieldEstimator estimator = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));
            Figure rump = Figure.cut("rump");
            Carcass steer = steer("R=", "3=", 480);
            Carcass cow = carcass(Category.COW, "R=", "3=", 480);
            double ofSteer = estimator.estimate(steer).sd(rump, UncertaintyPart.COEFFICIENTS);
            double ofCow = estimator.estimate(cow).sd(rump, UncertaintyPart.COEFFICIENTS);
            assertThat(ofSteer).isPositive();
            assertThat(estimator.estimateLot(List.of(steer, cow)).sd(rump, UncertaintyPart.COEFFICIENTS))
                    .isCloseTo(ofSteer + ofCow, within(1e-9));
        }

        @Test
        void carcassesAreCountedByWholeClasses() {
            LotEstimate lot = YieldEstimator.of(THREE)
                    .estimateLot(List.of(
                            steer("R=", "3=", 340),
                            steer("R", "3+", 350),
                            carcass(Category.COW, "O-", "4", 300),
                            Carcass.of(
                                    Category.STEER, Conformation.ofPosition(9.4, 1), FatClass.ofPosition(6.6, 1), 360),
                            steer("U-", "3-", 350)));
            assertThat(lot.counts())
                    .containsExactly(
                            Map.entry(new GradeCell(Category.STEER, "U", 3), 1L),
                            Map.entry(new GradeCell(Category.STEER, "R", 3), 3L),
                            Map.entry(new GradeCell(Category.COW, "O", 4), 1L));
        }

        @Test
        void notesAreCountsWithTheExtremeCase() {
            LotEstimate lot = YieldEstimator.of(SMALL)
                    .estimateLot(List.of(
                            steer("S-", "3=", 340),
                            steer("S+", "3=", 220),
                            steer("E+", "3=", 225),
                            steer("P-", "3=", 340)));
            assertThat(lot.rangeNotes()).extracting(LotNote::carcasses).containsExactly(4L, 2L);
            assertThat(lot.rangeNotes())
                    .extracting(note -> note.extreme().value())
                    .containsExactly(18.0, 220.0);
            assertThat(lot.outsideFitted()).isEqualTo(4);
        }

        /** What stays on the heap is asked of the machine itself: a float for each carcass would be 4 MB. */
        @Test
        void aMillionCarcassesKeepNoMoreMemoryThanTen() {
            YieldEstimator estimator = YieldEstimator.of(THREE);
            List<LotEstimate.Collector> kept = new ArrayList<>();
            long[] grown = new long[2];
            for (int i = 0; i < 2; i++) {
                long before = heap();
                kept.add(collected(estimator, i == 0 ? 10 : 1_000_000));
                grown[i] = heap() - before;
            }
            assertThat(grown[1]).isLessThan(grown[0] + 2_000_000);
            LotEstimate ten = kept.get(0).lot();
            LotEstimate million = kept.get(1).lot();
            assertThat(million.carcasses()).isEqualTo(1_000_000);
            assertThat(million.counts()).hasSameSizeAs(ten.counts());
            for (String cut : List.of("meat", "striploin-steak", "bone")) {
                assertThat(million.kg(cut)).isCloseTo(100_000 * ten.kg(cut), within(1e-7));
                assertThat(million.sd(Figure.cut(cut), UncertaintyPart.BETWEEN_CARCASSES))
                        .isCloseTo(
                                Math.sqrt(100_000) * ten.sd(Figure.cut(cut), UncertaintyPart.BETWEEN_CARCASSES),
                                within(1e-7));
            }
        }

        private static LotEstimate.Collector collected(YieldEstimator estimator, int carcasses) {
            LotEstimate.Collector collector = estimator.collector();
            for (int i = 0; i < carcasses; i++) {
                int which = i % 10;
                collector.add(Carcass.of(
                        Category.STEER,
                        Conformation.ofPosition(5 + 0.7 * which, 1),
                        FatClass.ofPosition(6 + 0.3 * which, 1),
                        300 + 11.3 * which));
            }
            return collector;
        }

        private static long heap() {
            for (int i = 0; i < 3; i++) {
                System.gc();
            }
            return Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory();
        }
    }

    /** A single carcass at whole positions takes its variances from what was kept; a lot of it never does. */
    @ParameterizedTest
    @CsvSource({"C, R=, 3=, 340", "C, R, 3, 391.5", "D, O-, 4+, 288", "E, U+, 2-, 401.25", "E, O, 5, 266"})
    void whatIsKeptOfAGradeIsWhatTheSumsGive(String category, String conformation, String fatClass, double kg) {
        YieldEstimator estimator =
                YieldEstimator.of(THREE).with(new ScaleError(1, 2)).with(MinceTarget.fatPercent(25));
        for (double weight : new double[] {kg, kg + 12.5}) {
            Carcass carcass = carcass(Category.parse(category), conformation, fatClass, weight);
            YieldEstimate one = estimator.estimate(carcass);
            LotEstimate lot = estimator.estimateLot(List.of(carcass));
            figures(one).forEach((name, figure) -> {
                assertThat(one.sd(figure)).as(name).isCloseTo(lot.sd(figure), within(1e-10));
                assertThat(one.sd(figure) * one.sd(figure))
                        .as(name)
                        .isCloseTo(one.covariance(figure, figure), within(1e-10));
            });
        }
    }
}
