package org.beefyield.feedback;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.beefyield.carcass.EdgeRule;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Difference;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.Outturn;
import org.beefyield.frame.Frame;
import org.beefyield.price.Money;
import org.beefyield.price.Valuer;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/**
 * What carcasses return as they are graded, beside what they would at the target fat class and the same weight. Immutable.
 *
 * <p>Intervals are those of the expected difference ({@link Difference#expectedInterval}): they hold how well the table is known
 * and how halls differ from it, as far as that doesn't cancel. That single carcasses, lots and runs differ is not in them.
 */
public final class OverfatCost implements ShownInBlocks {
    private final Terms terms;
    private final long carcasses;
    private final Outturn asGraded;
    private final Outturn atTarget;

    /**
     * What carcasses are held against.
     *
     * @param target fat class that the customer wants
     * @param edge to which side of an edge a grade counts
     * @param feedRatio feed for a kg of fat over that for a kg of meat
     * @param feedPerKgMeat feed for a kg of meat gained, kg, or null if it isn't looked at
     * @param valuer prices, or null if there are none
     */
    record Terms(
            FatClass target,
            EdgeRule edge,
            double feedRatio,
            @Nullable Double feedPerKgMeat,
            @Nullable Valuer valuer) {}

    OverfatCost(Terms terms, long carcasses, Outturn asGraded, Outturn atTarget) {
        this.terms = terms;
        this.carcasses = carcasses;
        this.asGraded = asGraded;
        this.atTarget = atTarget;
    }

    /** What the carcasses are held against. */
    Terms terms() {
        return terms;
    }

    /**
     * The fat class that the customer wants.
     *
     * @return the target
     */
    public FatClass target() {
        return terms.target();
    }

    /**
     * The rule for carcasses on the target's upper edge.
     *
     * @return to which side a grade counts
     */
    public EdgeRule edge() {
        return terms.edge();
    }

    /**
     * Feed for a kg of meat gained.
     *
     * @return kg, or empty if it isn't looked at
     */
    public OptionalDouble feedKgPerKgMeat() {
        Double kg = terms.feedPerKgMeat();
        return kg == null ? OptionalDouble.empty() : OptionalDouble.of(kg);
    }

    /**
     * Feed for a kg of fat over that for a kg of meat.
     *
     * @return the ratio
     */
    public double feedRatio() {
        return terms.feedRatio();
    }

    /**
     * The prices.
     *
     * @return the valuer, or empty if there are none
     */
    public Optional<Valuer> valuer() {
        return Optional.ofNullable(terms.valuer());
    }

    /**
     * Number of carcasses that are fatter than the target.
     *
     * @return 1 or more
     */
    public long carcasses() {
        return carcasses;
    }

    /**
     * What they return.
     *
     * @return estimate of the carcass or lot
     */
    public Outturn asGraded() {
        return asGraded;
    }

    /**
     * What they would return at the target.
     *
     * @return estimate of the carcass or lot
     */
    public Outturn atTarget() {
        return atTarget;
    }

    /**
     * How much more of a figure the carcasses return than at the target.
     *
     * @param figure figure
     * @return the difference, below 0 for less
     * @throws IllegalArgumentException if the table has no such level or cut
     */
    public Difference more(Figure figure) {
        Objects.requireNonNull(figure, "figure");
        return asGraded.minus(atTarget, figure);
    }

    /**
     * Extra fat trim.
     *
     * @return kg more at the last level
     */
    public Difference extraFatTrim() {
        return more(Figure.kind(CutKind.FAT_TRIM));
    }

    /**
     * Saleable meat lost.
     *
     * @return kg less at the last level, above 0 for a loss
     */
    public Difference saleableLost() {
        return atTarget.minus(asGraded, Figure.saleable());
    }

    /**
     * Value lost, at the prices given.
     *
     * @return amount, above 0 for a loss, or empty if no prices are given
     */
    public OptionalDouble valueLost() {
        return Optional.ofNullable(terms.valuer())
                .map(valuer -> OptionalDouble.of(
                        valuer.value(atTarget).amount() - valuer.value(asGraded).amount()))
                .orElse(OptionalDouble.empty());
    }

    /**
     * Value lost as money.
     *
     * @return amount rounded to the price list's decimals, or empty if no prices are given
     */
    public Optional<Money> moneyLost() {
        OptionalDouble lost = valueLost();
        return Optional.ofNullable(terms.valuer()).map(valuer -> valuer.prices().money(lost.orElseThrow()));
    }

    /**
     * The interval that holds the expected loss of value with a probability, prices taken as certain.
     *
     * @param probability above 0 and below 1
     * @return the interval, in the prices' currency, or empty if no prices are given
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Optional<Interval> valueLost(double probability) {
        return Optional.ofNullable(terms.valuer()).map(valuer -> {
            Figure figure = valuer.value(asGraded).figure();
            Interval interval = atTarget.minus(asGraded, figure).expectedInterval(probability);
            // mince may have another fat content, and so another price, at the target
            double shift = valueLost().orElseThrow() - (atTarget.kg(figure) - asGraded.kg(figure));
            return new Interval(interval.low() + shift, interval.high() + shift, probability);
        });
    }

    /**
     * Feed that the extra fat took.
     *
     * @return kg, or empty if the feed for a kg of meat isn't given
     */
    public OptionalDouble feedKg() {
        Double perKgMeat = terms.feedPerKgMeat();
        return perKgMeat == null
                ? OptionalDouble.empty()
                : OptionalDouble.of(extraFatTrim().kg() * terms.feedRatio() * perKgMeat);
    }

    /**
     * A level cut by cut: kg at the target, kg as graded, the difference and its 90 % interval. Printed kilograms add up
     * to their totals, and differences are those of the printed kilograms; cuts that are 0 on both sides are left out.
     *
     * @param level name of the level
     * @return a table
     * @throws IllegalArgumentException if the table has no such level
     */
    public TextTable table(String level) {
        Objects.requireNonNull(level, "level");
        return new OverfatCostText(this).table(level);
    }

    /**
     * The last level cut by cut as a frame; cuts that are 0 on both sides have no row.
     *
     * @return {@code table}; {@code cut}, its code; {@code kind}; in kg {@code as graded}, {@code at the target}, {@code more},
     *     {@code 90 % interval low} and {@code high} of what is more, the expectation's
     */
    public Frame toFrame() {
        return new OverfatCostText(this).frame();
    }

    /**
     * The cost for people: sentences, then the last level cut by cut.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new OverfatCostText(this).blocks();
    }

    /**
     * One line.
     *
     * @return such as {@code 3 carcasses are fatter than 3=: ...}
     */
    @Override
    public String toString() {
        return new OverfatCostText(this).sentence();
    }
}
