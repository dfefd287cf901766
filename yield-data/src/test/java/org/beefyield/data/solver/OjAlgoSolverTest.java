package org.beefyield.data.solver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.lang.reflect.InvocationTargetException;
import java.util.List;
import java.util.stream.IntStream;
import org.beefyield.lp.CheckedSolver;
import org.beefyield.lp.Conflict;
import org.beefyield.lp.LinearProgram;
import org.beefyield.lp.LinearSolver;
import org.beefyield.lp.OptimumCheck;
import org.junit.jupiter.api.Test;

class OjAlgoSolverTest {
    private static final double NONE = Double.POSITIVE_INFINITY;
    private static final LinearSolver SOLVER = OjAlgoSolver.create();

    @Test
    void programsOfBothKindsAreSolved() {
        for (double density : new double[] {0.01, 0.5}) {
            LinearProgram program = transport(40, 30, density);
            OptimumCheck check = OptimumCheck.of(SOLVER.solve(program));
            assertThat(check.holds(1e-9)).as(check.toString()).isTrue();
        }
    }

    /** Something is brought from places to others; rows that join all of it make it dense. */
    private static LinearProgram transport(int from, int to, double density) {
        LinearProgram.Builder builder = LinearProgram.builder();
        IntStream.range(0, from).forEach(row -> builder.row("from " + row, -NONE, 10 + row % 7));
        IntStream.range(0, to).forEach(row -> builder.row("to " + row, 3 + row % 5, 9 + row % 4));
        int joining = (int) Math.round(density * 40);
        IntStream.range(0, joining).forEach(row -> builder.row("joining " + row, -NONE, 400 + 10 * row));
        for (int first = 0; first < from; first++) {
            for (int second = 0; second < to; second++) {
                int variable = builder.variable(first + " to " + second, 0, NONE, 1 + (first * 7 + second * 11) % 13);
                builder.add(first, variable, 1).add(from + second, variable, 1);
                for (int row = 0; row < joining; row++) {
                    builder.add(from + to + row, variable, 0.5 + (first + second * row) % 3);
                }
            }
        }
        return builder.build();
    }

    /** The check must not trust the solver: its values and multipliers, moved a little, don't pass. */
    @Test
    void whatIsMovedALittleIsNoMaximum() {
        LinearProgram program = Mps.maximum("afiro");
        double[] values = SOLVER.solve(program).values();
        double[] multipliers = SOLVER.solve(program).multipliers().orElseThrow();
        assertThat(OptimumCheck.of(program, values, multipliers).holds()).isTrue();
        int moved = program.variable("X01");
        values[moved] += 1e-3;
        assertThat(OptimumCheck.of(program, values, multipliers).holds()).isFalse();
        values[moved] -= 1e-3;
        multipliers[program.row("X48")] *= 1.00001;
        assertThat(OptimumCheck.of(program, values, multipliers).holds()).isFalse();
        multipliers[program.row("X48")] *= -1;
        assertThat(OptimumCheck.of(program, values, multipliers).multipliers().name())
                .isNotEmpty();
    }

    @Test
    void twoOrdersThatConflictAreFoundAmongMany() {
        LinearProgram.Builder builder = LinearProgram.builder();
        List<String> orders =
                IntStream.range(0, 30).mapToObj(order -> "order " + order).toList();
        IntStream.range(0, 10).forEach(kind -> builder.row("kind " + kind, -NONE, 100));
        for (int order = 0; order < 30; order++) {
            int variable = builder.variable("for " + order, 0, NONE, 1);
            builder.add(order % 10, variable, 1)
                    .add(builder.row("order " + order, order == 4 ? 60 : order == 14 ? 55 : 20, NONE), variable, 1);
        }
        Conflict conflict = Conflict.of(SOLVER, builder.build(), orders).orElseThrow();
        assertThat(conflict.shortfalls().stream().map(Conflict.Shortfall::demand))
                .containsExactly("order 4", "order 14");
        assertThat(conflict.isSmallest()).isTrue();
    }

    @Test
    void severalThreadsShareASolver() {
        LinearProgram program = Mps.maximum("afiro");
        LinearSolver checked = CheckedSolver.of(SOLVER);
        assertThat(IntStream.range(0, 8)
                        .parallel()
                        .mapToObj(run -> checked.solve(program).objective()))
                .containsOnly(SOLVER.solve(program).objective());
    }

    /** As where a caller hasn't added it. */
    @Test
    void withoutOjAlgoAnErrorNamesWhatToAdd() throws ReflectiveOperationException {
        Class<?> solver = new WithoutOjAlgo().loadClass(OjAlgoSolver.class.getName());
        assertThatThrownBy(() -> {
                    try {
                        solver.getMethod("create").invoke(null);
                    } catch (InvocationTargetException e) {
                        throw e.getCause();
                    }
                })
                .isInstanceOf(IllegalStateException.class)
                .hasMessage(
                        "ojAlgo is missing: add org.ojalgo:ojalgo, 57.0.0 or newer, to the class path, or on the module path"
                                + " the module ojalgo");
    }

    /** Loads the solver anew and has no ojAlgo. */
    private static final class WithoutOjAlgo extends ClassLoader {
        WithoutOjAlgo() {
            super(OjAlgoSolverTest.class.getClassLoader());
        }

        @Override
        protected Class<?> loadClass(String name, boolean resolve) throws ClassNotFoundException {
            if (name.startsWith("org.ojalgo.")) {
                throw new ClassNotFoundException(name);
            }
            if (!name.startsWith("org.beefyield.data.solver.OjAlgo")) {
                return super.loadClass(name, resolve);
            }
            Class<?> loaded = findLoadedClass(name);
            if (loaded != null) {
                return loaded;
            }
            try (InputStream in = getResourceAsStream(name.replace('.', '/') + ".class")) {
                byte[] bytes = in.readAllBytes();
                return defineClass(name, bytes, 0, bytes.length);
            } catch (IOException e) {
                throw new ClassNotFoundException(name, e);
            }
        }
    }
}
