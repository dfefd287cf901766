package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.grid.CompiledTable;
import org.beefyield.grid.Polynomials;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableDefinition;
import org.junit.jupiter.api.Test;

/** The exact comparison against every mix of ways, one by one. */
class TableComparisonProperties {
    private static final String SOURCE = TestTables.SOURCE;
    private static final int MOST_MIXES = 64;

    @Provide
    Arbitrary<RandomTables.Shape> shapes() {
        return RandomTables.shapes();
    }

    /** Every mix of the ways that both tables have. */
    private static List<Map<String, String>> mixes(YieldTable first, YieldTable second) {
        List<Map<String, String>> mixes = new ArrayList<>();
        mixes.add(Map.of());
        Set<String> parents = new TreeSet<>(first.ways().keySet());
        parents.addAll(second.ways().keySet());
        for (String parent : parents) {
            Set<String> both = new TreeSet<>(first.ways().get(parent));
            both.retainAll(second.ways().get(parent));
            List<Map<String, String>> longer = new ArrayList<>();
            for (Map<String, String> mix : mixes) {
                for (String way : both) {
                    Map<String, String> one = new LinkedHashMap<>(mix);
                    one.put(parent, way);
                    longer.add(one);
                }
            }
            mixes = longer;
        }
        return mixes;
    }

    private static YieldGrid grid(YieldTable table, Category category, Map<String, String> mix) {
        CompiledTable compiled = table.unwrap(CompiledTable.class);
        return compiled.grid(compiled.group(category), mix);
    }

    private static double[] share(YieldGrid grid, int c, int f, String level, String cut) {
        int slot = grid.layout().find(grid.layout().levelIndex(level), cut);
        return slot < 0 ? new double[1] : grid.ofSlots(grid.nodes().at(c, f), slot);
    }

    /** By level and cut the largest size of a change, g/kg. */
    private static Map<String, Double> byBruteForce(
            YieldTable first, YieldTable second, List<Map<String, String>> mixes) {
        Map<String, Double> largest = new LinkedHashMap<>();
        double referenceKg = first.definition().reference().weightKg();
        double shift = (referenceKg - second.definition().reference().weightKg()) / 100;
        Range weights = first.definition().allowed().weightKg();
        Range conformations = first.definition().allowed().conformation();
        Range fats = first.definition().allowed().fat();
        for (Map<String, String> mix : mixes) {
            for (Category category : first.definition().categories()) {
                YieldGrid a = grid(first, category, mix);
                YieldGrid b = grid(second, category, mix);
                for (String level : first.levels()) {
                    for (Cut cut : first.cutsAt(level)) {
                        double most = 0;
                        for (int c = (int) conformations.low(); c <= conformations.high(); c++) {
                            for (int f = (int) fats.low(); f <= fats.high(); f++) {
                                double[] own = share(a, c, f, level, cut.code());
                                double[] other = Polynomials.shifted(share(b, c, f, level, cut.code()), shift);
                                double[] up = new double[4];
                                double[] down = new double[4];
                                for (int j = 0; j < 4; j++) {
                                    up[j] = (j < other.length ? other[j] : 0) - (j < own.length ? own[j] : 0);
                                    down[j] = -up[j];
                                }
                                for (double[] side : List.of(up, down)) {
                                    double t = Polynomials.argMin(
                                            side,
                                            (weights.low() - referenceKg) / 100,
                                            (weights.high() - referenceKg) / 100);
                                    most = Math.max(most, 1000 * Math.abs(Polynomials.value(side, t)));
                                }
                            }
                        }
                        largest.merge(level + " " + cut.code(), most, Math::max);
                    }
                }
            }
        }
        return largest;
    }

    /** What the comparison says is what the best of all mixes reaches, and the mix that it names reaches it. */
    private static void agree(YieldTable first, YieldTable second, List<Map<String, String>> mixes) {
        Map<String, Double> expected = byBruteForce(first, second, mixes);
        TableComparison comparison = TableComparison.of(first, second);
        assertThat(comparison.differences()).hasSize(expected.size());
        for (TableComparison.Difference difference : comparison.differences()) {
            assertThat(Math.abs(difference.differenceGPerKg()))
                    .as(difference.toString())
                    .isCloseTo(expected.get(difference.level() + " " + difference.cut()), within(1e-9));
            Map<String, String> named = new LinkedHashMap<>(mixes.get(0));
            named.putAll(difference.ways());
            assertThat(1000 * at(second, named, difference) - 1000 * at(first, named, difference))
                    .as("in the mix that is named, whatever the other ways: " + difference)
                    .isCloseTo(difference.differenceGPerKg(), within(1e-8));
        }
    }

    private static double at(YieldTable table, Map<String, String> mix, TableComparison.Difference there) {
        YieldGrid grid = grid(table, there.category(), mix);
        return Polynomials.value(
                share(
                        grid,
                        (int) there.conformation().position(),
                        (int) there.fatClass().position(),
                        there.level(),
                        there.cut()),
                (there.weightKg() - table.definition().reference().weightKg()) / 100);
    }

    /** The same table with figures moved between children of some of its breakdowns. */
    private static TableDefinition moved(TableDefinition table, Random random) {
        Map<List<String>, List<BreakdownRow>> breakdowns = new LinkedHashMap<>();
        table.breakdown()
                .forEach(row -> breakdowns
                        .computeIfAbsent(List.of(row.category(), row.way(), row.parent()), key -> new ArrayList<>())
                        .add(row));
        TableDefinition.Builder builder = table.toBuilder().clearBreakdown();
        breakdowns.values().forEach(rows -> {
            int one = random.nextInt(rows.size());
            int other = random.nextInt(rows.size());
            double most = 0.05
                    * Math.min(
                            rows.get(one).coefficients().get(0),
                            rows.get(other).coefficients().get(0));
            double[] change = new double[4];
            for (int j = 0; j < 4; j++) {
                change[j] = one == other || random.nextInt(3) == 0
                        ? 0
                        : most * random.nextGaussian() / (j == 0 ? 3 : j == 3 ? 40 : 60);
            }
            for (int i = 0; i < rows.size(); i++) {
                BreakdownRow row = rows.get(i);
                Double[] coefficients = row.coefficients().toArray(new Double[0]);
                for (int j = 0; j < 4; j++) {
                    coefficients[j] += i == one ? change[j] : i == other ? -change[j] : 0;
                }
                builder.row(new BreakdownRow(
                        row.category(),
                        row.way(),
                        row.parent(),
                        row.cut(),
                        List.of(coefficients),
                        row.sdGPerKg(),
                        row.source()));
            }
        });
        if (random.nextBoolean()) {
            // other shares, as the slopes count from elsewhere
            builder.reference(
                    table.reference().conformation(),
                    table.reference().fat(),
                    table.reference().weightKg() + (random.nextBoolean() ? 1 : -1));
        }
        return builder.build();
    }

    @Property(tries = 100)
    void theLargestChangeIsThatOfTheWorstOfAllMixes(@ForAll("shapes") RandomTables.Shape shape, @ForAll long seed) {
        TableDefinition table = shape.table();
        YieldTable first = YieldTable.of(table);
        YieldTable second;
        try {
            second = YieldTable.of(moved(table, new Random(seed)));
        } catch (InvalidTableException e) {
            return;
        }
        double number = first.ways().values().stream().mapToDouble(Set::size).reduce(1, (a, b) -> a * b);
        if (number <= MOST_MIXES) {
            agree(first, second, mixes(first, second));
        }
    }

    /** Ways of the carcass, of the cuts that come from it, and a breakdown by class among them; trim comes from all. */
    private static TableDefinition byClass(Random random, double referenceKg) {
        TableDefinition.Builder builder = TableDefinition.builder("nested", "1")
                .levels("side", "cut")
                .categories(Category.STEER, Category.COW)
                .ranges(TestTables.range(4, 12, 3, 9, 200, 450), TestTables.range(4, 12, 3, 9, 200, 450))
                .reference(8, 6, referenceKg)
                .source(TestTables.source(SOURCE))
                .cut(Cut.of("x", "X", "side", CutKind.MEAT))
                .cut(Cut.of("y", "Y", "side", CutKind.MEAT))
                .cut(Cut.of("z", "Z", "side", CutKind.MEAT))
                .cut(Cut.of("steak", "Steak", "cut", CutKind.STEAK))
                .cut(Cut.of("trim", "Trim", "cut", CutKind.LEAN_TRIM))
                .cut(Cut.of("loss", "Loss", "side", CutKind.LOSS));
        for (String way : List.of("long", "short")) {
            for (String category : List.of("*", "D")) {
                double x = 300 + 30 * random.nextGaussian();
                double y = 250 + 30 * random.nextGaussian();
                double slope = 8 * random.nextGaussian();
                builder.row(category, way, "carcass", "x", 1, SOURCE, x, 2, 1, slope)
                        .row(category, way, "carcass", "y", 1, SOURCE, y, -1, 1, 0)
                        .row(category, way, "carcass", "z", 1, SOURCE, 900 - x - y, -1, -2, -slope)
                        .row(category, way, "carcass", "loss", 1, SOURCE, 100, 0, 0, 0);
            }
        }
        for (String parent : List.of("x", "y")) {
            for (String way : List.of("fine", "mixed", "trim")) {
                double steak = 500 + 80 * random.nextGaussian();
                double slope = 20 * random.nextGaussian();
                builder.row("*", way, parent, "steak", 1, SOURCE, steak, 3, 0, slope)
                        .row("*", way, parent, "trim", 1, SOURCE, 1000 - steak, -3, 0, -slope);
            }
        }
        for (String way : List.of("steak", "trim")) {
            for (String conformation : List.of("P", "O", "R", "U", "E", "S")) {
                for (String fat : List.of("1", "2", "3", "4", "5")) {
                    double steak = 500 + 60 * random.nextGaussian();
                    builder.row(new ClassRow("*", way, "z", conformation, fat, "steak", steak, 1, SOURCE))
                            .row(new ClassRow("*", way, "z", conformation, fat, "trim", 1000 - steak, 1, SOURCE));
                }
            }
        }
        return builder.build();
    }

    @Property(tries = 30)
    void waysOfTheCarcassAndOfItsCutsAreFreeOfEachOther(@ForAll long seed) {
        Random random = new Random(seed);
        YieldTable first = YieldTable.of(byClass(random, 340));
        YieldTable second = YieldTable.of(byClass(random, 300));
        List<Map<String, String>> mixes = mixes(first, second);
        assertThat(mixes).hasSize(2 * 3 * 3 * 2);
        agree(first, second, mixes);
    }

    /** One figure moved by 2 or less from one child to another, hundreds of times. */
    @Test
    void changesOfOneCoefficientAreMeasuredAsTheWorstOfAllMixes() {
        Random random = new Random(21);
        TableDefinition table = TestTables.threeLevels().toBuilder()
                .ranges(TestTables.range(7, 9, 7, 9, 200, 500), TestTables.range(7, 9, 7, 9, 200, 500))
                .build();
        YieldTable first = YieldTable.of(table);
        List<BreakdownRow> rows = table.breakdown();
        int compared = 0;
        while (compared < 300) {
            BreakdownRow one = rows.get(random.nextInt(rows.size()));
            List<BreakdownRow> others = rows.stream()
                    .filter(row -> row.parent().equals(one.parent())
                            && row.way().equals(one.way())
                            && row.category().equals(one.category())
                            && !row.equals(one))
                    .toList();
            BreakdownRow other = others.get(random.nextInt(others.size()));
            int column = random.nextInt(4);
            double change = 2 * random.nextDouble() - 1;
            YieldTable second;
            try {
                second = YieldTable.of(TestTables.changeRows(
                                table,
                                row -> row.equals(one)
                                        ? with(row, column, change)
                                        : row.equals(other) ? with(row, column, -change) : row)
                        .build());
            } catch (InvalidTableException e) {
                // cows have some rows of their own, so that not every pair closes
                continue;
            }
            agree(first, second, mixes(first, second));
            assertThat(TableComparison.of(first, second).beyond(0))
                    .as("it passes as nothing")
                    .isNotEmpty();
            compared++;
        }
    }

    private static BreakdownRow with(BreakdownRow row, int column, double change) {
        Double[] coefficients = row.coefficients().toArray(new Double[0]);
        coefficients[column] += change;
        return new BreakdownRow(
                row.category(),
                row.way(),
                row.parent(),
                row.cut(),
                List.of(coefficients),
                row.sdGPerKg(),
                row.shared(),
                row.source());
    }
}
