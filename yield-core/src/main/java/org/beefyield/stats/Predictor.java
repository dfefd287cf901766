package org.beefyield.stats;

import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;

/**
 * How far a value lies off those before it, as a standard normal score, where neither the mean nor the SD of the effects is
 * known and each value has a known variance of its own.
 *
 * <p>Without known variances this is the self-starting score of Hawkins 1987, The Statistician 36, 299 to 315: Student's t of
 * the next value turned into a normal one, whose scores are independent. With known variances there is no such t. What takes its
 * place is the next value's distribution averaged over every SD of the effects, each weighed by its restricted likelihood and by
 * Jeffreys' prior (the root of the information that the restricted likelihood has of it); the mean has a flat prior. For equal variances of 0 that average is the t. Had
 * the likeliest SD been taken for the true one, far too many scores would be large: it is often 0 after few values.
 */
final class Predictor {
    private static final int NODES = 20;
    /** The posterior is left out where it is less than exp(-this) of its mode; below it no score becomes large. */
    private static final double LEFT_OUT_BELOW = 16;

    private static final double LEFT_OUT_ABOVE = 28;
    /** Factors whose product is taken before its logarithm. */
    private static final int FACTORS = 8;

    private static final double NOISE = 1e-14;

    private final GaussIntegrator rule;
    private final double[] values;
    private final double[] variances;
    private final int count;
    /** What values are measured from, so that no digits cancel. */
    private final double centre;

    private final double scale2;

    // of the last SD that was looked at
    private double weight;
    private double mean;

    /**
     * Learns.
     *
     * @param rule the one of {@link #rule}, so that it needn't be made anew for each value
     * @param values two or more
     * @param variances known variance of each
     */
    Predictor(GaussIntegrator rule, double[] values, double[] variances) {
        this.rule = rule;
        this.values = values;
        this.variances = variances;
        this.count = values.length;
        double sum = 0;
        for (int i = 0; i < count; i++) {
            sum += values[i];
        }
        this.centre = sum / count;
        double squares = 0;
        double known = 0;
        for (int i = 0; i < count; i++) {
            squares += (values[i] - centre) * (values[i] - centre);
            known += variances[i];
        }
        this.scale2 = squares / (count - 1) + known / count;
    }

    /** How averages are taken. */
    static GaussIntegrator rule() {
        return new GaussIntegratorFactory().legendre(NODES);
    }

    /** Logarithm of the posterior by the logarithm of the SD over the scale. */
    private double posterior(double u) {
        double variance = scale2 * Math.exp(2 * u);
        double w1 = 0;
        double w2 = 0;
        double w3 = 0;
        double wy = 0;
        double wyy = 0;
        double logs = 0;
        double product = 1;
        for (int i = 0; i < count; i++) {
            double w = scale2 / (variances[i] + variance);
            double y = values[i] - centre;
            w1 += w;
            w2 += w * w;
            w3 += w * w * w;
            wy += w * y;
            wyy += w * y * y;
            product *= w;
            if (i % FACTORS == 0) {
                logs += Math.log(product);
                product = 1;
            }
        }
        logs += Math.log(product);
        weight = w1 / scale2;
        mean = centre + wy / w1;
        double q = (wyy - wy * wy / w1) / scale2;
        // where one value outweighs all others nothing but noise is left of the difference
        double information = Math.max(NOISE * w2, w2 - 2 * w3 / w1 + w2 * w2 / (w1 * w1));
        return 2 * u + Math.log(information) / 2 + (logs - Math.log(w1) - q) / 2;
    }

    /** The score of a value, positive if it is large. */
    double score(double value, double itsVariance) {
        double mode = 0;
        double top = Double.NEGATIVE_INFINITY;
        for (int u = -8; u <= 4; u += 2) {
            double at = posterior(u);
            if (at > top) {
                top = at;
                mode = u;
            }
        }
        for (double step = 1; step > 0.1; step /= 2) {
            for (double u : new double[] {mode - step, mode + step}) {
                double at = posterior(u);
                if (at > top) {
                    top = at;
                    mode = u;
                }
            }
        }
        double width = 1 / Math.sqrt(count);
        double low = end(mode, -width, top - LEFT_OUT_BELOW);
        double high = end(mode, width, top - LEFT_OUT_ABOVE);
        double all = 0;
        double above = 0;
        double below = 0;
        double[][] panels = {{low, mode}, {mode, high}};
        for (double[] panel : panels) {
            double half = (panel[1] - panel[0]) / 2;
            for (int i = 0; i < NODES; i++) {
                double u = panel[0] + half * (1 + rule.getPoint(i));
                double mass = half * rule.getWeight(i) * Math.exp(posterior(u) - top);
                double sd = Math.sqrt(itsVariance + scale2 * Math.exp(2 * u) + 1 / weight);
                double off = (value - mean) / sd;
                all += mass;
                double tail = Normal.above(Math.abs(off));
                above += mass * (off > 0 ? tail : 1 - tail);
                below += mass * (off > 0 ? 1 - tail : tail);
            }
        }
        return above < below
                ? Normal.exceeded(Math.max(Double.MIN_NORMAL, above / all))
                : -Normal.exceeded(Math.max(Double.MIN_NORMAL, below / all));
    }

    /** Where the posterior has fallen so low, in steps that grow. */
    private double end(double from, double firstStep, double low) {
        double step = firstStep;
        double u = from + step;
        while (posterior(u) > low) {
            step *= 1.3;
            u += step;
        }
        return u;
    }
}
