package org.beefyield.stats;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/**
 * Regression of several responses that always add up to the same, on rows that stand in groups: response = known + terms times
 * coefficients + effect of the group + error, effects and errors normal, each with a covariance between the responses. The
 * coefficients hang on unknowns: each is what was known of it plus loadings times these. An unknown is either free or was known
 * beforehand to be 0 with a standard deviation of 1, so that what is known beforehand of the coefficients is said by their
 * loadings. A response that is missing in a row is left out; the others of that row count.
 *
 * <p>Given the covariances the unknowns are estimated by generalized least squares, exactly. The covariances are those of
 * greatest restricted likelihood (REML), to which a declared covariance is added as if it had been found from so many degrees
 * of freedom; the covariance between groups is either that, found by the EM algorithm, or a share of the covariance within,
 * 0 or more, or it is kept as declared.
 *
 * <p>Sources: Laird and Ware 1982, Biometrics 38, 963 to 974 (EM with REML); Harville 1977, Journal of the American Statistical
 * Association 72, 320 to 338.
 */
public final class GroupedRegression {
    /** How the covariance between groups is found. */
    public enum Between {
        /** As declared. */
        KEPT,
        /** A share of the covariance within groups, 0 or more; nothing of it is declared. */
        SHARE,
        /** A covariance of its own. */
        COVARIANCE
    }

    /**
     * Rows.
     *
     * @param terms rows by terms
     * @param values rows by responses, NaN where one is missing
     * @param weights weight of each row, above 0: its error's covariance is that within groups divided by it
     * @param groups number of the group that each row stands in, from 0
     * @param kinds number of the kind of each row, from 0; kinds differ in what is known of their coefficients
     */
    @SuppressWarnings("ArrayRecordComponent")
    public record Rows(double[][] terms, double[][] values, double[] weights, int[] groups, int[] kinds) {
        /** Checks that nothing is missing. */
        public Rows {
            Given.noNull(terms, "terms");
            Given.noNull(values, "values");
            Objects.requireNonNull(weights, "weights");
            Objects.requireNonNull(groups, "groups");
            Objects.requireNonNull(kinds, "kinds");
        }
    }

    /**
     * What is known of the coefficients beforehand.
     *
     * @param known by kind, terms by responses
     * @param loadings by kind, term and response, what each unknown adds to the coefficient
     * @param free by unknown, whether nothing is known of it
     */
    @SuppressWarnings("ArrayRecordComponent")
    public record Prior(double[][][] known, double[][][][] loadings, boolean[] free) {
        /** Checks that nothing is missing. */
        public Prior {
            Given.noNull(known, "known");
            Given.noNull(loadings, "loadings");
            Objects.requireNonNull(free, "free");
        }
    }

    /**
     * What is known of the covariances beforehand.
     *
     * @param within between the errors of the responses of one row
     * @param withinDegrees degrees of freedom that it counts for, 0 or more; infinite if both covariances are known
     * @param between between the effects of a group on the responses
     * @param betweenDegrees degrees of freedom that it counts for, 0 or more
     * @param how how the latter is found
     */
    @SuppressWarnings("ArrayRecordComponent")
    public record Declared(
            double[][] within, double withinDegrees, double[][] between, double betweenDegrees, Between how) {
        /** Checks that nothing is missing. */
        public Declared {
            Given.noNull(within, "within");
            Given.noNull(between, "between");
            Objects.requireNonNull(how, "how");
        }
    }

    private final GroupedEstimation estimation;

    private GroupedRegression(GroupedEstimation estimation) {
        this.estimation = estimation;
    }

    /**
     * Estimates.
     *
     * @param rows rows, one or more
     * @param prior what is known of the coefficients
     * @param declared what is known of the covariances
     * @return the fit
     * @throws IllegalArgumentException if there is no row, or a weight isn't above 0, or a figure isn't finite, or the free
     *     unknowns can't be told apart
     */
    public static GroupedRegression fit(Rows rows, Prior prior, Declared declared) {
        Objects.requireNonNull(declared, "declared");
        Objects.requireNonNull(prior, "prior");
        Objects.requireNonNull(rows, "rows");
        if (rows.weights().length == 0) {
            throw new IllegalArgumentException("there are no rows");
        }
        if (!Arrays.stream(rows.weights()).allMatch(weight -> weight > 0 && Double.isFinite(weight))) {
            throw new IllegalArgumentException("a weight is above 0");
        }
        return new GroupedRegression(new GroupedEstimation(rows, prior, declared));
    }

    /**
     * The unknowns.
     *
     * @return a value for each; 0 is what was known beforehand
     */
    public double[] unknowns() {
        return estimation.unknowns();
    }

    /**
     * Covariance of what is not known of the unknowns.
     *
     * @return unknowns by unknowns
     */
    public double[][] covariance() {
        return estimation.covariance();
    }

    /**
     * Covariance of the errors of the responses of one row.
     *
     * @return responses by responses
     */
    public double[][] within() {
        return estimation.within();
    }

    /**
     * Covariance of the effects of a group on the responses.
     *
     * @return responses by responses
     */
    public double[][] between() {
        return estimation.between();
    }

    /**
     * The covariance between groups as a share of that within, where it is one.
     *
     * @return 0 or more
     */
    public double share() {
        return estimation.share();
    }

    /**
     * The effect of a group as far as its rows tell it.
     *
     * @param group number of a group
     * @return by response
     */
    public double[] effect(int group) {
        return estimation.effect(group);
    }

    /**
     * What the fit leaves of a row, its group's effect taken off.
     *
     * @param row number of a row
     * @return by response, NaN where it is missing
     */
    public double[] error(int row) {
        return estimation.error(row);
    }

    /**
     * What coefficients expect of a row without the effect of its group.
     *
     * @param row number of a row
     * @return by response
     */
    public double[] fitted(int row) {
        return estimation.fitted(row);
    }

    /**
     * Degrees of freedom of the covariance within groups (Satterthwaite): rows less what was fitted to them; with a declared
     * covariance as many as make the error of both together, the declared one being a constant.
     *
     * @return above 0 if there are more rows than are fitted
     */
    public double withinDegrees() {
        return estimation.withinDegrees();
    }

    /**
     * Degrees of freedom of the covariance between groups, likewise: as many groups as the rows tell the effects of; of a share as
     * many as there are groups, less one.
     *
     * @return 0 or more
     */
    public double betweenDegrees() {
        return estimation.betweenDegrees();
    }

    /**
     * Groups that the rows tell the effects of.
     *
     * @return 0 to the number of groups, not a whole number
     */
    public double learntGroups() {
        return estimation.learntGroups();
    }

    /**
     * What the fit to all other groups expects of each row, with the covariances as they are.
     *
     * @param folds groups that are left out together
     * @return rows by responses; NaN where the unknowns can't be told apart without the groups
     */
    public double[][] leftOut(List<int[]> folds) {
        Objects.requireNonNull(folds, "folds");
        return estimation.leftOut(folds);
    }

    /**
     * One line.
     *
     * @return what it is
     */
    @Override
    public String toString() {
        return "regression with " + unknowns().length + " unknowns";
    }
}
