package org.beefyield.benchmarks.calibrate;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.benchmarks.control.Finding;
import org.beefyield.estimate.Interval;

/** What was counted in one hall: by figure a sum and how many it is of. Those of one hall aren't independent of one another. */
final class Tally {
    /** Begins the names of figures that are roots of means of squares. */
    static final String ROOT = "RMSE ";

    /** Begins the names of figures that are parts of intervals. */
    static final String HELD = "held ";

    private final Map<String, double[]> sums = new LinkedHashMap<>();

    void add(String figure, double value) {
        double[] sum = sums.computeIfAbsent(figure, any -> new double[2]);
        sum[0] += value;
        sum[1]++;
    }

    void add(String figure, boolean holds) {
        add(figure, holds ? 1 : 0);
    }

    /** Means over halls, each with the standard error of a mean of halls that count as often as they have something to count. */
    static List<Finding> findings(List<Tally> halls, Finding.Drawn drawn) {
        Map<String, List<double[]>> byFigure = new LinkedHashMap<>();
        halls.forEach(hall -> hall.sums.forEach((figure, sum) ->
                byFigure.computeIfAbsent(figure, any -> new ArrayList<>()).add(sum)));
        List<Finding> findings = new ArrayList<>();
        byFigure.forEach((figure, all) -> {
            double sum = all.stream().mapToDouble(one -> one[0]).sum();
            double count = all.stream().mapToDouble(one -> one[1]).sum();
            double mean = sum / count;
            double squares = all.stream()
                    .mapToDouble(one -> Math.pow(one[0] - mean * one[1], 2))
                    .sum();
            double error = Math.sqrt(squares) / count;
            boolean isRoot = figure.startsWith(ROOT);
            double root = Math.sqrt(mean);
            findings.add(new Finding(
                    drawn.situation(),
                    drawn.runs(),
                    figure,
                    isRoot ? root : mean,
                    isRoot ? (root > 0 ? error / (2 * root) : 0) : error,
                    figure.startsWith(HELD) ? Interval.SHOWN_PROBABILITY : Double.NaN,
                    all.size(),
                    drawn.seed()));
        });
        return findings;
    }
}
