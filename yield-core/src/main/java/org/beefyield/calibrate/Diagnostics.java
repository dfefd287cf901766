package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.distribution.TDistribution;
import org.beefyield.text.Rounding;

/** What looks wrong in a fit. */
final class Diagnostics {
    /** Chance that a breakdown without a fault gets a finding of one sort. */
    private static final double CHANCE = 0.05;

    private static final int LISTED = 10;
    private static final int CUTS_LISTED = 3;

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
        return fit.breakdown.parts.get(k).name();
    }

    private static String grams(double value) {
        return Rounding.fixed(value, 1);
    }

    private static String signed(double value) {
        return (value < 0 ? "-" : "+") + grams(Math.abs(value));
    }

    /** Student's t beyond which none of some tests on all parts goes but by the chance of all together. */
    private double limit(int tests) {
        double tail = CHANCE / (2.0 * tests * regression.responses());
        return new TDistribution(null, regression.degreesOfFreedom - 1).inverseCumulativeProbability(1 - tail);
    }

    private boolean canTest() {
        return regression.degreesOfFreedom > 2;
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
                mean[k] += regression.y[k][i] / n;
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
                            "the columns " + part(a) + " and " + part(b) + " look swapped: they average "
                                    + grams(mean[a]) + " and " + grams(mean[b])
                                    + " g/kg where the prior table expects " + grams(expected[a]) + " and "
                                    + grams(expected[b]));
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
            List<Off> off = off(rows, limit);
            if (!off.isEmpty()) {
                found(
                        Finding.Kind.DAY,
                        "day " + day.getKey() + " is off: its " + rows.length + " carcasses average "
                                + words(off)
                                + " against the fit (t beyond " + Rounding.fixed(limit, 1)
                                + "); look at that day's scale, cutting and trimming" + balance(off) + swap(rows, off));
            }
        });
    }

    private void outliers() {
        if (!canTest()) {
            return;
        }
        int n = fit.trials.size();
        double limit = limit(n);
        Map<Integer, List<Off>> byRow = new LinkedHashMap<>();
        for (int i = 0; i < n; i++) {
            List<Off> off = off(new int[] {i}, limit);
            if (!off.isEmpty()) {
                byRow.put(i, off);
            }
        }
        byRow.entrySet().stream()
                .sorted(Comparator.comparingDouble((Map.Entry<Integer, List<Off>> entry) ->
                                -Math.abs(entry.getValue().get(0).t()))
                        .thenComparing(entry -> fit.trials.get(entry.getKey()).id()))
                .limit(LISTED)
                .forEach(entry -> found(
                        Finding.Kind.OUTLIER,
                        "carcass " + fit.trials.get(entry.getKey()).id() + " is beyond chance: "
                                + words(entry.getValue()) + " against the fit (t beyond "
                                + Rounding.fixed(limit, 1) + ")"
                                + swap(new int[] {entry.getKey()}, entry.getValue())));
        if (byRow.size() > LISTED) {
            found(Finding.Kind.OUTLIER, (byRow.size() - LISTED) + " more carcasses are beyond chance");
        }
    }

    /** A part that is off on some rows. */
    private record Off(int part, double mean, double t) {}

    /** Parts beyond a limit, the worst first. */
    private List<Off> off(int[] rows, double limit) {
        List<Off> off = new ArrayList<>();
        for (int k = 0; k < regression.responses(); k++) {
            Regression.Shift shift = regression.shift(rows, k);
            if (Math.abs(shift.t()) > limit) {
                off.add(new Off(k, shift.mean(), shift.t()));
            }
        }
        off.sort(Comparator.comparingDouble(one -> -Math.abs(one.t())));
        return off;
    }

    private String words(List<Off> off) {
        List<String> words = new ArrayList<>();
        for (Off one : off.subList(0, Math.min(CUTS_LISTED, off.size()))) {
            words.add(part(one.part()) + " " + signed(one.mean()) + " g/kg (t = " + grams(one.t()) + ")");
        }
        return String.join(", ", words)
                + (off.size() > CUTS_LISTED ? " and " + (off.size() - CUTS_LISTED) + " more cuts" : "");
    }

    /** A loss that was not weighed is what is missing. */
    private String balance(List<Off> off) {
        return off.stream()
                .filter(one -> one.part() == fit.breakdown.lossPart())
                .map(one -> one.mean() > 0
                        ? "; more is missing than on other days, as if a scale read too little"
                        : "; less is missing than on other days, as if a scale read too much")
                .findFirst()
                .orElse("");
    }

    /** Two of the parts that are off, where each lies at the other's place. */
    private String swap(int[] rows, List<Off> off) {
        for (int i = 0; i < off.size(); i++) {
            for (int j = i + 1; j < off.size(); j++) {
                int a = off.get(i).part();
                int b = off.get(j).part();
                double meanA = 0;
                double meanB = 0;
                for (int row : rows) {
                    meanA += regression.y[a][row] / rows.length;
                    meanB += regression.y[b][row] / rows.length;
                }
                if (looksSwapped(
                        meanA,
                        meanB,
                        meanA - off.get(i).mean(),
                        meanB - off.get(j).mean())) {
                    return "; as if " + part(Math.min(a, b)) + " and " + part(Math.max(a, b)) + " had been swapped";
                }
            }
        }
        return "";
    }

    private void leverage() {
        double limit = 3.0 * regression.terms() / regression.rows();
        List<Integer> far = new ArrayList<>();
        for (int i = 0; i < regression.leverage.length; i++) {
            if (regression.leverage[i] > limit) {
                far.add(i);
            }
        }
        far.sort(Comparator.comparingDouble((Integer i) -> -regression.leverage[i])
                .thenComparing(i -> fit.trials.get(i).id()));
        if (!far.isEmpty()) {
            List<String> ids = new ArrayList<>();
            for (int i : far.subList(0, Math.min(LISTED, far.size()))) {
                ids.add(fit.trials.get(i).id() + " (" + Rounding.fixed(regression.leverage[i], 2) + ")");
            }
            found(
                    Finding.Kind.LEVERAGE,
                    far.size() + (far.size() == 1 ? " carcass weighs" : " carcasses weigh")
                            + " more than three times the average in the fit (leverage above "
                            + Rounding.fixed(limit, 2) + "): " + String.join(", ", ids)
                            + (far.size() > LISTED ? " and " + (far.size() - LISTED) + " more" : "")
                            + "; check their grades and weights first");
        }
    }
}
