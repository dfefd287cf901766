package org.beefyield.pay;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.EdgeRule;
import org.beefyield.carcass.FatClass;
import org.beefyield.carcass.GradeReading;
import org.beefyield.market.MarketSpecification;
import org.beefyield.price.Money;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class PaymentGridTest {
    @Test
    void everyRowCanBeReadAndAGridBeMadeOfThem() {
        PaymentGrid grid = PaymentGrid.builder("JPY")
                .decimals(0)
                .base(null, 612.5)
                .base(Category.COW, 500)
                .grade(null, Conformation.parse("R"), FatClass.parse("4L"), -0.1)
                .grade(null, null, null, 0)
                .weight(Category.STEER, 380.0, null, -0.3)
                .inSpecification(null, 0.1)
                .build()
                .with(EdgeRule.UPPER);
        assertThat(grid.rows())
                .extracting(PaymentGrid.Row::line)
                .containsExactly(
                        PaymentGrid.Line.BASE,
                        PaymentGrid.Line.BASE,
                        PaymentGrid.Line.GRADE,
                        PaymentGrid.Line.GRADE,
                        PaymentGrid.Line.WEIGHT,
                        PaymentGrid.Line.IN_SPECIFICATION);
        assertThat(grid.rows().get(2))
                .hasToString("every category, conformation R, fat class 4L")
                .isEqualTo(new PaymentGrid.Row(
                        PaymentGrid.Line.GRADE, null, Conformation.parse("R"), FatClass.parse("4L"), null, null, -0.1));
        PaymentGrid.Builder again = PaymentGrid.builder(grid.currency()).decimals(grid.decimals());
        for (PaymentGrid.Row row : grid.rows()) {
            switch (row.line()) {
                case BASE -> again.base(row.category(), row.perKg());
                case GRADE -> again.grade(row.category(), row.conformation(), row.fatClass(), row.perKg());
                case WEIGHT -> again.weight(row.category(), row.fromKg(), row.toKg(), row.perKg());
                case IN_SPECIFICATION -> again.inSpecification(row.category(), row.perKg());
            }
        }
        assertThat(again.build().with(grid.edge())).isEqualTo(grid).hasSameHashCodeAs(grid);
        assertThat(again.build()).isNotEqualTo(grid);
    }

    @Test
    void whatNoPlantPaysIsRefusedByNameAndValue() {
        PaymentGrid.Builder builder = PaymentGrid.builder("EUR");
        assertThatThrownBy(() -> builder.base(null, 1e15))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("base price 1000000000000000 for every category is outside -1000000000 to 1000000000");
        assertThatThrownBy(() -> builder.grade(Category.COW, null, null, Double.POSITIVE_INFINITY))
                .hasMessage("grade difference Infinity for category D is not a finite number");
        assertThatThrownBy(() -> builder.weight(null, 300.0, Double.POSITIVE_INFINITY, 0.1))
                .hasMessage("weight band from 300.0 to Infinity kg: both are finite, or null for no limit");
        assertThatThrownBy(() -> builder.weight(null, Double.NaN, null, 0.1))
                .hasMessage("weight band from NaN to null kg: both are finite, or null for no limit");
    }

    private static Conformation conformation(String text) {
        return Conformation.parse(text);
    }

    private static FatClass fat(String text) {
        return FatClass.parse(text);
    }

    private static Carcass carcass(Category category, String conformation, String fatClass, double kg) {
        return Carcass.of(category, conformation(conformation), fat(fatClass), kg);
    }

    private static Carcass steer(String conformation, String fatClass, double kg) {
        return carcass(Category.STEER, conformation, fatClass, kg);
    }

    private static PaymentGrid.Builder flat() {
        return PaymentGrid.builder("EUR").base(null, 4).grade(null, null, null, 0);
    }

    private static double grade(PaymentGrid grid, Carcass carcass) {
        return grid.paid(carcass).lines().get(1).perKg();
    }

    @Test
    void paymentIsBaseGradeWeightAndBonusTimesTheColdWeight() {
        PaymentGrid grid = flat().base(Category.STEER, 4.2)
                .grade(null, conformation("U"), fat("3"), 0.3)
                .weight(null, 320.0, 400.0, 0.05)
                .inSpecification(null, 0.1)
                .build()
                .with(carcass -> carcass.coldWeightKg() < 350);
        Payment payment = grid.paid(steer("U=", "3=", 341.3));

        assertThat(payment.lines())
                .containsExactly(
                        new Payment.Line("Base price", 4.2),
                        new Payment.Line("Grade", 0.3),
                        new Payment.Line("Weight", 0.05),
                        new Payment.Line("In specification", 0.1));
        assertThat(payment.perKg()).isEqualByComparingTo("4.65");
        // 4.65 * 341.3 = 1587.045, half up
        assertThat(payment.money()).isEqualTo(Money.of(new BigDecimal("1587.05"), "EUR"));
        assertThat(payment).hasToString("C U= 3= 341.3 kg: 1587.05 EUR paid, 4.65 a kg");
        assertThat(grid.paid(steer("R=", "3=", 360)).perKg()).isEqualByComparingTo("4.25");
        assertThat(grid.paid(carcass(Category.COW, "R=", "3=", 300)).perKg()).isEqualByComparingTo("4.1");
    }

    @Test
    void theNarrowestRowThatHoldsTheCarcassCounts() {
        PaymentGrid grid = flat().grade(null, conformation("R"), null, 1)
                .grade(null, null, fat("4"), 2)
                .grade(null, conformation("R"), fat("4"), 3)
                .grade(null, conformation("R="), fat("4"), 4)
                .grade(null, conformation("R="), fat("4H"), 5)
                .build();

        assertThat(grade(grid, steer("P=", "1", 300))).isZero();
        assertThat(grade(grid, steer("R-", "3", 300))).isEqualTo(1);
        assertThat(grade(grid, steer("U=", "4H", 300))).isEqualTo(2);
        assertThat(grade(grid, steer("R+", "4", 300))).isEqualTo(3);
        assertThat(grade(grid, steer("R=", "4L", 300))).isEqualTo(4);
        assertThat(grade(grid, steer("R", "4L", 300))).isEqualTo(4);
        assertThat(grade(grid, steer("R=", "4H", 300))).isEqualTo(5);
    }

    @Test
    void aRowOfTheCategoryGoesBeforeANarrowerOneForAll() {
        PaymentGrid grid = flat().grade(null, conformation("R="), fat("3="), 1)
                .grade(Category.COW, null, null, -2)
                .build();

        assertThat(grade(grid, carcass(Category.COW, "R=", "3=", 300))).isEqualTo(-2);
        assertThat(grade(grid, steer("R=", "3=", 300))).isEqualTo(1);
    }

    @Test
    void anEdgeCountsToTheLowerRowUnlessTheCallerSaysOtherwise() {
        PaymentGrid grid = flat().grade(null, conformation("R"), null, 1)
                .grade(null, conformation("U"), null, 2)
                .weight(null, null, 250.0, -0.5)
                .weight(null, 250.0, 300.0, 0.5)
                .build();
        // R covers 6.5 to 9.5 on the 18-point scale, U 9.5 to 12.5
        assertThat(grade(grid, at(6.5))).isZero();
        assertThat(grade(grid, at(6.501))).isEqualTo(1);
        assertThat(grade(grid, at(9.5))).isEqualTo(1);
        assertThat(grade(grid, at(9.501))).isEqualTo(2);
        assertThat(grade(grid, at(12.5))).isEqualTo(2);
        PaymentGrid upper = grid.with(EdgeRule.UPPER);
        assertThat(grade(upper, at(6.499))).isZero();
        assertThat(grade(upper, at(6.5))).isEqualTo(1);
        assertThat(grade(upper, at(9.499))).isEqualTo(1);
        assertThat(grade(upper, at(9.5))).isEqualTo(2);
        assertThat(grade(upper, at(12.5))).isZero();
        assertThat(upper).isNotEqualTo(grid).isEqualTo(grid.with(EdgeRule.UPPER));
        assertThat(weight(grid, 249.9)).isEqualTo(-0.5);
        assertThat(weight(grid, 250)).isEqualTo(0.5);
        assertThat(weight(grid, 300)).isZero();
    }

    private static Carcass at(double conformation) {
        return Carcass.of(Category.STEER, Conformation.ofPosition(conformation, 0), fat("3="), 260);
    }

    private static double weight(PaymentGrid grid, double kg) {
        return grid.paid(steer("P=", "3=", kg)).lines().get(2).perKg();
    }

    @Test
    void halvesOfAClassAreRowsToo() {
        Conformation lower = Conformation.parse("-U", GradeReading.HALVES);
        PaymentGrid grid = flat().grade(null, lower, null, 1).build();

        assertThat(grade(grid, at(11))).isEqualTo(1);
        assertThat(grade(grid, at(11.1))).isZero();
        assertThat(grade(grid.with(EdgeRule.UPPER), at(11))).isZero();
    }

    @Test
    void rowsThatSayTwoThingsOfOneCarcassAreRefused() {
        refused(
                flat().grade(null, conformation("U+"), fat("3"), 1),
                builder -> builder.grade(null, conformation("U"), fat("3="), 2),
                "grade differences for every category, conformation U+, fat class 3 and for every category,"
                        + " conformation U, fat class 3= cover as much as each other and share a part; one of them must be"
                        + " narrower, or go");
        refused(
                flat(),
                builder -> builder.grade(null, null, null, 0),
                "grade differences for every category and for every category cover as much as each other and share a"
                        + " part; one of them must be narrower, or go");
        refused(flat(), builder -> builder.base(null, 5), "base price for every category is given twice: 4 and 5");
        refused(
                flat().inSpecification(Category.COW, 0.1),
                builder -> builder.inSpecification(Category.COW, 0.2),
                "bonus for being in specification for category D is given twice: 0.1 and 0.2");
        refused(
                flat().weight(null, null, 250.0, 0),
                builder -> builder.weight(null, 249.0, 300.0, 0),
                "weight bands for every category, under 250 kg and for every category, from 249 kg, under 300 kg"
                        + " overlap; a weight has one band");
        flat().weight(null, null, 250.0, 0).weight(Category.COW, 249.0, 300.0, 0);
    }

    private interface Change {
        void to(PaymentGrid.Builder builder);
    }

    private static void refused(PaymentGrid.Builder builder, Change change, String message) {
        assertThatThrownBy(() -> change.to(builder))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }

    @Test
    void rowsThatMeanNothingAreRefused() {
        refused(
                flat(),
                builder -> builder.grade(null, Conformation.ofPosition(7.4, 0), null, 1),
                "grade difference for every category, conformation 7.4p width 0 covers nothing of the scale; give a class, a"
                        + " third or a half of one");
        refused(
                flat(),
                builder -> builder.weight(null, 300.0, 300.0, 1),
                "weight band from 300 to 300 kg holds no weight; two ascending weights are needed");
        refused(
                flat(),
                builder -> builder.base(Category.COW, Double.NaN),
                "base price NaN for category D is not a finite number");
        assertThatThrownBy(() -> PaymentGrid.builder("EUR").build()).hasMessage("a payment grid needs a base price");
        assertThatThrownBy(() -> PaymentGrid.builder("EUR").base(null, 4).build())
                .hasMessage("a payment grid needs a grade difference; one price for all grades is a difference of 0 for"
                        + " every conformation and fat class");
    }

    @Test
    void aCarcassThatTheGridDoesNotKnowIsNamed() {
        PaymentGrid grid = PaymentGrid.builder("EUR")
                .base(Category.STEER, 4)
                .grade(null, conformation("R"), null, 0)
                .build();

        assertRefused(
                grid,
                carcass(Category.COW, "R=", "3=", 300).withId("TM-1"),
                "the payment grid has no base price for category D, carcass TM-1 D R= 3= 300 kg");
        assertRefused(
                grid,
                steer("U=", "3=", 300).withId("TM-2"),
                "the payment grid has no row for the grade of carcass TM-2 C U= 3= 300 kg; one without conformation and"
                        + " fat class holds every grade");
    }

    private static void assertRefused(PaymentGrid grid, Carcass carcass, String message) {
        assertThatThrownBy(() -> grid.paid(carcass))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }

    @Test
    void aBonusNeedsToKnowWhatIsInSpecification() {
        PaymentGrid grid = flat().inSpecification(null, 0.1).build();

        assertThat(grid.asksForSpecification()).isTrue();
        assertThatThrownBy(() -> grid.paid(steer("R=", "3=", 300)))
                .isInstanceOf(IllegalStateException.class)
                .hasMessage("the payment grid has a bonus for being in specification, but not what is in specification;"
                        + " give it a test: PaymentGrid.with(specification)");
        MarketSpecification market =
                MarketSpecification.builder("retail").coldWeightKg(280, 360).build();
        assertThat(grid.with(market).paid(steer("R=", "3=", 300)).perKg()).isEqualByComparingTo("4.1");
        assertThat(grid.with(market).paid(steer("R=", "3=", 400)).perKg()).isEqualByComparingTo("4");
    }

    @Test
    void theLinesOfAPaymentAddUpAsPrinted() {
        PaymentGrid grid = flat().base(Category.STEER, 4.123)
                .grade(null, conformation("O"), null, -0.077)
                .weight(null, null, 300.0, -0.111)
                .build();
        for (double kg : new double[] {251.3, 266.7, 299.9, 311.1, 402.5}) {
            Payment payment = grid.paid(steer("O+", "2-", kg));
            assertThat(sum(payment.table().toText(), 2))
                    .isEqualTo(payment.money().amount());
            assertThat(payment.toText()).contains(payment.money() + " paid");
            assertThat(payment.toHtml()).contains(">" + payment.money().amountText() + "<");
        }
    }

    /** The sum of the last cells of a text table, the total apart, which must be there. */
    static BigDecimal sum(String table, int headerLines) {
        List<String> lines = table.lines().toList();
        BigDecimal sum = BigDecimal.ZERO;
        for (String line : lines.subList(headerLines, lines.size() - 2)) {
            sum = sum.add(new BigDecimal(line.substring(line.lastIndexOf(' ') + 1)));
        }
        assertThat(lines.get(lines.size() - 1)).endsWith(" " + sum.toPlainString());
        return sum;
    }

    @Test
    void namesAreEscaped() {
        Carcass tag = steer("R=", "3=", 300).withId("<b>\"7\"");
        assertThat(flat().build().paid(tag).toHtml())
                .contains("&lt;b&gt;&quot;7&quot;")
                .doesNotContain("<b>");
    }

    @Test
    void gridsOfTheSameRowsAreEqual() {
        @Nullable Category all = null;
        assertThat(flat().build()).isEqualTo(flat().build()).hasSameHashCodeAs(flat().build());
        assertThat(flat().build())
                .isNotEqualTo(flat().weight(all, 1.0, 2.0, 1).build())
                .hasToString("payment grid of 2 rows in EUR per kg");
    }
}
