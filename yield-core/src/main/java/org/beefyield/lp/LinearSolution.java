package org.beefyield.lp;

import java.util.Objects;
import java.util.Optional;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** What a solver says of a program: values of the variables that make the objective highest, or that there are none. */
public final class LinearSolution {
    private final LinearProgram program;
    private final SolutionStatus status;
    private final double[] values;
    private final double @Nullable [] multipliers;
    private final double objective;

    private LinearSolution(
            LinearProgram program, SolutionStatus status, double[] values, double @Nullable [] multipliers) {
        this.program = program;
        this.status = status;
        this.values = values;
        this.multipliers = multipliers;
        objective = status == SolutionStatus.OPTIMAL ? program.objectiveAt(values) : Double.NaN;
    }

    /**
     * A maximum with its multipliers.
     *
     * @param program what was solved
     * @param values a value for each variable
     * @param multipliers a multiplier for each row, as {@link #multiplier} says
     * @return a solution that says so; {@link OptimumCheck} tells whether it is true
     * @throws IllegalArgumentException if there are more or fewer values than variables or multipliers than rows
     */
    public static LinearSolution optimal(LinearProgram program, double[] values, double[] multipliers) {
        Objects.requireNonNull(program, "program");
        LinearProgram.checkSize(values, program.variables(), "values", "variables");
        LinearProgram.checkSize(multipliers, program.rows(), "multipliers", "rows");
        return new LinearSolution(program, SolutionStatus.OPTIMAL, values.clone(), multipliers.clone());
    }

    /**
     * A maximum without multipliers, which nothing can prove.
     *
     * @param program what was solved
     * @param values a value for each variable
     * @return a solution that says so
     * @throws IllegalArgumentException if there are more or fewer values than variables
     */
    public static LinearSolution optimal(LinearProgram program, double[] values) {
        Objects.requireNonNull(program, "program");
        LinearProgram.checkSize(values, program.variables(), "values", "variables");
        return new LinearSolution(program, SolutionStatus.OPTIMAL, values.clone(), null);
    }

    /**
     * That no values meet all bounds and rows.
     *
     * @param program what was to be solved
     * @return a solution that says so
     */
    public static LinearSolution infeasible(LinearProgram program) {
        return without(program, SolutionStatus.INFEASIBLE);
    }

    /**
     * That the objective can be as high as one likes.
     *
     * @param program what was to be solved
     * @return a solution that says so
     */
    public static LinearSolution unbounded(LinearProgram program) {
        return without(program, SolutionStatus.UNBOUNDED);
    }

    private static LinearSolution without(LinearProgram program, SolutionStatus status) {
        return new LinearSolution(Objects.requireNonNull(program, "program"), status, new double[0], null);
    }

    /**
     * What was solved.
     *
     * @return program
     */
    public LinearProgram program() {
        return program;
    }

    /**
     * How the search ended.
     *
     * @return status
     */
    public SolutionStatus status() {
        return status;
    }

    /**
     * Whether there is a maximum.
     *
     * @return whether there are values
     */
    public boolean isOptimal() {
        return status == SolutionStatus.OPTIMAL;
    }

    /**
     * The objective, worked out from the values.
     *
     * @return the maximum
     * @throws IllegalStateException if there is none
     */
    public double objective() {
        requireOptimal();
        return objective;
    }

    /**
     * The value of a variable.
     *
     * @param variable its number
     * @return value
     * @throws IllegalStateException if there is no maximum
     */
    public double value(int variable) {
        requireOptimal();
        return values[variable];
    }

    /**
     * The value of a variable.
     *
     * @param variable its name
     * @return value
     * @throws IllegalStateException if there is no maximum
     * @throws IllegalArgumentException if there is no such variable
     */
    public double value(String variable) {
        Objects.requireNonNull(variable, "variable");
        return value(program.variable(variable));
    }

    /**
     * The values of all variables.
     *
     * @return a copy, by number of the variable
     * @throws IllegalStateException if there is no maximum
     */
    public double[] values() {
        requireOptimal();
        return values.clone();
    }

    /**
     * What a row is at the values.
     *
     * @param row its number
     * @return sum of values times coefficients
     * @throws IllegalStateException if there is no maximum
     */
    public double row(int row) {
        requireOptimal();
        return program.rowAt(row, values);
    }

    /**
     * The multiplier of a row: how much the maximum changes with each unit by which the bound that holds the row goes up. So it
     * is 0 or more where the row is held by its bound above, 0 or less where it is held by that below, 0 where it is held by
     * none, and of either sign in an equation. Where several bounds meet it may be the price of neither direction:
     * {@link ShadowPrices} has both.
     *
     * @param row its number
     * @return multiplier
     * @throws IllegalStateException if the solver gave none
     */
    public double multiplier(int row) {
        return given()[row];
    }

    /**
     * The multiplier of a row.
     *
     * @param row its name
     * @return as {@link #multiplier(int)} says
     * @throws IllegalStateException if the solver gave none
     * @throws IllegalArgumentException if there is no such row
     */
    public double multiplier(String row) {
        Objects.requireNonNull(row, "row");
        return multiplier(program.row(row));
    }

    /**
     * The multipliers of all rows.
     *
     * @return a copy, by number of the row; nothing if the solver gave none
     */
    public Optional<double[]> multipliers() {
        return Optional.ofNullable(multipliers).map(double[]::clone);
    }

    private double[] given() {
        if (multipliers == null) {
            throw new IllegalStateException("no multipliers: the solver gave none");
        }
        return multipliers;
    }

    private void requireOptimal() {
        if (!isOptimal()) {
            throw new IllegalStateException(
                    "no values: the program is " + (status == SolutionStatus.INFEASIBLE ? "infeasible" : "unbounded"));
        }
    }

    @Override
    public String toString() {
        return switch (status) {
            case OPTIMAL -> "maximum " + Numbers.exact(objective);
            case INFEASIBLE -> "infeasible";
            case UNBOUNDED -> "unbounded";
        };
    }
}
