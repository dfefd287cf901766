package org.beefyield.calibrate;

import org.beefyield.stats.GroupedRegression;
import org.jspecify.annotations.Nullable;

/** What a fit for an average day leaves of its rows, worked out once it is asked for: reports ask often. */
final class Residuals {
    private final BreakdownModel model;
    private final GroupedRegression regression;
    private @Nullable Left left;

    /** By row and part. */
    @SuppressWarnings("ArrayRecordComponent")
    private record Left(double[][] ofRows) {}

    Residuals(BreakdownModel model, GroupedRegression regression) {
        this.model = model;
        this.regression = regression;
    }

    /** NaN if the part wasn't weighed. */
    double of(int part, int row) {
        // two threads that ask at once work out the same
        Left made = left;
        if (made == null) {
            made = left();
            left = made;
        }
        return made.ofRows()[row][part];
    }

    private Left left() {
        double[][] all = new double[model.rows.size()][];
        for (int row = 0; row < all.length; row++) {
            all[row] = regression.fitted(row);
            for (int part = 0; part < all[row].length; part++) {
                all[row][part] = model.rows.get(row).shares()[part] - all[row][part];
            }
        }
        return new Left(all);
    }
}
