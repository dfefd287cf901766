package org.beefyield.carcass;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class EdgeRuleTest {
    @ParameterizedTest
    @CsvSource({
        // position, limit, rule, below, above
        "4L, 4L, LOWER, false, false",
        "4=, 4L, LOWER, false, false",
        "4,  4L, LOWER, false, false",
        "4H, 4L, LOWER, false, true",
        "4=, 4H, LOWER, true,  false",
        "4=, 4L, UPPER, false, true",
        "4=, 4H, UPPER, false, false",
        "4,  4H, UPPER, false, false",
        "4L, 4H, UPPER, true,  false",
        "3+, 3,  LOWER, false, false",
        "4-, 3,  UPPER, false, true"
    })
    void aGradeOnAnEdgeCountsToOneSide(String grade, String limit, EdgeRule rule, boolean below, boolean above) {
        FatClass fat = FatClass.parse(grade);
        FatClass part = FatClass.parse(limit);

        assertThat(rule.isBelow(fat, part)).isEqualTo(below);
        assertThat(rule.isAbove(fat, part)).isEqualTo(above);
    }

    @Test
    void aLimitWithoutWidthHoldsItsOwnPosition() {
        for (EdgeRule rule : EdgeRule.values()) {
            assertThat(rule.isBelow(FatClass.ofPosition(7.4, 1), FatClass.ofPosition(7.4, 0)))
                    .isFalse();
            assertThat(rule.isAbove(FatClass.ofPosition(7.4, 1), FatClass.ofPosition(7.4, 0)))
                    .isFalse();
            assertThat(rule.isBelow(Conformation.ofPosition(7.4, 1), Conformation.ofPosition(7.4, 0)))
                    .isFalse();
            assertThat(rule.isAbove(Conformation.ofPosition(7.4, 1), Conformation.ofPosition(7.4, 0)))
                    .isFalse();
        }
    }

    @Test
    void whatItDoesWithALimitIsSaidWhereClassesOrThirdsStandOnAnEdge() {
        Conformation half = Conformation.parse("U+", GradeReading.HALVES);

        assertThat(EdgeRule.LOWER.words(List.of(), List.of(FatClass.parse("4L"), FatClass.parse("4H"))))
                .containsExactly("4= and 4 count as 4L");
        assertThat(EdgeRule.UPPER.words(List.of(half), List.of(FatClass.parse("5H"))))
                .containsExactly("U= and U count as U+", "5= and 5 count as 5H");
        assertThat(EdgeRule.LOWER.words(List.of(half), List.of())).containsExactly("U= and U count as -U");
        assertThat(EdgeRule.UPPER.words(List.of(Conformation.parse("U+")), List.of(FatClass.parse("4"))))
                .isEmpty();
    }
}
