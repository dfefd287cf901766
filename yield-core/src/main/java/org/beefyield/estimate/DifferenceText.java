package org.beefyield.estimate;

import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** A difference in words. */
final class DifferenceText {
    private static final int DECIMALS = 2;

    private DifferenceText() {}

    static Blocks blocks(Difference difference) {
        TextTable table = new TextTable("difference", "kg", "SD, kg", "90 % interval, kg: low", "high");
        row(table, "weighed", difference, difference.sdKg(), difference.interval(Interval.SHOWN_PROBABILITY));
        row(
                table,
                "expected",
                difference,
                difference.expectedSdKg(),
                difference.expectedInterval(Interval.SHOWN_PROBABILITY));
        return new Blocks()
                .add(table)
                .sentence("Errors that both sides have in common cancel")
                .sentences(difference.intervalWords())
                .sentences(difference.expectedIntervalWords());
    }

    private static void row(TextTable table, String name, Difference difference, double sd, Interval interval) {
        table.row(
                name,
                Numbers.fixed(difference.kg(), DECIMALS),
                Numbers.fixed(sd, DECIMALS),
                Numbers.fixed(interval.low(), DECIMALS),
                Numbers.fixed(interval.high(), DECIMALS));
    }

    static String line(Difference difference) {
        return Numbers.fixed(difference.kg(), DECIMALS) + " kg, SD " + Numbers.fixed(difference.sdKg(), DECIMALS)
                + " kg weighed, " + Numbers.fixed(difference.expectedSdKg(), DECIMALS) + " kg expected";
    }
}
