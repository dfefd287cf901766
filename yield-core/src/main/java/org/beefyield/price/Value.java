package org.beefyield.price;

import java.util.List;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;

/**
 * What an outturn is worth at a price list. Immutable. Prices are taken as certain: intervals hold the uncertainty of the
 * yields alone.
 */
public final class Value implements ShownInBlocks {
    private final PriceList prices;
    private final YieldEstimator estimator;
    private final String level;
    private final Outturn outturn;
    private final long head;
    private final Figure figure;
    private final List<ValueLine> lines;
    private final double amount;

    Value(
            PriceList prices,
            YieldEstimator estimator,
            String level,
            Outturn outturn,
            long head,
            Figure figure,
            List<ValueLine> lines) {
        this.prices = prices;
        this.estimator = estimator;
        this.level = level;
        this.outturn = outturn;
        this.head = head;
        this.figure = figure;
        this.lines = List.copyOf(lines);
        this.amount = lines.stream().mapToDouble(ValueLine::amount).sum();
    }

    /**
     * The outturn that is valued.
     *
     * @return estimate of a carcass or lot
     */
    public Outturn outturn() {
        return outturn;
    }

    /**
     * What the outturn was valued at.
     *
     * @return the price list
     */
    public PriceList prices() {
        return prices;
    }

    /** How carcasses are estimated and cut, the outturn's own manner. */
    YieldEstimator estimator() {
        return estimator;
    }

    /**
     * The level of cutting that is valued.
     *
     * @return name of the level
     */
    public String level() {
        return level;
    }

    /** Carcasses that the outturn is of. */
    long head() {
        return head;
    }

    /**
     * Label of the currency.
     *
     * @return such as {@code EUR}
     */
    public String currency() {
        return prices.currency();
    }

    /**
     * Every cut in printing order, then the other lines.
     *
     * @return lines that add up to {@link #amount()}
     */
    public List<ValueLine> lines() {
        return lines;
    }

    /**
     * All lines together.
     *
     * @return amount in the list's currency, not rounded
     */
    public double amount() {
        return amount;
    }

    /**
     * All lines together as money.
     *
     * @return amount rounded to the list's decimals
     */
    public String money() {
        return prices.money(amount);
    }

    /**
     * Value of a kg of cold weight.
     *
     * @return amount per kg
     */
    public double perKg() {
        return amount / outturn.coldWeightKg();
    }

    /**
     * Value of a carcass.
     *
     * @return amount per head, of a lot the mean
     */
    public double perHead() {
        return amount / head;
    }

    /**
     * The value of the cuts, other lines left out, as a figure in which each kg counts for its price here.
     *
     * @return the figure, for SDs and differences
     */
    public Figure figure() {
        return figure;
    }

    /**
     * SD of the value from the uncertainty of the yields.
     *
     * @return amount
     */
    public double sd() {
        return outturn.sd(figure);
    }

    /**
     * The interval that holds the value with a probability.
     *
     * @param probability above 0 and below 1
     * @return the interval, in the list's currency
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Interval interval(double probability) {
        Interval cuts = outturn.interval(figure, probability);
        double others = amount - outturn.kg(figure);
        return new Interval(cuts.low() + others, cuts.high() + others, probability);
    }

    /**
     * Line by line: kg, price and amount. Amounts add up to the total as printed.
     *
     * @return a table with a total
     */
    public TextTable table() {
        return new ValueText(this).table();
    }

    /**
     * The value for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new ValueText(this).blocks();
    }

    /**
     * One line.
     *
     * @return the value, its value per kg and its interval
     */
    @Override
    public String toString() {
        return new ValueText(this).sentence();
    }
}
