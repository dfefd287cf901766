package org.beefyield.table;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.BiConsumer;
import java.util.function.Predicate;
import java.util.function.ToIntFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.grid.Breakdown;
import org.beefyield.grid.ClosedErrors;
import org.beefyield.grid.CoefficientShares;
import org.beefyield.grid.Nodes;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.ClassRow;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** Resolves one breakdown of one category and way: the most specific row of each child, closed, at every node. */
final class BreakdownResolver {
    private static final int CELLS_LISTED = 12;

    /** What an SD in its column may be off the root of its variance at the least, g/kg, where no decimals that hold are declared. */
    private static final double HALF_A_THOUSANDTH = 5e-4;

    /** What a standard error in a note may be off the root of its variance, as a fraction of it: it may be rounded. */
    private static final double AGREEMENT = 0.01;

    private final TableDefinition definition;
    private final RowIndex index;
    /** Whether notes on coefficients may be looked at. */
    private final boolean notesAreGood;

    private final ToIntFunction<String> cutIndex;
    private final Nodes nodes;
    private final Category category;
    private final String parent;
    private final String way;
    /** Whether a breakdown of the category yields the parent; if not, it needs none of its own. */
    private final boolean isMade;

    final List<TableProblem> found = new ArrayList<>();
    /** By column, what it added up to beyond what it should. */
    final Map<String, Double> excess = new LinkedHashMap<>();

    BreakdownResolver(
            TableDefinition definition,
            RowIndex index,
            boolean notesAreGood,
            ToIntFunction<String> cutIndex,
            Nodes nodes,
            Category category,
            String parent,
            String way,
            boolean isMade) {
        this.definition = definition;
        this.index = index;
        this.notesAreGood = notesAreGood;
        this.cutIndex = cutIndex;
        this.nodes = nodes;
        this.category = category;
        this.parent = parent;
        this.way = way;
        this.isMade = isMade;
    }

    /** The breakdown, or null if no row serves. */
    @Nullable
    Breakdown breakdown;

    /** Finds the breakdown; {@link #found} says what is wrong. */
    void resolve() {
        breakdown = resolved();
        if (breakdown != null) {
            checkSds(breakdown);
        }
    }

    private void checkSds(Breakdown breakdown) {
        Breakdown.OpenSds open = breakdown.openSds();
        if (open != null) {
            double largest = open.sds()[open.largest()];
            double others = 0;
            for (int k = 0; k < open.sds().length; k++) {
                others += k == open.largest() ? 0 : open.sds()[k] * open.sds()[k];
            }
            String limit = "its SD is below " + Numbers.exact(Math.rint(Math.sqrt(others) * 1e6) / 1e3)
                    + ", the root of the sum of the others' squares";
            found.add(open(
                    breakdown,
                    open,
                    TableColumn.SD_G_PER_KG,
                    largest,
                    limit,
                    "; correct them, or state the covariance in the resource " + TableSchema.RESIDUAL_COVARIANCE));
        }
        for (SharedBy by : SharedBy.values()) {
            Breakdown.OpenSds shared = breakdown.openSds(by);
            if (shared != null) {
                double largest = shared.sds()[shared.largest()];
                String limit = "its SD is at most "
                        + Numbers.exact(Math.rint((Arrays.stream(shared.sds()).sum() - largest) * 1e6) / 1e3)
                        + ", the sum of the others'";
                found.add(open(breakdown, shared, TableColumn.sharedSd(by), largest, limit, "; correct them"));
            }
        }
    }

    private static TableProblem open(
            Breakdown breakdown, Breakdown.OpenSds open, String column, double largest, String limit, String remedy) {
        return new TableProblem(
                breakdown.resource(),
                open.rows()[open.largest()],
                column,
                Numbers.exact(Math.rint(largest * 1e6) / 1e3),
                "the SDs of the children of " + breakdown.parent()
                        + (breakdown.way().equals(BreakdownRow.ANY) ? "" : " in the way " + breakdown.way())
                        + " can't belong to shares that add up to 1: "
                        + breakdown.children().get(open.largest()).code()
                        + " varies more than all others together ("
                        + (open.sds().length == 1
                                ? "a single child has SD 0"
                                : open.sds().length == 2 ? "two children have equal SDs" : limit)
                        + ")" + remedy);
    }

    private @Nullable Breakdown resolved() {
        Winners<String> byCut = new Winners<>(TableSchema.BREAKDOWN);
        for (int i : index.coefficients(parent)) {
            BreakdownRow row = definition.breakdown().get(i);
            byCut.offer(i, row.category(), row.way(), row.cut(), row.cut());
        }
        Winners<Cell> byCell = new Winners<>(TableSchema.BREAKDOWN_BY_CLASS);
        for (int i : index.classes(parent)) {
            ClassRow row = definition.breakdownByClass().get(i);
            byCell.offer(i, row.category(), row.way(), row.cut(), Cell.of(row));
        }
        Map<String, Integer> coefficients = byCut.rows();
        Map<Cell, Integer> cells = byCell.rows();
        if (coefficients.isEmpty() && cells.isEmpty() && !isMade) {
            return null;
        }
        if (coefficients.isEmpty() == cells.isEmpty()) {
            problem(
                    cells.isEmpty() ? TableSchema.BREAKDOWN : TableSchema.BREAKDOWN_BY_CLASS,
                    TableColumn.PARENT,
                    parent,
                    (cells.isEmpty()
                                    ? "no row breaks it down"
                                    : "rows of " + TableSchema.BREAKDOWN + " and of " + TableSchema.BREAKDOWN_BY_CLASS
                                            + " both break it down")
                            + ofWay(" in the way "));
            return null;
        }
        return cells.isEmpty() ? fromCoefficients(coefficients) : fromClasses(cells);
    }

    private String ofWay(String before) {
        return way.equals(BreakdownRow.ANY) ? "" : before + way;
    }

    private void problem(TableSchema resource, String column, String value, String message) {
        found.add(new TableProblem(resource, TableProblem.NO_ROW, column, value, message));
    }

    /** A cell of a breakdown by class: class middles and child. */
    private record Cell(double conformation, double fat, String cut) {
        static Cell of(ClassRow row) {
            return new Cell(
                    Conformation.parse(row.conformation()).position(),
                    FatClass.parse(row.fatClass()).position(),
                    row.cut());
        }
    }

    /** Keeps, for each key, the rows that serve this breakdown; the most specific one wins. */
    private final class Winners<K> {
        private final TableSchema resource;
        private final Map<K, List<Integer>> rows = new LinkedHashMap<>();
        private final Map<Integer, Integer> specificity = new LinkedHashMap<>();
        private final Map<Integer, String> cuts = new LinkedHashMap<>();

        Winners(TableSchema resource) {
            this.resource = resource;
        }

        void offer(int index, String letters, String itsWay, String cut, K key) {
            boolean anyCategory = letters.equals(BreakdownRow.ANY);
            boolean anyWay = itsWay.equals(BreakdownRow.ANY);
            if ((anyWay || itsWay.equals(way)) && (anyCategory || letters.contains(category.letter()))) {
                rows.computeIfAbsent(key, k -> new ArrayList<>()).add(index);
                specificity.put(index, (anyCategory ? 0 : 1) + (anyWay ? 0 : 1));
                cuts.put(index, cut);
            }
        }

        private int specificity(int row) {
            return specificity.getOrDefault(row, 0);
        }

        Map<K, Integer> rows() {
            Map<K, Integer> winners = new LinkedHashMap<>();
            rows.forEach((key, indexes) -> {
                int most = indexes.stream().mapToInt(this::specificity).max().orElse(0);
                List<Integer> best = indexes.stream()
                        .filter(index -> specificity(index) == most)
                        .toList();
                winners.put(key, best.get(0));
                if (best.size() > 1) {
                    found.add(new TableProblem(
                            resource,
                            best.get(1),
                            TableColumn.CUT,
                            cuts.getOrDefault(best.get(1), ""),
                            "another row serves the same cut of the same parent and is equally specific; make one of"
                                    + " them more specific",
                            List.of(best.get(0))));
                }
            });
            return winners;
        }
    }

    /** Children in printing order: index in the catalogue to index of a row. */
    private Breakdown breakdown(
            TableSchema resource,
            SortedMap<Integer, Integer> rowByCut,
            int[][] rows,
            double[][] shares,
            double[][] slopes,
            double[][] sds,
            @Nullable ClosedErrors residual,
            List<Breakdown.CoefficientError> coefficientErrors) {
        List<Cut> children =
                rowByCut.keySet().stream().map(definition.cuts()::get).toList();
        return new Breakdown(
                parent,
                way,
                children,
                ints(rowByCut.keySet()),
                resource,
                rows,
                shares,
                slopes,
                sds,
                sharedSds(resource, rows),
                residual,
                coefficientErrors);
    }

    /** SDs of the errors that carcasses have in common, by what has them in common, child and node: where the shares stand. */
    private Map<SharedBy, double[][]> sharedSds(TableSchema resource, int[][] rows) {
        Map<SharedBy, double[][]> sds = new EnumMap<>(SharedBy.class);
        for (SharedBy by : SharedBy.values()) {
            double[][] ofChildren = new double[rows.length][];
            for (int k = 0; k < rows.length; k++) {
                int[] ofChild = rows[k];
                double[] at = new double[ofChild.length];
                if (at.length == 1) {
                    at[0] = sharedSd(resource, ofChild[0], by);
                } else {
                    // nodes outside the range have no row
                    nodes.forEach(node -> at[node] = sharedSd(resource, ofChild[node], by));
                }
                ofChildren[k] = at;
            }
            sds.put(by, ofChildren);
        }
        return sds;
    }

    private double sharedSd(TableSchema resource, int row, SharedBy by) {
        SharedSds shared = resource == TableSchema.BREAKDOWN
                ? definition.breakdown().get(row).shared()
                : definition.breakdownByClass().get(row).shared();
        Double stated = shared.of(by);
        return stated == null ? 0 : stated / 1000;
    }

    private static int[] ints(Collection<Integer> values) {
        return values.stream().mapToInt(Integer::intValue).toArray();
    }

    private Breakdown fromCoefficients(Map<String, Integer> rows) {
        SortedMap<Integer, Integer> rowByCut = new TreeMap<>();
        rows.forEach((cut, row) -> rowByCut.put(cutIndex.applyAsInt(cut), row));
        List<double[]> grams = new ArrayList<>();
        rowByCut.values()
                .forEach(row -> grams.add(definition.breakdown().get(row).coefficients().stream()
                        .mapToDouble(Double::doubleValue)
                        .toArray()));
        CoefficientShares formula = new CoefficientShares(nodes, definition.terms(), definition.reference());
        close(grams, List.copyOf(rowByCut.values()), formula);
        double[][] shares = new double[grams.size()][nodes.size()];
        double[][] slopes = new double[grams.size()][nodes.size()];
        for (int k = 0; k < grams.size(); k++) {
            int child = k;
            nodes.forEach(node -> {
                shares[child][node] = formula.share(grams.get(child), node) / 1000;
                slopes[child][node] = formula.slope(grams.get(child), node) / 1000;
            });
        }
        double[][] sds = new double[grams.size()][1];
        int child = 0;
        for (int row : rowByCut.values()) {
            sds[child++][0] = definition.breakdown().get(row).sdGPerKg() / 1000;
        }
        int[][] winners = rowByCut.values().stream().map(row -> new int[] {row}).toArray(int[][]::new);
        return breakdown(
                TableSchema.BREAKDOWN,
                rowByCut,
                winners,
                shares,
                slopes,
                sds,
                residual(rowByCut.values()),
                coefficientErrors(rowByCut.values()));
    }

    /** The covariances that serve this breakdown. */
    private CovarianceMatrix covariances(boolean residual) {
        CovarianceMatrix matrix = new CovarianceMatrix();
        for (CovarianceRow row : notesAreGood ? index.covariances(parent) : List.<CovarianceRow>of()) {
            boolean anyCategory = row.category().equals(BreakdownRow.ANY);
            boolean anyWay = row.way().equals(BreakdownRow.ANY);
            if (row.isResidual() == residual && serves(row)) {
                String twice = matrix.add(row, (anyCategory ? 0 : 1) + (anyWay ? 0 : 1));
                if (twice != null) {
                    problem(
                            residual ? TableSchema.RESIDUAL_COVARIANCE : TableSchema.COEFFICIENT_COVARIANCE,
                            TableColumn.CUT,
                            row.cut(),
                            "the covariance of " + twice + " stands twice for " + parent + ofWay(" in the way ")
                                    + "; each pair stands once, in either order");
                }
            }
        }
        return matrix;
    }

    private boolean serves(CovarianceRow row) {
        return (row.way().equals(BreakdownRow.ANY) || row.way().equals(way))
                && (row.category().equals(BreakdownRow.ANY) || row.category().contains(category.letter()));
    }

    private BiConsumer<String, String> covarianceProblem(TableSchema resource) {
        return (value, message) -> problem(
                resource,
                TableColumn.VALUE,
                value,
                "the children of " + parent + ofWay(" in the way ") + ": " + message);
    }

    /** Errors between carcasses whose full covariance is stated, or null to work it out from the SDs. */
    private @Nullable ClosedErrors residual(Collection<Integer> rows) {
        ClosedErrors none = ClosedErrors.conditioned(new double[rows.size()]);
        if (!notesAreGood && index.covariances(parent).stream().anyMatch(CovarianceRow::isResidual)) {
            return none;
        }
        CovarianceMatrix given = covariances(true);
        if (given.isEmpty()) {
            return null;
        }
        List<String> cuts =
                rows.stream().map(row -> definition.breakdown().get(row).cut()).toList();
        ClosedErrors errors = given.errors(cuts, cuts.size(), covarianceProblem(TableSchema.RESIDUAL_COVARIANCE));
        if (errors == null) {
            // the SDs, which need not close by themselves, are not at fault
            return none;
        }
        double tolerance = roundingOfSds(rows);
        int child = 0;
        for (int row : rows) {
            double stated = definition.breakdown().get(row).sdGPerKg();
            double root = 1000 * errors.sds().get(child++);
            if (Math.abs(stated - root) > tolerance) {
                found.add(new TableProblem(
                        TableSchema.BREAKDOWN,
                        row,
                        TableColumn.SD_G_PER_KG,
                        Numbers.exact(stated),
                        "the root of its variance in " + TableSchema.RESIDUAL_COVARIANCE + " is "
                                + Numbers.exact(round(root))));
            }
        }
        return errors;
    }

    /** Half a unit of the last decimal of the SDs: of the declared one, or of the longest that stands there if that is finer. */
    private double roundingOfSds(Collection<Integer> rows) {
        Integer declared = definition.decimals().get(TableColumn.SD_G_PER_KG);
        int longest = ColumnSum.decimals(
                rows.stream().mapToDouble(row -> definition.breakdown().get(row).sdGPerKg()));
        int places = declared == null ? longest : Math.max(declared, longest);
        double half = 0.5 * Math.pow(10, -places) + ColumnSum.NOISE;
        return declared != null && declared == places ? half : Math.max(HALF_A_THOUSANDTH, half);
    }

    private List<Breakdown.CoefficientError> coefficientErrors(Collection<Integer> rows) {
        CovarianceMatrix given = covariances(false);
        if (given.isEmpty()) {
            return standardErrors(rows, id -> true);
        }
        // a covariance says all of the usual errors; those with a name come on top
        List<Breakdown.CoefficientError> errors = new ArrayList<>(tiedErrors(given, rows));
        errors.addAll(standardErrors(rows, id -> !id.isEmpty()));
        return errors;
    }

    /** Errors of coefficients with their full covariance; columns that it doesn't name are without error. */
    private List<Breakdown.CoefficientError> tiedErrors(CovarianceMatrix given, Collection<Integer> rows) {
        List<Integer> columns = new ArrayList<>();
        List<String> names = new ArrayList<>();
        Set<String> stated = index.covariances(parent).stream()
                .filter(row -> !row.isResidual() && serves(row))
                .flatMap(row -> Stream.of(row.term(), row.otherTerm()))
                .collect(Collectors.toSet());
        List<String> all = definition.coefficientColumns();
        for (int column = 0; column < all.size(); column++) {
            if (stated.contains(all.get(column))) {
                columns.add(column);
                for (int row : rows) {
                    names.add(CovarianceMatrix.name(
                            definition.breakdown().get(row).cut(), all.get(column)));
                }
            }
        }
        ClosedErrors errors = given.errors(names, rows.size(), covarianceProblem(TableSchema.COEFFICIENT_COVARIANCE));
        if (errors == null) {
            return List.of();
        }
        int error = 0;
        for (int column = 0; column < all.size(); column++) {
            for (int row : rows) {
                double noted = index.standardError(definition.breakdown().get(row), all.get(column), "");
                double root = columns.contains(column) ? 1000 * errors.sds().get(error++) : 0;
                if (noted != 0 && Math.abs(noted - root) > AGREEMENT * root) {
                    problem(
                            TableSchema.COEFFICIENT_NOTES,
                            TableColumn.STANDARD_ERROR,
                            Numbers.exact(noted),
                            "the root of the variance of "
                                    + CovarianceMatrix.name(
                                            definition.breakdown().get(row).cut(), all.get(column))
                                    + " in " + TableSchema.COEFFICIENT_COVARIANCE + " is "
                                    + Numbers.exact(round(root)));
                }
            }
        }
        SortedSet<String> draw = new TreeSet<>();
        index.covariances(parent).stream()
                .filter(row -> !row.isResidual() && serves(row))
                .forEach(row -> draw.add(row.category()));
        draw.addAll(List.of(parent, way));
        return List.of(new Breakdown.CoefficientError(List.copyOf(draw), columns, errors));
    }

    private List<Breakdown.CoefficientError> standardErrors(Collection<Integer> rows, Predicate<String> which) {
        List<Breakdown.CoefficientError> errors = new ArrayList<>();
        List<String> columns = notesAreGood ? definition.coefficientColumns() : List.of();
        for (int column = 0; column < columns.size(); column++) {
            String term = columns.get(column);
            SortedSet<String> ids = new TreeSet<>();
            rows.forEach(row -> ids.addAll(index.errorIds(definition.breakdown().get(row), term)));
            ids.removeIf(which.negate());
            for (String id : ids) {
                double[] standardErrors = rows.stream()
                        .mapToDouble(row ->
                                index.standardError(definition.breakdown().get(row), term, id) / 1000)
                        .toArray();
                if (!ClosedErrors.canBeBalanced(standardErrors)) {
                    problem(
                            TableSchema.BREAKDOWN,
                            term,
                            "",
                            "the standard errors of the children of " + parent + ofWay(" in the way ")
                                    + (id.isEmpty() ? "" : " from the error " + id)
                                    + " can't belong to shares that add up to 1: the largest, "
                                    + Numbers.exact(round(1000
                                            * Arrays.stream(standardErrors)
                                                    .max()
                                                    .orElse(0)))
                                    + ", is above the sum of the others; state those of all children");
                    continue;
                }
                ClosedErrors closed = ClosedErrors.ofStandardErrors(standardErrors);
                if (!closed.isZero()) {
                    errors.add(new Breakdown.CoefficientError(
                            id.isEmpty() ? usualDraw(column, rows) : List.of(id), List.of(column), closed));
                }
            }
        }
        return errors;
    }

    /** What errors without a name are the same by: where they stand, and whose they are if they are of a category's own level. */
    private List<String> usualDraw(int column, Collection<Integer> rows) {
        List<String> draw = new ArrayList<>(
                List.of(parent, way, definition.coefficientColumns().get(column)));
        if (column == 0) {
            rows.forEach(row -> draw.add(definition.breakdown().get(row).category()));
        }
        return draw;
    }

    /** Closes the columns of coefficients, which together may take no more off than rounding takes. */
    private void close(List<double[]> grams, List<Integer> rows, CoefficientShares formula) {
        List<String> columns = definition.coefficientColumns();
        List<ColumnSum> sums = new ArrayList<>();
        double[] off = new double[columns.size()];
        int before = found.size();
        for (int j = 0; j < columns.size(); j++) {
            ColumnSum sum = sum(grams, j, rows, TableSchema.BREAKDOWN, columns.get(j), j == 0 ? 1000 : 0);
            sums.add(sum);
            double[] unit = new double[columns.size()];
            unit[j] = 1;
            check(sum, sum.isClosed() ? 0 : formula.most(unit, weights()), "");
            off[j] = sum.isClosed() ? 0 : sum.off();
        }
        double together = formula.most(off, weights());
        if (found.size() == before && !ColumnSum.isRoundingTogether(together)) {
            sums.stream()
                    .filter(sum -> !sum.isClosed())
                    .forEach(sum -> found.add(sum.offTogether(together, children(""))));
        }
        // the level last: the others are taken off in proportion to it as it stands in the table
        for (int j = columns.size() - 1; j >= 0; j--) {
            takeOff(grams, j, sums.get(j));
        }
    }

    private Range weights() {
        return definition.allowed().weightKg();
    }

    private String children(String where) {
        return "the children of " + parent + ofWay(" in the way ") + where;
    }

    /** The sum of a column, of which the children are in the order of their rows. */
    private ColumnSum sum(
            List<double[]> grams, int j, List<Integer> rows, TableSchema resource, String column, double wanted) {
        List<ColumnSum.Child> children = new ArrayList<>();
        for (int k = 0; k < rows.size(); k++) {
            int row = rows.get(k);
            children.add(new ColumnSum.Child(
                    row,
                    resource == TableSchema.BREAKDOWN
                            ? definition.breakdown().get(row).cut()
                            : definition.breakdownByClass().get(row).cut(),
                    grams.get(k)[j]));
        }
        return new ColumnSum(
                resource,
                column,
                definition.unitOf(column),
                definition.decimals().get(column),
                wanted,
                children);
    }

    private void check(ColumnSum sum, double reach, String where) {
        if (!sum.isRounding(reach)) {
            found.add(sum.off(reach, children(where)));
        } else if (!sum.isClosed() && Math.abs(sum.off()) > Math.abs(excess.getOrDefault(sum.column(), 0.0))) {
            excess.put(sum.column(), sum.off());
        }
    }

    /** Takes what a column adds up to beyond what it should off the children in proportion to their level. */
    private void takeOff(List<double[]> grams, int j, ColumnSum sum) {
        double off = sum.off();
        if (off != 0) {
            double levels = 0;
            for (double[] child : grams) {
                levels += child[0];
            }
            for (double[] child : grams) {
                child[j] -= off * child[0] / levels;
            }
        }
    }

    /** Rounded for a message. */
    private static double round(double grams) {
        return Math.rint(grams * 1e6) / 1e6;
    }

    private @Nullable Breakdown fromClasses(Map<Cell, Integer> rows) {
        Set<Double> conformations = new TreeSet<>();
        Set<Double> fats = new TreeSet<>();
        SortedMap<Integer, Integer> rowByCut = new TreeMap<>();
        rows.forEach((cell, row) -> {
            conformations.add(cell.conformation());
            fats.add(cell.fat());
            rowByCut.putIfAbsent(cutIndex.applyAsInt(cell.cut()), row);
        });
        boolean thirds = mixed(TableColumn.CONFORMATION, rows.values(), true);
        boolean fatThirds = mixed(TableColumn.FAT_CLASS, rows.values(), false);
        if (!found.isEmpty()) {
            return null;
        }
        addNeeded(conformations, nodes.lowConformation(), nodes.highConformation(), thirds);
        addNeeded(fats, nodes.lowFat(), nodes.highFat(), fatThirds);
        List<String> missing = missing(rows.keySet(), conformations, fats, rowByCut, thirds, fatThirds);
        if (!missing.isEmpty()) {
            int more = missing.size() - CELLS_LISTED;
            found.add(new TableProblem(
                    TableSchema.BREAKDOWN_BY_CLASS,
                    TableProblem.NO_ROW,
                    TableColumn.PARENT,
                    parent,
                    missing.size() + (missing.size() == 1 ? " cell is" : " cells are") + " missing"
                            + ofWay(" in the way ") + ": "
                            + String.join("; ", missing.subList(0, Math.min(CELLS_LISTED, missing.size())))
                            + (more > 0 ? "; and " + more + " more" : "")));
        }
        if (!found.isEmpty()) {
            return null;
        }
        return interpolated(rows, new ClassAxis(conformations), new ClassAxis(fats), rowByCut, thirds, fatThirds);
    }

    /** Whether the rows are in thirds; a problem if some are and others not. */
    private boolean mixed(String column, Collection<Integer> rows, boolean conformation) {
        boolean thirds = false;
        boolean whole = false;
        for (int index : rows) {
            ClassRow row = definition.breakdownByClass().get(index);
            double width = conformation
                    ? Conformation.parse(row.conformation()).width()
                    : FatClass.parse(row.fatClass()).width();
            thirds |= width == 1;
            whole |= width == 3;
        }
        if (thirds && whole) {
            problem(
                    TableSchema.BREAKDOWN_BY_CLASS,
                    column,
                    "",
                    "the breakdown of " + parent + ofWay(" in the way ")
                            + " mixes whole classes and thirds; use one kind");
        }
        return thirds;
    }

    private static void addNeeded(Set<Double> middles, int low, int high, boolean thirds) {
        for (int node = low; node <= high; node++) {
            int classNumber = (node + 2) / 3;
            middles.add(thirds ? node : 3.0 * classNumber - 1);
        }
    }

    private List<String> missing(
            Set<Cell> given,
            Set<Double> conformations,
            Set<Double> fats,
            SortedMap<Integer, Integer> cuts,
            boolean thirds,
            boolean fatThirds) {
        List<String> missing = new ArrayList<>();
        for (int cut : cuts.keySet()) {
            for (double c : conformations) {
                for (double f : fats) {
                    String code = definition.cuts().get(cut).code();
                    if (!given.contains(new Cell(c, f, code))) {
                        missing.add(code + " " + grade(c, f, thirds, fatThirds));
                    }
                }
            }
        }
        return missing;
    }

    /** The grade of a cell as a table by class writes it. */
    private static String grade(double c, double f, boolean thirds, boolean fatThirds) {
        Conformation conformation = Conformation.third((int) c);
        FatClass fat = FatClass.third((int) f);
        return (thirds ? conformation : conformation.classLetter()) + " " + (fatThirds ? fat : fat.classNumber());
    }

    private Breakdown interpolated(
            Map<Cell, Integer> rows,
            ClassAxis conformations,
            ClassAxis fats,
            SortedMap<Integer, Integer> rowByCut,
            boolean thirds,
            boolean fatThirds) {
        int children = rowByCut.size();
        // by child, conformation middle, fat middle
        double[][][] values = new double[children][conformations.size()][fats.size()];
        double[][][] deviations = new double[children][conformations.size()][fats.size()];
        int[][][] rowOf = new int[children][conformations.size()][fats.size()];
        for (int i = 0; i < conformations.size(); i++) {
            for (int j = 0; j < fats.size(); j++) {
                List<double[]> grams = new ArrayList<>();
                List<Integer> ofCell = new ArrayList<>();
                for (int cut : rowByCut.keySet()) {
                    Cell cell = new Cell(
                            conformations.middle(i),
                            fats.middle(j),
                            definition.cuts().get(cut).code());
                    Integer row = rows.get(cell);
                    if (row == null) {
                        throw new IllegalStateException("missing cells are a problem");
                    }
                    rowOf[grams.size()][i][j] = row;
                    ofCell.add(row);
                    deviations[grams.size()][i][j] =
                            definition.breakdownByClass().get(row).sdGPerKg() / 1000;
                    grams.add(
                            new double[] {definition.breakdownByClass().get(row).gPerKg()});
                }
                ColumnSum sum = sum(grams, 0, ofCell, TableSchema.BREAKDOWN_BY_CLASS, TableColumn.G_PER_KG, 1000);
                check(sum, 1, " at " + grade(conformations.middle(i), fats.middle(j), thirds, fatThirds));
                takeOff(grams, 0, sum);
                for (int k = 0; k < children; k++) {
                    values[k][i][j] = grams.get(k)[0] / 1000;
                }
            }
        }
        return breakdown(
                TableSchema.BREAKDOWN_BY_CLASS,
                rowByCut,
                rowsAtNearestMiddle(rowOf, conformations, fats),
                atNodes(values, conformations, fats),
                new double[children][nodes.size()],
                atNearestMiddle(deviations, conformations, fats),
                null,
                List.of());
    }

    private double[][] atNodes(double[][][] values, ClassAxis conformations, ClassAxis fats) {
        double[][] atNodes = new double[values.length][nodes.size()];
        for (int k = 0; k < values.length; k++) {
            double[][] ofChild = values[k];
            double[] ofNode = atNodes[k];
            nodes.forEach(node ->
                    ofNode[node] = bilinear(ofChild, conformations, fats, nodes.conformation(node), nodes.fat(node)));
        }
        return atNodes;
    }

    /** An SD holds throughout its class: between middles a set of SDs that close might not. */
    private double[][] atNearestMiddle(double[][][] values, ClassAxis conformations, ClassAxis fats) {
        double[][] atNodes = new double[values.length][nodes.size()];
        for (int k = 0; k < values.length; k++) {
            double[][] ofChild = values[k];
            double[] ofNode = atNodes[k];
            nodes.forEach(node -> ofNode[node] =
                    ofChild[conformations.nearest(nodes.conformation(node))][fats.nearest(nodes.fat(node))]);
        }
        return atNodes;
    }

    /** What a message points to: the row of the class that a node lies in. */
    private int[][] rowsAtNearestMiddle(int[][][] rowOf, ClassAxis conformations, ClassAxis fats) {
        int[][] atNodes = new int[rowOf.length][nodes.size()];
        for (int k = 0; k < rowOf.length; k++) {
            int[][] ofChild = rowOf[k];
            int[] ofNode = atNodes[k];
            nodes.forEach(node -> ofNode[node] =
                    ofChild[conformations.nearest(nodes.conformation(node))][fats.nearest(nodes.fat(node))]);
        }
        return atNodes;
    }

    private static double bilinear(double[][] values, ClassAxis conformations, ClassAxis fats, int c, int f) {
        int i = conformations.left(c);
        int j = fats.left(f);
        double x = conformations.weight(c);
        double y = fats.weight(f);
        int i1 = Math.min(i + 1, conformations.size() - 1);
        int j1 = Math.min(j + 1, fats.size() - 1);
        return (1 - x) * ((1 - y) * values[i][j] + y * values[i][j1])
                + x * ((1 - y) * values[i1][j] + y * values[i1][j1]);
    }
}
