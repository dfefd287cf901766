package org.beefyield.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.api.Test;

class CompleteRowsTest {
    private static final int CONTRASTS = 2;
    private static final int TERMS = 3;
    private static final int UNKNOWNS = 4;
    /** Groups of two weights, one of them of two groups that are alike. */
    private static final double[][] WEIGHTS = {{1, 2}, {1, 1, 1}, {2, 1, 1}};

    private static final double[][] WITHIN = {{2, 0.6}, {0.6, 1}};
    private static final double[][] BETWEEN = {{0.5, -0.2}, {-0.2, 0.3}};
    private static final boolean[] FREE = {true, false, false, true};

    private static double value(int of) {
        return Math.sin(1.7 * of * of + of);
    }

    /** By term, contrasts by unknowns. */
    private static double[][][] loadings() {
        double[][][] loadings = new double[TERMS][CONTRASTS][UNKNOWNS];
        int number = 1;
        for (double[][] ofTerm : loadings) {
            for (double[] ofContrast : ofTerm) {
                for (int m = 0; m < UNKNOWNS; m++) {
                    ofContrast[m] = value(number++);
                }
            }
        }
        return loadings;
    }

    private static double term(int row, int a) {
        return a == 0 ? 1 : value(40 * row + a);
    }

    private static double contrast(int row, int j) {
        return 3 * value(70 * row + 11 * j + 5);
    }

    /** What a step expects is what all unknowns and effects together are expected to be, reckoned without any short cut. */
    @Test
    void aStepIsThatOfAllEffectsAndUnknownsTogether() {
        CompleteRows.Expected expected =
                rows().expected(WITHIN, BETWEEN, loadings(), FREE).orElseThrow();
        CompleteRows.Expected plain = byBruteForce();

        for (int i = 0; i < CONTRASTS; i++) {
            for (int j = 0; j < CONTRASTS; j++) {
                assertThat(expected.ofRows()[i][j]).isCloseTo(plain.ofRows()[i][j], within(1e-11));
                assertThat(expected.ofGroups()[i][j]).isCloseTo(plain.ofGroups()[i][j], within(1e-11));
            }
        }
    }

    @Test
    void nothingBetweenGroupsIsNoEffect() {
        CompleteRows.Expected expected = rows().expected(WITHIN, new double[CONTRASTS][CONTRASTS], loadings(), FREE)
                .orElseThrow();

        assertThat(expected.ofGroups()).isDeepEqualTo(new double[CONTRASTS][CONTRASTS]);
    }

    @Test
    void errorsThatFollowFromOneAnotherAreReckonedOtherwise() {
        double[][] singular = {{1, 1}, {1, 1}};

        assertThat(rows().expected(singular, BETWEEN, loadings(), FREE)).isEmpty();
    }

    private static CompleteRows rows() {
        double[][] products = new double[TERMS][TERMS];
        double[][] told = new double[CONTRASTS][TERMS];
        double[][] squares = new double[CONTRASTS][CONTRASTS];
        double[][][] sums = new double[WEIGHTS.length][1][TERMS + CONTRASTS];
        int row = 0;
        for (int g = 0; g < WEIGHTS.length; g++) {
            for (double w : WEIGHTS[g]) {
                for (int a = 0; a < TERMS + CONTRASTS; a++) {
                    sums[g][0][a] += w * figure(row, a);
                    for (int b = 0; b < TERMS + CONTRASTS; b++) {
                        double product = w * figure(row, a) * figure(row, b);
                        if (a < TERMS && b < TERMS) {
                            products[a][b] += product;
                        } else if (a < TERMS) {
                            told[b - TERMS][a] += product;
                        } else if (b >= TERMS) {
                            squares[a - TERMS][b - TERMS] += product;
                        }
                    }
                }
                row++;
            }
        }
        return new CompleteRows(products, told, squares, List.of(alike(3, sums[0], sums[1]), alike(4, sums[2])));
    }

    private static double figure(int row, int number) {
        return number < TERMS ? term(row, number) : contrast(row, number - TERMS);
    }

    private static CompleteRows.Alike alike(double weight, double[][]... sums) {
        double[][] products = new double[TERMS][TERMS];
        double[][] told = new double[CONTRASTS][TERMS];
        double[][] squares = new double[CONTRASTS][CONTRASTS];
        for (double[][] of : sums) {
            double[] sum = of[0];
            for (int a = 0; a < sum.length; a++) {
                for (int b = 0; b < sum.length; b++) {
                    if (a < TERMS && b < TERMS) {
                        products[a][b] += sum[a] * sum[b];
                    } else if (a < TERMS) {
                        told[b - TERMS][a] += sum[a] * sum[b];
                    } else if (b >= TERMS) {
                        squares[a - TERMS][b - TERMS] += sum[a] * sum[b];
                    }
                }
            }
        }
        return new CompleteRows.Alike(weight, sums.length, products, told, squares);
    }

    /** Unknowns, then the effects of each group on each contrast: their joint distribution given the rows. */
    private static CompleteRows.Expected byBruteForce() {
        int all = UNKNOWNS + WEIGHTS.length * CONTRASTS;
        RealMatrix ofWithin = inverse(WITHIN);
        RealMatrix ofBetween = inverse(BETWEEN);
        RealMatrix precision = new Array2DRowRealMatrix(all, all);
        for (int m = 0; m < UNKNOWNS; m++) {
            precision.addToEntry(m, m, FREE[m] ? 0 : 1);
        }
        for (int g = 0; g < WEIGHTS.length; g++) {
            for (int i = 0; i < CONTRASTS; i++) {
                for (int j = 0; j < CONTRASTS; j++) {
                    int from = UNKNOWNS + g * CONTRASTS;
                    precision.addToEntry(from + i, from + j, ofBetween.getEntry(i, j));
                }
            }
        }
        double[] right = new double[all];
        List<RealMatrix> designs = new ArrayList<>();
        int row = 0;
        for (int g = 0; g < WEIGHTS.length; g++) {
            for (double w : WEIGHTS[g]) {
                RealMatrix design = new Array2DRowRealMatrix(CONTRASTS, all);
                for (int i = 0; i < CONTRASTS; i++) {
                    design.setEntry(i, UNKNOWNS + g * CONTRASTS + i, 1);
                    for (int a = 0; a < TERMS; a++) {
                        for (int m = 0; m < UNKNOWNS; m++) {
                            design.addToEntry(i, m, term(row, a) * loadings()[a][i][m]);
                        }
                    }
                }
                designs.add(design);
                RealMatrix told = design.transpose().multiply(ofWithin).scalarMultiply(w);
                precision = precision.add(told.multiply(design));
                double[] ofRow = told.operate(new double[] {contrast(row, 0), contrast(row, 1)});
                for (int m = 0; m < all; m++) {
                    right[m] += ofRow[m];
                }
                row++;
            }
        }
        RealMatrix covariance = inverse(precision.getData());
        double[] mean = covariance.operate(right);
        double[][] ofRows = new double[CONTRASTS][CONTRASTS];
        double[][] ofGroups = new double[CONTRASTS][CONTRASTS];
        row = 0;
        for (int g = 0; g < WEIGHTS.length; g++) {
            int from = UNKNOWNS + g * CONTRASTS;
            for (int i = 0; i < CONTRASTS; i++) {
                for (int j = 0; j < CONTRASTS; j++) {
                    ofGroups[i][j] += mean[from + i] * mean[from + j] + covariance.getEntry(from + i, from + j);
                }
            }
            for (double w : WEIGHTS[g]) {
                double[] fitted = designs.get(row).operate(mean);
                RealMatrix unsure = designs.get(row)
                        .multiply(covariance)
                        .multiply(designs.get(row).transpose());
                for (int i = 0; i < CONTRASTS; i++) {
                    for (int j = 0; j < CONTRASTS; j++) {
                        double product = (contrast(row, i) - fitted[i]) * (contrast(row, j) - fitted[j]);
                        ofRows[i][j] += w * (product + unsure.getEntry(i, j));
                    }
                }
                row++;
            }
        }
        return new CompleteRows.Expected(ofRows, ofGroups);
    }

    private static RealMatrix inverse(double[][] matrix) {
        return new LUDecomposition(new Array2DRowRealMatrix(matrix)).getSolver().getInverse();
    }
}
