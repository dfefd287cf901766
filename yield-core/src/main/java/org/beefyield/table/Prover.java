package org.beefyield.table;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.grid.Breakdown;
import org.beefyield.grid.CompiledTable;
import org.beefyield.grid.Nodes;
import org.beefyield.grid.Polynomials;
import org.beefyield.grid.TableLayout;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Proves a table's promises at every node of its grid over the whole weight range, exactly: a share is a polynomial of
 * third degree or less in weight, whose extremes are known.
 */
final class Prover {
    private static final double TOLERANCE = 1e-12;

    private final TableDefinition definition;
    private final Nodes allowed;
    private final TableLayout layout;
    private final List<TableProblem> problems = new ArrayList<>();
    private final List<ProofFinding> findings = new ArrayList<>();

    /** A grid with the categories and specification that it stands for. */
    record Compiled(String categories, CuttingSpecification specification, YieldGrid grid) {
        static Compiled of(CompiledTable table, CompiledTable.Group group, CuttingSpecification specification) {
            return new Compiled(group.letters(), specification, table.grid(group, specification.ways()));
        }

        String label() {
            return "category " + categories + (specification.name().isEmpty() ? "" : ", " + specification);
        }
    }

    Prover(TableDefinition definition, TableLayout layout) {
        this.definition = definition;
        this.allowed = new Nodes(definition.axes(), definition.allowed());
        this.layout = layout;
    }

    List<TableProblem> problems() {
        return problems;
    }

    List<ProofFinding> findings() {
        return findings;
    }

    /** The tightest place of one promise so far. */
    private final class Tightest {
        private double margin = Double.POSITIVE_INFINITY;
        private String label = "";
        private int atNode;
        private double atT;
        private final Set<Integer> failedNodes = new HashSet<>();

        void see(double value, boolean strict, String labelHere, int node, double t) {
            if (strict ? !(value > TOLERANCE) : !(value >= -TOLERANCE)) {
                failedNodes.add(node);
            }
            if (value < margin) {
                margin = value;
                atNode = node;
                atT = t;
                label = labelHere;
            }
        }

        String where() {
            return margin == Double.POSITIVE_INFINITY
                    ? ""
                    : label + ", " + allowed.grades(atNode) + ", " + Numbers.exact(weight(atT)) + " kg";
        }

        boolean failed() {
            return !failedNodes.isEmpty();
        }

        /** How many nodes fail beside the worst one. */
        String more() {
            int more = failedNodes.size() - 1;
            return more == 0 ? "" : " (and at " + more + (more == 1 ? " more node)" : " more nodes)");
        }
    }

    private double weight(double t) {
        return Math.rint((definition.reference().weightKg() + 100 * t) * 1000) / 1000;
    }

    private double t(double weightKg) {
        return (weightKg - definition.reference().weightKg()) / 100;
    }

    /** Shares of each breakdown by itself; without them all else would be words about a table that is none. */
    void proveShares(List<CompiledTable.Group> groups) {
        groups.forEach(this::proveShares);
    }

    /**
     * What levels add up to and what is expected of their cuts.
     *
     * @param ways ways of every parent that has any
     * @param grids some that use every way
     * @param declared those of the table's cutting specifications, under which its expectations hold; without any they hold in
     *     every mix of ways
     */
    void proveLevels(
            List<CompiledTable.Group> groups,
            Map<String, Set<String>> ways,
            List<Compiled> grids,
            List<Compiled> declared) {
        proveClosure(groups, ways, grids);
        List<InEveryMix> mixes = groups.stream()
                .map(group -> new InEveryMix(group, WayChoices.of(ways)))
                .toList();
        for (int i = 0; i < definition.expectations().size(); i++) {
            proveExpectation(i, definition.expectations().get(i), mixes, declared);
        }
    }

    /** Behind a claim about a table with ways, where it holds. */
    private static String covering(boolean hasWays, boolean inEveryMix) {
        return !hasWays ? "" : inEveryMix ? ", in every mix of ways" : ", under the cutting specifications";
    }

    private void proveShares(CompiledTable.Group group) {
        Tightest all = new Tightest();
        for (Map.Entry<String, Map<String, Breakdown>> byParent :
                group.breakdowns().entrySet()) {
            for (Breakdown breakdown : byParent.getValue().values()) {
                for (int k = 0; k < breakdown.children().size(); k++) {
                    Tightest one = new Tightest();
                    proveShare(breakdown, k, group.letters(), one, all);
                    if (one.failed()) {
                        Cut child = breakdown.children().get(k);
                        problems.add(new TableProblem(
                                breakdown.resource(),
                                breakdown.row(k, one.atNode),
                                TableColumn.CUT,
                                child.code(),
                                "its share of " + breakdown.parent() + " is " + gPerKg(one.margin) + " g/kg at "
                                        + one.where() + "; a share is at least 0 over the whole allowed range"
                                        + one.more()));
                    }
                }
            }
        }
        findings.add(new ProofFinding(
                "no share is below 0 (categories " + group.letters() + ")", 1000 * all.margin, all.where()));
    }

    private void proveShare(Breakdown breakdown, int child, String categories, Tightest one, Tightest all) {
        String label = "category " + categories
                + (breakdown.way().equals(BreakdownRow.ANY) ? "" : ", way " + breakdown.way()) + ", "
                + breakdown.children().get(child).code() + " of " + breakdown.parent();
        Range weights = definition.allowed().weightKg();
        allowed.forEach(node -> {
            double share = breakdown.share(child, node);
            double slope = breakdown.slope(child, node);
            for (double t : new double[] {t(weights.low()), t(weights.high())}) {
                one.see(share + slope * t, false, label, node, t);
                all.see(share + slope * t, false, label, node, t);
            }
        });
    }

    /** A figure in g/kg for a message: rounded to what a person can use, tiny ones kept visible. */
    private static String gPerKg(double fraction) {
        double g = fraction * 1000;
        return Numbers.visible(g);
    }

    /**
     * The grids say it of the mixes that they stand for, and the breakdowns of every mix: what a level is off is at most what
     * the breakdowns down to it are off, one of each level.
     */
    private void proveClosure(List<CompiledTable.Group> groups, Map<String, Set<String>> ways, List<Compiled> grids) {
        double most = 0;
        for (int level = 0; level < layout.levels().size(); level++) {
            Tightest tightest = new Tightest();
            Range weights = definition.allowed().weightKg();
            int[] slots = slots(level, null, null);
            for (Compiled compiled : grids) {
                String label = compiled.label();
                allowed.forEach(node -> {
                    double[] off = compiled.grid().ofSlots(node, slots);
                    off[0] -= 1;
                    double[] negative = off.clone();
                    for (int j = 0; j < off.length; j++) {
                        negative[j] = -off[j];
                    }
                    for (double[] side : List.of(off, negative)) {
                        double t = Polynomials.argMin(side, t(weights.low()), t(weights.high()));
                        tightest.see(TOLERANCE + Polynomials.value(side, t), false, label, node, t);
                    }
                });
            }
            Tightest ofBreakdowns = closureOfBreakdowns(groups, level);
            if (ofBreakdowns.margin < Double.POSITIVE_INFINITY) {
                most -= ofBreakdowns.margin;
                tightest.see(TOLERANCE - most, false, ofBreakdowns.label, ofBreakdowns.atNode, ofBreakdowns.atT);
            }
            String claim = "the cuts of level " + layout.levels().get(level) + " add up to 1 within 1e-12"
                    + covering(!ways.isEmpty(), true);
            if (tightest.margin < 0) {
                problems.add(new TableProblem(
                        TableSchema.BREAKDOWN,
                        TableProblem.NO_ROW,
                        "",
                        "",
                        claim + ", but not at " + tightest.where() + tightest.more()));
            }
            findings.add(new ProofFinding(claim, 1000 * tightest.margin, tightest.where()));
        }
    }

    /** The breakdown into a level that is furthest from adding up to 1, as a margin below 0. */
    private Tightest closureOfBreakdowns(List<CompiledTable.Group> groups, int level) {
        Tightest tightest = new Tightest();
        Range weights = definition.allowed().weightKg();
        for (CompiledTable.Group group : groups) {
            group.breakdowns()
                    .forEach((parent, byWay) -> byWay.forEach((way, breakdown) -> {
                        int into = parent.equals(BreakdownRow.ROOT) ? 0 : 1 + levelOf(parent);
                        if (into != level) {
                            return;
                        }
                        String label = "category " + group.letters()
                                + (way.equals(BreakdownRow.ANY) ? "" : ", way " + way) + ", " + parent;
                        allowed.forEach(node -> {
                            for (double t : new double[] {t(weights.low()), t(weights.high())}) {
                                double sum = -1;
                                for (int k = 0; k < breakdown.children().size(); k++) {
                                    sum += breakdown.share(k, node) + breakdown.slope(k, node) * t;
                                }
                                tightest.see(-Math.abs(sum), false, label, node, t);
                            }
                        });
                    }));
        }
        return tightest;
    }

    private int levelOf(String cut) {
        return definition.cuts().stream()
                .filter(each -> each.code().equals(cut))
                .mapToInt(each -> layout.levelIndex(each.level()))
                .findFirst()
                .orElse(-1);
    }

    /** A group of categories in every mix of ways at once. */
    private final class InEveryMix {
        private final CompiledTable.Group group;
        private final WayChoices choices;
        private final WayShares shares;
        private final Map<Integer, double[][]> atNode = new HashMap<>();

        InEveryMix(CompiledTable.Group group, WayChoices choices) {
            this.group = group;
            this.choices = choices;
            this.shares = new WayShares(layout, definition.cuts(), group.breakdowns(), choices);
        }

        /** Numbers of the terms of a figure, by the choices that they name. */
        private Map<List<Integer>, List<Integer>> terms(int level, int[] slots) {
            Map<List<Integer>, List<Integer>> terms = new LinkedHashMap<>();
            for (int slot : slots) {
                String cut =
                        layout.cutsAt(level).get(slot - layout.start(level)).code();
                for (int term : shares.terms(layout.levels().get(level), cut)) {
                    terms.computeIfAbsent(shares.picks(term), picks -> new ArrayList<>())
                            .add(term);
                }
            }
            return terms;
        }

        private double[] sum(int node, List<Integer> terms) {
            double[][] values = atNode.computeIfAbsent(node, at -> shares.at(at, 0));
            double[] sum = new double[WayShares.COEFFICIENTS];
            for (int term : terms) {
                for (int j = 0; j < sum.length; j++) {
                    sum[j] += values[term][j];
                }
            }
            return sum;
        }

        /** Whether terms give anything at any node. */
        private boolean give(List<Integer> terms) {
            boolean[] give = {false};
            allowed.forEach(node -> {
                for (double coefficient : sum(node, terms)) {
                    give[0] |= coefficient != 0;
                }
            });
            return give[0];
        }

        /** The choices of which each makes a figure stand, whatever the others; one of no choice if it always does. */
        List<List<Integer>> standing(int level, int[] slots) {
            Map<List<Integer>, List<Integer>> terms = terms(level, slots);
            terms.values().removeIf(its -> !give(its));
            return terms.keySet().stream()
                    .filter(picks -> picks.stream().allMatch(pick -> pick == WayShares.ANY))
                    .findFirst()
                    .map(List::of)
                    .orElse(List.copyOf(terms.keySet()));
        }

        /** Whether no choice of ways changes a figure. */
        boolean isFree(int level, int[] slots) {
            return terms(level, slots).keySet().stream()
                    .allMatch(picks -> picks.stream().allMatch(pick -> pick == WayShares.ANY));
        }

        /** The smallest step of an expectation in any mix in which its figure stands. */
        void proveStep(
                Expectation expectation, int level, int[] slots, Nodes inRange, Range weights, Tightest tightest) {
            Map<List<Integer>, List<Integer>> terms = terms(level, slots);
            BestMix mix = new BestMix(choices.counts(), t(weights.low()), t(weights.high()));
            for (List<Integer> standing : standing(level, slots)) {
                inRange.forEach(node -> {
                    int next = inRange.next(node, expectation.variable());
                    if (next < 0) {
                        return;
                    }
                    List<BestMix.Part> parts = new ArrayList<>();
                    terms.forEach((picks, its) -> {
                        List<Integer> left = without(picks, standing);
                        if (left != null) {
                            parts.add(new BestMix.Part(left, step(expectation, sum(node, its), sum(next, its))));
                        }
                    });
                    BestMix.Best least = mix.least(parts);
                    // words of the tightest place alone: finding the choices that matter takes its time
                    String label = least.value() < tightest.margin
                            ? label(standing, mix.thatMatter(parts, least))
                            : tightest.label;
                    tightest.see(least.value(), expectation.strict(), label, node, least.t());
                });
            }
        }

        /** The choices that a term still names when some are made; null if they rule it out. */
        private static @Nullable List<Integer> without(List<Integer> picks, List<Integer> made) {
            List<Integer> left = new ArrayList<>(picks);
            for (int i = 0; i < picks.size(); i++) {
                int pick = picks.get(i);
                if (made.get(i) != WayShares.ANY) {
                    if (pick != WayShares.ANY && pick != made.get(i)) {
                        return null;
                    }
                    left.set(i, WayShares.ANY);
                }
            }
            return left;
        }

        private String label(List<Integer> made, List<Integer> others) {
            List<String> words = new ArrayList<>();
            for (int i = 0; i < made.size(); i++) {
                int pick = made.get(i) == WayShares.ANY ? others.get(i) : made.get(i);
                if (pick != WayShares.ANY) {
                    words.add(choices.parent(i) + " as " + choices.ways(i).get(pick));
                }
            }
            return "category " + group.letters() + (words.isEmpty() ? "" : ", " + String.join(", ", words));
        }
    }

    private int[] slots(int level, @Nullable String cut, @Nullable CutKind kind) {
        IntStream.Builder slots = IntStream.builder();
        List<Cut> cuts = layout.cutsAt(level);
        for (int i = 0; i < cuts.size(); i++) {
            if ((cut == null || cuts.get(i).code().equals(cut))
                    && (kind == null || cuts.get(i).kind() == kind)) {
                slots.add(layout.start(level) + i);
            }
        }
        return slots.build().toArray();
    }

    private void proveExpectation(int row, Expectation expectation, List<InEveryMix> mixes, List<Compiled> declared) {
        int level = layout.levelIndex(expectation.level());
        int[] slots = slots(level, expectation.cut(), expectation.kind());
        Tightest tightest = new Tightest();
        TableRange range = expectation.over() == Expectation.Over.FITTED
                ? wholePositions(definition.fitted())
                : definition.allowed();
        Nodes inRange = new Nodes(definition.axes(), range);
        boolean none = true;
        for (Compiled compiled : declared) {
            if (stands(compiled.grid(), slots)) {
                none = false;
                String label = compiled.label();
                inRange.forEach(node -> proveStep(
                        expectation, compiled.grid(), label, slots, inRange, range.weightKg(), node, tightest));
            }
        }
        for (InEveryMix mix : declared.isEmpty() ? mixes : List.<InEveryMix>of()) {
            none &= mix.standing(level, slots).isEmpty();
            mix.proveStep(expectation, level, slots, inRange, range.weightKg(), tightest);
        }
        boolean inEveryMix = declared.isEmpty() || mixes.stream().allMatch(mix -> mix.isFree(level, slots));
        if (tightest.margin == Double.POSITIVE_INFINITY) {
            problems.add(new TableProblem(
                    TableSchema.EXPECTATIONS,
                    row,
                    "",
                    "",
                    "expected that " + expectation.claim() + ", but "
                            + (none
                                    ? "no " + (declared.isEmpty() ? "mix of ways" : "cutting specification")
                                            + " yields it"
                                    : "that range holds a single position")));
            return;
        }
        if (tightest.failed()) {
            problems.add(new TableProblem(
                    TableSchema.EXPECTATIONS,
                    row,
                    "",
                    "",
                    "expected that " + expectation.claim() + ", but it changes by "
                            + gPerKg((expectation.direction() == Expectation.Direction.RISES ? 1 : -1) * tightest.margin
                                    + 0.0)
                            + " g/kg "
                            + (expectation.variable() == Variable.WEIGHT
                                    ? "per 100 kg"
                                    : "to the next position of "
                                            + expectation.variable().code())
                            + " at " + tightest.where() + tightest.more()));
        }
        boolean hasWays = mixes.stream().anyMatch(mix -> mix.choices.size() > 0);
        findings.add(new ProofFinding(
                expectation.claim() + covering(hasWays, inEveryMix), 1000 * tightest.margin, tightest.where()));
    }

    /** The range widened to whole positions: what holds between nodes is decided at both of them. */
    private static TableRange wholePositions(TableRange range) {
        return new TableRange(
                new Range(
                        Math.floor(range.conformation().low()),
                        Math.ceil(range.conformation().high())),
                new Range(Math.floor(range.fat().low()), Math.ceil(range.fat().high())),
                range.weightKg());
    }

    /** A specification that doesn't cut the thing at all says nothing about it. */
    private boolean stands(YieldGrid grid, int[] slots) {
        boolean[] stands = {false};
        allowed.forEach(node -> {
            if (!stands[0]) {
                stands[0] = Arrays.stream(grid.ofSlots(node, slots)).anyMatch(coefficient -> coefficient != 0);
            }
        });
        return stands[0];
    }

    private void proveStep(
            Expectation expectation,
            YieldGrid grid,
            String label,
            int[] slots,
            Nodes inRange,
            Range weights,
            int node,
            Tightest tightest) {
        int next = inRange.next(node, expectation.variable());
        if (next < 0) {
            return;
        }
        double[] change = step(expectation, grid.ofSlots(node, slots), grid.ofSlots(next, slots));
        double t = Polynomials.argMin(change, t(weights.low()), t(weights.high()));
        tightest.see(Polynomials.value(change, t), expectation.strict(), label, node, t);
    }

    /** What is expected to be above 0: the change per 100 kg, or to the next node, either with its sign. */
    private static double[] step(Expectation expectation, double[] here, double[] next) {
        double[] change;
        if (expectation.variable() == Variable.WEIGHT) {
            change = Polynomials.derivative(here);
        } else {
            change = next.clone();
            for (int j = 0; j < change.length; j++) {
                change[j] -= here[j];
            }
        }
        double sign = expectation.direction() == Expectation.Direction.RISES ? 1 : -1;
        for (int j = 0; j < change.length; j++) {
            change[j] *= sign;
        }
        return change;
    }

    /** Specifications that together use every way of every cut. */
    static List<CuttingSpecification> covering(Map<String, Set<String>> ways) {
        int most = ways.values().stream().mapToInt(Set::size).max().orElse(0);
        List<CuttingSpecification> covering = new ArrayList<>();
        for (int i = 0; i < Math.max(1, most); i++) {
            Map<String, String> chosen = new LinkedHashMap<>();
            for (Map.Entry<String, Set<String>> entry : ways.entrySet()) {
                List<String> names = List.copyOf(entry.getValue());
                chosen.put(entry.getKey(), names.get(i % names.size()));
            }
            covering.add(
                    ways.isEmpty()
                            ? CuttingSpecification.NONE
                            : CuttingSpecification.of("ways no. " + (i + 1) + " of each cut", chosen));
        }
        return covering;
    }
}
