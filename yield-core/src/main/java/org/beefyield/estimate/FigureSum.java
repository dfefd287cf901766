package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Figures of several outturns added up, of other carcasses or of the same ones, cut in any ways: what an order gets of the
 * striploins of one lot and of another that is cut otherwise. What carcasses have in common (lot, run, hall, table, the bias of
 * the scale) is common to all outturns in which they are. Outturns of which the carcasses are the same, grade by grade and kg by
 * kg, are taken to be of the same carcasses, so that what single carcasses err is common to them too; others to have no carcass
 * in common. Immutable.
 */
public final class FigureSum {
    private static final List<UncertaintyPart> OF_SINGLE_CARCASSES = List.of(
            UncertaintyPart.BETWEEN_CARCASSES, UncertaintyPart.GRADE_RESOLUTION, UncertaintyPart.SCALE_REPEATABILITY);

    private final Model model;
    private final List<Term> terms;
    private final Map<UncertaintyPart, Double> variances;

    /** A figure of an outturn. */
    private record Term(Outturn outturn, Figure figure) {}

    private FigureSum(Model model, List<Term> terms, Map<UncertaintyPart, Double> variances) {
        this.model = model;
        this.terms = terms;
        this.variances = variances;
    }

    /** Collects figures. Not thread-safe. */
    public static final class Builder {
        private final List<Term> terms = new ArrayList<>();

        private Builder() {}

        /**
         * Adds a figure of an outturn.
         *
         * @param outturn outturn
         * @param figure figure
         * @return this
         * @throws IllegalArgumentException if it is by another table or was estimated in another manner than those before, or has no
         *     such figure; the sum is as before
         */
        public Builder add(Outturn outturn, Figure figure) {
            Objects.requireNonNull(outturn, "outturn");
            Objects.requireNonNull(figure, "figure");
            outturn.kg(figure);
            if (!terms.isEmpty()) {
                terms.get(0).outturn().model().checkComparable(outturn.model());
            }
            terms.add(new Term(outturn, figure));
            return this;
        }

        /**
         * The sum.
         *
         * @return it
         * @throws IllegalStateException if there is no figure
         */
        public FigureSum build() {
            if (terms.isEmpty()) {
                throw new IllegalStateException("a sum of no figure has no table; add one or more");
            }
            Model model = terms.get(0).outturn().model();
            return new FigureSum(model, List.copyOf(terms), variances(model, terms));
        }
    }

    /**
     * A sum without figures.
     *
     * @return a builder
     */
    public static Builder builder() {
        return new Builder();
    }

    private static Map<UncertaintyPart, Double> variances(Model model, List<Term> terms) {
        IdentityHashMap<Outturn, double[]> gradients = new IdentityHashMap<>();
        List<Outturn> outturns = new ArrayList<>();
        for (Term term : terms) {
            double[] more = term.outturn().sum(term.figure()).gradient();
            double[] known = gradients.putIfAbsent(term.outturn(), more.clone());
            if (known == null) {
                outturns.add(term.outturn());
            } else {
                for (int i = 0; i < known.length; i++) {
                    known[i] += more[i];
                }
            }
        }
        Spread.Common common = new Spread.Common(model);
        Map<Carcasses, List<Spread>> byCarcasses = new LinkedHashMap<>();
        for (Outturn outturn : outturns) {
            double[] gradient = Objects.requireNonNull(gradients.get(outturn));
            for (Moments moments : outturn.moments()) {
                Spread spread = new Spread(moments, gradient);
                common.add(spread);
                byCarcasses
                        .computeIfAbsent(new Carcasses(moments), first -> new ArrayList<>())
                        .add(spread);
            }
        }
        Map<UncertaintyPart, Double> variances = new EnumMap<>(UncertaintyPart.class);
        for (UncertaintyPart part : UncertaintyPart.values()) {
            variances.put(part, Math.max(0, common.variance(part)));
        }
        for (UncertaintyPart part : OF_SINGLE_CARCASSES) {
            double sum = 0;
            for (List<Spread> same : byCarcasses.values()) {
                for (Spread own : same) {
                    for (Spread other : same) {
                        sum += own.covariance(other, part);
                    }
                }
            }
            variances.put(part, Math.max(0, sum));
        }
        return variances;
    }

    /** Carcasses as far as anything is kept of them. */
    private static final class Carcasses {
        private final Moments moments;

        Carcasses(Moments moments) {
            this.moments = moments;
        }

        @Override
        public boolean equals(@Nullable Object other) {
            return other instanceof Carcasses that && moments.holdsTheSameAs(that.moments);
        }

        @Override
        public int hashCode() {
            return Double.hashCode(moments.coldWeightKg());
        }
    }

    /**
     * The sum.
     *
     * @return kg
     */
    public double kg() {
        return terms.stream()
                .mapToDouble(term -> term.outturn().kg(term.figure()))
                .sum();
    }

    /**
     * SD of the sum from all parts of its uncertainty together.
     *
     * @return kg
     */
    public double sdKg() {
        return Math.sqrt(variances.values().stream().mapToDouble(of -> of).sum());
    }

    /**
     * SDs of the sum from each part.
     *
     * @return kg by part, of parts from which any comes; unmodifiable
     */
    public Map<UncertaintyPart, Double> sdByPart() {
        Map<UncertaintyPart, Double> sds = new EnumMap<>(variances);
        sds.values().removeIf(variance -> variance == 0);
        sds.replaceAll((part, variance) -> Math.sqrt(variance));
        return Collections.unmodifiableMap(sds);
    }

    private Outcome outcome() {
        boolean neverNegative = terms.stream().allMatch(term -> term.figure().isNeverNegative());
        return new Outcome(kg(), sdKg(), Outturn.degreesOfFreedom(model, variances, false), neverNegative);
    }

    /**
     * The interval that holds the sum with a probability, as {@link Outturn#interval(Figure, double)}.
     *
     * @param probability above 0 and below 1
     * @return the interval
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Interval interval(double probability) {
        return outcome().interval(probability);
    }

    /**
     * What one may promise of the sum: so much or more comes out with a probability.
     *
     * @param probability above 0 and below 1, such as 0.95
     * @return kg
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public double promise(double probability) {
        return outcome().promise(probability);
    }

    /**
     * The chance that so much or more comes out.
     *
     * @param kg kg asked for, finite
     * @return probability
     * @throws IllegalArgumentException if it is not finite
     */
    public double chanceOfAtLeast(double kg) {
        return outcome().chanceOfAtLeast(kg);
    }

    /**
     * One line.
     *
     * @return the sum and its SD
     */
    @Override
    public String toString() {
        return Numbers.brief(kg()) + " kg, SD " + Numbers.brief(sdKg()) + " kg, of "
                + Numbers.counted(terms.size(), "figure", "figures");
    }
}
