package org.beefyield.stats;

import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

/** The charts of one product: a point for each run after the baseline, and the alarms. */
public final class ControlChart {
    private final double[] values;
    private final double[] variances;
    private final List<Integer> learnt;
    private final List<Point> points;
    private final List<Alarm> alarms;

    ControlChart(double[] values, double[] variances, List<Integer> learnt, List<Point> points, List<Alarm> alarms) {
        this.values = values.clone();
        this.variances = variances.clone();
        this.learnt = Collections.unmodifiableList(learnt);
        this.points = Collections.unmodifiableList(points);
        this.alarms = Collections.unmodifiableList(alarms);
    }

    /**
     * A run after the baseline.
     *
     * @param run its number among all runs of the product, from 0
     * @param score how far its value lies off what the runs before let expect, standard normal if nothing has changed
     * @param high sum of what scores were above half an SD, 0 or more; behind an alarm it begins at 0 again
     * @param low sum of what scores were below minus half an SD, 0 or more; behind an alarm it begins at 0 again
     */
    public record Point(int run, double score, double high, double low) {}

    /** What has raised an alarm. */
    public enum Kind {
        /** One score beyond the single limit. */
        SINGLE,
        /** The cumulative sum. */
        SUM
    }

    /**
     * Runs in which a product lay off what was to be expected.
     *
     * @param kind what raised the alarm first; of a single score at the end of a slow shift it is the sum
     * @param high whether the values were too high, else too low
     * @param since number of the first run that is in it
     * @param noticed number of the run in which it was raised first, not before the first
     * @param until number of the last run that is in it, not before that
     */
    public record Alarm(Kind kind, boolean high, int since, int noticed, int until) {
        /** Checks the order. */
        public Alarm {
            Objects.requireNonNull(kind, "kind");
            if (since < 0 || noticed < since || until < noticed) {
                throw new IllegalArgumentException("an alarm since run " + since + " isn't noticed in run " + noticed
                        + " and there until run " + until);
            }
        }
    }

    /**
     * Runs after the baseline.
     *
     * @return in their order
     */
    public List<Point> points() {
        return points;
    }

    /**
     * Alarms.
     *
     * @return in their order; one that goes on from run to run is one
     */
    public List<Alarm> alarms() {
        return alarms;
    }

    /**
     * Runs that are in no alarm, those of the baseline too.
     *
     * @return their numbers, ascending
     */
    public List<Integer> learntRuns() {
        return learnt;
    }

    /**
     * What all runs that are in no alarm tell of the mean and of the SD from run to run.
     *
     * @return nothing of fewer than two runs
     */
    public Optional<RandomEffects> learnt() {
        return effects(learnt);
    }

    /**
     * The same without a run, to hold that against all others.
     *
     * @param run number of a run, one that is in an alarm too
     * @return nothing of fewer than two other runs
     */
    public Optional<RandomEffects> learntWithout(int run) {
        return effects(learnt.stream().filter(other -> other != run).toList());
    }

    private Optional<RandomEffects> effects(List<Integer> runs) {
        return runs.size() < 2
                ? Optional.empty()
                : Optional.of(RandomEffects.of(pick(values, runs), pick(variances, runs)));
    }

    /**
     * How far the runs of an alarm lie off the mean of the runs that are in none: their mean, each weighed by the inverse of its
     * known variance and that from run to run.
     *
     * @param alarm one of the {@link #alarms()}
     * @return above 0 if they are high, in the unit of the values
     * @throws IllegalArgumentException if it is an alarm of another chart
     */
    public double difference(Alarm alarm) {
        Objects.requireNonNull(alarm, "alarm");
        if (!alarms.contains(alarm)) {
            throw new IllegalArgumentException("the chart has no such alarm: " + alarm);
        }
        RandomEffects effects = learnt().orElseThrow();
        double weight = 0;
        double sum = 0;
        for (int run = alarm.since(); run <= alarm.until(); run++) {
            double w = 1 / (variances[run] + effects.variance());
            weight += w;
            sum += w * values[run];
        }
        return sum / weight - effects.mean();
    }

    /** Some of all values. */
    static double[] pick(double[] values, List<Integer> indexes) {
        return indexes.stream().mapToDouble(index -> values[index]).toArray();
    }
}
