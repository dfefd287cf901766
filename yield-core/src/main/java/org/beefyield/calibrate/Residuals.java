package org.beefyield.calibrate;

import org.beefyield.stats.GroupedRegression;
import org.jspecify.annotations.Nullable;

/** What a fit for an average day leaves of its rows, worked out once it is asked for: reports ask often. */
final class Residuals {
    private final BreakdownModel model;
    private final GroupedRegression regression;
    private @Nullable Left left;

    /**
     * What is left.
     *
     * @param ofRows by row and part
     * @param squares by part, sum of the squares
     * @param squaresAboutMean by part, the same if the mean alone were fitted
     * @param weights by part, of the rows that have it
     */
    @SuppressWarnings("ArrayRecordComponent")
    private record Left(double[][] ofRows, double[] squares, double[] squaresAboutMean, double[] weights) {}

    Residuals(BreakdownModel model, GroupedRegression regression) {
        this.model = model;
        this.regression = regression;
    }

    /** NaN if the part wasn't weighed. */
    double of(int part, int row) {
        return known().ofRows()[row][part];
    }

    /** Part of the variance that the fit describes; 0 if there is none. */
    double r2(int part) {
        Left known = known();
        double total = known.squaresAboutMean()[part];
        return total > 0 ? 1 - known.squares()[part] / total : 0;
    }

    double rmse(int part) {
        Left known = known();
        return Math.sqrt(known.squares()[part] / known.weights()[part]);
    }

    private Left known() {
        // two threads that ask at once work out the same
        Left made = left;
        if (made == null) {
            made = left();
            left = made;
        }
        return made;
    }

    private Left left() {
        int parts = model.prior.weighed.parts().size();
        double[][] all = new double[model.rows.size()][];
        double[] squares = new double[parts];
        double[] sums = new double[parts];
        double[] weights = new double[parts];
        for (int row = 0; row < all.length; row++) {
            all[row] = regression.residual(row);
            double[] shares = model.shares(row);
            double weight = model.weight(row);
            for (int part = 0; part < parts; part++) {
                if (!Double.isNaN(shares[part])) {
                    squares[part] += weight * all[row][part] * all[row][part];
                    sums[part] += weight * shares[part];
                    weights[part] += weight;
                }
            }
        }
        double[] aboutMean = new double[parts];
        for (int row = 0; row < all.length; row++) {
            double[] shares = model.shares(row);
            for (int part = 0; part < parts; part++) {
                if (!Double.isNaN(shares[part])) {
                    double off = shares[part] - sums[part] / weights[part];
                    aboutMean[part] += model.weight(row) * off * off;
                }
            }
        }
        return new Left(all, squares, aboutMean, weights);
    }
}
