package org.beefyield.estimate;

import java.util.Objects;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * One cut of an outturn at one level, as data. Immutable; SD and intervals are worked out when they are asked for. Lines are
 * equal if level, cut, kg and share are.
 */
public final class CutLine {
    private final String level;
    private final Cut cut;
    private final double kg;
    private final double share;
    private final Spread spread;

    /** How sure the kg are. */
    interface Spread {
        double sdKg();

        Interval interval(double probability);
    }

    CutLine(String level, Cut cut, double kg, double share, Spread spread) {
        this.level = level;
        this.cut = cut;
        this.kg = kg;
        this.share = share;
        this.spread = spread;
    }

    /**
     * The level at which the cut stands here.
     *
     * @return name of the level
     */
    public String level() {
        return level;
    }

    /**
     * The cut.
     *
     * @return the cut
     */
    public Cut cut() {
        return cut;
    }

    /**
     * Code of the cut.
     *
     * @return such as {@code striploin}
     */
    public String code() {
        return cut.code();
    }

    /**
     * Name of the cut for people.
     *
     * @return such as {@code Striploin}
     */
    public String name() {
        return cut.name();
    }

    /**
     * Kind of the cut.
     *
     * @return the kind
     */
    public CutKind kind() {
        return cut.kind();
    }

    /**
     * Kilograms.
     *
     * @return kg, both sides together
     */
    public double kg() {
        return kg;
    }

    /**
     * Part of the cold weight.
     *
     * @return fraction
     */
    public double share() {
        return share;
    }

    /**
     * SD from all parts of the uncertainty together.
     *
     * @return kg
     */
    public double sdKg() {
        return spread.sdKg();
    }

    /**
     * The interval that holds the kg with a probability.
     *
     * @param probability above 0 and below 1
     * @return the interval; its lower end is not below 0
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Interval interval(double probability) {
        return spread.interval(probability);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof CutLine that
                && level.equals(that.level)
                && cut.equals(that.cut)
                && Double.compare(kg, that.kg) == 0
                && Double.compare(share, that.share) == 0;
    }

    @Override
    public int hashCode() {
        return Objects.hash(level, cut, kg, share);
    }

    /**
     * One line.
     *
     * @return such as {@code striploin 11.43 kg}
     */
    @Override
    public String toString() {
        return cut.code() + " " + Numbers.fixed(kg, 2) + " kg";
    }
}
