package org.beefyield.estimate;

import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** An expected difference in words. */
final class ExpectedDifferenceText {
    private static final int DECIMALS = 2;

    private ExpectedDifferenceText() {}

    static Blocks blocks(ExpectedDifference difference) {
        Interval interval = difference.interval(Interval.SHOWN_PROBABILITY);
        TextTable table = new TextTable("difference", "kg", "SD, kg", "90 % sure: from kg", "to kg")
                .row(
                        "expected",
                        Numbers.fixed(difference.kg(), DECIMALS),
                        Numbers.fixed(difference.sdKg(), DECIMALS),
                        Numbers.fixed(interval.low(), DECIMALS),
                        Numbers.fixed(interval.high(), DECIMALS));
        return new Blocks()
                .add(table)
                .sentence("The SD holds the errors that all carcasses share, not how single ones differ.");
    }

    static String line(ExpectedDifference difference) {
        return Numbers.fixed(difference.kg(), DECIMALS) + " kg, SD " + Numbers.fixed(difference.sdKg(), DECIMALS)
                + " kg";
    }
}
