package org.beefyield.market;

import java.util.List;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** A market summary in words. */
final class MarketSummaryText {
    private final MarketSummary summary;

    MarketSummaryText(MarketSummary summary) {
        this.summary = summary;
    }

    Blocks blocks() {
        Blocks blocks = new Blocks().sentence(sentence());
        return summary.misses().isEmpty() ? blocks : blocks.add(table());
    }

    String sentence() {
        return summary.inSpecification() + " of " + summary.carcasses()
                + (summary.carcasses() == 1 ? " carcass " : " carcasses ")
                + (summary.inSpecification() == 1 ? "is" : "are")
                + " in specification " + summary.specification();
    }

    Frame frame() {
        return Frame.ofEach(List.copyOf(summary.misses().entrySet()))
                .text("specification", row -> summary.specification().toString())
                .text("limit", row -> row.getKey().words())
                .number(
                        Column.number("missed by, carcasses").totalling(Total.NONE),
                        row -> row.getValue().carcasses())
                .number("share, % of carcasses", row -> 100.0 * row.getValue().carcasses() / summary.carcasses())
                .text("farthest off", row -> row.getValue().id())
                .number("distance", row -> row.getValue().farthest().distance().orElse(Double.NaN))
                .text("reason", row -> row.getValue().farthest().text())
                .frame();
    }

    private TextTable table() {
        TextTable table = new TextTable("limit missed", "carcasses", "% of all", "farthest off");
        summary.misses()
                .forEach((limit, misses) -> table.row(
                        limit.words(),
                        Long.toString(misses.carcasses()),
                        Numbers.fixed(100.0 * misses.carcasses() / summary.carcasses(), 1),
                        (misses.id().isEmpty() ? "" : "carcass " + misses.id() + ": ")
                                + misses.farthest().text()));
        return table;
    }
}
