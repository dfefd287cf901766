package org.beefyield.estimate;

import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;

/**
 * A difference of two expectations.
 *
 * @param kg one less the other, kg
 * @param sdKg SD of the difference from the errors that all carcasses share, kg
 */
public record ExpectedDifference(double kg, double sdKg) implements ShownInBlocks {
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
        return ExpectedDifferenceText.blocks(this);
    }

    /**
     * One line.
     *
     * @return such as {@code 7.40 kg, SD 0.35 kg}
     */
    @Override
    public String toString() {
        return ExpectedDifferenceText.line(this);
    }
}
