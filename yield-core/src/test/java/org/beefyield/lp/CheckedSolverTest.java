package org.beefyield.lp;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.beefyield.lp.Programs.NONE;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

class CheckedSolverTest {
    private static final LinearSolver SIMPLEX = new TinySimplex();
    private static final LinearProgram MIX = Programs.productMix();

    private static LinearProgram with(double rowLow, double objective) {
        LinearProgram.Builder builder = LinearProgram.builder();
        int x = builder.variable("x", 0, NONE, objective);
        return builder.add(builder.row("least", rowLow, NONE), x, -1).build();
    }

    @Test
    void whatIsTruePasses() {
        CheckedSolver checked = CheckedSolver.of(SIMPLEX);
        assertThat(checked.solve(MIX).objective()).isEqualTo(36);
        assertThat(checked.solve(with(1, 1)).status()).isEqualTo(SolutionStatus.INFEASIBLE);
        LinearProgram.Builder free = LinearProgram.builder();
        free.variable("x", -NONE, NONE, 1);
        assertThat(checked.solve(free.build()).status()).isEqualTo(SolutionStatus.UNBOUNDED);
        assertThat(CheckedSolver.of(checked)).isSameAs(checked);
    }

    @Test
    void aWrongMaximumDoesNot() {
        assertThatThrownBy(() -> CheckedSolver.of(program ->
                                LinearSolution.optimal(program, new double[] {4, 3}, new double[] {0, 1.5, 1}))
                        .solve(MIX))
                .isInstanceOf(UnsolvedProgramException.class)
                .hasMessageContaining("objective 27, at most 36");
        assertThatThrownBy(() -> CheckedSolver.of(program -> LinearSolution.optimal(program, new double[] {2, 6}))
                        .solve(MIX))
                .hasMessage("the solver gave no multipliers, so that nothing tells whether maximum 36 is a maximum");
    }

    @Test
    void aMaximumThatTheSolverDoesNotSeeIsToldFromOneThatIsntThere() {
        for (SolutionStatus wrong : new SolutionStatus[] {SolutionStatus.INFEASIBLE, SolutionStatus.UNBOUNDED}) {
            assertThatThrownBy(() -> CheckedSolver.of(saying(wrong, MIX)).solve(MIX))
                    .isInstanceOf(UnsolvedProgramException.class)
                    .hasMessage("the solver says the program is "
                            + (wrong == SolutionStatus.INFEASIBLE ? "infeasible" : "unbounded")
                            + ", but it has a maximum");
        }
    }

    @Test
    void whichOfBothIsToldWhateverTheSolverSays() {
        LinearProgram infeasible = with(1, 1);
        assertThat(CheckedSolver.of(saying(SolutionStatus.UNBOUNDED, infeasible))
                        .solve(infeasible)
                        .status())
                .isEqualTo(SolutionStatus.INFEASIBLE);
    }

    /** Wrong about one program, right about all others. */
    private static LinearSolver saying(SolutionStatus wrong, LinearProgram of) {
        return program -> program != of
                ? SIMPLEX.solve(program)
                : wrong == SolutionStatus.INFEASIBLE
                        ? LinearSolution.infeasible(program)
                        : LinearSolution.unbounded(program);
    }

    /** The plain simplex is right wherever nothing is refused: each answer of it is worked out anew. */
    @Property(tries = 300)
    void smallProgramsPass(@ForAll long seed) {
        assertThat(CheckedSolver.of(SIMPLEX).solve(Programs.random(seed, false)).status())
                .isNotNull();
    }
}
