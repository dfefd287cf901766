package org.beefyield.table;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.beefyield.cut.Cut;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.Expectation;
import org.beefyield.table.definition.Provenance;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * Makes a new table from one there is, with some of its parts replaced: breakdowns taken over from another table or given
 * in code, single rows, cuts, expectations. The result has its own name, version and digest, and its
 * {@link TableDefinition#provenance() provenance} says what came from where.
 *
 * <pre>{@code
 * YieldTable ours = TableOverride.of(table, "hall-2", "1")
 *         .source(new SourceRow("hall", SourceKind.ASSUMPTION, "Our own guess", ""))
 *         .row(new BreakdownRow("*", "*", "carcass", "loss", List.of(8.0, 0.0, 0.0, 0.0, 0.0, 0.0), 1, "hall"))
 *         .row(new BreakdownRow("*", "*", "carcass", "bone",
 *                 List.of(186.671, -7.3556, -2.3856, 0.0, 0.0, 0.0), 12, "hall"))
 *         .row(new BreakdownRow("D", "*", "carcass", "bone",
 *                 List.of(201.671, -7.3556, -2.3856, 0.0, 0.0, 0.0), 12, "hall"))
 *         .build();
 * }</pre>
 *
 * <p>Extra columns are kept for the rows that stay; new rows have empty cells there. Not thread-safe.
 */
public final class TableOverride {
    private final TableDefinition base;
    private final String name;
    private final String version;
    private final List<BreakdownRow> breakdown;
    private final List<ClassRow> byClass;
    private final List<CoefficientNote> notes;
    private final List<CovarianceRow> covariances;
    private final Map<String, Cut> cuts = new LinkedHashMap<>();
    private final Map<String, SourceRow> sources = new LinkedHashMap<>();
    private final Map<String, Integer> decimals;
    private List<Provenance> provenance = new ArrayList<>();
    private List<Expectation> expectations;
    private TableRange fitted;
    private TableRange allowed;
    private double widthFit;
    private @Nullable Double residualDegreesOfFreedom;
    private @Nullable Double runDegreesOfFreedom;

    private TableOverride(YieldTable base, String name, String version) {
        this.base = base.definition();
        this.name = name;
        this.version = version;
        this.breakdown = new ArrayList<>(this.base.breakdown());
        this.byClass = new ArrayList<>(this.base.breakdownByClass());
        this.notes = new ArrayList<>(this.base.coefficientNotes());
        this.covariances = new ArrayList<>(this.base.covariances());
        this.base.cuts().forEach(cut -> cuts.put(cut.code(), cut));
        this.base.sources().forEach(source -> sources.put(source.source(), source));
        this.decimals = new LinkedHashMap<>(this.base.decimals());
        this.expectations = new ArrayList<>(this.base.expectations());
        this.fitted = this.base.fitted();
        this.allowed = this.base.allowed();
        this.widthFit = this.base.widthFit();
        this.residualDegreesOfFreedom = this.base.residualDegreesOfFreedom();
        this.runDegreesOfFreedom = this.base.runDegreesOfFreedom();
        this.provenance.addAll(this.base.provenance());
        this.provenance.add(new Provenance("table", base.identity()));
    }

    /**
     * Starts with all of a table.
     *
     * @param base the table
     * @param name name of the new one
     * @param version version of the new one
     * @return an override without any change yet
     * @throws InvalidTableException if no table may have that name or version
     */
    public static TableOverride of(YieldTable base, String name, String version) {
        Objects.requireNonNull(base, "base");
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(version, "version");
        List<TableProblem> problems = TableCompiler.ofName(name, version);
        if (!problems.isEmpty()) {
            throw new InvalidTableException(name, problems);
        }
        return new TableOverride(base, name, version);
    }

    /**
     * Takes every row of one parent over from another table, in place of those there are; cuts and sources that they
     * need come with them.
     *
     * @param parent code of the cut that is broken down, or {@value BreakdownRow#ROOT}
     * @param other the table that has the rows
     * @return this
     * @throws IllegalArgumentException if the other table doesn't break that parent down, or its coefficients mean
     *     something else, for it has another reference carcass or other terms
     */
    public TableOverride breakdown(String parent, YieldTable other) {
        Objects.requireNonNull(other, "other");
        Objects.requireNonNull(parent, "parent");
        TableDefinition from = other.definition();
        List<BreakdownRow> rows = from.breakdown().stream()
                .filter(row -> row.parent().equals(parent))
                .toList();
        List<ClassRow> classRows = from.breakdownByClass().stream()
                .filter(row -> row.parent().equals(parent))
                .toList();
        if (rows.isEmpty() && classRows.isEmpty()) {
            throw new IllegalArgumentException("table " + other.identity() + " does not break down \"" + parent + "\"");
        }
        if (!rows.isEmpty()
                && !(from.reference().equals(base.reference()) && from.terms().equals(base.terms()))) {
            throw new IllegalArgumentException("rows of table " + other.identity()
                    + " can't be taken over: it has another reference carcass or other terms than " + base.name());
        }
        remove(parent);
        breakdown.addAll(rows);
        byClass.addAll(classRows);
        from.coefficientNotes().stream()
                .filter(note -> note.parent().equals(parent))
                .forEach(notes::add);
        from.covariances().stream().filter(row -> row.parent().equals(parent)).forEach(covariances::add);
        Set<String> neededSources = new HashSet<>();
        Set<String> neededCuts = new TreeSet<>();
        for (RowKey key : RowKey.of(from)) {
            if (key.parent().equals(parent)) {
                neededCuts.add(key.cut());
                neededSources.add(key.source());
            }
        }
        from.coefficientNotes().stream()
                .filter(note -> note.parent().equals(parent))
                .forEach(note -> neededSources.add(note.source()));
        from.cuts().stream()
                .filter(cut -> neededCuts.contains(cut.code()))
                .forEach(cut -> cuts.putIfAbsent(cut.code(), cut));
        from.sources().stream()
                .filter(source -> neededSources.contains(source.source()))
                .forEach(this::takeOver);
        // a column is as rough as its roughest part
        List<String> columns = new ArrayList<>(from.coefficientColumns());
        columns.add(TableColumn.G_PER_KG);
        for (String column : columns) {
            Integer places = from.decimals().get(column);
            if (places != null) {
                decimals.merge(column, places, Math::min);
            }
        }
        provenance.add(new Provenance("breakdown of " + parent, other.identity()));
        return this;
    }

    /**
     * Puts rows in the place of all that a cut has in one way, with the notes on their coefficients and the covariances of
     * their errors. Rows for every way stay, where that isn't the way.
     *
     * @param parent code of the cut that is broken down, or {@value BreakdownRow#ROOT}
     * @param way the way, or {@value BreakdownRow#ANY} for the rows for every way
     * @param rows rows
     * @param newNotes notes on their coefficients, none to have none
     * @param newCovariances covariances of their errors, none to have none
     * @return this
     * @throws IllegalArgumentException if one of them has another parent or way
     */
    public TableOverride breakdown(
            String parent,
            String way,
            List<BreakdownRow> rows,
            List<CoefficientNote> newNotes,
            List<CovarianceRow> newCovariances) {
        Checks.noNullIn(newCovariances, "newCovariances");
        Checks.noNullIn(newNotes, "newNotes");
        Checks.noNullIn(rows, "rows");
        Objects.requireNonNull(parent, "parent");
        Objects.requireNonNull(way, "way");
        rows.forEach(row -> check(parent, way, row.parent(), row.way()));
        newNotes.forEach(note -> check(parent, way, note.parent(), note.way()));
        newCovariances.forEach(row -> check(parent, way, row.parent(), row.way()));
        breakdown.removeIf(row -> row.parent().equals(parent) && row.way().equals(way));
        notes.removeIf(note -> note.parent().equals(parent) && note.way().equals(way));
        covariances.removeIf(row -> row.parent().equals(parent) && row.way().equals(way));
        breakdown.addAll(rows);
        notes.addAll(newNotes);
        covariances.addAll(newCovariances);
        provenance.add(new Provenance("breakdown of " + named(parent, way), Provenance.CODE));
        return this;
    }

    private static String named(String parent, String way) {
        return parent + (way.equals(BreakdownRow.ANY) ? "" : ", " + way);
    }

    private static void check(String parent, String way, String ofParent, String ofWay) {
        if (!ofParent.equals(parent) || !ofWay.equals(way)) {
            throw new IllegalArgumentException("what belongs to the breakdown of " + named(ofParent, ofWay)
                    + " is none of " + named(parent, way) + ", whose rows are given");
        }
    }

    /** A source of the same name and another meaning would falsify the rows that are here. */
    private void takeOver(SourceRow source) {
        SourceRow there = sources.putIfAbsent(source.source(), source);
        if (there != null && !there.equals(source)) {
            throw new IllegalArgumentException("source \"" + source.source() + "\" means another thing in each table: "
                    + there.citation() + " / " + source.citation() + "; rename one of them");
        }
    }

    private void remove(String parent) {
        breakdown.removeIf(row -> row.parent().equals(parent));
        byClass.removeIf(row -> row.parent().equals(parent));
        notes.removeIf(note -> note.parent().equals(parent));
        covariances.removeIf(row -> row.parent().equals(parent));
    }

    /**
     * Puts a row in the place of the one with the same category, way, parent and cut, or adds it. Notes on coefficients
     * that change go; and where one child's coefficient changes, so do the standard errors of that column in the whole
     * breakdown, for they close together or not at all. So do covariances of the breakdown: those of coefficients if one
     * changes, those between carcasses if an SD does. SDs of errors that carcasses have in common, where the row states none,
     * stay those of the row in whose place it is put.
     *
     * @param row row
     * @return this
     */
    public TableOverride row(BreakdownRow row) {
        Objects.requireNonNull(row, "row");
        Predicate<BreakdownRow> same = old -> old.category().equals(row.category())
                && old.way().equals(row.way())
                && old.parent().equals(row.parent())
                && old.cut().equals(row.cut());
        BreakdownRow old = breakdown.stream().filter(same).findFirst().orElse(null);
        List<String> columns = base.coefficientColumns();
        notes.removeIf(note -> {
            int column = columns.indexOf(note.term());
            boolean changes = old == null
                    || column < 0
                    || column >= row.coefficients().size()
                    || !old.coefficients().get(column).equals(row.coefficients().get(column));
            boolean ofRow = note.category().equals(row.category())
                    && note.way().equals(row.way())
                    && note.parent().equals(row.parent())
                    && note.cut().equals(row.cut());
            return changes && (ofRow || (note.parent().equals(row.parent()) && note.standardError() != null));
        });
        covariances.removeIf(covariance -> covariance.parent().equals(row.parent())
                && (old == null
                        || (covariance.isResidual()
                                ? old.sdGPerKg() != row.sdGPerKg()
                                : !old.coefficients().equals(row.coefficients()))));
        replace(breakdown, same, old == null ? row : row.withShared(kept(row.shared(), old.shared())));
        provenance.add(new Provenance(
                "row " + row.category() + " " + row.way() + " " + row.parent() + " " + row.cut(), Provenance.CODE));
        return this;
    }

    private static SharedSds kept(SharedSds stated, SharedSds old) {
        return new SharedSds(
                stated.lotGPerKg() == null ? old.lotGPerKg() : stated.lotGPerKg(),
                stated.runGPerKg() == null ? old.runGPerKg() : stated.runGPerKg(),
                stated.hallGPerKg() == null ? old.hallGPerKg() : stated.hallGPerKg());
    }

    /**
     * Puts covariances of errors in the place of all that a breakdown has.
     *
     * @param parent code of the cut that is broken down, or {@value BreakdownRow#ROOT}
     * @param rows covariances of its errors, none to have none
     * @return this
     * @throws IllegalArgumentException if a row has another parent
     */
    public TableOverride covariances(String parent, List<CovarianceRow> rows) {
        Checks.noNullIn(rows, "rows");
        Objects.requireNonNull(parent, "parent");
        for (CovarianceRow row : rows) {
            if (!row.parent().equals(parent)) {
                throw new IllegalArgumentException(
                        "a covariance of " + row.parent() + " is none of " + parent + ", whose are given");
            }
        }
        covariances.removeIf(row -> row.parent().equals(parent));
        covariances.addAll(rows);
        provenance.add(new Provenance("covariances of " + parent, Provenance.CODE));
        return this;
    }

    /**
     * Puts a cell in the place of the one with the same category, way, parent, class and cut, or adds it. SDs of errors that
     * carcasses have in common, where the cell states none, stay those of the one in whose place it is put.
     *
     * @param row cell
     * @return this
     */
    public TableOverride row(ClassRow row) {
        Objects.requireNonNull(row, "row");
        Predicate<ClassRow> same = old -> old.category().equals(row.category())
                && old.way().equals(row.way())
                && old.parent().equals(row.parent())
                && old.conformation().equals(row.conformation())
                && old.fatClass().equals(row.fatClass())
                && old.cut().equals(row.cut());
        ClassRow old = byClass.stream().filter(same).findFirst().orElse(null);
        replace(byClass, same, old == null ? row : row.withShared(kept(row.shared(), old.shared())));
        provenance.add(new Provenance(
                "cell " + row.category() + " " + row.way() + " " + row.parent() + " " + row.conformation() + " "
                        + row.fatClass() + " " + row.cut(),
                Provenance.CODE));
        return this;
    }

    private static <T> void replace(List<T> rows, Predicate<T> same, T row) {
        for (int i = 0; i < rows.size(); i++) {
            if (same.test(rows.get(i))) {
                rows.set(i, row);
                return;
            }
        }
        rows.add(row);
    }

    /**
     * Puts a cut in the place of the one of the same code, or adds it behind those there are.
     *
     * @param cut cut
     * @return this
     */
    public TableOverride cut(Cut cut) {
        Objects.requireNonNull(cut, "cut");
        cuts.put(cut.code(), cut);
        provenance.add(new Provenance("cut " + cut.code(), Provenance.CODE));
        return this;
    }

    /**
     * Adds a source that rows given in code refer to, or replaces the one of the same name.
     *
     * @param source source
     * @return this
     */
    public TableOverride source(SourceRow source) {
        Objects.requireNonNull(source, "source");
        sources.put(source.source(), source);
        return this;
    }

    /**
     * Puts other expectations in the place of the table's.
     *
     * @param newExpectations expectations, none to have none
     * @return this
     */
    public TableOverride expectations(List<Expectation> newExpectations) {
        Checks.noNullIn(newExpectations, "newExpectations");
        expectations = List.copyOf(newExpectations);
        provenance.add(new Provenance(TableSchema.EXPECTATIONS.code(), Provenance.CODE));
        return this;
    }

    /**
     * Puts other ranges in the place of the table's.
     *
     * @param newFitted range with data behind it
     * @param newAllowed range of use, its grades whole positions
     * @return this
     */
    public TableOverride ranges(TableRange newFitted, TableRange newAllowed) {
        Objects.requireNonNull(newAllowed, "newAllowed");
        Objects.requireNonNull(newFitted, "newFitted");
        fitted = newFitted;
        allowed = newAllowed;
        return this;
    }

    /**
     * States the resolution of the grades behind the new table.
     *
     * @param points points of the scale, 0 to 3
     * @return this
     */
    public TableOverride widthFit(double points) {
        widthFit = points;
        return this;
    }

    /**
     * States that the covariances between carcasses were estimated from a trial.
     *
     * @param degrees degrees of freedom, the least of all breakdowns, above 0
     * @return this
     */
    public TableOverride residualDegreesOfFreedom(double degrees) {
        residualDegreesOfFreedom = degrees;
        return this;
    }

    /**
     * States from how many degrees of freedom the SDs between runs were estimated.
     *
     * @param degrees above 0
     * @return this
     */
    public TableOverride runDegreesOfFreedom(double degrees) {
        runDegreesOfFreedom = degrees;
        return this;
    }

    /**
     * Says where the parts came from, in the place of all that was noted of it so far.
     *
     * @param origins the parts and their origins
     * @return this
     */
    public TableOverride provenance(List<Provenance> origins) {
        Checks.noNullIn(origins, "origins");
        provenance = new ArrayList<>(origins);
        return this;
    }

    /**
     * Checks and proves the new table.
     *
     * @return the table
     * @throws InvalidTableException if anything is wrong with it
     */
    public YieldTable build() {
        return YieldTable.of(definition());
    }

    /**
     * The new table as it would be written down, not checked yet: problems of {@link #build()} name its rows.
     *
     * @return the definition
     */
    public TableDefinition definition() {
        TableDefinition.Builder builder =
                base.toBuilder(name, version).ranges(fitted, allowed).widthFit(widthFit);
        if (residualDegreesOfFreedom != null) {
            builder.residualDegreesOfFreedom(residualDegreesOfFreedom);
        }
        if (runDegreesOfFreedom != null) {
            builder.runDegreesOfFreedom(runDegreesOfFreedom);
        }
        builder.replaceRows(
                List.copyOf(cuts.values()),
                breakdown,
                byClass,
                notes,
                covariances,
                expectations,
                List.copyOf(sources.values()),
                decimals,
                provenance);
        return builder.build();
    }
}
