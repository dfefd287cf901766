package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.boning.Trial;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.carcass.Category;
import org.beefyield.table.TableOverride;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.Provenance;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;

/** Fitted breakdowns, to be put in the place of the prior table's own. */
final class FittedBreakdowns {
    /** Part of a variance that is noise. */
    private static final double NOISE = 1e-9;

    private final YieldTable priorTable;
    private final List<BreakdownFit> all;
    private final TableDefinition prior;
    private final SourceRow source;
    /** Of rows that moved with the others though nothing of their categories was weighed. */
    private final SourceRow moved;

    /**
     * Fitted breakdowns.
     *
     * @param priorTable the prior table
     * @param all their fits, one or more
     * @param name name of the new table
     */
    FittedBreakdowns(YieldTable priorTable, List<BreakdownFit> all, String name) {
        this.priorTable = priorTable;
        this.all = all;
        this.prior = priorTable.definition();
        this.source = source(name);
        this.moved = new SourceRow(
                source.source() + "-moved",
                SourceKind.ASSUMPTION,
                "Moved as the categories that were boned, for none of this one was",
                "");
    }

    void putInto(TableOverride override) {
        override.source(source)
                .widthFit(finestWidth())
                .residualDegreesOfFreedom(all.stream()
                        .mapToDouble(BreakdownFit::degreesOfFreedom)
                        .min()
                        .orElseThrow());
        all.stream()
                .filter(fit -> fit.model.knowsDays())
                .mapToDouble(BreakdownFit::runDegreesOfFreedom)
                .filter(degrees -> degrees > 0)
                .min()
                .ifPresent(override::runDegreesOfFreedom);
        Map<WeighedBreakdown, List<BreakdownFit>> byBreakdown = new LinkedHashMap<>();
        all.forEach(fit -> byBreakdown
                .computeIfAbsent(fit.breakdown(), breakdown -> new ArrayList<>())
                .add(fit));
        byBreakdown.values().forEach(fits -> replace(override, fits));
        override.provenance(provenance());
    }

    /** Puts the fits of one breakdown, several where categories are apart, in the place of its rows. */
    private void replace(TableOverride override, List<BreakdownFit> fits) {
        List<BreakdownRow> rows = new ArrayList<>();
        List<CoefficientNote> notes = new ArrayList<>();
        List<CovarianceRow> covariances = new ArrayList<>();
        BreakdownFit first = fits.get(0);
        if (!Calibration.isForAll(first.category())) {
            Set<String> fitted = fits.stream().map(BreakdownFit::category).collect(Collectors.toSet());
            prior.categories().stream()
                    .filter(category -> !fitted.contains(category.letter()))
                    .forEach(category -> keep(first, category, rows, notes, covariances));
        }
        for (BreakdownFit fit : fits) {
            List<List<Category>> alike = alike(fit);
            List<double[][]> errors = new ArrayList<>();
            alike.forEach(categories -> errors.add(fit.covarianceOf(categories.get(0))));
            int surest = 0;
            for (int i = 1; i < errors.size(); i++) {
                surest = trace(errors.get(i)) < trace(errors.get(surest)) ? i : surest;
            }
            boolean one = Calibration.isForAll(fit.category()) && !hasRowsForAllWays(fit);
            for (int i = 0; i < alike.size(); i++) {
                List<Category> categories = alike.get(i);
                String written = one && alike.size() == 1
                        ? BreakdownRow.ANY
                        : categories.stream().map(Category::letter).collect(Collectors.joining());
                SourceRow behind = fit.hasTrialOf(categories) ? source : moved;
                override.source(behind);
                rows.addAll(rows(fit, categories.get(0), written, behind.source()));
                notes.addAll(sourcesOfLots(fit, categories.get(0), written));
                addResidual(fit, categories.get(0), written, covariances);
                if (!one) {
                    addErrors(fit, errors.get(i), written, covariances);
                } else if (i == surest) {
                    addErrors(fit, errors.get(i), BreakdownRow.ANY, covariances);
                } else {
                    addOwnErrors(fit, errors.get(i), errors.get(surest), written, behind.source(), notes);
                }
            }
        }
        override.breakdown(first.parent(), first.way(), rows, notes, covariances);
    }

    private static double trace(double[][] matrix) {
        return IntStream.range(0, matrix.length).mapToDouble(a -> matrix[a][a]).sum();
    }

    /** The categories whose rows a fit gives, those together that neither the prior table nor the fit sets apart. */
    private List<List<Category>> alike(BreakdownFit fit) {
        Map<List<Object>, List<Category>> byFigures = new LinkedHashMap<>();
        for (Category one : fit.model.categories) {
            List<Object> figures = new ArrayList<>();
            for (int k = 0; k < fit.cuts().size(); k++) {
                BreakdownRow row = fit.priorRow(one, k);
                if (row != null) {
                    figures.add(row.coefficients());
                    figures.add(row.sdGPerKg());
                    figures.add(row.shared());
                }
            }
            for (double[] column : fit.coefficientsOf(one)) {
                figures.add(Arrays.stream(column).boxed().toList());
            }
            for (double[] row : fit.covarianceOf(one)) {
                figures.add(Arrays.stream(row).boxed().toList());
            }
            byFigures.computeIfAbsent(figures, key -> new ArrayList<>()).add(one);
        }
        return List.copyOf(byFigures.values());
    }

    /** Rows of the new table for a category, and how they write it. */
    private List<BreakdownRow> rows(BreakdownFit fit, Category category, String written, String ofSource) {
        double[][] coefficients = fit.coefficientsOf(category);
        double spread = Math.sqrt(fit.variation(category) * fit.ownPart());
        boolean statesRuns = priorTable.states(SharedBy.RUN);
        boolean statesHalls = priorTable.states(SharedBy.HALL);
        List<BreakdownRow> rows = new ArrayList<>();
        for (int k = 0; k < fit.cuts().size(); k++) {
            List<Double> row = new ArrayList<>();
            for (double[] column : coefficients) {
                row.add(column[k]);
            }
            String cut = fit.cuts().get(k);
            BreakdownRow before = fit.priorRow(category, k);
            Double ofLots = before == null ? (priorTable.states(SharedBy.LOT) ? 0.0 : null) : before.shared().lotGPerKg();
            rows.add(new BreakdownRow(
                    written,
                    fit.way(),
                    fit.parent(),
                    cut,
                    row,
                    spread * fit.residualSd(cut),
                    // what is not known of the hall is what is not known of the coefficients
                    new SharedSds(ofLots, statesRuns ? fit.runSd(cut) : null, statesHalls ? 0.0 : null),
                    ofSource));
        }
        return rows;
    }

    /** What the prior table says of where its SDs between lots come from, which stay. */
    private List<CoefficientNote> sourcesOfLots(BreakdownFit fit, Category category, String written) {
        List<CoefficientNote> kept = new ArrayList<>();
        for (int k = 0; k < fit.cuts().size(); k++) {
            BreakdownRow row = fit.priorRow(category, k);
            if (row == null) {
                continue;
            }
            prior.coefficientNotes().stream()
                    .filter(note -> note.category().equals(row.category())
                            && note.way().equals(row.way())
                            && note.parent().equals(row.parent())
                            && note.cut().equals(row.cut())
                            && note.term().equals(TableColumn.LOT_SD_G_PER_KG))
                    .forEach(note -> kept.add(new CoefficientNote(
                            written,
                            fit.way(),
                            note.parent(),
                            note.cut(),
                            note.term(),
                            note.standardError(),
                            note.errorId(),
                            note.source())));
        }
        return kept;
    }

    private static void addResidual(BreakdownFit fit, Category category, String written, List<CovarianceRow> to) {
        double times = fit.variation(category) * fit.ownPart();
        List<String> cuts = fit.cuts();
        for (int k = 0; k < cuts.size(); k++) {
            for (int l = 0; l <= k; l++) {
                to.add(new CovarianceRow(
                        written,
                        fit.way(),
                        fit.parent(),
                        cuts.get(k),
                        "",
                        cuts.get(l),
                        "",
                        times * fit.residualCovariance(cuts.get(k), cuts.get(l))));
            }
        }
    }

    /** Covariances of the coefficients, those of columns in which something errs. */
    private void addErrors(BreakdownFit fit, double[][] errors, String written, List<CovarianceRow> to) {
        int children = fit.cuts().size();
        List<String> columns = prior.coefficientColumns();
        List<Integer> erring = IntStream.range(0, columns.size())
                .filter(j -> IntStream.range(0, children)
                        .anyMatch(k -> errors[j * children + k][j * children + k] > 0))
                .boxed()
                .toList();
        List<int[]> places = new ArrayList<>();
        for (int j : erring) {
            for (int k = 0; k < children; k++) {
                places.add(new int[] {j, k});
            }
        }
        for (int a = 0; a < places.size(); a++) {
            for (int b = 0; b <= a; b++) {
                int[] of = places.get(a);
                int[] other = places.get(b);
                to.add(new CovarianceRow(
                        written,
                        fit.way(),
                        fit.parent(),
                        fit.cuts().get(of[1]),
                        columns.get(of[0]),
                        fit.cuts().get(other[1]),
                        columns.get(other[0]),
                        errors[of[0] * children + of[1]][other[0] * children + other[1]]));
            }
        }
    }

    /** By what a category is less sure than the one that is surest: errors of its own, on top of those that all have in common. */
    private void addOwnErrors(
            BreakdownFit fit,
            double[][] errors,
            double[][] ofSurest,
            String written,
            String ofSource,
            List<CoefficientNote> to) {
        int children = fit.cuts().size();
        List<String> columns = prior.coefficientColumns();
        for (int j = 0; j < columns.size(); j++) {
            double[] own = new double[children];
            double sum = 0;
            int largest = 0;
            for (int k = 0; k < children; k++) {
                int at = j * children + k;
                double more = errors[at][at] - ofSurest[at][at];
                own[k] = more > NOISE * errors[at][at] ? Math.sqrt(more) : 0;
                sum += own[k];
                largest = own[k] > own[largest] ? k : largest;
            }
            if (sum == 0) {
                continue;
            }
            // errors that add up to 0 leave none larger than the others together; what lacks goes to the least sure of these
            double lacks = own[largest] - (sum - own[largest]);
            if (lacks > 0) {
                int first = largest;
                int column = j * children;
                int second = IntStream.range(0, children)
                        .filter(k -> k != first)
                        .boxed()
                        .max(Comparator.comparingDouble(k -> errors[column + k][column + k]))
                        .orElseThrow();
                own[second] += lacks;
            }
            for (int k = 0; k < children; k++) {
                if (own[k] > 0) {
                    to.add(new CoefficientNote(
                            written,
                            fit.way(),
                            fit.parent(),
                            fit.cuts().get(k),
                            columns.get(j),
                            own[k],
                            "own-" + written,
                            ofSource));
                }
            }
        }
    }

    /** Rows of a category for every way would be as specific as a row of this way for all categories. */
    private boolean hasRowsForAllWays(BreakdownFit fit) {
        return !fit.way().equals(BreakdownRow.ANY)
                && prior.breakdown().stream()
                        .anyMatch(row -> row.parent().equals(fit.parent())
                                && row.way().equals(BreakdownRow.ANY)
                                && !row.category().equals(BreakdownRow.ANY));
    }

    /** A category without a fit keeps the rows that served it, by its own letter. */
    private void keep(
            BreakdownFit fit,
            Category category,
            List<BreakdownRow> rows,
            List<CoefficientNote> notes,
            List<CovarianceRow> covariances) {
        for (int k = 0; k < fit.cuts().size(); k++) {
            BreakdownRow row = fit.priorRow(category, k);
            if (row != null) {
                rows.add(new BreakdownRow(
                        category.letter(),
                        fit.way(),
                        row.parent(),
                        row.cut(),
                        row.coefficients(),
                        row.sdGPerKg(),
                        row.shared(),
                        row.source()));
                prior.coefficientNotes().stream()
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
                                note.errorId(),
                                note.source())));
            }
        }
        Map<Set<String>, CovarianceRow> kept = new LinkedHashMap<>();
        // those for this category take the place of those for all
        prior.covariances().stream()
                .filter(row -> row.parent().equals(fit.parent())
                        && row.way().equals(fit.way())
                        && (row.category().equals(BreakdownRow.ANY)
                                || row.category().contains(category.letter())))
                .sorted(Comparator.comparing(row -> !row.category().equals(BreakdownRow.ANY)))
                .forEach(row -> kept.put(
                        new TreeSet<>(List.of(row.cut() + ' ' + row.term(), row.otherCut() + ' ' + row.otherTerm())),
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

    private List<Provenance> provenance() {
        List<Provenance> provenance = new ArrayList<>(prior.provenance());
        provenance.add(new Provenance("table", priorTable.identity()));
        all.forEach(fit -> provenance.add(new Provenance(
                "breakdown of " + fit.name(),
                fit.carcassCount() + " boning trials on " + fit.dayCount() + (fit.dayCount() == 1 ? " day" : " days")
                        + ", fitted: " + fit.fitted())));
        return provenance;
    }

    private SourceRow source(String name) {
        Set<String> names = prior.sources().stream().map(SourceRow::source).collect(Collectors.toSet());
        String own = "trials-" + name;
        for (int i = 2; names.contains(own); i++) {
            own = "trials-" + name + "-" + i;
        }
        Set<String> ids = new HashSet<>();
        TreeSet<String> days = new TreeSet<>();
        all.stream().map(BreakdownFit::trials).flatMap(Collection::stream).forEach(trial -> {
            ids.add(trial.id());
            days.add(trial.day());
        });
        days.remove("");
        String when = days.isEmpty()
                ? ""
                : " on " + days.size() + (days.size() == 1 ? " day, " : " days, ")
                        + String.join(" to ", new TreeSet<>(List.of(days.first(), days.last())));
        String table = priorTable.identity();
        return new SourceRow(
                own,
                SourceKind.DERIVED,
                "Boning trials of " + ids.size() + " carcasses" + when,
                all.stream().noneMatch(BreakdownFit::withPrior)
                        ? "fitted in the terms of " + table
                        : "fitted with what " + table + " knows");
    }

    private double finestWidth() {
        return all.stream()
                .flatMap(fit -> fit.trials().stream())
                .map(Trial::carcass)
                .mapToDouble(carcass -> Math.min(
                        carcass.conformation().width(), carcass.fatClass().width()))
                .min()
                .orElseThrow();
    }
}
