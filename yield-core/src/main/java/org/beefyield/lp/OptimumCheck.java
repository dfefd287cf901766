package org.beefyield.lp;

import java.util.Objects;
import org.beefyield.text.Numbers;

/**
 * How far values and multipliers are from being a maximum, worked out from the program and from them alone. The values must keep
 * all bounds and rows; the multipliers then give a figure that no values at all exceed, and where the values reach it they are
 * a maximum, whoever found them. Nothing has to be believed.
 *
 * <p>With y a row's multiplier and d a variable's objective coefficient less the sum of its coefficients times y, that figure is
 * the sum of y times the row's bound above (y &gt; 0) or below (y &lt; 0) and of d times the variable's bound above (d &gt; 0) or
 * below (d &lt; 0). Where there is no such bound the multiplier or d should be 0; what it is instead counts as a violation.
 *
 * @param bounds the largest violation of a variable's bound, as a share of the bound or, if that is larger, of one
 * @param rows the largest violation of a row's bound, as a share of the bound, of the row's largest term or of one
 * @param multipliers the largest multiplier that leans on a bound that isn't there: of a row as it is, of a variable as a share of
 *     the largest term it is made of or of one
 * @param objective the objective at the values
 * @param most what no values exceed, by the multipliers
 */
public record OptimumCheck(Violation bounds, Violation rows, Violation multipliers, double objective, double most) {
    /** The violations and the gap up to which a solution counts as a maximum. */
    public static final double TOLERANCE = 1e-7;

    /**
     * The largest violation of one kind.
     *
     * @param name name of the variable or row, empty if there is no violation
     * @param size how large it is, 0 if there is none, infinite if there is a value that is no number
     */
    public record Violation(String name, double size) {
        static final Violation NONE = new Violation("", 0);

        /** Checks that there is a name. */
        public Violation {
            Objects.requireNonNull(name, "name");
        }

        private Violation or(String other, double violation) {
            if (violation <= size) {
                return this;
            }
            return new Violation(other, Double.isNaN(violation) ? Double.POSITIVE_INFINITY : violation);
        }

        private String said(String what) {
            return size == 0 ? "" : ", " + what + " \"" + name + "\" off by " + Numbers.digits(size, 2);
        }
    }

    /** Checks that all are there. */
    public OptimumCheck {
        Objects.requireNonNull(bounds, "bounds");
        Objects.requireNonNull(rows, "rows");
        Objects.requireNonNull(multipliers, "multipliers");
    }

    /**
     * Checks a solution.
     *
     * @param solution a maximum with multipliers
     * @return how far it is off
     * @throws IllegalArgumentException if the solution is no maximum or has no multipliers
     */
    public static OptimumCheck of(LinearSolution solution) {
        Objects.requireNonNull(solution, "solution");
        if (!solution.isOptimal()) {
            throw new IllegalArgumentException("only a maximum can be checked, this is " + solution);
        }
        return of(
                solution.program(),
                solution.values(),
                solution.multipliers()
                        .orElseThrow(() -> new IllegalArgumentException(
                                "no multipliers, without which nothing tells whether values are a maximum")));
    }

    /**
     * Checks values and multipliers.
     *
     * @param program program
     * @param values a value for each variable
     * @param multipliers a multiplier for each row, as {@link LinearSolution#multiplier(int)} says
     * @return how far they are off
     * @throws IllegalArgumentException if there are more or fewer values than variables or multipliers than rows
     */
    public static OptimumCheck of(LinearProgram program, double[] values, double[] multipliers) {
        Objects.requireNonNull(program, "program");
        LinearProgram.checkSize(values, program.variables(), "values", "variables");
        LinearProgram.checkSize(multipliers, program.rows(), "multipliers", "rows");
        Violation bounds = Violation.NONE;
        Violation rows = Violation.NONE;
        Violation leaning = Violation.NONE;
        double most = 0;
        double[] reduced = new double[values.length];
        double[] largest = new double[values.length];
        for (int variable = 0; variable < values.length; variable++) {
            double value = values[variable];
            bounds = bounds.or(
                    program.variableName(variable), outside(value, program.low(variable), program.high(variable), 1));
            reduced[variable] = program.objective(variable);
            largest[variable] = Math.max(1, Math.abs(reduced[variable]));
        }
        for (int row = 0; row < multipliers.length; row++) {
            double multiplier = multipliers[row];
            double sum = 0;
            double size = 1;
            for (int term = 0; term < program.terms(row); term++) {
                int variable = program.termVariable(row, term);
                double part = program.termCoefficient(row, term) * values[variable];
                sum += part;
                size = Math.max(size, Math.abs(part));
                double taken = program.termCoefficient(row, term) * multiplier;
                reduced[variable] -= taken;
                largest[variable] = Math.max(largest[variable], Math.abs(taken));
            }
            rows = rows.or(program.rowName(row), outside(sum, program.rowLow(row), program.rowHigh(row), size));
            double bound = multiplier > 0 ? program.rowHigh(row) : program.rowLow(row);
            if (multiplier != 0 && Double.isInfinite(bound)) {
                leaning = leaning.or(program.rowName(row), Math.abs(multiplier));
            } else if (multiplier != 0) {
                most += multiplier * bound;
            }
        }
        for (int variable = 0; variable < values.length; variable++) {
            double cost = reduced[variable];
            double bound = cost > 0 ? program.high(variable) : program.low(variable);
            if (cost != 0 && Double.isInfinite(bound)) {
                leaning = leaning.or(program.variableName(variable), Math.abs(cost) / largest[variable]);
            } else if (cost != 0) {
                most += cost * bound;
            }
        }
        return new OptimumCheck(bounds, rows, leaning, program.objectiveAt(values), most);
    }

    /** How far a value lies outside its bounds, as a share of a size that is no less than the bound that it misses. */
    private static double outside(double value, double low, double high, double size) {
        if (!Double.isFinite(value)) {
            return Double.POSITIVE_INFINITY;
        }
        return Math.max(
                value < low ? (low - value) / Math.max(size, Math.abs(low)) : 0,
                value > high ? (value - high) / Math.max(size, Math.abs(high)) : 0);
    }

    /**
     * How far the objective lies off what no values exceed, as a share of the larger of both or of one.
     *
     * @return 0 or more; not a number if a value or a multiplier is none
     */
    public double gap() {
        return Math.abs(most - objective) / Math.max(1, Math.max(Math.abs(most), Math.abs(objective)));
    }

    /**
     * Whether the values are a maximum within {@link #TOLERANCE}.
     *
     * @return whether no violation and no gap is larger
     */
    public boolean holds() {
        return holds(TOLERANCE);
    }

    /**
     * Whether the values are a maximum.
     *
     * @param tolerance the largest violation and gap that there may be
     * @return whether none is larger
     */
    public boolean holds(double tolerance) {
        return bounds.size <= tolerance
                && rows.size <= tolerance
                && multipliers.size <= tolerance
                && gap() <= tolerance;
    }

    /**
     * Lets nothing pass that isn't a maximum within {@link #TOLERANCE}.
     *
     * @throws UnsolvedProgramException if it isn't; the message says what is off and by how much
     */
    public void require() {
        if (!holds()) {
            throw new UnsolvedProgramException("what the solver calls a maximum isn't one: " + this);
        }
    }

    @Override
    public String toString() {
        return "objective " + Numbers.exact(objective) + ", at most " + Numbers.exact(most) + ", gap "
                + Numbers.digits(gap(), 2)
                + bounds.said("variable")
                + rows.said("row")
                + multipliers.said("multiplier of");
    }
}
