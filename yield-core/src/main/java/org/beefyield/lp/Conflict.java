package org.beefyield.lp;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * The fewest demands that can't be met together, and by how much. A demand is a row whose bound below may be given up.
 *
 * <p>The fewest are those that hit every set without which all others can be met; such sets are looked for as long as one is not
 * hit (implicit hitting sets). What is missing of a demand by a millionth or less counts as met.
 */
public final class Conflict {
    /** How many programs are solved to make a set smaller if nothing else is said. */
    public static final int SOLVES = 100;

    private final List<Shortfall> shortfalls;
    private final boolean smallest;

    private Conflict(List<Shortfall> shortfalls, boolean smallest) {
        this.shortfalls = shortfalls;
        this.smallest = smallest;
    }

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
     * Finds the fewest demands that can't be met together; one unit missing counts the same of each, and {@link #SOLVES} programs
     * at most are solved to make the set smaller.
     *
     * @param solver solver, whose answers are checked
     * @param program program; its objective doesn't matter
     * @param demands names of rows with a bound below
     * @return nothing if all can be met together
     * @throws IllegalArgumentException if there is no such row or it has no bound below
     * @throws UnsolvedProgramException if the solver ends without an answer that is true
     */
    public static Optional<Conflict> of(LinearSolver solver, LinearProgram program, Collection<String> demands) {
        Checks.noNullIn(demands, "demands");
        Map<String, Double> weights = new LinkedHashMap<>();
        demands.forEach(demand -> weights.put(demand, 1.0));
        return of(solver, program, weights, SOLVES);
    }

    /**
     * Finds the fewest demands that can't be met together.
     *
     * @param solver solver, whose answers are checked
     * @param program program; its objective doesn't matter
     * @param weights names of rows with a bound below, and what one unit missing of each counts, above 0
     * @param solves how many programs may be solved to make the set smaller once none can be left out of it, 0 or more
     * @return nothing if all can be met together
     * @throws IllegalArgumentException if there is no such row, it has no bound below, or a weight isn't above 0
     * @throws UnsolvedProgramException if the solver ends without an answer that is true
     */
    public static Optional<Conflict> of(
            LinearSolver solver, LinearProgram program, Map<String, Double> weights, int solves) {
        Objects.requireNonNull(program, "program");
        Checks.noNullIn(weights, "weights");
        if (solves < 0) {
            throw new IllegalArgumentException("solves: " + solves + " is below 0");
        }
        TreeMap<Integer, Double> byRow = new TreeMap<>();
        weights.forEach((demand, weight) -> {
            int row = program.row(demand);
            if (!Double.isFinite(program.rowLow(row))) {
                throw new IllegalArgumentException("row \"" + demand + "\" has no bound below that could be given up");
            }
            if (!(weight > 0 && Double.isFinite(weight))) {
                throw new IllegalArgumentException(
                        "weight of \"" + demand + "\": " + Numbers.exact(weight) + " is not a finite number above 0");
            }
            byRow.put(row, weight);
        });
        return of(new Demands(CheckedSolver.of(solver), program, byRow), solves);
    }

    private static Optional<Conflict> of(Demands demands, int solves) {
        Demands.Try all = demands.attempt(demands.all());
        if (all.isMet()) {
            return Optional.empty();
        }
        if (all.isImpossible()) {
            return Optional.of(new Conflict(List.of(), true));
        }
        SmallestSet found = SmallestSet.of(demands, all, solves);
        double[] reached = demands.reached(found.set());
        List<Shortfall> shortfalls = found.set().stream()
                .mapToObj(demand -> new Shortfall(demands.name(demand), demands.asked(demand), reached[demand]))
                .toList();
        return Optional.of(new Conflict(shortfalls, found.isProven()));
    }

    /**
     * The demands that conflict, any of which left out all others of them can be met.
     *
     * @return with what is missing of each, in the order of the rows; none if the program can't be solved without any demand
     */
    public List<Shortfall> shortfalls() {
        return shortfalls;
    }

    /**
     * Whether no fewer demands conflict.
     *
     * @return false if the limit was reached: it is then the smallest found, from which none can be left out
     */
    public boolean isSmallest() {
        return smallest;
    }

    @Override
    public String toString() {
        return "conflict of " + Numbers.counted(shortfalls.size(), "demand", "demands")
                + (smallest ? "" : ", the smallest found");
    }
}
