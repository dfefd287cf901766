package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TableOverride;
import org.beefyield.table.TableProblem;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.text.Checks;
import org.beefyield.text.Shown;
import org.jspecify.annotations.Nullable;

/**
 * What came of a calibration: the fits of the breakdowns, what looks wrong, a report, and the table. Immutable.
 */
public final class Calibrated implements Shown {
    private final TrialSet trials;
    final List<Candidates> candidates;
    private final List<Finding> found;
    private final @Nullable TableRange allowed;
    private final @Nullable List<Expectation> expectations;
    private final boolean isOfOthers;
    /** By breakdown, the step that was taken; as many as there are for the prior table. */
    private final List<Integer> steps = new ArrayList<>();
    /** By breakdown, why it wasn't the one that errs least; empty if it was. */
    private final List<String> problems = new ArrayList<>();

    private final List<BreakdownFit> fits = new ArrayList<>();
    private final List<Finding> findings;

    Calibrated(TrialSet trials, List<Candidates> candidates, List<Finding> found) {
        this(trials, candidates, found, null, null, false);
    }

    private Calibrated(
            TrialSet trials,
            List<Candidates> candidates,
            List<Finding> found,
            @Nullable TableRange allowed,
            @Nullable List<Expectation> expectations,
            boolean isOfOthers) {
        this.isOfOthers = isOfOthers;
        this.trials = trials;
        this.candidates = List.copyOf(candidates);
        this.found = List.copyOf(found);
        this.allowed = allowed;
        this.expectations = expectations;
        settle();
        this.findings = findingsWithSteps();
    }

    /** Takes of each breakdown the step that errs least, or the next lower one with which the table holds. */
    private void settle() {
        for (int i = 0; i < candidates.size(); i++) {
            steps.add(candidates.get(i).best());
            problems.add("");
        }
        if (candidates.isEmpty()) {
            return;
        }
        Tries tries = new Tries();
        String failure = tries.failure(steps);
        // each by itself, so that one doesn't drag all down
        for (int i = 0; i < candidates.size() && !failure.isEmpty(); i++) {
            for (int step = steps.get(i); step <= candidates.get(i).count(); step++) {
                if (!problems.get(i).isEmpty() && isBelowZero(i, step)) {
                    // why is said already
                    continue;
                }
                steps.set(i, step);
                failure = tries.failure(steps);
                String own = failure.isEmpty() || step == candidates.get(i).count() ? "" : tries.failureOf(i, step);
                if (own.isEmpty()) {
                    break;
                }
                problems.set(i, problems.get(i).isEmpty() ? own : problems.get(i));
            }
        }
        while (!failure.isEmpty()) {
            // the one that stands highest gives way
            int highest = -1;
            int most = 0;
            for (int i = 0; i < steps.size(); i++) {
                int left = candidates.get(i).count() - steps.get(i);
                if (left > most) {
                    most = left;
                    highest = i;
                }
            }
            if (highest < 0) {
                break;
            }
            steps.set(highest, steps.get(highest) + 1);
            problems.set(highest, problems.get(highest).isEmpty() ? failure : problems.get(highest));
            failure = tries.failure(steps);
        }
        fits.addAll(fitsAt(steps));
    }

    /** Whether a step has a share below 0, which takes less to see than a table takes to build. */
    private boolean isBelowZero(int number, int step) {
        Candidates of = candidates.get(number);
        return step < of.count() && of.at(step).isBelowZero(allowed());
    }

    /** Tables that were tried, each built and proved once. */
    private final class Tries {
        private final Map<List<Integer>, String> bySteps = new HashMap<>();
        /** By breakdown, the first thing that a step of it doesn't hold, whatever those of the others are. */
        private final List<Map<Integer, String>> ofOne = new ArrayList<>();

        Tries() {
            candidates.forEach(candidate -> ofOne.add(new HashMap<>()));
        }

        /** The first thing that the table doesn't hold with some steps; empty if it holds. */
        String failure(List<Integer> some) {
            String found = bySteps.get(some);
            if (found == null) {
                // how many carcasses there are is but words of it
                TableDefinition definition = definition("tried", "0", fitsAt(some), 0);
                try {
                    YieldTable.of(definition);
                    found = "";
                } catch (InvalidTableException failure) {
                    found = failure.problems().get(0).message();
                    failure.problems().forEach(problem -> blame(problem, definition, some));
                }
                bySteps.put(List.copyOf(some), found);
            }
            return found;
        }

        /** The first thing that a table doesn't hold with a step of one breakdown and all others as they are. */
        String failureOf(int number, int step) {
            String known = ofOne.get(number).get(step);
            if (known == null) {
                List<Integer> alone = new ArrayList<>();
                candidates.forEach(of -> alone.add(of.count()));
                alone.set(number, step);
                known = failure(alone);
            }
            return known;
        }

        /** A share below 0 is its own breakdown's fault, and that of the fit which alone has its row. */
        private void blame(TableProblem problem, TableDefinition definition, List<Integer> some) {
            if (!problem.resource().equals(TableSchema.BREAKDOWN.code())
                    || !problem.column().equals(TableColumn.CUT)
                    || problem.row() < 0) {
                return;
            }
            BreakdownRow row = definition.breakdown().get(problem.row());
            List<Integer> having = IntStream.range(0, candidates.size())
                    .filter(i -> some.get(i) < candidates.get(i).count())
                    .filter(i -> candidates.get(i).model.has(row))
                    .boxed()
                    .toList();
            if (having.size() == 1) {
                int number = having.get(0);
                ofOne.get(number).putIfAbsent(some.get(number), problem.message());
            }
        }
    }

    /** The fits of some steps; none of a breakdown that stays as it is. */
    private List<BreakdownFit> fitsAt(List<Integer> some) {
        List<BreakdownFit> at = new ArrayList<>();
        for (int i = 0; i < some.size(); i++) {
            if (some.get(i) < candidates.get(i).count()) {
                at.add(candidates.get(i).at(some.get(i)));
            }
        }
        return at;
    }

    private List<Finding> findingsWithSteps() {
        List<Finding> all = new ArrayList<>();
        for (int i = 0; i < steps.size(); i++) {
            Candidates of = candidates.get(i);
            if (steps.get(i) > 0) {
                all.add(new Finding(
                        Finding.Kind.GIVEN_UP,
                        BreakdownFit.name(of.model),
                        FindingText.givenUp(
                                of.at(0).fitted(),
                                steps.get(i) < of.count() ? of.at(steps.get(i)).fitted() : "",
                                problems.get(i),
                                of.model.others())));
            }
        }
        all.addAll(found);
        return List.copyOf(all);
    }

    /**
     * The same fits for a table that may be used over another range than the prior's.
     *
     * @param range allowed range, its grades whole positions
     * @return the same with that range
     */
    public Calibrated withAllowedRange(TableRange range) {
        Objects.requireNonNull(range, "range");
        return new Calibrated(trials, candidates, found, range, expectations, isOfOthers);
    }

    /**
     * The same fits for a table with other expectations about itself than the prior's.
     *
     * @param newExpectations expectations, none to have none
     * @return the same with those expectations
     */
    public Calibrated withExpectations(List<Expectation> newExpectations) {
        Checks.noNullIn(newExpectations, "newExpectations");
        return new Calibrated(trials, candidates, found, allowed, List.copyOf(newExpectations), isOfOthers);
    }

    /**
     * The same fits for a table of another hall than the one, or those, that boned the trials: how far halls differ stays in it
     * as the prior table states it, and not 0.
     *
     * @return the same for other halls
     */
    public Calibrated forOtherHalls() {
        return new Calibrated(trials, candidates, found, allowed, expectations, true);
    }

    /** Whether the trials are of other halls than the table's. */
    boolean isOfOthers() {
        return isOfOthers;
    }

    /**
     * The breakdowns that were learnt, each as the table has it; those that stay as in the prior table are not among them.
     *
     * @return an unmodifiable list in the table's order
     */
    public List<BreakdownFit> fits() {
        return List.copyOf(fits);
    }

    /**
     * The fit of a breakdown; the first one where categories are apart.
     *
     * @param parent code of the cut that is broken down, or {@code carcass}
     * @return the fit
     * @throws IllegalArgumentException if it wasn't fitted
     */
    public BreakdownFit fit(String parent) {
        Objects.requireNonNull(parent, "parent");
        return fits.stream()
                .filter(fit -> fit.parent().equals(parent))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("the breakdown of \"" + parent
                        + "\" was not fitted; fitted: "
                        + (fits.isEmpty()
                                ? "none"
                                : fits.stream().map(BreakdownFit::name).collect(Collectors.joining(", ")))));
    }

    /**
     * What a person should look at.
     *
     * @return an unmodifiable list
     */
    public List<Finding> findings() {
        return findings;
    }

    /**
     * The trials.
     *
     * @return the set that was fitted
     */
    public TrialSet trials() {
        return trials;
    }

    /**
     * The report as plain text: trials left out, closing, findings, and for each breakdown its errors, coefficients
     * beside the prior's, and mean residuals by category, day and grade.
     *
     * @return lines, for a fixed-width font
     */
    @Override
    public String toText() {
        return CalibratedText.of(this).toText();
    }

    /**
     * The same report as HTML that needs no style sheet.
     *
     * @return elements, all text escaped
     */
    @Override
    public String toHtml() {
        return CalibratedText.of(this).toHtml();
    }

    /**
     * The range of the carcasses in the fits.
     *
     * @return lowest and highest positions and cold weights
     * @throws IllegalStateException if nothing was fitted
     */
    public TableRange trialRange() {
        return trialRange(fits);
    }

    private TableRange trialRange(List<BreakdownFit> some) {
        if (some.isEmpty()) {
            throw new IllegalStateException("nothing was fitted: "
                    + findings.stream().map(Finding::toString).collect(Collectors.joining("; ")));
        }
        return new TableRange(
                range(some, TableRange::conformation), range(some, TableRange::fat), range(some, TableRange::weightKg));
    }

    private static Range range(List<BreakdownFit> some, Function<TableRange, Range> variable) {
        return some.stream()
                .map(fit -> variable.apply(fit.model.range))
                .reduce((one, other) -> new Range(Math.min(one.low(), other.low()), Math.max(one.high(), other.high())))
                .orElseThrow();
    }

    /** The range that the new table may be used over. */
    private TableRange allowed() {
        return allowed == null ? trials().table().definition().allowed() : allowed;
    }

    private static Range within(Range range, Range limits) {
        double low = Math.min(Math.max(range.low(), limits.low()), limits.high());
        return new Range(low, Math.max(low, Math.min(range.high(), limits.high())));
    }

    /**
     * The prior table with the learnt breakdowns in the place of its own, proved like any other. It carries the covariances
     * between carcasses and of the coefficients, which stand for what is not known of the hall any more, and the SDs between runs;
     * its grades are as fine as the finest of the trials. Its fitted range is that of the prior table where that counted, else
     * that of the trials. All else is the prior's. If nothing could be learnt, it is the prior table under another name.
     *
     * @param name name of the table: lower-case letters, digits, {@code . _ -}
     * @param version version of the table
     * @return the table
     * @throws InvalidTableException if the name or the version is none, or the prior table doesn't hold with another allowed range
     *     or other expectations that were asked for
     */
    public YieldTable table(String name, String version) {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(version, "version");
        return YieldTable.of(definition(name, version, fits, carcasses()));
    }

    /** Carcasses of all that was learnt. */
    private int carcasses() {
        if (fits.size() == 1) {
            return fits.get(0).carcassCount();
        }
        Set<Trial> all = Collections.newSetFromMap(
                new IdentityHashMap<>(trials.accepted().size()));
        fits.forEach(fit -> fit.model.rows.forEach(row -> all.add(row.trial())));
        return all.size();
    }

    private TableDefinition definition(String name, String version, List<BreakdownFit> some, int carcasses) {
        TableRange limits = allowed();
        TableRange fitted = trials.table().definition().fitted();
        if (!some.isEmpty() && some.stream().noneMatch(BreakdownFit::withPrior)) {
            fitted = trialRange(some);
        }
        TableOverride override = TableOverride.of(trials.table(), name, version)
                .ranges(
                        new TableRange(
                                within(fitted.conformation(), limits.conformation()),
                                within(fitted.fat(), limits.fat()),
                                within(fitted.weightKg(), limits.weightKg())),
                        limits);
        if (expectations != null) {
            override.expectations(expectations);
        }
        if (!some.isEmpty()) {
            new FittedBreakdowns(trials.table(), some, name, carcasses, isOfOthers).putInto(override);
        }
        return override.definition();
    }
}
