package org.beefyield.lp;

/** Finds the maximum of linear programs. What implements it can be shared between threads. */
@FunctionalInterface
public interface LinearSolver {
    /**
     * Finds the maximum of a program.
     *
     * @param program program
     * @return a solution, or that there is none
     * @throws UnsolvedProgramException if the solver ends without an answer
     */
    LinearSolution solve(LinearProgram program);
}
