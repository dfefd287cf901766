package org.beefyield.report;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.beefyield.reconcile.Cause;
import org.beefyield.reconcile.Reconciliation;
import org.beefyield.reconcile.Season;
import org.beefyield.text.Numbers;

/**
 * What runs weighed more than their carcasses explain, in money: cutting and downgraded boxes.
 *
 * @param perKg mean over the runs, per kg of intake, below 0 for less
 * @param sdPerKg standard error of that mean, from how the runs differ
 * @param runs number of runs, 2 or more
 */
public record Unexplained(double perKg, double sdPerKg, int runs) {
    /**
     * Checks the figures.
     *
     * @throws IllegalArgumentException if one isn't finite, the error is below 0, or there are fewer than two runs
     */
    public Unexplained {
        if (!Double.isFinite(perKg) || !(sdPerKg >= 0 && sdPerKg < Double.POSITIVE_INFINITY) || runs < 2) {
            throw new IllegalArgumentException("unexplained " + perKg + " a kg with an error of " + sdPerKg + " of "
                    + Numbers.counted(runs, "run", "runs")
                    + ": finite figures, an error of 0 or more and two runs or more are needed");
        }
    }

    /**
     * What a season weighed more than its carcasses explain.
     *
     * @param season a season with prices
     * @return the mean over its judged runs, weighted by their intake; empty if fewer than two runs are judged
     * @throws IllegalArgumentException if nothing is priced
     */
    public static Optional<Unexplained> of(Season season) {
        List<Reconciliation> runs = Objects.requireNonNull(season, "season").judged();
        int n = runs.size();
        if (n < 2) {
            return Optional.empty();
        }
        double all = runs.stream().mapToDouble(Reconciliation::intakeKg).sum();
        double mean = runs.stream().mapToDouble(Unexplained::amount).sum() / all;
        double squares = 0;
        for (Reconciliation run : runs) {
            double off = (amount(run) - mean * run.intakeKg()) / all;
            squares += off * off;
        }
        return Optional.of(new Unexplained(mean, Math.sqrt(squares * n / (n - 1)), n));
    }

    private static double amount(Reconciliation run) {
        return run.money(Cause.CUTTING)
                .plus(run.money(Cause.DOWNGRADED))
                .amount()
                .doubleValue();
    }
}
