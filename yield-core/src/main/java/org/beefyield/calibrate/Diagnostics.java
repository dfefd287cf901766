package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.TDistribution;
import org.beefyield.boning.Trial;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.carcass.Category;
import org.beefyield.stats.GroupedRegression;
import org.beefyield.stats.Regression;

/** What looks wrong in a fit; {@link FindingText} says it. */
final class Diagnostics {
    /** Chance that a breakdown without a fault gets a finding of one sort. */
    private static final double CHANCE = 0.05;

    private static final int LISTED = 10;

    /** Rows beyond the number of terms below which a fit is reported as resting on few. */
    private static final int FEW = 5;

    /** Carcasses of a category from which on it is tested. */
    private static final int TESTED = 5;

    /** Of two columns that look swapped, what swapping them leaves of their distance from what is expected. */
    private static final double SWAP_LEAVES = 0.25;

    private final BreakdownModel model;
    private final BreakdownFit fit;
    private final GroupedRegression regression;
    private final int parts;
    private final double[][] within;
    private final double[][] between;
    private final List<Finding> findings = new ArrayList<>();

    private Diagnostics(Candidates candidates) {
        this.model = candidates.model;
        this.fit = candidates.bestFit();
        this.regression = fit.regression;
        this.parts = model.prior.weighed.parts().size();
        this.within = regression.within();
        this.between = regression.between();
    }

    static List<Finding> of(Candidates candidates) {
        Diagnostics diagnostics = new Diagnostics(candidates);
        diagnostics.groups();
        diagnostics.few();
        diagnostics.runs();
        diagnostics.findings.addAll(new ColumnFaults(
                        diagnostics.model, diagnostics.regression, diagnostics.limit(1, Double.POSITIVE_INFINITY))
                .found());
        diagnostics.categories();
        diagnostics.days();
        diagnostics.outliers();
        diagnostics.leverage();
        return diagnostics.findings;
    }

    private void found(Finding.Kind kind, String message) {
        findings.add(new Finding(kind, BreakdownFit.name(model), message));
    }

    private void groups() {
        for (WeighedBreakdown.Part part : model.prior.weighed.parts()) {
            if (part.members().size() > 1) {
                found(Finding.Kind.GROUP, FindingText.group(part.name()));
            }
        }
    }

    private void few() {
        int terms = fit.terms().size();
        if (model.isFree && model.rows.size() < terms + FEW) {
            found(Finding.Kind.FEW_ROWS, FindingText.fewRows(model.rows.size(), terms));
        }
        long dayless = model.withoutDay();
        if (dayless > 0) {
            found(Finding.Kind.BLANK, FindingText.withoutDay(dayless, model.rows.size()));
        }
        if (!model.knowsDays()) {
            found(Finding.Kind.RUNS, FindingText.fewDays(model.days, model.statesRuns()));
        }
    }

    private void runs() {
        if (model.doubtsRuns()) {
            List<FindingText.Runs> off = fit.cuts().stream()
                    .map(cut -> new FindingText.Runs(cut, fit.runSd(cut), fit.priorRunSd(cut)))
                    .toList();
            found(Finding.Kind.RUNS, FindingText.runs(off));
        }
    }

    /** Student's t beyond which none of some tests on all parts goes but by the chance of all together. */
    private double limit(int tests, double degrees) {
        double tail = CHANCE / (2.0 * tests * parts);
        return degrees > 1 && degrees < 1e6
                ? new TDistribution(null, degrees).inverseCumulativeProbability(1 - tail)
                : new NormalDistribution(null, 0, 1).inverseCumulativeProbability(1 - tail);
    }

    /** A pair whose values lie where the other's is expected. */
    private static boolean looksSwapped(double a, double b, double expectedA, double expectedB) {
        double apart = Math.abs(a - expectedA) + Math.abs(b - expectedB);
        return Math.abs(a - expectedB) + Math.abs(b - expectedA) < SWAP_LEAVES * apart;
    }

    private void categories() {
        List<Category> weighed = model.categoriesWeighed();
        if (weighed.size() < 2) {
            return;
        }
        double limit = limit(weighed.size(), fit.degreesOfFreedom());
        // of two that differ from each other, the smaller one is the odd one
        List<Category> tested = weighed.stream()
                .filter(category -> model.count(category) >= TESTED && 2 * model.count(category) <= model.rows.size())
                .toList();
        for (Category category : tested) {
            Rung rung = new Rung("", fit.rung.columns(), false, fit.rung.bend());
            Optional<GroupedRegression> with = model.with(rung, model.freeLevel(category), regression);
            if (with.isEmpty()) {
                continue;
            }
            double[] moved = with.orElseThrow().unknowns();
            double[][] covariance = with.orElseThrow().covariance();
            int first = moved.length - (parts - 1);
            List<FindingText.Off> off = new ArrayList<>();
            double ofLast = 0;
            double varianceOfLast = 0;
            for (int k = 0; k < parts; k++) {
                double mean = k < parts - 1 ? moved[first + k] : ofLast;
                double variance = k < parts - 1 ? covariance[first + k][first + k] : varianceOfLast;
                if (k < parts - 1) {
                    ofLast -= mean;
                    for (int l = 0; l < parts - 1; l++) {
                        varianceOfLast += covariance[first + k][first + l];
                    }
                }
                double t = variance > 0 ? mean / Math.sqrt(variance) : 0;
                if (Math.abs(t) > limit) {
                    off.add(new FindingText.Off(k, model.part(k), mean, t));
                }
            }
            off.sort(Comparator.comparingDouble(one -> -Math.abs(one.t())));
            if (!off.isEmpty()) {
                found(
                        Finding.Kind.CATEGORY,
                        FindingText.category(category.letter(), model.count(category), off, limit, fit.rung.own()));
            }
        }
    }

    /** Days whose mean lies beyond what days differ by; a day's own effect doesn't count in what it is held against. */
    private void days() {
        int days = model.days.size();
        if (days < 2) {
            return;
        }
        List<List<Integer>> byDay = new ArrayList<>();
        for (int day = 0; day < days; day++) {
            byDay.add(new ArrayList<>());
        }
        for (int i = 0; i < model.rows.size(); i++) {
            byDay.get(model.dayOf(i)).add(i);
        }
        double counted = model.days.size() - 1 + model.priorDegreesOfRuns();
        double degrees = Math.min(fit.degreesOfFreedom(), counted) - 1;
        if (!(degrees > 1)) {
            return;
        }
        double limit = limit(days, degrees);
        for (int day = 0; day < days; day++) {
            int[] rows = byDay.get(day).stream().mapToInt(i -> i).toArray();
            if (rows.length < 2 || model.days.get(day).isEmpty()) {
                continue;
            }
            List<FindingText.Off> off = new ArrayList<>();
            for (int k = 0; k < parts; k++) {
                double sum = 0;
                double weight = 0;
                for (int i : rows) {
                    double left = fit.residual(k, i);
                    if (!Double.isNaN(left)) {
                        sum += model.weight(i) * left;
                        weight += model.weight(i);
                    }
                }
                if (weight == 0) {
                    continue;
                }
                double mean = sum / weight;
                double ofCarcasses = within[k][k] / weight;
                double ofDay = between[k][k];
                if (ofDay > 0 && model.knowsDays()) {
                    // its own square counts in the variance of days: without it
                    double own = mean * mean - ofCarcasses;
                    ofDay = Math.max(
                            ofDay / counted,
                            (counted * ofDay - Math.max(0, Math.min(own, (counted - 1) * ofDay))) / (counted - 1));
                }
                // the mean of all is fitted: a day is nearer to it than to the truth
                double t = mean / Math.sqrt(ofDay + ofCarcasses);
                if (Math.abs(t) > limit) {
                    off.add(new FindingText.Off(k, model.part(k), mean, t));
                }
            }
            off.sort(Comparator.comparingDouble(one -> -Math.abs(one.t())));
            if (!off.isEmpty()) {
                found(
                        Finding.Kind.DAY,
                        FindingText.day(model.days.get(day), rows.length, off, limit)
                                + lossBesides(off)
                                + swap(rows, off));
            }
        }
    }

    private void outliers() {
        double degrees = fit.degreesOfFreedom();
        if (!(degrees > 2)) {
            return;
        }
        int n = model.rows.size();
        double limit = limit(n, degrees - 1);
        Map<Integer, List<FindingText.Off>> byRow = new LinkedHashMap<>();
        for (int i = 0; i < n; i++) {
            double[] errors = regression.error(i);
            List<FindingText.Off> off = new ArrayList<>(0);
            for (int k = 0; k < parts; k++) {
                double square = model.weight(i) * errors[k] * errors[k];
                double rest = (degrees * within[k][k] - square) / (degrees - 1);
                double t = Double.isNaN(square) ? 0 : Math.sqrt(square / Math.max(rest, within[k][k] / degrees));
                if (t > limit && within[k][k] > 0) {
                    off.add(new FindingText.Off(k, model.part(k), errors[k], Math.copySign(t, errors[k])));
                }
            }
            if (!off.isEmpty()) {
                off.sort(Comparator.comparingDouble(one -> -Math.abs(one.t())));
                byRow.put(i, off);
            }
        }
        byRow.entrySet().stream()
                .sorted(Comparator.comparingDouble((Map.Entry<Integer, List<FindingText.Off>> entry) ->
                                -Math.abs(entry.getValue().get(0).t()))
                        .thenComparing(entry -> trial(entry.getKey()).id()))
                .limit(LISTED)
                .forEach(entry -> found(
                        Finding.Kind.OUTLIER,
                        FindingText.outlier(trial(entry.getKey()).id(), entry.getValue(), limit)
                                + swap(new int[] {entry.getKey()}, entry.getValue())));
        if (byRow.size() > LISTED) {
            found(Finding.Kind.OUTLIER, FindingText.moreOutliers(byRow.size() - LISTED));
        }
    }

    private Trial trial(int row) {
        return model.rows.get(row).trial();
    }

    /** A loss that was not weighed is what is missing. */
    private String lossBesides(List<FindingText.Off> off) {
        int loss = model.prior.weighed.lossPart().orElse(-1);
        return off.stream()
                .filter(one -> one.part() == loss)
                .map(one -> FindingText.loss(one.mean()))
                .findFirst()
                .orElse("");
    }

    /** A part that is off and another, where each lies at the other's place. */
    private String swap(int[] rows, List<FindingText.Off> off) {
        double[] mean = new double[parts];
        double[] left = new double[parts];
        for (int k = 0; k < parts; k++) {
            for (int row : rows) {
                mean[k] += model.shares(row)[k] / rows.length;
                left[k] += fit.residual(k, row) / rows.length;
            }
        }
        for (FindingText.Off one : off) {
            int a = one.part();
            for (int b = 0; b < parts; b++) {
                if (b != a && looksSwapped(mean[a], mean[b], mean[a] - left[a], mean[b] - left[b])) {
                    return FindingText.asIfSwapped(model.part(Math.min(a, b)), model.part(Math.max(a, b)));
                }
            }
        }
        return "";
    }

    /** Carcasses far from the others in the plain terms that were fitted. */
    private void leverage() {
        int n = model.rows.size();
        List<Integer> columns = fit.rung.columns();
        double[][] x = new double[columns.size()][n];
        double[] weights = new double[n];
        for (int i = 0; i < n; i++) {
            weights[i] = model.weight(i);
            for (int j = 0; j < x.length; j++) {
                x[j][i] = model.terms(i, columns.get(j));
            }
        }
        Regression plain = new Regression(
                x, new double[1][n], new double[0][], weights, new double[x.length][1], new double[0][], 0);
        if (!plain.isDetermined()) {
            return;
        }
        double limit = 3.0 * x.length / n;
        List<Integer> far = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            if (plain.leverage(i) > limit) {
                far.add(i);
            }
        }
        far.sort(Comparator.comparingDouble((Integer i) -> -plain.leverage(i)).thenComparing(i -> trial(i).id()));
        if (!far.isEmpty()) {
            List<FindingText.Leverage> listed = far.stream()
                    .limit(LISTED)
                    .map(i -> new FindingText.Leverage(trial(i).id(), plain.leverage(i)))
                    .toList();
            found(Finding.Kind.LEVERAGE, FindingText.leverage(far.size(), limit, listed));
        }
    }
}
