package org.beefyield.data.solver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.beefyield.lp.CheckedSolver;
import org.beefyield.lp.LinearProgram;
import org.beefyield.lp.LinearSolution;
import org.beefyield.lp.LinearSolver;
import org.beefyield.lp.SolutionStatus;

/** Small programs of whole numbers against all their corners. */
class OjAlgoSolverProperties {
    private static final double NONE = Double.POSITIVE_INFINITY;
    /** Further out than any corner of such programs. */
    private static final double FAR = 1e6;

    private static final double MARGIN = 1e-6;
    private static final LinearSolver SOLVER = CheckedSolver.of(OjAlgoSolver.create());

    @Property(tries = 400)
    void theMaximumIsThatOfTheBestCorner(@ForAll long seed) {
        LinearProgram program = random(new Random(seed));
        double near = bestCorner(program, FAR);
        double far = bestCorner(program, 2 * FAR);
        LinearSolution solution = SOLVER.solve(program);
        if (Double.isNaN(near)) {
            assertThat(solution.status()).isEqualTo(SolutionStatus.INFEASIBLE);
        } else if (far > near + 1) {
            assertThat(solution.status()).isEqualTo(SolutionStatus.UNBOUNDED);
        } else {
            assertThat(solution.objective()).isCloseTo(near, within(MARGIN));
        }
    }

    private static LinearProgram random(Random random) {
        LinearProgram.Builder builder = LinearProgram.builder();
        int variables = 1 + random.nextInt(3);
        for (int variable = 0; variable < variables; variable++) {
            double low = random.nextInt(6) - 3;
            double high = low + random.nextInt(7);
            builder.variable(
                    "x" + variable,
                    random.nextInt(3) > 0 ? low : -NONE,
                    random.nextInt(3) > 0 ? high : NONE,
                    random.nextInt(9) - 4);
        }
        int rows = random.nextInt(5);
        for (int row = 0; row < rows; row++) {
            double low = random.nextInt(11) - 5;
            double high = low + random.nextInt(8);
            int kind = random.nextInt(4);
            int number = builder.row("r" + row, kind == 0 ? -NONE : low, kind == 1 ? NONE : kind == 2 ? low : high);
            for (int variable = 0; variable < variables; variable++) {
                builder.add(number, variable, random.nextInt(9) - 4);
            }
        }
        return builder.build();
    }

    /** Terms that are exactly a bound. */
    @SuppressWarnings("ArrayRecordComponent")
    private record Plane(double[] terms, double bound) {
        Plane {
            terms = terms.clone();
        }
    }

    /** The best of all points where as many bounds meet as there are variables, with bounds far out where there are none. */
    private static double bestCorner(LinearProgram program, double far) {
        List<Plane> planes = new ArrayList<>();
        int size = program.variables();
        for (int variable = 0; variable < size; variable++) {
            double[] terms = new double[size];
            terms[variable] = 1;
            planes.add(new Plane(terms, Math.max(-far, program.low(variable))));
            planes.add(new Plane(terms, Math.min(far, program.high(variable))));
        }
        for (int row = 0; row < program.rows(); row++) {
            double[] terms = new double[size];
            for (int term = 0; term < program.terms(row); term++) {
                terms[program.termVariable(row, term)] = program.termCoefficient(row, term);
            }
            for (double bound : new double[] {program.rowLow(row), program.rowHigh(row)}) {
                if (Double.isFinite(bound)) {
                    planes.add(new Plane(terms, bound));
                }
            }
        }
        return best(program, far, planes, 0, new ArrayList<>(), Double.NaN);
    }

    private static double best(
            LinearProgram program, double far, List<Plane> planes, int from, List<Plane> chosen, double so) {
        if (chosen.size() == program.variables()) {
            double[] corner = corner(chosen);
            return corner != null && isInside(program, far, corner)
                    ? Math.max(Double.isNaN(so) ? -NONE : so, program.objectiveAt(corner))
                    : so;
        }
        double best = so;
        for (int plane = from; plane < planes.size(); plane++) {
            chosen.add(planes.get(plane));
            best = best(program, far, planes, plane + 1, chosen, best);
            chosen.remove(chosen.size() - 1);
        }
        return best;
    }

    private static boolean isInside(LinearProgram program, double far, double[] corner) {
        for (int variable = 0; variable < corner.length; variable++) {
            if (corner[variable] < Math.max(-far, program.low(variable)) - MARGIN
                    || corner[variable] > Math.min(far, program.high(variable)) + MARGIN) {
                return false;
            }
        }
        for (int row = 0; row < program.rows(); row++) {
            double sum = program.rowAt(row, corner);
            if (sum < program.rowLow(row) - MARGIN || sum > program.rowHigh(row) + MARGIN) {
                return false;
            }
        }
        return true;
    }

    /** By elimination; null where planes don't meet in one point. */
    private static double[] corner(List<Plane> planes) {
        int size = planes.size();
        double[][] rows = new double[size][];
        for (int row = 0; row < size; row++) {
            rows[row] = java.util.Arrays.copyOf(planes.get(row).terms(), size + 1);
            rows[row][size] = planes.get(row).bound();
        }
        for (int column = 0; column < size; column++) {
            int pivot = column;
            for (int row = column; row < size; row++) {
                if (Math.abs(rows[row][column]) > Math.abs(rows[pivot][column])) {
                    pivot = row;
                }
            }
            if (Math.abs(rows[pivot][column]) < 1e-9) {
                return null;
            }
            double[] swapped = rows[column];
            rows[column] = rows[pivot];
            rows[pivot] = swapped;
            for (int row = 0; row < size; row++) {
                double times = rows[row][column] / rows[column][column];
                for (int other = column; row != column && other <= size; other++) {
                    rows[row][other] -= times * rows[column][other];
                }
            }
        }
        double[] corner = new double[size];
        for (int column = 0; column < size; column++) {
            corner[column] = rows[column][size] / rows[column][column];
        }
        return corner;
    }
}
