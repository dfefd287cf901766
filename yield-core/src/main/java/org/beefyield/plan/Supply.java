package org.beefyield.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.beefyield.estimate.FigureSum;
import org.beefyield.estimate.UncertaintyPart;

/**
 * How much may come out for an order. Where pieces of some weights alone are taken, a hall whose cuts are heavier may give more or
 * less: what comes out is then worked out for cuts that are heavier by a common factor, as lots, runs, the hall and the table
 * have it in common, over the factors there may be.
 */
final class Supply {
    /** Factors are looked at so many SDs to each side, so many to an SD. */
    private static final int SIDES = 4;

    private static final int STEPS = 5;
    private static final NormalDistribution STANDARD = new NormalDistribution(null, 0, 1);

    private final double kg;
    private final FigureSum sum;
    /** By factor: its probability, and what comes out then; nothing where no weights of pieces matter. */
    private final List<Case> cases;

    /**
     * What comes out for one factor.
     *
     * @param probability of the factor
     * @param kg expectation
     * @param sdKg SD
     */
    private record Case(double probability, double kg, double sdKg) {
        double chanceOfAtLeast(double asked) {
            return sdKg == 0 ? kg >= asked ? 1 : 0 : STANDARD.cumulativeProbability((kg - asked) / sdKg);
        }
    }

    private Supply(double kg, FigureSum sum, List<Case> cases) {
        this.kg = kg;
        this.sum = sum;
        this.cases = cases;
    }

    /** A part of what comes of a cut. */
    private record Taken(Part part, double share) {}

    /** Collects what an order may have. */
    static final class Builder {
        private final List<Taken> taken = new ArrayList<>();
        private double kg;

        void add(Part part, double share) {
            taken.add(new Taken(part, share));
        }

        /** What is expected. */
        void expect(double more) {
            kg += more;
        }

        Optional<Supply> build() {
            if (taken.isEmpty()) {
                return Optional.empty();
            }
            boolean ofAllPieces = taken.stream().allMatch(one -> one.part().isOfAllPieces());
            FigureSum.Builder sum = FigureSum.builder();
            taken.forEach(one -> sum.add(
                    one.part().outturn,
                    ofAllPieces
                            ? one.part().figure().times(one.share())
                            : one.part().ofCut().times(one.share())));
            FigureSum all = sum.build();
            return Optional.of(new Supply(kg, all, ofAllPieces ? List.of() : cases(all)));
        }

        private List<Case> cases(FigureSum ofCuts) {
            FigureSum.Builder beyond = FigureSum.builder();
            taken.forEach(
                    one -> beyond.add(one.part().outturn, one.part().beyondCut().times(one.share())));
            double beyondSd = beyond.build().sdKg();
            double common = 0;
            for (Map.Entry<UncertaintyPart, Double> of : ofCuts.sdByPart().entrySet()) {
                common += CarvedCarcass.OF_SINGLE_CARCASSES.contains(of.getKey()) ? 0 : of.getValue() * of.getValue();
            }
            double perSd = Math.sqrt(common) / ofCuts.kg();
            List<Case> cases = new ArrayList<>();
            double sumOfWeights = 0;
            for (int i = -SIDES * STEPS; i <= SIDES * STEPS; i++) {
                sumOfWeights += STANDARD.density((double) i / STEPS);
            }
            for (int i = -SIDES * STEPS; i <= SIDES * STEPS; i++) {
                double z = (double) i / STEPS;
                double factor = Math.max(0, 1 + perSd * z);
                double expected = 0;
                double variance = beyondSd * beyondSd;
                for (Taken one : taken) {
                    Part.Spread at = one.part().at(factor);
                    expected += one.share() * at.kg();
                    variance += one.share() * one.share() * at.variance();
                }
                cases.add(new Case(STANDARD.density(z) / sumOfWeights, expected, Math.sqrt(variance)));
            }
            return cases;
        }
    }

    /** What is expected, kg. */
    double kg() {
        return kg;
    }

    /** The chance of so much. */
    double chance(double asked) {
        if (cases.isEmpty()) {
            return sum.chanceOfAtLeast(asked - kg + sum.kg());
        }
        return cases.stream()
                .mapToDouble(one -> one.probability() * one.chanceOfAtLeast(asked))
                .sum();
    }

    /** What one may promise. */
    double promise(double probability) {
        if (cases.isEmpty()) {
            return Math.max(0, sum.promise(probability) + kg - sum.kg());
        }
        double low = 0;
        double high = cases.stream()
                .mapToDouble(one -> one.kg() + 10 * one.sdKg())
                .max()
                .orElse(0);
        for (int i = 0; i < 60; i++) {
            double middle = (low + high) / 2;
            if (chance(middle) >= probability) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** The part from which most of the uncertainty comes. */
    Optional<UncertaintyPart> largestPart() {
        return sum.sdByPart().entrySet().stream()
                .max(Map.Entry.comparingByValue())
                .map(Map.Entry::getKey);
    }
}
