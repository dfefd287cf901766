package org.beefyield.benchmarks.coverage;

import java.util.random.RandomGenerator;

/** Draws independent errors of mean 0 and variance 1. */
final class Errors {
    /** Variance of Student's distribution with 4 degrees of freedom. */
    private static final double VARIANCE = 2;

    private final RandomGenerator random;
    private final boolean heavyTails;

    Errors(RandomGenerator random, boolean heavyTails) {
        this.random = random;
        this.heavyTails = heavyTails;
    }

    /** Errors of one source: of a carcass, a lot, a run, a hall, the table or the scale. They are far out together, if at all. */
    double[] draw(int size) {
        double[] drawn = new double[size];
        fill(drawn);
        return drawn;
    }

    void fill(double[] drawn) {
        double factor = heavyTails ? heavy() : 1;
        for (int i = 0; i < drawn.length; i++) {
            drawn[i] = factor * random.nextGaussian();
        }
    }

    double one() {
        return (heavyTails ? heavy() : 1) * random.nextGaussian();
    }

    /** What makes a normal error one of Student's with 4 degrees of freedom and variance 1. */
    private double heavy() {
        // twice the negative logarithm of a product of two uniform numbers is chi-squared with 4 degrees
        double chiSquared = -2 * Math.log((1 - random.nextDouble()) * (1 - random.nextDouble()));
        return Math.sqrt(4 / chiSquared / VARIANCE);
    }

    /** A number from 0 to below a bound. */
    int upTo(int bound) {
        return random.nextInt(bound);
    }
}
