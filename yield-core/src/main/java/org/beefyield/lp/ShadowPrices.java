package org.beefyield.lp;

import java.util.Objects;
import java.util.Optional;

/**
 * What it is worth to move the bounds of rows, up and down, found by solving the program anew with the bound moved.
 *
 * <p>The maximum is concave in a bound and made of straight pieces. Where the piece that begins at the bound ends is found from
 * multipliers: the line that they draw through a point further on meets the line from the bound, and there either the piece ends
 * or there is a steeper line to go on with. Some three to eight programs are solved for each direction.
 */
public final class ShadowPrices {
    /** How far the maximum may lie off a straight line, as a share of itself. */
    private static final double STRAIGHT = 1e-10;

    /** Beyond so many pieces, none of which ends where lines meet, figures are too close for a range. */
    private static final int PIECES = 60;

    private final LinearSolver solver;
    private final LinearSolution solution;

    private ShadowPrices(LinearSolver solver, LinearSolution solution) {
        this.solver = solver;
        this.solution = solution;
    }

    /** Which bounds move. */
    private enum Side {
        LOW,
        HIGH,
        BOTH
    }

    /** The maximum where the bound has moved by a step, and how much it then changes with a further step. */
    private record Point(double step, double maximum, double slope) {
        double at(double other) {
            return maximum + slope * (other - step);
        }
    }

    /**
     * Solves a program, whose prices can then be asked for.
     *
     * @param solver solver, whose answers are checked
     * @param program program that has a maximum
     * @return its prices
     * @throws IllegalArgumentException if the program has no maximum
     * @throws UnsolvedProgramException if the solver ends without an answer that is true
     */
    public static ShadowPrices of(LinearSolver solver, LinearProgram program) {
        LinearSolver checked = CheckedSolver.of(solver);
        LinearSolution solution = checked.solve(program);
        if (!solution.isOptimal()) {
            throw new IllegalArgumentException(
                    "there are prices of a program that has a maximum, this one is " + solution);
        }
        return new ShadowPrices(checked, solution);
    }

    /**
     * The maximum without any bound moved.
     *
     * @return solution
     */
    public LinearSolution solution() {
        return solution;
    }

    /**
     * Prices of the bound above a row; of an equation both bounds move as one. It is looked as far as the bound is large, or one
     * if that is more.
     *
     * @param row name of the row
     * @return prices up and down
     * @throws IllegalArgumentException if there is no such row or it has no bound above
     * @throws UnsolvedProgramException if the solver ends without an answer that is true
     */
    public ShadowPrice high(String row) {
        Objects.requireNonNull(row, "row");
        int number = solution.program().row(row);
        return price(number, solution.program().rowHigh(number), Side.HIGH, "above");
    }

    /**
     * Prices of the bound below a row; of an equation both bounds move as one. It is looked as far as the bound is large, or one
     * if that is more.
     *
     * @param row name of the row
     * @return prices up and down
     * @throws IllegalArgumentException if there is no such row or it has no bound below
     * @throws UnsolvedProgramException if the solver ends without an answer that is true
     */
    public ShadowPrice low(String row) {
        Objects.requireNonNull(row, "row");
        int number = solution.program().row(row);
        return price(number, solution.program().rowLow(number), Side.LOW, "below");
    }

    private ShadowPrice price(int row, double bound, Side side, String where) {
        LinearProgram program = solution.program();
        String name = program.rowName(row);
        if (!Double.isFinite(bound)) {
            throw new IllegalArgumentException("row \"" + name + "\" has no bound " + where);
        }
        Side moved = program.rowLow(row) == program.rowHigh(row) ? Side.BOTH : side;
        return new ShadowPrice(name, bound, direction(row, bound, moved, 1), direction(row, bound, moved, -1));
    }

    private Optional<ShadowPrice.Direction> direction(int row, double bound, Side side, int sign) {
        double reach = Math.max(1, Math.abs(bound));
        double most = most(row, side, sign, reach);
        if (most <= Elastic.NOTHING * reach) {
            return Optional.empty();
        }
        boolean further = most >= reach * (1 - Elastic.NOTHING);
        double end = further ? reach : most;
        // A little less than all that leaves a solution, lest rounding leaves none.
        Point right = point(row, side, sign, end * (1 - STRAIGHT));
        Point start = new Point(0, solution.objective(), slope(solution, row, side, sign));
        double straight = STRAIGHT * Math.max(1, Math.abs(start.maximum));
        if (right.at(0) - start.maximum <= straight) {
            return Optional.of(new ShadowPrice.Direction(sign * right.slope, bound + sign * end, further));
        }
        Point line = start;
        for (int piece = 0; piece < PIECES; piece++) {
            double step = (right.at(0) - start.maximum) / (line.slope - right.slope);
            Point met = point(row, side, sign, step);
            if (line.at(step) - met.maximum <= straight) {
                return Optional.of(new ShadowPrice.Direction(sign * line.slope, bound + sign * step, false));
            }
            if (met.at(0) - start.maximum <= straight) {
                line = new Point(0, start.maximum, met.slope);
            } else {
                right = met;
            }
        }
        throw new UnsolvedProgramException(
                "the price of row \"" + solution.program().rowName(row) + "\" changes too soon to be told");
    }

    /** How far a bound can be moved so that there is a solution, and no further than a reach. */
    private double most(int row, Side side, int sign, double reach) {
        LinearProgram program = solution.program();
        if (side == (sign > 0 ? Side.HIGH : Side.LOW)) {
            return reach;
        }
        LinearProgram.Builder builder = Elastic.withoutObjective(
                side == Side.BOTH
                        ? program.withRow(row, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY)
                        : side == Side.HIGH
                                ? program.withRow(row, program.rowLow(row), Double.POSITIVE_INFINITY)
                                : program.withRow(row, Double.NEGATIVE_INFINITY, program.rowHigh(row)));
        int step = builder.variable(builder.unused("step"), 0, reach, 1);
        int moved = builder.row(
                builder.unused("moved"),
                side == Side.HIGH ? Double.NEGATIVE_INFINITY : program.rowLow(row),
                side == Side.LOW ? Double.POSITIVE_INFINITY : program.rowHigh(row));
        for (int term = 0; term < program.terms(row); term++) {
            builder.add(moved, program.termVariable(row, term), program.termCoefficient(row, term));
        }
        builder.add(moved, step, -sign);
        return solver.solve(builder.build()).objective();
    }

    private Point point(int row, Side side, int sign, double step) {
        LinearProgram program = solution.program();
        double low = program.rowLow(row) + (side == Side.HIGH ? 0 : sign * step);
        double high = program.rowHigh(row) + (side == Side.LOW ? 0 : sign * step);
        LinearSolution moved = solver.solve(
                side == Side.LOW
                        ? program.withRow(row, Math.min(low, high), high)
                        : program.withRow(row, low, Math.max(low, high)));
        if (!moved.isOptimal()) {
            throw new UnsolvedProgramException("row \"" + program.rowName(row) + "\" moved by " + sign * step
                    + " leaves a program that is " + moved);
        }
        return new Point(step, moved.objective(), slope(moved, row, side, sign));
    }

    private static double slope(LinearSolution solution, int row, Side side, int sign) {
        double multiplier = solution.multiplier(row);
        return sign
                * switch (side) {
                    case LOW -> Math.min(multiplier, 0);
                    case HIGH -> Math.max(multiplier, 0);
                    case BOTH -> multiplier;
                };
    }
}
