package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Product;
import org.beefyield.boning.RunBalance;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.reconcile.WeighedRun;
import org.beefyield.reconcile.WeighedRuns;
import org.beefyield.stats.RandomEffects;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Learns a table from what runs of a hall weighed day by day, where no carcass was weighed by itself. Immutable.
 *
 * <p>What a run weighed of a group of products that can be told apart is a sum over its carcasses: what the table expects of
 * them, moved by the errors behind its coefficients and of the hall, plus what the run has in common, plus what carcasses and lots
 * make by chance. What the table says of how sure it is tells how far each coefficient may move; the ones that come out
 * are the most likely ones given that and the runs (generalized least squares, anew at what was found). How runs differ is estimated
 * with it (REML), the table's own SDs counting for 10 degrees of freedom. Breakdowns of which the table says neither stay.
 *
 * <p>Where there are boned trials too, they go first: the table of {@link Calibration} is then the one in use here, and what
 * trials left open is learnt from runs.
 *
 * <p>Runs that don't balance are named and teach nothing. A group of which a run weighed nothing is missing in that run.
 */
public final class RunCalibration {
    /** Runs that are needed on both sides of a change. */
    private static final int LEAST = 2;

    private final YieldEstimator estimator;
    private final List<WeighedRun> runs;
    private final @Nullable String from;

    private RunCalibration(YieldEstimator estimator, List<WeighedRun> runs, @Nullable String from) {
        this.estimator = estimator;
        this.runs = runs;
        this.from = from;
    }

    /**
     * All runs that balance.
     *
     * @param runs runs of one hall, in any order
     * @param estimator how their carcasses are estimated and cut, with the table in use
     * @param products every product that their boxes name, and which cuts of the table's last level go into it
     * @return the calibration
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for a carcass
     * @throws IllegalArgumentException if there is no run, they are of two halls, two are of one day, one can't be reconciled,
     *     or the estimator makes mince
     */
    public static RunCalibration of(List<BoningRun> runs, YieldEstimator estimator, List<Product> products) {
        Objects.requireNonNull(estimator, "estimator");
        if (estimator.minceTarget().isPresent()) {
            throw new IllegalArgumentException("the estimator makes mince at "
                    + estimator.minceTarget().orElseThrow()
                    + "; runs teach by lean trim and fat trim as they come off the line, so it has none here");
        }
        YieldEstimator all = estimator.counting(UncertaintyPart.all());
        return new RunCalibration(all, WeighedRuns.of(runs, all, products), null);
    }

    /**
     * Only runs from a day on teach, and what has changed since is told by the runs before it.
     *
     * @param day the first day of the new manner, as the runs have theirs, such as {@code 2026-09-01}
     * @return a calibration
     * @throws IllegalArgumentException if fewer than two runs that balance are before it, or from it on
     */
    public RunCalibration withChange(String day) {
        Objects.requireNonNull(day, "day");
        long before = runs.stream()
                .filter(run -> run.balance().holds() && run.day().compareTo(day) < 0)
                .count();
        long after = runs.stream()
                .filter(run -> run.balance().holds() && run.day().compareTo(day) >= 0)
                .count();
        if (before < LEAST || after < LEAST) {
            throw new IllegalArgumentException("a change on " + day + " has "
                    + Numbers.counted(before, "run that balances", "runs that balance") + " before it and " + after
                    + " from it on; it takes two or more of each, and there are runs from "
                    + runs.get(0).day() + " to " + runs.get(runs.size() - 1).day());
        }
        return new RunCalibration(estimator, runs, day);
    }

    /**
     * Learns.
     *
     * @return what came of it: a table, how sure it is, and what has changed
     */
    public RunCalibrated fit() {
        List<RunBalance> unbalanced = new ArrayList<>();
        List<WeighedRun> earlier = new ArrayList<>();
        List<WeighedRun> teaching = new ArrayList<>();
        for (WeighedRun run : runs) {
            if (!run.balance().holds()) {
                unbalanced.add(run.balance());
            } else if (from != null && run.day().compareTo(from) < 0) {
                earlier.add(run);
            } else {
                teaching.add(run);
            }
        }
        RunModel model = teaching.isEmpty() ? null : new RunModel(teaching, estimator);
        List<Drift> drifts =
                model == null || earlier.isEmpty() ? List.of() : drifts(new RunModel(earlier, estimator), model);
        return new RunCalibrated(
                estimator.table(),
                model,
                unbalanced,
                earlier.stream().map(WeighedRun::name).toList(),
                from,
                drifts);
    }

    private static List<Drift> drifts(RunModel before, RunModel after) {
        List<Drift> drifts = new ArrayList<>();
        for (int g = 0; g < after.groups.size(); g++) {
            int at = before.groups.indexOf(after.groups.get(g));
            RandomEffects was = at < 0 ? null : before.differences(at);
            RandomEffects is = after.differences(g);
            if (was != null && is != null) {
                drifts.add(Drift.of(after.groups.get(g).name(), was, is, after.mean(g, after.expected)));
            }
        }
        return drifts;
    }
}
