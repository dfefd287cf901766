package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.grid.Breakdown;
import org.beefyield.grid.ClosedErrors;
import org.beefyield.grid.ClosedErrorsTest;
import org.beefyield.grid.CoefficientEffect;
import org.beefyield.grid.TableLayout;
import org.beefyield.grid.YieldErrors;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.junit.jupiter.api.Test;

class YieldErrorsTest {
    private static final TableDefinition THREE = TestTables.threeLevels();
    private static final YieldTable TABLE = YieldTable.of(THREE);

    private static YieldErrors errors(YieldTable table, Category category) {
        CuttingSpecification specification = specification(table);
        return Engine.errors(table, category, specification);
    }

    private static CuttingSpecification specification(YieldTable table) {
        return table.specifications().isEmpty()
                ? CuttingSpecification.NONE
                : table.specifications().get(0);
    }

    private static double at(double[] polynomial, double t) {
        double value = 0;
        for (int j = polynomial.length - 1; j >= 0; j--) {
            value = value * t + polynomial[j];
        }
        return value;
    }

    private static double[] figure(YieldTable table, Random random) {
        double[] figure = new double[Engine.layout(table).size() + 1];
        for (int slot = 0; slot < figure.length; slot++) {
            figure[slot] = random.nextInt(3) == 0 ? 0 : random.nextGaussian();
        }
        return figure;
    }

    /** A figure's share by the plain formula, which shares nothing with the grid. */
    private static double plain(
            TableDefinition definition, YieldTable table, Category category, double[] figure, int c, int f, double kg) {
        Map<String, Map<String, Double>> shares =
                PlainFormula.shares(definition, category, specification(table).ways(), c, f, kg);
        double value = 0;
        TableLayout layout = Engine.layout(table);
        for (int level = 0; level < layout.levels().size(); level++) {
            Map<String, Double> its = shares.get(layout.levels().get(level));
            for (Cut cut : layout.cutsAt(level)) {
                value += figure[layout.slot(level, cut.code())] * its.getOrDefault(cut.code(), 0.0);
            }
        }
        return value
                + figure[layout.size()]
                        * shares.get(layout.levels().get(layout.levels().size() - 1))
                                .get(PlainFormula.FAT_IN_LEAN_TRIM);
    }

    /** Change of a figure's share per unit of one coefficient of a row: linear in it, so two steps give it exactly. */
    private static double effect(
            YieldTable table, Category category, double[] figure, int c, int f, double kg, int row, int column) {
        double step = 50;
        double old = table.definition().breakdown().get(row).coefficients().get(column);
        TableDefinition up = TestTables.changeCoefficient(table.definition(), row + 1, column, old + step)
                .build();
        TableDefinition down = TestTables.changeCoefficient(table.definition(), row + 1, column, old - step)
                .build();
        return (plain(up, table, category, figure, c, f, kg) - plain(down, table, category, figure, c, f, kg))
                / (2 * step);
    }

    /** The rows that break each parent down for a category, by parent, in the order of the catalogue. */
    private static Map<String, List<Integer>> breakdowns(YieldTable table, Category category) {
        Map<String, Map<Integer, Integer>> rows = new LinkedHashMap<>();
        TableDefinition definition = table.definition();
        for (int i = 0; i < definition.breakdown().size(); i++) {
            BreakdownRow row = definition.breakdown().get(i);
            String way = specification(table).ways().getOrDefault(row.parent(), BreakdownRow.ANY);
            boolean own = row.category().contains(category.letter());
            if ((own || row.category().equals(BreakdownRow.ANY)) && row.way().equals(way)) {
                int cut = table.catalogue().cuts().indexOf(table.catalogue().cut(row.cut()));
                Map<Integer, Integer> its = rows.computeIfAbsent(row.parent(), parent -> new TreeMap<>());
                if (own || !its.containsKey(cut)) {
                    its.put(cut, i);
                }
            }
        }
        Map<String, List<Integer>> byParent = new LinkedHashMap<>();
        rows.forEach((parent, its) -> byParent.put(parent, List.copyOf(its.values())));
        return byParent;
    }

    private static void propagates(YieldTable table, Category category, Random random) {
        YieldErrors errors = errors(table, category);
        TableRange allowed = table.definition().allowed();
        for (int i = 0; i < 3; i++) {
            int c = (int) allowed.conformation().low()
                    + random.nextInt((int) (allowed.conformation().high()
                                    - allowed.conformation().low())
                            + 1);
            int f = (int) allowed.fat().low()
                    + random.nextInt((int) (allowed.fat().high() - allowed.fat().low()) + 1);
            double kg = allowed.weightKg().low()
                    + random.nextDouble()
                            * (allowed.weightKg().high() - allowed.weightKg().low());
            double[] a = figure(table, random);
            double[] b = figure(table, random);
            double plain = 0;
            double size = 0;
            for (List<Integer> rows : breakdowns(table, category).values()) {
                double[] sd = new double[rows.size()];
                double[] ofA = new double[rows.size()];
                double[] ofB = new double[rows.size()];
                for (int k = 0; k < sd.length; k++) {
                    // the level is in g/kg
                    sd[k] = table.definition().breakdown().get(rows.get(k)).sdGPerKg();
                    ofA[k] = effect(table, category, a, c, f, kg, rows.get(k), 0);
                    ofB[k] = effect(table, category, b, c, f, kg, rows.get(k), 0);
                }
                double[][] matrix = ClosedErrorsTest.matrix(ClosedErrors.conditioned(sd), sd.length);
                for (int k = 0; k < sd.length; k++) {
                    for (int l = 0; l < sd.length; l++) {
                        plain += ofA[k] * matrix[k][l] * ofB[l];
                        size += Math.abs(ofA[k] * matrix[k][l] * ofB[l]);
                    }
                }
            }
            double t = (kg - table.definition().reference().weightKg()) / 100;
            assertThat(at(Engine.betweenCarcasses(errors, Engine.node(table, c, f), a, b), t))
                    .isCloseTo(plain, within(1e-10 * size));
            assertThat(at(Engine.betweenCarcasses(errors, Engine.node(table, c, f), b, a), t))
                    .isCloseTo(plain, within(1e-10 * size));
        }
    }

    @Test
    void errorsTravelDownTheLevelsAsThePlainFormulaSays() {
        for (Category category : THREE.categories()) {
            propagates(TABLE, category, new Random(7));
        }
        propagates(YieldTable.of(TestTables.small()), Category.COW, new Random(8));
    }

    @Test
    void errorsTravelDownTheLevelsOfRandomTables() {
        for (long seed = 1; seed <= 24; seed++) {
            TableDefinition random = new RandomTables.Shape(seed, 1 + (int) (seed % 4), 2 + (int) (seed % 7)).table();
            TableDefinition.Builder builder = random.toBuilder();
            RandomTables.mix(random, new Random(seed))
                    .forEach((parent, way) -> builder.specification("mix", parent, way));
            propagates(YieldTable.of(builder.build()), Category.HEIFER, new Random(seed));
        }
    }

    @Test
    void errorsOfCoefficientsDoWhatAChangeOfTheCoefficientDoes() {
        // standard errors of two columns of the carcass, one that weight takes part in, and one column of the meat
        TableDefinition.Builder builder = THREE.toBuilder();
        for (String term : List.of("per_fat_point", "fat_by_100kg")) {
            builder.coefficientNote(new CoefficientNote("*", "*", "carcass", "meat", term, 0.3, TestTables.SOURCE))
                    .coefficientNote(new CoefficientNote("D", "*", "carcass", "meat", term, 0.3, TestTables.SOURCE))
                    .coefficientNote(new CoefficientNote("*", "*", "carcass", "fat-trim", term, 0.5, TestTables.SOURCE))
                    .coefficientNote(new CoefficientNote("D", "*", "carcass", "fat-trim", term, 0.5, TestTables.SOURCE))
                    .coefficientNote(new CoefficientNote("*", "*", "carcass", "bone", term, 0.4, TestTables.SOURCE));
        }
        YieldTable table = YieldTable.of(builder.build());
        List<String> columns = table.definition().coefficientColumns();
        Random random = new Random(5);
        for (Category category : List.of(Category.STEER, Category.COW)) {
            YieldErrors errors = errors(table, category);
            double[] figure = figure(table, random);
            int c = 1 + random.nextInt(18);
            int f = 1 + random.nextInt(15);
            double kg = 150 + 450 * random.nextDouble();
            double t = (kg - 340) / 100;
            List<CoefficientEffect> effects = errors.coefficients(Engine.node(table, c, f), errors.effects(figure));
            assertThat(effects)
                    .extracting(effect -> effect.error().draw().get(0) + " "
                            + columns.get(effect.error().columns().get(0)))
                    .containsExactlyInAnyOrder("carcass per_fat_point", "carcass fat_by_100kg", "meat per_100kg");
            for (CoefficientEffect effect : effects) {
                List<Integer> rows =
                        breakdowns(table, category).get(effect.error().draw().get(0));
                assertThat(effect.children()).isEqualTo(rows.size());
                for (int k = 0; k < rows.size(); k++) {
                    // an error of 1 is one of 1000 g/kg
                    assertThat(at(effect.ofChild(k), t))
                            .isCloseTo(
                                    1000
                                            * effect(
                                                    table,
                                                    category,
                                                    figure,
                                                    c,
                                                    f,
                                                    kg,
                                                    rows.get(k),
                                                    effect.error().columns().get(0)),
                                    within(1e-8));
                }
            }
        }
    }

    @Test
    void coefficientsErrTogetherInAllCategoriesWhateverTheirBreakdown() {
        TableDefinition.Builder builder = TestTables.small().toBuilder();
        for (String cut : List.of("bone", "loss")) {
            builder.coefficientNote(new CoefficientNote("*", "*", "carcass", cut, "per_100kg", 0.3, TestTables.SOURCE));
        }
        for (String cut : List.of("fore", "hind")) {
            builder.coefficientNote(new CoefficientNote("*", "*", "meat", cut, "per_100kg", 0.4, TestTables.SOURCE));
        }
        YieldTable table = YieldTable.of(builder.build());
        assertThat(keys(table, Category.HEIFER)).isEqualTo(keys(table, Category.STEER));
        // cows have a breakdown of the carcass of their own, but its slope was worked out with that of the others
        assertThat(keys(table, Category.COW)).isEqualTo(keys(table, Category.STEER));
    }

    private static Map<String, Breakdown.CoefficientError> keys(YieldTable table, Category category) {
        YieldGrid grid = Engine.grid(table, category, CuttingSpecification.NONE);
        Map<String, Breakdown.CoefficientError> keys = new TreeMap<>();
        YieldErrors errors = Engine.errors(table, category, CuttingSpecification.NONE);
        double[] figure = new double[grid.length()];
        figure[Engine.layout(table).lastSlot("fore")] = 1;
        errors.coefficients(Engine.node(table, 8, 8), errors.effects(figure))
                .forEach(effect -> keys.put(effect.error().draw().get(0), effect.error()));
        assertThat(keys).containsOnlyKeys("carcass", "meat");
        return keys;
    }

    @Test
    void whatAddsUpToTheCarcassHasNoError() {
        YieldErrors errors = errors(TABLE, Category.STEER);
        TableLayout layout = Engine.layout(TABLE);
        for (int level = 0; level < layout.levels().size(); level++) {
            double[] all = new double[layout.size() + 1];
            for (int i = 0; i < layout.cutsAt(level).size(); i++) {
                all[layout.start(level) + i] = 1;
            }
            double[] zero = Engine.betweenCarcasses(errors, Engine.node(TABLE, 5, 12), all, all);
            assertThat(zero).containsExactly(new double[zero.length], within(1e-18));
            for (CoefficientEffect effect : errors.coefficients(Engine.node(TABLE, 5, 12), errors.effects(all))) {
                double[] constant = new double[effect.children()];
                for (int k = 0; k < constant.length; k++) {
                    constant[k] = at(effect.ofChild(k), 1.3);
                }
                assertThat(effect.error().errors().covariance(constant, constant, 1)[0])
                        .isCloseTo(0, within(1e-18));
            }
        }
    }

    @Test
    void theSdOfAChildOfTheCarcassIsTheStatedOne() {
        YieldErrors errors = errors(TABLE, Category.COW);
        double[] meat = new double[Engine.layout(TABLE).size() + 1];
        meat[Engine.layout(TABLE).slot(0, "meat")] = 1;
        for (int f = 1; f <= 15; f++) {
            assertThat(Math.sqrt(at(Engine.betweenCarcasses(errors, Engine.node(TABLE, 9, f), meat, meat), 0.7)))
                    .isCloseTo(0.028, within(1e-12));
        }
    }

    @Test
    void aDrawnCarcassAddsUpAtEveryLevelAndNoShareIsBelowZero() {
        YieldErrors errors = errors(TABLE, Category.STEER);
        TableLayout layout = Engine.layout(TABLE);
        Random random = new Random(3);
        for (int i = 0; i < 2000; i++) {
            YieldErrors.Draw draw = errors.draw(
                    random,
                    YieldErrors.Drawn.all(),
                    1 + 17 * random.nextDouble(),
                    1 + 14 * random.nextDouble(),
                    150 + 450 * random.nextDouble());
            assertThat(draw.shares()).hasSize(layout.size() + 1);
            assertThat(draw.shares()).allSatisfy(share -> assertThat(share).isNotNegative());
            for (int level = 0; level < layout.levels().size(); level++) {
                double total = 0;
                for (int k = 0; k < layout.cutsAt(level).size(); k++) {
                    total += draw.shares().get(layout.start(level) + k);
                }
                assertThat(total).isCloseTo(1, within(1e-12));
            }
        }
    }

    @Test
    void theSameSeedDrawsTheSameCarcass() {
        YieldErrors errors = errors(TABLE, Category.STEER);
        List<YieldErrors.Draw> draws = new ArrayList<>();
        for (int i = 0; i < 2; i++) {
            draws.add(errors.draw(new Random(99), YieldErrors.Drawn.all(), 8.5, 7.25, 333));
        }
        assertThat(draws.get(0)).isEqualTo(draws.get(1));
        assertThat(errors.draw(new Random(98), YieldErrors.Drawn.all(), 8.5, 7.25, 333))
                .isNotEqualTo(draws.get(0));
    }

    @Test
    void drawsWithoutSdsAreTheGridItself() {
        TableDefinition.Builder builder = TestTables.changeRows(
                TestTables.small(),
                row -> new BreakdownRow(
                        row.category(), row.way(), row.parent(), row.cut(), row.coefficients(), 0, row.source()));
        YieldTable table = YieldTable.of(builder.build());
        assertThat(table.statesSds()).isFalse();
        YieldErrors errors = errors(table, Category.STEER);
        YieldErrors.Draw draw = errors.draw(new Random(1), YieldErrors.Drawn.all(), 7, 9, 310);
        double[] shares = errors.grid().shares(7, 9, 310);
        assertThat(draw.rejected()).isZero();
        for (int slot = 0; slot < shares.length; slot++) {
            assertThat(draw.shares().get(slot)).isCloseTo(shares[slot], within(1e-15));
        }
    }

    @Test
    void aBreakdownThatHardlyEverStaysAboveZeroIsGivenUp() {
        TableDefinition.Builder builder = TableDefinition.builder("wild", "1")
                .levels("cut")
                .categories(Category.STEER)
                .source(TestTables.source(TestTables.SOURCE));
        for (int i = 0; i < 40; i++) {
            builder.cut(Cut.of("cut-" + i, "Cut " + i, "cut", CutKind.STEAK))
                    .row("carcass", "cut-" + i, 900, TestTables.SOURCE, 25);
        }
        YieldErrors errors = errors(YieldTable.of(builder.build()), Category.STEER);
        assertThatThrownBy(() -> errors.draw(new Random(1), YieldErrors.Drawn.all(), 8, 8, 340))
                .isInstanceOf(IllegalStateException.class)
                .hasMessage("a share of carcass falls below 0 in nearly every draw; its SD is too large for its level");
    }
}
