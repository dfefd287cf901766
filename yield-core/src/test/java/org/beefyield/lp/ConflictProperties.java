package org.beefyield.lp;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.beefyield.lp.Conflict.Shortfall;

class ConflictProperties {
    private static final LinearSolver SIMPLEX = CheckedSolver.of(new TinySimplex());
    private static final double NONE = Programs.NONE;

    /** Demands for several things, each of which is scarce, some for two of them. */
    private static LinearProgram program(Random random, int demands) {
        LinearProgram.Builder builder = LinearProgram.builder();
        int things = 1 + random.nextInt(3);
        for (int thing = 0; thing < things; thing++) {
            builder.row("thing " + thing, -NONE, 5 + random.nextInt(12));
        }
        for (int demand = 0; demand < demands; demand++) {
            int row = builder.row("d" + demand, 1 + random.nextInt(9), NONE);
            int first = random.nextInt(things);
            int second = random.nextInt(things);
            for (int thing : first == second ? new int[] {first} : new int[] {first, second}) {
                int given = builder.variable("given " + thing + " to " + demand, 0, NONE, 0);
                builder.add(row, given, 1).add(thing, given, 1 + random.nextInt(2));
            }
        }
        return builder.build();
    }

    private static LinearProgram asking(LinearProgram program, int demands, int asked) {
        LinearProgram some = program;
        for (int demand = 0; demand < demands; demand++) {
            if ((asked >> demand & 1) == 0) {
                int row = program.row("d" + demand);
                some = some.withRow(row, -NONE, NONE);
            }
        }
        return some;
    }

    /** Against all subsets of the demands. */
    @Property(tries = 60)
    void noFewerDemandsConflict(@ForAll long seed) {
        Random random = new Random(seed);
        int demands = 2 + random.nextInt(5);
        LinearProgram program = program(random, demands);
        int fewest = Integer.MAX_VALUE;
        for (int asked = 0; asked < 1 << demands; asked++) {
            if (Integer.bitCount(asked) < fewest
                    && !SIMPLEX.solve(asking(program, demands, asked)).isOptimal()) {
                fewest = Integer.bitCount(asked);
            }
        }
        List<String> names = new ArrayList<>();
        for (int demand = 0; demand < demands; demand++) {
            names.add("d" + demand);
        }
        Optional<Conflict> found = Conflict.of(SIMPLEX, program, names);
        if (fewest == Integer.MAX_VALUE) {
            assertThat(found).isEmpty();
            return;
        }
        Conflict conflict = found.orElseThrow();
        assertThat(conflict.isSmallest()).isTrue();
        assertThat(conflict.shortfalls()).hasSize(fewest);
        int asked = 0;
        LinearProgram reached = program;
        for (Shortfall shortfall : conflict.shortfalls()) {
            asked |= 1 << names.indexOf(shortfall.demand());
            reached = reached.withRow(program.row(shortfall.demand()), shortfall.reached() - 1e-9, NONE);
        }
        assertThat(SIMPLEX.solve(asking(program, demands, asked)).isOptimal()).isFalse();
        assertThat(SIMPLEX.solve(asking(reached, demands, asked)).isOptimal()).isTrue();
        assertThat(conflict.shortfalls().stream()
                        .mapToDouble(Shortfall::missing)
                        .sum())
                .isCloseTo(leastMissing(program, demands, asked), within(1e-6));
    }

    /** The most of what is asked for that can be given in all, held against what is asked. */
    private static double leastMissing(LinearProgram program, int demands, int asked) {
        LinearProgram.Builder builder = LinearProgram.builder();
        double sum = 0;
        for (int variable = 0; variable < program.variables(); variable++) {
            int demand = Integer.parseInt(program.variableName(variable).replaceAll(".* ", ""));
            builder.variable(program.variableName(variable), 0, NONE, asked >> demand & 1);
        }
        for (int row = 0; row < program.rows(); row++) {
            boolean isDemand = program.rowName(row).startsWith("d");
            builder.row(program.rowName(row), -NONE, isDemand ? program.rowLow(row) : program.rowHigh(row));
            for (int term = 0; term < program.terms(row); term++) {
                builder.add(row, program.termVariable(row, term), program.termCoefficient(row, term));
            }
        }
        for (int demand = 0; demand < demands; demand++) {
            sum += (asked >> demand & 1) * program.rowLow(program.row("d" + demand));
        }
        return sum - SIMPLEX.solve(builder.build()).objective();
    }
}
