package org.beefyield.lp;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/** The fewest demands that can't be met together, and by how much. A demand is a row whose bound below may be given up. */
public final class Conflict {
    private Conflict() {}

    /**
     * What is missing of a demand of the conflict when as little as possible is missing of all of them together.
     *
     * @param demand name of the row
     * @param asked the bound below
     * @param reached what the row is then
     */
    public record Shortfall(String demand, double asked, double reached) {
        /** Checks that there is a name. */
        public Shortfall {
            Objects.requireNonNull(demand, "demand");
        }

        /**
         * How much is missing.
         *
         * @return 0 or more
         */
        public double missing() {
            return Math.max(0, asked - reached);
        }
    }

    /**
     * Finds the fewest demands that can't be met together.
     *
     * @param solver solver
     * @param program program; its objective doesn't matter
     * @param demands names of rows with a bound below
     * @return nothing if all can be met together
     * @throws IllegalArgumentException if there is no such row or it has no bound below
     * @throws UnsolvedProgramException if the solver ends without an answer that is true
     */
    public static Optional<Conflict> of(LinearSolver solver, LinearProgram program, Collection<String> demands) {
        throw new UnsupportedOperationException();
    }

    /**
     * Finds the fewest demands that can't be met together.
     *
     * @param solver solver
     * @param program program; its objective doesn't matter
     * @param weights names of rows with a bound below, and what one unit missing of each counts, above 0
     * @param solves how many programs may be solved to make the set smaller, 0 or more
     * @return nothing if all can be met together
     * @throws IllegalArgumentException if there is no such row, it has no bound below, or a weight isn't above 0
     * @throws UnsolvedProgramException if the solver ends without an answer that is true
     */
    public static Optional<Conflict> of(
            LinearSolver solver, LinearProgram program, Map<String, Double> weights, int solves) {
        throw new UnsupportedOperationException();
    }

    /**
     * The demands that conflict, any of which left out all others of them can be met.
     *
     * @return with what is missing of each, in the order of the rows; none if the program can't be solved without any demand
     */
    public List<Shortfall> shortfalls() {
        throw new UnsupportedOperationException();
    }

    /**
     * Whether no fewer demands conflict.
     *
     * @return false if the limit was reached: it is then the smallest found, from which none can be left out
     */
    public boolean isSmallest() {
        throw new UnsupportedOperationException();
    }
}
