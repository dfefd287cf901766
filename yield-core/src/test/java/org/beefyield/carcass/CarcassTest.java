package org.beefyield.carcass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatNullPointerException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class CarcassTest {
    private static final Conformation R = Conformation.parse("R=");
    private static final FatClass FAT_3 = FatClass.parse("3+");
    private static final Carcass STEER = Carcass.of(Category.STEER, R, FAT_3, 342);

    @Test
    void aCarcassKeepsWhatItWasGiven() {
        Carcass carcass = STEER.withId("372")
                .withLot("Monday")
                .withSupplier("Hill Field")
                .withKillDate("2026-11-03")
                .withHall("Mereside")
                .withAgeMonths(26);

        assertThat(carcass.category()).isEqualTo(Category.STEER);
        assertThat(carcass.conformation()).isEqualTo(R);
        assertThat(carcass.fatClass()).isEqualTo(FAT_3);
        assertThat(carcass.coldWeightKg()).isEqualTo(342);
        assertThat(carcass.id()).contains("372");
        assertThat(carcass.lot()).contains("Monday");
        assertThat(carcass.supplier()).contains("Hill Field");
        assertThat(carcass.killDate()).contains("2026-11-03");
        assertThat(carcass.hall()).contains("Mereside");
        assertThat(carcass.ageMonths()).hasValue(26);
    }

    @Test
    void whatWasNotGivenIsEmpty() {
        assertThat(STEER.id()).isEmpty();
        assertThat(STEER.lot()).isEmpty();
        assertThat(STEER.supplier()).isEmpty();
        assertThat(STEER.killDate()).isEmpty();
        assertThat(STEER.hall()).isEmpty();
        assertThat(STEER.ageMonths()).isEmpty();
    }

    @Test
    void addingSomethingLeavesTheFirstCarcassAsItWas() {
        Carcass named = STEER.withId("372");

        assertThat(STEER.id()).isEmpty();
        assertThat(named).isNotSameAs(STEER);
    }

    @Test
    void itPrintsInOneLine() {
        assertThat(STEER).hasToString("C R= 3+ 342 kg");
        assertThat(STEER.withId("372").withLot("Monday").withAgeMonths(26)).hasToString("372 C R= 3+ 342 kg");
        assertThat(Carcass.of(Category.CALF, Conformation.ofPosition(7.4, 1), FatClass.parse("4H"), 150.25))
                .hasToString("Z 7.4p 4H 150.25 kg");
    }

    @Test
    void carcassesWithTheSameFactsAreEqual() {
        Carcass one = STEER.withId("1")
                .withLot("L")
                .withSupplier("S")
                .withKillDate("D")
                .withHall("H")
                .withAgeMonths(20);
        Carcass same = Carcass.of(Category.STEER, Conformation.parse("r ="), FatClass.parse("3 +"), 342.0)
                .withAgeMonths(20)
                .withHall("H")
                .withKillDate("D")
                .withSupplier("S")
                .withLot("L")
                .withId("1");

        assertThat(one).isEqualTo(same).hasSameHashCodeAs(same).isNotEqualTo(one.toString());
    }

    static Stream<Carcass> carcassesThatDifferInOneFact() {
        return Stream.of(
                Carcass.of(Category.HEIFER, R, FAT_3, 342),
                Carcass.of(Category.STEER, Conformation.parse("R"), FAT_3, 342),
                Carcass.of(Category.STEER, R, FatClass.parse("3"), 342),
                Carcass.of(Category.STEER, R, FAT_3, 342.5),
                STEER.withId("1"),
                STEER.withLot("1"),
                STEER.withSupplier("1"),
                STEER.withKillDate("1"),
                STEER.withHall("1"),
                STEER.withAgeMonths(20));
    }

    @ParameterizedTest
    @MethodSource("carcassesThatDifferInOneFact")
    void carcassesThatDifferInAnyFactAreNotEqual(Carcass other) {
        assertThat(other).isNotEqualTo(STEER);
        assertThat(STEER).isNotEqualTo(other);
    }

    @ParameterizedTest
    @CsvSource({
        "0,cold weight 0 kg is not above 0 and at most 1200 kg",
        "-0.0,cold weight 0 kg is not above 0 and at most 1200 kg",
        "-3,cold weight -3 kg is not above 0 and at most 1200 kg",
        "1200.5,cold weight 1200.5 kg is not above 0 and at most 1200 kg",
        "3400,cold weight 3400 kg is not above 0 and at most 1200 kg",
        "NaN,cold weight NaN kg is not above 0 and at most 1200 kg",
        "Infinity,cold weight Infinity kg is not above 0 and at most 1200 kg"
    })
    void whatIsNoColdWeightIsRefusedWithItsLimits(double kg, String message) {
        assertThatThrownBy(() -> Carcass.of(Category.STEER, R, FAT_3, kg))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }

    @Test
    void anAgeThatTheLawPutsElsewhereIsRefused() {
        assertThatThrownBy(() -> STEER.withAgeMonths(9))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("age 9 months does not fit category C (castrated male of 12 months and over)");
        assertThat(STEER.withAgeMonths(12).ageMonths()).hasValue(12);
    }

    @Test
    void nullIsRefusedByTheNameOfWhatIsMissing() {
        assertThatNullPointerException()
                .isThrownBy(() -> Carcass.of(null, R, FAT_3, 342))
                .withMessage("category");
        assertThatNullPointerException()
                .isThrownBy(() -> Carcass.of(Category.STEER, null, FAT_3, 342))
                .withMessage("conformation");
        assertThatNullPointerException()
                .isThrownBy(() -> Carcass.of(Category.STEER, R, null, 342))
                .withMessage("fatClass");
        assertThatNullPointerException().isThrownBy(() -> STEER.withId(null));
        assertThatNullPointerException().isThrownBy(() -> STEER.withLot(null));
        assertThatNullPointerException().isThrownBy(() -> STEER.withSupplier(null));
        assertThatNullPointerException()
                .isThrownBy(() -> STEER.withKillDate(null))
                .withMessage("newKillDate");
        assertThatNullPointerException().isThrownBy(() -> STEER.withHall(null)).withMessage("newHall");
    }

    @Test
    void aBlankKillDateOrHallIsRefused() {
        assertThatThrownBy(() -> STEER.withKillDate(" "))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the kill date is blank; it is a day such as 2026-11-03");
        assertThatThrownBy(() -> STEER.withHall(""))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the hall is blank; it is a name such as Mereside");
    }

    @Test
    void anotherGradeOrWeightLeavesAllElseAsItWas() {
        Carcass known = STEER.withId("1")
                .withLot("L")
                .withSupplier("S")
                .withKillDate("D")
                .withHall("H")
                .withAgeMonths(20)
                .withAssured(true);
        Conformation better = Conformation.parse("U-");
        FatClass leaner = FatClass.parse("2=");

        Carcass other = known.with(better).with(leaner).withColdWeightKg(350);

        assertThat(other.conformation()).isEqualTo(better);
        assertThat(other.fatClass()).isEqualTo(leaner);
        assertThat(other.coldWeightKg()).isEqualTo(350);
        assertThat(other).isNotEqualTo(known);
        assertThat(other.with(R).with(FAT_3).withColdWeightKg(342)).isEqualTo(known);
        assertThatThrownBy(() -> known.withColdWeightKg(0))
                .hasMessage("cold weight 0 kg is not above 0 and at most 1200 kg");
    }

    @Test
    void assuranceIsKnownOrNot() {
        Carcass carcass = Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3="), 340);

        assertThat(carcass.assured()).isEmpty();
        assertThat(carcass.withAssured(false).assured()).contains(false);
        assertThat(carcass.withAssured(true)).isNotEqualTo(carcass).isNotEqualTo(carcass.withAssured(false));
        assertThat(carcass.withAssured(true)
                        .withId("7")
                        .withLot("a")
                        .withSupplier("b")
                        .withKillDate("c")
                        .withHall("d")
                        .withAgeMonths(20)
                        .assured())
                .contains(true);
    }
}
