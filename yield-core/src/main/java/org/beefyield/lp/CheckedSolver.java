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
        if (solution.isOptimal()) {
            OptimumCheck.of(solution).require();
        }
        return solution;
    }
}
