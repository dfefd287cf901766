package org.beefyield.stats;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.solvers.BrentSolver;

/**
 * Control charts of several products, run by run, with limits such that the whole board raises a false alarm once in so many
 * runs, and not more often.
 *
 * <p>Each value becomes a standard normal score: how far it lies off what the values before it let expect, where neither their
 * mean nor the SD from run to run is taken for known, and each run has a known variance of its own. Runs of the baseline have no
 * score. Two charts watch the scores of a product: a single score beyond a limit finds a large fault of one run; the
 * cumulative sum finds a small one that stays. The sum's reference is half an SD, so that it is best for a shift of one SD. Half
 * of the false alarms, and at most, are those of the single limit. A score beyond its limit is an alarm of its own run, unless
 * the runs before it had brought the sum half way to its limit: then the alarm began where that sum did.
 *
 * <p>The more runs there are, the better the mean and the SD are known: every run that is in no alarm is learnt from, also
 * after the baseline. A shift that is not noticed soon is learnt in the end, and so is a fault within the baseline, for none of
 * its runs is judged; one that is noticed never is: where a change is to stay, begin anew with its first run. So a short baseline
 * costs delay, not false alarms. Behind an alarm both sums begin at 0 again.
 *
 * <p>The rate is that of runs which differ independently of one another. Where the team, a knife's setting or a lot makes
 * neighbouring runs alike, sums raise more false alarms.
 * Where runs differ by little more than their known variances say, false alarms are fewer than stated.
 */
public final class ControlBoard {
    /** Half of the shift that the cumulative sum is best for, in SDs. */
    private static final double REFERENCE = 0.5;

    /** Of the limit of the sum. */
    private static final double PRECISION = 1e-9;

    private static final int MOST_STEPS = 100;

    private final int products;
    private final int baseline;
    private final double runsPerFalseAlarm;
    private final double singleLimit;
    private final double sumLimit;
    private final GaussIntegrator rule = Predictor.rule();

    private ControlBoard(int products, int baseline, double runsPerFalseAlarm) {
        this.products = products;
        this.baseline = baseline;
        this.runsPerFalseAlarm = runsPerFalseAlarm;
        double ofProduct = products * runsPerFalseAlarm;
        this.singleLimit = Normal.exceeded(1 / (4 * ofProduct));
        // the logarithm of the mean is nearly a straight line
        UnivariateFunction missing =
                limit -> Math.log(new RunLength(REFERENCE, limit, singleLimit, 0).mean(0) / (2 * ofProduct));
        double high = 1;
        while (missing.value(high) < 0) {
            high *= 2;
        }
        this.sumLimit = new BrentSolver(PRECISION).solve(MOST_STEPS, missing, high / 2, high);
    }

    /**
     * Sets limits.
     *
     * @param products number of products that are watched together, 1 or more
     * @param baseline runs of each product that are learnt from before the first can be in an alarm, 3 or more; 20 are good
     * @param runsPerFalseAlarm runs of the whole board in which one false alarm is expected if nothing ever changes, 10 or more
     * @return the board
     * @throws IllegalArgumentException if a number is less than that
     */
    public static ControlBoard of(int products, int baseline, double runsPerFalseAlarm) {
        if (products < 1) {
            throw new IllegalArgumentException(products + " products are none to watch; 1 or more are");
        }
        if (baseline < 3) {
            throw new IllegalArgumentException("a baseline of " + baseline + " runs is too short; 3 is the least");
        }
        if (!(runsPerFalseAlarm >= 10 && runsPerFalseAlarm < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(
                    "a false alarm in " + runsPerFalseAlarm + " runs is no rate to work with; 10 runs are the least");
        }
        return new ControlBoard(products, baseline, runsPerFalseAlarm);
    }

    /**
     * Number of products that are watched together.
     *
     * @return 1 or more
     */
    public int products() {
        return products;
    }

    /**
     * Runs of each product that are learnt from before the first can be in an alarm.
     *
     * @return 3 or more
     */
    public int baseline() {
        return baseline;
    }

    /**
     * Runs of the whole board in which one false alarm is expected.
     *
     * @return 10 or more
     */
    public double runsPerFalseAlarm() {
        return runsPerFalseAlarm;
    }

    /**
     * The single score that is an alarm, on either side.
     *
     * @return in SDs
     */
    public double singleLimit() {
        return singleLimit;
    }

    /**
     * The cumulative sum that is an alarm, on either side.
     *
     * @return in SDs
     */
    public double sumLimit() {
        return sumLimit;
    }

    /**
     * Chance that the whole board raises any false alarm within so many runs after the baseline, for products that vary apart
     * from one another.
     *
     * @param runs number of runs, 0 or more
     * @return 0 to 1
     */
    public double chanceOfFalseAlarm(int runs) {
        double none = new RunLength(REFERENCE, sumLimit, singleLimit, 0).chanceOfNone(runs);
        return 1 - Math.pow(none, 2.0 * products);
    }

    /**
     * The charts of one product.
     *
     * @param values its value in each run, in the order in which they were made, such as weighed less expected in g per kg
     * @param variances the known variance of each within its run, above 0, in the unit of the values squared
     * @return the charts
     * @throws IllegalArgumentException if there are not as many variances as values, or one isn't a finite number, or a variance
     *     isn't above 0
     */
    public ControlChart chart(double[] values, double[] variances) {
        Given.valuesAndVariances(values, variances, 0);
        List<Integer> learnt = new ArrayList<>();
        List<ControlChart.Point> points = new ArrayList<>();
        List<ControlChart.Alarm> alarms = new ArrayList<>();
        Cusum sums = new Cusum(REFERENCE);
        for (int run = 0; run < values.length; run++) {
            if (run >= baseline) {
                double score = new Predictor(
                                rule, ControlChart.pick(values, learnt), ControlChart.pick(variances, learnt))
                        .score(values[run], variances[run]);
                double before = score > 0 ? sums.high() : sums.low();
                sums.add(score);
                points.add(new ControlChart.Point(run, score, sums.high(), sums.low()));
                boolean ofOne = Math.abs(score) > singleLimit;
                // a sum that this one score makes is no sign of the runs before it
                boolean ofSum = Math.max(sums.high(), sums.low()) >= sumLimit && !(ofOne && before < sumLimit / 2);
                if (ofSum || ofOne) {
                    int since = ofSum ? run + 1 - sums.length() : run;
                    boolean high = ofSum ? sums.high() > sums.low() : score > 0;
                    learnt.removeIf(index -> index >= since);
                    note(
                            alarms,
                            new ControlChart.Alarm(
                                    ofSum ? ControlChart.Kind.SUM : ControlChart.Kind.SINGLE, high, since, run, run));
                    sums.restart();
                    continue;
                }
            }
            learnt.add(run);
        }
        return new ControlChart(values, variances, learnt, points, alarms);
    }

    /** An alarm that begins where one on the same side has ended goes on with it. */
    private static void note(List<ControlChart.Alarm> alarms, ControlChart.Alarm alarm) {
        if (!alarms.isEmpty()) {
            ControlChart.Alarm last = alarms.get(alarms.size() - 1);
            if (last.high() == alarm.high() && last.until() + 1 == alarm.since()) {
                alarms.set(
                        alarms.size() - 1,
                        new ControlChart.Alarm(last.kind(), last.high(), last.since(), last.noticed(), alarm.until()));
                return;
            }
        }
        alarms.add(alarm);
    }

    /**
     * One line.
     *
     * @return products, limits and rate
     */
    @Override
    public String toString() {
        return products + " products, single limit " + singleLimit + ", limit of the sum " + sumLimit
                + ", one false alarm in " + runsPerFalseAlarm + " runs after a baseline of " + baseline;
    }
}
