package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.DoubleStream;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Typos are not rounding, and rounding is. */
class ColumnSumTest {
    private static final int LEVEL = 0;
    private static final int CONFORMATION = 1;
    private static final int FAT = 2;

    /** A breakdown of small children whose slopes are 0, but for two. */
    private static TableDefinition.Builder children(int children) {
        TableDefinition.Builder table = TableDefinition.builder("children", "1")
                .levels("part")
                .categories(Category.STEER)
                .source(TestTables.source(TestTables.SOURCE));
        for (int k = 0; k < children; k++) {
            table.cut(Cut.of("p" + k, "Part " + k, "part", CutKind.PRIMAL))
                    .row(
                            "carcass",
                            "p" + k,
                            0,
                            TestTables.SOURCE,
                            level(children, k),
                            k == 0 ? 8.2 : k == 1 ? -8.2 : 0);
        }
        return table;
    }

    /** Two that are large enough for their slopes. */
    private static double level(int children, int child) {
        int each = 600 / Math.max(1, children - 2);
        return child > 1 ? each : child == 1 ? 200 : 800 - each * (children - 2.0);
    }

    private static TableDefinition.Builder more(int children, int child, int column, double more) {
        TableDefinition table = children(children).build();
        double now = table.breakdown().get(child).coefficients().get(column);
        // a typed number has no binary noise in it
        return TestTables.changeCoefficient(table, child + 1, column, Math.rint((now + more) * 1000) / 1000);
    }

    private static List<String> refusal(TableDefinition.Builder table) {
        InvalidTableException refused =
                catchThrowableOfType(InvalidTableException.class, () -> YieldTable.of(table.build()));
        assertThat(refused).as("a refusal").isNotNull();
        return refused.problems().stream().map(TableProblem::toString).toList();
    }

    private static double taken(TableDefinition.Builder table) {
        return YieldTable.of(table.build()).closingCorrections().stream()
                .mapToDouble(ClosingCorrection::excess)
                .sum();
    }

    /** Half a unit each could come to 9; the SD of 18 roundings is 1.22 units, 4 of which make 4 whole units. */
    @ParameterizedTest
    @CsvSource({"1, 0", "2, 1", "4, 2", "6, 2", "7, 3", "12, 4", "18, 4", "19, 5", "27, 6", "30, 6"})
    void roundingExplainsFourOfItsSdsInWholeUnits(int numbers, int units) {
        assertThat(ColumnSum.explained(numbers, 0)).isEqualTo(units);
        assertThat(ColumnSum.explained(numbers, 3)).isCloseTo(units / 1000.0, within(1e-15));
    }

    @Test
    void aTenthTypedWrongInASlopeOfManyChildrenIsRefusedWithItsRows() {
        // 8.2 for 8.1: a gram at E+ and at S+, where rounding alone would have excused 0.4 a point
        assertThat(refusal(more(18, 0, CONFORMATION, -0.1).decimals("per_conformation_point", 1)))
                .containsExactly(
                        "breakdown, per_conformation_point \"-0.1\": the children of carcass add up to -0.1 g/kg per"
                                + " point of conformation, not 0; at most 0.05 is taken for rounding, which is 0.5 g/kg at an end"
                                + " of the allowed range; they are p0 8.1, p1 -8.2, p2 0, p3 0, p4 0, p5 0, p6 0, p7 0, p8 0,"
                                + " p9 0, p10 0, p11 0, p12 0, p13 0, p14 0, p15 0, p16 0, p17 0 (category C) (rows 1 to 18)");
        assertThat(refusal(more(18, 2, FAT, 0.1).decimals("per_fat_point", 1)))
                .singleElement()
                .asString()
                .contains("add up to 0.1 g/kg per point of fat, not 0; at most 0.0714 is taken for rounding");
    }

    @Test
    void wholeNumbersCloseAsTheyStandOrNotAtAll() {
        assertThat(refusal(more(18, 3, LEVEL, 1).decimals("level_g_per_kg", 0)))
                .singleElement()
                .asString()
                .contains("add up to 1001 g/kg, not 1000; at most 0.5 is taken for rounding; they are p0 ");
        assertThat(refusal(more(18, 3, CONFORMATION, 1).decimals("per_conformation_point", 0)))
                .singleElement()
                .asString()
                .contains("add up to 1 g/kg per point of conformation, not 0; at most 0.05 is taken for rounding");
        assertThat(YieldTable.of(children(18).decimals("level_g_per_kg", 0).build())
                        .closingCorrections())
                .isEmpty();
    }

    @Test
    void whatRoundingExplainsAndMovesLittleIsTakenOff() {
        assertThat(taken(more(18, 3, LEVEL, 0.4).decimals("level_g_per_kg", 1))).isCloseTo(0.4, within(1e-9));
        assertThat(refusal(more(18, 3, LEVEL, 0.5).decimals("level_g_per_kg", 1)))
                .singleElement()
                .asString()
                .contains("add up to 1000.5 g/kg, not 1000; rounding explains at most 0.4; they are");
        // 30 children explain 0.6, which is more than half a gram
        assertThat(taken(more(30, 3, LEVEL, 0.5).decimals("level_g_per_kg", 1))).isCloseTo(0.5, within(1e-9));
        assertThat(refusal(more(30, 3, LEVEL, 0.6).decimals("level_g_per_kg", 1)))
                .singleElement()
                .asString()
                .contains("add up to 1000.6 g/kg, not 1000; at most 0.5 is taken for rounding; they are");
    }

    @Test
    void theReachOfASlopeIsThatOfTheAllowedRange() {
        // 2 points to each side of the reference: 0.2 g/kg
        assertThat(taken(more(18, 0, CONFORMATION, -0.1)
                        .decimals("per_conformation_point", 1)
                        .ranges(TestTables.range(6, 10, 6, 10, 150, 600), TestTables.range(6, 10, 6, 10, 150, 600))))
                .isCloseTo(-0.1, within(1e-9));
    }

    @Test
    void columnsThatTogetherTakeAGramAreRefusedEach() {
        // 0.4 g/kg each: at S+ 5+ they make 1.1, at the weight of the reference
        TableDefinition.Builder level = more(18, 3, LEVEL, 0.4);
        TableDefinition.Builder slopes = TestTables.changeCoefficient(level.build(), 5, CONFORMATION, 0.04)
                .decimals("level_g_per_kg", 1)
                .decimals("per_conformation_point", 2)
                .decimals("per_fat_point", 2);
        assertThat(YieldTable.of(slopes.build()).closingCorrections()).hasSize(2);
        TableDefinition.Builder three = TestTables.changeCoefficient(slopes.build(), 6, FAT, 0.04);
        assertThat(refusal(three))
                .hasSize(3)
                .allSatisfy(problem -> assertThat(problem)
                        .contains(
                                "; with the other columns that are off it comes to 1.08 g/kg in the allowed range; less"
                                        + " than 1 g/kg is taken for rounding; they are p0 ")
                        .endsWith(" (category C) (rows 1 to 18)"));
    }

    @Test
    void finerNumbersThanDeclaredCountAsTheyStand() {
        // 4 hundredths are no rounding of numbers to 3 decimals, whatever is declared
        TableDefinition.Builder fine = more(18, 3, LEVEL, 0.041).decimals("level_g_per_kg", 0);
        assertThat(refusal(fine))
                .singleElement()
                .asString()
                .contains("add up to 1000.041 g/kg, not 1000; rounding explains at most 0.004; they are");
        assertThat(taken(more(18, 3, LEVEL, 0.004).decimals("level_g_per_kg", 0)))
                .isCloseTo(0.004, within(1e-9));
    }

    @Test
    void aLongListOfChildrenIsCutShortAndItsRowsAreNot() {
        assertThat(refusal(more(30, 3, LEVEL, 1).decimals("level_g_per_kg", 1)))
                .singleElement()
                .asString()
                .endsWith(", p18 21, p19 21 and 10 more (category C) (rows 1 to 30)");
    }

    @Test
    void decimalsAreCountedWithoutBinaryNoise() {
        assertThat(ColumnSum.decimals(DoubleStream.of(0.1 + 0.2, 12, 1000))).isEqualTo(1);
        assertThat(ColumnSum.decimals(DoubleStream.of(12.37, -0.5))).isEqualTo(2);
        assertThat(ColumnSum.decimals(DoubleStream.of(1000, 0, 1e22))).isZero();
        assertThat(ColumnSum.decimals(DoubleStream.of(1.0 / 3))).isEqualTo(9);
        assertThat(ColumnSum.decimals(DoubleStream.of(Double.NaN, 2.5))).isEqualTo(1);
    }

    @Test
    void everyColumnHasItsUnit() {
        TableDefinition table = children(2)
                .term(new Term.Hinge("fat_below_3", Variable.FAT, Term.Side.BELOW, 3))
                .term(new Term.Hinge("conformation_above_15", Variable.CONFORMATION, Term.Side.ABOVE, 15))
                .term(new Term.Product("both", Variable.CONFORMATION, Variable.FAT))
                .term(new Term.Product("fat_weight", Variable.WEIGHT, Variable.FAT))
                .build();
        assertThat(table.coefficientColumns())
                .extracting(table::unitOf)
                .containsExactly(
                        "g/kg",
                        "g/kg per point of conformation",
                        "g/kg per point of fat",
                        "g/kg per 100 kg",
                        "g/kg per point of fat below position 3",
                        "g/kg per point of conformation above position 15",
                        "g/kg per point of conformation and point of fat",
                        "g/kg per 100 kg and point of fat");
        assertThat(table.unitOf("g_per_kg")).isEqualTo("g/kg");
    }

    /**
     * Random shares, each rounded by itself to 1 to 3 decimals and slopes to one more: at most one breakdown in 1,000 is
     * taken for wrong, though each has four columns that may be off.
     */
    @Test
    void tenThousandBreakdownsThatAreRoundedAreTakenButForAHandful() {
        Random random = new Random(21);
        int refused = 0;
        int off = 0;
        for (int i = 0; i < 10_000; i++) {
            int children = 2 + i % 29;
            int places = 1 + i % 3;
            List<double[]> columns = new ArrayList<>();
            columns.add(rounded(random, children, 1000, places));
            for (int j = 1; j <= 3; j++) {
                columns.add(rounded(random, children, 0, places + 1));
            }
            // to the far ends of conformation 1 to 18, fat 1 to 15, 150 to 600 kg from R= 3= at 340 kg
            double[] reaches = {1, 10, 7, 2.6};
            boolean good = true;
            double[] sums = new double[4];
            for (int j = 0; j < 4; j++) {
                List<ColumnSum.Child> numbers = new ArrayList<>();
                for (double number : columns.get(j)) {
                    numbers.add(new ColumnSum.Child(numbers.size(), "x", number));
                }
                ColumnSum sum = new ColumnSum(
                        TableSchema.BREAKDOWN, "x", "g/kg", j == 0 ? places : places + 1, j == 0 ? 1000 : 0, numbers);
                sums[j] = Math.abs(sum.off());
                off += sum.isClosed() ? 0 : 1;
                good &= sum.isRounding(reaches[j]);
            }
            // more than it can come to, for the signs may differ
            good &= ColumnSum.isRoundingTogether(sums[0] + 10 * sums[1] + 7 * sums[2] + 2.6 * sums[3]);
            refused += good ? 0 : 1;
        }
        assertThat(off).isGreaterThan(20_000);
        assertThat(refused).isLessThanOrEqualTo(10);
    }

    /** Numbers that add up to a total, then each rounded. */
    private static double[] rounded(Random random, int count, double total, int places) {
        double[] raw =
                random.doubles(count, total == 0 ? -5 : 1, total == 0 ? 5 : 9).toArray();
        double sum = Arrays.stream(raw).sum();
        double unit = Math.pow(10, places);
        return Arrays.stream(raw)
                .map(x -> total == 0 ? x - sum / count : x * total / sum)
                .map(x -> Math.rint(x * unit) / unit)
                .toArray();
    }
}
