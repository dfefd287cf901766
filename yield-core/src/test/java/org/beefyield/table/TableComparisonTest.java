package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SpecificationRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TableComparisonTest {
    private static final String SOURCE = TestTables.SOURCE;
    private static final TableRange FROM_FAT_3 = TestTables.range(1, 18, 3, 15, 150, 600);
    private static final TableDefinition SMALL =
            TestTables.small().toBuilder().ranges(FROM_FAT_3, FROM_FAT_3).build();
    private static final TableDefinition THREE = TestTables.threeLevels();

    private static TableComparison compare(TableDefinition first, TableDefinition second) {
        return TableComparison.of(YieldTable.of(first), YieldTable.of(second));
    }

    private static List<String> words(TableComparison comparison) {
        return comparison.changes().stream()
                .map(change -> change.kind().code() + ": " + change.words())
                .toList();
    }

    private static TableComparison.Difference at(TableComparison comparison, String level, String cut) {
        return comparison.differences().stream()
                .filter(difference ->
                        difference.level().equals(level) && difference.cut().equals(cut))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no " + cut + " at " + level));
    }

    private static BreakdownRow coefficients(BreakdownRow row, Double... coefficients) {
        return new BreakdownRow(
                row.category(),
                row.way(),
                row.parent(),
                row.cut(),
                List.of(coefficients),
                row.sdGPerKg(),
                row.source());
    }

    /** The small table whose meat gains 0.5 (c - 8) + (f - 8) + t g/kg from fat trim, but for cows. */
    private static TableDefinition meatier() {
        TableDefinition meat = TestTables.changeRow(SMALL, 1, row -> coefficients(row, 700.0, 8.5, -8.0, 6.0))
                .build();
        return TestTables.changeRow(meat, 2, row -> coefficients(row, 110.0, -1.5, 10.0, -1.0))
                .build();
    }

    @Test
    void aTableDoesNotDifferFromItself() {
        TableComparison same = compare(THREE, TestTables.threeLevels());
        assertThat(same.differences())
                .extracting(TableComparison.Difference::differenceGPerKg)
                .hasSize(4 + 7 + 10)
                .containsOnly(0.0);
        assertThat(same.notes()).isEmpty();
        assertThat(same.lost()).isEmpty();
        assertThat(same.within(0)).isTrue();
        assertThat(same.toString()).endsWith(": largest difference 0.00 g/kg");
    }

    @Test
    void theLargestDifferenceOfACutIsFoundWithItsPlace() {
        TableComparison comparison = compare(SMALL, meatier());
        TableComparison.Difference meat = at(comparison, "tissue", "meat");
        // 0.5 * 10 + 7 + 2.6; at the other corner -3.5 - 5 - 1.9
        assertThat(meat.differenceGPerKg()).isCloseTo(14.6, within(1e-9));
        assertThat(meat.category()).isEqualTo(Category.STEER);
        assertThat(meat.specification()).isEmpty();
        assertThat(meat.conformation()).isEqualTo(Conformation.third(18));
        assertThat(meat.fatClass()).isEqualTo(FatClass.third(15));
        assertThat(meat.weightKg()).isCloseTo(600, within(1e-9));
        assertThat(meat.where()).isEqualTo("category C, S+ 5+, 600 kg");
        assertThat(at(comparison, "tissue", "fat-trim").differenceGPerKg()).isCloseTo(-14.6, within(1e-9));
        assertThat(at(comparison, "tissue", "fat-trim").where()).isEqualTo("category C, S+ 5+, 600 kg");
        assertThat(at(comparison, "tissue", "bone").differenceGPerKg()).isZero();
        // 14.6 g/kg of meat, of which 560 - 10 + 20.8 g/kg are fore
        assertThat(at(comparison, "primal", "fore").differenceGPerKg()).isCloseTo(14.6 * 0.5708, within(1e-9));
        assertThat(at(comparison, "primal", "hind").differenceGPerKg()).isCloseTo(14.6 * 0.4292, within(1e-9));
    }

    @Test
    void theDifferenceIsThatOfTheSecondTableLessTheFirst() {
        TableComparison back = compare(meatier(), SMALL);
        assertThat(at(back, "tissue", "meat").differenceGPerKg()).isCloseTo(-14.6, within(1e-9));
        assertThat(at(back, "tissue", "meat").where()).isEqualTo("category C, S+ 5+, 600 kg");
    }

    @Test
    void theLowCornerIsFoundWhereTheDifferenceIsLargestThere() {
        // -(c - 8)/10 - (f - 8)/10 - t: 0.7 + 0.5 + 1.9 at the low corner, -1 - 0.7 - 2.6 at the high one; weights to
        // 400
        TableRange light = TestTables.range(1, 12, 3, 11, 150, 400);
        TableDefinition first = SMALL.toBuilder().ranges(light, light).build();
        TableDefinition meat = TestTables.changeRow(first, 1, row -> coefficients(row, 700.0, 7.9, -9.1, 4.0))
                .build();
        TableDefinition second = TestTables.changeRow(meat, 2, row -> coefficients(row, 110.0, -0.9, 11.1, 1.0))
                .build();
        TableComparison comparison = compare(first, second);
        assertThat(at(comparison, "tissue", "meat").differenceGPerKg()).isCloseTo(3.1, within(1e-9));
        assertThat(at(comparison, "tissue", "meat").where()).isEqualTo("category C, P- 1+, 150 kg");
    }

    @Test
    void aDifferenceInOneCategoryAloneIsFoundThere() {
        TableDefinition meat = TestTables.changeRow(SMALL, 5, row -> coefficients(row, 680.0, 8.5, -9.0, 5.0))
                .build();
        TableDefinition cows = TestTables.changeRow(meat, 6, row -> coefficients(row, 130.0, -1.5, 11.0, 0.0))
                .build();
        TableComparison.Difference difference = at(compare(SMALL, cows), "tissue", "meat");
        assertThat(difference.differenceGPerKg()).isCloseTo(5, within(1e-9));
        assertThat(difference.category()).isEqualTo(Category.COW);
        assertThat(difference.conformation()).isEqualTo(Conformation.third(18));
    }

    /** Two levels of a and b: a is 500 + 100 t g/kg of the carcass, and x as given of a. */
    private static TableDefinition quadratic(double x, double perHundredKg) {
        return TableDefinition.builder("quadratic", "1")
                .levels("l1", "l2")
                .categories(Category.STEER)
                .source(TestTables.source(SOURCE))
                .cut(Cut.of("a", "A", "l1", CutKind.MEAT))
                .cut(Cut.of("b", "B", "l1", CutKind.LOSS))
                .cut(Cut.of("x", "X", "l2", CutKind.PRIMAL))
                .cut(Cut.of("y", "Y", "l2", CutKind.PRIMAL))
                .row("carcass", "a", 0, SOURCE, 500, 0, 0, 100)
                .row("carcass", "b", 0, SOURCE, 500, 0, 0, -100)
                .row("a", "x", 0, SOURCE, x, 0, 0, perHundredKg)
                .row("a", "y", 0, SOURCE, 1000 - x, 0, 0, -perHundredKg)
                .build();
    }

    @Test
    void anExtremeBetweenTheEndsOfTheWeightsIsFoundInEitherDirection() {
        // (0.5 + 0.1 t) (0.1 - 0.06 t) = 0.05 - 0.02 t - 0.006 t^2: most at t = -5/3, 0.0667; 0.0663 at 150 kg
        TableComparison up = compare(quadratic(400, 50), quadratic(500, -10));
        assertThat(at(up, "l2", "x").differenceGPerKg()).isCloseTo(200.0 / 3, within(1e-9));
        assertThat(at(up, "l2", "x").weightKg()).isCloseTo(340 - 500.0 / 3, within(1e-9));
        assertThat(at(up, "l2", "x").where()).isEqualTo("category C, P- 1-, 173.333 kg");
        TableComparison down = compare(quadratic(500, -10), quadratic(400, 50));
        assertThat(at(down, "l2", "x").differenceGPerKg()).isCloseTo(-200.0 / 3, within(1e-9));
        assertThat(at(down, "l2", "x").where()).isEqualTo("category C, P- 1-, 173.333 kg");
    }

    /** Three levels whose shares are 0.5 + 0.1 t, 0.5 + 0.1 t and 0.5 - 0.1 t of each other, with t counted from 340 kg. */
    private static TableDefinition cubic(double referenceKg) {
        double t = (referenceKg - 340) / 100;
        TableDefinition.Builder builder = TableDefinition.builder("cubic", "1")
                .levels("l1", "l2", "l3")
                .reference(8, 8, referenceKg)
                .categories(Category.STEER)
                .source(TestTables.source(SOURCE));
        String parent = "carcass";
        for (int level = 1; level <= 3; level++) {
            double per100Kg = level < 3 ? 100 : -100;
            builder.cut(Cut.of("a" + level, "A", "l" + level, CutKind.MEAT))
                    .cut(Cut.of("b" + level, "B", "l" + level, CutKind.LOSS))
                    .row(parent, "a" + level, 0, SOURCE, 500 + per100Kg * t, 0, 0, per100Kg)
                    .row(parent, "b" + level, 0, SOURCE, 500 - per100Kg * t, 0, 0, -per100Kg);
            parent = "a" + level;
        }
        return builder.build();
    }

    @Test
    void theSameTableAboutAnotherReferenceWeightDoesNotDiffer() {
        assertThat(compare(cubic(340), cubic(490)).beyond(0)).isEmpty();
        assertThat(compare(cubic(490), cubic(290)).beyond(0)).isEmpty();
    }

    @Test
    void whatDiffersByNoiseAlonePrintsAsEqualWithoutASign() {
        TableComparison comparison = compare(cubic(340), cubic(417.3));
        assertThat(comparison.differences())
                .as("noise of either sign")
                .anyMatch(difference -> difference.differenceGPerKg() < 0);
        assertThat(comparison.toText())
                .contains("\nAll 9 shares of cuts at their levels: equal\nNothing changed\n")
                .doesNotContain("0.00");
    }

    @Test
    void theWeightOfADifferenceIsCountedFromTheReferenceOfTheFirstTable() {
        TableDefinition first =
                quadratic(400, 0).toBuilder().reference(8, 8, 300).build();
        // a of the first is 500 + 100 (w - 300)/100 and of the second 500 + 100 (w - 340)/100: 40 less everywhere
        TableComparison comparison = compare(first, quadratic(400, 0));
        assertThat(at(comparison, "l1", "a").differenceGPerKg()).isCloseTo(-40, within(1e-9));
        assertThat(at(comparison, "l2", "x").differenceGPerKg()).isCloseTo(-16, within(1e-9));
        TableComparison steeper = compare(quadratic(400, 0), quadratic(400, 10));
        // t (0.5 + 0.1 t) / 100: most at 600 kg
        assertThat(at(steeper, "l2", "x").differenceGPerKg()).isCloseTo(26 * 0.76, within(1e-9));
        assertThat(at(steeper, "l2", "x").weightKg()).isCloseTo(600, within(1e-9));
    }

    @Test
    void aCutThatOneTableLacksMovesByAllItIs() {
        // all 560 - (c - 8) + 8 t g/kg of the fore are split in two
        UnaryOperator<BreakdownRow> less = row -> coefficients(row, 460.0, -1.0, 0.0, 8.0);
        TableDefinition split = TestTables.changeRow(SMALL, 7, less)
                .cut(Cut.of("flank", "Flank", "primal", CutKind.PRIMAL))
                .row("meat", "flank", 5, SOURCE, 100)
                .build();
        TableComparison gained = compare(SMALL, split);
        // a tenth of the meat, most of it at S+ 1+ and 600 kg: 700 + 80 + 45 + 13
        assertThat(at(gained, "primal", "flank").differenceGPerKg()).isCloseTo(83.8, within(1e-9));
        assertThat(at(gained, "primal", "flank").where()).isEqualTo("category C, S+ 1+, 600 kg");
        assertThat(at(gained, "primal", "fore").differenceGPerKg()).isCloseTo(-83.8, within(1e-9));
        assertThat(words(gained)).containsExactly("additions: cut at level primal flank");
        assertThat(gained.lost()).isEmpty();
        ChangeBudget withMore = ChangeBudget.ofShares(83.81).allowing(TableChange.Kind.ADDITIONS);
        assertThat(gained.within(83.81)).as("a cut is new").isFalse();
        assertThat(gained.within(withMore)).isTrue();
        assertThat(gained.within(ChangeBudget.ofShares(83.79).allowing(TableChange.Kind.ADDITIONS)))
                .isFalse();

        TableComparison lost = compare(split, SMALL);
        assertThat(at(lost, "primal", "flank").differenceGPerKg()).isCloseTo(-83.8, within(1e-9));
        assertThat(lost.lost()).containsExactly("cut at level primal flank");
        assertThat(lost.beyond(1000)).isEmpty();
        assertThat(lost.within(1000)).as("whatever the budget").isFalse();
    }

    @Nested
    class Budget {
        @Test
        void onlyCutsThatMoveMoreGoBeyondIt() {
            TableComparison comparison = compare(SMALL, meatier());
            assertThat(comparison.beyond(7))
                    .extracting(TableComparison.Difference::cut)
                    .containsExactly("meat", "fat-trim", "fore", "fat-trim");
            assertThat(comparison.beyond(14.6)).as("just within").isEmpty();
            assertThat(comparison.within(14.6)).isTrue();
            assertThat(comparison.within(14.59)).isFalse();
        }

        @Test
        void aBudgetOfNothingIsExceededByAnyRealDifference() {
            TableDefinition hair =
                    TestTables.changeCoefficient(SMALL, 7, 0, 560.00001).build();
            TableDefinition second =
                    TestTables.changeCoefficient(hair, 8, 0, 439.99999).build();
            assertThat(compare(SMALL, second).within(0)).isFalse();
        }

        @ParameterizedTest
        @ValueSource(doubles = {-1, -0.001, Double.NaN})
        void aBudgetBelowNothingIsRefused(double budget) {
            TableComparison comparison = compare(SMALL, SMALL);
            assertThatThrownBy(() -> comparison.within(budget))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("budget " + budget + " g/kg is below 0");
        }
    }

    @Nested
    class Ranges {
        private TableDefinition small(TableRange range) {
            return SMALL.toBuilder().ranges(range, range).build();
        }

        @Test
        void aNarrowerRangeIsComparedWhereBothHaveItAndTheRestIsLost() {
            // meat differs by 0.5 (c - 8) + (f - 8) + t
            TableDefinition narrow = meatier().toBuilder()
                    .ranges(TestTables.range(2, 17, 4, 14, 200, 500), TestTables.range(2, 17, 4, 14, 200, 500))
                    .build();
            TableComparison comparison = compare(SMALL, narrow);
            assertThat(at(comparison, "tissue", "meat").differenceGPerKg()).isCloseTo(4.5 + 6 + 1.6, within(1e-9));
            assertThat(at(comparison, "tissue", "meat").where()).isEqualTo("category C, S= 5=, 500 kg");
            assertThat(comparison.notes())
                    .containsExactly(
                            "allowed conformation differs: 1 to 18 against 2 to 17; compared over 2 to 17",
                            "allowed fat differs: 3 to 15 against 4 to 14; compared over 4 to 14",
                            "allowed weight differs: 150 to 600 against 200 to 500; compared over 200 to 500");
            assertThat(comparison.lost())
                    .containsExactly(
                            "allowed conformation 1 to 18, now 2 to 17",
                            "allowed fat 3 to 15, now 4 to 14",
                            "allowed weight 150 to 600, now 200 to 500");
            assertThat(comparison.within(1000)).isFalse();
        }

        @Test
        void aWiderRangeLosesNothing() {
            TableComparison comparison = compare(SMALL, small(TestTables.range(1, 18, 2, 15, 140, 610)));
            assertThat(comparison.lost()).isEmpty();
            assertThat(comparison.notes())
                    .containsExactly(
                            "allowed fat differs: 3 to 15 against 2 to 15; compared over 3 to 15",
                            "allowed weight differs: 150 to 600 against 140 to 610; compared over 150 to 600");
            assertThat(words(comparison))
                    .containsExactly(
                            "ranges: fitted fat: 3 to 15, now 2 to 15",
                            "ranges: allowed fat: 3 to 15, now 2 to 15",
                            "ranges: fitted weight: 150 to 600, now 140 to 610",
                            "ranges: allowed weight: 150 to 600, now 140 to 610");
            assertThat(comparison.within(0)).isFalse();
            assertThat(comparison.within(ChangeBudget.ofShares(0).allowing(TableChange.Kind.RANGES)))
                    .isTrue();
        }

        @Test
        void aRangeCutAtOneEndAloneIsLost() {
            assertThat(compare(SMALL, small(TestTables.range(1, 18, 3, 15, 150, 599)))
                            .lost())
                    .containsExactly("allowed weight 150 to 600, now 150 to 599");
            assertThat(compare(SMALL, small(TestTables.range(1, 18, 3, 15, 151, 600)))
                            .lost())
                    .containsExactly("allowed weight 150 to 600, now 151 to 600");
        }

        @Test
        void oneCommonWeightIsEnoughAndNoneIsRefused() {
            TableDefinition light = small(TestTables.range(1, 18, 3, 15, 150, 400));
            TableDefinition heavy = small(TestTables.range(1, 18, 3, 15, 400, 600)).toBuilder()
                    .reference(8, 8, 400)
                    .build();
            TableComparison touching = compare(light, heavy);
            assertThat(touching.notes())
                    .containsExactly("allowed weight differs: 150 to 400 against 400 to 600; compared over 400 to 400");
            TableDefinition heavier = small(TestTables.range(1, 18, 3, 15, 401, 600)).toBuilder()
                    .reference(8, 8, 401)
                    .build();
            assertThatThrownBy(() -> compare(light, heavier))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("the tables have no weight in common: 150 to 400 against 401 to 600");
        }
    }

    @Nested
    class WhatOnlyOneHas {
        private final TableDefinition steers =
                TestTables.withoutRows(SMALL, 5, 6).categories(Category.STEER).build();

        @Test
        void categoriesOfOneTableAreNotedAndThoseOfTheFirstAreLost() {
            TableComparison fewer = compare(SMALL, steers);
            assertThat(fewer.changes()).isEmpty();
            assertThat(fewer.lost()).containsExactly("category E", "category D");
            TableComparison more = compare(steers, SMALL);
            assertThat(words(more)).containsExactly("additions: category E", "additions: category D");
            assertThat(more.lost()).isEmpty();
            assertThat(more.within(0)).isFalse();
            assertThat(more.within(ChangeBudget.ofShares(0).allowing(TableChange.Kind.ADDITIONS)))
                    .isTrue();
        }

        @Test
        void tablesWithoutACommonCategoryAreRefused() {
            TableDefinition bulls = TestTables.withoutRows(SMALL, 5, 6)
                    .categories(Category.BULL)
                    .build();
            assertThatThrownBy(() -> compare(steers, bulls))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("the tables have no category in common");
        }

        @Test
        void tablesWithoutACommonLevelAreRefused() {
            assertThatThrownBy(() -> compare(SMALL, quadratic(400, 50)))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("the tables have no level in common");
        }

        @Test
        void aLevelOfOneTableIsNotedAndTheOthersAreCompared() {
            TableDefinition.Builder tissues =
                    TestTables.withoutRows(SMALL, 7, 8).levels("tissue");
            TableDefinition one = TableDefinition.builder("tissues", "1")
                    .levels("tissue")
                    .categories(Category.STEER, Category.HEIFER, Category.COW)
                    .ranges(FROM_FAT_3, FROM_FAT_3)
                    .source(TestTables.source(SOURCE))
                    .cut(Cut.of("meat", "Meat", "tissue", CutKind.MEAT))
                    .cut(Cut.of("fat-trim", "Fat trim", "tissue", CutKind.FAT_TRIM))
                    .cut(Cut.of("bone", "Bone", "tissue", CutKind.BONE))
                    .cut(Cut.of("loss", "Loss", "tissue", CutKind.LOSS))
                    .build();
            TableDefinition.Builder rows = one.toBuilder();
            tissues.build().breakdown().forEach(rows::row);
            TableComparison comparison = compare(SMALL, rows.build());
            assertThat(comparison.lost()).containsExactly("level primal");
            assertThat(comparison.differences())
                    .extracting(TableComparison.Difference::cut)
                    .containsExactly("meat", "fat-trim", "bone", "loss");
            assertThat(comparison.beyond(0)).isEmpty();
        }

        @Test
        void differencesOfTheBasisAreNotedOneByOne() {
            TableDefinition first = SMALL.toBuilder()
                    .basis(Basis.NOT_STATED
                            .withQuartering("10-rib forequarter")
                            .withFatCoverMm(0.0)
                            .withAgeingDays(7.0)
                            .withBoneless(true))
                    .build();
            TableDefinition second = SMALL.toBuilder()
                    .basis(Basis.NOT_STATED
                            .withQuartering("8-rib forequarter")
                            .withHanging("hip")
                            .withFatCoverMm(10.0)
                            .withAgeingDays(14.5)
                            .withBoneless(false))
                    .build();
            assertThat(words(compare(first, second)))
                    .containsExactly(
                            "basis: quartering: 10-rib forequarter, now 8-rib forequarter",
                            "basis: hanging: not stated, now hip",
                            "basis: fat cover in mm: 0, now 10",
                            "basis: ageing in days: 7, now 14.5",
                            "basis: boneless: true, now false");
            assertThat(compare(first, second).notes())
                    .containsExactly(
                            "the tables differ in their basis; part of the change of a share may come from that");
            assertThat(compare(first, second).lost()).isEmpty();
        }
    }

    @Nested
    class Ways {
        /** Lean trim of the chuck when it is trimmed, and fat trim, changed by so many g per kg of chuck. */
        private TableDefinition trimmed(double more) {
            return TestTables.changeRows(THREE, row -> {
                        double change = row.way().equals("trim")
                                ? row.cut().equals("lean-trim")
                                        ? more
                                        : row.cut().equals("fat-trim") ? -more : 0
                                : 0;
                        Double[] coefficients = row.coefficients().toArray(new Double[0]);
                        coefficients[0] += change;
                        return coefficients(row, coefficients);
                    })
                    .build();
        }

        @Test
        void aWayThatNoSpecificationUsesIsComparedToo() {
            TableComparison comparison = compare(THREE, trimmed(20));
            TableComparison.Difference lean = at(comparison, "retail", "lean-trim");
            assertThat(lean.differenceGPerKg()).isGreaterThan(10);
            assertThat(lean.specification()).isEqualTo("chuck as trim");
            assertThat(lean.ways()).containsExactly(Map.entry("chuck", "trim"));
            assertThat(lean.where()).startsWith("category ").contains(", chuck as trim, ");
            assertThat(comparison.notes()).isEmpty();
            assertThat(comparison.within(10)).isFalse();
        }

        @Test
        void aDifferenceUnderOneSpecificationIsNamedWithIt() {
            TableDefinition joints = TestTables.changeRows(THREE, row -> {
                        Double[] coefficients = row.coefficients().toArray(new Double[0]);
                        if (row.way().equals("joints") && row.parent().equals("rump")) {
                            coefficients[0] += row.cut().equals("rump-joint")
                                    ? 10
                                    : row.cut().equals("lean-trim") ? -10 : 0;
                        }
                        return coefficients(row, coefficients);
                    })
                    .build();
            TableComparison.Difference joint = at(compare(THREE, joints), "retail", "rump-joint");
            assertThat(joint.specification()).isEqualTo("joints");
            assertThat(joint.differenceGPerKg()).isPositive();
        }

        @Test
        void aSpecificationThatCutsOtherwiseIsNoted() {
            List<SpecificationRow> rows = THREE.specifications().stream()
                    .map(row ->
                            row.specification().equals("steaks") && row.parent().equals("chuck")
                                    ? new SpecificationRow("steaks", "chuck", "trim")
                                    : row)
                    .toList();
            TableComparison comparison = compare(THREE, withSpecifications(rows));
            assertThat(words(comparison))
                    .containsExactly("specifications: specification steaks, chuck: dice, now trim");
            assertThat(comparison.lost()).isEmpty();
            assertThat(at(comparison, "retail", "dice").specification()).isEqualTo("steaks");
            assertThat(at(comparison, "retail", "dice").differenceGPerKg()).isLessThan(-200);
        }

        private TableDefinition withSpecifications(List<SpecificationRow> rows) {
            TableDefinition t = THREE;
            TableDefinition.Builder builder = TableDefinition.builder(t.name(), t.version())
                    .about(t.title(), t.description())
                    .levels(t.levels().toArray(String[]::new))
                    .reference(
                            t.reference().conformation(),
                            t.reference().fat(),
                            t.reference().weightKg())
                    .ranges(t.fitted(), t.allowed())
                    .widthFit(t.widthFit())
                    .categories(t.categories().toArray(Category[]::new))
                    .basis(t.basis());
            t.licenses().forEach(builder::license);
            t.terms().forEach(builder::term);
            t.decimals().forEach(builder::decimals);
            t.cuts().forEach(builder::cut);
            t.breakdown().forEach(builder::row);
            rows.forEach(row -> builder.specification(row.specification(), row.parent(), row.way()));
            t.quartering().forEach(builder::quartering);
            t.coefficientNotes().forEach(builder::coefficientNote);
            t.expectations().forEach(builder::expectation);
            t.names().forEach(builder::name);
            t.sources().forEach(builder::source);
            return builder.build();
        }

        @Test
        void aSpecificationOfOneTableIsNotedAndLost() {
            List<SpecificationRow> steaks = THREE.specifications().stream()
                    .filter(row -> row.specification().equals("steaks"))
                    .toList();
            TableComparison comparison = compare(THREE, withSpecifications(steaks));
            assertThat(comparison.lost()).containsExactly("cutting specification joints");
            assertThat(words(comparison)).isEmpty();
            assertThat(comparison.beyond(0)).isEmpty();
        }

        @Test
        void aWayThatIsGoneIsLostAndWhatBothHaveIsCompared() {
            TableDefinition.Builder without = THREE.toBuilder().clearBreakdown();
            THREE.breakdown().stream().filter(row -> !row.way().equals("trim")).forEach(without::row);
            TableComparison comparison = compare(THREE, without.build());
            assertThat(comparison.lost()).containsExactly("way \"trim\" of chuck");
            assertThat(words(comparison)).isEmpty();
            assertThat(comparison.beyond(0)).as("dice against dice").isEmpty();
            assertThat(compare(without.build(), THREE).lost()).isEmpty();
            assertThat(words(compare(without.build(), THREE))).containsExactly("additions: way \"trim\" of chuck");
            assertThat(compare(without.build(), THREE).beyond(0)).isEmpty();
        }

        /**
         * Two primals of 400 g/kg of carcass each, in the ways dice and trim; lean trim moved for dice in each way of the
         * first by what is given, and by the opposite in the second.
         */
        private TableDefinition opposite(double inDice, double inTrim) {
            TableDefinition.Builder builder = TableDefinition.builder("opposite", "1")
                    .levels("primal", "retail")
                    .categories(Category.STEER)
                    .source(TestTables.source(SOURCE))
                    .cut(Cut.of("chuck", "Chuck", "primal", CutKind.PRIMAL))
                    .cut(Cut.of("shin", "Shin", "primal", CutKind.PRIMAL))
                    .cut(Cut.of("dice", "Dice", "retail", CutKind.DICE))
                    .cut(Cut.of("lean-trim", "Lean trim", "retail", CutKind.LEAN_TRIM))
                    .cut(Cut.of("bone", "Bone", "primal", CutKind.BONE))
                    .row("carcass", "chuck", 0, SOURCE, 400)
                    .row("carcass", "shin", 0, SOURCE, 400)
                    .row("carcass", "bone", 0, SOURCE, 200);
            for (String parent : List.of("chuck", "shin")) {
                double sign = parent.equals("chuck") ? 1 : -1;
                builder.row("*", "dice", parent, "dice", 0, SOURCE, 700 - sign * inDice)
                        .row("*", "dice", parent, "lean-trim", 0, SOURCE, 300 + sign * inDice)
                        .row("*", "trim", parent, "dice", 0, SOURCE, 300 - sign * inTrim)
                        .row("*", "trim", parent, "lean-trim", 0, SOURCE, 700 + sign * inTrim);
            }
            for (String way : List.of("dice", "trim")) {
                builder.specification(way, "chuck", way).specification(way, "shin", way);
            }
            return builder.build();
        }

        @Test
        void leanTrimOfTwoPrimalsMovedInOppositeDirectionsIsFoundInAMixOfWays() {
            // 9.25 g/kg: 400 g/kg of chuck and of shin, by 11.5625 in the way dice and by -11.5625 in the way trim
            TableComparison comparison = compare(opposite(0, 0), opposite(11.5625, -11.5625));
            TableComparison.Difference lean = at(comparison, "retail", "lean-trim");
            assertThat(lean.differenceGPerKg()).isCloseTo(9.25, within(1e-9));
            assertThat(lean.specification()).isEqualTo("chuck as dice, shin as trim");
            assertThat(comparison.within(5)).isFalse();
            assertThat(comparison.within(9.25)).isTrue();
        }

        @Test
        void trimThatMovesByEightyGramsUnderNoSpecificationIsNotEqual() {
            TableComparison comparison = compare(opposite(0, 0), opposite(0, 200));
            TableComparison.Difference lean = at(comparison, "retail", "lean-trim");
            assertThat(Math.abs(lean.differenceGPerKg())).isCloseTo(80, within(1e-9));
            assertThat(lean.ways()).hasSize(2).containsValues("dice", "trim");
            assertThat(comparison.toText()).containsPattern("lean-trim +retail +[-+]80\\.00 ");
            assertThat(comparison.within(79.9)).isFalse();
        }

        @Test
        void aCutThatSharesNoWayIsComparedInItsOwn() {
            TableDefinition renamed = TestTables.changeRows(
                            withSpecifications(List.of()),
                            row -> row.parent().equals("chuck")
                                    ? new BreakdownRow(
                                            row.category(),
                                            row.way() + "-2",
                                            row.parent(),
                                            row.cut(),
                                            row.coefficients(),
                                            row.sdGPerKg(),
                                            row.source())
                                    : row)
                    .build();
            TableComparison comparison = compare(withSpecifications(List.of()), renamed);
            assertThat(comparison.lost()).containsExactly("way \"dice\" of chuck", "way \"trim\" of chuck");
            assertThat(comparison.beyond(0)).as("dice against dice-2").isEmpty();
            assertThat(comparison.notes())
                    .containsExactly(
                            "chuck has no way in common: compared as dice against dice-2, trim against trim-2");
        }
    }

    @Nested
    class ForPeople {
        private final TableComparison comparison = compare(
                SMALL,
                meatier().toBuilder()
                        .basis(Basis.NOT_STATED.withQuartering("<x>"))
                        .build());
        private final String title = "Table "
                + YieldTable.of(meatier().toBuilder()
                                .basis(Basis.NOT_STATED.withQuartering("<x>"))
                                .build())
                        .identity()
                + " against " + YieldTable.of(SMALL).identity();

        @Test
        void theTextHasALineForEachCutAndTheNotesBelow() {
            assertThat(comparison.toText()).isEqualTo(title + "\n\n" + """
                    cut       level   largest difference, g/kg  where
                    ---------------------------------------------------------------------
                    meat      tissue                    +14.60  category C, S+ 5+, 600 kg
                    fat-trim  tissue                    -14.60  category C, S+ 5+, 600 kg
                    fore      primal                     +8.33  category C, S+ 5+, 600 kg
                    hind      primal                     +6.27  category C, S+ 5+, 600 kg
                    fat-trim  primal                    -14.60  category C, S+ 5+, 600 kg
                    4 other shares of cuts at their levels: equal

                    Basis: 1 change
                      quartering: not stated, now <x>
                    Note: the tables differ in their basis; part of the change of a share may come from that
                    """);
        }

        @Test
        void theHtmlHasTheSameFiguresAndEscapesTheNotes() {
            assertThat(comparison.toHtml())
                    .startsWith("<h2>" + title + "</h2>\n<div style=\"overflow-x:auto;margin:1em 0\">\n<table")
                    .contains(">+14.60</td>", ">category C, S+ 5+, 600 kg</td>")
                    .endsWith("""
                            </table>
                            </div>
                            <p>4 other shares of cuts at their levels: equal</p>
                            <p>Basis: 1 change</p>
                            <ul>
                            <li>quartering: not stated, now &lt;x&gt;</li>
                            </ul>
                            <p>Note: the tables differ in their basis; part of the change of a share may come from that</p>
                            """);
        }

        @Test
        void oneLineNamesBothTablesAndTheLargestDifference() {
            assertThat(comparison).hasToString(title + ": largest difference 14.60 g/kg, 1 other change");
        }
    }
}
