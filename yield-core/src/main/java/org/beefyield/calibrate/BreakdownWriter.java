package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.carcass.Category;
import org.beefyield.table.TableOverride;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.jspecify.annotations.Nullable;

/** Writes learnt breakdowns into a table, in the place of its own. */
final class BreakdownWriter {
    /** Part of a variance that is noise. */
    private static final double NOISE = 1e-9;

    private final YieldTable priorTable;
    private final TableDefinition prior;
    private final SourceRow source;
    private final SourceRow moved;

    /**
     * @param source of rows whose categories were boned
     * @param moved of rows that moved with them
     */
    BreakdownWriter(YieldTable priorTable, SourceRow source, SourceRow moved) {
        this.priorTable = priorTable;
        this.prior = priorTable.definition();
        this.source = source;
        this.moved = moved;
    }

    /** Puts what was learnt of one breakdown, several where categories are apart, in the place of its rows. */
    void replace(TableOverride override, List<LearntBreakdown> fits) {
        List<BreakdownRow> rows = new ArrayList<>();
        List<CoefficientNote> notes = new ArrayList<>();
        List<CovarianceRow> covariances = new ArrayList<>();
        LearntBreakdown first = fits.get(0);
        if (!first.category().equals(BreakdownRow.ANY)) {
            Set<String> fitted = fits.stream().map(LearntBreakdown::category).collect(Collectors.toSet());
            prior.categories().stream()
                    .filter(category -> !fitted.contains(category.letter()))
                    .forEach(category -> keep(first, category, rows, notes, covariances));
        }
        for (LearntBreakdown fit : fits) {
            List<List<Category>> alike = alike(fit);
            List<double[][]> errors = new ArrayList<>();
            alike.forEach(categories -> errors.add(of(fit, categories.get(0)).errors()));
            int surest = 0;
            for (int i = 1; i < errors.size(); i++) {
                surest = trace(errors.get(i)) < trace(errors.get(surest)) ? i : surest;
            }
            keepResidual(fit, covariances);
            boolean one = fit.category().equals(BreakdownRow.ANY) && !hasRowsForAllWays(fit);
            for (int i = 0; i < alike.size(); i++) {
                List<Category> categories = alike.get(i);
                String written = one && alike.size() == 1
                        ? BreakdownRow.ANY
                        : categories.stream().map(Category::letter).collect(Collectors.joining());
                SourceRow behind = categories.stream()
                                .anyMatch(category -> of(fit, category).boned())
                        ? source
                        : moved;
                override.source(behind);
                rows.addAll(rows(fit, categories.get(0), written, behind.source()));
                notes.addAll(keptSources(fit, categories.get(0), written));
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

    private static LearntBreakdown.OfCategory of(LearntBreakdown fit, Category category) {
        return Objects.requireNonNull(fit.byCategory().get(category), category.letter());
    }

    private static double trace(double[][] matrix) {
        return IntStream.range(0, matrix.length).mapToDouble(a -> matrix[a][a]).sum();
    }

    /** The categories whose rows a fit gives, those together that neither the prior table nor the fit sets apart. */
    private List<List<Category>> alike(LearntBreakdown fit) {
        Map<List<Object>, List<Category>> byFigures = new LinkedHashMap<>();
        for (Category one : fit.byCategory().keySet()) {
            List<Object> figures = new ArrayList<>();
            for (int k = 0; k < fit.cuts().size(); k++) {
                BreakdownRow row = fit.prior().row(one, k);
                if (row != null) {
                    figures.add(row.coefficients());
                    figures.add(row.sdGPerKg());
                    figures.add(row.shared());
                }
            }
            for (double[] column : of(fit, one).coefficients()) {
                figures.add(Arrays.stream(column).boxed().toList());
            }
            for (double[] row : of(fit, one).errors()) {
                figures.add(Arrays.stream(row).boxed().toList());
            }
            byFigures.computeIfAbsent(figures, key -> new ArrayList<>()).add(one);
        }
        return List.copyOf(byFigures.values());
    }

    /** Rows of the new table for a category, and how they write it. */
    private List<BreakdownRow> rows(LearntBreakdown fit, Category category, String written, String ofSource) {
        LearntBreakdown.OfCategory learnt = of(fit, category);
        List<BreakdownRow> rows = new ArrayList<>();
        for (int k = 0; k < fit.cuts().size(); k++) {
            List<Double> row = new ArrayList<>();
            for (double[] column : learnt.coefficients()) {
                row.add(column[k]);
            }
            String cut = fit.cuts().get(k);
            BreakdownRow before = fit.prior().row(category, k);
            Double ofLots = before == null
                    ? (priorTable.states(SharedBy.LOT) ? 0.0 : null)
                    : before.shared().lotGPerKg();
            rows.add(new BreakdownRow(
                    written,
                    fit.way(),
                    fit.parent(),
                    cut,
                    row,
                    learnt.sds().get(k).ofCarcasses(),
                    new SharedSds(
                            ofLots,
                            learnt.sds().get(k).ofRuns(),
                            learnt.sds().get(k).ofHalls()),
                    ofSource));
        }
        return rows;
    }

    /** Where the SDs that stay come from: by the prior table's notes, or where it has none, its rows. */
    private List<CoefficientNote> keptSources(LearntBreakdown fit, Category category, String written) {
        LearntBreakdown.OfCategory learnt = of(fit, category);
        List<CoefficientNote> kept = new ArrayList<>();
        for (int k = 0; k < fit.cuts().size(); k++) {
            BreakdownRow row = fit.prior().row(category, k);
            if (row == null) {
                continue;
            }
            List<String> staying = new ArrayList<>();
            if (row.shared().lotGPerKg() != null) {
                staying.add(TableColumn.LOT_SD_G_PER_KG);
            }
            if (learnt.residual() == null) {
                staying.add(TableColumn.SD_G_PER_KG);
                if (row.shared().runGPerKg() != null
                        && row.shared().runGPerKg().equals(learnt.sds().get(k).ofRuns())) {
                    staying.add(TableColumn.RUN_SD_G_PER_KG);
                }
            }
            for (String column : staying) {
                CoefficientNote note = note(row, column);
                if (note != null || learnt.residual() == null) {
                    kept.add(new CoefficientNote(
                            written,
                            fit.way(),
                            row.parent(),
                            row.cut(),
                            column,
                            note == null ? null : note.standardError(),
                            note == null ? "" : note.errorId(),
                            note == null ? row.source() : note.source()));
                }
            }
        }
        return kept;
    }

    private @Nullable CoefficientNote note(BreakdownRow row, String column) {
        return prior.coefficientNotes().stream()
                .filter(note -> note.category().equals(row.category())
                        && note.way().equals(row.way())
                        && note.parent().equals(row.parent())
                        && note.cut().equals(row.cut())
                        && note.term().equals(column))
                .findFirst()
                .orElse(null);
    }

    private static void addResidual(LearntBreakdown fit, Category category, String written, List<CovarianceRow> to) {
        double[][] residual = of(fit, category).residual();
        List<String> cuts = fit.cuts();
        for (int k = 0; residual != null && k < cuts.size(); k++) {
            for (int l = 0; l <= k; l++) {
                to.add(new CovarianceRow(
                        written, fit.way(), fit.parent(), cuts.get(k), "", cuts.get(l), "", residual[k][l]));
            }
        }
    }

    /** The prior table's own covariances between carcasses, where they stay. */
    private void keepResidual(LearntBreakdown fit, List<CovarianceRow> to) {
        if (fit.byCategory().values().stream().allMatch(one -> one.residual() == null)) {
            prior.covariances().stream()
                    .filter(row -> row.isResidual()
                            && row.parent().equals(fit.parent())
                            && row.way().equals(fit.way()))
                    .forEach(to::add);
        }
    }

    /** Covariances of the coefficients, those of columns in which something errs. */
    private void addErrors(LearntBreakdown fit, double[][] errors, String written, List<CovarianceRow> to) {
        int children = fit.cuts().size();
        List<String> columns = prior.coefficientColumns();
        List<Integer> erring = IntStream.range(0, columns.size())
                .filter(j -> IntStream.range(0, children).anyMatch(k -> errors[j * children + k][j * children + k] > 0))
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
            LearntBreakdown fit,
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
            // errors that add up to 0 leave none larger than the others together; what lacks goes to the least sure of
            // these
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
    private boolean hasRowsForAllWays(LearntBreakdown fit) {
        return !fit.way().equals(BreakdownRow.ANY)
                && prior.breakdown().stream()
                        .anyMatch(row -> row.parent().equals(fit.parent())
                                && row.way().equals(BreakdownRow.ANY)
                                && !row.category().equals(BreakdownRow.ANY));
    }

    /** A category without a fit keeps the rows that served it, by its own letter. */
    private void keep(
            LearntBreakdown fit,
            Category category,
            List<BreakdownRow> rows,
            List<CoefficientNote> notes,
            List<CovarianceRow> covariances) {
        for (int k = 0; k < fit.cuts().size(); k++) {
            BreakdownRow row = fit.prior().row(category, k);
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
}
