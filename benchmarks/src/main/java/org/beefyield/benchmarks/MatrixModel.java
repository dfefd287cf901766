package org.beefyield.benchmarks;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.RealMatrix;
import org.beefyield.estimate.YieldColumn;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;
import org.jspecify.annotations.Nullable;

/**
 * A table as a matrix for each breakdown, the way somebody without this library would compute it: a design matrix of the
 * terms, times the coefficients, times the kilograms of the parent. It serves whole positions and rows for all
 * categories alone.
 */
public final class MatrixModel {
    /** Carcasses to a matrix. */
    public static final int CHUNK = 1024;

    private static final double G_PER_KG = 1000;

    /** One parent's children and their closed coefficients, terms by children, kg per kg. */
    record Step(String parent, List<String> children, RealMatrix coefficients) {}

    private final TableDefinition definition;
    private final List<Step> steps = new ArrayList<>();
    private final List<YieldColumn> columns;

    /**
     * Takes the coefficients of a table's rows for all categories, under a cutting specification, and closes them.
     *
     * @param estimator table and cutting specification
     */
    public MatrixModel(YieldEstimator estimator) {
        definition = estimator.table().definition();
        columns = estimator.columns().columns();
        Map<String, List<BreakdownRow>> byParent = new LinkedHashMap<>();
        for (BreakdownRow row : definition.breakdown()) {
            String way = estimator.specification().ways().getOrDefault(row.parent(), BreakdownRow.ANY);
            if (row.category().equals(BreakdownRow.ANY) && row.way().equals(way)) {
                byParent.computeIfAbsent(row.parent(), parent -> new ArrayList<>())
                        .add(row);
            }
        }
        byParent.forEach((parent, rows) ->
                steps.add(new Step(parent, rows.stream().map(BreakdownRow::cut).toList(), closed(rows))));
    }

    private RealMatrix closed(List<BreakdownRow> rows) {
        int terms = definition.coefficientColumns().size();
        double[][] coefficients = new double[terms][rows.size()];
        for (int k = 0; k < rows.size(); k++) {
            for (int j = 0; j < terms; j++) {
                coefficients[j][k] = rows.get(k).coefficients().get(j);
            }
        }
        double[] levels = coefficients[0].clone();
        double whole = sum(levels);
        for (int j = 0; j < terms; j++) {
            double excess = sum(coefficients[j]) - (j == 0 ? G_PER_KG : 0);
            for (int k = 0; k < rows.size(); k++) {
                coefficients[j][k] = (coefficients[j][k] - excess * levels[k] / whole) / G_PER_KG;
            }
        }
        return new Array2DRowRealMatrix(coefficients, false);
    }

    private static double sum(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum;
    }

    private RealMatrix design(Herd herd, int from, int to) {
        List<Term> terms = definition.terms();
        double[][] design = new double[to - from][4 + terms.size()];
        for (int i = from; i < to; i++) {
            double[] row = design[i - from];
            row[0] = 1;
            row[1] = herd.conformation[i] - definition.reference().conformation();
            row[2] = herd.fat[i] - definition.reference().fat();
            row[3] = (herd.coldKg[i] - definition.reference().weightKg()) / 100;
            for (int j = 0; j < terms.size(); j++) {
                if (!(terms.get(j) instanceof Term.Hinge hinge)) {
                    throw new IllegalArgumentException(terms.get(j) + " is no hinge");
                }
                int x = hinge.variable() == Variable.FAT ? herd.fat[i] : herd.conformation[i];
                int beyond = hinge.side() == Term.Side.BELOW ? hinge.knot() - x : x - hinge.knot();
                row[4 + j] = Math.max(0, beyond);
            }
        }
        return new Array2DRowRealMatrix(design, false);
    }

    /**
     * Kilograms of every cut of every level.
     *
     * @param herd carcasses
     * @param from first
     * @param to behind the last
     * @return a row for each carcass, a column for each of {@link org.beefyield.estimate.YieldColumns#columns}
     */
    public RealMatrix estimate(Herd herd, int from, int to) {
        RealMatrix design = design(herd, from, to);
        double[][] kg = new double[to - from][columns.size()];
        Map<String, double[]> standing = new LinkedHashMap<>();
        double[] cold = new double[to - from];
        System.arraycopy(herd.coldKg, from, cold, 0, cold.length);
        standing.put(BreakdownRow.ROOT, cold);
        for (String level : definition.levels()) {
            Map<String, double[]> next = new LinkedHashMap<>();
            for (Map.Entry<String, double[]> parent : standing.entrySet()) {
                Step step = due(parent.getKey(), level);
                if (step == null) {
                    add(next, parent.getKey(), parent.getValue());
                    continue;
                }
                double[][] shares = design.multiply(step.coefficients()).getData();
                for (int k = 0; k < step.children().size(); k++) {
                    double[] child = new double[cold.length];
                    for (int i = 0; i < child.length; i++) {
                        child[i] = parent.getValue()[i] * shares[i][k];
                    }
                    add(next, step.children().get(k), child);
                }
            }
            for (int k = 0; k < columns.size(); k++) {
                double[] its = next.get(columns.get(k).cut().code());
                for (int i = 0; its != null && columns.get(k).level().equals(level) && i < kg.length; i++) {
                    kg[i][k] = its[i];
                }
            }
            standing = next;
        }
        return new Array2DRowRealMatrix(kg, false);
    }

    /** The step that breaks a cut down on the way to a level, or null if it stays. */
    private @Nullable Step due(String parent, String level) {
        int above = definition.levels().indexOf(level) - 1;
        boolean isDue = above < 0
                || definition.cuts().stream()
                        .anyMatch(cut -> cut.code().equals(parent)
                                && cut.level().equals(definition.levels().get(above)));
        return isDue
                ? steps.stream()
                        .filter(step -> step.parent().equals(parent))
                        .findFirst()
                        .orElse(null)
                : null;
    }

    private static void add(Map<String, double[]> standing, String cut, double[] kg) {
        standing.merge(cut, kg, (a, b) -> {
            double[] sum = a.clone();
            for (int i = 0; i < sum.length; i++) {
                sum[i] += b[i];
            }
            return sum;
        });
    }

    /**
     * Writes the model down for those who compute it elsewhere: {@code model.csv} with the closed coefficients, kg per kg,
     * and {@code columns.csv} with what their results hold.
     *
     * @param folder folder for the files
     * @throws IOException if they can't be written
     */
    public void write(Path folder) throws IOException {
        List<String> lines =
                new ArrayList<>(List.of("level,parent,cut," + String.join(",", definition.coefficientColumns())));
        for (String level : definition.levels()) {
            for (Step step : steps) {
                boolean isDue = (step.parent().equals(BreakdownRow.ROOT)
                        ? definition.levels().indexOf(level) == 0
                        : due(step.parent(), level) != null);
                for (int k = 0; isDue && k < step.children().size(); k++) {
                    StringBuilder line = new StringBuilder(
                            level + "," + step.parent() + "," + step.children().get(k));
                    for (double value : step.coefficients().getColumn(k)) {
                        line.append(',').append(value);
                    }
                    lines.add(line.toString());
                }
            }
        }
        Files.write(folder.resolve("model.csv"), lines);
        List<String> names = new ArrayList<>(List.of("level,cut"));
        columns.forEach(column -> names.add(column.level() + "," + column.cut().code()));
        Files.write(folder.resolve("columns.csv"), names);
    }
}
