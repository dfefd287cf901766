package org.beefyield.calibrate;

import java.util.List;
import java.util.Map;
import org.beefyield.carcass.Category;
import org.jspecify.annotations.Nullable;

/**
 * A breakdown as it was learnt, to be written into a table.
 *
 * @param prior what the table in use says of it
 * @param category letter of the category whose carcasses taught it, or {@code *} if all did
 * @param byCategory what was learnt, by category in the table's order
 */
record LearntBreakdown(PriorBreakdown prior, String category, Map<Category, OfCategory> byCategory) {
    /**
     * What was learnt of a category.
     *
     * @param coefficients columns by children, g/kg
     * @param errors covariance of the coefficients, all children of the first column, then of the next
     * @param boned whether its own carcasses taught it
     * @param sds by child
     * @param residual covariance between carcasses; null if the one of the table in use stays
     */
    @SuppressWarnings("ArrayRecordComponent")
    record OfCategory(
            double[][] coefficients, double[][] errors, boolean boned, List<Sds> sds, double @Nullable [][] residual) {
        OfCategory {
            sds = List.copyOf(sds);
        }
    }

    /**
     * SDs of a child, g/kg.
     *
     * @param ofCarcasses between carcasses
     * @param ofRuns between runs, null if the table states none
     * @param ofHalls between halls, null if the table states none
     */
    record Sds(
            double ofCarcasses,
            @Nullable Double ofRuns,
            @Nullable Double ofHalls) {}

    List<String> cuts() {
        return prior.weighed.children().stream().map(cut -> cut.code()).toList();
    }

    String parent() {
        return prior.weighed.parent();
    }

    String way() {
        return prior.weighed.way();
    }
}
