package org.beefyield.reconcile;

import java.util.List;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Product;
import org.beefyield.estimate.YieldEstimator;

/** Runs against what their carcasses should return, for those who learn from them. */
public final class WeighedRuns {
    private WeighedRuns() {}

    /**
     * Reads runs of one hall against what their carcasses should return.
     *
     * @param runs runs of one hall, in any order
     * @param estimator how carcasses are estimated and cut
     * @param products every product that their boxes name, and which cuts of the table's last level go into it
     * @return the runs in the order of their days, those too that don't balance; all have the same groups
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for a carcass
     * @throws IllegalArgumentException as {@link Season#of(List, YieldEstimator, List)}
     */
    public static List<WeighedRun> of(List<BoningRun> runs, YieldEstimator estimator, List<Product> products) {
        Reconciler reconciler = Reconciler.of(estimator, products, runs);
        return Season.byDay(runs).stream().map(reconciler::weighed).toList();
    }
}
