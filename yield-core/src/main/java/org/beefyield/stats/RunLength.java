package org.beefyield.stats;

import java.util.Arrays;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * How many scores a cumulative sum goes through until its alarm: one side, which a score beyond a limit of its own ends too.
 * Scores are independent and normal with SD 1.
 *
 * <p>The mean is the solution of an integral equation (Page 1954, Biometrika 41, 100 to 115), here as a polynomial that fulfils
 * it at the zeros of a Chebyshev polynomial, its integrals by Gauss and Legendre. They end where the single limit cuts, so that
 * nothing jumps inside of them.
 */
final class RunLength {
    private final double decision;
    private final double reference;
    private final double limit;
    private final double shift;
    private final RealMatrix polynomials;
    private final RealMatrix step;

    /**
     * Sets the equation up.
     *
     * @param reference what is taken off each score, 0 or more
     * @param decision the sum that is an alarm, above 0
     * @param limit the single score that is an alarm, above the reference; infinite for none
     * @param shift mean of the scores, positive towards this side
     */
    RunLength(double reference, double decision, double limit, double shift) {
        this.reference = reference;
        this.decision = decision;
        this.limit = limit;
        this.shift = shift;
        int terms = 16 + 3 * (int) Math.ceil(decision);
        GaussIntegrator rule = new GaussIntegratorFactory().legendre(32 + 4 * (int) Math.ceil(decision));
        double[][] polynomial = new double[terms][];
        double[][] after = new double[terms][terms];
        double[] atZero = chebyshev(0, terms);
        for (int i = 0; i < terms; i++) {
            double sum = decision * (1 + Math.cos(Math.PI * (i + 0.5) / terms)) / 2;
            polynomial[i] = chebyshev(sum, terms);
            double back = 1 - Normal.above(Math.min(reference - sum, limit) - shift);
            double half = Math.min(decision, sum - reference + limit) / 2;
            double[] row = after[i];
            for (int j = 0; j < terms; j++) {
                row[j] = back * atZero[j];
            }
            for (int node = 0; node < rule.getNumberOfPoints(); node++) {
                double next = half * (1 + rule.getPoint(node));
                double mass = half * rule.getWeight(node) * Normal.density(next - sum + reference - shift);
                double[] there = chebyshev(next, terms);
                for (int j = 0; j < terms; j++) {
                    row[j] += mass * there[j];
                }
            }
        }
        this.polynomials = new Array2DRowRealMatrix(polynomial, false);
        this.step = new Array2DRowRealMatrix(after, false);
    }

    private double[] chebyshev(double sum, int terms) {
        double x = 2 * sum / decision - 1;
        double[] values = new double[terms];
        values[0] = 1;
        values[1] = x;
        for (int j = 2; j < terms; j++) {
            values[j] = 2 * x * values[j - 1] - values[j - 2];
        }
        return values;
    }

    private double at(double sum, RealVector coefficients) {
        return coefficients.dotProduct(new ArrayRealVector(chebyshev(sum, coefficients.getDimension()), false));
    }

    /** Mean number of scores up to the alarm, itself counted, from a sum at the start. */
    double mean(double start) {
        double[] ones = new double[polynomials.getRowDimension()];
        Arrays.fill(ones, 1);
        return at(
                start,
                new LUDecomposition(polynomials.subtract(step)).getSolver().solve(new ArrayRealVector(ones, false)));
    }

    /** Chance that there is no alarm within so many scores from a sum of 0. */
    double chanceOfNone(int scores) {
        DecompositionSolver solver = new LUDecomposition(polynomials).getSolver();
        RealVector coefficients = new ArrayRealVector(polynomials.getRowDimension());
        coefficients.setEntry(0, 1);
        for (int score = 0; score < scores; score++) {
            coefficients = solver.solve(step.operate(coefficients));
        }
        return at(0, coefficients);
    }

    /**
     * Mean number of scores up to the alarm of two sides, each with the same limits (Lucas and Crosier 1982, Technometrics 24,
     * 199 to 205).
     *
     * @param start the sums of both sides at the start
     */
    double twoSidedMean(double start) {
        RunLength other = new RunLength(reference, decision, limit, -shift);
        double up = mean(0);
        double down = other.mean(0);
        return (mean(start) * down + up * other.mean(start) - up * down) / (up + down);
    }
}
