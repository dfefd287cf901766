package org.beefyield.estimate;

import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;

/**
 * A difference of two expectations.
 *
 * @param kg one less the other, kg
 * @param sdKg SD of the difference from the errors that all carcasses share, kg
 */
public record ExpectedDifference(double kg, double sdKg) implements ShownInBlocks {
    private static final int DECIMALS = 2;

    /**
     * The interval that holds the expected difference with a probability.
     *
     * @param probability above 0 and below 1
     * @return a normal interval
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Interval interval(double probability) {
        return Interval.normal(kg, sdKg, probability);
    }

    /**
     * The difference for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        TextTable table = new TextTable("difference", "kg", "SD, kg", "90 % sure: from kg", "to kg");
        Interval interval = interval(Interval.SHOWN_PROBABILITY);
        table.row(
                "expected",
                Numbers.fixed(kg, DECIMALS),
                Numbers.fixed(sdKg, DECIMALS),
                Numbers.fixed(interval.low(), DECIMALS),
                Numbers.fixed(interval.high(), DECIMALS));
        return new Blocks()
                .add(table)
                .sentence("The SD holds the errors that all carcasses share, not how single ones differ.");
    }

    /**
     * One line.
     *
     * @return such as {@code 7.40 kg, SD 0.35 kg}
     */
    @Override
    public String toString() {
        return Numbers.fixed(kg, DECIMALS) + " kg, SD " + Numbers.fixed(sdKg, DECIMALS) + " kg";
    }
}
