package org.beefyield.lp;

import java.util.Arrays;
import java.util.BitSet;
import java.util.SortedMap;
import java.util.stream.IntStream;

/** The demands of a program, numbered from 0 in the order of their rows, and which of them can be met together. */
final class Demands {
    private final LinearSolver solver;
    private final LinearProgram program;
    private final int[] rows;
    private final double[] weights;
    private int solved;

    Demands(LinearSolver solver, LinearProgram program, SortedMap<Integer, Double> weights) {
        this.solver = solver;
        this.program = program;
        rows = weights.keySet().stream().mapToInt(row -> row).toArray();
        this.weights = weights.values().stream().mapToDouble(weight -> weight).toArray();
    }

    /** What came of asking for demands while all others were given up. */
    static final class Try {
        /** What is due to a demand by no more than this share of the largest part is due to rounding. */
        private static final double ROUNDING = 1e-9;

        /** Least sum of what is missing, as shares of the demands, infinite if nothing is possible without any either. */
        private final double missing;
        /** By demand, how much of that is due to each. */
        private final double[] parts;

        private Try(double missing, double[] parts) {
            this.missing = missing;
            this.parts = parts;
        }

        double part(int demand) {
            return parts[demand];
        }

        boolean isMet() {
            return missing <= Elastic.NOTHING;
        }

        boolean isImpossible() {
            return Double.isInfinite(missing);
        }

        /** The demands that alone can't be met together, as the multipliers prove. */
        BitSet proven() {
            double largest = IntStream.range(0, parts.length)
                    .mapToDouble(demand -> parts[demand])
                    .max()
                    .orElse(0);
            BitSet proven = new BitSet();
            for (int demand = 0; demand < parts.length; demand++) {
                proven.set(demand, parts[demand] > ROUNDING * largest);
            }
            return proven;
        }
    }

    BitSet all() {
        BitSet all = new BitSet();
        all.set(0, rows.length);
        return all;
    }

    String name(int demand) {
        return program.rowName(rows[demand]);
    }

    double asked(int demand) {
        return program.rowLow(rows[demand]);
    }

    /** How many programs were solved so far. */
    int solved() {
        return solved;
    }

    /** Asks for demands while all others are given up. */
    Try attempt(BitSet asked) {
        LinearSolution solution = solve(asked, new BitSet(), false).solution;
        double[] parts = new double[rows.length];
        if (!solution.isOptimal()) {
            return new Try(Double.POSITIVE_INFINITY, parts);
        }
        asked.stream()
                .forEach(demand ->
                        parts[demand] = Math.abs(solution.multiplier(rows[demand])) * Elastic.size(asked(demand)));
        return new Try(-solution.objective(), parts);
    }

    /** Demands that can be met together, among them those given, of which that is known. */
    BitSet metWith(BitSet known) {
        BitSet others = all();
        others.andNot(known);
        Missing found = solve(others, known, false);
        BitSet met = (BitSet) known.clone();
        others.stream()
                .filter(demand -> found.solution.value(found.variables[demand]) <= Elastic.NOTHING / rows.length)
                .forEach(met::set);
        return met;
    }

    /** By demand, what it is when as little as possible is missing of those asked for, by weights. */
    double[] reached(BitSet asked) {
        double[] values = solve(asked, new BitSet(), true).solution.values();
        return IntStream.of(rows)
                .mapToDouble(row -> program.rowAt(row, Arrays.copyOf(values, program.variables())))
                .toArray();
    }

    /** A solution, and by demand the variable of what is missing of it. */
    private static final class Missing {
        private final LinearSolution solution;
        private final int[] variables;

        private Missing(LinearSolution solution, int[] variables) {
            this.solution = solution;
            this.variables = variables;
        }
    }

    private Missing solve(BitSet asked, BitSet met, boolean weighted) {
        double[] lows =
                IntStream.range(0, program.rows()).mapToDouble(program::rowLow).toArray();
        for (int demand = 0; demand < rows.length; demand++) {
            if (met.get(demand)) {
                lows[rows[demand]] -= Elastic.NOTHING * Elastic.size(asked(demand));
            } else if (!asked.get(demand)) {
                lows[rows[demand]] = Double.NEGATIVE_INFINITY;
            }
        }
        LinearProgram.Builder builder = Elastic.withoutObjective(program, row -> lows[row]);
        int[] variables = new int[rows.length];
        double largest = weighted
                ? asked.stream()
                        .mapToDouble(demand -> weights[demand] * Elastic.size(asked(demand)))
                        .max()
                        .orElse(1)
                : 1;
        asked.stream().forEach(demand -> {
            double size = Elastic.size(asked(demand));
            double weight = weighted ? weights[demand] * size / largest : 1;
            variables[demand] = Elastic.missing(builder, name(demand), rows[demand], size, weight);
        });
        solved++;
        return new Missing(solver.solve(builder.build()), variables);
    }
}
