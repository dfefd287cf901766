package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.boning.RunBalance;
import org.beefyield.carcass.Category;
import org.beefyield.reconcile.WeighedRun;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TableOverride;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Provenance;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;
import org.jspecify.annotations.Nullable;

/** What came of a calibration from runs: what they taught of each group of products, what has changed, and the table. Immutable. */
public final class RunCalibrated implements ShownInBlocks {
    /** Parts of the way to proportion, then of the move, that are tried one after the other. */
    private static final List<Step> STEPS = List.of(
            new Step(0, 1),
            new Step(0.25, 1),
            new Step(0.5, 1),
            new Step(1, 1),
            new Step(1, 0.5),
            new Step(1, 0.25),
            new Step(1, 0.125),
            new Step(1, 0));

    private record Step(double bend, double part) {}

    /** What is learnt while it is gone to, and stands then. */
    private static final class Learnt {
        private List<List<RunModel.Loading>> loadings = List.of();
        private RunModel.@Nullable Fit fit;
    }

    private final YieldTable prior;
    private final @Nullable RunModel model;
    private final List<RunBalance> unbalanced;
    private final List<String> earlier;
    private final @Nullable String from;
    private final List<Drift> drifts;
    /** By breakdown, number of the step that was taken. */
    private final int[] steps;

    private final String[] problems;
    private final Learnt learnt = new Learnt();
    private final List<LearntGroup> groups = new ArrayList<>();

    RunCalibrated(
            YieldTable prior,
            @Nullable RunModel model,
            List<RunBalance> unbalanced,
            List<String> earlier,
            @Nullable String from,
            List<Drift> drifts) {
        this.prior = prior;
        this.model = model;
        this.unbalanced = List.copyOf(unbalanced);
        this.earlier = List.copyOf(earlier);
        this.from = from;
        this.drifts = List.copyOf(drifts);
        int count = model == null ? 0 : model.breakdowns.size();
        this.steps = new int[count];
        this.problems = new String[count];
        Arrays.fill(problems, "");
        if (model != null) {
            settle(model);
            describe(model);
        }
    }

    private double bend(int breakdown) {
        return STEPS.get(steps[breakdown]).bend();
    }

    private double part(int breakdown) {
        return STEPS.get(steps[breakdown]).part();
    }

    private double[] parts() {
        return IntStream.range(0, steps.length).mapToDouble(this::part).toArray();
    }

    /** Goes to what the runs say, or as far as a table holds. */
    private void settle(RunModel of) {
        learn(of);
        List<Integer> all = IntStream.range(0, steps.length).boxed().toList();
        for (String failure = failure(all); !failure.isEmpty(); failure = failure(all)) {
            // each by itself first, so that one doesn't drag all down
            List<Integer> failing = new ArrayList<>();
            for (int b : all) {
                String own = part(b) == 0 ? "" : failure(List.of(b));
                if (!own.isEmpty()) {
                    failing.add(b);
                    problems[b] = problems[b].isEmpty() ? own : problems[b];
                }
            }
            if (failing.isEmpty()) {
                for (int b : all) {
                    if (part(b) > 0) {
                        failing.add(b);
                        problems[b] = problems[b].isEmpty() ? failure : problems[b];
                    }
                }
            }
            boolean again = false;
            for (int b : failing) {
                double before = bend(b);
                steps[b]++;
                again |= bend(b) != before;
            }
            if (again) {
                learn(of);
            }
        }
    }

    private void learn(RunModel of) {
        learnt.loadings = IntStream.range(0, steps.length)
                .mapToObj(b -> of.loadings(b, bend(b)))
                .toList();
        learnt.fit = of.fit(learnt.loadings);
    }

    /** The first thing that a table with some breakdowns doesn't hold; empty if it holds. */
    private String failure(List<Integer> some) {
        try {
            build("tried", "0", some);
            return "";
        } catch (InvalidTableException failure) {
            return failure.problems().get(0).message();
        }
    }

    private void describe(RunModel of) {
        RunModel.Fit found = Objects.requireNonNull(learnt.fit);
        double[] whole = new double[steps.length];
        Arrays.fill(whole, 1);
        double[][] after = of.expected(learnt.loadings, found.z(), parts());
        double[][] wholly = of.expected(learnt.loadings, found.z(), whole);
        for (int g = 0; g < of.groups.size(); g++) {
            double held = of.mean(g, wholly) - of.mean(g, after);
            double runVariance = found.runSds()[g] * found.runSds()[g];
            groups.add(new LearntGroup(
                    of.groups.get(g).name(),
                    of.groups.get(g).products(),
                    of.count(g),
                    of.mean(g, of.expected),
                    norm(found.meanSlopes()[g]),
                    of.mean(g, of.weighed),
                    Math.max(0, of.mean(g, after)),
                    Math.hypot(Math.sqrt(Math.max(0, quadratic(found.slopes()[g], found.covariance()))), held),
                    found.runSds()[g],
                    of.ofCarcass[g] / (of.within(g) + runVariance)));
        }
    }

    private static double norm(double[] row) {
        return Math.sqrt(Arrays.stream(row).map(one -> one * one).sum());
    }

    private static double quadratic(double[] row, double[][] matrix) {
        double sum = 0;
        for (int m = 0; m < row.length; m++) {
            for (int l = 0; row[m] != 0 && l < row.length; l++) {
                sum += row[m] * matrix[m][l] * row[l];
            }
        }
        return sum;
    }

    /**
     * The table in use.
     *
     * @return the table that the runs were read with
     */
    public YieldTable tableInUse() {
        return prior;
    }

    /**
     * Runs that taught.
     *
     * @return their names, in the order of their days
     */
    public List<String> runs() {
        return model == null
                ? List.of()
                : model.runs.stream().map(WeighedRun::name).toList();
    }

    /**
     * Runs that balance and are before the change, so that they taught nothing.
     *
     * @return their names, in the order of their days; none without a change
     */
    public List<String> earlier() {
        return earlier;
    }

    /**
     * Runs that don't balance.
     *
     * @return their balances, in the order of their days
     */
    public List<RunBalance> unbalanced() {
        return unbalanced;
    }

    /**
     * What was learnt of each group of products that was weighed.
     *
     * @return an unmodifiable list in the order of the products, weighed bone and fat last
     */
    public List<LearntGroup> groups() {
        return List.copyOf(groups);
    }

    /**
     * What was learnt of a group.
     *
     * @param name its name
     * @return the group
     * @throws IllegalArgumentException if none of that name was weighed
     */
    public LearntGroup group(String name) {
        Objects.requireNonNull(name, "name");
        return groups.stream()
                .filter(group -> group.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no group \"" + name + "\" was weighed; there are "
                        + groups.stream().map(LearntGroup::name).collect(Collectors.joining(", "))));
    }

    /**
     * Groups that are expected and of which no run weighed anything: they taught nothing.
     *
     * @return their names
     */
    public List<String> neverWeighed() {
        return model == null ? List.of() : List.copyOf(model.neverWeighed);
    }

    /**
     * What has changed since the day of a change, group by group.
     *
     * @return an unmodifiable list; empty without a change
     */
    public List<Drift> drifts() {
        return drifts;
    }

    /** The day of the change, if there is one. */
    @Nullable
    String from() {
        return from;
    }

    /**
     * Breakdowns that don't go all the way to what the runs say.
     *
     * @return what was done and why
     */
    public List<HeldBack> heldBack() {
        List<HeldBack> held = new ArrayList<>();
        for (int b = 0; model != null && b < steps.length; b++) {
            if (steps[b] > 0) {
                held.add(new HeldBack(model.breakdowns.get(b).weighed.name(), bend(b), part(b), problems[b]));
            }
        }
        return held;
    }

    /**
     * Whether anything was learnt.
     *
     * @return false if the table is the one in use under another name
     */
    public boolean isMoved() {
        return IntStream.range(0, steps.length).anyMatch(b -> part(b) > 0);
    }

    /** Breakdowns of which the table in use doesn't say how sure it is. */
    List<String> silent() {
        return model == null
                ? List.of()
                : model.silent.stream().map(one -> one.weighed.name()).toList();
    }

    /**
     * What the SDs between runs were multiplied by: 1 unless the runs contradict them in most groups.
     *
     * @return the factor
     */
    public double runSdFactor() {
        RunModel.Fit found = learnt.fit;
        if (model == null || found == null || !found.contradicts()) {
            return 1;
        }
        double own = 0;
        double stated = 0;
        for (int g = 0; g < model.groups.size(); g++) {
            own += found.runSds()[g] * found.runSds()[g];
            stated += model.declared(g);
        }
        return stated > 0 ? Math.sqrt(own / stated) : 1;
    }

    /**
     * The table in use with the learnt breakdowns in the place of its own, proved like any other. It carries the covariance of the
     * coefficients, which stands for what is not known of the hall any more; all else but the SDs between runs is that of the
     * table in use. What the runs tell of two breakdowns together has no place in a table: its intervals for what was weighed are
     * wider than those of {@link #groups()}, on the safe side. If nothing was learnt, it is the table in use under another name.
     *
     * @param name name of the table: lower-case letters, digits, {@code . _ -}
     * @param version version of the table
     * @return the table
     * @throws InvalidTableException if the name or the version is none
     */
    public YieldTable table(String name, String version) {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(version, "version");
        return build(name, version, IntStream.range(0, steps.length).boxed().toList());
    }

    private YieldTable build(String name, String version, List<Integer> some) {
        TableOverride override = TableOverride.of(prior, name, version);
        List<Integer> moved = some.stream().filter(b -> part(b) > 0).toList();
        if (model == null || moved.isEmpty()) {
            return override.build();
        }
        SourceRow source = source(model, name);
        BreakdownWriter writer = new BreakdownWriter(
                prior,
                source,
                new SourceRow(
                        source.source() + "-moved",
                        SourceKind.ASSUMPTION,
                        "Moved as the categories that were boned, for none of this one was",
                        ""));
        moved.forEach(b -> writer.replace(override, List.of(learnt(model, b))));
        List<Provenance> provenance = new ArrayList<>(prior.definition().provenance());
        provenance.add(new Provenance("table", prior.identity()));
        moved.forEach(b -> provenance.add(new Provenance(
                "breakdown of " + model.breakdowns.get(b).weighed.name(), model.runs.size() + " boning runs")));
        return override.provenance(provenance).build();
    }

    private SourceRow source(RunModel of, String name) {
        Set<String> names = new HashSet<>();
        prior.definition().sources().forEach(source -> names.add(source.source()));
        String own = "runs-" + name;
        for (int i = 2; names.contains(own); i++) {
            own = "runs-" + name + "-" + i;
        }
        return new SourceRow(
                own,
                SourceKind.DERIVED,
                "What " + of.runs.size() + " boning runs weighed, " + String.join(" to ", of.ends()),
                "learnt with what " + prior.identity()
                        + " knows; what runs tell of two breakdowns together isn't in it");
    }

    private LearntBreakdown learnt(RunModel of, int b) {
        RunModel.Fit found = Objects.requireNonNull(learnt.fit);
        PriorBreakdown breakdown = of.breakdowns.get(b);
        double times = runSdFactor();
        Map<Category, LearntBreakdown.OfCategory> byCategory = new LinkedHashMap<>();
        for (Category category : breakdown.served) {
            double[][] coefficients = of.coefficients(b, category, learnt.loadings.get(b), found.z(), part(b));
            double[][] whole = of.coefficients(b, category, learnt.loadings.get(b), found.z(), 1);
            List<LearntBreakdown.Sds> sds = new ArrayList<>();
            for (int k = 0; k < breakdown.weighed.children().size(); k++) {
                BreakdownRow row = breakdown.row(category, k);
                Double ofRuns = row == null ? null : row.shared().runGPerKg();
                sds.add(new LearntBreakdown.Sds(
                        row == null ? 0 : row.sdGPerKg(),
                        ofRuns == null ? null : times * ofRuns,
                        breakdown.states(SharedBy.HALL) ? 0.0 : null));
            }
            byCategory.put(
                    category,
                    new LearntBreakdown.OfCategory(
                            coefficients,
                            errors(category, learnt.loadings.get(b), found.covariance(), coefficients, whole),
                            of.boned.contains(category),
                            sds,
                            null));
        }
        return new LearntBreakdown(breakdown, BreakdownRow.ANY, byCategory);
    }

    /** Covariance of the coefficients; what was held back of a move is an error too. */
    private static double[][] errors(
            Category category,
            List<RunModel.Loading> loadings,
            double[][] covariance,
            double[][] coefficients,
            double[][] whole) {
        int children = coefficients[0].length;
        int size = coefficients.length * children;
        double[][] rows = new double[size][loadings.size()];
        double[] held = new double[size];
        for (int a = 0; a < size; a++) {
            int j = a / children;
            int k = a % children;
            held[a] = whole[j][k] - coefficients[j][k];
            for (int m = 0; m < loadings.size(); m++) {
                double[][] of = loadings.get(m).ofCategory().get(category);
                rows[a][m] = of == null ? 0 : of[j][k];
            }
        }
        double[][] half = new double[size][loadings.size()];
        for (int a = 0; a < size; a++) {
            for (int m = 0; m < loadings.size(); m++) {
                for (int l = 0; rows[a][m] != 0 && l < loadings.size(); l++) {
                    half[a][l] += rows[a][m]
                            * covariance[loadings.get(m).number()][
                                    loadings.get(l).number()];
                }
            }
        }
        double[][] errors = new double[size][size];
        for (int a = 0; a < size; a++) {
            for (int b = 0; b <= a; b++) {
                double sum = held[a] * held[b];
                for (int m = 0; m < loadings.size(); m++) {
                    sum += half[a][m] * rows[b][m];
                }
                errors[a][b] = sum;
                errors[b][a] = sum;
            }
        }
        return errors;
    }

    @Override
    public Blocks blocks() {
        return RunCalibratedText.blocks(this);
    }

    /**
     * One line.
     *
     * @return number of runs and whether there is a new table
     */
    @Override
    public String toString() {
        return RunCalibratedText.sentence(this);
    }
}
