package org.beefyield.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
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
                double[] precisions = new double[again.within().length];
                Arrays.fill(precisions, 0.5);
                List<int[]> folds = List.of(new int[] {0, 1}, new int[] {2, 3, 4, 5});
                assertThat(again.leftOut(folds, precisions)).isEqualTo(fresh.leftOut(folds, precisions));
            }
        }
    }

    @Test
    void whatIsLeftOutIsWhatCoefficientsFittedToTheOtherGroupsAloneLeave() {
        GroupedRegression.Rows rows = rows();
        double[][] ofRows = {{1, -0.5, -0.5}, {-0.5, 1, -0.5}, {-0.5, -0.5, 1}};
        double[][] ofGroups = {{0.3, -0.2, -0.1}, {-0.2, 0.3, -0.1}, {-0.1, -0.1, 0.2}};
        GroupedRegression.Declared known = new GroupedRegression.Declared(
                ofRows, Double.POSITIVE_INFINITY, ofGroups, 0, GroupedRegression.Between.KEPT);
        double[] precisions = {0.5, 3, 0.25};
        List<int[]> folds = List.of(new int[] {0, 4}, new int[] {1, 2}, new int[] {3, 5});

        double[] left = GroupedRegression.fit(rows, prior(KNOWN, 2), known).leftOut(folds, precisions);

        double[] expected = new double[SIZES.length];
        for (int[] fold : folds) {
            boolean[] isOut = new boolean[SIZES.length];
            Arrays.stream(fold).forEach(g -> isOut[g] = true);
            int[] others = IntStream.range(0, rows.groups().length)
                    .filter(row -> !isOut[rows.groups()[row]])
                    .toArray();
            int[] numbers = Arrays.stream(others)
                    .map(row -> rows.groups()[row])
                    .distinct()
                    .toArray();
            double[] unknowns = GroupedRegression.fit(
                            new GroupedRegression.Rows(
                                    Arrays.stream(others)
                                            .mapToObj(row -> rows.terms()[row])
                                            .toArray(double[][]::new),
                                    Arrays.stream(others)
                                            .mapToObj(row -> rows.values()[row])
                                            .toArray(double[][]::new),
                                    Arrays.stream(others)
                                            .mapToDouble(row -> rows.weights()[row])
                                            .toArray(),
                                    Arrays.stream(others)
                                            .map(row -> Arrays.binarySearch(numbers, rows.groups()[row]))
                                            .toArray(),
                                    new int[others.length]),
                            prior(KNOWN, 2),
                            known)
                    .unknowns();
            for (int row = 0; row < rows.groups().length; row++) {
                double x = rows.terms()[row][1];
                double first = 2 + unknowns[0] + unknowns[2] * x;
                double second = -2 + unknowns[1] + unknowns[3] * x;
                double[] byOthers = {first, second, -first - second};
                for (int k = 0; k < 3 && isOut[rows.groups()[row]]; k++) {
                    double off = rows.values()[row][k] - byOthers[k];
                    expected[rows.groups()[row]] +=
                            Double.isNaN(off) ? 0 : rows.weights()[row] * precisions[k] * off * off;
                }
            }
        }
        assertThat(left).containsExactly(expected, within(1e-9));
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
