package org.beefyield.price;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Place;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** A value in words. */
final class ValueText {
    private static final int KG_DECIMALS = 2;

    private final Value value;

    ValueText(Value value) {
        this.value = value;
    }

    private PriceList prices() {
        return value.prices();
    }

    Blocks blocks() {
        return new Blocks()
                .sentence(sentence())
                .sentences(value.outturn().intervalWords(value.figure()))
                .add(table())
                .sentence(Cautions.NO_SETTLEMENT);
    }

    String sentence() {
        Interval interval = value.interval(Interval.SHOWN_PROBABILITY);
        Place place = interval.placeOfMoney(prices().decimals());
        // of one carcass to the cent, for it is sold as it is; of a lot as far as the interval bears
        String amount = value.outturn() instanceof LotEstimate
                ? place.text(value.amount())
                : value.money().amountText();
        return "Worth " + Numbers.grouped(amount) + " " + value.currency() + ", "
                + Numbers.fixed(value.perKg(), prices().decimals() + 1)
                + " a kg cold; 90 % sure, prices as given: "
                + Numbers.grouped(place.text(interval.low())) + " to " + Numbers.grouped(place.text(interval.high()))
                + value.lines().stream()
                        .filter(line -> !line.note().isEmpty())
                        .map(line -> "; " + line.name().toLowerCase(Locale.ROOT) + ": " + line.note())
                        .collect(Collectors.joining());
    }

    Frame frame() {
        return Frame.ofEach(value.lines())
                .text("table", line -> value.outturn().table().identity())
                .text("line", ValueLine::name)
                .text("cut", ValueLine::code)
                .number("weight, kg", line -> line.code().isEmpty() ? Double.NaN : line.quantity())
                .number("quantity, kg or head", ValueLine::quantity)
                .number(Column.number("price, " + value.currency() + " each"), ValueLine::price)
                .number(Column.number("amount, " + value.currency()).totalling(Total.SUM), ValueLine::amount)
                .text("note", ValueLine::note)
                .frame();
    }

    /** Heads are whole. */
    private String quantity(ValueLine line) {
        boolean perHead = line.code().isEmpty() && line.quantity() == value.head();
        return perHead ? Long.toString(value.head()) : Numbers.fixed(line.quantity(), KG_DECIMALS);
    }

    /** With the decimals of the currency, or with all that it has. */
    private String price(double price) {
        String brief = Numbers.brief(price);
        String fixed = Numbers.fixed(price, prices().decimals());
        return Double.parseDouble(fixed) == price ? fixed : brief;
    }

    TextTable table() {
        TextTable table = new TextTable("line", "kg or head", value.currency() + " each", value.currency());
        List<String> amounts = Rounding.adding(
                value.lines().stream().mapToDouble(ValueLine::amount).toArray(), value.amount(), prices().decimals());
        for (int i = 0; i < value.lines().size(); i++) {
            ValueLine line = value.lines().get(i);
            table.row(
                    line.title(),
                    Numbers.grouped(quantity(line)),
                    price(line.price()),
                    Numbers.grouped(amounts.get(i)));
        }
        return table.rule().row("Total", "", "", Numbers.grouped(value.money().amountText()));
    }
}
