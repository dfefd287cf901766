package org.beefyield.calibrate;

import java.util.List;
import java.util.Objects;
import java.util.function.DoubleFunction;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.beefyield.boning.TrialSet;
import org.beefyield.carcass.Carcass;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TableOverride;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableRange;
import org.beefyield.text.Checks;
import org.beefyield.text.Shown;
import org.jspecify.annotations.Nullable;

/**
 * What came of a calibration: the fits of the breakdowns, what looks wrong, a report, and the table. Immutable.
 */
public final class Calibrated implements Shown {
    /** Steps between the range of the trials and that of the prior table. */
    private static final int STEPS = 16;

    /** Strengths that are tried when one is chosen, carcasses. */
    static final List<Double> STRENGTHS = List.of(0.0, 1.0, 3.0, 10.0, 30.0, 100.0, 300.0, 1000.0, 3000.0, 10_000.0);

    private final TrialSet trials;
    private final DoubleFunction<Calibrated> refit;
    private final List<BreakdownFit> fits;
    private final List<Finding> findings;
    private final @Nullable TableRange allowed;
    private final @Nullable List<Expectation> expectations;

    /**
     * What came of a calibration.
     *
     * @param trials the trials
     * @param fits the fits
     * @param findings what looks wrong
     * @param refit the same calibration with another strength
     */
    Calibrated(TrialSet trials, List<BreakdownFit> fits, List<Finding> findings, DoubleFunction<Calibrated> refit) {
        this(trials, fits, findings, refit, null, null);
    }

    private Calibrated(
            TrialSet trials,
            List<BreakdownFit> fits,
            List<Finding> findings,
            DoubleFunction<Calibrated> refit,
            @Nullable TableRange allowed,
            @Nullable List<Expectation> expectations) {
        this.trials = trials;
        this.refit = refit;
        this.fits = List.copyOf(fits);
        this.findings = List.copyOf(findings);
        this.allowed = allowed;
        this.expectations = expectations;
    }

    /**
     * The same fits for a table that may be used over another range than the prior's.
     *
     * @param range allowed range, its grades whole positions
     * @return the same with that range
     */
    public Calibrated withAllowedRange(TableRange range) {
        Objects.requireNonNull(range, "range");
        return new Calibrated(trials, fits, findings, refit, range, expectations);
    }

    /**
     * The same fits for a table with other expectations about itself than the prior's.
     *
     * @param newExpectations expectations, none to have none
     * @return the same with those expectations
     */
    public Calibrated withExpectations(List<Expectation> newExpectations) {
        Checks.noNullIn(newExpectations, "newExpectations");
        return new Calibrated(trials, fits, findings, refit, allowed, List.copyOf(newExpectations));
    }

    /**
     * The breakdowns that were fitted.
     *
     * @return an unmodifiable list in the table's order
     */
    public List<BreakdownFit> fits() {
        return fits;
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
        return new TableRange(
                range(carcass -> carcass.conformation().position()),
                range(carcass -> carcass.fatClass().position()),
                range(Carcass::coldWeightKg));
    }

    /** The range that the new table may be used over. */
    private TableRange allowed() {
        return allowed == null ? trials().table().definition().allowed() : allowed;
    }

    private Range range(ToDoubleFunction<Carcass> variable) {
        double[] values = fits.stream()
                .flatMap(fit -> fit.trials.stream())
                .mapToDouble(trial -> variable.applyAsDouble(trial.carcass()))
                .sorted()
                .toArray();
        if (values.length == 0) {
            throw new IllegalStateException("nothing was fitted: "
                    + findings.stream().map(Finding::toString).collect(Collectors.joining("; ")));
        }
        return new Range(values[0], values[values.length - 1]);
    }

    private static Range within(Range range, Range limits) {
        double low = Math.min(Math.max(range.low(), limits.low()), limits.high());
        return new Range(low, Math.max(low, Math.min(range.high(), limits.high())));
    }

    /**
     * The prior table with the fitted breakdowns in the place of its own, proved like any other. It carries the covariances
     * between carcasses and of the coefficients; its fitted range is that of the trials, and its grades are as fine as the
     * finest of theirs. All else is the prior's.
     *
     * @param name name of the table: lower-case letters, digits, {@code . _ -}
     * @param version version of the table
     * @return the table
     * @throws InvalidTableException if a promise fails, such as a share below 0 in a corner without trials; see
     *     {@link #remedy()}
     * @throws IllegalStateException if nothing was fitted
     */
    public YieldTable table(String name, String version) {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(version, "version");
        TableRange ofTrials = trialRange();
        TableRange limits = allowed();
        TableOverride override = TableOverride.of(trials.table(), name, version)
                .ranges(
                        new TableRange(
                                within(ofTrials.conformation(), limits.conformation()),
                                within(ofTrials.fat(), limits.fat()),
                                within(ofTrials.weightKg(), limits.weightKg())),
                        limits);
        if (expectations != null) {
            override.expectations(expectations);
        }
        new FittedBreakdowns(trials.table(), fits, name).putInto(override);
        return override.build();
    }

    /**
     * Looks what would help a table that fails: a narrower allowed range, or more shrinkage.
     *
     * @return the problems, none if the table holds, and what would help
     * @throws IllegalStateException if nothing was fitted
     */
    public Remedy remedy() {
        InvalidTableException failure = failure(this);
        if (failure == null) {
            return new Remedy(List.of(), null, null);
        }
        TableRange widest = allowed();
        TableRange narrower = null;
        for (int step = STEPS - 1; step >= 0 && narrower == null; step--) {
            TableRange tried = between(trialRange(), widest, (double) step / STEPS);
            narrower = failure(withAllowedRange(tried)) == null ? tried : null;
        }
        Double stronger = null;
        double now = fits.stream().mapToDouble(BreakdownFit::strength).max().orElse(0);
        for (double strength : STRENGTHS) {
            if (strength > now && stronger == null) {
                Calibrated refitted = refit.apply(strength);
                Calibrated same =
                        new Calibrated(trials, refitted.fits, refitted.findings, refit, allowed, expectations);
                stronger = failure(same) == null ? (Double) strength : null;
            }
        }
        return new Remedy(failure.problems(), narrower, stronger);
    }

    private static @Nullable InvalidTableException failure(Calibrated calibrated) {
        try {
            calibrated.table("tried", "0");
            return null;
        } catch (InvalidTableException failure) {
            return failure;
        }
    }

    private static TableRange between(TableRange inner, TableRange outer, double part) {
        return new TableRange(
                whole(inner.conformation(), outer.conformation(), part),
                whole(inner.fat(), outer.fat(), part),
                whole(inner.weightKg(), outer.weightKg(), part));
    }

    private static Range between(Range inner, Range outer, double part) {
        Range own = within(inner, outer);
        return new Range(own.low() + part * (outer.low() - own.low()), own.high() + part * (outer.high() - own.high()));
    }

    /** Whole positions or kg, no further out than asked but around the inner range. */
    private static Range whole(Range inner, Range outer, double part) {
        Range own = within(inner, outer);
        Range range = between(inner, outer, part);
        return new Range(
                Math.min(Math.ceil(range.low()), Math.floor(own.low())),
                Math.max(Math.floor(range.high()), Math.ceil(own.high())));
    }
}
