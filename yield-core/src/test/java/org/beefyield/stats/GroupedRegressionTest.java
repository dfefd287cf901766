package org.beefyield.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class GroupedRegressionTest {
    private static final double[][][] KNOWN = {{{2, -2, 0}, {0, 0, 0}}};
    /** Six groups of two, three or four rows, so that some weigh as much as others, and a response that is missing here and there. */
    private static final int[] SIZES = {2, 3, 2, 4, 3, 2};

    private static GroupedRegression.Rows rows() {
        int n = 16;
        double[][] terms = new double[n][];
        double[][] values = new double[n][];
        double[] weights = new double[n];
        int[] groups = new int[n];
        int row = 0;
        for (int g = 0; g < SIZES.length; g++) {
            for (int i = 0; i < SIZES[g]; i++) {
                double x = Math.sin(3.0 * row);
                double a = 2 + x + Math.cos(5.0 * g) + Math.sin(7.0 * row) / 3;
                double b = -2 + Math.cos(11.0 * row) / 2;
                terms[row] = new double[] {1, x};
                values[row] = new double[] {a, row % 7 == 3 ? Double.NaN : b, row % 7 == 3 ? Double.NaN : -a - b};
                weights[row] = row == 5 ? 2 : 1;
                groups[row++] = g;
            }
        }
        return new GroupedRegression.Rows(terms, values, weights, groups, new int[n]);
    }

    /** Two free unknowns for each of some terms. */
    private static GroupedRegression.Prior prior(double[][][] known, int terms) {
        double[][][][] loadings = new double[1][2][3][2 * terms];
        for (int a = 0; a < terms; a++) {
            for (int k = 0; k < 2; k++) {
                loadings[0][a][k][2 * a + k] = 1;
                loadings[0][a][2][2 * a + k] = -1;
            }
        }
        boolean[] free = new boolean[2 * terms];
        Arrays.fill(free, true);
        return new GroupedRegression.Prior(known, loadings, free);
    }

    private static GroupedRegression.Declared declared(GroupedRegression.Between how) {
        return new GroupedRegression.Declared(new double[3][3], 0, new double[3][3], 0, how);
    }

    @Test
    void aRefitIsTheFitToTheSameRowsToTheLastDigit() {
        GroupedRegression first =
                GroupedRegression.fit(rows(), prior(KNOWN, 1), declared(GroupedRegression.Between.SHARE));
        for (int terms = 1; terms <= 2; terms++) {
            for (GroupedRegression.Between how : GroupedRegression.Between.values()) {
                GroupedRegression again = first.refit(prior(KNOWN, terms), declared(how));
                GroupedRegression fresh = GroupedRegression.fit(rows(), prior(KNOWN, terms), declared(how));

                assertThat(again.unknowns()).isEqualTo(fresh.unknowns());
                assertThat(again.covariance()).isDeepEqualTo(fresh.covariance());
                assertThat(again.within()).isDeepEqualTo(fresh.within());
                assertThat(again.between()).isDeepEqualTo(fresh.between());
                assertThat(again.leftOut(List.of(new int[] {0, 1}, new int[] {2, 3, 4, 5})))
                        .isDeepEqualTo(fresh.leftOut(List.of(new int[] {0, 1}, new int[] {2, 3, 4, 5})));
            }
        }
    }

    @Test
    void anotherKnownPartIsRefusedForTheRowsWereSummedUpWithoutIt() {
        GroupedRegression first =
                GroupedRegression.fit(rows(), prior(KNOWN, 1), declared(GroupedRegression.Between.KEPT));

        assertThatIllegalArgumentException()
                .isThrownBy(() -> first.refit(prior(new double[1][2][3], 1), declared(GroupedRegression.Between.KEPT)))
                .withMessage("the known part of the coefficients is not that of the first fit");
    }
}
