package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.beefyield.stats.GroupedRegression;
import org.beefyield.stats.Sample;
import org.beefyield.table.definition.SharedBy;
import org.jspecify.annotations.Nullable;

/** The steps of the ladder that a breakdown can be fitted on, and which of them errs least on days that it wasn't fitted to. */
final class Candidates {
    /** Chance that days that differ as the prior table states don't look as if they contradicted it. */
    private static final double SURE = 0.999;

    /** Standard errors beyond which a difference is no chance. */
    private static final double BEYOND = 2;

    /**
     * A step.
     *
     * @param leftOut squares that it leaves of other days, each in parts of its variance
     */
    private record Step(Rung rung, double leftOut) {}

    final BreakdownModel model;
    private final List<String> columns;
    private final List<Step> steps = new ArrayList<>();
    /** By step, once it was asked for. */
    private final Map<Integer, BreakdownFit> fits = new HashMap<>();

    private double leftByPrior;
    private int best;
    private boolean doubtsRuns;

    Candidates(BreakdownModel model, List<String> columns) {
        this.model = model;
        this.columns = columns;
        GroupedRegression known = null;
        List<double[]> left = new ArrayList<>();
        for (Rung rung : model.ladder()) {
            boolean isFirst = known == null;
            known = isFirst ? first(rung) : known;
            if (known == null) {
                continue;
            }
            double[] own = model.leftOut(rung, known);
            if (isFirst) {
                leftByPrior = sum(model.leftByPrior(known));
                fits.put(0, new BreakdownFit(model, rung, known, columns, sum(own), leftByPrior));
            }
            if (isFirst || own.length > 0) {
                steps.add(new Step(rung, sum(own)));
                if (rung.bend() == 0) {
                    left.add(own);
                }
            }
        }
        best = best(left);
    }

    /**
     * With nothing known beforehand the step that errs least. What is known beforehand draws coefficients that trials don't tell
     * to it by itself, so that a step is given up only if it errs more beyond chance. What is bent is for tables that don't hold
     * otherwise.
     */
    private int best(List<double[]> left) {
        int found = 0;
        for (int step = 1; step < left.size(); step++) {
            if (left.get(found).length == 0) {
                found = step;
                continue;
            }
            int days = left.get(step).length;
            double[] more = new double[days];
            for (int day = 0; day < days; day++) {
                more[day] = left.get(found)[day] - left.get(step)[day];
            }
            double error = days > 1 ? Sample.sd(more) * Math.sqrt(days) : 0;
            if (sum(more) > (model.isFree ? 0 : BEYOND * error)) {
                found = step;
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
            doubtsRuns = true;
            model.doubtRuns();
            fitted = model.fit(rung);
        }
        return fitted.filter(of -> of.withinDegrees() >= 1).orElse(null);
    }

    /** Whether days differ in another way than by chance from what the table states of runs. */
    private boolean contradictsRuns(GroupedRegression fitted) {
        if (!model.knowsDays() || !model.statesRuns() || model.isFree) {
            return false;
        }
        double own = 0;
        double stated = 0;
        double[][] found = fitted.between();
        double[][] declared = model.declaredOfParts(SharedBy.RUN);
        for (int k = 0; k < found.length; k++) {
            own += found[k][k];
            stated += declared[k][k];
        }
        double days = model.days.size();
        // the estimate holds what is stated with its degrees of freedom; without it the days alone say
        double alone = (own * (days + BreakdownModel.PRIOR_DEGREES) - stated * BreakdownModel.PRIOR_DEGREES) / days;
        double learnt = Math.max(1, fitted.betweenDegrees() - BreakdownModel.PRIOR_DEGREES);
        return alone / stated
                > new ChiSquaredDistribution(null, learnt)
                                .inverseCumulativeProbability(SURE)
                        / learnt;
    }

    boolean isEmpty() {
        return steps.isEmpty();
    }

    boolean doubtsRuns() {
        return doubtsRuns;
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
        Step step = steps.get(number);
        return fits.computeIfAbsent(
                number,
                key -> new BreakdownFit(
                        model,
                        step.rung,
                        model.fit(step.rung).orElseThrow(),
                        columns,
                        step.leftOut,
                        leftByPrior));
    }

    BreakdownFit bestFit() {
        return at(best);
    }
}
