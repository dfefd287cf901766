package org.beefyield.lp;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.beefyield.lp.Programs.NONE;

import org.junit.jupiter.api.Test;

class OptimumCheckTest {
    private static final LinearProgram MIX = Programs.productMix();
    private static final double[] VALUES = {2, 6};
    private static final double[] MULTIPLIERS = {0, 1.5, 1};

    @Test
    void aMaximumHoldsWithoutAGap() {
        OptimumCheck check = OptimumCheck.of(MIX, VALUES, MULTIPLIERS);
        assertThat(check.holds(0)).isTrue();
        assertThat(check.objective()).isEqualTo(36);
        assertThat(check.most()).isEqualTo(36);
        assertThat(check).hasToString("objective 36, at most 36, gap 0");
    }

    @Test
    void worseValuesLeaveAGap() {
        OptimumCheck check = OptimumCheck.of(MIX, new double[] {4, 3}, MULTIPLIERS);
        assertThat(check.gap()).isCloseTo(0.25, within(1e-15));
        assertThat(check.holds()).isFalse();
        assertThatThrownBy(check::require)
                .isInstanceOf(UnsolvedProgramException.class)
                .hasMessage("what the solver calls a maximum isn't one: objective 27, at most 36, gap 0.25");
    }

    @Test
    void otherMultipliersLeaveAGapOrLeanOnABoundThatIsntThere() {
        assertThat(OptimumCheck.of(MIX, VALUES, new double[] {0, 1.5, 1.00001}).gap())
                .isGreaterThan(OptimumCheck.TOLERANCE);
        OptimumCheck less = OptimumCheck.of(MIX, VALUES, new double[] {0, 1.5, 0.9});
        assertThat(less.multipliers().name()).isEqualTo("doors");
        assertThat(less.multipliers().size()).isCloseTo(0.1, within(1e-15));
        OptimumCheck wrongSign = OptimumCheck.of(MIX, VALUES, new double[] {-0.5, 1.5, 1});
        assertThat(wrongSign.multipliers()).isEqualTo(new OptimumCheck.Violation("plant 1", 0.5));
        assertThat(wrongSign.holds()).isFalse();
    }

    @Test
    void valuesBeyondBoundsAndRowsAreFoundAsSharesOfThem() {
        OptimumCheck beyond = OptimumCheck.of(MIX, new double[] {2, 6.6}, MULTIPLIERS);
        assertThat(beyond.rows().name()).isEqualTo("plant 2");
        assertThat(beyond.rows().size()).isCloseTo(1.2 / 13.2, within(1e-12));
        OptimumCheck below = OptimumCheck.of(MIX, new double[] {-0.25, 6}, MULTIPLIERS);
        assertThat(below.bounds()).isEqualTo(new OptimumCheck.Violation("doors", 0.25));
        assertThat(below.holds()).isFalse();
    }

    @Test
    void whatIsNoNumberNeverHolds() {
        assertThat(OptimumCheck.of(MIX, new double[] {Double.NaN, 6}, MULTIPLIERS)
                        .holds(1e9))
                .isFalse();
        assertThat(OptimumCheck.of(MIX, VALUES, new double[] {0, Double.NaN, 1}).holds(1e9))
                .isFalse();
        assertThat(OptimumCheck.of(MIX, new double[] {2, NONE}, MULTIPLIERS).holds(1e9))
                .isFalse();
    }

    @Test
    void boundsOfVariablesCarryTheirReducedCosts() {
        LinearProgram.Builder builder = LinearProgram.builder();
        builder.variable("up", 0, 5, 2);
        builder.variable("down", -3, NONE, -1);
        LinearProgram program = builder.build();
        assertThat(OptimumCheck.of(program, new double[] {5, -3}, new double[0]).holds(0))
                .isTrue();
        assertThat(OptimumCheck.of(program, new double[] {5, -2}, new double[0]).most())
                .isEqualTo(13);
    }

    @Test
    void onlyAMaximumWithMultipliersCanBeChecked() {
        assertThatThrownBy(() -> OptimumCheck.of(LinearSolution.infeasible(MIX)))
                .hasMessage("only a maximum can be checked, this is infeasible");
        assertThatThrownBy(() -> OptimumCheck.of(LinearSolution.optimal(MIX, VALUES)))
                .hasMessage("no multipliers, without which nothing tells whether values are a maximum");
    }
}
