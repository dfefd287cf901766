package org.beefyield.estimate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.tuple;

import org.beefyield.BeefyieldException;
import org.beefyield.Serial;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Range;
import org.junit.jupiter.api.Test;

class RefusalTest {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(TestTables.small()));
    private static final YieldEstimator NARROW = YieldEstimator.of(YieldTable.of(TestTables.small().toBuilder()
            .ranges(TestTables.range(4, 12, 5, 11, 250, 450), TestTables.range(4, 12, 5, 11, 200, 500))
            .build()));

    private static Carcass carcass(String category, String conformation, String fatClass, double kg) {
        return Carcass.of(Category.parse(category), Conformation.parse(conformation), FatClass.parse(fatClass), kg)
                .withId("Tarrowmere 7");
    }

    private static RefusedCarcassException refused(YieldEstimator estimator, Carcass carcass) {
        return catchThrowableOfType(RefusedCarcassException.class, () -> estimator.estimate(carcass));
    }

    @Test
    void aCategoryThatIsNotServedNamesThoseThatAre() {
        Carcass calf = carcass("Z", "S+", "5+", 900);
        RefusedCarcassException exception = refused(ESTIMATOR, calf);
        assertThat(exception.carcass()).isEqualTo(calf);
        assertThat(exception.reasons()).hasSize(1);
        Refusal reason = exception.reasons().get(0);
        assertThat(reason.variable()).isEqualTo(Refusal.On.CATEGORY);
        assertThat(reason.variable().words()).isEqualTo("category");
        assertThat(reason.value()).isEqualTo("Z");
        assertThat(reason.number()).isEmpty();
        assertThat(reason.range()).isEmpty();
        assertThat(reason.categories()).containsExactlyInAnyOrder(Category.STEER, Category.HEIFER, Category.COW);
        assertThat(reason.isByPolicy()).isFalse();
        assertThat(reason.text()).isEqualTo("category Z is not served by table small, which serves C E D");
    }

    @Test
    void everyVariableOutsideTheAllowedRangeIsAReason() {
        RefusedCarcassException exception = refused(NARROW, carcass("C", "P=", "5-", 149.5));
        assertThat(exception.reasons())
                .extracting(Refusal::variable)
                .containsExactly(Refusal.On.CONFORMATION, Refusal.On.FAT_CLASS, Refusal.On.COLD_WEIGHT);
        assertThat(exception.reasons()).extracting(Refusal::value).containsExactly("P=", "5-", "149.5");
        assertThat(exception.reasons())
                .extracting(reason -> reason.number().orElseThrow())
                .containsExactly(2.0, 13.0, 149.5);
        assertThat(exception.reasons())
                .extracting(reason -> reason.range().orElseThrow())
                .containsExactly(new Range(4, 12), new Range(5, 11), new Range(200, 500));
        assertThat(exception.reasons()).noneMatch(Refusal::isByPolicy);
        assertThat(exception.reasons()).allMatch(reason -> reason.categories().isEmpty());
        assertThat(exception)
                .hasMessage("conformation P= is 2 points outside the allowed range O- to U+; "
                        + "fat class 5- is 2 points outside the allowed range 2= to 4=; "
                        + "cold weight 149.5 kg is 50.5 kg outside the allowed range 200 to 500 kg");
    }

    @Test
    void whatThePolicyAloneRefusesSaysSo() {
        YieldEstimator strict = ESTIMATOR.with(RangePolicy.REFUSE_OUTSIDE_FITTED);
        RefusedCarcassException exception = refused(strict, carcass("C", "R=", "1-", 340));
        Refusal reason = exception.reasons().get(0);
        assertThat(reason.variable()).isEqualTo(Refusal.On.FAT_CLASS);
        assertThat(reason.range()).contains(new Range(3, 13));
        assertThat(reason.isByPolicy()).isTrue();
        assertThat(reason).hasToString("fat class 1- is 2 points outside the fitted range 1+ to 5-");
        // what the table itself refuses goes before
        assertThat(refused(strict, carcass("C", "R=", "1-", 700)).reasons())
                .extracting(Refusal::variable, Refusal::isByPolicy)
                .containsExactly(tuple(Refusal.On.COLD_WEIGHT, false));
    }

    @Test
    void aCatchForBadInputDoesNotSwallowARefusal() {
        assertThatThrownBy(() -> ESTIMATOR.estimate(carcass("Z", "R=", "3=", 200)))
                .isInstanceOf(BeefyieldException.class)
                .isNotInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> YieldTable.of(TestTables.smallWithoutRows().build()))
                .isInstanceOf(InvalidTableException.class)
                .isInstanceOf(BeefyieldException.class);
    }

    @Test
    void tryingGivesTheEstimateOrTheReasons() {
        Carcass good = carcass("C", "S=", "3=", 340);
        TriedEstimate tried = ESTIMATOR.tryEstimate(good);
        assertThat(tried.carcass()).isEqualTo(good);
        assertThat(tried.reasons()).isEmpty();
        assertThat(tried.estimate().orElseThrow().kg("meat"))
                .isEqualTo(ESTIMATOR.estimate(good).kg("meat"));
        assertThat(tried.estimate().orElseThrow().rangeNotes())
                .isEqualTo(ESTIMATOR.estimate(good).rangeNotes())
                .hasSize(1);
        assertThat(tried.orElseThrow()).isSameAs(tried.estimate().orElseThrow());
        assertThat(tried).hasToString(ESTIMATOR.estimate(good).toString());

        Carcass bad = carcass("C", "R=", "3=", 700);
        TriedEstimate none = ESTIMATOR.tryEstimate(bad);
        assertThat(none.estimate()).isEmpty();
        assertThat(none.reasons()).isEqualTo(refused(ESTIMATOR, bad).reasons());
        assertThat(none)
                .hasToString(bad + " refused: cold weight 700 kg is 100 kg outside the allowed range 150 to 600 kg");
        RefusedCarcassException thrown = catchThrowableOfType(RefusedCarcassException.class, none::orElseThrow);
        assertThat(thrown.carcass()).isEqualTo(bad);
        assertThat(thrown).hasMessage("cold weight 700 kg is 100 kg outside the allowed range 150 to 600 kg");
    }

    @Test
    void aCollectorTriesToo() {
        LotEstimate.Collector collector = ESTIMATOR.collector();
        assertThat(collector.tryAdd(carcass("C", "R=", "3=", 340))).isEmpty();
        assertThat(collector.tryAdd(carcass("C", "R=", "3=", 700)))
                .extracting(Refusal::text)
                .containsExactly("cold weight 700 kg is 100 kg outside the allowed range 150 to 600 kg");
        assertThat(collector.tryAdd(carcass("C", "S=", "3=", 340))).isEmpty();
        LotEstimate lot = collector.lot();
        assertThat(lot.carcasses()).isEqualTo(2);
        assertThat(lot.outsideFitted()).isEqualTo(1);
        assertThat(lot.coldWeightKg()).isEqualTo(680);
    }

    @Test
    void aRefusalArrivesWithAllThatItHolds() {
        for (Carcass carcass : new Carcass[] {carcass("Z", "R=", "3=", 200), carcass("C", "R=", "3=", 700)}) {
            RefusedCarcassException exception = refused(ESTIMATOR, carcass);
            RefusedCarcassException arrived = Serial.copy(exception);
            assertThat(arrived).hasMessage(exception.getMessage());
            assertThat(arrived.carcass()).isEqualTo(carcass);
            assertThat(arrived.reasons()).isEqualTo(exception.reasons());
            assertThat(arrived.reasons()).hasSameHashCodeAs(exception.reasons());
        }
    }
}
