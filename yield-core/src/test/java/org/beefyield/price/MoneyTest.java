package org.beefyield.price;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import org.beefyield.Serial;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.pay.GradeDifferentials;
import org.beefyield.pay.MarginReport;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.table.TestTables;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Numbers;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class MoneyTest {
    private static Money eur(String amount) {
        return Money.of(new BigDecimal(amount), "EUR");
    }

    @ParameterizedTest
    @CsvSource({
        "306170, 2, EUR, 306170.00 EUR",
        "306170.4, 0, JPY, 306170 JPY",
        "0.005, 2, EUR, 0.01 EUR",
        "-0.005, 2, EUR, -0.01 EUR",
        "-0.001, 2, EUR, 0.00 EUR",
        "1.0055, 3, KWD, 1.006 KWD",
        "12345678901234, 2, EUR, 12345678901234.00 EUR"
    })
    void anAmountHasTheDecimalsOfItsList(double amount, int decimals, String currency, String printed) {
        assertThat(Money.rounded(amount, decimals, currency)).hasToString(printed);
        assertThat(PriceList.builder(currency).decimals(decimals).build().money(amount))
                .hasToString(printed)
                .isEqualTo(Money.rounded(amount, decimals, currency));
    }

    @Test
    void moneyIsEqualByNumberAndCurrency() {
        assertThat(eur("306170")).isEqualTo(eur("306170.00")).hasSameHashCodeAs(eur("306170.00"));
        assertThat(eur("0.00")).isEqualTo(eur("0")).hasSameHashCodeAs(eur("0"));
        assertThat(eur("1")).isNotEqualTo(eur("1.01")).isNotEqualTo(Money.of(BigDecimal.ONE, "JPY"));
        assertThat(eur("1e3")).hasToString("1000 EUR");
        assertThat(eur("1.50").amount()).isEqualTo(new BigDecimal("1.50"));
        assertThat(eur("1.50").currency()).isEqualTo("EUR");
        assertThat(Serial.copy(eur("1.50"))).isEqualTo(eur("1.50")).hasToString("1.50 EUR");
    }

    @Test
    void moneyOfOneCurrencyAddsUpAndCompares() {
        assertThat(eur("1.50").plus(eur("0.75"))).hasToString("2.25 EUR");
        assertThat(eur("1.5").minus(eur("0.75"))).hasToString("0.75 EUR");
        assertThat(eur("0.75").minus(eur("1.5")).signum()).isEqualTo(-1);
        assertThat(eur("0.75").minus(eur("1.5")).abs())
                .isEqualTo(eur("0.75").minus(eur("1.5")).negate());
        assertThat(eur("1.5")).isLessThan(eur("1.51")).isEqualByComparingTo(eur("1.50"));
    }

    @Test
    void moneyOfTwoCurrenciesDoesNotGoTogether() {
        Money yen = Money.of(BigDecimal.TEN, "JPY");
        String message = "amounts in EUR and in JPY don't go together; bring them to one currency first";
        assertThatThrownBy(() -> eur("1").plus(yen)).hasMessage(message);
        assertThatThrownBy(() -> eur("1").minus(yen)).hasMessage(message);
        assertThatThrownBy(() -> eur("1").compareTo(yen))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(message);
    }

    @Test
    void whatIsNoMoneyIsRefused() {
        assertThatThrownBy(() -> Money.rounded(Double.NaN, 2, "EUR"))
                .hasMessage("amount NaN of money is not a finite number");
        assertThatThrownBy(() -> Money.rounded(1, -1, "EUR")).hasMessage("decimals of an amount -1 are below 0");
        assertThatThrownBy(() -> Money.of(BigDecimal.ONE, " "))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the label of a currency is blank; give one, such as EUR");
        assertThatThrownBy(() -> PriceList.builder(""))
                .hasMessage("the label of a currency is blank; give one, such as EUR");
    }

    @Nested
    class WithoutDecimals {
        private final PriceList yen = TestPrices.BY_KIND.toBuilder()
                .decimals(0)
                .currency("JPY")
                .build()
                .times(150);

        private final Valuer valuer = Valuer.of(yen, YieldEstimator.of(YieldTable.of(TestTables.threeLevels())));

        private final PaymentGrid grid = PaymentGrid.builder("JPY")
                .decimals(0)
                .base(null, 612.5)
                .grade(null, null, null, 0)
                .build();

        @Test
        void noAmountHasAny() {
            Value value = valuer.value(TestPrices.steer("R=", "3=", 340.3));
            String amount = value.money().amountText();
            assertThat(amount).matches("[0-9]+");
            assertThat(value)
                    .hasToString(value.toString())
                    .asString()
                    .startsWith("Worth " + Numbers.grouped(amount) + " JPY, ");
            assertThat(value.toText()).containsPattern("Total +" + Numbers.grouped(amount) + "\n");
            assertThat(grid.paid(TestPrices.steer("R=", "3=", 340.3)))
                    .hasToString("C R= 3= 340.3 kg: 208434 JPY paid, 612.5 a kg");
            assertThat(grid.paid(TestPrices.steer("R=", "3=", 340.3)).toText())
                    .containsPattern("Base price +612.5 +208434\n")
                    .containsPattern("Paid +612.5 +208434\n");
            MarginReport report = MarginReport.collector(valuer, grid)
                    .add(TestPrices.steer("R=", "3=", 340.3))
                    .result();
            assertThat(report.total().orElseThrow().paidMoney()).hasToString("208434 JPY");
            assertThat(report.toString())
                    // rounded to what its interval leaves sure
                    .startsWith("1 carcass: margin 96,000 JPY, "
                            + perKg(report.total().orElseThrow().perKg()) + " a kg; 90 % sure, prices as given: ")
                    .containsPattern("given: [0-9,]+ to [0-9,]+$");
            GradeDifferentials grades = GradeDifferentials.classes(valuer, TestPrices.steer("R=", "3=", 340));
            assertThat(grades.marginals().money(grades.marginals().tenKg()).amountText())
                    .matches("[0-9]+");
            assertThat(grades.marginals().toText())
                    .contains(
                            grades.marginals().money(grades.marginals().tenKg()).amountText() + " ");
            assertThat(grades.marginals().toText()).doesNotContainPattern("[0-9]\\.[0-9]{2}");
        }

        private String perKg(double amount) {
            return Money.rounded(amount, 1, "JPY").amountText();
        }
    }

    @Nested
    class Size {
        @ParameterizedTest
        @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
        void whatIsNotFiniteIsRefusedByName(double price) {
            PriceList.Builder builder = PriceList.builder("EUR");
            String not = " " + price + " is not a finite number";
            assertThatThrownBy(() -> builder.cut("striploin", price)).hasMessage("price of striploin" + not);
            assertThatThrownBy(() -> builder.kind(CutKind.STEAK, price)).hasMessage("price of steak" + not);
            assertThatThrownBy(() -> builder.mince(price)).hasMessage("price of mince" + not);
            assertThatThrownBy(() -> builder.mince(15, price)).hasMessage("price of mince" + not);
            assertThatThrownBy(() -> builder.otherPerHead("hide", price)).hasMessage("hide" + not);
            assertThatThrownBy(() -> builder.otherPerKg("boning", price)).hasMessage("boning" + not);
            assertThatThrownBy(() -> new PriceList.OtherLine("hide", PriceList.OtherLine.Per.HEAD, price))
                    .hasMessage("hide" + not);
            assertThatThrownBy(() -> TestPrices.BY_KIND.times(price)).isInstanceOf(IllegalArgumentException.class);
        }

        @Test
        void aPriceBeyondAnyIsRefusedWhenItIsMade() {
            PriceList.Builder builder = PriceList.builder("EUR");
            assertThatThrownBy(() -> builder.otherPerHead("hide", 1e15))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("hide 1000000000000000 is outside -1000000000 to 1000000000");
            assertThatThrownBy(() -> builder.cut("striploin", -1.5e9))
                    .hasMessage("price of striploin -1500000000 is outside -1000000000 to 1000000000");
            assertThat(builder.otherPerHead("hide", 1e9).build().others()).hasSize(1);
        }

        @Test
        void anAmountThatCanNotBeToldToItsDecimalsIsRefused() {
            PriceList high = TestPrices.BY_KIND.toBuilder()
                    .decimals(6)
                    .otherPerHead("hide", 1e9)
                    .build();
            Valuer valuer = Valuer.of(high, YieldEstimator.of(YieldTable.of(TestTables.threeLevels())));
            assertThatThrownBy(() -> valuer.value(TestPrices.steer("R=", "3=", 340)))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("amounts of 1000000000 EUR can't be told to 6 decimals, 100000000 can;"
                            + " give the price list fewer decimals, or lower prices");
            Value told = Valuer.of(high.toBuilder().decimals(2).build(), valuer.estimator())
                    .value(TestPrices.steer("R=", "3=", 340));
            assertThat(told.toText()).contains(Numbers.grouped(told.money().amountText()));
        }
    }

    @Test
    void anAmountWithoutDecimalsHasNoExponent() {
        assertThat(Money.of(new BigDecimal("1E+3"), "JPY").amount().scale()).isZero();
        assertThat(Money.of(new BigDecimal("1E+3"), "JPY")).hasToString("1000 JPY");
    }
}
