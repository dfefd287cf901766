package org.beefyield.stats;

import static org.beefyield.stats.Matrices.addTimes;
import static org.beefyield.stats.Matrices.addTransposedTimesBelow;
import static org.beefyield.stats.Matrices.copy;
import static org.beefyield.stats.Matrices.decomposed;
import static org.beefyield.stats.Matrices.largest;
import static org.beefyield.stats.Matrices.mirror;
import static org.beefyield.stats.Matrices.symmetrize;
import static org.beefyield.stats.Matrices.times;
import static org.beefyield.stats.Matrices.timesTransposed;
import static org.beefyield.stats.Matrices.timesTransposedOf;

import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.NonPositiveDefiniteMatrixException;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * Rows in groups none of which lacks a response, summed up for steps of the EM algorithm. Coordinates in which the covariance
 * within groups is the unit matrix and that between them diagonal make each response one by itself, given the coefficients, and
 * groups of the same weight one sum: a step costs as many times less as there are groups to a weight.
 */
final class CompleteRows {
    /** Part of the largest variance below which one is too small to divide by. */
    private static final double SMALLEST = 1e-9;

    /** Products of the terms of all rows, those of each kind by themselves. */
    private final double[][] products;
    /** Contrasts of what is left of the rows by terms. */
    private final double[][] told;

    private final double[][] squares;
    private final List<Alike> alike;

    /**
     * Groups of the same weight: products of the sums over their rows.
     *
     * @param weight weight of one of them
     * @param count how many they are
     * @param products of the terms
     * @param told contrasts by terms
     * @param squares of the contrasts
     */
    @SuppressWarnings("ArrayRecordComponent")
    record Alike(double weight, int count, double[][] products, double[][] told, double[][] squares) {}

    /**
     * What a step expects, contrasts by contrasts.
     *
     * @param ofRows products of the errors of the rows
     * @param ofGroups products of the effects of the groups
     */
    @SuppressWarnings("ArrayRecordComponent")
    record Expected(double[][] ofRows, double[][] ofGroups) {}

    CompleteRows(double[][] products, double[][] told, double[][] squares, List<Alike> alike) {
        this.products = products;
        this.told = told;
        this.squares = squares;
        this.alike = List.copyOf(alike);
    }

    /**
     * A step.
     *
     * @param loadings by term, contrasts by unknowns
     * @param free by unknown, whether nothing is known of it
     * @return none where the covariance within groups is as good as singular
     * @throws IllegalArgumentException if the rows don't tell the free unknowns apart
     */
    Optional<Expected> expected(double[][] within, double[][] between, double[][][] loadings, boolean[] free) {
        RealMatrix root;
        try {
            root = new CholeskyDecomposition(
                            new Array2DRowRealMatrix(within, false), SMALLEST, largest(within) * SMALLEST)
                    .getL();
        } catch (NonPositiveDefiniteMatrixException e) {
            return Optional.empty();
        }
        DecompositionSolver ofRoot = new LUDecomposition(root, 0).getSolver();
        RealMatrix half = ofRoot.solve(new Array2DRowRealMatrix(between, false));
        double[][] whitened = ofRoot.solve(half.transpose()).getData();
        symmetrize(whitened);
        EigenDecomposition turned = new EigenDecomposition(new Array2DRowRealMatrix(whitened, false));
        double[] ratios = turned.getRealEigenvalues();
        // contrasts = back times coordinates; coordinates = to transposed times contrasts
        RealMatrix back = root.multiply(turned.getV());
        double[][] to = ofRoot.getInverse().transpose().multiply(turned.getV()).getData();
        return Optional.of(inCoordinates(to, back, ratios, loadings, free));
    }

    private Expected inCoordinates(
            double[][] to, RealMatrix back, double[] ratios, double[][][] loadings, boolean[] free) {
        int contrasts = ratios.length;
        int terms = products.length;
        double[][][] moves = moves(loadings, to);
        double[][] toldOfAll = timesTransposed(to, told);
        double[][] shrinkers = new double[alike.size()][contrasts];
        double[][][] toldOfAlike = new double[alike.size()][][];
        for (int c = 0; c < alike.size(); c++) {
            toldOfAlike[c] = timesTransposed(to, alike.get(c).told);
            for (int i = 0; i < contrasts; i++) {
                double ratio = Math.max(0, ratios[i]);
                shrinkers[c][i] = ratio / (1 + alike.get(c).weight * ratio);
            }
        }
        double[][] precision = new double[free.length][free.length];
        double[] right = new double[free.length];
        for (int m = 0; m < free.length; m++) {
            precision[m][m] = free[m] ? 0 : 1;
        }
        for (int i = 0; i < contrasts; i++) {
            double[][] information = copy(products);
            double[] ofContrast = toldOfAll[i].clone();
            for (int c = 0; c < alike.size(); c++) {
                addTimes(information, alike.get(c).products, -shrinkers[c][i]);
                addTimes(ofContrast, toldOfAlike[c][i], -shrinkers[c][i]);
            }
            addTransposedTimesBelow(precision, moves[i], times(information, moves[i]), 1);
            for (int a = 0; a < terms; a++) {
                addTimes(right, moves[i][a], ofContrast[a]);
            }
        }
        mirror(precision);
        DecompositionSolver solver =
                decomposed(new Array2DRowRealMatrix(precision, false)).getSolver();
        double[] unknown = solver.solve(new ArrayRealVector(right, false)).toArray();
        double[][] covariance = solver.getInverse().getData();

        double[][] coefficients = new double[terms][contrasts];
        for (int i = 0; i < contrasts; i++) {
            for (int a = 0; a < terms; a++) {
                for (int m = 0; m < unknown.length; m++) {
                    coefficients[a][i] += moves[i][a][m] * unknown[m];
                }
            }
        }
        double[][] ofRows = left(squaresIn(to, squares), toldOfAll, products, coefficients);
        double[][] ofGroups = new double[contrasts][contrasts];
        double[][][] leftOfAlike = new double[alike.size()][][];
        for (int c = 0; c < alike.size(); c++) {
            leftOfAlike[c] =
                    left(squaresIn(to, alike.get(c).squares), toldOfAlike[c], alike.get(c).products, coefficients);
        }
        for (int i = 0; i < contrasts; i++) {
            double[][] uncertain = times(moves[i], covariance);
            for (int j = 0; j <= i; j++) {
                double[][] between = timesTransposedOf(uncertain, moves[j]);
                ofRows[i][j] += product(between, products);
                for (int c = 0; c < alike.size(); c++) {
                    Alike of = alike.get(c);
                    double byI = shrinkers[c][i];
                    double byJ = shrinkers[c][j];
                    // with what isn't known of the coefficients
                    double squared = leftOfAlike[c][i][j] + product(between, of.products);
                    double own = i == j ? of.count * byI : 0;
                    ofGroups[i][j] += byI * byJ * squared + own;
                    ofRows[i][j] += (of.weight * byI * byJ - byI - byJ) * squared + of.weight * own;
                }
                ofRows[j][i] = ofRows[i][j];
                ofGroups[j][i] = ofGroups[i][j];
            }
        }
        return new Expected(inContrasts(back, ofRows), inContrasts(back, ofGroups));
    }

    /** By coordinate, terms by unknowns. */
    private static double[][][] moves(double[][][] loadings, double[][] to) {
        double[][][] moves = new double[to.length][loadings.length][];
        for (int a = 0; a < loadings.length; a++) {
            double[][] ofTerm = timesTransposed(to, loadings[a]);
            for (int i = 0; i < to.length; i++) {
                moves[i][a] = ofTerm[i];
            }
        }
        return moves;
    }

    private static double[][] squaresIn(double[][] to, double[][] ofContrasts) {
        return timesTransposed(to, times(ofContrasts, to));
    }

    /** Products of what coefficients leave. */
    private static double[][] left(double[][] squares, double[][] told, double[][] products, double[][] coefficients) {
        double[][] explained = times(told, coefficients);
        double[][] fitted = timesTransposed(coefficients, times(products, coefficients));
        for (int i = 0; i < squares.length; i++) {
            for (int j = 0; j < squares.length; j++) {
                squares[i][j] += fitted[i][j] - explained[j][i] - explained[i][j];
            }
        }
        return squares;
    }

    private static double product(double[][] a, double[][] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; j < a.length; j++) {
                sum += a[i][j] * b[i][j];
            }
        }
        return sum;
    }

    private static double[][] inContrasts(RealMatrix back, double[][] inCoordinates) {
        return back.multiply(new Array2DRowRealMatrix(inCoordinates, false))
                .multiply(back.transpose())
                .getData();
    }
}
