package org.beefyield.estimate;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;
import org.jspecify.annotations.Nullable;

/**
 * A difference of two figures, in which errors that both have in common cancel. Two intervals: of the outcome, what the weighed
 * difference will be; and of the expectation, what it would be on average over many such carcasses, lots and runs. Immutable.
 */
public final class Difference implements ShownInBlocks {
    private final double kg;
    /** Variance from each part, kg squared. */
    private final Map<UncertaintyPart, Double> variances;

    Difference(double kg, Map<UncertaintyPart, Double> variances) {
        this.kg = kg;
        this.variances = Collections.unmodifiableMap(new EnumMap<>(variances));
    }

    /**
     * The same with something beside it that is certain, such as a fee.
     *
     * @param certain what is certain, in the unit of the difference; a finite number
     * @return the difference
     * @throws IllegalArgumentException if it is no finite number
     */
    public Difference plus(double certain) {
        if (!Double.isFinite(certain)) {
            throw new IllegalArgumentException(certain + " beside a difference is not a finite number");
        }
        return new Difference(kg + certain, variances);
    }

    /**
     * One less the other.
     *
     * @return kg
     */
    public double kg() {
        return kg;
    }

    /**
     * SD of the weighed difference.
     *
     * @return kg
     */
    public double sdKg() {
        return sd(UncertaintyPart.all());
    }

    /**
     * SD of the difference from one part.
     *
     * @param part the part
     * @return kg
     */
    public double sdKg(UncertaintyPart part) {
        return sd(Set.of(Objects.requireNonNull(part, "part")));
    }

    /**
     * SD of the expected difference: of {@link UncertaintyPart#ofExpectation}.
     *
     * @return kg
     */
    public double expectedSdKg() {
        return sd(UncertaintyPart.ofExpectation());
    }

    private double sd(Set<UncertaintyPart> parts) {
        double variance = 0;
        for (UncertaintyPart part : parts) {
            variance += variances.getOrDefault(part, 0.0);
        }
        return Math.sqrt(variance);
    }

    /**
     * The interval that holds the weighed difference with a probability.
     *
     * @param probability above 0 and below 1
     * @return a normal interval
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Interval interval(double probability) {
        return Interval.normal(kg, sdKg(), probability);
    }

    /**
     * The interval that holds the expected difference with a probability: that single carcasses, lots and runs differ is not in it.
     *
     * @param probability above 0 and below 1
     * @return a normal interval
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Interval expectedInterval(double probability) {
        return Interval.normal(kg, expectedSdKg(), probability);
    }

    /**
     * What the interval of the weighed difference holds, in words: which parts are in it, and which is the largest.
     *
     * @return a sentence, or none if nothing is uncertain
     */
    public List<String> intervalWords() {
        return PartsText.of(UncertaintyPart.all(), List.of(variances)).sentences(PartsText.Of.OUTCOME);
    }

    /**
     * What the interval of the expected difference holds, in words.
     *
     * @return a sentence, or none if nothing is uncertain
     */
    public List<String> expectedIntervalWords() {
        Map<UncertaintyPart, Double> expected = new EnumMap<>(variances);
        expected.keySet().retainAll(UncertaintyPart.ofExpectation());
        return PartsText.of(UncertaintyPart.all(), List.of(expected)).sentences(PartsText.Of.EXPECTATION);
    }

    /**
     * The difference for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return DifferenceText.blocks(this);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Difference that && kg == that.kg && variances.equals(that.variances);
    }

    @Override
    public int hashCode() {
        return Objects.hash(kg, variances);
    }

    /**
     * One line.
     *
     * @return such as {@code 7.40 kg, SD 2.10 kg weighed, 0.35 kg expected}
     */
    @Override
    public String toString() {
        return DifferenceText.line(this);
    }
}
