package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.beefyield.boning.Trial;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.carcass.Category;
import org.beefyield.table.TableOverride;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.Provenance;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;

/** Fitted breakdowns, to be put in the place of the prior table's own. */
final class FittedBreakdowns {
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
        Map<WeighedBreakdown, List<BreakdownFit>> byBreakdown = new LinkedHashMap<>();
        all.forEach(fit -> byBreakdown
                .computeIfAbsent(fit.breakdown, breakdown -> new ArrayList<>())
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
        if (!first.category().equals(BreakdownRow.ANY)) {
            Set<String> fitted = fits.stream().map(BreakdownFit::category).collect(Collectors.toSet());
            prior.categories().stream()
                    .filter(category -> !fitted.contains(category.letter()))
                    .forEach(category -> keep(first, category, rows, notes, covariances));
        }
        for (BreakdownFit fit : fits) {
            List<List<Category>> alike = fit.alike(prior.categories());
            for (List<Category> categories : alike) {
                String written = fit.category().equals(BreakdownRow.ANY) && alike.size() == 1 && !hasRowsForAllWays(fit)
                        ? BreakdownRow.ANY
                        : categories.stream().map(Category::letter).collect(Collectors.joining());
                SourceRow behind = fit.hasTrialOf(categories) ? source : moved;
                override.source(behind);
                rows.addAll(fit.rows(categories.get(0), written, behind.source()));
                covariances.addAll(fit.covarianceRows(categories.get(0), written));
            }
        }
        override.breakdown(first.parent(), first.way(), rows, notes, covariances);
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
            BreakdownRow row = fit.priorBreakdown.row(category, k);
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
                fit.carcassCount() + " boning trials, the prior table counting for " + fit.strengthWords())));
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
        all.stream().map(fit -> fit.trials).flatMap(Collection::stream).forEach(trial -> {
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
                all.stream().allMatch(fit -> fit.strength() == 0)
                        ? "fitted by least squares in the terms of " + table
                        : "fitted by least squares, shrunk towards " + table);
    }

    private double finestWidth() {
        return all.stream()
                .flatMap(fit -> fit.trials.stream())
                .map(Trial::carcass)
                .mapToDouble(carcass -> Math.min(
                        carcass.conformation().width(), carcass.fatClass().width()))
                .min()
                .orElseThrow();
    }
}
