package org.beefyield.lp;

import java.util.function.IntToDoubleFunction;

/** Programs that tell whether another one has values at all, each of which has a maximum whatever the other one is. */
final class Elastic {
    /** What may be missing of bounds, as a share of each, that counts as nothing. */
    static final double NOTHING = 1e-6;

    private Elastic() {}

    /** Least sum of what is missing of the bounds of all rows, as shares of them, with a minus. */
    static LinearProgram ofAllRows(LinearProgram program) {
        LinearProgram.Builder builder = withoutObjective(program);
        for (int row = 0; row < program.rows(); row++) {
            double low = program.rowLow(row);
            double high = program.rowHigh(row);
            if (Double.isFinite(low)) {
                missing(builder, program.rowName(row), row, size(low));
            }
            if (Double.isFinite(high)) {
                missing(builder, program.rowName(row), row, -size(high));
            }
        }
        return builder.build();
    }

    /** A variable for what is missing of a bound, in shares of a size. */
    private static void missing(LinearProgram.Builder builder, String name, int row, double size) {
        missing(builder, name, row, size, 1);
    }

    /** A variable for what is missing of a bound, in shares of a size, each of which counts by a weight. */
    static int missing(LinearProgram.Builder builder, String name, int row, double size, double weight) {
        int missing = builder.variable(builder.unused("missing of " + name), 0, Double.POSITIVE_INFINITY, -weight);
        builder.add(row, missing, size);
        return missing;
    }

    /** What shares of a bound are shares of. */
    static double size(double bound) {
        return Math.max(1, Math.abs(bound));
    }

    /** Variables, rows and terms, and 0 for an objective. */
    static LinearProgram.Builder withoutObjective(LinearProgram program) {
        return withoutObjective(program, program::rowLow);
    }

    /** Variables, rows with other bounds below, terms, and 0 for an objective. */
    static LinearProgram.Builder withoutObjective(LinearProgram program, IntToDoubleFunction lows) {
        LinearProgram.Builder builder = LinearProgram.builder();
        for (int variable = 0; variable < program.variables(); variable++) {
            builder.variable(program.variableName(variable), program.low(variable), program.high(variable), 0);
        }
        addRows(builder, program, lows, program::rowHigh);
        return builder;
    }

    /** The highest objective of a step that one can take for ever, none of whose parts is larger than one. */
    static LinearProgram ray(LinearProgram program) {
        LinearProgram.Builder builder = LinearProgram.builder();
        for (int variable = 0; variable < program.variables(); variable++) {
            builder.variable(
                    program.variableName(variable),
                    Double.isFinite(program.low(variable)) ? 0 : -1,
                    Double.isFinite(program.high(variable)) ? 0 : 1,
                    program.objective(variable));
        }
        addRows(
                builder,
                program,
                row -> zeroUnlessInfinite(program.rowLow(row)),
                row -> zeroUnlessInfinite(program.rowHigh(row)));
        return builder.build();
    }

    private static double zeroUnlessInfinite(double bound) {
        return Double.isFinite(bound) ? 0 : bound;
    }

    private static void addRows(
            LinearProgram.Builder builder, LinearProgram program, IntToDoubleFunction lows, IntToDoubleFunction highs) {
        for (int row = 0; row < program.rows(); row++) {
            builder.row(program.rowName(row), lows.applyAsDouble(row), highs.applyAsDouble(row));
            for (int term = 0; term < program.terms(row); term++) {
                builder.add(row, program.termVariable(row, term), program.termCoefficient(row, term));
            }
        }
    }
}
