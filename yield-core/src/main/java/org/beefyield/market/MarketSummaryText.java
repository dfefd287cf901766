package org.beefyield.market;

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
