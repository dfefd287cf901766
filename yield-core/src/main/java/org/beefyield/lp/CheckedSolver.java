package org.beefyield.lp;

import java.util.Objects;

/**
 * A solver whose every answer is worked out anew: a maximum by {@link OptimumCheck}, that there is none by a second program that
 * has a maximum whatever the first one is.
 */
public final class CheckedSolver implements LinearSolver {
    private final LinearSolver solver;

    private CheckedSolver(LinearSolver solver) {
        this.solver = solver;
    }

    /**
     * Checks what a solver says.
     *
     * @param solver solver
     * @return a solver that says nothing but what is true
     */
    public static CheckedSolver of(LinearSolver solver) {
        Objects.requireNonNull(solver, "solver");
        return solver instanceof CheckedSolver checked ? checked : new CheckedSolver(solver);
    }

    /**
     * Finds the maximum of a program.
     *
     * @param program program
     * @return a solution that is true within {@link OptimumCheck#TOLERANCE}
     * @throws UnsolvedProgramException if the solver ends without an answer, or with one that isn't true
     */
    @Override
    public LinearSolution solve(LinearProgram program) {
        LinearSolution solution = solver.solve(Objects.requireNonNull(program, "program"));
        return solution.isOptimal() ? checked(solution) : withoutMaximum(program, solution);
    }

    private static LinearSolution checked(LinearSolution solution) {
        if (solution.multipliers().isEmpty()) {
            throw new UnsolvedProgramException(
                    "the solver gave no multipliers, so that nothing tells whether " + solution + " is a maximum");
        }
        OptimumCheck.of(solution).require();
        return solution;
    }

    /** Which of both a program without a maximum is, whatever the solver says. */
    private LinearSolution withoutMaximum(LinearProgram program, LinearSolution said) {
        if (-maximum(Elastic.ofAllRows(program)) > Elastic.NOTHING) {
            return LinearSolution.infeasible(program);
        }
        if (maximum(Elastic.ray(program)) > Elastic.NOTHING) {
            return LinearSolution.unbounded(program);
        }
        throw new UnsolvedProgramException("the solver says the program is " + said + ", but it has a maximum");
    }

    private double maximum(LinearProgram program) {
        LinearSolution solution = solver.solve(program);
        if (!solution.isOptimal()) {
            throw new UnsolvedProgramException("the solver says a program is " + solution + " that has a maximum");
        }
        return checked(solution).objective();
    }
}
