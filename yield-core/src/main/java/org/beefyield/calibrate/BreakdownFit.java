package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.IntStream;
import org.beefyield.boning.Trial;
import org.beefyield.boning.WeighedBreakdown;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.stats.Regression;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.CovarianceRow;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.SharedSds;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * One breakdown fitted to trials: the coefficients of its children with their errors, and how well they describe the
 * carcasses. Immutable. Figures are g per kg of parent; those of coefficients are per unit of their column.
 *
 * <p>Children that were weighed as a group move together: what the group differs from the prior table is shared out in
 * proportion to the prior levels of its members. Their fit (R², errors) is the group's, and between carcasses they also
 * vary within the group by the prior's SDs.
 *
 * <p>Where categories are fitted together, coefficients and SDs are those of the average carcass of the trials. In the new
 * table each category stays as far from that as it is in the prior table, and varies as many times as much: so cows stay
 * fatter and less even than steers if the prior table has them so. To measure it, fit
 * {@link Calibration#withCategoriesApart() each category by itself}.
 */
public final class BreakdownFit {
    /**
     * What a child, or its group, of one carcass weighed beside what the fit says.
     *
     * @param carcass the carcass
     * @param fittedGPerKg by the fit, g per kg of parent
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

    final WeighedBreakdown breakdown;
    final PriorBreakdown priorBreakdown;
    final Regression regression;
    /** Trials in the order of the rows of the regression. */
    final List<Trial> trials;

    private final @Nullable Category category;
    private final List<String> columns;
    private final List<String> terms;
    private final List<String> cuts;
    /** Prior coefficients, all columns by children. */
    private final double[][] prior;
    /** Children by parts: what one g/kg of a part is of a child. */
    private final double[][] sharing;

    private final TermMoments moments;
    private final double[][] coefficients;
    private final double[][] unscaled;
    private final double[][] coefficientScale;
    private final double[][] residual;
    private final double[] kFold;

    BreakdownFit(
            PriorBreakdown priorBreakdown,
            @Nullable Category category,
            List<Trial> trials,
            Regression regression,
            List<String> columns,
            List<String> terms,
            double[][] prior) {
        this.breakdown = priorBreakdown.weighed;
        this.priorBreakdown = priorBreakdown;
        this.category = category;
        this.trials = trials;
        this.regression = regression;
        this.columns = columns;
        this.terms = terms;
        this.prior = prior;
        this.cuts = breakdown.children().stream().map(cut -> cut.code()).toList();
        this.sharing = sharing();
        this.moments = TermMoments.ofRows(terms, regression.weighted(), regression.rows());
        this.coefficients = expanded();
        this.unscaled = regression.unscaledCovariance();
        this.coefficientScale = new double[cuts.size()][cuts.size()];
        this.residual = new double[cuts.size()][cuts.size()];
        covariances();
        this.kFold = regression.kFold();
    }

    private double[][] sharing() {
        double[][] shares = new double[cuts.size()][breakdown.parts().size()];
        for (int part = 0; part < breakdown.parts().size(); part++) {
            List<Integer> members = breakdown.parts().get(part).members();
            double levels = 0;
            for (int member : members) {
                levels += prior[0][member];
            }
            for (int member : members) {
                shares[member][part] = members.size() == 1 ? 1 : prior[0][member] / levels;
            }
        }
        return shares;
    }

    /** What is fitted of the parts, as children: the prior where a part has several, moved with the part. */
    private double[][] expanded() {
        double[][] all = new double[columns.size()][];
        for (int column = 0; column < all.length; column++) {
            all[column] = prior[column].clone();
        }
        for (int j = 0; j < terms.size(); j++) {
            int column = columns.indexOf(terms.get(j));
            for (int part = 0; part < breakdown.parts().size(); part++) {
                List<Integer> members = breakdown.parts().get(part).members();
                double moved = regression.coefficient(j, part);
                for (int member : members) {
                    moved -= members.size() == 1 ? 0 : prior[column][member];
                }
                for (int member : members) {
                    all[column][member] =
                            members.size() == 1 ? moved : prior[column][member] + sharing[member][part] * moved;
                }
            }
        }
        return all;
    }

    private void covariances() {
        int parts = breakdown.parts().size();
        double[][] ofParts = new double[parts][parts];
        for (int a = 0; a < parts; a++) {
            for (int b = 0; b < parts; b++) {
                ofParts[a][b] = regression.squares(a, b) / regression.degreesOfFreedom();
            }
        }
        for (int a = 0; a < parts; a++) {
            for (int b = 0; b < parts; b++) {
                for (int k : breakdown.parts().get(a).members()) {
                    for (int l : breakdown.parts().get(b).members()) {
                        coefficientScale[k][l] = sharing[k][a] * sharing[l][b] * ofParts[a][b];
                        residual[k][l] = coefficientScale[k][l];
                    }
                }
            }
        }
        for (WeighedBreakdown.Part part : breakdown.parts()) {
            double sum = 0;
            for (int k : part.members()) {
                sum += priorVariance(k);
            }
            for (int k : part.members()) {
                for (int l : part.members()) {
                    if (part.members().size() > 1 && sum > 0) {
                        residual[k][l] += (k == l ? priorVariance(k) : 0) - priorVariance(k) * priorVariance(l) / sum;
                    }
                }
            }
        }
    }

    /** Mean over the trials. */
    private double priorVariance(int child) {
        double sum = 0;
        for (Trial trial : trials) {
            sum += priorVariance(trial.carcass().category(), child);
        }
        return sum / trials.size();
    }

    private double priorVariance(Category ofCategory, int child) {
        BreakdownRow row = priorBreakdown.row(ofCategory, child);
        return row == null ? 0 : row.sdGPerKg() * row.sdGPerKg();
    }

    /** How many times as much as the average carcass of the trials one of a category varies in the prior table. */
    private double variation(Category ofCategory) {
        double own = 0;
        double mean = 0;
        for (int k = 0; k < cuts.size(); k++) {
            own += priorVariance(ofCategory, k);
            mean += priorVariance(k);
        }
        return mean > 0 ? own / mean : 1;
    }

    /**
     * The cut that is broken down.
     *
     * @return its code, or {@code carcass}
     */
    public String parent() {
        return breakdown.parent();
    }

    /**
     * The way in which it is.
     *
     * @return name of the way, or {@code *} if there is only one
     */
    public String way() {
        return breakdown.way();
    }

    /**
     * Whose carcasses were fitted.
     *
     * @return letter of the category, or {@code *} if all were fitted together
     */
    public String category() {
        return category == null ? BreakdownRow.ANY : category.letter();
    }

    /**
     * What it is in words.
     *
     * @return such as {@code striploin, steaks} or {@code carcass (category D)}
     */
    public String name() {
        return breakdown.name() + (category == null ? "" : " (category " + category + ")");
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
        return terms;
    }

    /** Columns that were not fitted. */
    List<String> termsOfPrior() {
        return columns.stream().filter(column -> !terms.contains(column)).toList();
    }

    private int cut(String code) {
        int index = cuts.indexOf(code);
        if (index < 0) {
            throw new IllegalArgumentException(
                    "no cut \"" + code + "\" in the breakdown of " + name() + "; cuts: " + String.join(", ", cuts));
        }
        return index;
    }

    private int part(String code) {
        int child = cut(code);
        for (int part = 0; part < breakdown.parts().size(); part++) {
            if (breakdown.parts().get(part).members().contains(child)) {
                return part;
            }
        }
        throw new IllegalStateException(code);
    }

    private int term(String column, List<String> known) {
        int index = known.indexOf(column);
        if (index < 0) {
            throw new IllegalArgumentException("no term \"" + column + "\" in the breakdown of " + name() + "; terms: "
                    + String.join(", ", known));
        }
        return index;
    }

    /**
     * A coefficient.
     *
     * @param cut code of a child
     * @param term column
     * @return g/kg per unit of the column; the prior table's for a term that wasn't fitted
     * @throws IllegalArgumentException if there is no such cut or term
     */
    public double coefficient(String cut, String term) {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(term, "term");
        return coefficients[term(term, columns)][cut(cut)];
    }

    /**
     * The prior table's coefficient, closed; where categories that differ are fitted together, their mean over the trials.
     *
     * @param cut code of a child
     * @param term column
     * @return g/kg per unit of the column
     * @throws IllegalArgumentException if there is no such cut or term
     */
    public double priorCoefficient(String cut, String term) {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(term, "term");
        return prior[term(term, columns)][cut(cut)];
    }

    /**
     * Standard error of a coefficient.
     *
     * @param cut code of a child
     * @param term column of a fitted term
     * @return g/kg per unit of the column
     * @throws IllegalArgumentException if there is no such cut or fitted term
     */
    public double standardError(String cut, String term) {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(term, "term");
        return Math.sqrt(Math.max(0, coefficientCovariance(cut, term, cut, term)));
    }

    /**
     * Covariance of two coefficients: that of the children between carcasses times the inverse of the squares of the
     * terms, those of the prior with them.
     *
     * @param cut code of a child
     * @param term column of a fitted term
     * @param otherCut code of a child
     * @param otherTerm column of a fitted term
     * @return (g/kg)² per unit of both columns
     * @throws IllegalArgumentException if there is no such cut or fitted term
     */
    public double coefficientCovariance(String cut, String term, String otherCut, String otherTerm) {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(otherCut, "otherCut");
        Objects.requireNonNull(otherTerm, "otherTerm");
        Objects.requireNonNull(term, "term");
        return coefficientScale[cut(cut)][cut(otherCut)] * unscaled[term(term, terms)][term(otherTerm, terms)];
    }

    /**
     * Covariance of two children between carcasses of one grade: residual squares by {@link #degreesOfFreedom()}.
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
     * SD of a child between carcasses of one grade.
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
     * Carcasses in the fit.
     *
     * @return their number
     */
    public int carcassCount() {
        return trials.size();
    }

    /**
     * Degrees of freedom of the residuals: carcasses less terms; with shrinkage n - 2 tr H + tr HH', H the matrix that
     * makes the fitted from the weighed (Hastie and Tibshirani 1990, Generalized Additive Models, section 3.5; cited from
     * memory), which is that without shrinkage and n with unlimited shrinkage.
     *
     * @return above 0, not a whole number with shrinkage
     */
    public double degreesOfFreedom() {
        return regression.degreesOfFreedom();
    }

    /**
     * Strength of the shrinkage.
     *
     * @return carcasses that the prior table counts for, 0 or more
     */
    public double strength() {
        return regression.strength();
    }

    /** What the prior table counts for. */
    String strengthWords() {
        return strength() == 0 ? "nothing" : Numbers.exact(strength()) + " carcasses";
    }

    /**
     * Moments of the fitted terms over the carcasses: with them and {@link #carcassCount()} for a strength, a table made
     * of this fit stands for its carcasses in a later calibration exactly.
     *
     * @return the moments
     */
    public TermMoments moments() {
        return moments;
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
        return regression.r2(part(cut));
    }

    /**
     * The residuals of a child, or of its group, carcass by carcass.
     *
     * @param cut code of a child
     * @return an unmodifiable list in the order of the trials
     * @throws IllegalArgumentException if there is no such cut
     */
    public List<Residual> residuals(String cut) {
        Objects.requireNonNull(cut, "cut");
        int part = part(cut);
        return IntStream.range(0, trials.size())
                .mapToObj(i -> new Residual(
                        trials.get(i).carcass(),
                        regression.response(part, i) - regression.residual(part, i),
                        regression.residual(part, i)))
                .toList();
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
        return regression.rmse(part(cut));
    }

    /**
     * Root of the mean squared error of each carcass under the fit to all others, for a child or its group.
     *
     * @param cut code of a child
     * @return g/kg; not a number if a term can't be estimated without one of the carcasses
     * @throws IllegalArgumentException if there is no such cut
     */
    public double leaveOneOut(String cut) {
        Objects.requireNonNull(cut, "cut");
        return regression.leaveOneOut(part(cut));
    }

    /**
     * Root of the mean squared error with a tenth of the carcasses left out at a time, for a child or its group. Each
     * tenth is spread over the range of the terms.
     *
     * @param cut code of a child
     * @return g/kg; not a number if the terms can't be told apart without one of the tenths
     * @throws IllegalArgumentException if there is no such cut
     */
    public double tenfold(String cut) {
        Objects.requireNonNull(cut, "cut");
        return kFold[part(cut)];
    }

    /** The categories whose rows the fit gives, those together that the prior table doesn't set apart. */
    List<List<Category>> alike(List<Category> served) {
        if (category != null) {
            return List.of(List.of(category));
        }
        Map<List<Double>, List<Category>> byPrior = new LinkedHashMap<>();
        for (Category one : served) {
            List<Double> figures = new ArrayList<>();
            for (int k = 0; k < cuts.size(); k++) {
                BreakdownRow row = priorBreakdown.row(one, k);
                if (row != null) {
                    figures.addAll(row.coefficients());
                    figures.add(row.sdGPerKg());
                    for (SharedBy by : SharedBy.values()) {
                        Double shared = row.shared().of(by);
                        figures.add(shared == null ? Double.NaN : shared);
                    }
                }
            }
            byPrior.computeIfAbsent(figures, key -> new ArrayList<>()).add(one);
        }
        return List.copyOf(byPrior.values());
    }

    boolean hasTrialOf(List<Category> categories) {
        return trials.stream()
                .anyMatch(trial -> categories.contains(trial.carcass().category()));
    }

    /** Rows of the new table for a category, and how they write it. */
    List<BreakdownRow> rows(Category ofCategory, String written, String source) {
        double[][] own = priorBreakdown.coefficients(ofCategory);
        double spread = Math.sqrt(variation(ofCategory));
        List<BreakdownRow> rows = new ArrayList<>();
        for (int k = 0; k < cuts.size(); k++) {
            List<Double> row = new ArrayList<>();
            for (int j = 0; j < columns.size(); j++) {
                row.add(coefficients[j][k] + own[j][k] - prior[j][k]);
            }
            BreakdownRow before = priorBreakdown.row(ofCategory, k);
            rows.add(new BreakdownRow(
                    written,
                    way(),
                    parent(),
                    cuts.get(k),
                    row,
                    spread * residualSd(cuts.get(k)),
                    before == null ? none(breakdown.tableRows().get(0).shared()) : ofTheHall(before.shared()),
                    source));
        }
        return rows;
    }

    /** Errors of lots and runs are the prior's; what other halls do doesn't matter where the trials are the hall's own. */
    private static SharedSds ofTheHall(SharedSds prior) {
        return new SharedSds(prior.lotGPerKg(), prior.runGPerKg(), prior.hallGPerKg() == null ? null : 0.0);
    }

    /** Of a child that the category hasn't in the prior table: nothing, where the table states anything. */
    private static SharedSds none(SharedSds ofTable) {
        return new SharedSds(
                ofTable.lotGPerKg() == null ? null : 0.0,
                ofTable.runGPerKg() == null ? null : 0.0,
                ofTable.hallGPerKg() == null ? null : 0.0);
    }

    /** Covariances of the new table for a category, and how they write it. */
    List<CovarianceRow> covarianceRows(Category ofCategory, String written) {
        double variation = variation(ofCategory);
        List<CovarianceRow> rows = new ArrayList<>();
        for (int k = 0; k < cuts.size(); k++) {
            for (int l = 0; l <= k; l++) {
                rows.add(new CovarianceRow(
                        written, way(), parent(), cuts.get(k), "", cuts.get(l), "", variation * residual[k][l]));
            }
        }
        for (int a = 0; a < terms.size() * cuts.size(); a++) {
            for (int b = 0; b <= a; b++) {
                String cut = cuts.get(a % cuts.size());
                String term = terms.get(a / cuts.size());
                String otherCut = cuts.get(b % cuts.size());
                String otherTerm = terms.get(b / cuts.size());
                rows.add(new CovarianceRow(
                        written,
                        way(),
                        parent(),
                        cut,
                        term,
                        otherCut,
                        otherTerm,
                        coefficientCovariance(cut, term, otherCut, otherTerm)));
            }
        }
        return rows;
    }
}
