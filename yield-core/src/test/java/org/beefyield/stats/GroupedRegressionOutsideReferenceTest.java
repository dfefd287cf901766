package org.beefyield.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/**
 * One response in groups beside what restricted likelihood makes of it: Rail (Pinheiro and Bates 2000, Mixed-Effects Models in S and
 * S-PLUS), Dyestuff (Davies and Goldsmith 1972, by lme4), six bulls (Snedecor and Cochran, data from memory, by REML programmes).
 */
class GroupedRegressionOutsideReferenceTest {
    static final double[][] RAIL = {{55, 53, 54}, {26, 37, 32}, {78, 91, 85}, {92, 100, 96}, {49, 51, 50}, {80, 85, 83}
    };
    static final double[][] DYESTUFF = {
        {1545, 1440, 1440, 1520, 1580},
        {1540, 1555, 1490, 1560, 1495},
        {1595, 1550, 1605, 1510, 1560},
        {1445, 1440, 1595, 1465, 1545},
        {1595, 1630, 1515, 1635, 1625},
        {1520, 1455, 1450, 1480, 1445}
    };
    private static final double[][] BULLS = {
        {46, 31, 37, 62, 30},
        {70, 59},
        {52, 44, 57, 40, 67, 64, 70},
        {47, 21, 70, 46, 14},
        {42, 64, 50, 69, 77, 81, 87},
        {35, 68, 59, 38, 57, 76, 57, 29, 60}
    };

    /** Two responses of which one is the other's opposite, so that they add up. */
    private static GroupedRegression fit(double[][] groups, GroupedRegression.Between how) {
        int n = 0;
        for (double[] group : groups) {
            n += group.length;
        }
        double[][] terms = new double[n][1];
        double[][] values = new double[n][2];
        double[] weights = new double[n];
        int[] of = new int[n];
        int row = 0;
        for (int group = 0; group < groups.length; group++) {
            for (double value : groups[group]) {
                terms[row][0] = 1;
                values[row][0] = value;
                values[row][1] = -value;
                weights[row] = 1;
                of[row++] = group;
            }
        }
        return GroupedRegression.fit(
                new GroupedRegression.Rows(terms, values, weights, of, new int[n]),
                new GroupedRegression.Prior(new double[1][1][2], new double[][][][] {{{{1}, {-1}}}}, new boolean[] {true
                }),
                new GroupedRegression.Declared(new double[2][2], 0, new double[2][2], 0, how));
    }

    private static Offset<Double> millionth(double value) {
        return within(1e-6 * Math.abs(value));
    }

    @Test
    void railsAreThoseOfPinheiroAndBates() {
        GroupedRegression fit = fit(RAIL, GroupedRegression.Between.SHARE);

        assertThat(Math.sqrt(fit.between()[0][0])).isCloseTo(24.80547, millionth(24.80547));
        assertThat(Math.sqrt(fit.within()[0][0])).isCloseTo(4.02078, millionth(4.02078));
        assertThat(fit.unknowns()[0]).isCloseTo(66.5, within(1e-9));
        assertThat(Math.sqrt(fit.covariance()[0][0])).isCloseTo(10.17104, millionth(10.17104));
    }

    @Test
    void dyestuffIsThatOfLme4() {
        GroupedRegression fit = fit(DYESTUFF, GroupedRegression.Between.SHARE);

        assertThat(fit.between()[0][0]).isCloseTo(1764.05, millionth(1764.05));
        assertThat(fit.within()[0][0]).isCloseTo(2451.25, millionth(2451.25));
        double[] effects = {-17.60685, 0.39126, 28.56223, -23.08454, 56.73319, -44.99529};
        for (int group = 0; group < effects.length; group++) {
            assertThat(fit.effect(group)[0]).isCloseTo(effects[group], within(2e-5));
        }
    }

    @Test
    void unbalancedBullsAreThoseOfRestrictedLikelihood() {
        GroupedRegression fit = fit(BULLS, GroupedRegression.Between.SHARE);

        assertThat(fit.between()[0][0]).isCloseTo(76.81508, millionth(76.81508));
        assertThat(fit.within()[0][0]).isCloseTo(248.7043, millionth(248.7043));
        assertThat(fit.unknowns()[0]).isCloseTo(53.31792, millionth(53.31792));
    }

    /** Groups that are all alike differ by nothing: plain least squares. */
    @Test
    void groupsThatDifferLessThanByChanceDifferByNothing() {
        double[][] alike = {{1, 5, 3}, {5, 1, 3}, {3, 1, 5}, {1, 3, 5}};
        GroupedRegression fit = fit(alike, GroupedRegression.Between.SHARE);

        assertThat(fit.share()).isZero();
        assertThat(fit.within()[0][0]).isCloseTo(32.0 / 11, within(1e-8));
        assertThat(fit.covariance()[0][0]).isCloseTo(32.0 / 11 / 12, within(1e-8));
        assertThat(fit(alike, GroupedRegression.Between.KEPT).withinDegrees()).isEqualTo(11);
    }
}
