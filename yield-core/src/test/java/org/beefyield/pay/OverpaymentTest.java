package org.beefyield.pay;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.TestPrices;
import org.beefyield.price.Valuer;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

class OverpaymentTest {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));
    private static final Valuer VALUER = Valuer.of(TestPrices.BY_KIND, ESTIMATOR);
    private static final PaymentGrid FLAT =
            PaymentGrid.builder("EUR").base(null, 6).grade(null, null, null, 0).build();

    private static Carcass steer(String supplier, String conformation, String fat, double kg) {
        return Carcass.of(Category.STEER, Conformation.parse(conformation), FatClass.parse(fat), kg)
                .withSupplier(supplier)
                .withKillDate("2026-11-03");
    }

    private static Overpayment.Collector week(PaymentGrid grid, String fat) {
        Overpayment.Collector collector = Overpayment.collector(VALUER, grid);
        for (int i = 0; i < 40; i++) {
            collector.add(steer("Mere End", "R=", "3=", 340));
            collector.add(steer("Tarrow Bridge", "R=", "3=", 340));
            collector.add(steer("Fat Fold", "R=", fat, 340));
        }
        return collector;
    }

    /** One price for all: fat carcasses are worth less and paid the same, so that all of it is for fat. */
    @Test
    void whoIsTooFatIsOverpaidForFatAlone() {
        Overpayment overpayment = week(FLAT, "5+").result();
        PaidBeside first = overpayment.suppliers().get(0);

        assertThat(first.name()).isEqualTo("Fat Fold");
        assertThat(first.isOverpaid()).isTrue();
        assertThat(first.mainCause()).contains(PayCause.FAT_CLASS);
        PayEffect fat = first.effect(PayCause.FAT_CLASS);
        assertThat(fat.amount()).isCloseTo(first.beside(), within(1e-6));
        assertThat(fat.paid()).isCloseTo(0, within(1e-6));
        assertThat(fat.isOfPrice()).isFalse();
        assertThat(overpayment.suppliers().subList(1, 3)).noneMatch(PaidBeside::isOverpaid);
        assertThat(overpayment.sentences())
                .singleElement()
                .asString()
                .matches(
                        "Fat Fold: [0-9,]+ EUR overpaid beside the hall's average \\(90 % sure: .*\\), mostly for fat class:"
                                + " worth [0-9,]+ less, paid 0 more\\.");
        assertThat(overpayment.causes().get(PayCause.FAT_CLASS)).isEqualTo(fat);
        assertThat(overpayment.causes().get(PayCause.WEIGHT).amount()).isCloseTo(0, within(1e-6));
    }

    /** A grid that pays 60 cents more for a grade that is worth nothing more. */
    @Test
    void whatTheGridPaysForNothingIsThePrice() {
        PaymentGrid generous = PaymentGrid.builder("EUR")
                .base(null, 6)
                .grade(null, null, null, 0)
                .weight(null, 345.0, null, 0.6)
                .build();
        Overpayment.Collector collector = Overpayment.collector(VALUER, generous);
        for (int i = 0; i < 40; i++) {
            collector.add(steer("Mere End", "R=", "3=", 340));
            collector.add(steer("Tarrow Bridge", "R=", "3=", 340));
            collector.add(steer("Heavy Hill", "R=", "3=", 346));
        }
        Overpayment overpayment = collector.result();
        PaidBeside first = overpayment.suppliers().get(0);

        assertThat(first.name()).isEqualTo("Heavy Hill");
        assertThat(first.mainCause()).contains(PayCause.WEIGHT);
        assertThat(first.effect(PayCause.WEIGHT).isOfPrice()).isTrue();
        assertThat(overpayment.sentences().get(0)).contains("mostly for the price of weight: worth ");
    }

    /** What a grade is overpaid by the kg, its grid row would have to lose; each of its suppliers by its kg. */
    @Test
    void aGridChangeTakesWhatTheGradeIsOverpaid() {
        Overpayment overpayment = week(FLAT, "5+").result();
        GridChange change = overpayment.gridChanges().get(0);

        assertThat(overpayment.gridChanges()).hasSize(1);
        assertThat(Overpayment.words(change.grade())).isEqualTo("steers R 5");
        assertThat(change.perKg()).isNegative();
        assertThat(change.costs()).containsOnlyKeys("Fat Fold");
        assertThat(change.cost()).isCloseTo(-change.perKg() * 40 * 340, within(1e-6));
        assertThat(overpayment.toText()).contains("overpaid grade").contains("steers R 5");
    }

    @Test
    void nobodyIsAccusedWithoutSdsOrOthers() {
        assertThat(week(FLAT, "3=").result().suppliers()).noneMatch(PaidBeside::isOverpaid);
        assertThat(week(FLAT, "3=").result().sentences())
                .containsExactly("No supplier is overpaid beyond what chance makes.");
        Overpayment alone = Overpayment.collector(VALUER, FLAT)
                .add(steer("Mere End", "O-", "5+", 300))
                .result();
        assertThat(alone.suppliers().get(0).interval()).isNull();
        assertThat(alone.suppliers().get(0).isOverpaid()).isFalse();
    }

    @Test
    void beforeAndAfterStandSideBySide() {
        Overpayment before = week(FLAT, "3=").result();
        Overpayment after = week(FLAT, "5+").result().since(before);

        assertThat(after.baseline()).contains(before);
        assertThat(after.suppliers().get(0).changePerKg().orElseThrow()).isNegative();
        assertThat(after.suppliers().get(1).changePerKg().orElseThrow()).isCloseTo(0, within(1e-9));
        assertThat(after.toText()).contains("a kg more than before");
        assertThat(before.suppliers().get(0).changePerKg()).isEmpty();
    }

    @Test
    void aGridThatDoesntPayForTheReferenceIsRefusedInWords() {
        PaymentGrid cowsAlone = PaymentGrid.builder("EUR")
                .base(Category.COW, 5)
                .grade(null, Conformation.parse("P"), null, 0)
                .build();
        assertThatThrownBy(() -> Overpayment.collector(VALUER, cowsAlone))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("has in no category a base price and a grade row for conformation");
        assertThatThrownBy(() -> week(FLAT, "3=")
                        .add(Overpayment.collector(
                                VALUER,
                                PaymentGrid.builder("EUR")
                                        .base(null, 7)
                                        .grade(null, null, null, 0)
                                        .build())))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("one and the same valuer and payment grid");
        assertThat(List.of(Overpayment.collector(VALUER, FLAT).result().toString()))
                .containsExactly("no carcasses");
    }
}
