package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.util.Map;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.carcass.GradeReading;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.Variable;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class YieldEstimatorTest {
    private static final YieldTable SMALL = YieldTable.of(TestTables.small());
    private static final YieldTable THREE = YieldTable.of(TestTables.threeLevels());

    private static Carcass carcass(String category, String conformation, String fatClass, double kg) {
        return Carcass.of(Category.parse(category), Conformation.parse(conformation), FatClass.parse(fatClass), kg);
    }

    @Nested
    class Grades {
        @ParameterizedTest
        @CsvSource({"S, S=", "E, E=", "U, U=", "R, R=", "O, O=", "P, P="})
        void aWholeConformationClassIsItsMiddleThird(String whole, String third) {
            YieldEstimator estimator = YieldEstimator.of(SMALL);
            YieldEstimate one = estimator.estimate(carcass("C", whole, "3=", 340));
            YieldEstimate other = estimator.estimate(carcass("C", third, "3=", 340));
            for (CutLine line : one.lines("primal")) {
                assertThat(other.kg(line.cut().code())).isEqualTo(line.kg());
            }
        }

        @ParameterizedTest
        @CsvSource({"1, 1=", "2, 2=", "3, 3=", "4, 4=", "5, 5="})
        void aWholeFatClassIsItsMiddleThird(String whole, String third) {
            YieldEstimator estimator = YieldEstimator.of(SMALL);
            YieldEstimate one = estimator.estimate(carcass("C", "R=", whole, 340));
            YieldEstimate other = estimator.estimate(carcass("C", "R=", third, 340));
            for (CutLine line : one.lines("primal")) {
                assertThat(other.kg(line.cut().code())).isEqualTo(line.kg());
            }
        }

        @Test
        void aHalfClassLiesBetweenTwoNodes() {
            // 4H at 11.75: a quarter of 4= (11) and three quarters of 4+ (12)
            YieldEstimator estimator = YieldEstimator.of(SMALL);
            double half = estimator.estimate(carcass("C", "R=", "4H", 340)).kg("fat-trim");
            assertThat(half)
                    .isCloseTo(
                            0.25
                                            * estimator
                                                    .estimate(carcass("C", "R=", "4=", 340))
                                                    .kg("fat-trim")
                                    + 0.75
                                            * estimator
                                                    .estimate(carcass("C", "R=", "4+", 340))
                                                    .kg("fat-trim"),
                            within(1e-12));
            assertThat(half).isCloseTo(0.340 * (110 + 11 * 3.75), within(1e-12));
        }

        @Test
        void aUPlusMeansWhatItsReadingSays() {
            YieldEstimator estimator = YieldEstimator.of(SMALL);
            Carcass halves = Carcass.of(
                    Category.STEER, Conformation.parse("U+", GradeReading.HALVES), FatClass.parse("3="), 340);
            assertThat(estimator.estimate(halves).kg("meat")).isCloseTo(0.340 * (700 + 8 * 3.75), within(1e-12));
            assertThat(estimator.estimate(carcass("C", "U+", "3=", 340)).kg("meat"))
                    .isCloseTo(0.340 * (700 + 8 * 4), within(1e-12));
        }

        @Test
        void aGradingMachinesPositionIsTakenAsItIs() {
            Carcass machine =
                    Carcass.of(Category.STEER, Conformation.ofPosition(7.4, 0), FatClass.ofPosition(9.1, 0), 300);
            assertThat(YieldEstimator.of(SMALL).estimate(machine).kg("meat"))
                    .isCloseTo(0.300 * (700 - 8 * 0.6 - 9 * 1.1 - 5 * 0.4), within(1e-12));
        }

        @Test
        void theCategoryDecidesTheRows() {
            YieldEstimator estimator = YieldEstimator.of(SMALL);
            assertThat(estimator.estimate(carcass("D", "R=", "3=", 340)).kg("meat"))
                    .isCloseTo(340 * 0.680, within(1e-12));
            assertThat(estimator.estimate(carcass("E", "R=", "3=", 340)).kg("meat"))
                    .isCloseTo(340 * 0.700, within(1e-12));
        }
    }

    @Nested
    class Ranges {
        private final YieldEstimator estimator = YieldEstimator.of(SMALL);

        @Test
        void insideTheFittedRangeThereIsNoNote() {
            assertThat(estimator.estimate(carcass("C", "P=", "1+", 230)).rangeNotes())
                    .isEmpty();
            assertThat(estimator.estimate(carcass("C", "E=", "5-", 500)).rangeNotes())
                    .isEmpty();
            assertThat(estimator.estimate(carcass("C", "E=", "5-", 500)).notes())
                    .isEmpty();
        }

        @ParameterizedTest
        @CsvSource(
                delimiter = '|',
                value = {
                    "P-|3=|340|conformation P- is 1 point outside the fitted range P= to E=",
                    "S+|3=|340|conformation S+ is 4 points outside the fitted range P= to E=",
                    "R=|1-|340|fat class 1- is 2 points outside the fitted range 1+ to 5-",
                    "R=|5=|340|fat class 5= is 1 point outside the fitted range 1+ to 5-",
                    "R=|3=|229.5|cold weight 229.5 kg is 0.5 kg outside the fitted range 230 to 500 kg",
                    "R=|3=|600|cold weight 600 kg is 100 kg outside the fitted range 230 to 500 kg"
                })
        void aCarcassOutsideTheFittedRangeIsEstimatedWithANote(
                String conformation, String fatClass, double kg, String note) {
            YieldEstimate estimate = estimator.estimate(carcass("C", conformation, fatClass, kg));
            assertThat(estimate.rangeNotes()).hasSize(1);
            assertThat(estimate.notes()).containsExactly(note);
            assertThat(estimate.kg("meat")).isPositive();
        }

        @Test
        void aHalfPointOutsideIsSaidSo() {
            Carcass machine = Carcass.of(Category.STEER, Conformation.ofPosition(14.5, 0), FatClass.third(8), 340);
            assertThat(estimator.estimate(machine).notes())
                    .containsExactly("conformation 14.5p is 0.5 points outside the fitted range P= to E=");
        }

        @Test
        void eachVariableOutsideGetsItsNote() {
            YieldEstimate estimate = estimator.estimate(carcass("C", "S=", "5+", 550));
            assertThat(estimate.rangeNotes())
                    .extracting(RangeNote::variable)
                    .containsExactly(Variable.CONFORMATION, Variable.FAT, Variable.WEIGHT);
            assertThat(estimate.rangeNotes()).extracting(RangeNote::distance).containsExactly(3.0, 2.0, 50.0);
            assertThat(estimate.rangeNotes().get(2))
                    .isEqualTo(new RangeNote(Variable.WEIGHT, 550, new Range(230, 500)));
        }

        @ParameterizedTest
        @CsvSource(
                delimiter = '|',
                value = {
                    "149.5|cold weight 149.5 kg is 0.5 kg outside the allowed range 150 to 600 kg",
                    "700|cold weight 700 kg is 100 kg outside the allowed range 150 to 600 kg"
                })
        void aCarcassOutsideTheAllowedWeightsIsRefused(double kg, String message) {
            assertThatThrownBy(() -> estimator.estimate(carcass("C", "R=", "3=", kg)))
                    .isInstanceOf(RefusedCarcassException.class)
                    .hasMessage(message);
            // also when another variable is merely outside the fitted range
            assertThatThrownBy(() -> estimator.estimate(carcass("C", "S=", "5+", kg)))
                    .isInstanceOf(RefusedCarcassException.class)
                    .hasMessage(message);
        }

        @Test
        void aCarcassOutsideTheAllowedGradesIsRefused() {
            YieldEstimator narrow = YieldEstimator.of(YieldTable.of(TestTables.small().toBuilder()
                    .ranges(TestTables.range(4, 12, 5, 11, 250, 450), TestTables.range(4, 12, 5, 11, 200, 500))
                    .build()));
            assertThatThrownBy(() -> narrow.estimate(carcass("C", "P=", "3=", 340)))
                    .isInstanceOf(RefusedCarcassException.class)
                    .hasMessage("conformation P= is 2 points outside the allowed range O- to U+");
            assertThatThrownBy(() -> narrow.estimate(carcass("C", "E-", "3=", 340)))
                    .hasMessage("conformation E- is 1 point outside the allowed range O- to U+");
            assertThatThrownBy(() -> narrow.estimate(carcass("C", "R=", "5-", 340)))
                    .hasMessage("fat class 5- is 2 points outside the allowed range 2= to 4=");
            assertThat(narrow.estimate(carcass("C", "O-", "4=", 500)).rangeNotes())
                    .hasSize(1);
        }

        @Test
        void theCallerMayRefuseWhatLiesOutsideTheFittedRange() {
            YieldEstimator strict = estimator.with(RangePolicy.REFUSE_OUTSIDE_FITTED);
            assertThatThrownBy(() -> strict.estimate(carcass("C", "R=", "1-", 340)))
                    .isInstanceOf(RefusedCarcassException.class)
                    .hasMessage("fat class 1- is 2 points outside the fitted range 1+ to 5-");
            assertThat(strict.estimate(carcass("C", "R=", "1+", 340)).rangeNotes())
                    .isEmpty();
            assertThat(strict.with(RangePolicy.NOTE_OUTSIDE_FITTED)
                            .estimate(carcass("C", "R=", "1-", 340))
                            .rangeNotes())
                    .hasSize(1);
        }

        @Test
        void aCategoryThatIsNotServedIsRefused() {
            assertThatThrownBy(() -> estimator.estimate(carcass("Z", "R=", "3=", 200)))
                    .isInstanceOf(RefusedCarcassException.class)
                    .hasMessage("category Z is not served by table small, which serves C E D");
        }
    }

    @Nested
    class Specifications {
        private final YieldEstimator estimator = YieldEstimator.of(THREE);
        private final Carcass carcass = carcass("C", "U=", "3=", 360);

        @Test
        void theFirstOfTheTableIsUsedUnlessAnotherIsChosen() {
            assertThat(estimator.specification()).isEqualTo(THREE.specification("steaks"));
            assertThat(estimator.estimate(carcass).specification()).hasToString("steaks");
            YieldEstimate joints = estimator.withSpecification("joints").estimate(carcass);
            assertThat(joints.kg("striploin-steak")).isZero();
            assertThat(joints.kg("striploin-joint"))
                    .isCloseTo(joints.kg("striploin") * (0.840 + 0.002 * 0.2), within(1e-9));
        }

        @Test
        void oneCutMayBeBrokenDownAnotherWay() {
            YieldEstimate mixed = estimator.with("striploin", "joints").estimate(carcass);
            assertThat(mixed.specification()).hasToString("steaks, striploin as joints");
            YieldEstimate steaks = estimator.estimate(carcass);
            YieldEstimate joints = estimator.withSpecification("joints").estimate(carcass);
            assertThat(mixed.kg("striploin-joint")).isEqualTo(joints.kg("striploin-joint"));
            assertThat(mixed.kg("rump-steak")).isEqualTo(steaks.kg("rump-steak"));
            assertThat(mixed.kg("rump-joint")).isZero();
        }

        @Test
        void aSpecificationOfTheCallersOwnIsTaken() {
            CuttingSpecification own =
                    CuttingSpecification.of("ours", Map.of("striploin", "steaks", "rump", "joints", "chuck", "trim"));
            YieldEstimate estimate = estimator.with(own).estimate(carcass);
            assertThat(estimate.specification()).isEqualTo(own);
            // nothing but the trim of the chuck and the others' trimmings
            assertThat(estimate.kg("dice")).isCloseTo(estimate.kg("striploin") * 0.040, within(1e-9));
            assertThat(estimate.kg("rump-joint")).isPositive();
        }

        @Test
        void unknownAndIncompleteOnesAreRefusedInWords() {
            assertThatThrownBy(() -> estimator.withSpecification("roasts"))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("no cutting specification \"roasts\" in table three-levels; it has steaks, joints");
            assertThatThrownBy(() -> estimator.with("striploin", "dice"))
                    .hasMessage("no way \"dice\" of striploin; its ways: joints, steaks");
            assertThatThrownBy(() -> estimator.with("brisket", "joints"))
                    .hasMessage("\"brisket\" has no ways to choose from; cuts that have: striploin, rump, chuck");
            assertThatThrownBy(() -> estimator.with(CuttingSpecification.of("half", Map.of("rump", "joints"))))
                    .hasMessage(
                            "cutting specification \"half\" is incomplete: no way is given for striploin (joints, steaks), chuck (dice, trim)");
        }

        @Test
        void aTableWithWaysAndNoSpecificationNeedsOneOfTheCallers() {
            TableDefinition.Builder builder = TableDefinition.builder("bare", "1")
                    .levels("cut")
                    .categories(Category.STEER)
                    .source(TestTables.source(TestTables.SOURCE))
                    .cut(Cut.of("steak", "Steak", "cut", CutKind.STEAK))
                    .cut(Cut.of("dice", "Dice", "cut", CutKind.DICE))
                    .row("*", "steaks", "carcass", "steak", 0, TestTables.SOURCE, 1000)
                    .row("*", "dice", "carcass", "dice", 0, TestTables.SOURCE, 1000);
            YieldTable table = YieldTable.of(builder.build());
            assertThatThrownBy(() -> YieldEstimator.of(table))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("table bare needs a cutting specification: no way is given for carcass (dice, steaks)");
            CuttingSpecification dice = CuttingSpecification.of("dice", Map.of("carcass", "dice"));
            YieldEstimator estimator = YieldEstimator.of(table, dice);
            assertThat(estimator.specification()).isEqualTo(dice);
            YieldEstimate estimate = estimator.estimate(carcass("C", "R=", "3=", 300));
            assertThat(estimate.kg("dice")).isCloseTo(300, within(1e-9));
            assertThat(estimate.kg("steak")).isZero();
            assertThatThrownBy(() ->
                            YieldEstimator.of(table, CuttingSpecification.of("joints", Map.of("carcass", "joints"))))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("no way \"joints\" of carcass; its ways: dice, steaks");
        }

        @Test
        void aChangedCopyLeavesTheOriginalAlone() {
            YieldEstimator changed = estimator
                    .withSpecification("joints")
                    .with(MinceTarget.fatPercent(20))
                    .with(RangePolicy.REFUSE_OUTSIDE_FITTED)
                    .with("chuck", "trim");
            assertThat(changed.minceTarget()).contains(MinceTarget.fatPercent(20));
            assertThat(changed.specification()).hasToString("joints, chuck as trim");
            assertThat(changed.table()).isSameAs(THREE);
            assertThatThrownBy(() -> changed.estimate(carcass("C", "S+", "3=", 340)))
                    .isInstanceOf(RefusedCarcassException.class);
            assertThat(estimator.minceTarget()).isEmpty();
            assertThat(estimator.specification()).hasToString("steaks");
            assertThat(estimator.estimate(carcass("C", "S+", "3=", 340)).rangeNotes())
                    .hasSize(1);
        }
    }

    @Test
    void itTravelsByItsCoefficients() throws IOException, ClassNotFoundException {
        YieldEstimator estimator = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()))
                .withSpecification("joints")
                .with(MinceTarget.fatPercent(20))
                .with(new ScaleError(0.5, 0.2));
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
            out.writeObject(estimator);
        }
        YieldEstimator arrived;
        try (ObjectInputStream in = new ObjectInputStream(new ByteArrayInputStream(bytes.toByteArray()))) {
            arrived = (YieldEstimator) in.readObject();
        }
        Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("U-"), FatClass.parse("4L"), 351.5);

        // a grid of three levels takes far more
        assertThat(bytes.size()).isLessThan(20_000);
        assertThat(arrived.table()).isEqualTo(estimator.table());
        assertThat(arrived).hasToString(estimator.toString());
        assertThat(arrived.estimate(carcass).kg(CutKind.MINCE))
                .isEqualTo(estimator.estimate(carcass).kg(CutKind.MINCE));
        assertThat(arrived.estimate(carcass).sd("rump"))
                .isEqualTo(estimator.estimate(carcass).sd("rump"));
    }
}
