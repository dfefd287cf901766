package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.carcass.Category;
import org.beefyield.stats.Regression;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * Fits the breakdowns of a table to boning trials, in the table's own terms. Immutable; each {@code with} gives another.
 *
 * <p>The share of each child is its coefficients times the terms of the carcass. All children of a breakdown are fitted by
 * least squares to the same terms, rows and weights and shrunk with the same strength towards the prior table: the sum of
 * weighted squares |Y - XB|² plus strength × (B - B0)'M(B - B0) is least, where B0 are the prior's coefficients and M the
 * {@link TermMoments} of one carcass behind them. So the prior counts for as many carcasses as the strength says: 0 is
 * least squares, and without bound it is the prior. And so the coefficients add up by themselves, levels to 1000 g/kg and
 * all others to 0, as the weighed shares and the prior's coefficients do.
 *
 * <p>The order of the trials doesn't matter, to the last digit. Nor does it matter whether trials come at once: a table
 * calibrated by least squares from some of them stands for these when it is the prior of the others, with
 * {@link BreakdownFit#moments()} and their number for a strength; the coefficients are then those of all trials together.
 *
 * <p>Unless {@link #withCategoriesApart()}, all categories move alike, those without trials too, and keep the differences
 * that they have in the prior table, see {@link BreakdownFit}.
 */
public final class Calibration {
    /** Strengths that are tried when one is chosen, carcasses. */
    public static final List<Double> STRENGTHS = Calibrated.STRENGTHS;

    /** Rows beyond the number of terms below which a fit is reported as resting on few. */
    private static final int FEW = 5;

    private final TrialSet trials;
    private final List<String> terms;
    private final Set<String> parents;
    private final boolean apart;
    /** Strength, or below 0 to choose it. */
    private final double strength;

    private final @Nullable TermMoments moments;
    private final ToDoubleFunction<Trial> weight;

    private Calibration(
            TrialSet trials,
            List<String> terms,
            Set<String> parents,
            boolean apart,
            double strength,
            @Nullable TermMoments moments,
            ToDoubleFunction<Trial> weight) {
        this.trials = trials;
        this.terms = terms;
        this.parents = parents;
        this.apart = apart;
        this.strength = strength;
        this.moments = moments;
        this.weight = weight;
    }

    /**
     * Least squares in all terms of the table, for every breakdown that was weighed, all categories together.
     *
     * @param trials trials against the prior table
     * @return the calibration
     */
    public static Calibration of(TrialSet trials) {
        Objects.requireNonNull(trials, "trials");
        Set<String> all = new LinkedHashSet<>();
        trials.breakdowns().forEach(breakdown -> all.add(breakdown.parent()));
        return new Calibration(
                trials, trials.table().definition().coefficientColumns(), all, false, 0, null, trial -> 1);
    }

    /**
     * Fits only some of the table's terms; the others keep the coefficients of the prior table, whatever the strength, as if
     * these were known. Without shrinkage that is R's {@code lm} in the given terms with the others in its {@code offset}.
     *
     * @param columns columns of the terms, the level among them
     * @return a calibration
     * @throws IllegalArgumentException if the table has no such term or the level is missing
     */
    public Calibration withTerms(String... columns) {
        Checks.noNullIn(columns, "columns");
        List<String> known = trials.table().definition().coefficientColumns();
        List<String> wanted = List.of(columns);
        for (String column : wanted) {
            if (!known.contains(column)) {
                throw new IllegalArgumentException("no term \"" + column + "\"; terms: " + String.join(", ", known));
            }
        }
        if (!wanted.contains(known.get(0))) {
            throw new IllegalArgumentException(
                    "the term " + known.get(0) + " is missing; no breakdown closes without it");
        }
        return new Calibration(
                trials, known.stream().filter(wanted::contains).toList(), parents, apart, strength, moments, weight);
    }

    /**
     * Fits only some breakdowns; all others stay as they are in the prior table.
     *
     * @param cuts codes of the cuts that are broken down, or {@code carcass}
     * @return a calibration
     * @throws IllegalArgumentException if the table doesn't break a cut down by coefficients in a way that was cut to
     */
    public Calibration withBreakdowns(String... cuts) {
        Checks.noNullIn(cuts, "cuts");
        Set<String> wanted = new LinkedHashSet<>(List.of(cuts));
        for (String cut : wanted) {
            if (trials.breakdowns().stream()
                    .noneMatch(breakdown -> breakdown.parent().equals(cut))) {
                throw new IllegalArgumentException(
                        "table " + trials.table().definition().name() + " has no breakdown of \"" + cut
                                + "\" by coefficients in a way that was cut to");
            }
        }
        return new Calibration(trials, terms, wanted, apart, strength, moments, weight);
    }

    /**
     * Fits each category by itself.
     *
     * @return a calibration
     */
    public Calibration withCategoriesApart() {
        return new Calibration(trials, terms, parents, true, strength, moments, weight);
    }

    /**
     * Shrinks towards the prior table.
     *
     * @param carcasses number of carcasses that the prior table counts for, 0 or more
     * @return a calibration
     * @throws IllegalArgumentException if it is below 0 or not finite
     */
    public Calibration withStrength(double carcasses) {
        if (!(carcasses >= 0 && Double.isFinite(carcasses))) {
            throw new IllegalArgumentException("strength " + carcasses + " is not a number of carcasses, 0 or more");
        }
        return new Calibration(trials, terms, parents, apart, carcasses, moments, weight);
    }

    /**
     * Chooses for each breakdown the strength among {@link #STRENGTHS} whose leave-one-out errors are smallest: their
     * squares summed over the children, each child's in parts of what the prior table alone would leave.
     *
     * @return a calibration
     */
    public Calibration withChosenStrength() {
        return new Calibration(trials, terms, parents, apart, -1, moments, weight);
    }

    /**
     * States what one carcass behind the prior table says about its coefficients; else that is taken from the trials.
     *
     * @param ofPrior moments of the table's terms
     * @return a calibration
     */
    public Calibration withMoments(TermMoments ofPrior) {
        Objects.requireNonNull(ofPrior, "ofPrior");
        return new Calibration(trials, terms, parents, apart, strength, ofPrior, weight);
    }

    /**
     * Weighs trials differently.
     *
     * @param ofTrial weight of a trial, above 0: a carcass whose residual variance is half as large has twice the weight
     * @return a calibration
     */
    public Calibration withWeights(ToDoubleFunction<Trial> ofTrial) {
        Objects.requireNonNull(ofTrial, "ofTrial");
        return new Calibration(trials, terms, parents, apart, strength, moments, ofTrial);
    }

    TrialSet trials() {
        return trials;
    }

    /** The strength set, or below 0 if it is chosen. */
    double strength() {
        return strength;
    }

    /**
     * Fits. What can't be fitted stays as in the prior table, and a finding says so. Thousands of carcasses are shared out
     * between the threads of the common pool; the figures don't depend on how many there are.
     *
     * @return the fits and what was found
     * @throws IllegalArgumentException if a weight isn't above 0
     */
    public Calibrated fit() {
        List<BreakdownFit> fits = new ArrayList<>();
        List<Finding> findings = new ArrayList<>();
        for (WeighedBreakdown breakdown : trials.breakdowns()) {
            if (!parents.contains(breakdown.parent()) || breakdown.rows().isEmpty()) {
                continue;
            }
            if (apart) {
                for (Category category : trials.table().definition().categories()) {
                    fit(breakdown, category, fits, findings);
                }
            } else {
                fit(breakdown, null, fits, findings);
            }
        }
        return new Calibrated(
                trials, fits, findings, another -> withStrength(another).fit());
    }

    private void fit(
            WeighedBreakdown breakdown, @Nullable Category category, List<BreakdownFit> fits, List<Finding> findings) {
        Terms all = new Terms(trials.table().definition());
        List<WeighedBreakdown.Row> rows = breakdown.rows().stream()
                .filter(row -> category == null || row.trial().carcass().category() == category)
                .sorted(Comparator.comparing(
                                (WeighedBreakdown.Row row) -> all.of(row.trial().carcass()), Arrays::compare)
                        .thenComparing(row -> row.trial().id()))
                .toList();
        String name = breakdown.name() + (category == null ? "" : " (category " + category + ")");
        if (rows.isEmpty()) {
            findings.add(new Finding(Finding.Kind.NOT_FITTED, name, FindingText.NOTHING_WEIGHED));
            return;
        }
        PriorBreakdown priorBreakdown = new PriorBreakdown(breakdown, all.columns);
        double[][] prior = meanPrior(priorBreakdown, rows);
        Regression plain = leastSquares(priorBreakdown, rows, all, prior);
        TermMoments ofPrior = moments == null ? TermMoments.ofRows(terms, plain.weighted(), rows.size()) : moments;
        double[][] root = ofPrior.root(terms);
        Regression regression = strength < 0 ? chosen(plain, root) : strength == 0 ? plain : plain.with(strength, root);
        if (!regression.isDetermined() || !(regression.degreesOfFreedom() >= 1)) {
            findings.add(new Finding(Finding.Kind.NOT_FITTED, name, FindingText.notFitted(regression, terms)));
            return;
        }
        for (WeighedBreakdown.Part part : breakdown.parts()) {
            if (part.members().size() > 1) {
                findings.add(new Finding(Finding.Kind.GROUP, name, FindingText.group(part.name())));
            }
        }
        if (rows.size() < terms.size() + FEW) {
            findings.add(new Finding(Finding.Kind.FEW_ROWS, name, FindingText.fewRows(rows.size(), terms.size())));
        }
        BreakdownFit fit = new BreakdownFit(
                priorBreakdown,
                category,
                rows.stream().map(WeighedBreakdown.Row::trial).toList(),
                regression,
                all.columns,
                terms,
                prior);
        fits.add(fit);
        findings.addAll(Diagnostics.of(fit));
    }

    /** Prior coefficients, all columns by children: the mean over the trials of those of their categories. */
    private static double[][] meanPrior(PriorBreakdown breakdown, List<WeighedBreakdown.Row> rows) {
        double[][] mean = new double[0][];
        for (Category category : Category.values()) {
            long count = rows.stream()
                    .filter(row -> row.trial().carcass().category() == category)
                    .count();
            if (count == 0) {
                continue;
            }
            double[][] own = breakdown.coefficients(category);
            if (mean.length == 0) {
                mean = new double[own.length][breakdown.weighed.children().size()];
            }
            for (int j = 0; j < mean.length; j++) {
                for (int k = 0; k < mean[j].length; k++) {
                    mean[j][k] += own[j][k] * count / rows.size();
                }
            }
        }
        return mean;
    }

    /**
     * Least squares in the chosen terms. Known of each carcass beforehand is what the prior table gives it for the terms
     * that are left out, and by what it sets the carcass's category apart from the mean.
     */
    private Regression leastSquares(
            PriorBreakdown breakdown, List<WeighedBreakdown.Row> rows, Terms all, double[][] prior) {
        List<WeighedBreakdown.Part> parts = breakdown.weighed.parts();
        int n = rows.size();
        int[] chosen = terms.stream().mapToInt(all.columns::indexOf).toArray();
        double[][] x = new double[chosen.length][n];
        double[][] y = new double[parts.size()][n];
        double[][] known = new double[parts.size()][n];
        double[] weights = new double[n];
        for (int i = 0; i < n; i++) {
            Trial trial = rows.get(i).trial();
            double[] values = all.of(trial.carcass());
            for (int j = 0; j < chosen.length; j++) {
                x[j][i] = values[chosen[j]];
            }
            for (int part = 0; part < y.length; part++) {
                y[part][i] = rows.get(i).shares().get(part);
            }
            weights[i] = weight.applyAsDouble(trial);
            if (!(weights[i] > 0 && Double.isFinite(weights[i]))) {
                throw new IllegalArgumentException(
                        "carcass " + trial.id() + ": weight " + weights[i] + " in the fit is not above 0");
            }
            double[][] own = breakdown.coefficients(trial.carcass().category());
            for (int part = 0; part < parts.size(); part++) {
                for (int member : parts.get(part).members()) {
                    for (int j = 0; j < values.length; j++) {
                        double fitted = terms.contains(all.columns.get(j)) ? prior[j][member] : 0;
                        known[part][i] += values[j] * (own[j][member] - fitted);
                    }
                }
            }
        }
        double[][] priorOfParts = new double[terms.size()][parts.size()];
        for (int j = 0; j < terms.size(); j++) {
            for (int part = 0; part < parts.size(); part++) {
                for (int member : parts.get(part).members()) {
                    priorOfParts[j][part] += prior[chosen[j]][member];
                }
            }
        }
        boolean isAnyKnown =
                Arrays.stream(known).flatMapToDouble(Arrays::stream).anyMatch(value -> value != 0);
        return new Regression(x, y, isAnyKnown ? known : new double[0][], weights, priorOfParts, new double[0][0], 0);
    }

    private static Regression chosen(Regression plain, double[][] root) {
        double[] ofPrior = new double[plain.responses()];
        for (int i = 0; i < plain.rows(); i++) {
            double[] expected = plain.expectedByPrior(i);
            for (int k = 0; k < ofPrior.length; k++) {
                double off = plain.response(k, i) - expected[k];
                ofPrior[k] += plain.weight(i) * off * off;
            }
        }
        Regression best = plain;
        double least = Double.POSITIVE_INFINITY;
        for (double strength : STRENGTHS) {
            Regression tried = strength == 0 ? plain : plain.with(strength, root);
            if (!tried.isDetermined() || !(tried.degreesOfFreedom() >= 1)) {
                continue;
            }
            double error = 0;
            for (int k = 0; k < ofPrior.length; k++) {
                double out = tried.leaveOneOut(k);
                error += ofPrior[k] > 0 ? out * out / ofPrior[k] : 0;
            }
            if (error < least) {
                least = error;
                best = tried;
            }
        }
        return best;
    }
}
