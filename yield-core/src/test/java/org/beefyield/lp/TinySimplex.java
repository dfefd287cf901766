package org.beefyield.lp;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** A solver for tests: the simplex method in its plainest form, on a dense tableau with Bland's rule. */
public final class TinySimplex implements LinearSolver {
    private static final double ZERO = 1e-9;

    /** A part of a variable, which is never negative: its value is the sum of scale times part plus offset. */
    private record Part(int variable, double scale) {}

    /** Terms that are at most a bound, and the row of the program that says so with a sign, -1 if it is a variable's bound. */
    private static final class AtMost {
        private final double[] terms;
        private final double bound;
        private final int row;
        private final int sign;

        AtMost(double[] terms, double bound, int row, int sign) {
            this.terms = terms.clone();
            this.bound = bound;
            this.row = row;
            this.sign = sign;
        }
    }

    @Override
    public LinearSolution solve(LinearProgram program) {
        List<Part> parts = new ArrayList<>();
        double[] offsets = new double[program.variables()];
        List<AtMost> limits = new ArrayList<>();
        for (int variable = 0; variable < program.variables(); variable++) {
            double low = program.low(variable);
            double high = program.high(variable);
            if (Double.isFinite(low)) {
                offsets[variable] = low;
                parts.add(new Part(variable, 1));
            } else if (Double.isFinite(high)) {
                offsets[variable] = high;
                parts.add(new Part(variable, -1));
            } else {
                parts.add(new Part(variable, 1));
                parts.add(new Part(variable, -1));
            }
        }
        for (int variable = 0; variable < program.variables(); variable++) {
            if (Double.isFinite(program.low(variable)) && Double.isFinite(program.high(variable))) {
                double[] terms = new double[program.variables()];
                terms[variable] = 1;
                limits.add(new AtMost(terms, program.high(variable), -1, 1));
            }
        }
        for (int row = 0; row < program.rows(); row++) {
            double[] terms = new double[program.variables()];
            for (int term = 0; term < program.terms(row); term++) {
                terms[program.termVariable(row, term)] = program.termCoefficient(row, term);
            }
            if (Double.isFinite(program.rowHigh(row))) {
                limits.add(new AtMost(terms, program.rowHigh(row), row, 1));
            }
            if (Double.isFinite(program.rowLow(row))) {
                limits.add(
                        new AtMost(Arrays.stream(terms).map(term -> -term).toArray(), -program.rowLow(row), row, -1));
            }
        }
        return new Tableau(program, parts, offsets, limits).solution();
    }

    /** Rows of limits with a slack each, and one more variable that meets them all while it isn't 0. */
    private static final class Tableau {
        private final LinearProgram program;
        private final List<Part> parts;
        private final double[] offsets;
        private final List<AtMost> limits;
        private final double[][] rows;
        private final int[] basis;
        private final int slack;
        private final int extra;

        Tableau(LinearProgram program, List<Part> parts, double[] offsets, List<AtMost> limits) {
            this.program = program;
            this.parts = parts;
            this.offsets = offsets;
            this.limits = limits;
            slack = parts.size();
            extra = slack + limits.size();
            rows = new double[limits.size() + 1][extra + 2];
            basis = new int[limits.size()];
            for (int row = 0; row < limits.size(); row++) {
                double right = limits.get(row).bound;
                for (int variable = 0; variable < offsets.length; variable++) {
                    right -= limits.get(row).terms[variable] * offsets[variable];
                }
                for (int part = 0; part < slack; part++) {
                    rows[row][part] = parts.get(part).scale()
                            * limits.get(row).terms[parts.get(part).variable()];
                }
                rows[row][slack + row] = 1;
                rows[row][extra] = -1;
                rows[row][extra + 1] = right;
                basis[row] = slack + row;
            }
        }

        LinearSolution solution() {
            if (!feasible()) {
                return LinearSolution.infeasible(program);
            }
            double[] costs = new double[extra + 2];
            for (int part = 0; part < slack; part++) {
                costs[part] = -parts.get(part).scale()
                        * program.objective(parts.get(part).variable());
            }
            objective(costs);
            if (!improve(extra)) {
                return LinearSolution.unbounded(program);
            }
            double[] values = offsets.clone();
            for (int row = 0; row < basis.length; row++) {
                if (basis[row] < slack) {
                    Part part = parts.get(basis[row]);
                    values[part.variable()] += part.scale() * rows[row][extra + 1];
                }
            }
            double[] multipliers = new double[program.rows()];
            for (int limit = 0; limit < limits.size(); limit++) {
                AtMost atMost = limits.get(limit);
                if (atMost.row >= 0) {
                    multipliers[atMost.row] += atMost.sign * rows[limits.size()][slack + limit];
                }
            }
            return LinearSolution.optimal(program, values, multipliers);
        }

        private boolean feasible() {
            int worst = -1;
            for (int row = 0; row < basis.length; row++) {
                if (rows[row][extra + 1] < (worst < 0 ? -ZERO : rows[worst][extra + 1])) {
                    worst = row;
                }
            }
            if (worst < 0) {
                return true;
            }
            double[] costs = new double[extra + 2];
            costs[extra] = 1;
            objective(costs);
            pivot(worst, extra);
            improve(extra + 1);
            if (rows[basis.length][extra + 1] < -ZERO) {
                return false;
            }
            for (int row = 0; row < basis.length; row++) {
                if (basis[row] == extra) {
                    for (int column = 0; column < extra; column++) {
                        if (Math.abs(rows[row][column]) > ZERO) {
                            pivot(row, column);
                            break;
                        }
                    }
                }
            }
            return true;
        }

        private void objective(double[] costs) {
            rows[basis.length] = costs;
            for (int row = 0; row < basis.length; row++) {
                subtract(basis.length, row, costs[basis[row]]);
            }
        }

        private boolean improve(int columns) {
            while (true) {
                int entering = 0;
                while (entering < columns && rows[basis.length][entering] >= -ZERO) {
                    entering++;
                }
                if (entering == columns) {
                    return true;
                }
                int leaving = -1;
                double least = Double.POSITIVE_INFINITY;
                for (int row = 0; row < basis.length; row++) {
                    if (rows[row][entering] > ZERO) {
                        double ratio = rows[row][extra + 1] / rows[row][entering];
                        if (ratio < least - ZERO || (ratio <= least + ZERO && basis[row] < basis[leaving])) {
                            least = Math.min(least, ratio);
                            leaving = row;
                        }
                    }
                }
                if (leaving < 0) {
                    return false;
                }
                pivot(leaving, entering);
            }
        }

        private void pivot(int row, int column) {
            double by = rows[row][column];
            for (int other = 0; other < rows[row].length; other++) {
                rows[row][other] /= by;
            }
            for (int other = 0; other < rows.length; other++) {
                if (other != row) {
                    subtract(other, row, rows[other][column]);
                }
            }
            basis[row] = column;
        }

        private void subtract(int from, int row, double times) {
            if (times != 0) {
                for (int column = 0; column < rows[from].length; column++) {
                    rows[from][column] -= times * rows[row][column];
                }
            }
        }
    }
}
