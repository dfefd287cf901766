package org.beefyield.stats;

/** Sums of values that are weighed by the inverse of their own variance and that of the effects. */
record WeightedSums(double weight, double squaredWeight, double mean, double q, double logVariances, double pulled) {
    static WeightedSums of(double[] values, double[] variances, double variance) {
        double weight = 0;
        double squaredWeight = 0;
        double mean = 0;
        double logVariances = 0;
        for (int i = 0; i < values.length; i++) {
            double w = 1 / (variances[i] + variance);
            weight += w;
            squaredWeight += w * w;
            mean += w * values[i];
            logVariances -= Math.log(w);
        }
        mean /= weight;
        double q = 0;
        double pulled = 0;
        for (int i = 0; i < values.length; i++) {
            double w = 1 / (variances[i] + variance);
            double square = (values[i] - mean) * (values[i] - mean);
            q += w * square;
            pulled += w * w * square;
        }
        return new WeightedSums(weight, squaredWeight, mean, q, logVariances, pulled);
    }

    double logLikelihood() {
        return -(logVariances + Math.log(weight) + q) / 2;
    }

    /** Twice the slope of the restricted likelihood by the variance of the effects. */
    double slope() {
        return pulled - weight + squaredWeight / weight;
    }
}
