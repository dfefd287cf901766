package org.beefyield.reconcile;

import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.Set;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.text.Checks;

/**
 * A group of products of a run: expected, brought to the intake weight, and weighed.
 *
 * @param figures what was expected and weighed
 * @param factor intake weight per kg of cold weight
 */
public record GroupLine(GroupFigures figures, double factor) {
    private static final double PER_CENT = 100;

    /** Checks that nothing is missing. */
    public GroupLine {
        Objects.requireNonNull(figures, "figures");
    }

    /**
     * Name of the group.
     *
     * @return such as {@code Striploin steak}
     */
    public String group() {
        return figures.group();
    }

    /**
     * What the carcasses return by their cold weight.
     *
     * @return kg
     */
    public double expectedKg() {
        return figures.expectedKg();
    }

    /**
     * What the intake returns by its own weight.
     *
     * @return kg
     */
    public double scaledKg() {
        return factor * figures.expectedKg();
    }

    /**
     * What was weighed.
     *
     * @return kg, to the gram
     */
    public double weighedKg() {
        return figures.weighedKg();
    }

    /**
     * How much more was weighed than the intake should return.
     *
     * @return kg, below 0 if it was less
     */
    public double differenceKg() {
        return weighedKg() - scaledKg();
    }

    /**
     * The same of what the intake should return.
     *
     * @return per cent, or empty if nothing was expected
     */
    public OptionalDouble differencePct() {
        return scaledKg() > 0 ? OptionalDouble.of(PER_CENT * differenceKg() / scaledKg()) : OptionalDouble.empty();
    }

    /**
     * SD of what the intake returns, from all parts of its uncertainty that count.
     *
     * @return kg
     */
    public double sdKg() {
        return sdKg(figures.sds().keySet());
    }

    /**
     * SD of what the intake returns, from some parts of its uncertainty.
     *
     * @param parts parts
     * @return kg
     */
    public double sdKg(Set<UncertaintyPart> parts) {
        Checks.noNullIn(parts, "parts");
        double variance = 0;
        for (Map.Entry<UncertaintyPart, Double> sd : figures.sds().entrySet()) {
            variance += parts.contains(sd.getKey()) ? sd.getValue() * sd.getValue() : 0;
        }
        return factor * Math.sqrt(variance);
    }

    /**
     * The interval that holds what will be weighed with a probability.
     *
     * @param probability above 0 and below 1
     * @return the interval; its lower end is not below 0
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Interval interval(double probability) {
        Interval interval = Interval.normal(scaledKg(), sdKg(), probability);
        return new Interval(Math.max(0, interval.low()), Math.max(0, interval.high()), probability);
    }

    /**
     * How many SDs from all parts of the uncertainty the weighed kg lie above those of the intake.
     *
     * @return the score, below 0 if less was weighed; empty if the SD is 0
     */
    public OptionalDouble z() {
        return z(figures.sds().keySet());
    }

    /**
     * How many SDs from some parts of the uncertainty the weighed kg lie above those of the intake: without those that a run has
     * in common a long run looks wrong nearly always.
     *
     * @param parts parts
     * @return the score, below 0 if less was weighed; empty if the SD is 0
     */
    public OptionalDouble z(Set<UncertaintyPart> parts) {
        double sd = sdKg(parts);
        return sd > 0 ? OptionalDouble.of(differenceKg() / sd) : OptionalDouble.empty();
    }

    /** What the baseline is worth, then what each cause makes, in kg; they add up to the weighed. */
    double kgFor(Cause cause) {
        return switch (cause) {
            case MIX -> figures.sameWayKg() - figures.baselineKg();
            case WAY -> figures.expectedKg() - figures.sameWayKg();
            case WEIGHT -> scaledKg() - figures.expectedKg();
            case CUTTING -> differenceKg();
            case DOWNGRADED, PRICE -> 0;
        };
    }

    /** The same as an amount. */
    double amountFor(Cause cause) {
        return switch (cause) {
            case MIX, WAY, WEIGHT, CUTTING -> figures.baselinePrice() * kgFor(cause);
            case DOWNGRADED -> figures.downgraded();
            case PRICE -> (figures.price() - figures.baselinePrice()) * weighedKg();
        };
    }
}
