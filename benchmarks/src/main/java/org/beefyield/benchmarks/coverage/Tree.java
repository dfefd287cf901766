package org.beefyield.benchmarks.coverage;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.TableDefinition;

/** All breakdowns of one category in one manner of cutting, read from a definition by rules of its own. */
public final class Tree {
    /** Numbers texts in the order in which they come. */
    static final class Numbering {
        private final Map<String, Integer> numbers = new HashMap<>();

        int of(String... text) {
            return numbers.computeIfAbsent(String.join("|", text), any -> numbers.size());
        }

        int size() {
            return numbers.size();
        }
    }

    /** An error of the coefficients of one column of a breakdown. */
    private record CoefficientError(int column, int from, int children, Closing closing) {}

    /** One breakdown; its children stand side by side among those of all breakdowns. */
    private static final class Split {
        private final int parent;
        private final int from;
        private final int[] cuts;
        private final double[] leanFat;
        private final Closing residual;

        Split(int parent, int from, int[] cuts, double[] leanFat, Closing residual) {
            this.parent = parent;
            this.from = from;
            this.cuts = cuts;
            this.leanFat = leanFat;
            this.residual = residual;
        }
    }

    private final TableDefinition definition;
    private final Category category;
    private final Map<String, String> ways;
    private final List<Cut> cuts;
    private final List<List<Split>> splits = new ArrayList<>();
    private final List<List<Integer>> passing = new ArrayList<>();
    /** By child, fraction of the parent by column. */
    private final List<double[]> coefficients = new ArrayList<>();

    private final List<CoefficientError> coefficientErrors = new ArrayList<>();
    private final Map<SharedBy, List<Map.Entry<Integer, Closing>>> shared = new TreeMap<>();

    /**
     * Reads the breakdowns.
     *
     * @param ways the way of each cut that is cut in ways
     * @param errors numbers the independent errors of carcasses, lots, runs and halls
     * @param ofTable numbers the independent errors of coefficients
     */
    Tree(TableDefinition definition, Category category, Map<String, String> ways, Numbering errors, Numbering ofTable) {
        this.definition = definition;
        this.category = category;
        this.ways = ways;
        this.cuts = definition.cuts();
        if (!definition.breakdownByClass().isEmpty()
                || !definition.covariances().stream().allMatch(Tree::isForAllCategories)) {
            throw new IllegalArgumentException("the study draws tables of coefficients, whose covariances are those of"
                    + " carcasses, for all categories and ways");
        }
        boolean[] present = new boolean[cuts.size()];
        for (int level = 0; level < definition.levels().size(); level++) {
            List<Split> atLevel = new ArrayList<>();
            List<Integer> pass = new ArrayList<>();
            boolean[] next = new boolean[cuts.size()];
            if (level == 0) {
                atLevel.add(split(-1, BreakdownRow.ROOT, errors, ofTable));
            }
            for (int i = 0; i < cuts.size(); i++) {
                if (present[i]) {
                    boolean due = definition.levels().indexOf(cuts.get(i).level()) == level - 1;
                    if (due && !rows(cuts.get(i).code()).isEmpty()) {
                        atLevel.add(split(i, cuts.get(i).code(), errors, ofTable));
                    } else {
                        pass.add(i);
                        next[i] = true;
                    }
                }
            }
            atLevel.forEach(split -> Arrays.stream(split.cuts).forEach(cut -> next[cut] = true));
            splits.add(atLevel);
            passing.add(pass);
            present = next;
        }
    }

    private static boolean isForAllCategories(CovarianceRow row) {
        return row.term().isEmpty()
                && row.category().equals(BreakdownRow.ANY)
                && row.way().equals(BreakdownRow.ANY);
    }

    /** The ways of a cutting specification. */
    public static Map<String, String> ways(TableDefinition definition, String specification) {
        Map<String, String> ways = new LinkedHashMap<>();
        definition.specifications().stream()
                .filter(row -> row.specification().equals(specification))
                .forEach(row -> ways.put(row.parent(), row.way()));
        return ways;
    }

    static double fat(Cut cut) {
        return Objects.requireNonNull(cut.fatPct(), cut.code()) / 100;
    }

    List<Cut> cuts() {
        return cuts;
    }

    int levels() {
        return splits.size();
    }

    /** Where a cut of a level stands. */
    int at(int level, int cut) {
        return level * cuts.size() + cut;
    }

    /** Cuts of all levels. */
    int size() {
        return levels() * cuts.size();
    }

    /** Children of all breakdowns. */
    int children() {
        return coefficients.size();
    }

    private String way(String parent) {
        return ways.getOrDefault(parent, BreakdownRow.ANY);
    }

    /** The most specific row of each child, in the order of the cuts. */
    private List<BreakdownRow> rows(String parent) {
        Map<String, BreakdownRow> best = new HashMap<>();
        for (BreakdownRow row : definition.breakdown()) {
            boolean ofCategory =
                    row.category().equals(BreakdownRow.ANY) || row.category().contains(category.letter());
            boolean ofWay = row.way().equals(BreakdownRow.ANY) || row.way().equals(way(parent));
            if (row.parent().equals(parent) && ofCategory && ofWay) {
                best.merge(row.cut(), row, (a, b) -> specificity(a) >= specificity(b) ? a : b);
            }
        }
        return best.values().stream()
                .sorted(Comparator.comparingInt(row -> index(row.cut())))
                .toList();
    }

    private static int specificity(BreakdownRow row) {
        return (row.category().equals(BreakdownRow.ANY) ? 0 : 1) + (row.way().equals(BreakdownRow.ANY) ? 0 : 1);
    }

    private int index(String cut) {
        for (int i = 0; i < cuts.size(); i++) {
            if (cuts.get(i).code().equals(cut)) {
                return i;
            }
        }
        throw new IllegalArgumentException("no cut " + cut);
    }

    private Split split(int parent, String code, Numbering errors, Numbering ofTable) {
        List<BreakdownRow> rows = rows(code);
        int from = coefficients.size();
        rows.forEach(row -> coefficients.add(
                row.coefficients().stream().mapToDouble(gPerKg -> gPerKg / 1000).toArray()));
        close(from);
        int[] independent = rows.stream()
                .mapToInt(row -> errors.of(code, way(code), row.cut()))
                .toArray();
        int common = errors.of(code, way(code), "");
        for (SharedBy by : SharedBy.values()) {
            Closing closing = Closing.of(
                    sds(rows, row -> Objects.requireNonNullElse(row.shared().of(by), 0.0)), independent, common);
            if (!closing.isZero()) {
                shared.computeIfAbsent(by, any -> new ArrayList<>()).add(Map.entry(from, closing));
            }
        }
        for (int column = 0; column < definition.coefficientColumns().size(); column++) {
            addErrors(code, rows, from, column, ofTable);
        }
        int[] children = rows.stream().mapToInt(row -> index(row.cut())).toArray();
        double[] leanFat = Arrays.stream(children)
                .mapToDouble(child -> cuts.get(child).kind() == CutKind.LEAN_TRIM ? leanFat(parent, child) : 0)
                .toArray();
        return new Split(parent, from, children, leanFat, residual(code, rows, independent, common));
    }

    private Closing residual(String parent, List<BreakdownRow> rows, int[] independent, int common) {
        double[][] covariance = new double[rows.size()][rows.size()];
        boolean stated = false;
        for (CovarianceRow row : definition.covariances()) {
            if (row.parent().equals(parent)) {
                List<String> children = rows.stream().map(BreakdownRow::cut).toList();
                int k = children.indexOf(row.cut());
                int m = children.indexOf(row.otherCut());
                covariance[k][m] = row.value() / 1e6;
                covariance[m][k] = row.value() / 1e6;
                stated = true;
            }
        }
        return stated
                ? Closing.ofCovariance(covariance, independent)
                : Closing.of(sds(rows, BreakdownRow::sdGPerKg), independent, common);
    }

    private double leanFat(int parent, int child) {
        return fat(parent >= 0 && cuts.get(parent).fatPct() != null ? cuts.get(parent) : cuts.get(child));
    }

    private static double[] sds(List<BreakdownRow> rows, ToDoubleFunction<BreakdownRow> gPerKg) {
        return rows.stream().mapToDouble(gPerKg).map(sd -> sd / 1000).toArray();
    }

    /** What rounding makes a column of a breakdown add up to too much is taken off in proportion to the level. */
    private void close(int from) {
        List<double[]> children = coefficients.subList(from, coefficients.size());
        double levels = children.stream().mapToDouble(child -> child[0]).sum();
        double[] parts =
                children.stream().mapToDouble(child -> child[0] / levels).toArray();
        for (int column = 0; column < children.get(0).length; column++) {
            int j = column;
            double excess = children.stream().mapToDouble(child -> child[j]).sum() - (j == 0 ? 1 : 0);
            for (int k = 0; k < parts.length; k++) {
                children.get(k)[j] -= excess * parts[k];
            }
        }
    }

    private void addErrors(String parent, List<BreakdownRow> rows, int from, int column, Numbering ofTable) {
        String term = definition.coefficientColumns().get(column);
        Map<String, double[]> byName = new TreeMap<>();
        for (CoefficientNote note : definition.coefficientNotes()) {
            Double standardError = note.standardError();
            for (int k = 0; k < rows.size() && standardError != null; k++) {
                BreakdownRow row = rows.get(k);
                if (List.of(note.category(), note.way(), note.parent(), note.cut(), note.term())
                        .equals(List.of(row.category(), row.way(), row.parent(), row.cut(), term))) {
                    byName.computeIfAbsent(note.errorId(), any -> new double[rows.size()])[k] = standardError / 1000;
                }
            }
        }
        byName.forEach((name, standardErrors) -> {
            String draw = name;
            if (name.isEmpty()) {
                draw = String.join("|", parent, way(parent), term);
                for (BreakdownRow row : rows) {
                    draw += column == 0 ? "|" + row.category() : "";
                }
            }
            String drawn = draw;
            Closing closing = Closing.of(
                    standardErrors,
                    rows.stream().mapToInt(row -> ofTable.of(drawn, row.cut())).toArray(),
                    ofTable.of(drawn, ""));
            coefficientErrors.add(new CoefficientError(column, from, rows.size(), closing));
        });
    }

    /** All coefficients as one draw of a table has them: by child and column. */
    double[][] coefficients(double[] ofTable, double factor) {
        double[][] drawn = coefficients.stream().map(double[]::clone).toArray(double[][]::new);
        for (CoefficientError error : coefficientErrors) {
            double[] column = new double[error.children()];
            error.closing().add(ofTable, column, 0);
            for (int k = 0; k < column.length; k++) {
                drawn[error.from() + k][error.column()] += factor * column[k];
            }
        }
        return drawn;
    }

    /** What a lot, a run or a hall makes all shares err by: by child. */
    double[] sharedErrors(SharedBy by, double[] drawn, double factor) {
        double[] errors = new double[children()];
        shared.getOrDefault(by, List.of()).forEach(split -> split.getValue().add(drawn, errors, split.getKey()));
        for (int k = 0; k < errors.length; k++) {
            errors[k] *= factor;
        }
        return errors;
    }

    /** Adds what single carcasses differ by: by child. */
    void addResiduals(double[] drawn, double[] shares) {
        for (List<Split> atLevel : splits) {
            for (Split split : atLevel) {
                split.residual.add(drawn, shares, split.from);
            }
        }
    }

    /**
     * Breaks a carcass down.
     *
     * @param weightKg its true weight
     * @param shares by child, fraction of its parent
     * @param sum kg by level and cut, and the fat in the lean trim behind them, to which it is added
     * @param scratch as long as that
     */
    void addKg(double weightKg, double[] shares, double[] sum, double[] scratch) {
        Arrays.fill(scratch, 0);
        for (int level = 0; level < levels(); level++) {
            for (int cut : passing.get(level)) {
                scratch[at(level, cut)] += scratch[at(level - 1, cut)];
            }
            for (Split split : splits.get(level)) {
                double parentKg = split.parent < 0 ? weightKg : scratch[at(level - 1, split.parent)];
                double whole = 0;
                for (int k = 0; k < split.cuts.length; k++) {
                    whole += Math.max(0, shares[split.from + k]);
                }
                for (int k = 0; k < split.cuts.length; k++) {
                    // nothing weighs less than 0, and what comes out is what goes in
                    double kg = parentKg * Math.max(0, shares[split.from + k]) / whole;
                    scratch[at(level, split.cuts[k])] += kg;
                    scratch[size()] += kg * split.leanFat[k];
                }
            }
        }
        for (int i = 0; i < sum.length; i++) {
            sum[i] += scratch[i];
        }
    }
}
