package org.beefyield.pack;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.estimate.Cautions;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** A pack summary in words. */
final class PackSummaryText {
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

    private TextTable table() {
        TextTable table = new TextTable(
                "window",
                "carcasses",
                "too light, %",
                "fits, %",
                "too heavy, %",
                "other way, kg",
                "costs, " + currency());
        summary.windows().forEach((window, misfits) -> {
            double below = 100 * misfits.below() / misfits.carcasses();
            double above = 100 * misfits.above() / misfits.carcasses();
            List<String> percent = Rounding.adding(new double[] {below, 100 - below - above, above}, 100, 1);
            table.row(
                    window.toString(),
                    Long.toString(misfits.carcasses()),
                    percent.get(0),
                    percent.get(1),
                    percent.get(2),
                    Numbers.fixed(misfits.kg(), 1),
                    summary.prices().money(misfits.amount()).amountText());
        });
        return table;
    }

    private List<String> sentences() {
        List<String> sentences = new ArrayList<>();
        if (summary.changed().isEmpty()) {
            sentences.add("No other way of cutting is expected to return more");
        } else {
            List<String> ways = new ArrayList<>();
            summary.changed().forEach((way, count) -> ways.add(way + " (" + count + ")"));
            sentences.add("Cut the best way, carcass by carcass, the lot is expected to return "
                    + summary.gainMoney()
                    + " more, labour not counted; what changes, and in how many carcasses: " + String.join(", ", ways));
            sentences.addAll(AssumedWays.caution(summary.assumed()));
        }
        sentences.add(Cautions.NO_SETTLEMENT);
        return sentences;
    }
}
