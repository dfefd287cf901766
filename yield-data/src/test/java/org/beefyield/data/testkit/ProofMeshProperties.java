package org.beefyield.data.testkit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.data.defects.Draft;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.ProofFinding;
import org.beefyield.table.TableComparison;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.Expectation.Direction;
import org.beefyield.table.definition.Expectation.Over;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Variable;

/** Proof and comparison against brute force: every node, 200 weights, refined around the extreme. */
class ProofMeshProperties {
    private static final int WEIGHTS = 200;
    private static final double EQUAL_G_PER_KG = 1e-9;
    /** What a finer mesh could gain at most over the first one. */
    private static final double NEAR_G_PER_KG = 0.1;

    @Provide
    Arbitrary<TableDefinition> tables() {
        // figures as they are: rounding that is taken off would have to be taken off here too
        return Arbitraries.frequencyOf(
                Tuple.of(
                        4,
                        Tables.definitions(Tables.Form.MIXED, 4, 5)
                                .filter(table -> table.decimals().isEmpty())),
                Tuple.of(1, towers()));
    }

    /** Small tables of three levels with steep slopes in weight on one path, so that extremes lie inside the range. */
    private static Arbitrary<TableDefinition> towers() {
        return Arbitraries.longs().map(seed -> {
            Random random = new Random(seed);
            TableRange range = new TableRange(new Range(8, 9), new Range(8, 8), new Range(150, 600));
            TableDefinition.Builder table = TableDefinition.builder("tower", "1")
                    .levels("tissue", "primal", "retail")
                    .ranges(range, range)
                    .categories(Category.STEER)
                    .source(new SourceRow("made", SourceKind.ASSUMPTION, "Made by a test", ""));
            List<String> path = List.of(BreakdownRow.ROOT, "meat", "loin", "dice");
            for (int level = 0; level < 3; level++) {
                String parent = path.get(level);
                String child = path.get(level + 1);
                double share = 400 + random.nextInt(200);
                double perPoint = random.nextInt(41) - 20;
                double per100Kg = random.nextInt(241) - 120;
                String left = "rest-" + level;
                String name = table.build().levels().get(level);
                table.cut(Cut.of(child, child, name, CutKind.MEAT))
                        .cut(Cut.of(left, left, name, CutKind.LOSS))
                        .row(parent, child, 1, "made", share, perPoint, 0, per100Kg)
                        .row(parent, left, 1, "made", 1000 - share, -perPoint, 0, -per100Kg);
            }
            return table.build();
        });
    }

    /** Some figures at a node and weight. */
    private interface AtNode {
        double[] at(int conformation, int fat, double weightKg);
    }

    /** The lowest value of one figure at one node, over 200 weights. */
    private record Lowest(int conformation, int fat, double weightKg, double value) {}

    /**
     * The lowest value of each figure over all nodes and weights. Where a figure is not linear in weight, ever finer
     * meshes around the lowest weight follow, at each node that comes near the lowest of all.
     */
    private static double[] lowest(TableRange range, int figures, AtNode function) {
        List<Lowest[]> nodes = new ArrayList<>();
        double[] lowest = new double[figures];
        Arrays.fill(lowest, Double.POSITIVE_INFINITY);
        for (int c = (int) range.conformation().low(); c <= range.conformation().high(); c++) {
            for (int f = (int) range.fat().low(); f <= range.fat().high(); f++) {
                Lowest[] here = new Lowest[figures];
                for (int i = 0; i < WEIGHTS; i++) {
                    double weight = weight(range.weightKg(), i);
                    double[] values = function.at(c, f, weight);
                    for (int k = 0; k < figures; k++) {
                        if (here[k] == null || values[k] < here[k].value()) {
                            here[k] = new Lowest(c, f, weight, values[k]);
                            lowest[k] = Math.min(lowest[k], values[k]);
                        }
                    }
                }
                nodes.add(here);
            }
        }
        double[] onTheMesh = lowest.clone();
        for (Lowest[] here : nodes) {
            for (int k = 0; k < figures; k++) {
                if (here[k].value() < onTheMesh[k] + NEAR_G_PER_KG) {
                    int figure = k;
                    DoubleUnaryOperator one =
                            weight -> function.at(here[figure].conformation(), here[figure].fat(), weight)[figure];
                    if (!isLinear(range.weightKg(), one)) {
                        lowest[k] = Math.min(lowest[k], refined(range.weightKg(), here[k].weightKg(), one));
                    }
                }
            }
        }
        return lowest;
    }

    private static double weight(Range weights, int step) {
        return Math.min(weights.high(), weights.low() + (weights.high() - weights.low()) * step / (WEIGHTS - 1));
    }

    /** Whether a cubic is a line: four points of it are on one. */
    private static boolean isLinear(Range weights, DoubleUnaryOperator function) {
        double third = (weights.high() - weights.low()) / 3;
        double a = function.applyAsDouble(weights.low());
        double b = function.applyAsDouble(weights.low() + third);
        double c = function.applyAsDouble(weights.low() + 2 * third);
        double d = function.applyAsDouble(weights.high());
        double noise = 1e-13 * (1 + Math.abs(a) + Math.abs(d));
        return !(Math.abs(b - (2 * a + d) / 3) > noise) && !(Math.abs(c - (a + 2 * d) / 3) > noise);
    }

    private static double refined(Range weights, double around, DoubleUnaryOperator function) {
        double at = around;
        double step = (weights.high() - weights.low()) / (WEIGHTS - 1);
        double lowest = function.applyAsDouble(at);
        for (int round = 0; round < 3; round++) {
            Range near = new Range(Math.max(weights.low(), at - step), Math.min(weights.high(), at + step));
            for (int i = 0; i < WEIGHTS; i++) {
                double value = function.applyAsDouble(weight(near, i));
                if (value < lowest) {
                    lowest = value;
                    at = weight(near, i);
                }
            }
            step = 2 * step / (WEIGHTS - 1);
        }
        return lowest;
    }

    private static ProofFinding finding(YieldTable table, String claim) {
        return table.proof().findings().stream()
                .filter(finding -> finding.claim().startsWith(claim))
                .findFirst()
                .orElseThrow();
    }

    private static void assertSame(String what, double exact, double mesh) {
        assertThat(exact).as("%s, exact, is never above the mesh", what).isLessThanOrEqualTo(mesh + EQUAL_G_PER_KG);
        assertThat(exact).as(what).isCloseTo(mesh, within(EQUAL_G_PER_KG));
    }

    @Property(tries = 400, edgeCases = EdgeCasesMode.NONE)
    void theSmallestShareIsThatOfTheMesh(@ForAll("tables") TableDefinition definition) {
        YieldTable table = YieldTable.of(definition);
        DirectShares direct = new DirectShares(definition);
        for (List<Category> group : table.categoryGroups()) {
            double smallest = Double.POSITIVE_INFINITY;
            for (DirectShares.Key key : direct.keys()) {
                List<DirectShares.Share> children =
                        List.copyOf(direct.children(group.get(0), key).values());
                double[] lowest = lowest(
                        definition.allowed(),
                        children.size(),
                        (c, f, weight) -> children.stream()
                                .mapToDouble(share -> 1000 * share.at(c, f, weight))
                                .toArray());
                smallest = Math.min(smallest, Arrays.stream(lowest).min().orElseThrow());
            }
            String letters =
                    String.join("", group.stream().map(Category::letter).toList());
            ProofFinding finding = finding(table, "no share is below 0 (categories " + letters + ")");
            assertSame("smallest share", finding.marginGPerKg(), smallest);
        }
    }

    /** A figure at a node and weight. */
    private interface Total {
        double at(int conformation, int fat, double weightKg);
    }

    /** What an expectation speaks of, g per kg of carcass. */
    private static Total total(YieldGrid grid, Expectation expectation) {
        int level = grid.layout().levelIndex(expectation.level());
        List<Cut> cuts = grid.layout().cutsAt(level);
        return (c, f, weight) -> {
            double[] shares = grid.shares(c, f, weight);
            double sum = 0;
            for (int k = 0; k < cuts.size(); k++) {
                if (cuts.get(k).code().equals(expectation.cut()) || cuts.get(k).kind() == expectation.kind()) {
                    sum += shares[grid.layout().start(level) + k];
                }
            }
            return 1000 * sum;
        };
    }

    /** The least that a step changes it by. */
    private static double leastStep(Total total, Variable variable, TableRange range) {
        Total step = switch (variable) {
            case CONFORMATION -> (c, f, weight) -> total.at(c + 1, f, weight) - total.at(c, f, weight);
            case FAT -> (c, f, weight) -> total.at(c, f + 1, weight) - total.at(c, f, weight);
            case WEIGHT -> (c, f, weight) -> per100Kg(at -> total.at(c, f, at), weight);
        };
        Range conformations = withoutLast(range.conformation(), variable == Variable.CONFORMATION);
        Range fats = withoutLast(range.fat(), variable == Variable.FAT);
        boolean oneGrade = variable != Variable.WEIGHT
                && range.of(variable).low() == range.of(variable).high();
        return oneGrade
                ? Double.POSITIVE_INFINITY
                : lowest(new TableRange(conformations, fats, range.weightKg()), 1, (c, f, weight) ->
                        new double[] {step.at(c, f, weight)})[0];
    }

    private static Range withoutLast(Range range, boolean without) {
        return without && range.high() > range.low() ? new Range(range.low(), range.high() - 1) : range;
    }

    /** Derivative of a cubic, per 100 kg: central differences over two widths, whose errors cancel. */
    private static double per100Kg(DoubleUnaryOperator function, double weight) {
        double narrow = (function.applyAsDouble(weight + 50) - function.applyAsDouble(weight - 50));
        double wide = (function.applyAsDouble(weight + 100) - function.applyAsDouble(weight - 100)) / 2;
        return (4 * narrow - wide) / 3;
    }

    @Property(tries = 400, edgeCases = EdgeCasesMode.NONE)
    void anExpectationHoldsOrFailsAsOnTheMesh(@ForAll("tables") TableDefinition definition, @ForAll long seed) {
        Random random = new Random(seed);
        YieldTable table = YieldTable.of(definition);
        int level = random.nextInt(table.levels().size());
        List<Cut> cuts = Engine.layout(table).cutsAt(level);
        Cut cut = cuts.get(random.nextInt(cuts.size()));
        boolean one = random.nextBoolean();
        Variable variable = List.of(Variable.values()).get(random.nextInt(3));
        Expectation rises = new Expectation(
                one ? cut.code() : null,
                one ? null : cut.kind(),
                table.levels().get(level),
                variable,
                Direction.RISES,
                false,
                Over.ALLOWED,
                "");
        double least = Double.POSITIVE_INFINITY;
        for (CuttingSpecification specification : specifications(table)) {
            for (List<Category> group : table.categoryGroups()) {
                YieldGrid grid = Engine.grid(table, group.get(0), specification);
                Total total = total(grid, rises);
                if (!isZero(total, definition.allowed())) {
                    least = Math.min(least, leastStep(total, variable, definition.allowed()));
                }
            }
        }
        Draft draft = new Draft(definition);
        draft.expectations.clear();
        draft.expectations.add(rises);
        if (Math.abs(least) < EQUAL_G_PER_KG) {
            return;
        }
        if (least == Double.POSITIVE_INFINITY) {
            assertThatThrownBy(() -> YieldTable.of(draft.build()))
                    .isInstanceOf(InvalidTableException.class)
                    .hasMessageContaining("expectations row 1")
                    .hasMessageMatching(
                            "(?s).*(that range holds a single position|no (cutting specification|mix of ways) yields it)");
        } else if (least < 0) {
            String grams = String.format(Locale.ROOT, Math.abs(least) < 0.001 ? "%.3g" : "%.3f", least);
            assertThatThrownBy(() -> YieldTable.of(draft.build()))
                    .isInstanceOf(InvalidTableException.class)
                    .hasMessageContaining("expectations row 1")
                    .hasMessageContaining("by " + grams.substring(0, grams.length() - 1));
        } else {
            assertSame(
                    rises.toString(),
                    finding(YieldTable.of(draft.build()), one ? cut.code() : "total of kind")
                            .marginGPerKg(),
                    least);
        }
    }

    private static List<CuttingSpecification> specifications(YieldTable table) {
        return table.specifications().isEmpty() ? List.of(CuttingSpecification.NONE) : table.specifications();
    }

    /** Those that the table declares, and every mix of ways. */
    private static List<CuttingSpecification> everyWay(YieldTable table) {
        List<Map<String, String>> mixes = List.of(Map.of());
        for (Cut cut : table.catalogue().cuts()) {
            List<Map<String, String>> longer = new ArrayList<>();
            for (String way : table.ways(cut.code())) {
                for (Map<String, String> mix : mixes) {
                    Map<String, String> one = new LinkedHashMap<>(mix);
                    one.put(cut.code(), way);
                    longer.add(one);
                }
            }
            mixes = longer.isEmpty() ? mixes : longer;
        }
        List<CuttingSpecification> all = new ArrayList<>(specifications(table));
        mixes.forEach(mix -> all.add(CuttingSpecification.of("mix no. " + all.size(), mix)));
        return all;
    }

    private static boolean isZero(Total total, TableRange range) {
        Range weights = range.weightKg();
        double[] largest = lowest(
                new TableRange(range.conformation(), range.fat(), new Range(weights.low(), weights.low())),
                1,
                (c, f, weight) -> new double[] {-total.at(c, f, weight)});
        return largest[0] == 0;
    }

    /** A table and what became of it. */
    record Pair(TableDefinition before, TableDefinition after) {}

    @Provide
    Arbitrary<Pair> pairs() {
        return Arbitraries.frequencyOf(
                Tuple.of(
                        4,
                        Combinators.combine(
                                        Tables.definitions(Tables.Form.MIXED, 4, 5),
                                        Arbitraries.longs(),
                                        Arbitraries.of(-1.0, 0.0, 0.5, 1.0))
                                .as((before, seed, kept) -> new Pair(before, revised(before, new Random(seed), kept)))),
                Tuple.of(1, Combinators.combine(towers(), towers()).as(Pair::new)));
    }

    /** Every slope of some parents kept in part or turned round, and a narrower range of weights: the table stays valid. */
    private static TableDefinition revised(TableDefinition before, Random random, double kept) {
        Draft draft = new Draft(before);
        draft.expectations.clear();
        List<String> parents = new ArrayList<>();
        before.breakdown().stream()
                .map(BreakdownRow::parent)
                .distinct()
                .filter(parent -> random.nextBoolean())
                .forEach(parents::add);
        // half of a rounded figure has a decimal more, by which what it is off by is no rounding
        double factor = before.decimals().isEmpty() ? kept : Math.rint(kept);
        draft.breakdown.replaceAll(row -> {
            List<Double> coefficients = new ArrayList<>(row.coefficients());
            for (int j = 1; j < coefficients.size() && parents.contains(row.parent()); j++) {
                coefficients.set(j, factor * coefficients.get(j));
            }
            return Draft.with(row, row.category(), row.way(), row.parent(), row.cut(), coefficients);
        });
        Range weights = before.allowed().weightKg();
        double part = random.nextDouble()
                * Math.max(0, weights.high() - before.fitted().weightKg().high());
        draft.allowed = new TableRange(
                before.allowed().conformation(),
                before.allowed().fat(),
                new Range(weights.low(), Math.max(before.reference().weightKg(), weights.high() - part)));
        return draft.build();
    }

    @Property(tries = 400, edgeCases = EdgeCasesMode.NONE)
    void theLargestDifferenceIsThatOfTheMesh(@ForAll("pairs") Pair pair) {
        YieldTable before = YieldTable.of(pair.before());
        YieldTable after = YieldTable.of(pair.after());
        TableRange common = pair.after().allowed();
        int figures = Engine.layout(before).size();
        double[] largest = new double[figures];
        for (CuttingSpecification specification : everyWay(before)) {
            for (List<Category> group : before.categoryGroups()) {
                YieldGrid a = Engine.grid(before, group.get(0), specification);
                YieldGrid b = Engine.grid(after, group.get(0), specification);
                for (int sign : new int[] {1, -1}) {
                    double[] lowest = lowest(common, figures, (c, f, weight) -> {
                        double[] moved = b.shares(c, f, weight);
                        double[] from = a.shares(c, f, weight);
                        for (int slot = 0; slot < figures; slot++) {
                            moved[slot] = 1000 * sign * (moved[slot] - from[slot]);
                        }
                        return moved;
                    });
                    for (int slot = 0; slot < figures; slot++) {
                        largest[slot] = Math.max(largest[slot], -lowest[slot]);
                    }
                }
            }
        }
        List<TableComparison.Difference> differences =
                TableComparison.of(before, after).differences();
        assertThat(differences).hasSize(figures);
        for (TableComparison.Difference difference : differences) {
            int slot =
                    Engine.layout(before).slot(Engine.layout(before).levelIndex(difference.level()), difference.cut());
            double reported = Math.abs(difference.differenceGPerKg());
            assertThat(reported)
                    .as("%s is never below the mesh", difference)
                    .isGreaterThanOrEqualTo(largest[slot] - 2e-11);
            assertThat(reported).as("%s", difference).isCloseTo(largest[slot], within(EQUAL_G_PER_KG));
            assertThat(there(before, after, difference, slot))
                    .as("%s is attained where it says", difference)
                    .isCloseTo(difference.differenceGPerKg(), within(EQUAL_G_PER_KG));
        }
    }

    private static double there(YieldTable before, YieldTable after, TableComparison.Difference difference, int slot) {
        // whatever the ways that it doesn't name
        CuttingSpecification specification = everyWay(before).stream()
                .filter(one ->
                        one.ways().entrySet().containsAll(difference.ways().entrySet()))
                .findFirst()
                .orElseThrow();
        Conformation conformation = difference.conformation();
        FatClass fat = difference.fatClass();
        double a = Engine.grid(before, difference.category(), specification)
                .shares(conformation.position(), fat.position(), difference.weightKg())[slot];
        double b = Engine.grid(after, difference.category(), specification)
                .shares(conformation.position(), fat.position(), difference.weightKg())[slot];
        return 1000 * (b - a);
    }
}
