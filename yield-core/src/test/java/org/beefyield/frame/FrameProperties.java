package org.beefyield.frame;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.StringReader;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import javax.xml.parsers.DocumentBuilderFactory;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;

class FrameProperties {
    /** A text column to group by, one of any texts, and two of numbers of which some are missing. */
    @Provide
    Arbitrary<Frame> frames() {
        Arbitrary<Double> numbers = Arbitraries.doubles().between(-1e6, 1e6).injectNull(0.1);
        Arbitrary<String> lots = Arbitraries.of("Mere", "Hill", "");
        Arbitrary<String> texts = Arbitraries.strings().ofMaxLength(60);
        return Arbitraries.integers()
                .between(0, 60)
                .flatMap(rows -> lots.list()
                        .ofSize(rows)
                        .flatMap(lot -> texts.list()
                                .ofSize(rows)
                                .flatMap(text -> numbers.list()
                                        .ofSize(rows)
                                        .flatMap(kg -> numbers.list()
                                                .ofSize(rows)
                                                .map(money -> frame(lot, text, kg, money))))));
    }

    private static Frame frame(List<String> lots, List<String> texts, List<Double> kg, List<Double> money) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("lot", lots);
        columns.put("note", texts);
        columns.put("cold weight, kg", array(kg));
        columns.put("paid, EUR", array(money));
        return Frame.of(columns);
    }

    private static double[] array(List<Double> values) {
        return values.stream()
                .mapToDouble(value -> value == null ? Double.NaN : value)
                .toArray();
    }

    private static double sum(double[] values) {
        return DoubleStream.of(values).filter(value -> !Double.isNaN(value)).sum();
    }

    @Property(tries = 200)
    void sumsOfGroupsAddUpToTheWhole(@ForAll("frames") Frame frame) {
        Frame groups = frame.groupBy("lot").sum();
        for (String column : List.of("cold weight", "paid")) {
            assertThat(sum(groups.numbers(column))).isCloseTo(sum(frame.numbers(column)), within(1e-6));
        }
        assertThat(sum(frame.groupBy("lot").count().numbers("rows"))).isEqualTo(frame.rows());
    }

    @Property(tries = 200)
    void aGroupIsWhatAConditionFinds(@ForAll("frames") Frame frame) {
        Frame groups = frame.groupBy("lot").mean("cold weight");
        for (int i = 0; i < groups.rows(); i++) {
            String lot = groups.texts("lot").get(i);
            Frame one = frame.where(row -> row.text("lot").equals(lot));
            double mean = one.describe().numbers("mean")[0];
            double grouped = groups.numbers("cold weight")[i];
            assertThat(Double.isNaN(grouped)).isEqualTo(Double.isNaN(mean));
            if (!Double.isNaN(mean)) {
                assertThat(grouped).isCloseTo(mean, within(1e-6));
            }
        }
    }

    @Property(tries = 200)
    void headAndTailTogetherAreTheWhole(@ForAll("frames") Frame frame, @ForAll @IntRange(max = 70) int count) {
        int first = Math.min(count, frame.rows());
        Frame head = frame.head(first);
        Frame tail = frame.tail(frame.rows() - first);
        List<String> notes = new ArrayList<>(head.texts("note"));
        notes.addAll(tail.texts("note"));
        assertThat(notes).isEqualTo(frame.texts("note"));
        assertThat(DoubleStream.concat(DoubleStream.of(head.numbers("paid")), DoubleStream.of(tail.numbers("paid")))
                        .toArray())
                .isEqualTo(frame.numbers("paid"));
    }

    @Property(tries = 200)
    void throughArraysAndBackItIsTheSame(@ForAll("frames") Frame frame) {
        assertThat(Frame.of(frame.toMap())).isEqualTo(frame).hasSameHashCodeAs(frame);
        assertThat(Frame.of(frame.columns(), List.copyOf(frame.toMap().values())))
                .isEqualTo(frame);
        assertThat(frame.reversed().reversed()).isEqualTo(frame);
        assertThat(frame.select("lot", "note", "cold weight", "paid")).isEqualTo(frame);
    }

    @Property(tries = 200)
    void sortingMovesRowsAndLosesNone(@ForAll("frames") Frame frame) {
        Frame sorted = frame.with("old row", row -> row.index()).sortedBy("cold weight");
        double[] numbers = sorted.numbers("cold weight");
        for (int i = 1; i < numbers.length; i++) {
            assertThat(Double.compare(numbers[i - 1], numbers[i])).isLessThanOrEqualTo(0);
        }
        double[] old = sorted.numbers("old row");
        for (int i = 0; i < old.length; i++) {
            assertThat(sorted.texts("note").get(i))
                    .isEqualTo(frame.texts("note").get((int) old[i]));
        }
        assertThat(Arrays.stream(old).sorted())
                .containsExactlyElementsOf(IntStream.range(0, frame.rows())
                        .mapToObj(row -> (double) row)
                        .toList());
    }

    @Property(tries = 100)
    void figuresOfOneGroupAreThoseOfDescribe(@ForAll("frames") Frame frame) {
        Frame described = frame.describe();
        Frame figures = frame.groupBy()
                .figures(
                        Statistic.mean("paid"),
                        Statistic.sd("paid"),
                        Statistic.quantile("paid", 0),
                        Statistic.quantile("paid", 0.25),
                        Statistic.quantile("paid", 1));
        if (frame.rows() > 0) {
            List<String> names = List.of("mean", "SD", "min", "lower quartile", "max");
            for (int i = 0; i < names.size(); i++) {
                assertThat(figures.numbers(figures.columns().get(1 + i).name())[0])
                        .isCloseTo(described.numbers(names.get(i))[1], within(1e-6));
            }
        }
    }

    @Property(tries = 200)
    void figuresOfAColumnStandInOrder(@ForAll("frames") Frame frame) {
        Frame described = frame.describe();
        for (int i = 0; i < described.rows(); i++) {
            assertThat(described.numbers("count")[i] + described.numbers("missing")[i])
                    .isEqualTo(frame.rows());
            if (described.numbers("count")[i] > 0) {
                assertThat(described.numbers("min")[i])
                        .isLessThanOrEqualTo(described.numbers("lower quartile")[i]);
                assertThat(described.numbers("lower quartile")[i])
                        .isLessThanOrEqualTo(described.numbers("median")[i]);
                assertThat(described.numbers("median")[i])
                        .isLessThanOrEqualTo(described.numbers("upper quartile")[i]);
                assertThat(described.numbers("upper quartile")[i])
                        .isLessThanOrEqualTo(described.numbers("max")[i]);
            }
        }
    }

    /** As a person would add up what is printed. */
    @Property(tries = 100)
    void printedFiguresAddUpToThePrintedTotal(@ForAll("frames") Frame frame) throws Exception {
        Document html = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(
                        new StringReader("<body>" + frame.withTotal().toHtml() + "</body>")));
        int columns = frame.columns().size();
        List<String> cells = new ArrayList<>();
        for (int i = 0; i < html.getElementsByTagName("td").getLength(); i++) {
            cells.add(html.getElementsByTagName("td").item(i).getTextContent());
        }
        assertThat(cells).hasSize((frame.rows() + 1) * columns);
        for (int column = 2; column < columns; column++) {
            BigDecimal sum = BigDecimal.ZERO;
            for (int row = 0; row < frame.rows(); row++) {
                String cell = cells.get(row * columns + column);
                sum = cell.isEmpty() ? sum : sum.add(new BigDecimal(cell));
            }
            assertThat(new BigDecimal(cells.get(frame.rows() * columns + column)))
                    .isEqualByComparingTo(sum);
        }
    }

    @Property(tries = 100)
    void noTextBreaksThePrintedLines(@ForAll("frames") Frame frame) {
        long tables = 1;
        assertThat(frame.toText()
                        .lines()
                        .filter(line -> line.startsWith("lot "))
                        .count())
                .isEqualTo(tables);
        assertThat(frame.toText().lines()).allMatch(line -> line.length() <= 120);
    }
}
