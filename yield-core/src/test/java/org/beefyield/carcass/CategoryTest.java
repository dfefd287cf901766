package org.beefyield.carcass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class CategoryTest {
    @Test
    void theLettersStandForTheSexesAndAgesOfTheLaw() {
        assertThat(Category.parse("A")).isEqualTo(Category.YOUNG_BULL);
        assertThat(Category.parse("B")).isEqualTo(Category.BULL);
        assertThat(Category.parse("C")).isEqualTo(Category.STEER);
        assertThat(Category.parse("D")).isEqualTo(Category.COW);
        assertThat(Category.parse("E")).isEqualTo(Category.HEIFER);
        assertThat(Category.parse("Z")).isEqualTo(Category.CALF);
    }

    @ParameterizedTest
    @EnumSource
    void aLetterIsReadBackAsItPrintsInEitherCaseAndWithBlanksAround(Category category) {
        assertThat(category.toString()).isEqualTo(category.letter()).hasSize(1);
        assertThat(Category.parse(category.toString())).isEqualTo(category);
        assertThat(Category.parse(" " + category.letter().toLowerCase(Locale.ROOT) + "\t"))
                .isEqualTo(category);
    }

    @ParameterizedTest
    @CsvSource({"C,12", "C,200", "A,12", "A,23", "B,24", "D,0", "D,24", "E,12", "Z,8", "Z,11"})
    void anAgeInsideTheLimitsPasses(String letter, int ageMonths) {
        assertThatCode(() -> Category.parse(letter).checkAge(ageMonths)).doesNotThrowAnyException();
    }

    @ParameterizedTest
    @CsvSource({
        "C,9,castrated male of 12 months and over",
        "C,11,castrated male of 12 months and over",
        "A,11,uncastrated male from 12 to under 24 months",
        "A,24,uncastrated male from 12 to under 24 months",
        "B,23,uncastrated male of 24 months and over",
        "D,-1,female that has calved",
        "E,11,other female of 12 months and over",
        "Z,7,'from 8 to under 12 months, either sex'",
        "Z,12,'from 8 to under 12 months, either sex'"
    })
    void anAgeOutsideTheLimitsIsRefusedWithWhatTheCategoryHolds(String letter, int ageMonths, String definition) {
        assertThatThrownBy(() -> Category.parse(letter).checkAge(ageMonths))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("age " + ageMonths + " months does not fit category " + letter + " (" + definition + ")");
        assertThat(Category.parse(letter).definition()).isEqualTo(definition);
    }

    @ParameterizedTest
    @ValueSource(strings = {"F", "", " ", "CC", "C A", "steer", "1", "\u0421"})
    void whatIsNoLetterOfTheLawIsRefusedWithTheLettersThereAre(String text) {
        assertThatThrownBy(() -> Category.parse(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("category \"" + text + "\" is none of C A B D E Z");
    }
}
