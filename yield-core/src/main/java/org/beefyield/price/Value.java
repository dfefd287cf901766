package org.beefyield.price;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.List;
import java.util.Objects;
import org.beefyield.estimate.Difference;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.frame.Frame;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/**
 * What an outturn is worth at a price list. Immutable. Prices are taken as certain: intervals hold the uncertainty of the
 * yields alone.
 */
public final class Value implements ShownInBlocks, Serializable {
    private static final long serialVersionUID = 1;
    private static final int SAID_DIGITS = 4;

    private final transient PriceList prices;
    private final transient YieldEstimator estimator;
    private final transient String level;
    private final transient Outturn outturn;
    private final transient long head;
    private final transient Figure figure;
    private final transient List<ValueLine> lines;
    private final transient double amount;

    Value(PriceList prices, YieldEstimator estimator, String level, Outturn outturn, long head, List<ValueLine> lines) {
        this.prices = prices;
        this.estimator = estimator;
        this.level = level;
        this.outturn = outturn;
        this.head = head;
        this.lines = List.copyOf(lines);
        this.figure = lines.stream()
                .filter(line -> !line.code().isEmpty())
                .map(line -> Figure.cut(level, line.code()).times(line.price()))
                .reduce(Figure::plus)
                .orElseThrow();
        this.amount = lines.stream().mapToDouble(ValueLine::amount).sum();
        checkSize();
    }

    /** Larger amounts, in units of the last decimal, can't be told to that decimal. */
    private static final double MOST_UNITS = 1e14;

    private void checkSize() {
        double all = lines.stream().mapToDouble(line -> Math.abs(line.amount())).sum();
        double most = MOST_UNITS / Math.pow(10, prices.decimals());
        if (!(all <= most)) {
            throw new IllegalArgumentException("amounts of " + Numbers.digits(all, SAID_DIGITS) + " " + currency()
                    + " can't be told to " + prices.decimals() + " decimals, " + Numbers.exact(most)
                    + " can; give the price list fewer decimals, or lower prices");
        }
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
     * @return amount rounded half up to the list's decimals
     */
    public Money money() {
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
     * How much more this is worth than other carcasses, and how sure that is: errors that both have in common cancel, see
     * {@link Outturn#minus(Figure, Outturn, Figure)}; prices are taken as certain.
     *
     * @param other value of other carcasses, by the same table and scale and in the same currency; prices, cutting and mince may
     *     differ
     * @return the difference, in the currency in place of kg
     * @throws IllegalArgumentException if the two were estimated from other tables, scales or parts of the uncertainty, or the
     *     currencies differ
     */
    public Difference minus(Value other) {
        Objects.requireNonNull(other, "other");
        prices.checkCurrency(other.currency());
        return certain(outturn.minus(figure, other.outturn, other.figure), other);
    }

    /**
     * How much more the same carcasses are worth than cut or priced otherwise, and how sure that is: what single carcasses err
     * cancels too, see {@link Outturn#changeFrom(Figure, Outturn, Figure)}.
     *
     * @param before value of the same carcasses in the same currency
     * @return the difference, in the currency in place of kg
     * @throws IllegalArgumentException if the carcasses are others, the two were estimated from other tables, scales or parts of
     *     the uncertainty, or the currencies differ
     */
    public Difference changeFrom(Value before) {
        Objects.requireNonNull(before, "before");
        prices.checkCurrency(before.currency());
        return certain(outturn.changeFrom(figure, before.outturn, before.figure), before);
    }

    /** With the lines beside the cuts, which are certain. */
    private Difference certain(Difference ofCuts, Value other) {
        return ofCuts.plus(amount - other.amount - ofCuts.kg());
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
     * The value as a frame, a row for each line.
     *
     * @return {@code table}; {@code line}, its name; {@code cut}, its code, missing of income and cost beside the cuts;
     *     {@code weight} in kg, missing there too; {@code quantity} in kg or head, what is priced; {@code price} in the
     *     currency each; {@code amount} in the currency; {@code note}, which price it is where that isn't plain
     */
    public Frame toFrame() {
        return new ValueText(this).frame();
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

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Value that
                && prices.equals(that.prices)
                && estimator.equals(that.estimator)
                && level.equals(that.level)
                && outturn.equals(that.outturn);
    }

    @Override
    public int hashCode() {
        return Objects.hash(prices, level, outturn);
    }

    /**
     * What goes over the wire.
     *
     * @param prices prices
     * @param estimator how carcasses are estimated and cut
     * @param level the level that is valued
     * @param outturn what is valued
     * @param head carcasses
     * @param lines what each cut comes to
     * @serial exclude
     */
    private record Form(
            PriceList prices, YieldEstimator estimator, String level, Outturn outturn, long head, List<ValueLine> lines)
            implements Serializable {
        private Object readResolve() {
            return new Value(prices, estimator, level, outturn, head, lines);
        }
    }

    /**
     * What is written in its place.
     *
     * @return prices, outturn and lines
     */
    private Object writeReplace() {
        return new Form(prices, estimator, level, outturn, head, lines);
    }

    /**
     * Refuses a value that was not written as its parts.
     *
     * @param in stream
     * @throws InvalidObjectException always
     */
    private void readObject(ObjectInputStream in) throws InvalidObjectException {
        throw new InvalidObjectException("a value arrives as its prices, outturn and lines");
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
