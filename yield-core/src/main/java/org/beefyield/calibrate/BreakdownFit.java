package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.stats.GroupedRegression;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.TableRange;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * One breakdown learnt from trials: the coefficients of its children with their errors, and how well they describe the
 * carcasses. Immutable. Figures are g per kg of parent; those of coefficients are per unit of their column.
 *
 * <p>Share = coefficients times the terms of the carcass + what its day of boning has in common + what is its own. Coefficients
 * stand as the trials and the prior table together say; see {@link Calibration}. Where categories have coefficients of their own,
 * those given here are of the average carcass of the trials.
 *
 * <p>Children that were weighed as a group share out what the group differs from the prior table: by what the table says of how
 * they err, or, where it says nothing, in proportion to their levels. Their fit (R², errors) is the group's.
 */
public final class BreakdownFit {
    /**
     * What a child, or its group, of one carcass weighed beside what the fit says.
     *
     * @param carcass the carcass
     * @param fittedGPerKg by the fit for an average day, g per kg of parent
     * @param residualGPerKg weighed less fitted, g per kg of parent
     */
    public record Residual(Carcass carcass, double fittedGPerKg, double residualGPerKg) {
        /**
         * Checks that nothing is missing and that figures are figures.
         *
         * @throws IllegalArgumentException if a share is not finite
         */
        public Residual {
            Objects.requireNonNull(carcass, "carcass");
            Checks.finite("fitted share, g/kg", fittedGPerKg);
            Checks.finite("residual, g/kg", residualGPerKg);
        }
    }

    private static final double ROUNDING_G_PER_KG = 0.01;

    final BreakdownModel model;
    final GroupedRegression regression;
    final Rung rung;
    private final List<String> columns;
    private final List<String> cuts;
    private final double leftOut;
    private final double leftByPrior;
    /** By category, columns by children. */
    private final Map<Category, double[][]> coefficients = new LinkedHashMap<>();
    /** By category, for each unknown what a coefficient hangs on; by child and column. */
    private final Map<Category, double[][]> loadings = new LinkedHashMap<>();
    /**
     * Covariance of the unknowns, those that stay as uncertain as they were behind those that are fitted, and last, of what is bent,
     * one of how far that moved it.
     */
    private final double[][] covariance;

    private final boolean isBent;

    private final Map<Category, Double> parts = new LinkedHashMap<>();
    private final double[][] residual;
    private final double[][] ofRuns;
    private final Residuals residuals;

    /**
     * @param straight of what is bent, the same without the bend: what is bent is as unsure as that, and by as much as it moved
     *     away from what the trials say
     * @param leftOut squares that the fit to other days leaves, each in parts of its variance
     * @param leftByPrior the same of the prior table
     */
    BreakdownFit(
            BreakdownModel model,
            Rung rung,
            GroupedRegression regression,
            @Nullable BreakdownFit straight,
            List<String> columns,
            double leftOut,
            double leftByPrior) {
        this.model = model;
        this.rung = rung;
        this.regression = regression;
        this.residuals = new Residuals(model, regression);
        this.columns = columns;
        this.leftOut = leftOut;
        this.leftByPrior = leftByPrior;
        this.cuts = breakdown().children().stream().map(cut -> cut.code()).toList();
        BreakdownModel.Unknowns learnt = model.unknowns(rung);
        BreakdownModel.Unknowns kept = model.kept(rung);
        int fitted = learnt.free().length;
        int all = fitted + kept.free().length;
        double[][] ofFitted = regression.covariance();
        this.isBent = straight != null;
        double[][] ofStraight = straight == null ? ofFitted : straight.covariance;
        this.covariance = new double[isBent ? ofStraight.length + 1 : all][];
        for (int m = 0; m < covariance.length; m++) {
            covariance[m] = m < ofStraight.length
                    ? Arrays.copyOf(ofStraight[m], covariance.length)
                    : new double[covariance.length];
            if (m >= ofStraight.length) {
                covariance[m][m] = 1;
            }
        }
        double[] unknowns = regression.unknowns();
        for (Category category : model.categories) {
            double[][] own = new double[columns.size()][cuts.size()];
            double[][] ofUnknowns = new double[columns.size() * cuts.size()][all];
            for (int j = 0; j < own.length; j++) {
                for (int k = 0; k < cuts.size(); k++) {
                    own[j][k] = model.known(category)[j][k];
                    for (int m = 0; m < all; m++) {
                        double loading = PriorBreakdown.of(
                                (m < fitted ? learnt : kept).loadings().get(m < fitted ? m : m - fitted), category)[j][
                                k];
                        ofUnknowns[j * cuts.size() + k][m] = loading;
                        own[j][k] += m < fitted ? loading * unknowns[m] : 0;
                    }
                }
            }
            coefficients.put(category, own);
            loadings.put(category, straight == null ? ofUnknowns : straight.movedTo(category, own));
            parts.put(category, (double) model.count(category) / model.rows.size());
        }
        this.residual = ofChildren(regression.within(), model.declaredWithin(), true);
        this.ofRuns = ofChildren(regression.between(), model.declared(SharedBy.RUN), model.statesRuns());
    }

    /** Loadings with how far other coefficients lie as one more. */
    private double[][] movedTo(Category category, double[][] others) {
        double[][] before = of(category, loadings);
        double[][] own = of(category, coefficients);
        double[][] moved = new double[before.length][];
        for (int a = 0; a < before.length; a++) {
            int j = a / cuts.size();
            int k = a % cuts.size();
            moved[a] = Arrays.copyOf(before[a], before[a].length + 1);
            moved[a][before[a].length] = others[j][k] - own[j][k];
        }
        return moved;
    }

    WeighedBreakdown breakdown() {
        return model.prior.weighed;
    }

    /** From the covariance of parts to that of children: each has its share of the part, and varies within it as declared. */
    private double[][] ofChildren(double[][] ofParts, double[][] declared, boolean varyWithin) {
        double[][] all = new double[cuts.size()][cuts.size()];
        List<WeighedBreakdown.Part> weighed = breakdown().parts();
        double[] sharing = new double[cuts.size()];
        for (WeighedBreakdown.Part part : weighed) {
            double levels = part.members().stream().mapToDouble(this::meanLevel).sum();
            for (int member : part.members()) {
                sharing[member] = part.members().size() == 1 ? 1 : meanLevel(member) / levels;
            }
        }
        for (int a = 0; a < weighed.size(); a++) {
            for (int b = 0; b < weighed.size(); b++) {
                for (int k : weighed.get(a).members()) {
                    for (int l : weighed.get(b).members()) {
                        all[k][l] = sharing[k] * sharing[l] * ofParts[a][b];
                    }
                }
            }
        }
        for (WeighedBreakdown.Part part : weighed) {
            double sum =
                    part.members().stream().mapToDouble(k -> declared[k][k]).sum();
            for (int k : part.members()) {
                for (int l : part.members()) {
                    if (varyWithin && part.members().size() > 1 && sum > 0) {
                        all[k][l] += (k == l ? declared[k][k] : 0) - declared[k][k] * declared[l][l] / sum;
                    }
                }
            }
        }
        return all;
    }

    private double meanLevel(int child) {
        return Math.max(Double.MIN_NORMAL, mean(model::known)[0][child]);
    }

    private interface OfCategory {
        double[][] of(Category category);
    }

    /** Mean over the trials. */
    private double[][] mean(OfCategory figures) {
        double[][] mean = new double[0][];
        for (Map.Entry<Category, Double> part : parts.entrySet()) {
            double[][] own = figures.of(part.getKey());
            if (mean.length == 0) {
                mean = new double[own.length][own[0].length];
            }
            for (int i = 0; i < own.length; i++) {
                for (int j = 0; j < own[i].length; j++) {
                    mean[i][j] += part.getValue() * own[i][j];
                }
            }
        }
        return mean;
    }

    /**
     * The cut that is broken down.
     *
     * @return its code, or {@code carcass}
     */
    public String parent() {
        return breakdown().parent();
    }

    /**
     * The way in which it is.
     *
     * @return name of the way, or {@code *} if there is only one
     */
    public String way() {
        return breakdown().way();
    }

    /**
     * Whose carcasses were fitted.
     *
     * @return letter of the category, or {@code *} if all were fitted together
     */
    public String category() {
        Category category = model.category;
        return category == null ? BreakdownRow.ANY : category.letter();
    }

    /**
     * What it is in words.
     *
     * @return such as {@code striploin, steaks} or {@code carcass (category D)}
     */
    public String name() {
        return name(model);
    }

    static String name(BreakdownModel model) {
        Category category = model.category;
        return model.prior.weighed.name() + (category == null ? "" : " (category " + category + ")");
    }

    /**
     * Codes of the children.
     *
     * @return an unmodifiable list in the table's order
     */
    public List<String> cuts() {
        return cuts;
    }

    /**
     * Columns of the terms that were fitted; all others are as in the prior table.
     *
     * @return an unmodifiable list in the table's order
     */
    public List<String> terms() {
        return rung.columns().stream().map(columns::get).toList();
    }

    /**
     * What was fitted, in words.
     *
     * @return such as {@code all terms} or {@code level}
     */
    public String fitted() {
        return rung.name();
    }

    /**
     * Whether what the prior table is unsure of counted beside the trials; if not, it says of none of its coefficients how sure
     * they are, or the caller asked for the trials alone.
     *
     * @return false if the trials alone count
     */
    public boolean withPrior() {
        return !model.isFree;
    }

    private int cut(String code) {
        return index("cut", code, cuts);
    }

    private int column(String name) {
        return index("term", name, columns);
    }

    private int index(String what, String name, List<String> all) {
        int index = all.indexOf(name);
        if (index < 0) {
            throw new IllegalArgumentException("no " + what + " \"" + name + "\" in the breakdown of " + name() + "; "
                    + what + "s: " + String.join(", ", all));
        }
        return index;
    }

    /** The part that a child was weighed in. */
    int part(String cut) {
        int child = cut(cut);
        return IntStream.range(0, breakdown().parts().size())
                .filter(part -> breakdown().parts().get(part).members().contains(child))
                .findFirst()
                .orElseThrow();
    }

    /**
     * A coefficient of the average carcass of the trials.
     *
     * @param cut code of a child
     * @param term column of a term
     * @return g/kg per unit of the column
     * @throws IllegalArgumentException if there is no such cut or term
     */
    public double coefficient(String cut, String term) {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(term, "term");
        return mean(one -> PriorBreakdown.of(coefficients, one))[column(term)][cut(cut)];
    }

    /**
     * A coefficient of a category.
     *
     * @param category a category of the fit
     * @param cut code of a child
     * @param term column of a term
     * @return g/kg per unit of the column
     * @throws IllegalArgumentException if there is no such category, cut or term
     */
    public double coefficient(Category category, String cut, String term) {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(term, "term");
        return of(category, coefficients)[column(term)][cut(cut)];
    }

    private <T> T of(Category category, Map<Category, T> figures) {
        Objects.requireNonNull(category, "category");
        T own = figures.get(category);
        if (own == null) {
            throw new IllegalArgumentException("category " + category + " is not in the fit of " + name());
        }
        return own;
    }

    /**
     * The same coefficient in the prior table, closed.
     *
     * @param cut code of a child
     * @param term column of a term
     * @return g/kg per unit of the column
     * @throws IllegalArgumentException if there is no such cut or term
     */
    public double priorCoefficient(String cut, String term) {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(term, "term");
        return mean(model::known)[column(term)][cut(cut)];
    }

    /**
     * Standard error of a coefficient of the average carcass of the trials.
     *
     * @param cut code of a child
     * @param term column of a term
     * @return g/kg per unit of the column
     * @throws IllegalArgumentException if there is no such cut or term
     */
    public double standardError(String cut, String term) {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(term, "term");
        return Math.sqrt(Math.max(0, coefficientCovariance(cut, term, cut, term)));
    }

    /**
     * Standard error of the same coefficient in the prior table in a hall that it doesn't know: its own and the hall's.
     *
     * @param cut code of a child
     * @param term column of a term
     * @return g/kg per unit of the column; 0 where the table doesn't state one
     * @throws IllegalArgumentException if there is no such cut or term
     */
    public double priorStandardError(String cut, String term) {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(term, "term");
        if (model.isFree) {
            return 0;
        }
        double[] row = mean(one -> PriorBreakdown.of(loadings, one))[column(term) * cuts.size() + cut(cut)];
        double sum = 0;
        for (int m = 0; m < row.length - (isBent ? 1 : 0); m++) {
            sum += row[m] * row[m];
        }
        return Math.sqrt(sum);
    }

    /**
     * Covariance of two coefficients of the average carcass of the trials.
     *
     * @param cut code of a child
     * @param term column of a term
     * @param otherCut code of a child
     * @param otherTerm column of a term
     * @return (g/kg)² per unit of both columns
     * @throws IllegalArgumentException if there is no such cut or term
     */
    public double coefficientCovariance(String cut, String term, String otherCut, String otherTerm) {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(otherCut, "otherCut");
        Objects.requireNonNull(otherTerm, "otherTerm");
        Objects.requireNonNull(term, "term");
        double[][] mean = mean(one -> PriorBreakdown.of(loadings, one));
        return covariance(
                mean[column(term) * cuts.size() + cut(cut)], mean[column(otherTerm) * cuts.size() + cut(otherCut)]);
    }

    private double covariance(double[] a, double[] b) {
        return product(withUnknowns(a), b);
    }

    private static double product(double[] a, double[] b) {
        double sum = 0;
        for (int m = 0; m < b.length; m++) {
            sum += a[m] * b[m];
        }
        return sum;
    }

    /** Covariance with each unknown of what hangs on them so. */
    private double[] withUnknowns(double[] loading) {
        double[] with = new double[loading.length];
        for (int m = 0; m < loading.length; m++) {
            for (int l = 0; l < loading.length && loading[m] != 0; l++) {
                with[l] += loading[m] * covariance[m][l];
            }
        }
        return with;
    }

    /**
     * Covariance of two children between carcasses of one grade that are boned on one day, what those of a lot have in common
     * with it.
     *
     * @param cut code of a child
     * @param otherCut code of a child, the same one for its variance
     * @return (g/kg)²
     * @throws IllegalArgumentException if there is no such cut
     */
    public double residualCovariance(String cut, String otherCut) {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(otherCut, "otherCut");
        return residual[cut(cut)][cut(otherCut)];
    }

    /**
     * SD of a child between carcasses of one grade that are boned on one day.
     *
     * @param cut code of a child
     * @return g/kg
     * @throws IllegalArgumentException if there is no such cut
     */
    public double residualSd(String cut) {
        Objects.requireNonNull(cut, "cut");
        return Math.sqrt(Math.max(0, residualCovariance(cut, cut)));
    }

    /**
     * SD of what carcasses of one day have in common.
     *
     * @param cut code of a child
     * @return g/kg; that of the prior table if there were fewer than 5 days with two carcasses or more
     * @throws IllegalArgumentException if there is no such cut
     */
    public double runSd(String cut) {
        Objects.requireNonNull(cut, "cut");
        return Math.sqrt(Math.max(0, ofRuns[cut(cut)][cut(cut)]));
    }

    /**
     * A bound of the SD of what carcasses of one day have in common: by as many degrees of freedom as days that the trials tell, with
     * those that what the prior table states counts for.
     *
     * @param cut code of a child
     * @param probability chance that the SD lies below it, above 0 and below 1
     * @return g/kg, or empty if there were fewer than 5 days with two carcasses or more
     * @throws IllegalArgumentException if there is no such cut
     */
    public OptionalDouble runSdBound(String cut, double probability) {
        Objects.requireNonNull(cut, "cut");
        double degrees = model.priorDegreesOfRuns() == 0
                ? regression.betweenDegrees()
                : regression.learntGroups() + model.priorDegreesOfRuns();
        if (!model.knowsDays()) {
            return OptionalDouble.empty();
        }
        double chi = new ChiSquaredDistribution(null, degrees).inverseCumulativeProbability(1 - probability);
        return OptionalDouble.of(runSd(cut) * Math.sqrt(degrees / chi));
    }

    /**
     * SD of what carcasses of one run have in common in the prior table.
     *
     * @param cut code of a child
     * @return g/kg, 0 if it doesn't state one
     * @throws IllegalArgumentException if there is no such cut
     */
    public double priorRunSd(String cut) {
        Objects.requireNonNull(cut, "cut");
        return Math.sqrt(model.declared(SharedBy.RUN)[cut(cut)][cut(cut)]);
    }

    /**
     * SD of a child between carcasses in the prior table, what those of a lot have in common with it.
     *
     * @param cut code of a child
     * @return g/kg
     * @throws IllegalArgumentException if there is no such cut
     */
    public double priorResidualSd(String cut) {
        Objects.requireNonNull(cut, "cut");
        return Math.sqrt(model.declaredWithin()[cut(cut)][cut(cut)]);
    }

    /**
     * Carcasses in the fit.
     *
     * @return their number, those that were weighed in part with them
     */
    public int carcassCount() {
        return model.rows.size();
    }

    /**
     * Days of boning in the fit.
     *
     * @return their number; trials without a day are of one
     */
    public int dayCount() {
        return model.days.size();
    }

    /**
     * Degrees of freedom of the covariance between carcasses (Satterthwaite): carcasses less what was fitted to them; more where what
     * the prior table states counts beside them, for that doesn't vary by chance.
     *
     * @return not a whole number where the prior table counts
     */
    public double degreesOfFreedom() {
        return regression.withinDegrees();
    }

    /**
     * Degrees of freedom of the covariance between runs (Satterthwaite): as many days as the trials tell the effects of; more where
     * what the prior table states counts beside them.
     *
     * @return 0 or more
     */
    public double runDegreesOfFreedom() {
        return regression.betweenDegrees();
    }

    /**
     * Trials that are needed.
     *
     * @param carcasses carcasses, 1 or more
     * @param days days that they are boned on at least
     */
    public record Needed(int carcasses, int days) {
        /**
         * Checks the numbers.
         *
         * @throws IllegalArgumentException if there are fewer than one day, or fewer carcasses than days
         */
        public Needed {
            if (days < 1 || carcasses < days) {
                throw new IllegalArgumentException(
                        carcasses + " carcasses on " + days + " days: there is one day or more, and a carcass on each");
            }
        }
    }

    /**
     * How many more carcasses over how many more days would halve the standard error of a cut's level, if they were like those
     * there are: on so many days that what days have in common takes half of what is left, by the SDs found.
     *
     * @param cut code of a child
     * @return carcasses and days; empty if the level is known
     * @throws IllegalArgumentException if there is no such cut
     */
    public Optional<Needed> toHalve(String cut) {
        double now = standardError(cut, columns.get(0));
        double ofRuns = runSd(cut) * runSd(cut);
        double ofCarcasses = residualSd(cut) * residualSd(cut);
        // a quarter of the variance is left if the new trials alone had a third of it
        double wanted = now * now / 3;
        double days = Math.max(1, Math.ceil(2 * ofRuns / wanted));
        double carcasses = Math.max(days, Math.ceil(ofCarcasses / (wanted - ofRuns / days)));
        return now > 0 && carcasses < Integer.MAX_VALUE
                ? Optional.of(new Needed((int) carcasses, (int) days))
                : Optional.empty();
    }

    /** Mean squares left of other days, in variances between carcasses and by part. */
    double leftOut() {
        return leftOut / model.rows.size() / breakdown().parts().size();
    }

    double leftByPrior() {
        return leftByPrior / model.rows.size() / breakdown().parts().size();
    }

    /** What the fit for an average day leaves of a row; NaN if the part wasn't weighed. */
    double residual(int part, int row) {
        return residuals.of(part, row);
    }

    /**
     * Part of the variance of a child, or of its group, that the terms describe.
     *
     * @param cut code of a child
     * @return R², at most 1; 0 if the child doesn't vary, below 0 if the mean alone were better, as a strong prior can be
     * @throws IllegalArgumentException if there is no such cut
     */
    public double r2(String cut) {
        Objects.requireNonNull(cut, "cut");
        return residuals.r2(part(cut));
    }

    /**
     * The residuals of a child, or of its group, carcass by carcass.
     *
     * @param cut code of a child
     * @return an unmodifiable list, those in which it was weighed
     * @throws IllegalArgumentException if there is no such cut
     */
    public List<Residual> residuals(String cut) {
        Objects.requireNonNull(cut, "cut");
        int part = part(cut);
        List<Residual> residuals = new ArrayList<>();
        for (int i = 0; i < model.rows.size(); i++) {
            double left = residual(part, i);
            if (!Double.isNaN(left)) {
                residuals.add(new Residual(model.rows.get(i).trial().carcass(), model.shares(i)[part] - left, left));
            }
        }
        return List.copyOf(residuals);
    }

    /**
     * Root of the mean squared residual of a child, or of its group.
     *
     * @param cut code of a child
     * @return g/kg
     * @throws IllegalArgumentException if there is no such cut
     */
    public double rmse(String cut) {
        Objects.requireNonNull(cut, "cut");
        return residuals.rmse(part(cut));
    }

    /** Whether a share is below 0 at a grade and an end of the weights in a range, by more than rounding makes of it. */
    boolean isBelowZero(TableRange range) {
        double least = 0;
        for (double[][] own : coefficients.values()) {
            for (double c = Math.ceil(range.conformation().low());
                    c <= range.conformation().high();
                    c++) {
                for (double f = Math.ceil(range.fat().low()); f <= range.fat().high(); f++) {
                    for (double kg : new double[] {
                        range.weightKg().low(), range.weightKg().high()
                    }) {
                        for (double share : Terms.shares(own, model.terms(c, f, kg))) {
                            least = Math.min(least, share);
                        }
                    }
                }
            }
        }
        return least < -ROUNDING_G_PER_KG;
    }

    /** Variances of the level of each child of a category, and of all coefficients. */
    private double[][] covarianceOf(Category category) {
        double[][] rows = of(category, loadings);
        double[][] all = new double[rows.length][rows.length];
        for (int a = 0; a < rows.length; a++) {
            double[] withUnknowns = withUnknowns(rows[a]);
            for (int b = 0; b <= a; b++) {
                all[a][b] = product(withUnknowns, rows[b]);
                all[b][a] = all[a][b];
            }
        }
        return all;
    }

    /** How many times as much as the average carcass of the trials one of a category varies in the prior table. */
    private double variation(Category ofCategory) {
        double own = trace(model.prior.covariance(ofCategory, null));
        double mean = trace(model.declared(null));
        return mean > 0 ? own / mean : 1;
    }

    /** The part of the covariance of one day that is each carcass's own and not its lot's. */
    private double ownPart() {
        double own = trace(model.declared(null));
        double lot = trace(model.declared(SharedBy.LOT));
        return own > 0 ? own / (own + lot) : 1;
    }

    private static double trace(double[][] matrix) {
        return IntStream.range(0, matrix.length).mapToDouble(k -> matrix[k][k]).sum();
    }

    /** What is not known of the hall that was learnt is what is not known of the coefficients. */
    private @Nullable Double hallSd(Category of, int child, boolean isOfOthers) {
        BreakdownRow row = model.prior.row(of, child);
        return !model.prior.states(SharedBy.HALL)
                ? null
                : isOfOthers && row != null ? row.shared().hallGPerKg() : Double.valueOf(0);
    }

    /**
     * What is written into a table.
     *
     * @param statesRuns whether that states how runs differ
     * @param isOfOthers whether the trials are of other halls than the table's
     */
    LearntBreakdown learnt(boolean statesRuns, boolean isOfOthers) {
        Map<Category, LearntBreakdown.OfCategory> byCategory = new LinkedHashMap<>();
        for (Category category : model.categories) {
            double times = variation(category) * ownPart();
            double[][] between = new double[cuts.size()][cuts.size()];
            List<LearntBreakdown.Sds> sds = new ArrayList<>();
            for (int k = 0; k < between.length; k++) {
                for (int l = 0; l < between.length; l++) {
                    between[k][l] = times * residual[k][l];
                }
                sds.add(new LearntBreakdown.Sds(
                        Math.sqrt(times) * residualSd(cuts.get(k)),
                        statesRuns ? runSd(cuts.get(k)) : null,
                        hallSd(category, k, isOfOthers)));
            }
            byCategory.put(
                    category,
                    new LearntBreakdown.OfCategory(
                            of(category, coefficients),
                            covarianceOf(category),
                            model.count(category) > 0,
                            sds,
                            between));
        }
        return new LearntBreakdown(model.prior, category(), byCategory);
    }
}
