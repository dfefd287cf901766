package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.beefyield.stats.GroupedRegression;
import org.beefyield.stats.Sample;
import org.beefyield.table.definition.SharedBy;
import org.jspecify.annotations.Nullable;

/** The steps of the ladder that a breakdown can be fitted on, and which of them errs least on days that it wasn't fitted to. */
final class Candidates {
    /** Chance that days that differ as the prior table states don't look as if they contradicted it. */
    private static final double SURE = 0.99;

    /** Standard errors beyond which a difference is no chance. */
    private static final double BEYOND = 2;

    /** Part of the squares by which others are larger where a table is contradicted. */
    private static final double MUCH = 0.1;

    final BreakdownModel model;
    private final List<String> columns;
    private final List<Rung> steps = new ArrayList<>();
    /** By step, what it leaves of other days; of one that is bent once it was asked for. */
    private final Map<Integer, double[]> left = new TreeMap<>();
    /** By step, once it was asked for. */
    private final Map<Integer, BreakdownFit> fits = new HashMap<>();

    private double leftByPrior;
    private int best;

    /**
     * @param isAsked whether the first step is what the caller wants
     */
    Candidates(BreakdownModel model, List<String> columns, boolean isAsked) {
        this.model = model;
        this.columns = columns;
        GroupedRegression known = null;
        for (Rung rung : model.ladder()) {
            boolean isFirst = known == null;
            if (isFirst && rung.bend() > 0) {
                continue;
            }
            known = isFirst ? first(rung) : known;
            if (known == null) {
                continue;
            }
            if (rung.bend() > 0) {
                // never the best, so that what it leaves is reckoned if it is taken; it tells terms apart as without
                // the bend
                if (steps.stream().anyMatch(rung::isBentOf)) {
                    steps.add(rung);
                }
                continue;
            }
            double[] own = model.leftOut(rung, known);
            if (isFirst) {
                leftByPrior = sum(model.leftByPrior(known));
                fits.put(0, new BreakdownFit(model, rung, known, null, columns, sum(own), leftByPrior));
            }
            if (isFirst || own.length > 0) {
                steps.add(rung);
                left.put(steps.size() - 1, own);
            }
        }
        best = isAsked ? 0 : leastLeft();
    }

    /**
     * With nothing known beforehand the step that errs least. What is known beforehand draws coefficients that trials don't tell
     * to it by itself, so that a step is given up only if it errs more beyond chance. What is bent is for tables that don't hold
     * otherwise.
     */
    private int leastLeft() {
        int found = 0;
        for (Map.Entry<Integer, double[]> step : left.entrySet()) {
            double[] of = left.getOrDefault(found, new double[0]);
            double[] own = step.getValue();
            if (of.length == 0) {
                found = step.getKey();
                continue;
            }
            double[] more = new double[own.length];
            for (int day = 0; day < more.length; day++) {
                more[day] = of[day] - own[day];
            }
            double error = more.length > 1 ? Sample.sd(more) * Math.sqrt(more.length) : 0;
            if (step.getKey() != found && sum(more) > (model.isFree ? 0 : BEYOND * error)) {
                found = step.getKey();
            }
        }
        return found;
    }

    private static double sum(double[] values) {
        return values.length == 0 ? Double.NaN : Arrays.stream(values).sum();
    }

    private @Nullable GroupedRegression first(Rung rung) {
        Optional<GroupedRegression> fitted = model.fit(rung);
        if (fitted.isPresent() && contradictsRuns(fitted.orElseThrow())) {
            model.doubtRuns();
            fitted = model.fit(rung);
        }
        return fitted.filter(of -> of.withinDegrees() >= 1).orElse(null);
    }

    /** Whether days differ in another way than by chance from what the table states of runs. */
    private boolean contradictsRuns(GroupedRegression fitted) {
        if (!model.knowsDays() || model.priorDegreesOfRuns() == 0) {
            return false;
        }
        int days = model.days.size();
        double[][] declared = model.declaredOfParts(SharedBy.RUN);
        double[][] within = fitted.within();
        double[][] sums = new double[days][declared.length];
        double[][] weights = new double[days][declared.length];
        for (int i = 0; i < model.rows.size(); i++) {
            double[] left = fitted.residual(i);
            for (int k = 0; k < left.length; k++) {
                if (!Double.isNaN(left[k])) {
                    sums[model.dayOf(i)][k] += model.weight(i) * left[k];
                    weights[model.dayOf(i)][k] += model.weight(i);
                }
            }
        }
        // the mean square of the days' means, in parts of what they should vary by
        double squares = 0;
        int counted = 0;
        for (int day = 0; day < days; day++) {
            for (int k = 0; k < declared.length; k++) {
                double variance = declared[k][k] + within[k][k] / weights[day][k];
                if (weights[day][k] > 0 && variance > 0) {
                    squares += Math.pow(sums[day][k] / weights[day][k], 2) / variance;
                    counted++;
                }
            }
        }
        return squares / counted * (days - 1)
                > new ChiSquaredDistribution(null, days - 1.0).inverseCumulativeProbability(SURE);
    }

    boolean isEmpty() {
        return steps.isEmpty();
    }

    /**
     * Whether the trials alone err less on other days, beyond chance: what the prior table says of how far halls differ then
     * doesn't hold in this one.
     *
     * @param alone the same trials without what the prior table knows
     */
    boolean isContradictedBy(Candidates alone) {
        if (alone.isEmpty()) {
            return false;
        }
        BreakdownFit ofAlone = alone.bestFit();
        double[][] within = ofAlone.regression.within();
        double[] without = alone.model.leftOut(ofAlone.rung, ofAlone.regression, within);
        double[] with = model.leftOut(bestFit().rung, bestFit().regression, within);
        if (without.length < 2 || with.length != without.length) {
            return false;
        }
        double[] more = new double[with.length];
        for (int day = 0; day < more.length; day++) {
            more[day] = with[day] - without[day];
        }
        return sum(more) > BEYOND * Sample.sd(more) * Math.sqrt(more.length) && sum(more) > MUCH * sum(without);
    }

    /** The step that errs least. */
    int best() {
        return best;
    }

    int count() {
        return steps.size();
    }

    /** A step. */
    synchronized BreakdownFit at(int number) {
        BreakdownFit found = fits.get(number);
        if (found == null) {
            Rung step = steps.get(number);
            GroupedRegression regression = model.fit(step)
                    .or(() -> model.with(step, List.of(), at(0).regression))
                    .orElseThrow();
            double[] own = left.computeIfAbsent(number, key -> model.leftOut(step, at(0).regression));
            BreakdownFit straight = null;
            for (int i = 0; step.bend() > 0 && straight == null && i < number; i++) {
                straight = step.isBentOf(steps.get(i)) ? at(i) : null;
            }
            found = new BreakdownFit(model, step, regression, straight, columns, sum(own), leftByPrior);
            fits.put(number, found);
        }
        return found;
    }

    BreakdownFit bestFit() {
        return at(best);
    }
}
