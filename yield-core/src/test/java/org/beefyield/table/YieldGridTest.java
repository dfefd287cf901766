package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.grid.TableLayout;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

class YieldGridTest {
    private static final double[] WEIGHTS = {150, 233.3, 340, 512.75, 600};

    private static void equalsTheFormulaAtEveryNode(TableDefinition definition, double[] weights) {
        YieldTable table = YieldTable.of(definition);
        CuttingSpecification specification = table.specifications().isEmpty()
                ? CuttingSpecification.NONE
                : table.specifications().get(0);
        for (Category category : definition.categories()) {
            YieldGrid grid = Engine.grid(table, category, specification);
            for (int c = 1; c <= 18; c++) {
                for (int f = 1; f <= 15; f++) {
                    for (double w : weights) {
                        double[] shares = grid.shares(c, f, w);
                        compare(
                                table,
                                shares,
                                PlainFormula.shares(definition, category, specification.ways(), c, f, w),
                                1e-14);
                    }
                }
            }
        }
    }

    /** Every slot of an array of shares against the formula. */
    static void compare(YieldTable table, double[] shares, Map<String, Map<String, Double>> formula, double tolerance) {
        TableLayout layout = Engine.layout(table);
        for (int level = 0; level < layout.levels().size(); level++) {
            Map<String, Double> its = formula.get(layout.levels().get(level));
            for (Cut cut : layout.cutsAt(level)) {
                assertThat(shares[layout.slot(level, cut.code())])
                        .as(cut.code() + " at " + layout.levels().get(level))
                        .isCloseTo(its.getOrDefault(cut.code(), 0.0), within(tolerance));
            }
        }
        assertThat(shares[layout.size()])
                .as("fat in lean trim")
                .isCloseTo(
                        formula.get(layout.levels().get(layout.levels().size() - 1))
                                .get(PlainFormula.FAT_IN_LEAN_TRIM),
                        within(tolerance));
    }

    @Test
    void atEveryNodeTheSmallTableGivesItsFormula() {
        equalsTheFormulaAtEveryNode(TestTables.small(), WEIGHTS);
    }

    @Test
    void atEveryNodeATableWithWaysHingesAndProductsGivesItsFormula() {
        equalsTheFormulaAtEveryNode(TestTables.threeLevels(), WEIGHTS);
    }

    @Test
    void aFigureWorkedByHand() {
        // steer, R+ (9), fat 2- (4), 440 kg, t = 1:
        // meat     700 + 8 x 1 - 9 x (-4) + 5 x 1 = 749 g/kg
        // hind     440 + 1 x 1 - 8 x 1 = 433 g per kg of meat
        // bone     184 - 7 x 1 - 2 x (-4) - 5 x 1 = 180
        // fat trim 110 - 1 x 1 + 11 x (-4) = 65
        YieldTable table = YieldTable.of(TestTables.small());
        double[] shares =
                Engine.grid(table, Category.STEER, CuttingSpecification.NONE).shares(9, 4, 440);
        assertThat(shares[Engine.layout(table).slot(0, "meat")]).isCloseTo(0.749, within(1e-15));
        assertThat(shares[Engine.layout(table).slot(1, "hind")]).isCloseTo(0.749 * 0.433, within(1e-15));
        assertThat(shares[Engine.layout(table).slot(1, "fore")]).isCloseTo(0.749 * 0.567, within(1e-15));
        assertThat(shares[Engine.layout(table).slot(1, "bone")]).isCloseTo(0.180, within(1e-15));
        assertThat(shares[Engine.layout(table).slot(0, "fat-trim")]).isCloseTo(0.065, within(1e-15));
    }

    @Test
    void betweenNodesASharesIsBilinearInThemAndNotTheFormula() {
        YieldTable table = YieldTable.of(TestTables.small());
        YieldGrid grid = Engine.grid(table, Category.COW, CuttingSpecification.NONE);
        double[] low = grid.shares(7, 10, 290);
        double[] high = grid.shares(8, 10, 290);
        double[] between = grid.shares(7.25, 10, 290);
        for (int slot = 0; slot < grid.length(); slot++) {
            assertThat(between[slot]).isCloseTo(0.75 * low[slot] + 0.25 * high[slot], within(1e-15));
        }
        // both factors of the primal move with conformation, so the chord leaves the curve: 8 x 1 x 0.25 x 0.75 x 1e-6
        double formula = PlainFormula.shares(TestTables.small(), Category.COW, Map.of(), 7.25, 10, 290)
                .get("primal")
                .get("hind");
        assertThat(between[Engine.layout(table).slot(1, "hind")] - formula).isCloseTo(1.5e-6, within(1e-12));
    }

    @Test
    void aGradeOutsideTheGridIsRefused() {
        YieldGrid grid = Engine.grid(
                YieldTable.of(TestTables.small().toBuilder()
                        .ranges(TestTables.range(5, 9, 5, 9, 200, 400), TestTables.range(5, 9, 5, 9, 200, 400))
                        .build()),
                Category.STEER,
                CuttingSpecification.NONE);
        assertThat(grid.shares(9, 9, 340)).hasSize(grid.length());
        assertThat(grid.shares(5, 5, 340)).hasSize(grid.layout().size() + 1);
        assertThatThrownBy(() -> grid.shares(9.5, 8, 340))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("conformation 9.5 or fat 8.0 is outside the grid of this table");
        assertThatThrownBy(() -> grid.shares(8, 4.9, 340))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("conformation 8.0 or fat 4.9 is outside the grid of this table");
        assertThatThrownBy(() -> grid.shares(Double.NaN, 8, 340)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void leanTrimHasTheFatOfThePrimalItComesFrom() {
        // striploin steaks 60 g/kg at 12 %, rump steaks 60 at 9 %, chuck dice 400 at 14 %, brisket 150 at 22 %
        TableDefinition definition = TestTables.threeLevels();
        YieldTable table = YieldTable.of(definition);
        double[] shares = Engine.grid(table, Category.STEER, table.specification("steaks"))
                .shares(8, 8, 340);
        double meat = 0.690;
        double fat = meat * (0.070 * 0.060 * 0.12 + 0.081 * 0.060 * 0.09 + 0.780 * 0.400 * 0.14 + 0.069 * 0.150 * 0.22);
        assertThat(shares[Engine.layout(table).size()]).isCloseTo(fat, within(1e-15));
    }
}
