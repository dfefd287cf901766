package org.beefyield.pay;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.beefyield.price.TestPrices.steer;

import java.util.List;
import java.util.Locale;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.PriceList;
import org.beefyield.price.TestPrices;
import org.beefyield.price.Valuer;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.junit.jupiter.api.Test;

class GradeDifferentialsTest {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(YieldTable.of(TestTables.threeLevels()));

    private static final PriceList PRICES =
            TestPrices.BY_KIND.toBuilder().otherPerHead("Slaughter", -60).build();

    private static final Valuer VALUER = Valuer.of(PRICES, ESTIMATOR);

    private static final Carcass BASE = steer("R=", "3=", 340);

    @Test
    void everyCellIsTheValueOfItsGradeAgainstTheBase() {
        GradeDifferentials classes = GradeDifferentials.classes(VALUER, BASE);
        GradeDifferentials thirds = GradeDifferentials.thirds(VALUER, BASE);
        double base = VALUER.value(BASE).perKg();

        assertThat(classes.conformations()).hasSize(6).first().hasToString("S");
        assertThat(classes.fatClasses()).hasSize(5).first().hasToString("1");
        assertThat(thirds.conformations()).hasSize(18).first().hasToString("S+");
        assertThat(thirds.fatClasses()).hasSize(15).last().hasToString("5+");
        for (GradeDifferentials each : List.of(classes, thirds)) {
            double[][] perKg = each.perKg();
            double[][] percent = each.percent();
            double[][] values = each.valuePerKg();
            for (int i = 0; i < perKg.length; i++) {
                for (int j = 0; j < perKg[i].length; j++) {
                    double value = VALUER.value(Carcass.of(
                                    Category.STEER,
                                    each.conformations().get(i),
                                    each.fatClasses().get(j),
                                    340))
                            .perKg();
                    assertThat(values[i][j]).isEqualTo(value);
                    assertThat(perKg[i][j]).isCloseTo(value - base, within(1e-12));
                    assertThat(percent[i][j]).isCloseTo(100 * (value - base) / base, within(1e-9));
                }
            }
        }
        assertThat(classes.perKg()[3][2]).isZero();
        assertThat(classes.perKg()[2][2]).isPositive();
        assertThat(classes.perKg()[4][2]).isNegative();
    }

    @Test
    void besideAGridEveryCellSaysWhatIsPaidAndTheGap() {
        PaymentGrid grid = PaymentGrid.builder("EUR")
                .base(null, 4.1)
                .grade(null, Conformation.parse("R"), null, 0)
                .grade(null, Conformation.parse("U"), null, 0.12)
                .grade(null, Conformation.parse("U"), FatClass.parse("4"), 0.02)
                .weight(null, 300.0, null, 0.5)
                .build();
        GradeDifferentials beside = GradeDifferentials.classes(VALUER, BASE).beside(grid);
        double[][] paid = beside.paidPerKg().orElseThrow();
        double[][] gap = beside.gapPerKg().orElseThrow();

        assertThat(paid[3]).containsExactly(0, 0, 0, 0, 0);
        assertThat(paid[2]).containsExactly(new double[] {0.12, 0.12, 0.12, 0.02, 0.12}, within(1e-12));
        assertThat(paid[4]).containsOnly(Double.NaN);
        assertThat(gap[2][3]).isCloseTo(beside.perKg()[2][3] - 0.02, within(1e-12));
        assertThat(gap[4]).containsOnly(Double.NaN);
        assertThat(GradeDifferentials.classes(VALUER, BASE).gapPerKg()).isEmpty();
    }

    @Test
    void marginalsAreFiniteDifferencesOfTheValue() {
        for (Carcass carcass : List.of(BASE, steer("U+", "2-", 291.4), steer("O", "4H", 455))) {
            Marginals marginals = Marginals.of(VALUER, carcass);
            double c = carcass.conformation().position();
            double f = carcass.fatClass().position();
            double w = carcass.coldWeightKg();

            assertThat(marginals.conformationPoint().amount())
                    .isCloseTo(value(c + 0.5, f, w) - value(c - 0.5, f, w), within(1e-9));
            assertThat(marginals.conformationPoint().perKg())
                    .isCloseTo(marginals.conformationPoint().amount() / w, within(1e-12));
            assertThat(marginals.fatPoint().amount())
                    .isCloseTo(value(c, f + 0.5, w) - value(c, f - 0.5, w), within(1e-9));
            assertThat(marginals.tenKg().amount()).isCloseTo(value(c, f, w + 5) - value(c, f, w - 5), within(1e-9));
            assertThat(marginals.tenKg().perKg())
                    .isCloseTo(value(c, f, w + 5) / (w + 5) - value(c, f, w - 5) / (w - 5), within(1e-12));
        }
        assertThat(GradeDifferentials.classes(VALUER, BASE).marginals()).isEqualTo(Marginals.of(VALUER, BASE));
        assertThat(GradeDifferentials.classes(VALUER, BASE).marginals(Conformation.parse("U+"), FatClass.parse("2-")))
                .isEqualTo(Marginals.of(VALUER, steer("U+", "2-", 340)));
    }

    private static double value(double conformation, double fat, double kg) {
        return VALUER.value(Carcass.of(
                        Category.STEER, Conformation.ofPosition(conformation, 0), FatClass.ofPosition(fat, 0), kg))
                .amount();
    }

    @Test
    void marginalsAreCutAtTheEndsOfTheRange() {
        Marginals best = Marginals.of(VALUER, steer("S+", "1-", 600));

        assertThat(best.conformationPoint().amount())
                .isCloseTo(2 * (value(18, 1, 600) - value(17.5, 1, 600)), within(1e-9));
        assertThat(best.fatPoint().amount()).isCloseTo(2 * (value(18, 1.5, 600) - value(18, 1, 600)), within(1e-9));
        assertThat(best.tenKg().amount()).isCloseTo(2 * (value(18, 1, 600) - value(18, 1, 595)), within(1e-9));
    }

    @Test
    void aBaseThatIsWorthNothingIsRefused() {
        Valuer nothing = Valuer.of(PRICES.times(0), ESTIMATOR);
        assertThatThrownBy(() -> GradeDifferentials.classes(nothing, BASE))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(
                        "the base C R= 3= 340 kg is worth 0 a kg; differentials need a base that is worth more than 0");
        assertThatThrownBy(() -> GradeDifferentials.classes(VALUER, steer("R=", "3=", 700)))
                .isInstanceOf(RefusedCarcassException.class);
    }

    @Test
    void aGridThatDoesNotPayTheBaseOrInThatCurrencyIsRefused() {
        PaymentGrid.Builder unpaid =
                PaymentGrid.builder("EUR").base(null, 4).grade(null, Conformation.parse("U"), null, 0);
        PaymentGrid pounds = PaymentGrid.builder("GBP")
                .base(null, 4)
                .grade(null, null, null, 0)
                .build();
        GradeDifferentials classes = GradeDifferentials.classes(VALUER, BASE);

        assertThatThrownBy(() -> classes.beside(unpaid.build()))
                .hasMessageStartingWith("the payment grid has no row for the grade of carcass C R= 3= 340 kg");
        assertThatThrownBy(() -> classes.beside(pounds)).hasMessageStartingWith("amounts in EUR and in GBP");
    }

    @Test
    void theTextHasATableForEachFigureAndTheMarginals() {
        PaymentGrid grid = PaymentGrid.builder("EUR")
                .base(null, 4)
                .grade(null, Conformation.parse("R"), null, 0)
                .build();
        GradeDifferentials classes = GradeDifferentials.classes(VALUER, BASE);
        String text = classes.beside(grid).toText();
        Marginals marginals = classes.marginals();

        assertThat(text)
                .startsWith("Grades of category C at 340 kg against R= 3=, worth "
                        + String.format(Locale.ROOT, "%.3f", VALUER.value(BASE).perKg()) + " EUR a kg\n")
                .contains("one point of conformation "
                        + String.format(
                                Locale.ROOT,
                                "%.2f EUR a head, %.3f a kg; one point of fat %.2f EUR a head",
                                marginals.conformationPoint().amount(),
                                marginals.conformationPoint().perKg(),
                                marginals.fatPoint().amount()))
                .contains("\nWorth more than the base, EUR a kg\n")
                .contains("\nWorth more than the base, %\n")
                .contains("\nPaid more than the base, EUR a kg\n")
                .contains("\nPaid too little beside the base, EUR a kg; below 0 too much\n");
        assertThat(classes.toText()).doesNotContain("aid");
        assertThat(classes.beside(grid).toHtml()).contains("<p>Paid more than the base, EUR a kg</p>");
    }

    @Test
    void namesAreEscaped() {
        Valuer odd = Valuer.of(
                PriceList.builder("<EUR>")
                        .kind(CutKind.STEAK, 22)
                        .kind(CutKind.JOINT, 14)
                        .kind(CutKind.DICE, 9)
                        .kind(CutKind.LEAN_TRIM, 5)
                        .kind(CutKind.FAT_TRIM, 0.3)
                        .kind(CutKind.BONE, -0.1)
                        .kind(CutKind.LOSS, 0)
                        .build(),
                ESTIMATOR);
        assertThat(GradeDifferentials.classes(odd, BASE).toHtml())
                .contains("&lt;EUR&gt;")
                .doesNotContain("<EUR>");
    }
}
