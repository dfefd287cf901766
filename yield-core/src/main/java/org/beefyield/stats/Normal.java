package org.beefyield.stats;

import org.apache.commons.math3.special.Erf;

/** The standard normal distribution, right in its tails. */
final class Normal {
    private static final double ROOT_2 = Math.sqrt(2);
    private static final double LOG_ROOT_2PI = Math.log(2 * Math.PI) / 2;
    /** Enough steps for every chance that a double can tell; it takes three to six. */
    private static final int STEPS = 50;

    private Normal() {}

    static double density(double z) {
        return Math.exp(-z * z / 2 - LOG_ROOT_2PI);
    }

    /** Chance of more than that. */
    static double above(double z) {
        return Erf.erfc(z / ROOT_2) / 2;
    }

    /** The number that is exceeded with a chance, above 0 and 0.5 at most. */
    static double exceeded(double chance) {
        // Newton on the logarithm, which bends one way only: from the right it comes down without a leap
        double z = Math.sqrt(Math.max(0, -2 * Math.log(2 * chance)));
        for (int step = 0; step < STEPS; step++) {
            double above = above(z);
            double by = Math.log(above / chance) * above / density(z);
            z += by;
            if (Math.abs(by) < 1e-13 * (1 + z)) {
                break;
            }
        }
        return z;
    }
}
