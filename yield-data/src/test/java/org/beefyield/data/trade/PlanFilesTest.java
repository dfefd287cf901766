package org.beefyield.data.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.market.MarketSpecification;
import org.beefyield.plan.LabourRate;
import org.beefyield.plan.OpeningStock;
import org.beefyield.plan.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Orders, stock and rates as files. */
class PlanFilesTest {
    private static final Path EXAMPLES = Path.of("examples/plan");
    private static final String ORDERS =
            "order,customer,product,way,fat_pct,min_kg,max_kg,price,currency,penalty,carcasses,piece_from_kg,piece_to_kg,note\n";
    private static final String STOCK = "product,fat_pct,kg,note\n";
    private static final String LABOUR = "cut,way,kg_per_hour,most_hours,note\n";
    private static final MarketSpecification PRIME =
            MarketSpecification.builder("prime").coldWeightKg(270, 400).build();
    private static final CsvForm DECLARED = CsvForm.builder()
            .separator(';')
            .decimalComma()
            .columns(Map.of(
                    "Auftrag", "order",
                    "Kunde", "customer",
                    "Artikel", "product",
                    "Preis", "price",
                    "Teil", "cut",
                    "kg je Stunde", "kg_per_hour"))
            .build();

    private static Source source(String content) {
        return Source.of("x.csv", content.getBytes(StandardCharsets.UTF_8));
    }

    private static OrderReader.Orders orders(String content, CsvForm form) {
        return OrderReader.read(source(content), form, List.of(PRIME));
    }

    private static List<String> problems(Consumer<CsvForm> reading) {
        return catchThrowableOfType(InvalidDataException.class, () -> reading.accept(CsvForm.standard()))
                .problems()
                .stream()
                .map(Problem::toString)
                .toList();
    }

    private static List<String> orderProblems(String rows) {
        return problems(form -> orders(ORDERS + rows, form));
    }

    @Test
    void theExamplesAreRead() {
        List<MarketSpecification> markets = MarketSpecificationReader.read(EXAMPLES.resolve("market.csv"));
        OrderReader.Orders read = OrderReader.read(EXAMPLES.resolve("orders.csv"), markets);
        assertThat(read.currency()).isEqualTo("EUR");
        assertThat(read.orders())
                .extracting(Order::toString)
                .containsExactly(
                        "T-501: striploin-joint, 1500 kg at 12.4",
                        "T-502: striploin-steak, pieces 6 to 9 kg, carcasses prime, 300 to 900 kg at 22.8",
                        "T-503: topside-joint, 1200 to 2000 kg at 9.9",
                        "T-504: mince up to 10 % fat, 2000 to 3500 kg at 6.3",
                        "T-505: mince up to 5 % fat, 200 to 600 kg at 7.1",
                        "T-506: dice, carcasses prime, 3000 to 6000 kg at 8.9",
                        "T-507: fillet-steak, pieces from 2 kg, carcasses prime, 250 to 400 kg at 36");
        assertThat(read.orders().get(0).penalty()).isEmpty();
        assertThat(read.orders().get(1).penalty()).hasValue(4);
        assertThat(StockReader.read(EXAMPLES.resolve("stock.csv")))
                .containsExactly(OpeningStock.of("dice", 140), new OpeningStock("mince", 9.5, 80));
        assertThat(LabourRateReader.read(EXAMPLES.resolve("labour.csv")))
                .containsExactly(
                        LabourRate.of("*", "*", 150),
                        LabourRate.of("*", "steaks", 70),
                        LabourRate.of("*", "joints", 110),
                        LabourRate.of("*", "trim", 220),
                        LabourRate.of("fillet", "steaks", 45));
    }

    @Test
    void everyCellOfARowStandsInTheOrder() {
        Order order = orders(
                        ORDERS + "A,Mere,striploin,steaks,,300.5,900,22.8,EUR,4,prime,6,9,of one size\n",
                        CsvForm.standard())
                .orders()
                .get(0);
        assertThat(order)
                .isEqualTo(Order.builder("A", "striploin")
                        .customer("Mere")
                        .way("steaks")
                        .kg(300.5, 900)
                        .price(22.8)
                        .penalty(4)
                        .carcasses(PRIME)
                        .pieces(6, 9)
                        .build());
    }

    @Test
    void blankCellsSetNoLimit() {
        assertThat(orders(ORDERS + "A,,dice,,,,,8,EUR,,,,,\nB,,dice,,,,,8,EUR,,,,9,\n", CsvForm.standard())
                        .orders())
                .containsExactly(
                        Order.builder("A", "dice").price(8).build(),
                        Order.builder("B", "dice").price(8).pieces(0, 9).build());
        assertThat(LabourRateReader.read(source(LABOUR + ",,150,,\nflank,,90,12.5,\n"), CsvForm.standard()))
                .containsExactly(LabourRate.of("*", "*", 150), new LabourRate("flank", "*", 90, 12.5));
    }

    @Test
    void aCallersFormIsReadAsItIsWritten() {
        assertThat(orders(
                                "Auftrag;Kunde;Artikel;way;fat_pct;min_kg;max_kg;Preis;currency;penalty;carcasses;piece_from_kg;"
                                        + "piece_to_kg;note\n"
                                        + "A;Mere;mince;;7,5;1200,5;2000;6,30;EUR;1,5;;;;\n",
                                DECLARED)
                        .orders())
                .containsExactly(Order.mince("A", 7.5)
                        .customer("Mere")
                        .kg(1200.5, 2000)
                        .price(6.3)
                        .penalty(1.5)
                        .build());
        assertThat(StockReader.read(source("Artikel;fat_pct;kg;note\nmince;9,5;80,25;\n"), DECLARED))
                .containsExactly(new OpeningStock("mince", 9.5, 80.25));
        assertThat(LabourRateReader.read(source("Teil;way;kg je Stunde;most_hours;note\nrump;;62,5;;\n"), DECLARED))
                .containsExactly(LabourRate.of("rump", "*", 62.5));
    }

    @Test
    void aProblemNamesTheColumnAsTheFileDoes() {
        assertThat(problems(form -> LabourRateReader.read(
                        source("Teil;way;kg je Stunde;most_hours;note\nrump;;fast;;\n"), DECLARED)))
                .containsExactly("x.csv line 2, kg je Stunde: \"fast\" is not a plain number such as 342,5");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                ",,dice,,,1,2,8,EUR,,,,, | order: every order has a number",
                "A,,,,,1,2,8,EUR,,,,, | product: every order names a product",
                "A,,mince,,,1,2,8,EUR,,,,, | fat_pct: an order of mince says the most fat that it may have, per cent, such as 15",
                "A,,dice,,10,1,2,8,EUR,,,,, | fat_pct: a fat content is said of mince alone, not of dice",
                "A,,dice,,,few,2,8,EUR,,,,, | min_kg: \"few\" is not a plain number such as 342.5",
                "A,,dice,,,3,2,8,EUR,,,,, | min_kg: order A of 3 to 2 kg: two ascending weights of 0 kg or more are needed",
                "A,,dice,,,-1,2,8,EUR,,,,, | min_kg: order A of -1 to 2 kg: two ascending weights of 0 kg or more are needed",
                "A,,dice,,,1,2,,EUR,,,,, | price: \"\" is not a plain number such as 342.5",
                "A,,dice,,,1,2,8,,,,,, | currency: every row says its currency, such as EUR",
                "A,,dice,,,1,2,8,EUR,-4,,,, | penalty: penalty -4 of order A is below 0",
                "A,,dice,,,1,2,8,EUR,,best,,, | carcasses: no market specification \"best\"; there are prime",
                "A,,dice,,,1,2,8,EUR,,,9,6, | piece_from_kg: order A of pieces from 9 to 6 kg: two ascending weights of 0 kg or"
                        + " more are needed"
            })
    void aBadCellOfAnOrderIsNamed(String row, String problem) {
        assertThat(orderProblems(row + "\n")).containsExactly("x.csv line 2, " + problem);
    }

    @Test
    void aFatContentOutsideItsRangeIsNamed() {
        assertThat(orderProblems("A,,mince,,0.1,1,2,8,EUR,,,,,\n"))
                .singleElement()
                .asString()
                .startsWith("x.csv line 2, fat_pct: ");
        assertThat(problems(form -> StockReader.read(source(STOCK + "mince,120,8,\n"), form)))
                .singleElement()
                .asString()
                .startsWith("x.csv line 2, fat_pct: ");
    }

    @Test
    void everyBadRowOfOrdersIsReported() {
        assertThat(orderProblems("A,,dice,,,1,2,8,EUR,,,,,\nA,,dice,,,1,2,8,GBP,,,,,\nB,,dice,,,x,2,y,EUR,,,,,\n"))
                .containsExactly(
                        "x.csv line 3, currency: currency \"GBP\" differs from \"EUR\" in line 2; a file of orders has one",
                        "x.csv line 3, order: an order of this number stands in line 2 already",
                        "x.csv line 4, min_kg: \"x\" is not a plain number such as 342.5",
                        "x.csv line 4, price: \"y\" is not a plain number such as 342.5");
    }

    @Test
    void anOrderThatNamesASpecificationNeedsSome() {
        assertThat(problems(
                        form -> OrderReader.read(source(ORDERS + "A,,dice,,,1,2,8,EUR,,prime,,,\n"), form, List.of())))
                .containsExactly("x.csv line 2, carcasses: \"prime\" names a market specification, and none are given");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                ",,8, | product: every row names a product",
                "dice,9,8, | fat_pct: a fat content is said of mince alone, not of dice",
                "mince,,8, | fat_pct: mince in stock says its fat content, per cent, such as 15",
                "dice,,much, | kg: \"much\" is not a plain number such as 342.5",
            })
    void aBadCellOfStockIsNamed(String row, String problem) {
        assertThat(problems(form -> StockReader.read(source(STOCK + row + "\n"), form)))
                .containsExactly("x.csv line 2, " + problem);
    }

    @Test
    void stockBelowNothingIsRefused() {
        assertThat(problems(form -> StockReader.read(source(STOCK + "dice,,-8,\n"), form)))
                .singleElement()
                .asString()
                .startsWith("x.csv line 2, kg: ");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "rump,,0,, | kg_per_hour: 0 kg an hour of rump as * is not a finite number above 0",
                "rump,,fast,, | kg_per_hour: \"fast\" is not a plain number such as 342.5",
                "rump,,90,-1, | most_hours: hours are 0 or more; blank for no limit",
            })
    void aBadCellOfARateIsNamed(String row, String problem) {
        assertThat(problems(form -> LabourRateReader.read(source(LABOUR + row + "\n"), form)))
                .containsExactly("x.csv line 2, " + problem);
    }

    @Test
    void aRateGivenTwiceIsRefused() {
        assertThat(problems(form -> LabourRateReader.read(source(LABOUR + "rump,,90,,\nrump,*,80,,\n"), form)))
                .containsExactly("x.csv line 3, way: a rate for this way of the cut stands in line 2 already");
    }

    @Test
    void otherColumnsAreRefused() {
        assertThat(problems(form -> StockReader.read(source("product,kg,note\ndice,8,\n"), form)))
                .containsExactly(
                        "x.csv line 1, fat_pct: the column \"fat_pct\" is missing; columns: product, fat_pct, kg, note");
        assertThat(problems(form -> StockReader.read(source(STOCK), form)))
                .containsExactly("x.csv: the file has a header but no row");
    }
}
