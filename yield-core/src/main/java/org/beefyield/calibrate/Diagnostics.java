package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.distribution.TDistribution;
import org.beefyield.stats.Regression;

/** What looks wrong in a fit; {@link FindingText} says it. */
final class Diagnostics {
    /** Chance that a breakdown without a fault gets a finding of one sort. */
    private static final double CHANCE = 0.05;

    private static final int LISTED = 10;

    /** Of two columns that look swapped, what swapping them leaves of their distance from what is expected. */
    private static final double SWAP_LEAVES = 0.25;

    /** Distance from the prior table, in SDs between carcasses, from which the mean of a column looks wrong. */
    private static final double FAR = 2;

    private final BreakdownFit fit;
    private final Regression regression;
    private final List<Finding> findings = new ArrayList<>();

    private Diagnostics(BreakdownFit fit) {
        this.fit = fit;
        this.regression = fit.regression;
    }

    static List<Finding> of(BreakdownFit fit) {
        Diagnostics diagnostics = new Diagnostics(fit);
        diagnostics.swappedThroughout();
        diagnostics.days();
        diagnostics.outliers();
        diagnostics.leverage();
        return diagnostics.findings;
    }

    private void found(Finding.Kind kind, String message) {
        findings.add(new Finding(kind, fit.name(), message));
    }

    private String part(int k) {
        return fit.breakdown.parts().get(k).name();
    }

    /** Student's t beyond which none of some tests on all parts goes but by the chance of all together. */
    private double limit(int tests) {
        double tail = CHANCE / (2.0 * tests * regression.responses());
        return new TDistribution(null, regression.degreesOfFreedom() - 1).inverseCumulativeProbability(1 - tail);
    }

    private boolean canTest() {
        return regression.degreesOfFreedom() > 2;
    }

    /** A pair whose values lie where the other's is expected. */
    private static boolean looksSwapped(double a, double b, double expectedA, double expectedB) {
        double apart = Math.abs(a - expectedA) + Math.abs(b - expectedB);
        return Math.abs(a - expectedB) + Math.abs(b - expectedA) < SWAP_LEAVES * apart;
    }

    private void swappedThroughout() {
        int parts = regression.responses();
        double[] mean = new double[parts];
        double[] expected = new double[parts];
        int n = regression.rows();
        for (int i = 0; i < n; i++) {
            double[] prior = regression.expectedByPrior(i);
            for (int k = 0; k < parts; k++) {
                mean[k] += regression.response(k, i) / n;
                expected[k] += prior[k] / n;
            }
        }
        for (int a = 0; a < parts; a++) {
            for (int b = a + 1; b < parts; b++) {
                if (Math.abs(mean[a] - expected[a]) > FAR * regression.sd(a)
                        && Math.abs(mean[b] - expected[b]) > FAR * regression.sd(b)
                        && looksSwapped(mean[a], mean[b], expected[a], expected[b])) {
                    found(
                            Finding.Kind.SWAPPED,
                            FindingText.swapped(part(a), part(b), mean[a], mean[b], expected[a], expected[b]));
                }
            }
        }
    }

    private void days() {
        Map<String, List<Integer>> byDay = new LinkedHashMap<>();
        for (int i = 0; i < fit.trials.size(); i++) {
            byDay.computeIfAbsent(fit.trials.get(i).day(), day -> new ArrayList<>())
                    .add(i);
        }
        byDay.remove("");
        byDay.values().removeIf(rows -> rows.size() < 2);
        if (byDay.isEmpty() || !canTest()) {
            return;
        }
        double limit = limit(byDay.size());
        byDay.entrySet().stream().sorted(Map.Entry.comparingByKey()).forEach(day -> {
            int[] rows = day.getValue().stream().mapToInt(Integer::intValue).toArray();
            List<FindingText.Off> off = off(rows, limit);
            if (!off.isEmpty()) {
                found(
                        Finding.Kind.DAY,
                        FindingText.day(day.getKey(), rows.length, off, limit) + lossBesides(off) + swap(rows, off));
            }
        });
    }

    private void outliers() {
        if (!canTest()) {
            return;
        }
        int n = fit.trials.size();
        double limit = limit(n);
        Map<Integer, List<FindingText.Off>> byRow = new LinkedHashMap<>();
        for (int i = 0; i < n; i++) {
            List<FindingText.Off> off = off(new int[] {i}, limit);
            if (!off.isEmpty()) {
                byRow.put(i, off);
            }
        }
        byRow.entrySet().stream()
                .sorted(Comparator.comparingDouble((Map.Entry<Integer, List<FindingText.Off>> entry) ->
                                -Math.abs(entry.getValue().get(0).t()))
                        .thenComparing(entry -> fit.trials.get(entry.getKey()).id()))
                .limit(LISTED)
                .forEach(entry -> found(
                        Finding.Kind.OUTLIER,
                        FindingText.outlier(fit.trials.get(entry.getKey()).id(), entry.getValue(), limit)
                                + swap(new int[] {entry.getKey()}, entry.getValue())));
        if (byRow.size() > LISTED) {
            found(Finding.Kind.OUTLIER, FindingText.moreOutliers(byRow.size() - LISTED));
        }
    }

    /** Parts beyond a limit, the worst first. */
    private List<FindingText.Off> off(int[] rows, double limit) {
        List<FindingText.Off> off = new ArrayList<>();
        for (int k = 0; k < regression.responses(); k++) {
            Regression.Shift shift = regression.shift(rows, k);
            if (Math.abs(shift.t()) > limit) {
                off.add(new FindingText.Off(k, part(k), shift.mean(), shift.t()));
            }
        }
        off.sort(Comparator.comparingDouble(one -> -Math.abs(one.t())));
        return off;
    }

    /** A loss that was not weighed is what is missing. */
    private String lossBesides(List<FindingText.Off> off) {
        int loss = fit.breakdown.lossPart().orElse(-1);
        return off.stream()
                .filter(one -> one.part() == loss)
                .map(one -> FindingText.loss(one.mean()))
                .findFirst()
                .orElse("");
    }

    /** Two of the parts that are off, where each lies at the other's place. */
    private String swap(int[] rows, List<FindingText.Off> off) {
        for (int i = 0; i < off.size(); i++) {
            for (int j = i + 1; j < off.size(); j++) {
                int a = off.get(i).part();
                int b = off.get(j).part();
                double meanA = 0;
                double meanB = 0;
                for (int row : rows) {
                    meanA += regression.response(a, row) / rows.length;
                    meanB += regression.response(b, row) / rows.length;
                }
                if (looksSwapped(
                        meanA,
                        meanB,
                        meanA - off.get(i).mean(),
                        meanB - off.get(j).mean())) {
                    return FindingText.asIfSwapped(part(Math.min(a, b)), part(Math.max(a, b)));
                }
            }
        }
        return "";
    }

    private void leverage() {
        double limit = 3.0 * regression.terms() / regression.rows();
        List<Integer> far = new ArrayList<>();
        for (int i = 0; i < regression.rows(); i++) {
            if (regression.leverage(i) > limit) {
                far.add(i);
            }
        }
        far.sort(Comparator.comparingDouble((Integer i) -> -regression.leverage(i))
                .thenComparing(i -> fit.trials.get(i).id()));
        if (!far.isEmpty()) {
            List<FindingText.Leverage> listed = far.stream()
                    .limit(LISTED)
                    .map(i -> new FindingText.Leverage(fit.trials.get(i).id(), regression.leverage(i)))
                    .toList();
            found(Finding.Kind.LEVERAGE, FindingText.leverage(far.size(), limit, listed));
        }
    }
}
