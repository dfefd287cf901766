package org.beefyield.data.testkit;

import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.grid.TableLayout;

/** What the checks look at: the shares of all cuts at a grade and weight. A test of the checks puts a faulty one here. */
@FunctionalInterface
interface Shares {
    /**
     * Shares of the cold weight by slot of the table's layout.
     *
     * @param conformation position on the 18-point scale
     * @param fat position on the 15-point scale
     * @param weightKg cold weight, kg
     */
    double[] at(double conformation, double fat, double weightKg);

    /** Shares as an application gets them: from estimates. */
    static Shares of(YieldEstimator estimator, Category category) {
        return (conformation, fat, weightKg) -> {
            YieldEstimate estimate = estimator.estimate(Carcass.of(
                    category, Conformation.ofPosition(conformation, 1), FatClass.ofPosition(fat, 1), weightKg));
            TableLayout layout = estimator.table().layout();
            double[] shares = new double[layout.size()];
            int slot = 0;
            for (int level = 0; level < layout.levels().size(); level++) {
                for (Cut cut : layout.cutsAt(level)) {
                    shares[slot++] = estimate.kg(layout.levels().get(level), cut.code()) / weightKg;
                }
            }
            return shares;
        };
    }
}
