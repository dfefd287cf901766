package org.beefyield.pack;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.DoubleStream;
import org.beefyield.estimate.Cautions;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.market.SizeWindow;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Place;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** A pack summary in words. */
final class PackSummaryText {
    private static final double DIGITS = 100;

    private final PackSummary summary;

    PackSummaryText(PackSummary summary) {
        this.summary = summary;
    }

    Blocks blocks() {
        Blocks blocks = new Blocks();
        return (summary.windows().isEmpty() ? blocks : blocks.add(table()).sentence(PackedValueText.IN_OWN_HALL))
                .sentences(sentences());
    }

    private String currency() {
        return summary.prices().currency();
    }

    Frame frame() {
        return Frame.ofEach(List.copyOf(summary.windows().entrySet()))
                .text("table", row -> summary.fit().valuer().estimator().table().identity())
                .text("window", row -> row.getKey().toString())
                // a carcass has pieces for several windows
                .number("carcasses", row -> row.getValue().carcasses())
                .number(percent("too light"), row -> percent(row, row.getValue().below()))
                .number(
                        percent("fits"),
                        row -> 100
                                - percent(
                                        row,
                                        row.getValue().below() + row.getValue().above()))
                .number(percent("too heavy"), row -> percent(row, row.getValue().above()))
                .number("other way, kg", row -> row.getValue().kg())
                .number(
                        Column.number("costs, " + currency()).totalling(Total.SUM),
                        row -> row.getValue().amount())
                .frame();
    }

    private static Column percent(String name) {
        return Column.number(name + ", % of carcasses").totalling(Total.meanWeightedBy("carcasses"));
    }

    private static double percent(Map.Entry<SizeWindow, PackSummary.Misfits> row, double carcasses) {
        return 100 * carcasses / row.getValue().carcasses();
    }

    private YieldTable yields() {
        return summary.fit().valuer().estimator().table();
    }

    /** To the third digit of the largest, for what many carcasses are expected to return isn't known to the cent. */
    private Place place(DoubleStream amounts) {
        double largest = amounts.map(Math::abs).max().orElse(0);
        Place cents = Place.decimals(summary.prices().decimals());
        return summary.carcasses() < 2 || largest < DIGITS
                ? cents
                : Place.decimals(0).coarser(Place.of(largest / DIGITS));
    }

    private TextTable table() {
        TextTable table = new TextTable(
                "window",
                "carcasses",
                "too light, %",
                "fits, %",
                "too heavy, %",
                "other way, kg",
                "costs, " + currency());
        Place place = place(summary.windows().values().stream().mapToDouble(PackSummary.Misfits::amount));
        summary.windows().forEach((window, misfits) -> {
            double below = 100 * misfits.below() / misfits.carcasses();
            double above = 100 * misfits.above() / misfits.carcasses();
            List<String> percent = Rounding.adding(new double[] {below, 100 - below - above, above}, 100, 1);
            table.row(
                    window.words(AssumedWays.name(window.cut(), yields())),
                    Numbers.grouped(Long.toString(misfits.carcasses())),
                    percent.get(0),
                    percent.get(1),
                    percent.get(2),
                    Numbers.grouped(Numbers.fixed(misfits.kg(), 1)),
                    Numbers.grouped(place.text(misfits.amount())));
        });
        return table;
    }

    private List<String> sentences() {
        List<String> sentences = new ArrayList<>();
        if (summary.changed().isEmpty()) {
            sentences.add("No other way of cutting is expected to return more");
        } else {
            List<String> ways = new ArrayList<>();
            summary.changed()
                    .forEach((way, count) -> ways.add(
                            AssumedWays.named(way, yields()) + " (" + Numbers.grouped(Long.toString(count)) + ")"));
            sentences.add("Cut the best way, carcass by carcass, the lot is expected to return "
                    + Numbers.grouped(place(DoubleStream.of(summary.gain())).text(summary.gain())) + " " + currency()
                    + " more, labour not counted; what changes, and in how many carcasses: " + String.join(", ", ways));
            sentences.addAll(AssumedWays.caution(summary.assumed().stream()
                    .map(way -> AssumedWays.named(way, yields()))
                    .toList()));
        }
        sentences.add(Cautions.NO_SETTLEMENT);
        return sentences;
    }
}
