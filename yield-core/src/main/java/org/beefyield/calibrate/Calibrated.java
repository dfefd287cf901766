package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.ExtraColumn;
import org.beefyield.table.definition.Provenance;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.Source;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.text.Shown;
import org.jspecify.annotations.Nullable;

/**
 * What came of a calibration: the fits of the breakdowns, what looks wrong, a report, and the table. Immutable.
 */
public final class Calibrated implements Shown {
    /** Steps between the range of the trials and that of the prior table. */
    private static final int STEPS = 16;

    private final Calibration calibration;
    private final List<BreakdownFit> fits;
    private final List<Finding> findings;
    private final @Nullable TableRange allowed;
    private final @Nullable List<Expectation> expectations;

    Calibrated(Calibration calibration, List<BreakdownFit> fits, List<Finding> findings) {
        this(calibration, fits, findings, null, null);
    }

    private Calibrated(
            Calibration calibration,
            List<BreakdownFit> fits,
            List<Finding> findings,
            @Nullable TableRange allowed,
            @Nullable List<Expectation> expectations) {
        this.calibration = calibration;
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
        return new Calibrated(calibration, fits, findings, range, expectations);
    }

    /**
     * The same fits for a table with other expectations about itself than the prior's.
     *
     * @param newExpectations expectations, none to have none
     * @return the same with those expectations
     */
    public Calibrated withExpectations(List<Expectation> newExpectations) {
        return new Calibrated(calibration, fits, findings, allowed, List.copyOf(newExpectations));
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
        return calibration.trials();
    }

    /**
     * The report as plain text: trials left out, closing, findings, and for each breakdown its errors, coefficients
     * beside the prior's, and mean residuals by category, day and grade.
     *
     * @return lines, for a fixed-width font
     */
    @Override
    public String toText() {
        return Report.of(this).toText();
    }

    /**
     * The same report as HTML that needs no style sheet.
     *
     * @return elements, all text escaped
     */
    @Override
    public String toHtml() {
        return Report.of(this).toHtml();
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
     *     {@link #offer()}
     * @throws IllegalStateException if nothing was fitted
     */
    public YieldTable table(String name, String version) {
        return YieldTable.of(definition(name, version));
    }

    /**
     * Looks what would help a table that fails: a narrower allowed range, or more shrinkage.
     *
     * @return the problems, none if the table holds, and what would help
     * @throws IllegalStateException if nothing was fitted
     */
    public Offer offer() {
        InvalidTableException failure = failure(this);
        if (failure == null) {
            return new Offer(List.of(), null, null);
        }
        TableRange widest = allowed == null ? trials().table().definition().allowed() : allowed;
        TableRange narrower = null;
        for (int step = STEPS - 1; step >= 0 && narrower == null; step--) {
            TableRange tried = between(trialRange(), widest, (double) step / STEPS);
            narrower = failure(withAllowedRange(tried)) == null ? tried : null;
        }
        Double stronger = null;
        double now = fits.stream().mapToDouble(BreakdownFit::strength).max().orElse(0);
        for (double strength : Calibration.STRENGTHS) {
            if (strength > now && stronger == null) {
                Calibrated refitted = calibration.withStrength(strength).fit();
                Calibrated same = new Calibrated(calibration, refitted.fits, refitted.findings, allowed, expectations);
                stronger = failure(same) == null ? (Double) strength : null;
            }
        }
        return new Offer(failure.problems(), narrower, stronger);
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

    private TableDefinition definition(String name, String version) {
        YieldTable prior = trials().table();
        TableDefinition old = prior.definition();
        TableRange range = allowed == null ? old.allowed() : allowed;
        TableRange fitted = new TableRange(
                within(trialRange().conformation(), range.conformation()),
                within(trialRange().fat(), range.fat()),
                within(trialRange().weightKg(), range.weightKg()));
        Source source = source(name, old.sources());
        List<BreakdownRow> rows = new ArrayList<>(old.breakdown());
        List<CoefficientNote> notes = new ArrayList<>(old.coefficientNotes());
        List<CovarianceRow> covariances = new ArrayList<>(old.covariances());
        List<Provenance> provenance = new ArrayList<>(old.provenance());
        provenance.add(new Provenance("table", prior.identity()));
        Set<String> replaced = new HashSet<>();
        for (BreakdownFit fit : fits) {
            if (replaced.add(fit.breakdown.name())) {
                String parent = fit.parent();
                String way = fit.way();
                rows.removeIf(row -> row.parent().equals(parent) && row.way().equals(way));
                notes.removeIf(
                        note -> note.parent().equals(parent) && note.way().equals(way));
                covariances.removeIf(
                        row -> row.parent().equals(parent) && row.way().equals(way));
                if (!fit.category().equals(BreakdownRow.ANY)) {
                    keepUnfitted(fit, old, rows, notes, covariances);
                }
            }
            List<List<Category>> alike = fit.alike(old.categories());
            // rows of every way would be as specific as a row of this way for all categories
            boolean isSpecific = !fit.way().equals(BreakdownRow.ANY)
                    && rows.stream()
                            .anyMatch(row -> row.parent().equals(fit.parent())
                                    && row.way().equals(BreakdownRow.ANY)
                                    && !row.category().equals(BreakdownRow.ANY));
            for (List<Category> categories : alike) {
                String written = fit.category().equals(BreakdownRow.ANY) && alike.size() == 1 && !isSpecific
                        ? BreakdownRow.ANY
                        : categories.stream().map(Category::letter).collect(Collectors.joining());
                rows.addAll(fit.rows(categories.get(0), written, source.source()));
                covariances.addAll(fit.covarianceRows(categories.get(0), written));
            }
            provenance.add(new Provenance(
                    "breakdown of " + fit.name(),
                    fit.carcassCount() + " boning trials, the prior table counting for " + strength(fit)));
        }
        List<Source> sources = new ArrayList<>(old.sources());
        sources.add(source);
        List<Expectation> promises = expectations == null ? old.expectations() : expectations;
        return new TableDefinition(
                name,
                version,
                old.title(),
                old.description(),
                old.licenses(),
                old.levels(),
                old.reference(),
                fitted,
                range,
                finestWidth(),
                fits.stream()
                        .mapToDouble(BreakdownFit::degreesOfFreedom)
                        .boxed()
                        .min(Double::compare)
                        .orElse(old.residualDegreesOfFreedom()),
                old.terms(),
                old.categories(),
                old.basis(),
                old.decimals(),
                old.cuts(),
                rows,
                old.breakdownByClass(),
                old.specifications(),
                old.quartering(),
                notes,
                covariances,
                promises,
                old.names(),
                sources,
                extraColumns(
                        old,
                        Map.of(
                                TableSchema.BREAKDOWN.code(), rows,
                                TableSchema.COEFFICIENT_NOTES.code(), notes,
                                TableSchema.EXPECTATIONS.code(), promises,
                                TableSchema.SOURCES.code(), sources)),
                provenance);
    }

    static String strength(BreakdownFit fit) {
        return fit.strength() == 0 ? "nothing" : Report.number(fit.strength()) + " carcasses";
    }

    /** Where categories are fitted apart, those without a fit keep the rows that served them, by their own letter. */
    private void keepUnfitted(
            BreakdownFit fit,
            TableDefinition old,
            List<BreakdownRow> rows,
            List<CoefficientNote> notes,
            List<CovarianceRow> covariances) {
        for (Category category : old.categories()) {
            if (fits.stream()
                    .anyMatch(other ->
                            other.breakdown == fit.breakdown && other.category().equals(category.letter()))) {
                continue;
            }
            for (int k = 0; k < fit.breakdown.children.size(); k++) {
                BreakdownRow row = fit.breakdown.prior(category, k);
                if (row != null) {
                    rows.add(new BreakdownRow(
                            category.letter(),
                            fit.way(),
                            row.parent(),
                            row.cut(),
                            row.coefficients(),
                            row.sdGPerKg(),
                            row.source()));
                    old.coefficientNotes().stream()
                            .filter(note -> note.category().equals(row.category())
                                    && note.way().equals(row.way())
                                    && note.parent().equals(row.parent())
                                    && note.cut().equals(row.cut()))
                            .forEach(note -> notes.add(new CoefficientNote(
                                    category.letter(),
                                    fit.way(),
                                    note.parent(),
                                    note.cut(),
                                    note.term(),
                                    note.standardError(),
                                    note.source())));
                }
            }
            Map<Set<String>, CovarianceRow> kept = new LinkedHashMap<>();
            // those for this category take the place of those for all
            old.covariances().stream()
                    .filter(row -> row.parent().equals(fit.parent())
                            && row.way().equals(fit.way())
                            && (row.category().equals(BreakdownRow.ANY)
                                    || row.category().contains(category.letter())))
                    .sorted(Comparator.comparing(row -> !row.category().equals(BreakdownRow.ANY)))
                    .forEach(row -> kept.put(
                            new TreeSet<>(
                                    List.of(row.cut() + ' ' + row.term(), row.otherCut() + ' ' + row.otherTerm())),
                            new CovarianceRow(
                                    category.letter(),
                                    row.way(),
                                    row.parent(),
                                    row.cut(),
                                    row.term(),
                                    row.otherCut(),
                                    row.otherTerm(),
                                    row.value())));
            covariances.addAll(kept.values());
        }
    }

    private Source source(String name, List<Source> taken) {
        Set<String> names = taken.stream().map(Source::source).collect(Collectors.toSet());
        String own = "trials-" + name;
        for (int i = 2; names.contains(own); i++) {
            own = "trials-" + name + "-" + i;
        }
        Set<String> days = new TreeSet<>();
        Set<String> ids = new HashSet<>();
        for (BreakdownFit fit : fits) {
            fit.trials.forEach(trial -> ids.add(trial.id()));
            fit.trials.stream().map(Trial::day).filter(day -> !day.isEmpty()).forEach(days::add);
        }
        String when = days.isEmpty()
                ? ""
                : " on " + days.size() + (days.size() == 1 ? " day, " : " days, ")
                        + String.join(" to ", new TreeSet<>(List.of(first(days), last(days))));
        return new Source(
                own,
                SourceKind.DERIVED,
                "Boning trials of " + ids.size() + " carcasses" + when,
                fits.stream().allMatch(fit -> fit.strength() == 0)
                        ? "fitted by least squares in the terms of "
                                + trials().table().identity()
                        : "fitted by least squares, shrunk towards "
                                + trials().table().identity());
    }

    private static String first(Set<String> sorted) {
        return sorted.iterator().next();
    }

    private static String last(Set<String> sorted) {
        return sorted.stream().reduce((a, b) -> b).orElseThrow();
    }

    private double finestWidth() {
        return fits.stream()
                .flatMap(fit -> fit.trials.stream())
                .mapToDouble(trial -> Math.min(
                        trial.carcass().conformation().width(),
                        trial.carcass().fatClass().width()))
                .min()
                .orElseThrow();
    }

    private static List<ExtraColumn> extraColumns(TableDefinition old, Map<String, List<?>> after) {
        Map<String, List<?>> before = Map.of(
                TableSchema.BREAKDOWN.code(), old.breakdown(),
                TableSchema.COEFFICIENT_NOTES.code(), old.coefficientNotes(),
                TableSchema.EXPECTATIONS.code(), old.expectations(),
                TableSchema.SOURCES.code(), old.sources());
        List<ExtraColumn> columns = new ArrayList<>();
        for (ExtraColumn extra : old.extraColumns()) {
            List<?> rows = after.get(extra.resource());
            List<?> oldRows = before.get(extra.resource());
            columns.add(
                    rows == null || oldRows == null
                            ? extra
                            : new ExtraColumn(
                                    extra.resource(),
                                    extra.column(),
                                    extra.type(),
                                    rows.stream()
                                            .map(oldRows::indexOf)
                                            .map(index -> index < 0
                                                    ? ""
                                                    : extra.values().get(index))
                                            .toList()));
        }
        return columns;
    }
}
