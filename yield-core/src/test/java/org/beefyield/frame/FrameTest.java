package org.beefyield.frame;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.StringReader;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.commons.math3.stat.descriptive.rank.Percentile;
import org.apache.commons.math3.stat.descriptive.rank.Percentile.EstimationType;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

class FrameTest {
    private static Map<String, Object> columns(Object... headersAndValues) {
        Map<String, Object> columns = new LinkedHashMap<>();
        for (int i = 0; i < headersAndValues.length; i += 2) {
            columns.put((String) headersAndValues[i], headersAndValues[i + 1]);
        }
        return columns;
    }

    /** Four carcasses of two lots, one of them without a weight. */
    private static Frame lots() {
        return Frame.of(columns(
                "carcass", List.of("1", "2", "3", "4"),
                "lot", List.of("Mere", "Hill", "Mere", "Hill"),
                "category", new String[] {"C", "C", "E", "C"},
                "cold weight, kg", new double[] {340, 300.25, Double.NaN, 310},
                "fat trim, % of cold weight", new double[] {11, 9, 10, 14}));
    }

    @Nested
    class Columns {
        @Test
        void areAskedForByNameOrByHeader() {
            assertThat(lots().numbers("cold weight")).containsExactly(340, 300.25, Double.NaN, 310);
            assertThat(lots().numbers("cold weight, kg")).containsExactly(340, 300.25, Double.NaN, 310);
            assertThat(lots().texts("category")).containsExactly("C", "C", "E", "C");
            assertThat(lots().columns())
                    .containsExactly(
                            Column.text("carcass"),
                            Column.text("lot"),
                            Column.text("category"),
                            new Column("cold weight", "kg", Column.Type.NUMBER, Total.SUM),
                            new Column("fat trim", "% of cold weight", Column.Type.NUMBER, Total.NONE));
            assertThat(lots().rows()).isEqualTo(4);
        }

        @Test
        void anUnknownOneIsToldTheNearest() {
            assertThatThrownBy(() -> lots().numbers("cold wieght"))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("no column \"cold wieght\"; nearest: cold weight, lot, category");
            assertThatThrownBy(() -> lots().sortedBy("lott")).hasMessageContaining("nearest: lot, ");
            assertThatThrownBy(() -> lots().where(row -> row.text("Lot").isEmpty()))
                    .hasMessageContaining("nearest: lot, ");
        }

        @Test
        void ofTheOtherTypeAreRefused() {
            assertThatThrownBy(() -> lots().numbers("lot")).hasMessage("column \"lot\" holds texts, not numbers");
            assertThatThrownBy(() -> lots().texts("cold weight"))
                    .hasMessage("column \"cold weight, kg\" holds numbers, not texts");
        }

        @Test
        void areCopiesOnBothSides() {
            double[] kg = {1, 2};
            Frame frame = Frame.of(columns("kg", kg));
            kg[0] = 99;
            frame.numbers("kg")[1] = 99;
            ((double[]) frame.toMap().get("kg"))[1] = 99;
            assertThat(frame.numbers("kg")).containsExactly(1, 2);
            assertThatThrownBy(() -> frame.toMap().clear()).isInstanceOf(UnsupportedOperationException.class);
        }

        @Test
        void comeFromArraysAndListsOfAnyNumbers() {
            Frame frame = Frame.of(columns(
                    "a", new int[] {1, 2},
                    "b", new long[] {3, 4},
                    "c", Arrays.asList(5, null),
                    "d", new Double[] {7.5, null},
                    "e", Arrays.asList("x", null),
                    "f", new double[] {-0.0, 1}));
            assertThat(frame.numbers("a")).containsExactly(1, 2);
            assertThat(frame.numbers("b")).containsExactly(3, 4);
            assertThat(frame.numbers("c")).containsExactly(5, Double.NaN);
            assertThat(frame.numbers("d")).containsExactly(7.5, Double.NaN);
            assertThat(frame.texts("e")).containsExactly("x", "");
            assertThat(frame.numbers("f")[0]).isEqualTo(0.0);
        }

        @Test
        void thatCantBeUsedAreRefused() {
            assertThatThrownBy(() -> Frame.of(Map.of())).hasMessage("a frame has a column or more");
            assertThatThrownBy(() -> Frame.of(columns("a", new int[] {1}, "b", new int[] {1, 2})))
                    .hasMessage("column \"b\" has 2 rows and column \"a\" 1");
            assertThatThrownBy(() -> Frame.of(columns("a", new int[] {1}, "a, kg", new int[] {1})))
                    .hasMessage("two columns are called \"a\"");
            assertThatThrownBy(() -> Frame.of(columns("a, kg", new double[] {1, Double.NEGATIVE_INFINITY})))
                    .hasMessage(
                            "row 1, column \"a, kg\": -Infinity is beyond 1.0E12 in size; a figure that is missing is NaN");
            assertThatThrownBy(() -> Frame.of(columns("a", Arrays.asList(1, "x"))))
                    .hasMessage("row 1, column \"a\": x is no number; the column holds numbers");
            assertThatThrownBy(() -> Frame.of(columns("a", List.of(List.of()))))
                    .hasMessage("row 0, column \"a\": [] is no text and no number");
            assertThatThrownBy(() -> Frame.of(columns("a", "x")))
                    .hasMessage("column \"a\" is a String; it should be an array or a list of numbers or texts");
            assertThatThrownBy(() -> Frame.of(columns("", List.of()))).hasMessage("a column has a name");
            assertThatThrownBy(() -> Frame.of(columns(" a", List.of())))
                    .hasMessage("the name \" a\" of a column has blanks at its ends");
            assertThatThrownBy(() -> Frame.of(columns("a\nb", List.of())))
                    .hasMessage("the name of a column holds a control character; only printable ones may stand there");
            assertThatThrownBy(() -> new Column("a, b", "kg", Column.Type.NUMBER, Total.SUM))
                    .hasMessage("column \"a, b\" has a comma and a blank in its name; behind them stands the unit");
            assertThatThrownBy(() -> Column.text("x".repeat(201)))
                    .hasMessage("the name of a column has 201 characters; at most 200 may stand there");
        }
    }

    @Nested
    class Rows {
        @Test
        void headAndTailTakeAsManyAsThereAre() {
            assertThat(lots().head(1).texts("carcass")).containsExactly("1");
            assertThat(lots().tail(3).texts("carcass")).containsExactly("2", "3", "4");
            assertThat(lots().head(9)).isEqualTo(lots());
            assertThat(lots().tail(0).rows()).isZero();
            assertThatThrownBy(() -> lots().head(-1)).hasMessage("-1 rows are none; ask for 0 or more");
        }

        @Test
        void whereAComparisonWithAMissingNumberDoesNotHold() {
            assertThat(lots().where(row -> row.number("cold weight") > 305).texts("carcass"))
                    .containsExactly("1", "4");
            assertThat(lots().where(row -> row.number("cold weight") <= 305).texts("carcass"))
                    .containsExactly("2");
            assertThat(lots().where(row -> row.index() == 2).texts("category")).containsExactly("E");
        }

        @Test
        void areSortedByTheFirstColumnThenTheNextMissingLast() {
            assertThat(lots().sortedBy("cold weight").texts("carcass")).containsExactly("2", "4", "1", "3");
            assertThat(lots().sortedBy("lot", "cold weight").texts("carcass")).containsExactly("2", "4", "1", "3");
            assertThat(lots().sortedBy("lot").texts("carcass")).containsExactly("2", "4", "1", "3");
            assertThat(lots().sortedBy("category", "lot").reversed().texts("carcass"))
                    .containsExactly("3", "1", "4", "2");
            assertThat(Frame.of(columns("a", List.of("", "b", "A")))
                            .sortedBy("a")
                            .texts("a"))
                    .containsExactly("A", "b", "");
        }

        @Test
        void selectTakesColumnsInTheOrderWanted() {
            assertThat(lots().select("cold weight", "lot").columns())
                    .containsExactly(Column.number("cold weight, kg"), Column.text("lot"));
            assertThatThrownBy(() -> lots().select("lot", "lot")).hasMessage("two columns are called \"lot\"");
            assertThatThrownBy(() -> lots().select()).hasMessage("a frame has a column or more");
        }

        @Test
        void aDerivedColumnStandsBehindOrInThePlaceOfOneOfItsName() {
            Frame frame = lots().with("fat trim, kg", row -> row.number("cold weight") * row.number("fat trim") / 100)
                    .withText("farm", row -> row.text("lot") + " farm");
            assertThat(frame.numbers("fat trim")).containsExactly(37.4, 27.0225, Double.NaN, 43.4);
            assertThat(frame.columns()).hasSize(6);
            assertThat(frame.columns().get(4)).hasToString("fat trim, kg");
            assertThat(frame.texts("farm")).containsExactly("Mere farm", "Hill farm", "Mere farm", "Hill farm");
            assertThatThrownBy(() -> lots().with("x", row -> 1e13))
                    .hasMessageStartingWith("row 0, column \"x\": 1.0E13 is beyond 1.0E12 in size");
        }

        @Test
        void aDivisionByZeroIsOneMissingCell() {
            assertThat(lots().with("rows a kg", row -> row.index() / (row.number("cold weight") - 340))
                            .numbers("rows a kg"))
                    .containsExactly(Double.NaN, 1 / -39.75, Double.NaN, 3 / -30.0);
            assertThat(lots().with("x", row -> row.index() == 3 ? -1 / 0.0 : 1).numbers("x"))
                    .containsExactly(1, 1, 1, Double.NaN);
        }
    }

    @Nested
    class GroupsOfRows {
        @Test
        void addUpInTheOrderInWhichTheyFirstCome() {
            Frame sums = lots().groupBy("lot").sum();
            assertThat(sums.columns()).containsExactly(Column.text("lot"), Column.number("cold weight, kg"));
            assertThat(sums.texts("lot")).containsExactly("Mere", "Hill");
            assertThat(sums.numbers("cold weight")).containsExactly(340, 610.25);
            assertThat(lots().groupBy("lot", "category").sum().texts("category"))
                    .containsExactly("C", "C", "E");
            assertThat(lots().groupBy("lot", "category").sum().numbers("cold weight"))
                    .containsExactly(340, 610.25, Double.NaN);
        }

        @Test
        void haveMeansAlsoOfWhatDoesNotAddUp() {
            Frame means = lots().groupBy("lot").mean();
            assertThat(means.numbers("fat trim")).containsExactly(10.5, 11.5);
            assertThat(means.numbers("cold weight")).containsExactly(340, 305.125);
            assertThatThrownBy(() -> lots().groupBy("lot").sum("fat trim"))
                    .hasMessage(
                            "column \"fat trim, % of cold weight\" doesn't add up; it has a mean, or declare that it"
                                    + " does: totalling(\"fat trim\", Total.SUM)");
            assertThatThrownBy(() -> lots().groupBy("lot").mean("category"))
                    .hasMessage("column \"category\" holds texts, not numbers");
        }

        @Test
        void countTheirRows() {
            assertThat(lots().groupBy("category").count())
                    .isEqualTo(Frame.of(columns("category", List.of("C", "E"), "rows", new int[] {3, 1}))
                            .totalling("rows", Total.SUM));
            assertThat(lots().groupBy().count().numbers("rows")).containsExactly(4);
            assertThat(lots().head(0).groupBy("lot").count().rows()).isZero();
        }

        @Test
        void formByNumbersToo() {
            assertThat(Frame.of(columns(
                                    "a", new double[] {1, Double.NaN, 1, Double.NaN}, "b, kg", new int[] {1, 2, 3, 4}))
                            .groupBy("a")
                            .sum())
                    .isEqualTo(Frame.of(columns("a", new double[] {1, Double.NaN}, "b, kg", new int[] {4, 6})));
            assertThatThrownBy(() -> lots().groupBy("lot", "lot")).hasMessage("a column to group by stands twice");
        }
    }

    @Nested
    class FiguresOfGroups {
        /** Of Hill: 300.25 and 310; of Mere: 340, and one that is missing. */
        @Test
        void comeSeveralAtOnceAndSayWhatTheyAre() {
            Frame figures = lots().groupBy("lot")
                    .figures(
                            Statistic.count("cold weight"),
                            Statistic.sum("cold weight"),
                            Statistic.mean("cold weight"),
                            Statistic.sd("cold weight"),
                            Statistic.quantile("cold weight", 0.1),
                            Statistic.mean("fat trim", "cold weight"));
            assertThat(figures.columns())
                    .extracting(Column::header)
                    .containsExactly(
                            "lot",
                            "rows",
                            "count of cold weight",
                            "sum of cold weight, kg",
                            "mean of cold weight, kg",
                            "SD of cold weight, kg",
                            "10 % quantile of cold weight, kg",
                            "mean of fat trim by cold weight, % of cold weight");
            assertThat(figures.columns())
                    .extracting(column -> column.total().toString())
                    .containsExactly("none", "sum", "sum", "sum", "none", "none", "none", "none");
            assertThat(figures.numbers("rows")).containsExactly(2, 2);
            assertThat(figures.numbers("count of cold weight")).containsExactly(1, 2);
            assertThat(figures.numbers("sum of cold weight")).containsExactly(340, 610.25);
            assertThat(figures.numbers("mean of cold weight")).containsExactly(340, 305.125);
            assertThat(figures.numbers("SD of cold weight")[0]).isNaN();
            // deviations of 4.875 to either side: squares 47.53125 in all, over 1
            assertThat(figures.numbers("SD of cold weight")[1]).isCloseTo(Math.sqrt(47.53125), within(1e-12));
            assertThat(figures.numbers("10 % quantile of cold weight")[1]).isCloseTo(301.225, within(1e-12));
            assertThat(figures.numbers("mean of fat trim by cold weight")[0]).isCloseTo(11, within(1e-12));
            assertThat(figures.numbers("mean of fat trim by cold weight")[1])
                    .isCloseTo((9 * 300.25 + 14 * 310) / 610.25, within(1e-12));
            assertThat(figures.select("lot", "rows", "sum of cold weight", "mean of cold weight")
                            .withTotal()
                            .toText())
                    .isEqualTo("""
                            lot    rows  sum of cold weight, kg  mean of cold weight, kg
                            ------------------------------------------------------------
                            Mere      2                  340.00                   340.00
                            Hill      2                  610.25                   305.13
                            ------------------------------------------------------------
                            Total     4                  950.25
                            """);
        }

        @Test
        void whatCantBeAskedIsRefused() {
            assertThatThrownBy(() -> lots().groupBy("lot").figures(Statistic.sum("fat trim")))
                    .hasMessageStartingWith("column \"fat trim, % of cold weight\" doesn't add up");
            assertThatThrownBy(() -> lots().groupBy("lot").figures(Statistic.sd("category")))
                    .hasMessage("column \"category\" holds texts, not numbers");
            assertThatThrownBy(() -> lots().groupBy("lot").figures(Statistic.sd("cold"), Statistic.sd("cold")))
                    .hasMessageStartingWith("no column \"cold\"");
            assertThatThrownBy(() ->
                            lots().groupBy("lot").figures(Statistic.sd("cold weight"), Statistic.sd("cold weight")))
                    .hasMessage("two columns are called \"SD of cold weight\"");
            assertThatThrownBy(() -> Statistic.quantile("cold weight", 10))
                    .hasMessage("the part 10.0 of a quantile is outside 0 to 1");
            assertThat(Statistic.quantile("cold weight", 0.125)).hasToString("12.5 % quantile of cold weight");
        }

        @Test
        void aWeightBelowZeroOrNoneLeavesTheMeanMissing() {
            Frame frame = Frame.of(columns(
                    "lot", List.of("a", "a", "b", "c"),
                    "x", new double[] {1, 2, 3, 4},
                    "w", new double[] {-1, 2, 0, 2}));
            assertThat(frame.groupBy("lot").figures(Statistic.mean("x", "w")).numbers("mean of x by w"))
                    .containsExactly(Double.NaN, Double.NaN, 4);
        }
    }

    @Nested
    class Typed {
        private Frame graded() {
            return Frame.ofEach(List.of("P+", "R", "-U half", "U+ half", "7.4p", "S-", "R=", "R+", "E=", "O-", "", "x"))
                    .text(Column.text("conformation").of(Column.Type.CONFORMATION), text -> text)
                    .frame();
        }

        @Test
        void conformationSortsFromSToPWithItsParts() {
            assertThat(graded().sortedBy("conformation").texts("conformation"))
                    .containsExactly("S-", "E=", "U+ half", "-U half", "R+", "R", "R=", "7.4p", "O-", "P+", "x", "");
            assertThat(Frame.ofEach(List.of("R 4", "O 1", "R 2", "E 5"))
                            .text(Column.text("class").of(Column.Type.CONFORMATION), text -> text)
                            .frame()
                            .sortedBy("class")
                            .texts("class"))
                    .containsExactly("E 5", "R 2", "R 4", "O 1");
        }

        @Test
        void fatClassSortsFromLeanToFatWithItsParts() {
            assertThat(Frame.ofEach(List.of("4H", "5+", "4L", "3+", "7.4p", "1-", "3", "4-"))
                            .text(Column.text("fat class").of(Column.Type.FAT_CLASS), text -> text)
                            .frame()
                            .sortedBy("fat class")
                            .texts("fat class"))
                    .containsExactly("1-", "7.4p", "3", "3+", "4-", "4L", "4H", "5+");
        }

        @Test
        void aColumnOfDaysHoldsDays() {
            Column killed = Column.text("kill date").of(Column.Type.DATE);
            assertThat(Frame.ofEach(List.of("2026-11-03", "", "2026-02-28"))
                            .text(killed, text -> text)
                            .frame()
                            .columns())
                    .containsExactly(killed);
            assertThat(Frame.ofEach(List.of("2026-11-03", "3 November"))
                            .text(killed, text -> text)
                            .frame()
                            .columns())
                    .containsExactly(Column.text("kill date"));
            assertThatThrownBy(() -> Frame.of(List.of(killed), List.of(List.of("2026-11-03", "2026-02-30"))))
                    .hasMessage("row 1, column \"kill date\": \"2026-02-30\" is no day such as 2026-11-03");
        }

        @Test
        void declaredColumnsTakeTheirOwnKind() {
            Column kg = Column.number("weight, kg").totalling(Total.NONE);
            assertThat(Frame.of(List.of(kg), List.of(new double[] {1, 2})).columns())
                    .containsExactly(kg);
            assertThat(Frame.of(List.of(kg), List.of((Object) new String[] {null}))
                            .numbers("weight"))
                    .containsExactly(Double.NaN);
            assertThatThrownBy(() -> Frame.of(List.of(kg), List.of(List.of("x"))))
                    .hasMessage("column \"weight, kg\" is given texts and holds numbers");
            assertThatThrownBy(() -> Frame.of(List.of(Column.text("x")), List.of(List.of(1))))
                    .hasMessage("column \"x\" is given numbers and holds texts");
            assertThatThrownBy(() -> Frame.of(List.of(kg), List.of())).hasMessage("1 columns are given 0 arrays");
            assertThatThrownBy(() -> new Column("lot", "", Column.Type.TEXT, Total.SUM))
                    .hasMessage("column \"lot\" holds texts, which have no total");
        }

        @Test
        void framesOfEqualColumnsGoOnBehindEachOther() {
            assertThat(lots().head(3).plus(lots().tail(1))).isEqualTo(lots());
            assertThatThrownBy(() -> lots().plus(lots().select("lot")))
                    .hasMessage(
                            "frames go together only if their columns are equal: " + lots() + " against 4 rows: lot");
        }

        @Test
        void aTotalIsReadAsItPrints() {
            for (Total total : List.of(Total.SUM, Total.NONE, Total.meanWeightedBy("cold weight"))) {
                assertThat(Total.parse(total.toString())).isEqualTo(total).hasSameHashCodeAs(total);
            }
            assertThatThrownBy(() -> Total.parse("mean"))
                    .hasMessage("\"mean\" is no total; sum, none, or mean weighted by and the name of a column are");
            assertThatThrownBy(() -> Total.meanWeightedBy(" "))
                    .hasMessage("the name of the column of weights is blank");
        }

        @Test
        void unitsOfPartsAddUpAndOthersDont() {
            assertThat(List.of("x, kg", "x, g", "x, t", "x, head", "x, carcasses", "x, pieces", "x, EUR"))
                    .allSatisfy(
                            header -> assertThat(Column.number(header).total()).isEqualTo(Total.SUM));
            assertThat(List.of(
                            "x",
                            "x, %",
                            "x, % of cold weight",
                            "x, EUR per kg",
                            "x, months",
                            "x, EUR a kg",
                            "x, kg (90 %)",
                            "x, g/kg",
                            "x, points"))
                    .allSatisfy(
                            header -> assertThat(Column.number(header).total()).isEqualTo(Total.NONE));
        }
    }

    @Nested
    class Described {
        @Test
        void countsMissingNumbersAndLeavesThemOut() {
            Frame described = lots().describe();
            assertThat(described.texts("column")).containsExactly("cold weight", "fat trim");
            assertThat(described.texts("unit")).containsExactly("kg", "% of cold weight");
            assertThat(described.numbers("count")).containsExactly(3, 4);
            assertThat(described.numbers("missing")).containsExactly(1, 0);
            assertThat(described.numbers("mean")[0]).isCloseTo(316.75, within(1e-12));
            // deviations 23.25, -16.5, -6.75: squares add up to 858.375, halved and rooted
            assertThat(described.numbers("SD")[0]).isCloseTo(Math.sqrt(429.1875), within(1e-12));
            assertThat(described.numbers("min")).containsExactly(300.25, 9);
            // 9 10 11 14: places 1.75, 2.5 and 3.25
            assertThat(described.numbers("lower quartile")[1]).isCloseTo(9.75, within(1e-12));
            assertThat(described.numbers("median")[1]).isCloseTo(10.5, within(1e-12));
            assertThat(described.numbers("upper quartile")[1]).isCloseTo(11.75, within(1e-12));
            assertThat(described.numbers("max")).containsExactly(340, 14);
        }

        /** Quartiles of Commons Math's definition 7, another implementation of the same. */
        @Test
        void quartilesAreThoseOfDefinitionSeven() {
            Percentile seven = new Percentile().withEstimationType(EstimationType.R_7);
            for (int n = 1; n < 12; n++) {
                double[] values = IntStream.range(0, n)
                        .mapToDouble(i -> (i * 37 % 11) * 1.7)
                        .toArray();
                Frame described = Frame.of(columns("x", values)).describe();
                assertThat(described.numbers("lower quartile")[0]).isCloseTo(seven.evaluate(values, 25), within(1e-12));
                assertThat(described.numbers("median")[0]).isCloseTo(seven.evaluate(values, 50), within(1e-12));
                assertThat(described.numbers("upper quartile")[0]).isCloseTo(seven.evaluate(values, 75), within(1e-12));
            }
        }

        @Test
        void tooFewNumbersLeaveFiguresMissing() {
            Frame described = Frame.of(
                            columns("x", new double[] {Double.NaN, 5}, "y", new double[] {Double.NaN, Double.NaN}))
                    .describe();
            assertThat(described.numbers("mean")).containsExactly(5, Double.NaN);
            assertThat(described.numbers("SD")).containsExactly(Double.NaN, Double.NaN);
            assertThat(described.numbers("median")).containsExactly(5, Double.NaN);
            assertThat(lots().select("lot").describe().rows()).isZero();
        }
    }

    @Nested
    class Printed {
        @Test
        void figuresStandRightUnderTheirUnitsAndMissingOnesAreBlank() {
            assertThat(lots().toText()).isEqualTo("""
                    carcass  lot   category  cold weight, kg  fat trim, % of cold weight
                    --------------------------------------------------------------------
                    1        Mere  C                  340.00                          11
                    2        Hill  C                  300.25                           9
                    3        Mere  E                                                  10
                    4        Hill  C                  310.00                          14
                    """);
        }

        @Test
        void totalsAddUpAsPrinted() {
            Frame thirds = Frame.of(columns(
                    "cut", List.of("a", "b", "c"),
                    "weight, kg", new double[] {100 / 3.0, 100 / 3.0, 100 / 3.0},
                    "share, %", new double[] {33.5, 33, 33}));
            assertThat(thirds.withTotal().toText()).isEqualTo("""
                    cut    weight, kg  share, %
                    ---------------------------
                    a           33.34     33.50
                    b           33.33     33.00
                    c           33.33     33.00
                    ---------------------------
                    Total      100.00
                    """);
            assertThat(thirds.withTotal()).isEqualTo(thirds);
            assertThat(thirds.withTotal().head(3).toText()).doesNotContain("Total");
        }

        @Test
        void smallFiguresKeepThreeDigitsAndLargeOnesNoDecimals() {
            Frame sizes = Frame.of(columns(
                    "what", List.of("x"),
                    "a", new double[] {0.000123456},
                    "b", new double[] {1.5},
                    "c", new double[] {12.3456},
                    "d", new double[] {1234567.8},
                    "e", new double[] {3}));
            assertThat(sizes.toText().lines().toList().get(2)).isEqualTo("x     0.000123  1.50  12.35  1234568  3");
        }

        @Test
        void aFigureIsShownByItsOwnSizeBesideLargerOnes() {
            assertThat(Frame.of(columns("what", List.of("a", "b", "c", "d", "e", "f", "g"), "amount", new double[] {
                                1e6, 0.0123, -0.5, 45.678, 12.5, 0, 4.2e-7
                            }))
                            .toText())
                    .isEqualTo("""
                            what    amount
                            --------------
                            a      1000000
                            b       0.0123
                            c       -0.500
                            d         45.7
                            e         12.5
                            f            0
                            g     4.20e-07
                            """);
            assertThat(Frame.of(columns("what", List.of("a", "b"), "x", new double[] {340.25, 0.0123}))
                            .toText())
                    .contains("340.25\n", "0.0123\n");
            // what doubles leave of 100 less the sum of two parts
            assertThat(Frame.of(columns("what", List.of("a", "b"), "x", new double[] {340.25, -6.7e-19}))
                            .toText())
                    .contains("b       0.00\n");
        }

        @Test
        void inASumTheSmallestFigureStillShowsAndAllAddUp() {
            assertThat(Frame.of(columns("what", List.of("a", "b"), "paid, EUR", new double[] {1e6, 0.0123}))
                            .withTotal()
                            .toText())
                    .isEqualTo("""
                            what    paid, EUR
                            -----------------
                            a      1000000.00
                            b            0.01
                            -----------------
                            Total  1000000.01
                            """);
        }

        @Test
        void onlyWhatAddsUpHasASumAndTheRestWhatIsDeclared() {
            Frame herd = Frame.of(columns(
                            "lot", List.of("Mere", "Hill", "Tarn"),
                            "cold weight, kg", new double[] {300, 100, Double.NaN},
                            "age, months", new int[] {20, 30, 25},
                            "paid, EUR", new int[] {1500, 500, 700},
                            "fat trim, % of cold weight", new double[] {10, 14, 99},
                            "animals, head", new int[] {2, 1, 1}))
                    .totalling("fat trim", Total.meanWeightedBy("cold weight"));
            assertThat(herd.withTotal().toText()).isEqualTo("""
                    lot    cold weight, kg  age, months  paid, EUR  fat trim, % of cold weight  animals, head
                    -----------------------------------------------------------------------------------------
                    Mere               300           20       1500                          10              2
                    Hill               100           30        500                          14              1
                    Tarn                             25        700                          99              1
                    -----------------------------------------------------------------------------------------
                    Total              400                    2700                          11              4
                    """);
            // what it would be weighted by is gone
            assertThat(herd.select("lot", "fat trim").withTotal().toText()).endsWith("-\nTotal\n");
            assertThat(herd.groupBy().mean("cold weight").withTotal().toText()).endsWith("-\nTotal\n");
            assertThat(herd.with("age, months", row -> 7).withTotal().toText()).doesNotContain(" 21");
            assertThatThrownBy(() -> herd.totalling("fat trim", Total.meanWeightedBy("wieght")))
                    .hasMessage("no column \"wieght\"; nearest: lot, age, paid");
            assertThatThrownBy(() -> herd.totalling("lot", Total.SUM))
                    .hasMessage("column \"lot\" holds texts, which have no total");
        }

        @Test
        void aFrameThatBeginsWithNumbersHasItsRowsCounted() {
            assertThat(Frame.of(columns("weight, kg", new double[] {7.25, 12.5}))
                            .withTotal()
                            .toText())
                    .isEqualTo("""
                    row    weight, kg
                    -----------------
                    0            7.25
                    1           12.50
                    -----------------
                    Total       19.75
                    """);
        }

        @Test
        void ofMoreThanFortyRowsTheEndsAreShownAndTheRestCounted() {
            Frame long41 = Frame.of(columns(
                    "carcass",
                    IntStream.range(0, 41).mapToObj(i -> "c" + i).toList(),
                    "weight, kg",
                    IntStream.range(0, 41).toArray()));
            assertThat(long41.head(40).toText().lines()).hasSize(42).noneMatch(line -> line.contains("..."));
            List<String> lines = long41.toText().lines().toList();
            assertThat(lines).hasSize(24);
            assertThat(lines.get(11)).isEqualTo("c9                9");
            assertThat(lines.get(12)).isEqualTo("...");
            assertThat(lines.get(13)).isEqualTo("c31              31");
            assertThat(lines.get(23)).isEqualTo("21 of 41 rows are left out where the three dots stand");
            assertThat(long41.withTotal().toText()).contains("Total           820");
        }

        @Test
        void columnsThatDontFitOnALineGoOnBelow() {
            Map<String, Object> wide = columns("carcass", List.of("first", "second"));
            for (int i = 0; i < 12; i++) {
                wide.put("a cut of name " + i + ", kg", new double[] {i + 0.5, 1});
            }
            String text = Frame.of(wide).toText();
            assertThat(text.lines()).allMatch(line -> line.length() <= 120);
            assertThat(text.lines().filter(line -> line.startsWith("carcass  ")))
                    .hasSize(3);
            assertThat(text.lines().filter(line -> line.startsWith("second  "))).hasSize(3);
            for (int i = 0; i < 12; i++) {
                assertThat(text).containsOnlyOnce("a cut of name " + i + ", kg");
            }
        }

        @Test
        void longTextsWrap() {
            String name = "The upper pasture of the invented Tarrowmere farm group, behind the mere";
            assertThat(Frame.of(columns("lot", List.of(name, "x".repeat(45)), "kg", new int[] {1, 2}))
                            .toText())
                    .isEqualTo("""
                            lot                                       kg
                            --------------------------------------------
                            The upper pasture of the invented          1
                            Tarrowmere farm group, behind the mere
                            xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx   2
                            xxxxx
                            """);
        }

        @Test
        void aLineFeedInATextBreaksNoLine() {
            assertThat(Frame.of(columns("lot", List.of("a\nb"))).toText()).isEqualTo("lot\n---\na b\n");
        }

        @Test
        void onOneLineItSaysRowsAndColumns() {
            assertThat(lots())
                    .hasToString("4 rows: carcass; lot; category; cold weight, kg; fat trim, % of cold weight");
            Map<String, Object> many = new LinkedHashMap<>();
            for (int i = 0; i < 9; i++) {
                many.put("c" + i, List.of("x"));
            }
            assertThat(Frame.of(many)).hasToString("1 row: c0; c1; c2; c3; c4; c5; c6; c7; and 1 more column");
        }
    }

    @Nested
    class InHtml {
        @Test
        void everyRowOfTwoHundredStandsInABoxThatScrolls() throws Exception {
            Frame frame = Frame.of(columns(
                    "carcass",
                    IntStream.range(0, 200).mapToObj(i -> "c" + i).toList(),
                    "kg",
                    IntStream.range(0, 200).toArray()));
            Document html = parsed(frame.withTotal().toHtml());
            assertThat(html.getElementsByTagName("tr").getLength()).isEqualTo(202);
            assertThat(frame.toHtml()).contains("max-height").contains("position:sticky");
            assertThat(frame.head(20).toHtml()).doesNotContain("max-height").contains("overflow-x:auto");
            assertThat(html.getElementsByTagName("th")
                            .item(1)
                            .getAttributes()
                            .getNamedItem("style")
                            .getNodeValue())
                    .contains("text-align:right");
            assertThat(html.getElementsByTagName("td")
                            .item(1)
                            .getAttributes()
                            .getNamedItem("style")
                            .getNodeValue())
                    .contains("text-align:right");
        }

        @Test
        void ofMoreThanAThousandRowsItSaysHowManyAreLeftOut() throws Exception {
            Frame frame = Frame.of(columns(
                    "carcass", IntStream.range(0, 1001).mapToObj(i -> "c" + i).toList()));
            Document html = parsed(frame.toHtml());
            assertThat(html.getElementsByTagName("tr").getLength()).isEqualTo(1002);
            assertThat(frame.toHtml())
                    .contains(">c499<")
                    .doesNotContain(">c500<")
                    .contains(">c501<")
                    .contains("1 of 1001 rows are left out where the three dots stand");
            assertThat(parsed(frame.head(1000).toHtml())
                            .getElementsByTagName("tr")
                            .getLength())
                    .isEqualTo(1001);
        }

        @Test
        void namesAreEscaped() throws Exception {
            Frame frame = Frame.of(columns(
                    "<b>lot</b>, k&g", new int[] {1}, "note", List.of("<script>alert(\"1\")</script> & 'so'\u0007")));
            assertThat(frame.toHtml()).doesNotContain("<b>", "<script", "k&g", "\u0007");
            assertThat(parsed(frame.toHtml()).getElementsByTagName("td").item(2).getTextContent())
                    .isEqualTo("<script>alert(\"1\")</script> & 'so' ");
        }

        private static Document parsed(String html) throws ParserConfigurationException, IOException, SAXException {
            return DocumentBuilderFactory.newInstance()
                    .newDocumentBuilder()
                    .parse(new InputSource(new StringReader("<body>" + html + "</body>")));
        }
    }
}
