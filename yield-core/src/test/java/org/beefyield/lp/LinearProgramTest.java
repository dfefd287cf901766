package org.beefyield.lp;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.beefyield.lp.Programs.NONE;

import org.junit.jupiter.api.Test;

class LinearProgramTest {
    @Test
    void termsStandByRowAndVariableAddUpAndAreNeverZero() {
        LinearProgram.Builder builder = LinearProgram.builder();
        int a = builder.variable("a", 0, NONE, 1);
        int b = builder.variable("b", -NONE, 5, -2);
        int first = builder.row("first", 1, 2);
        int second = builder.row("second", 3, 3);
        builder.add(second, b, 4).add(second, a, 1).add(first, a, 2).add(second, a, 0.5);
        LinearProgram program = builder.add(first, b, 7).add(first, b, -7).build();

        assertThat(program).hasToString("maximum over 2 variables in 2 rows of 3 terms");
        assertThat(program.terms(first)).isOne();
        assertThat(program.termVariable(second, 0)).isEqualTo(a);
        assertThat(program.termCoefficient(second, 0)).isEqualTo(1.5);
        assertThat(program.termVariable(second, 1)).isEqualTo(b);
        assertThat(program.rowAt(second, new double[] {2, 10})).isEqualTo(43);
        assertThat(program.objectiveAt(new double[] {2, 10})).isEqualTo(-18);
        assertThat(program.row("second")).isEqualTo(second);
        assertThat(program.variableName(b)).isEqualTo("b");
        assertThat(program.low(b)).isEqualTo(-NONE);
        assertThat(program.high(b)).isEqualTo(5);
    }

    @Test
    void aRowsBoundsCanBeMovedAndAProgramAddedTo() {
        LinearProgram program = Programs.productMix();
        LinearProgram moved = program.withRow(program.row("plant 2"), 1, 14);
        LinearProgram.Builder builder = moved.toBuilder();
        builder.variable("frames", 0, 1, 1);
        LinearProgram more = builder.build();

        assertThat(program.rowHigh(1)).isEqualTo(12);
        assertThat(more.rowLow(1)).isEqualTo(1);
        assertThat(more.rowHigh(1)).isEqualTo(14);
        assertThat(more.variables()).isEqualTo(3);
        assertThat(more.terms()).isEqualTo(program.terms());
        assertThat(more.termCoefficient(2, 1)).isEqualTo(2);
    }

    @Test
    void whatCantBeMeantIsRefused() {
        LinearProgram.Builder builder = LinearProgram.builder();
        int a = builder.variable("a", 0, 1, 1);
        int row = builder.row("most", -NONE, 2);

        assertThatThrownBy(() -> builder.variable("a", 0, 1, 1)).hasMessage("a second variable \"a\"");
        assertThatThrownBy(() -> builder.row("most", 0, 1)).hasMessage("a second row \"most\"");
        assertThatThrownBy(() -> builder.variable("b", 2, 1, 1))
                .hasMessage("variable \"b\": no number lies from 2 to 1");
        assertThatThrownBy(() -> builder.row("r", Double.NaN, 1)).hasMessage("row \"r\": no number lies from NaN to 1");
        assertThatThrownBy(() -> builder.row("r", NONE, NONE))
                .hasMessage("row \"r\": no number lies from Infinity to Infinity");
        assertThatThrownBy(() -> builder.variable("b", 0, 1, NONE))
                .hasMessage("variable \"b\": Infinity in the objective is not a finite number");
        assertThatThrownBy(() -> builder.add(row, a, Double.NaN))
                .hasMessage("coefficient NaN of variable 0 in row 0 is not a finite number");
        assertThatThrownBy(() -> builder.add(1, a, 1)).isInstanceOf(IndexOutOfBoundsException.class);
        assertThatThrownBy(() -> builder.add(row, 1, 1)).isInstanceOf(IndexOutOfBoundsException.class);
        assertThatThrownBy(() -> builder.add(row, a, 1e308).add(row, a, 1e308).build())
                .hasMessage(
                        "coefficients of variable \"a\" in one row add up to Infinity, which is not a finite number");
    }

    @Test
    void aNameThatIsntThereIsAnsweredWithTheNearest() {
        LinearProgram program = Programs.productMix();
        assertThatThrownBy(() -> program.row("plant2"))
                .hasMessage("no row \"plant2\", nearest are plant 2, plant 1, plant 3");
        assertThatThrownBy(() -> program.variable("door"))
                .hasMessage("no variable \"door\", nearest are doors, windows");
        assertThatThrownBy(() -> program.rowAt(0, new double[1])).hasMessage("1 values for 2 variables");
    }
}
