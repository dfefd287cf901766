package org.beefyield.data.testkit;

import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.YieldColumn;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;

/** What the checks look at: the shares of all cuts at a grade and weight. A test of the checks puts a faulty one here. */
@FunctionalInterface
interface Shares {
    /**
     * Shares of the cold weight by column: level by level every cut that stands there.
     *
     * @param conformation position on the 18-point scale
     * @param fat position on the 15-point scale
     * @param weightKg cold weight, kg
     */
    double[] at(double conformation, double fat, double weightKg);

    /** Shares as an application gets them: from estimates. */
    static Shares of(YieldEstimator estimator, Category category, List<YieldColumn> columns) {
        return (conformation, fat, weightKg) -> {
            YieldEstimate estimate = estimator.estimate(Carcass.of(
                    category, Conformation.ofPosition(conformation, 1), FatClass.ofPosition(fat, 1), weightKg));
            return columns.stream()
                    .mapToDouble(
                            column -> estimate.kg(column.level(), column.cut().code()) / weightKg)
                    .toArray();
        };
    }
}
