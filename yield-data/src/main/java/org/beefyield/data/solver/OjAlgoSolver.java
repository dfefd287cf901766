package org.beefyield.data.solver;

import java.util.Objects;
import org.beefyield.lp.LinearProgram;
import org.beefyield.lp.LinearSolution;
import org.beefyield.lp.LinearSolver;
import org.beefyield.lp.UnsolvedProgramException;

/**
 * Solves linear programs with ojAlgo, which is optional: a caller who wants it adds {@code org.ojalgo:ojalgo}, pure Java under the
 * MIT licence. Two of its simplex methods are tried, the one first that is fast for such programs, and the other if that ends
 * without a maximum that stands a check.
 */
public final class OjAlgoSolver implements LinearSolver {
    private static final String MISSING =
            "ojAlgo is missing: add org.ojalgo:ojalgo, 57.0.0 or newer, to the class path, or on the"
                    + " module path the module ojalgo";

    private OjAlgoSolver() {}

    /**
     * A solver, if ojAlgo is there.
     *
     * @return solver
     * @throws IllegalStateException if ojAlgo is missing; the message says what to add
     */
    public static OjAlgoSolver create() {
        try {
            OjAlgoModel.require();
        } catch (NoClassDefFoundError e) {
            throw new IllegalStateException(MISSING, e);
        }
        return new OjAlgoSolver();
    }

    /**
     * Finds the maximum of a program.
     *
     * @param program program
     * @return a solution with multipliers, or that there is none
     * @throws UnsolvedProgramException if ojAlgo ends without an answer
     */
    @Override
    public LinearSolution solve(LinearProgram program) {
        return OjAlgoModel.solve(Objects.requireNonNull(program, "program"));
    }
}
