package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.beefyield.table.TableOverride;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Provenance;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.text.Numbers;

/** Fitted breakdowns, to be put in the place of the prior table's own. */
final class FittedBreakdowns {
    private final YieldTable priorTable;
    private final List<BreakdownFit> all;
    private final TableDefinition prior;
    private final boolean isOfOthers;
    private final SourceRow source;
    /** Of rows that moved with the others though nothing of their categories was weighed. */
    private final SourceRow moved;

    /**
     * Fitted breakdowns.
     *
     * @param priorTable the prior table
     * @param all their fits, one or more
     * @param name name of the new table
     * @param carcasses how many carcasses they are of together
     * @param isOfOthers whether the trials are of other halls than the table's
     */
    FittedBreakdowns(YieldTable priorTable, List<BreakdownFit> all, String name, int carcasses, boolean isOfOthers) {
        this.isOfOthers = isOfOthers;
        this.priorTable = priorTable;
        this.all = all;
        this.prior = priorTable.definition();
        this.source = source(name, carcasses);
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
        // a cut is broken down in one way; all that was weighed of it would make a slow key
        Map<String, List<BreakdownFit>> byBreakdown = new LinkedHashMap<>();
        all.forEach(fit -> byBreakdown
                .computeIfAbsent(fit.parent(), parent -> new ArrayList<>())
                .add(fit));
        boolean ofRuns = statesRuns(priorTable, all);
        BreakdownWriter writer = new BreakdownWriter(priorTable, source, moved);
        byBreakdown
                .values()
                .forEach(fits -> writer.replace(
                        override,
                        fits.stream().map(fit -> fit.learnt(ofRuns, isOfOthers)).toList()));
        override.provenance(provenance());
    }

    /**
     * Whether the new table states how runs differ: as the prior table does, and if that doesn't, where the days told it of
     * every row, for a table states it of all of them or of none.
     */
    static boolean statesRuns(YieldTable priorTable, List<BreakdownFit> all) {
        TableDefinition prior = priorTable.definition();
        return priorTable.states(SharedBy.RUN)
                || (prior.breakdownByClass().isEmpty()
                        && all.stream().allMatch(fit -> fit.model.knowsDays())
                        && prior.breakdown().stream()
                                .allMatch(row -> all.stream()
                                        .anyMatch(fit -> fit.category().equals(BreakdownRow.ANY)
                                                && fit.parent().equals(row.parent())
                                                && fit.way().equals(row.way()))));
    }

    private List<Provenance> provenance() {
        List<Provenance> provenance = new ArrayList<>(prior.provenance());
        provenance.add(new Provenance("table", priorTable.identity()));
        all.forEach(fit -> provenance.add(new Provenance(
                "breakdown of " + fit.name(),
                fit.carcassCount() + " boning trials on " + Numbers.counted(fit.dayCount(), "day", "days")
                        + ", fitted: " + fit.fitted())));
        return provenance;
    }

    private SourceRow source(String name, int carcasses) {
        Set<String> names = prior.sources().stream().map(SourceRow::source).collect(Collectors.toSet());
        String own = "trials-" + name;
        for (int i = 2; names.contains(own); i++) {
            own = "trials-" + name + "-" + i;
        }
        TreeSet<String> days = new TreeSet<>();
        all.forEach(fit -> days.addAll(fit.model.days));
        days.remove("");
        String when = days.isEmpty()
                ? ""
                : " on " + days.size() + (days.size() == 1 ? " day, " : " days, ")
                        + String.join(" to ", new TreeSet<>(List.of(days.first(), days.last())));
        String table = priorTable.identity();
        return new SourceRow(
                own,
                SourceKind.DERIVED,
                "Boning trials of " + Numbers.counted(carcasses, "carcass", "carcasses") + when,
                all.stream().noneMatch(BreakdownFit::withPrior)
                        ? "fitted in the terms of " + table
                        : "fitted with what " + table + " knows");
    }

    private double finestWidth() {
        return all.stream().mapToDouble(fit -> fit.model.finestWidth).min().orElseThrow();
    }
}
