package org.beefyield.benchmarks.calibrate;

import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.beefyield.boning.TrialSet;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;

/** Trials alone, without a prior table and without days: each child in levels of categories, conformation, fat and weight. */
final class LeastSquares {
    private final List<Category> categories;
    private final RealMatrix coefficients;

    private LeastSquares(List<Category> categories, RealMatrix coefficients) {
        this.categories = categories;
        this.coefficients = coefficients;
    }

    static LeastSquares of(TrialSet trials) {
        WeighedBreakdown carcass = trials.breakdowns().get(0);
        List<Category> categories = carcass.rows().stream()
                .map(row -> row.trial().carcass().category())
                .distinct()
                .toList();
        double[][] x = carcass.rows().stream()
                .map(row -> terms(row.trial().carcass(), categories))
                .toArray(double[][]::new);
        double[][] y = carcass.rows().stream()
                .map(row ->
                        row.shares().stream().mapToDouble(Double::doubleValue).toArray())
                .toArray(double[][]::new);
        return new LeastSquares(
                categories,
                new QRDecomposition(new Array2DRowRealMatrix(x, false))
                        .getSolver()
                        .solve(new Array2DRowRealMatrix(y, false)));
    }

    private static double[] terms(Carcass carcass, List<Category> categories) {
        double[] terms = new double[3 + categories.size()];
        terms[0] = carcass.conformation().position();
        terms[1] = carcass.fatClass().position();
        terms[2] = carcass.coldWeightKg() / 100;
        terms[3 + categories.indexOf(carcass.category())] = 1;
        return terms;
    }

    /** g per kg of carcass. */
    double share(Carcass carcass, int child) {
        double share = 0;
        double[] terms = terms(carcass, categories);
        for (int column = 0; column < terms.length; column++) {
            share += terms[column] * coefficients.getEntry(column, child);
        }
        return share;
    }
}
