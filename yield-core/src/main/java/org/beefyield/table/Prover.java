package org.beefyield.table;

import java.util.ArrayList;
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

    void prove(List<CompiledTable.Group> groups, List<Compiled> grids, List<Compiled> forExpectations) {
        groups.forEach(this::proveShares);
        if (problems.isEmpty()) {
            proveClosure(grids);
            for (int i = 0; i < definition.expectations().size(); i++) {
                proveExpectation(i, definition.expectations().get(i), forExpectations);
            }
        }
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

    private void proveClosure(List<Compiled> grids) {
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
            String claim = "the cuts of level " + layout.levels().get(level) + " add up to 1 within 1e-12";
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

    private void proveExpectation(int row, Expectation expectation, List<Compiled> grids) {
        int[] slots = slots(layout.levelIndex(expectation.level()), expectation.cut(), expectation.kind());
        Tightest tightest = new Tightest();
        TableRange range = expectation.over() == Expectation.Over.FITTED
                ? wholePositions(definition.fitted())
                : definition.allowed();
        Nodes inRange = new Nodes(definition.axes(), range);
        double sign = expectation.direction() == Expectation.Direction.RISES ? 1 : -1;
        boolean none = true;
        for (Compiled compiled : grids) {
            if (stands(compiled.grid(), slots)) {
                none = false;
                String label = compiled.label();
                inRange.forEach(node -> proveStep(
                        expectation, compiled.grid(), label, slots, inRange, range.weightKg(), sign, node, tightest));
            }
        }
        if (tightest.margin == Double.POSITIVE_INFINITY) {
            problems.add(new TableProblem(
                    TableSchema.EXPECTATIONS,
                    row,
                    "",
                    "",
                    "expected that " + expectation.claim() + ", but "
                            + (none ? "no cutting specification yields it" : "that range holds a single position")));
            return;
        }
        if (tightest.failed()) {
            problems.add(new TableProblem(
                    TableSchema.EXPECTATIONS,
                    row,
                    "",
                    "",
                    "expected that " + expectation.claim() + ", but it changes by "
                            + gPerKg(sign * tightest.margin + 0.0) + " g/kg "
                            + (expectation.variable() == Variable.WEIGHT
                                    ? "per 100 kg"
                                    : "to the next position of "
                                            + expectation.variable().code())
                            + " at " + tightest.where() + tightest.more()));
        }
        findings.add(new ProofFinding(expectation.claim(), 1000 * tightest.margin, tightest.where()));
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
            for (double coefficient : grid.ofSlots(node, slots)) {
                stands[0] |= coefficient != 0;
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
            double sign,
            int node,
            Tightest tightest) {
        int next = inRange.next(node, expectation.variable());
        if (next < 0) {
            return;
        }
        double[] here = grid.ofSlots(node, slots);
        double[] change;
        if (expectation.variable() == Variable.WEIGHT) {
            change = Polynomials.derivative(here);
        } else {
            change = grid.ofSlots(next, slots);
            for (int j = 0; j < change.length; j++) {
                change[j] -= here[j];
            }
        }
        for (int j = 0; j < change.length; j++) {
            change[j] *= sign;
        }
        double t = Polynomials.argMin(change, t(weights.low()), t(weights.high()));
        tightest.see(Polynomials.value(change, t), expectation.strict(), label, node, t);
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
