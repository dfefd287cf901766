package org.beefyield.estimate;

import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.RealDistribution;
import org.apache.commons.math3.distribution.TDistribution;

/** How a figure may come out: around its expectation, with its SD. */
final class Outcome {
    private final double kg;
    private final double sd;
    private final double degreesOfFreedom;
    private final boolean neverNegative;

    /**
     * @param degreesOfFreedom of the SD if it was estimated, infinite if it is taken as known
     * @param neverNegative whether the figure can't be below 0
     */
    Outcome(double kg, double sd, double degreesOfFreedom, boolean neverNegative) {
        this.kg = kg;
        this.sd = sd;
        this.degreesOfFreedom = degreesOfFreedom;
        this.neverNegative = neverNegative;
    }

    double sd() {
        return sd;
    }

    Interval interval(double probability) {
        Interval interval = Double.isInfinite(degreesOfFreedom)
                ? Interval.normal(kg, sd, probability)
                : Interval.student(kg, sd, degreesOfFreedom, probability);
        return neverNegative
                ? new Interval(Math.max(0, interval.low()), Math.max(0, interval.high()), probability)
                : interval;
    }

    double promise(double probability) {
        Interval.checkProbability(probability);
        double promised = kg - standard().inverseCumulativeProbability(probability) * sd;
        return neverNegative ? Math.max(0, promised) : promised;
    }

    double chanceOfAtLeast(double asked) {
        if (!Double.isFinite(asked)) {
            throw new IllegalArgumentException(asked + " kg asked for are not a finite number");
        }
        if (neverNegative && asked <= 0) {
            return 1;
        }
        return sd == 0 ? kg >= asked ? 1 : 0 : standard().cumulativeProbability((kg - asked) / sd);
    }

    private RealDistribution standard() {
        return Double.isInfinite(degreesOfFreedom)
                ? new NormalDistribution(null, 0, 1)
                : new TDistribution(null, degreesOfFreedom);
    }
}
