package org.beefyield.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/**
 * Figures from outside.
 *
 * <p>Thirteen trials of the BCG vaccine, log relative risks and their variances to four decimals: Colditz and others 1994,
 * JAMA 271, 698 to 702, as data set dat.bcg of R's metafor (Viechtbauer 2010, Journal of Statistical Software 36, 3). Expected
 * figures by metafor 3.8-1, rma(yi, vi, method = "REML") and confint.
 *
 * <p>Rail: Pinheiro and Bates 2000, Mixed-Effects Models in S and S-PLUS, 4 to 9. Dyestuff and Dyestuff2: Davies and Goldsmith
 * 1972, Box and Tiao 1973, as in R's lme4, whose figures these are. All three are balanced, so that the variance between groups
 * is the same whether that within groups is estimated at once or given as it was estimated.
 */
class RandomEffectsOutsideReferenceTest {
    private static final double[] LOG_RISKS = {
        -.8893, -1.5854, -1.3481, -1.4416, -.2175, -.7861, -1.6209, .0120, -.4694, -1.3713, -.3394, .4459, -.0173
    };
    private static final double[] VARIANCES = {
        .3256, .1946, .4154, .0200, .0512, .0069, .2230, .0040, .0564, .0730, .0124, .5325, .0714
    };

    private static final RandomEffects TRIALS = RandomEffects.of(LOG_RISKS, VARIANCES);

    @Test
    void theTrialsHaveTheVarianceAndMeanOfTheReference() {
        assertThat(TRIALS.variance()).isCloseTo(.3132528, within(5e-8));
        assertThat(TRIALS.mean()).isCloseTo(-.7145343, within(5e-8));
        assertThat(TRIALS.meanError()).isCloseTo(.1797829, within(1e-7));
    }

    @Test
    void theBoundsOfTheVarianceAreThoseOfTheReference() {
        Bounds bounds = TRIALS.varianceBounds(.95);

        assertThat(bounds.low()).isCloseTo(.1197233, within(5e-8));
        assertThat(bounds.high()).isCloseTo(1.1115166, within(5e-8));
    }

    /** The reference has them of the unrounded data, where the variance is .313243: they agree to three decimals. */
    @Test
    void theBoundsOfAFurtherTrialByKnappAndHartungAreThoseOfTheReference() {
        Bounds next = TRIALS.next(0, .95);

        assertThat(next.low()).isCloseTo(-1.9960, within(2e-4));
        assertThat(next.high()).isCloseTo(.5670, within(2e-4));
    }

    private static RandomEffects groups(double withinVariance, double[][] groups) {
        double[] means = Arrays.stream(groups).mapToDouble(Sample::mean).toArray();
        double[] variances = Arrays.stream(groups)
                .mapToDouble(group -> withinVariance / group.length)
                .toArray();
        return RandomEffects.of(means, variances);
    }

    @Test
    void railsDifferAsInTheReference() {
        RandomEffects rails = groups(4.02078 * 4.02078, GroupedRegressionOutsideReferenceTest.RAIL);

        assertThat(rails.sd()).isCloseTo(24.80547, within(5e-6));
        assertThat(rails.mean()).isCloseTo(66.5, within(1e-12));
        assertThat(rails.meanError()).isCloseTo(10.17104, within(5e-6));
    }

    @Test
    void batchesOfDyestuffDifferAndEachHasTheEffectOfTheReference() {
        RandomEffects batches = groups(2451.25, GroupedRegressionOutsideReferenceTest.DYESTUFF);
        double[] effects = {-17.60685, .39126, 28.56223, -23.08454, 56.73319, -44.99529};

        assertThat(batches.variance()).isCloseTo(1764.05, within(1e-6));
        for (int batch = 0; batch < effects.length; batch++) {
            // effects of the reference are of a variance to five digits
            assertThat(batches.effect(batch)).as("batch %d", batch).isCloseTo(effects[batch], within(5e-4));
        }
    }

    /** Dyestuff2: mean squares of 8.336 between five values each of six batches are below those within, 14.946. */
    @Test
    void whereTheMeansDifferLessThanTheirErrorsTheVarianceIsZero() {
        // any six means with that mean square have the same variance
        double off = Math.sqrt(8.336 / 6);
        double[] means = {5.6656 + off, 5.6656 - off, 5.6656 + off, 5.6656 - off, 5.6656 + off, 5.6656 - off};
        double[] variances = new double[6];
        Arrays.fill(variances, 14.946 / 5);
        RandomEffects batches = RandomEffects.of(means, variances);

        assertThat(batches.variance()).isZero();
        assertThat(batches.mean()).isCloseTo(5.6656, within(1e-12));
        assertThat(batches.effect(0)).isZero();
        assertThat(batches.varianceBounds(.95).low()).isZero();
    }
}
