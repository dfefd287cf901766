package org.beefyield.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Variable;
import org.junit.jupiter.api.Assertions;

/** Margins of the proof against a search over a fine mesh of weights at every node. */
class ProofProperties {
    private static final Pattern CHANGE = Pattern.compile(" by (\\S+) g/kg");
    private static final int STEPS = 40;
    private static final int ROUNDS = 4;
    private static final int MOST_MIXES = 24;

    @Provide
    Arbitrary<RandomTables.Shape> shapes() {
        return RandomTables.shapes();
    }

    /** The smallest value over a range: the best point of a mesh, then of finer meshes around it. */
    private static double smallest(DoubleUnaryOperator function, double low, double high) {
        double best = Double.POSITIVE_INFINITY;
        double at = low;
        double from = low;
        double to = high;
        for (int round = 0; round < ROUNDS; round++) {
            double step = (to - from) / STEPS;
            for (int i = 0; i <= STEPS; i++) {
                double x = Math.min(high, from + step * i);
                double value = function.applyAsDouble(x);
                if (value < best) {
                    best = value;
                    at = x;
                }
            }
            from = Math.max(low, at - step);
            to = Math.min(high, at + step);
        }
        return best;
    }

    @Property(tries = 40)
    void theSmallestShareIsThatOfASearchThroughTheFormula(@ForAll("shapes") RandomTables.Shape shape) {
        TableDefinition definition = shape.table();
        YieldTable table = YieldTable.of(definition);
        Range weights = definition.allowed().weightKg();
        for (List<Category> group : table.categoryGroups()) {
            double smallest = Double.POSITIVE_INFINITY;
            for (BreakdownRow row : definition.breakdown()) {
                if (!serves(definition, row, group.get(0))) {
                    continue;
                }
                for (int c = low(definition.allowed().conformation());
                        c <= high(definition.allowed().conformation());
                        c++) {
                    for (int f = low(definition.allowed().fat());
                            f <= high(definition.allowed().fat());
                            f++) {
                        int conformation = c;
                        int fat = f;
                        smallest = Math.min(
                                smallest,
                                smallest(
                                        w -> PlainFormula.share(definition, row, conformation, fat, w),
                                        weights.low(),
                                        weights.high()));
                    }
                }
            }
            StringBuilder letters = new StringBuilder();
            group.forEach(category -> letters.append(category.letter()));
            assertThat(margin(table, "no share is below 0 (categories " + letters + ")"))
                    .isCloseTo(1000 * smallest, within(1e-9));
        }
    }

    /** Whether a row is the most specific one of a category: in random tables only rows of category * give way. */
    private static boolean serves(TableDefinition definition, BreakdownRow row, Category category) {
        return row.category().equals("*")
                ? definition.breakdown().stream()
                        .noneMatch(other -> other.category().contains(category.letter())
                                && other.way().equals(row.way())
                                && other.parent().equals(row.parent())
                                && other.cut().equals(row.cut()))
                : row.category().contains(category.letter());
    }

    private static int low(Range range) {
        return (int) range.low();
    }

    private static int high(Range range) {
        return (int) range.high();
    }

    private static double margin(YieldTable table, String claim) {
        return table.proof().findings().stream()
                .filter(finding -> (finding.claim() + ",").startsWith(claim + ","))
                .mapToDouble(ProofFinding::marginGPerKg)
                .findFirst()
                .orElseThrow(() -> new AssertionError("no finding \"" + claim + "\""));
    }

    @Property(tries = 300)
    void theMarginOfAnExpectationIsThatOfASearchThroughTheNodes(
            @ForAll("shapes") RandomTables.Shape shape, @ForAll Variable variable, @ForAll long seed) {
        TableDefinition definition = shape.table();
        Random random = new Random(seed);
        Map<String, String> mix = RandomTables.mix(definition, random);
        TableDefinition.Builder builder = definition.toBuilder();
        mix.forEach((parent, way) -> builder.specification("mix", parent, way));
        TableDefinition specified = builder.build();
        YieldTable table = YieldTable.of(specified);
        int level = random.nextInt(definition.levels().size());
        List<Cut> cuts = Engine.layout(table).cutsAt(level);
        Cut cut = cuts.get(random.nextInt(cuts.size()));
        CuttingSpecification specification =
                table.specifications().isEmpty() ? CuttingSpecification.NONE : table.specification("mix");

        check(specified, table, cut, level, variable, List.of(specification));
    }

    @Property(tries = 100)
    void withoutSpecificationsTheMarginIsThatOfTheWorstOfAllMixes(
            @ForAll("shapes") RandomTables.Shape shape, @ForAll Variable variable, @ForAll long seed) {
        TableDefinition definition = shape.table();
        Random random = new Random(seed);
        YieldTable table = YieldTable.of(definition);
        List<CuttingSpecification> mixes = new ArrayList<>();
        mixes.add(CuttingSpecification.NONE);
        for (Map.Entry<String, Set<String>> ways : table.ways().entrySet()) {
            List<CuttingSpecification> longer = new ArrayList<>();
            ways.getValue().forEach(way -> mixes.forEach(mix -> longer.add(mix.with(ways.getKey(), way))));
            mixes.clear();
            mixes.addAll(longer);
            if (mixes.size() > MOST_MIXES) {
                return;
            }
        }
        int level = random.nextInt(definition.levels().size());
        List<Cut> cuts = Engine.layout(table).cutsAt(level);
        check(definition, table, cuts.get(random.nextInt(cuts.size())), level, variable, mixes);
    }

    private static void check(
            TableDefinition definition,
            YieldTable table,
            Cut cut,
            int level,
            Variable variable,
            List<CuttingSpecification> mixes) {
        double rise = Double.POSITIVE_INFINITY;
        double fall = Double.POSITIVE_INFINITY;
        int slot = Engine.layout(table).slot(level, cut.code());
        for (List<Category> group : table.categoryGroups()) {
            for (CuttingSpecification mix : mixes) {
                YieldGrid grid = Engine.grid(table, group.get(0), mix);
                if (stands(definition, grid, slot)) {
                    rise = Math.min(rise, smallestChange(definition, grid, slot, variable, 1));
                    fall = Math.min(fall, smallestChange(definition, grid, slot, variable, -1));
                }
            }
        }
        boolean noStepToTake = Double.isInfinite(rise);
        if (noStepToTake) {
            return;
        }
        check(definition, cut, level, variable, Expectation.Direction.RISES, rise);
        check(definition, cut, level, variable, Expectation.Direction.FALLS, fall);
    }

    private static boolean stands(TableDefinition definition, YieldGrid grid, int slot) {
        TableRange allowed = definition.allowed();
        for (int c = low(allowed.conformation()); c <= high(allowed.conformation()); c++) {
            for (int f = low(allowed.fat()); f <= high(allowed.fat()); f++) {
                if (grid.shares(c, f, allowed.weightKg().low())[slot] != 0
                        || grid.shares(c, f, allowed.weightKg().high())[slot] != 0) {
                    return true;
                }
            }
        }
        return false;
    }

    /** The smallest change over a step in a grade, or per 100 kg (central difference), in g/kg. */
    private static double smallestChange(
            TableDefinition definition, YieldGrid grid, int slot, Variable variable, int sign) {
        TableRange allowed = definition.allowed();
        int stepC = variable == Variable.CONFORMATION ? 1 : 0;
        int stepF = variable == Variable.FAT ? 1 : 0;
        double smallest = Double.POSITIVE_INFINITY;
        for (int c = low(allowed.conformation()); c + stepC <= high(allowed.conformation()); c++) {
            for (int f = low(allowed.fat()); f + stepF <= high(allowed.fat()); f++) {
                int conformation = c;
                int fat = f;
                DoubleUnaryOperator change = variable == Variable.WEIGHT
                        ? w -> slope(grid, slot, conformation, fat, w)
                        : w -> grid.shares(conformation + stepC, fat + stepF, w)[slot]
                                - grid.shares(conformation, fat, w)[slot];
                smallest = Math.min(
                        smallest,
                        smallest(
                                w -> 1000 * sign * change.applyAsDouble(w),
                                allowed.weightKg().low(),
                                allowed.weightKg().high()));
            }
        }
        return smallest;
    }

    /** Per 100 kg; exact for cubics by Richardson's step from the central differences over 50 and 100 kg. */
    private static double slope(YieldGrid grid, int slot, int c, int f, double w) {
        double wide = (grid.shares(c, f, w + 100)[slot] - grid.shares(c, f, w - 100)[slot]) / 2;
        double narrow = grid.shares(c, f, w + 50)[slot] - grid.shares(c, f, w - 50)[slot];
        return (4 * narrow - wide) / 3;
    }

    private static void check(
            TableDefinition definition,
            Cut cut,
            int level,
            Variable variable,
            Expectation.Direction direction,
            double searched) {
        Expectation expectation = new Expectation(
                cut.code(),
                null,
                definition.levels().get(level),
                variable,
                direction,
                false,
                Expectation.Over.ALLOWED,
                "");
        TableDefinition expecting =
                definition.toBuilder().expectation(expectation).build();
        if (searched < -1e-9) {
            InvalidTableException refusal =
                    catchThrowableOfType(InvalidTableException.class, () -> YieldTable.of(expecting));
            assertThat(refusal)
                    .as(expectation.claim() + " is broken by " + searched)
                    .isNotNull();
            assertThat(refusal.problems()).hasSize(1);
            Matcher printed = CHANGE.matcher(refusal.problems().get(0).message());
            assertThat(printed.find()).as(refusal.getMessage()).isTrue();
            // printed to 3 decimals, the sign left to the wording
            assertThat(Math.abs(Double.parseDouble(printed.group(1)))).isCloseTo(-searched, within(0.0006));
        } else {
            double margin = Assertions.assertDoesNotThrow(() -> margin(YieldTable.of(expecting), expectation.claim()));
            assertThat(margin).isLessThanOrEqualTo(searched + 1e-10);
            assertThat(margin).isCloseTo(searched, within(1e-9));
        }
    }
}
