package org.beefyield.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.market.MarketSummary;
import org.beefyield.pay.Overpayment;
import org.beefyield.price.Money;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Place;
import org.beefyield.text.TextTable;

/** The first page of a day, in words. */
final class DayText {
    private static final int KG_DECIMALS = 1;

    private final Day day;

    DayText(Day day) {
        this.day = day;
    }

    private static String count(long number) {
        return Numbers.grouped(Long.toString(number));
    }

    String sentence() {
        return day.title() + ": " + count(day.rows()) + (day.rows() == 1 ? " row, " : " rows, ")
                + count(day.rows() - day.condemned() - day.refused()) + " estimated, " + count(day.condemned())
                + " condemned, " + count(day.refused()) + " refused";
    }

    Blocks blocks() {
        Blocks blocks = new Blocks().sentence(sentence());
        for (Map.Entry<String, Long> refusal : day.refusals().entrySet()) {
            blocks.sentence("Refused, " + count(refusal.getValue()) + (refusal.getValue() == 1 ? " row: " : " rows: ")
                    + refusal.getKey());
        }
        if (day.otherReasons() > 0) {
            blocks.sentence("Refused for " + count(day.otherReasons())
                    + (day.otherReasons() == 1 ? " other reason" : " other reasons") + ": stated below");
        }
        if (day.lot().isEmpty()) {
            return blocks;
        }
        blocks.add(table()).sentences(sentences());
        day.overpayment().map(Overpayment::sentences).ifPresent(blocks::sentences);
        day.markets().forEach(market -> blocks.sentence(sentence(market)));
        return blocks;
    }

    private static String sentence(MarketSummary market) {
        return market + (market.inSpecification() == market.carcasses() ? "" : "; who misses what stands below");
    }

    private int decimals() {
        return day.value().map(value -> value.prices().decimals()).orElse(2);
    }

    private Place place(Day.Line line) {
        boolean kg = line.unit().equals("kg");
        if (line.unit().equals("head")) {
            return Place.decimals(0);
        }
        if (line.unit().endsWith(" a kg")) {
            return Place.decimals(decimals() + 1);
        }
        if (line.interval() == null) {
            return Place.decimals(kg ? KG_DECIMALS : decimals());
        }
        return kg ? line.interval().place(KG_DECIMALS) : line.interval().placeOfMoney(decimals());
    }

    private static String title(Day.Line line) {
        return line.unit().equals("head")
                ? line.name()
                : line.name() + ", " + line.unit().replace(" a kg", "");
    }

    private TextTable table() {
        boolean promises = day.promise() > 0;
        List<String> header = new ArrayList<>(List.of("figure", "value", "90 % sure: low", "high"));
        if (promises) {
            header.add(Numbers.percent(day.promise()) + " % sure, at least");
        }
        TextTable table = new TextTable(header.toArray(String[]::new));
        for (Day.Line line : day.lines()) {
            Place place = place(line);
            Interval interval = line.interval();
            List<String> row = new ArrayList<>(List.of(
                    title(line),
                    Numbers.grouped(place.text(line.value())),
                    interval == null ? "" : Numbers.grouped(place.text(interval.low())),
                    interval == null ? "" : Numbers.grouped(place.text(interval.high()))));
            if (promises) {
                row.add(line.promise() == null ? "" : Numbers.grouped(place.atMost(line.promise())));
            }
            table.row(row);
        }
        return table;
    }

    private List<String> sentences() {
        List<String> sentences = new ArrayList<>();
        day.lot().ifPresent(lot -> sentences.addAll(lot.intervalWords(Figure.saleable())));
        day.value().ifPresent(value -> {
            Money more = value.prices().money(day.togetherMore());
            if (more.signum() != 0) {
                sentences.add(
                        "Worth is that of the carcasses, each by itself; minced together, where lean trim of one takes up"
                                + " fat trim of another, they are worth " + Numbers.grouped(more.amountText()) + " "
                                + more.currency() + " more");
            }
        });
        day.margins()
                .flatMap(report -> report.total())
                .ifPresent(total -> day.lot().ifPresent(lot -> {
                    if (total.carcasses() != lot.carcasses()) {
                        sentences.add("Payment and margin are of the " + count(total.carcasses())
                                + " carcasses for which the grid pays");
                    }
                }));
        return sentences;
    }

    Frame frame() {
        return Frame.ofEach(day.lines())
                .text("figure", Day.Line::name)
                .number(none("value"), Day.Line::value)
                .text("unit", Day.Line::unit)
                .number(
                        none(Interval.SHOWN_LOW),
                        line -> line.interval() == null
                                ? Double.NaN
                                : line.interval().low())
                .number(
                        none(Interval.SHOWN_HIGH),
                        line -> line.interval() == null
                                ? Double.NaN
                                : line.interval().high())
                .number(none("promise"), line -> line.promise() == null ? Double.NaN : line.promise())
                .frame();
    }

    private static Column none(String name) {
        return Column.number(name).totalling(Total.NONE);
    }
}
