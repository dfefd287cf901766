package org.beefyield.lp;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.beefyield.lp.Programs.NONE;

import java.util.List;
import java.util.Map;
import org.beefyield.lp.Conflict.Shortfall;
import org.junit.jupiter.api.Test;

class ConflictTest {
    private static final LinearSolver SIMPLEX = new TinySimplex();

    /** Demands for one thing of which there is so much. */
    private static LinearProgram sharing(double supply, double... asked) {
        LinearProgram.Builder builder = LinearProgram.builder();
        int row = builder.row("supply", -NONE, supply);
        for (int demand = 0; demand < asked.length; demand++) {
            int variable = builder.variable("given " + demand, 0, NONE, 1);
            builder.add(row, variable, 1).add(builder.row("d" + demand, asked[demand], NONE), variable, 1);
        }
        return builder.build();
    }

    private static List<String> names(Conflict conflict) {
        return conflict.shortfalls().stream().map(Shortfall::demand).toList();
    }

    @Test
    void whatCanBeMetIsNoConflict() {
        assertThat(Conflict.of(SIMPLEX, sharing(100, 60, 40), List.of("d0", "d1")))
                .isEmpty();
    }

    @Test
    void theFewestAreNamedWithWhatIsMissing() {
        Conflict conflict = Conflict.of(SIMPLEX, sharing(100, 30, 60, 20, 50), List.of("d0", "d1", "d2", "d3"))
                .orElseThrow();
        assertThat(names(conflict)).containsExactly("d1", "d3");
        assertThat(conflict.isSmallest()).isTrue();
        assertThat(conflict.shortfalls().stream()
                        .mapToDouble(Shortfall::missing)
                        .sum())
                .isCloseTo(10, within(1e-9));
        assertThat(conflict).hasToString("conflict of 2 demands");
    }

    @Test
    void aDemandThatIsImpossibleAloneStandsAlone() {
        Conflict conflict = Conflict.of(SIMPLEX, sharing(100, 90, 120, 80), List.of("d0", "d1", "d2"))
                .orElseThrow();
        assertThat(conflict.shortfalls()).hasSize(1);
        assertThat(conflict.shortfalls().get(0).demand()).isEqualTo("d1");
        assertThat(conflict.shortfalls().get(0).asked()).isEqualTo(120);
        assertThat(conflict.shortfalls().get(0).reached()).isCloseTo(100, within(1e-9));
        assertThat(conflict.isSmallest()).isTrue();
    }

    @Test
    void weightsSayOfWhichLessIsMissing() {
        LinearProgram program = sharing(100, 60, 50);
        for (int spared = 0; spared < 2; spared++) {
            Conflict conflict = Conflict.of(SIMPLEX, program, Map.of("d" + spared, 5.0, "d" + (1 - spared), 1.0), 10)
                    .orElseThrow();
            assertThat(conflict.shortfalls().get(spared).missing()).isCloseTo(0, within(1e-9));
            assertThat(conflict.shortfalls().get(1 - spared).missing()).isCloseTo(10, within(1e-9));
        }
    }

    @Test
    void aProgramThatIsImpossibleWithoutDemandsSaysSo() {
        LinearProgram program = sharing(100, 60, 50);
        Conflict conflict = Conflict.of(SIMPLEX, program.withRow(0, -NONE, -1), List.of("d0", "d1"))
                .orElseThrow();
        assertThat(conflict.shortfalls()).isEmpty();
        assertThat(conflict.isSmallest()).isTrue();
    }

    @Test
    void withoutMoreProgramsTheSmallestFoundHasNoneThatCanBeLeftOut() {
        Conflict conflict = Conflict.of(
                        SIMPLEX, sharing(100, 30, 60, 20, 50), Map.of("d0", 1.0, "d1", 1.0, "d2", 1.0, "d3", 1.0), 0)
                .orElseThrow();
        assertThat(conflict.isSmallest()).isFalse();
        assertThat(names(conflict)).contains("d1");
        assertThat(conflict).hasToString("conflict of 2 demands, the smallest found");
    }

    @Test
    void whatIsNoDemandIsRefused() {
        LinearProgram program = sharing(100, 60);
        assertThatThrownBy(() -> Conflict.of(SIMPLEX, program, List.of("supply")))
                .hasMessage("row \"supply\" has no bound below that could be given up");
        assertThatThrownBy(() -> Conflict.of(SIMPLEX, program, List.of("d"))).hasMessageStartingWith("no row \"d\"");
        assertThatThrownBy(() -> Conflict.of(SIMPLEX, program, Map.of("d0", 0.0), 1))
                .hasMessage("weight of \"d0\": 0 is not a finite number above 0");
        assertThatThrownBy(() -> Conflict.of(SIMPLEX, program, Map.of("d0", 1.0), -1))
                .hasMessage("solves: -1 is below 0");
    }
}
