package org.beefyield.table.definition;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

class TermTest {
    @Test
    void aProductOfAVariableWithItselfIsRefused() {
        assertThatThrownBy(() -> new Term.Product("fat_squared", Variable.FAT, Variable.FAT))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(
                        "term fat_squared is a product of fat with itself; a product takes two different variables");
    }

    @Test
    void aHingeInWeightIsRefused() {
        assertThatThrownBy(() -> new Term.Hinge("heavy", Variable.WEIGHT, Term.Side.ABOVE, 400))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("term heavy is a hinge in weight; a hinge takes conformation or fat");
    }
}
