package org.beefyield.benchmarks.calibrate;

import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.TableDefinition;

/** The upper levels of the newest edition that the library ships, so that a fit takes milliseconds. */
final class TissueTable {
    /** Children of a carcass, in the table's order. */
    static final List<String> CUTS = List.of("meat", "fat-trim", "bone", "loss");

    /** Those that are drawn: every category is proved, which takes longer than to fit it. */
    private static final List<Category> SERVED = List.of(Category.STEER, Category.HEIFER, Category.YOUNG_BULL);

    private static final TableDefinition SHIPPED = ShippedTables.boneless2026().definition();
    static final String LOSS = "loss";

    private TissueTable() {}

    /** Meat, fat trim, bone and loss of a carcass as shipped. */
    static TableDefinition tissue() {
        return of("tissue", 1, UnaryOperator.identity());
    }

    /** The same and the primals of the meat. */
    static TableDefinition primals() {
        return of("primals", 2, UnaryOperator.identity());
    }

    /**
     * The same, where runs differ more or less: all children in proportion but for the loss, which a hall can't have less than none
     * of.
     *
     * @param share part of the variance of meat between carcasses of one grade and one hall that is common to a run
     */
    static TableDefinition withRunShare(double share) {
        BreakdownRow meat = SHIPPED.breakdown().stream()
                .filter(row -> row.cut().equals(CUTS.get(0)))
                .findFirst()
                .orElseThrow();
        double within = square(meat.sdGPerKg())
                + square(stated(Objects.requireNonNull(meat.shared().lotGPerKg())));
        return withRuns(Math.sqrt(share / (1 - share) * within)
                / stated(Objects.requireNonNull(meat.shared().runGPerKg())));
    }

    /** The same, where runs differ by a factor of what is shipped, the loss by no more than that. */
    static TableDefinition withRuns(double factor) {
        return of("runs", 1, row -> {
            double run = stated(Objects.requireNonNull(row.shared().runGPerKg()));
            double of = row.cut().equals(LOSS) ? Math.min(1, factor) : factor;
            return with(
                    row,
                    new SharedSds(
                            row.shared().lotGPerKg(), of * run, row.shared().hallGPerKg()));
        });
    }

    /** A table that says nothing of how halls, runs and lots differ, and of no coefficient how sure it is. */
    static TableDefinition silent() {
        return of("silent", 1, row -> with(row, SharedSds.NOT_STATED));
    }

    private static double stated(Double gPerKg) {
        return Objects.requireNonNull(gPerKg);
    }

    private static boolean isServed(String category) {
        return !served(category).isEmpty();
    }

    /** What is left of a row's categories. */
    private static String served(String category) {
        return category.equals(BreakdownRow.ANY)
                ? category
                : SERVED.stream()
                        .map(Category::letter)
                        .filter(category::contains)
                        .collect(Collectors.joining());
    }

    private static double square(double value) {
        return value * value;
    }

    private static BreakdownRow with(BreakdownRow row, SharedSds shared) {
        return new BreakdownRow(
                served(row.category()),
                row.way(),
                row.parent(),
                row.cut(),
                row.coefficients(),
                row.sdGPerKg(),
                shared,
                row.source());
    }

    private static TableDefinition of(String name, int levels, UnaryOperator<BreakdownRow> changed) {
        List<String> kept = SHIPPED.levels().subList(0, levels);
        List<Cut> cuts = SHIPPED.cuts().stream()
                .filter(cut -> kept.contains(cut.level()))
                .toList();
        Set<String> parents = levels == 1 ? Set.of(BreakdownRow.ROOT) : Set.of(BreakdownRow.ROOT, CUTS.get(0));
        TableDefinition.Builder builder = TableDefinition.builder(name, "1")
                .levels(kept.toArray(String[]::new))
                .reference(
                        SHIPPED.reference().conformation(),
                        SHIPPED.reference().fat(),
                        SHIPPED.reference().weightKg())
                .ranges(SHIPPED.fitted(), SHIPPED.allowed())
                .widthFit(SHIPPED.widthFit())
                .categories(SERVED.toArray(Category[]::new))
                .basis(SHIPPED.basis());
        SHIPPED.terms().forEach(builder::term);
        SHIPPED.decimals().forEach(builder::decimals);
        SHIPPED.sources().forEach(builder::source);
        cuts.forEach(builder::cut);
        List<BreakdownRow> rows = SHIPPED.breakdown().stream()
                .filter(row -> parents.contains(row.parent()) && isServed(row.category()))
                .map(row -> changed.apply(with(row, row.shared())))
                .toList();
        rows.forEach(builder::row);
        boolean states = !rows.get(0).shared().equals(SharedSds.NOT_STATED);
        SHIPPED.coefficientNotes().stream()
                .filter(note -> states && parents.contains(note.parent()) && isServed(note.category()))
                .forEach(note -> builder.coefficientNote(new CoefficientNote(
                        served(note.category()),
                        note.way(),
                        note.parent(),
                        note.cut(),
                        note.term(),
                        note.standardError(),
                        note.errorId(),
                        note.source())));
        SHIPPED.covariances().stream()
                .filter(row -> parents.contains(row.parent()))
                .forEach(builder::covariance);
        SHIPPED.expectations().stream()
                .filter(expectation -> kept.contains(expectation.level()))
                .forEach(builder::expectation);
        return builder.build();
    }
}
