package org.beefyield.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.api.Test;

class NestedEffectsTest {
    /**
     * Strength of paste by delivery batch, cask and test: Davies and Goldsmith 1972, Statistical Methods in Research and
     * Production, as data set Pastes of R's lme4.
     */
    private static final double[] PASTES = {
        62.8, 62.6, 60.1, 62.3, 62.7, 63.1, 60.0, 61.4, 57.5, 56.9, 61.1, 58.9, 58.7, 57.5, 63.9, 63.1, 65.4, 63.7,
                57.1,
        56.4, 56.9, 58.6, 64.7, 64.5, 55.1, 55.1, 54.7, 54.2, 58.8, 57.5, 63.4, 64.9, 59.3, 58.1, 60.5, 60.0, 62.5,
                62.6,
        61.0, 58.7, 56.9, 57.7, 59.2, 59.4, 65.2, 66.0, 64.8, 64.1, 54.8, 54.8, 64.0, 64.0, 57.7, 56.8, 58.3, 59.3,
                59.2,
        59.2, 58.9, 56.6
    };

    /** By lme4, lmer(strength ~ 1 + (1 | batch / cask)), which estimates the variance of a test too; the data are balanced. */
    @Test
    void casksOfBatchesOfPasteAreAsInTheReference() {
        double[] casks = new double[30];
        for (int cask = 0; cask < 30; cask++) {
            casks[cask] = (PASTES[2 * cask] + PASTES[2 * cask + 1]) / 2;
        }
        double[] variances = new double[30];
        Arrays.fill(variances, .67799995 / 2);
        NestedEffects effects = NestedEffects.of(
                casks, variances, IntStream.range(0, 30).map(cask -> cask / 3).toArray());

        assertThat(effects.variance()).isCloseTo(8.43366793, within(1e-5));
        assertThat(effects.groups().variance()).isCloseTo(1.65730796, within(1e-5));
        assertThat(effects.groups().count()).isEqualTo(10);
    }

    /** The restricted likelihood by its definition, with the whole matrix of covariances. */
    private static double logLikelihood(double[] y, double[] v, int[] groupOf, double within, double between) {
        int n = y.length;
        RealMatrix covariances = new Array2DRowRealMatrix(n, n);
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                covariances.setEntry(i, j, (i == j ? v[i] + within : 0) + (groupOf[i] == groupOf[j] ? between : 0));
            }
        }
        LUDecomposition decomposed = new LUDecomposition(covariances);
        RealMatrix inverse = decomposed.getSolver().getInverse();
        double[] ones = new double[n];
        Arrays.fill(ones, 1);
        double[] weights = inverse.operate(ones);
        double weight = Arrays.stream(weights).sum();
        double mean = IntStream.range(0, n).mapToDouble(i -> weights[i] * y[i]).sum() / weight;
        double[] off = Arrays.stream(y).map(value -> value - mean).toArray();
        double[] weighed = inverse.operate(off);
        double squares =
                IntStream.range(0, n).mapToDouble(i -> off[i] * weighed[i]).sum();
        return -(Math.log(decomposed.getDeterminant()) + Math.log(weight) + squares) / 2;
    }

    @Test
    void noOtherPairOfVariancesIsMoreLikelyWhateverTheGroupsAreLike() {
        Random random = new Random(23);
        for (int time = 0; time < 20; time++) {
            int n = 12 + random.nextInt(12);
            int groups = 2 + random.nextInt(3);
            int[] groupOf = IntStream.range(0, n).map(i -> i % groups).toArray();
            double[] v = random.doubles(n, .1, 3).toArray();
            double[] hall = random.doubles(groups, -2, 2).toArray();
            double[] y = IntStream.range(0, n)
                    .mapToDouble(i -> 10 + hall[groupOf[i]] + random.nextGaussian() * Math.sqrt(v[i] + 1))
                    .toArray();
            NestedEffects effects = NestedEffects.of(y, v, groupOf);
            double within = effects.variance();
            double between = effects.groups().variance();
            double found = logLikelihood(y, v, groupOf, within, between);
            for (double a : new double[] {0, within / 2, within * .98, within * 1.02, within * 2, within + .1, 5}) {
                for (double b :
                        new double[] {0, between / 2, between * .98, between * 1.02, between * 2, between + .1, 5}) {
                    assertThat(logLikelihood(y, v, groupOf, a, b))
                            .as("%s, %s beside %s, %s", a, b, within, between)
                            .isLessThan(found + 1e-9);
                }
            }
        }
    }

    @Test
    void whatIsNoGroupIsRefused() {
        double[] four = {1, 2, 3, 4};
        assertThatThrownBy(() -> NestedEffects.of(four, four, new int[] {0, 0, 1}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("there are 4 values, but groups of 3");
        assertThatThrownBy(() -> NestedEffects.of(four, four, new int[] {0, 0, 0, 0}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("groups are numbered from 0, and there are two or more");
        assertThatThrownBy(() -> NestedEffects.of(four, four, new int[] {0, -1, 0, 1}))
                .hasMessage("groups are numbered from 0, and there are two or more");
        assertThatThrownBy(() -> NestedEffects.of(four, four, new int[] {0, 0, 0, 1}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("group 1 has 1 units; each needs two or more");
    }
}
