package org.beefyield.calibrate;

import java.util.List;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.carcass.Category;
import org.beefyield.table.definition.BreakdownRow;
import org.jspecify.annotations.Nullable;

/** What the prior table says of a breakdown that was weighed. */
final class PriorBreakdown {
    final WeighedBreakdown weighed;
    private final int columns;

    PriorBreakdown(WeighedBreakdown weighed, List<String> coefficientColumns) {
        this.weighed = weighed;
        this.columns = coefficientColumns.size();
    }

    /** The row for a child, the most specific that serves a category. */
    @Nullable
    BreakdownRow row(Category category, int child) {
        BreakdownRow best = null;
        for (BreakdownRow row : weighed.tableRows()) {
            if (row.cut().equals(weighed.children().get(child).code())
                    && (row.category().equals(BreakdownRow.ANY)
                            || row.category().contains(category.letter()))
                    && (best == null || specificity(row) > specificity(best))) {
                best = row;
            }
        }
        return best;
    }

    private static int specificity(BreakdownRow row) {
        return (row.category().equals(BreakdownRow.ANY) ? 0 : 1) + (row.way().equals(BreakdownRow.ANY) ? 0 : 1);
    }

    /** Coefficients for a category, terms by children, closed as the table closes them. */
    double[][] coefficients(Category category) {
        int children = weighed.children().size();
        double[][] prior = new double[columns][children];
        for (int k = 0; k < children; k++) {
            BreakdownRow row = row(category, k);
            for (int j = 0; j < columns && row != null; j++) {
                prior[j][k] = row.coefficients().get(j);
            }
        }
        double levels = sum(prior[0]);
        for (int j = columns - 1; j >= 0; j--) {
            double off = sum(prior[j]) - (j == 0 ? 1000 : 0);
            for (int k = 0; k < children; k++) {
                prior[j][k] -= off * prior[0][k] / levels;
            }
        }
        return prior;
    }

    private static double sum(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum;
    }
}
