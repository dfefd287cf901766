package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.beefyield.stats.GroupedRegression;

/**
 * Columns that are wrong throughout: two that look swapped, one in pounds or of one side alone, one that is merely far from what the
 * prior table expects. What explains a column is held against nothing being wrong by how likely both make its mean, as
 * halls differ, and its SD, which is declared for as many degrees of freedom as it counts for in the fit.
 */
final class ColumnFaults {
    /** A pound in parts of a kg, turned over. */
    private static final double POUNDS = 1 / 0.45359237;

    private static final double ONE_SIDE = 0.5;

    /** Natural logarithm of how much likelier an explanation makes what was weighed, from which on it is one. */
    private static final double LIKELIER = 3.5;

    /** Of a table that doesn't say how halls differ: part of a level that another hall may differ by. */
    private static final double OTHER_HALL = 0.15;

    private static final double G_PER_KG = 1000;

    private record Explanation(double likelier, Set<Integer> parts, Finding.Kind kind, String message) {}

    private final BreakdownModel model;
    private final double limit;
    private final int parts;
    private final int loss;
    private final BreakdownModel.Means means;
    private final double[] sdOfMean;
    private final double[] sd;
    private final double[] declaredSd;

    /**
     * @param limit SDs of what halls differ by beyond which a column is far
     */
    ColumnFaults(BreakdownModel model, GroupedRegression fitted, double limit) {
        this.model = model;
        this.limit = limit;
        this.parts = model.prior.weighed.parts().size();
        this.loss = model.prior.weighed.lossPart().orElse(-1);
        this.means = model.means();
        this.sdOfMean = new double[parts];
        this.sd = new double[parts];
        this.declaredSd = new double[parts];
        double[][] within = fitted.within();
        double[][] between = fitted.between();
        double[][] declared = model.declaredWithinOfParts();
        for (int k = 0; k < parts; k++) {
            double ofHall =
                    model.isFree ? Math.pow(OTHER_HALL * means.expected()[k], 2) : model.priorVarianceOfLevel(k);
            sdOfMean[k] = Math.sqrt(ofHall + between[k][k] / model.days.size() + within[k][k] / means.counts()[k]);
            declaredSd[k] = Math.sqrt(declared[k][k]);
            // that of the carcasses alone, the declared one taken off again
            double own = within[k][k]
                    + (model.isFree
                            ? 0
                            : BreakdownModel.PRIOR_DEGREES / means.counts()[k] * (within[k][k] - declared[k][k]));
            sd[k] = Math.sqrt(Math.max(own, within[k][k] / 4));
        }
    }

    List<Finding> found() {
        List<Explanation> explanations = new ArrayList<>();
        for (int a = 0; a < parts; a++) {
            if (!isWeighed(a)) {
                continue;
            }
            for (int b = a + 1; b < parts; b++) {
                if (isWeighed(b)) {
                    addSwapped(explanations, a, b);
                }
            }
            addTimes(explanations, a, POUNDS, "in pounds");
            addTimes(explanations, a, ONE_SIDE, "of one side alone");
        }
        explanations.sort(Comparator.comparingDouble(one -> -one.likelier()));
        Set<Integer> explained = new HashSet<>();
        List<Finding> found = new ArrayList<>();
        String name = BreakdownFit.name(model);
        for (Explanation one : explanations) {
            if (one.parts().stream().noneMatch(explained::contains)) {
                explained.addAll(one.parts());
                found.add(new Finding(one.kind(), name, one.message()));
            }
        }
        for (int k = 0; k < parts; k++) {
            if (isWeighed(k) && !explained.contains(k) && off(k, means.weighed()[k]) > limit) {
                found.add(new Finding(Finding.Kind.FAR, name, far(k)));
            }
        }
        return found;
    }

    /** What is missing is what the others leave. */
    private boolean isWeighed(int k) {
        return k != loss && means.counts()[k] > 0 && sdOfMean[k] > 0;
    }

    /** How far a mean would be off what is expected of a part, in SDs. */
    private double off(int k, double mean) {
        return Math.abs(mean - means.expected()[k]) / sdOfMean[k];
    }

    /** Twice the logarithm of how unlikely a mean and an SD are of a part. */
    private double misfit(int k, double mean, double ofCarcasses) {
        double square = Math.pow(off(k, mean), 2);
        if (declaredSd[k] > 0 && ofCarcasses > 0) {
            double variance = (1 / BreakdownModel.PRIOR_DEGREES + 1 / means.counts()[k]) / 2;
            square += Math.pow(Math.log(ofCarcasses / declaredSd[k]), 2) / variance;
        }
        return square;
    }

    private void addSwapped(List<Explanation> to, int a, int b) {
        double ofA = means.weighed()[a];
        double ofB = means.weighed()[b];
        double likelier =
                (misfit(a, ofA, sd[a]) + misfit(b, ofB, sd[b]) - misfit(a, ofB, sd[b]) - misfit(b, ofA, sd[a])) / 2;
        if (likelier > LIKELIER && off(a, ofB) < limit && off(b, ofA) < limit) {
            to.add(new Explanation(
                    likelier,
                    Set.of(a, b),
                    Finding.Kind.SWAPPED,
                    FindingText.swapped(
                            model.part(a), model.part(b), ofA, ofB, means.expected()[a], means.expected()[b])));
        }
    }

    private void addTimes(List<Explanation> to, int k, double times, String as) {
        double mean = means.weighed()[k];
        if (!(mean > 0 && mean < G_PER_KG && sd[k] > 0)) {
            return;
        }
        // of a part that weighs so many times too much the others hold less of the whole
        double odds = mean / (G_PER_KG - mean) / times;
        double right = G_PER_KG * odds / (1 + odds);
        // by how much a mean that is a little more moves the one that is right: what is wide is less likely at each
        // place
        double slope = right * (G_PER_KG - right) / (mean * (G_PER_KG - mean));
        double likelier = (misfit(k, mean, sd[k]) - misfit(k, right, slope * sd[k])) / 2 + Math.log(slope);
        if (likelier > LIKELIER && off(k, right) < Math.min(limit, off(k, mean))) {
            to.add(new Explanation(
                    likelier,
                    Set.of(k),
                    Finding.Kind.FAR,
                    far(k) + FindingText.varies(sd[k], declaredSd[k]) + "; as if it were " + as));
        }
    }

    private String far(int k) {
        return FindingText.far(model.part(k), means.weighed()[k], means.expected()[k], off(k, means.weighed()[k]));
    }
}
