package org.beefyield.stats;

import static org.beefyield.stats.Matrices.addTimes;
import static org.beefyield.stats.Matrices.addTransposedTimesBelow;
import static org.beefyield.stats.Matrices.copy;
import static org.beefyield.stats.Matrices.decomposed;
import static org.beefyield.stats.Matrices.isZero;
import static org.beefyield.stats.Matrices.largest;
import static org.beefyield.stats.Matrices.mirror;
import static org.beefyield.stats.Matrices.product;
import static org.beefyield.stats.Matrices.quadratic;
import static org.beefyield.stats.Matrices.scaled;
import static org.beefyield.stats.Matrices.symmetrize;
import static org.beefyield.stats.Matrices.times;
import static org.beefyield.stats.Matrices.timesTransposed;
import static org.beefyield.stats.Matrices.timesTransposedOf;
import static org.beefyield.stats.Matrices.trace;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.NonPositiveDefiniteMatrixException;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;
import org.jspecify.annotations.Nullable;

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

    private final Estimation estimation;

    private GroupedRegression(Estimation estimation) {
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
        return new GroupedRegression(new Estimation(new Estimation.Sums(rows, prior.known()), prior, declared));
    }

    /**
     * Estimates other unknowns, or with other covariances, from the same rows: what is summed up over these is the same for all.
     *
     * @param prior what is known of the coefficients, the known part of them as it was
     * @param declared what is known of the covariances
     * @return another fit
     * @throws IllegalArgumentException if the known part is another one, or the free unknowns can't be told apart
     */
    public GroupedRegression refit(Prior prior, Declared declared) {
        Objects.requireNonNull(declared, "declared");
        Objects.requireNonNull(prior, "prior");
        if (!Arrays.deepEquals(prior.known(), estimation.prior.known())) {
            throw new IllegalArgumentException("the known part of the coefficients is not that of the first fit");
        }
        return new GroupedRegression(new Estimation(estimation.sums, prior, declared));
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
     * What the coefficients leave of a row, its group's effect in it.
     *
     * @param row number of a row
     * @return by response, NaN where it is missing
     */
    public double[] residual(int row) {
        return estimation.residual(row);
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
     * Degrees of freedom of the covariance between groups, likewise: as many groups as the rows tell the effects of; where nothing
     * of it is declared as many as there are groups, less one.
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
     * What the coefficients fitted to all other groups leave of the rows of each, with the covariances as they are.
     *
     * @param folds groups that are left out together, each group in one of them
     * @param precisions by response, what its squares count for
     * @return by group, the sum of the squares of all that its rows have, by their weights and precisions; NaN where the unknowns
     *     can't be told apart without the group
     */
    public double[] leftOut(List<int[]> folds, double[] precisions) {
        Objects.requireNonNull(folds, "folds");
        Objects.requireNonNull(precisions, "precisions");
        folds.forEach(fold -> Objects.requireNonNull(fold, "folds"));
        return estimation.leftOut(folds, precisions);
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

    /** Finds the covariances and the unknowns. */
    private static final class Estimation {
        /** Part of the variance within groups below which one between them is none. */
        private static final double NOTHING = 1e-9;

        /** Part of the squares of what is not known below which those that are left are none. */
        private static final double VANISHED = 1e-11;

        private static final int ROUNDS = 500;
        /** Steps that an extrapolation goes at most. */
        private static final double FARTHEST = 64;

        /** Degrees of freedom beside which more make no difference. */
        private static final double MANY = 1e6;

        private static final double PRECISION = 1e-10;
        /** Of covariances that the EM algorithm finds by small steps. */
        private static final double PRECISION_OF_STEPS = 1e-7;

        private static final double SHARE_PRECISION = 1e-8;
        /** Of the grid of shares: its first step over the rows of the largest group, and how many times each is the one before. */
        private static final double FIRST_STEP = 1e-3;

        private static final double STEP = 10;
        private static final double POLISH = 1e-4;
        /** How far from what is near the polished share may be, as a part. */
        private static final double NEAR = 0.01;

        private static final int SECANTS = 8;
        private static final int STEPS = 9;
        /** Share of the covariance within groups from which that between them is looked for if none is declared. */
        private static final double START = 0.05;

        /** Patterns up to which what they tell is kept. */
        private static final int FEW_PATTERNS = 8;

        /** Part of the largest variance that is added to each, so that what doesn't vary does no harm. */
        private static final double RIDGE = 1e-13;

        private final Sums sums;
        private final Rows rows;
        private final Prior prior;
        private final Declared declared;
        private final int n;
        private final int terms;
        private final int unknowns;
        private final int responses;
        private final int contrasts;
        private final int groups;
        private final double[][] basis;
        /** By kind that rows are of and term, contrasts by unknowns. */
        private final double[][][][] loadings;
        /** The same by unknown that moves them, by kind. */
        private final Mover[][] movers;
        /** By kind and term, whether any does. */
        private final boolean[][] isMoved;

        /** The same of the kinds that rows are of, one after the other. */
        private final double[][][] loadingsOfKinds;

        private final double[][] rest;
        private final List<Pattern> patterns = new ArrayList<>();
        private final List<List<Sums.Cell>> cells;
        private final List<Sums.Cell> all;
        private final List<List<Loaded>> loaded = new ArrayList<>();

        private double[][] within;
        private double[][] between;
        private double share;
        private Solution solution;
        private double[][] effects;
        /** The same by response, once they are asked for. */
        private double[][] effectsOfResponses = new double[0][];

        private double[][][] effectVariances;
        /** By group, what it tells of its effect through the unknowns times the covariance of these. */
        private double[][][] crossed;

        private double learntGroups;
        /** Whether effects are those of the solution. */
        private volatile boolean areEffectsKnown;

        private final double[][][] movedResponses;

        /** Responses that rows have. */
        private static final class Pattern {
            final int[] seen;
            /** Contrasts by contrasts: what a row tells. */
            double[][] information = new double[0][];
            /** Contrasts by those seen: makes of what is left of a row what it tells. */
            double[][] teller = new double[0][];

            /** Of contrasts, the shortest with the same responses seen. */
            final double[][] projection;

            double logDeterminant;

            /** By kind, what a row tells of what moves it, once it was asked for, where patterns are few. */
            final Map<Integer, double[][]> informed = new HashMap<>();

            Pattern(int[] seen, double[][] projection) {
                this.seen = seen;
                this.projection = projection;
            }
        }

        /** What an unknown moves the contrasts of a term by. */
        private static final class Mover {
            final int term;
            final int unknown;
            final double[] ofContrasts;

            Mover(int term, int unknown, double[] ofContrasts) {
                this.term = term;
                this.unknown = unknown;
                this.ofContrasts = ofContrasts;
            }
        }

        /** What is summed up over the rows, whatever the unknowns and the covariances are. */
        private static final class Sums {
            final Rows rows;
            final int n;
            final int terms;
            final int responses;
            final int contrasts;
            final int groups;
            /** Orthonormal contrasts of the responses, by response. */
            final double[][] basis;
            /** Rows less what is known, by response. */
            final double[][] rest;
            /** Responses that rows have. */
            final List<int[]> patterns;
            /** By pattern, of contrasts those that have the same responses seen and are shortest. */
            final List<double[][]> projections;
            /** By group, by pattern and kind. */
            final List<List<Cell>> cells;
            /** Of all groups together. */
            final List<Cell> all;
            /** By group, the first one whose rows tell as much of its effect: each pattern weighs the same. */
            final int[] alike;
            /** Sum of the squares of the contrasts of what is not known. */
            final double squaresOfRest;
            /** Kinds that rows are of. */
            final int[] kinds;
            /** None if a row lacks a response. */
            final @Nullable CompleteRows complete;

            private final IdentityHashMap<int[], List<Cell>> folds = new IdentityHashMap<>();

            Sums(Rows rows, double[][][] known) {
                this.rows = rows;
                this.n = rows.weights().length;
                this.terms = rows.terms()[0].length;
                this.responses = rows.values()[0].length;
                this.contrasts = responses - 1;
                this.groups = 1 + Arrays.stream(rows.groups()).max().orElseThrow();
                this.basis = basis(responses);
                this.rest = new double[n][];
                for (int row = 0; row < n; row++) {
                    rest[row] = rows.values()[row].clone();
                    for (int a = 0; a < terms; a++) {
                        addTimes(rest[row], known[rows.kinds()[row]][a], -rows.terms()[row][a]);
                    }
                }
                this.patterns = new ArrayList<>();
                Map<BitSet, Integer> numbers = new HashMap<>();
                this.cells = new ArrayList<>();
                for (int g = 0; g < groups; g++) {
                    cells.add(new ArrayList<>());
                }
                BitSet before = null;
                int number = 0;
                for (int row = 0; row < n; row++) {
                    // most rows lack what the row before them lacks
                    BitSet own = seen(row);
                    if (!own.equals(before)) {
                        before = own;
                        number = numbers.computeIfAbsent(own, key -> {
                            patterns.add(key.stream().toArray());
                            return patterns.size() - 1;
                        });
                    }
                    cell(cells.get(rows.groups()[row]), number, rows.kinds()[row])
                            .add(row);
                }
                this.all = together(cells);
                this.alike = new int[groups];
                Map<Map<Integer, Double>, Integer> byWeights = new HashMap<>();
                for (int g = 0; g < groups; g++) {
                    Map<Integer, Double> weights = new HashMap<>();
                    cells.get(g).forEach(cell -> weights.merge(cell.pattern, cell.weight, Double::sum));
                    alike[g] = byWeights.merge(weights, g, (first, own) -> first);
                }
                this.squaresOfRest = all.stream()
                        .mapToDouble(cell -> trace(cell.contrastProducts))
                        .sum();
                this.projections = patterns.stream().map(this::projection).toList();
                this.kinds = all.stream()
                        .mapToInt(cell -> cell.kind)
                        .distinct()
                        .sorted()
                        .toArray();
                this.complete = patterns.size() == 1 && patterns.get(0).length == contrasts ? complete() : null;
            }

            /** The cell of a pattern and a kind among some, to which it is added if it is none of them yet. */
            private Cell cell(List<Cell> some, int pattern, int kind) {
                for (Cell cell : some) {
                    if (cell.pattern == pattern && cell.kind == kind) {
                        return cell;
                    }
                }
                Cell added = new Cell(pattern, kind);
                some.add(added);
                return added;
            }

            private CompleteRows complete() {
                int own = kinds.length * terms;
                double[][] products = new double[own][own];
                double[][] told = new double[contrasts][own];
                double[][] squares = new double[contrasts][contrasts];
                for (Cell cell : all) {
                    int from = Arrays.binarySearch(kinds, cell.kind) * terms;
                    for (int a = 0; a < terms; a++) {
                        System.arraycopy(cell.products[a], 0, products[from + a], from, terms);
                    }
                    for (int j = 0; j < contrasts; j++) {
                        System.arraycopy(cell.contrastsByTerms[j], 0, told[j], from, terms);
                    }
                    addTimes(squares, cell.contrastProducts, 1);
                }
                Map<Integer, List<double[][]>> sumsOfAlike = new LinkedHashMap<>();
                for (int g = 0; g < groups; g++) {
                    double[] ofTerms = new double[own];
                    double[] ofContrasts = new double[contrasts];
                    for (Cell cell : cells.get(g)) {
                        System.arraycopy(cell.sums, 0, ofTerms, Arrays.binarySearch(kinds, cell.kind) * terms, terms);
                        addTimes(ofContrasts, cell.contrastSums, 1);
                    }
                    sumsOfAlike
                            .computeIfAbsent(alike[g], first -> new ArrayList<>())
                            .add(new double[][] {ofTerms, ofContrasts});
                }
                List<CompleteRows.Alike> ofWeights = new ArrayList<>();
                sumsOfAlike.forEach((first, some) -> {
                    double[][] ofTerms = some.stream().map(of -> of[0]).toArray(double[][]::new);
                    double[][] ofContrasts = some.stream().map(of -> of[1]).toArray(double[][]::new);
                    ofWeights.add(new CompleteRows.Alike(
                            cells.get(first).stream()
                                    .mapToDouble(cell -> cell.weight)
                                    .sum(),
                            some.size(),
                            timesTransposed(ofTerms, ofTerms),
                            timesTransposed(ofContrasts, ofTerms),
                            timesTransposed(ofContrasts, ofContrasts)));
                });
                return new CompleteRows(products, told, squares, ofWeights);
            }

            /** Responses that a row has, but for the last one if it has all, for that follows from the others. */
            private BitSet seen(int row) {
                BitSet seen = new BitSet(responses);
                for (int k = 0; k < responses; k++) {
                    seen.set(k, !Double.isNaN(rest[row][k]));
                }
                if (seen.cardinality() == responses) {
                    seen.clear(responses - 1);
                }
                return seen;
            }

            /** Orthonormal contrasts: each response against the mean of those before it. */
            private static double[][] basis(int responses) {
                double[][] basis = new double[responses][responses - 1];
                for (int j = 0; j < responses - 1; j++) {
                    double length = Math.sqrt((j + 1.0) * (j + 2.0));
                    for (int k = 0; k <= j; k++) {
                        basis[k][j] = 1 / length;
                    }
                    basis[j + 1][j] = -(j + 1) / length;
                }
                return basis;
            }

            /** The same of a fold of groups, summed up once: every fit leaves out the same folds. */
            synchronized List<Cell> ofFold(int[] fold) {
                return folds.computeIfAbsent(
                        fold,
                        some -> together(
                                Arrays.stream(some).mapToObj(cells::get).toList()));
            }

            /** By pattern and kind, sums over the rows of some groups. */
            List<Cell> together(List<List<Cell>> some) {
                List<Cell> together = new ArrayList<>();
                for (List<Cell> ofGroup : some) {
                    for (Cell cell : ofGroup) {
                        cell(together, cell.pattern, cell.kind).add(cell);
                    }
                }
                return together;
            }

            /** Contrasts of least length that have what is left of the responses seen. */
            private double[] contrastsOf(int[] ofSeen, double[] seen) {
                int k = seen.length;
                double[] contrast = new double[contrasts];
                if (k == 0) {
                    return contrast;
                }
                // (of' of)^-1 for rows of the basis: unit matrix less 1/responses everywhere
                double sum = 0;
                for (double one : seen) {
                    sum += one;
                }
                sum /= responses - k;
                for (int i = 0; i < k; i++) {
                    addTimes(contrast, basis[ofSeen[i]], seen[i] + sum);
                }
                return contrast;
            }

            /** Of contrasts, those that have the same responses seen and are shortest. */
            private double[][] projection(int[] ofSeen) {
                double[][] projected = new double[contrasts][contrasts];
                double[] seen = new double[ofSeen.length];
                for (int j = 0; j < contrasts; j++) {
                    for (int k = 0; k < seen.length; k++) {
                        seen[k] = basis[ofSeen[k]][j];
                    }
                    double[] contrast = contrastsOf(ofSeen, seen);
                    for (int i = 0; i < contrasts; i++) {
                        projected[i][j] = contrast[i];
                    }
                }
                return projected;
            }

            /** Sums over the rows of a pattern and a kind. */
            final class Cell {
                final int pattern;
                final int kind;
                double weight;
                int count;
                final double[] sums = new double[terms];
                final double[][] products = new double[terms][terms];
                /** Of what is left of the responses seen. */
                final double[] left;
                /** Terms by responses seen. */
                final double[][] crossed;
                /** The same of the contrasts of what is left, with their products. */
                final double[] contrastSums = new double[contrasts];

                final double[][] contrastsByTerms = new double[contrasts][terms];
                final double[][] contrastProducts = new double[contrasts][contrasts];

                Cell(int pattern, int kind) {
                    this.pattern = pattern;
                    this.kind = kind;
                    int seen = patterns.get(pattern).length;
                    this.left = new double[seen];
                    this.crossed = new double[terms][seen];
                }

                void add(int row) {
                    double w = rows.weights()[row];
                    double[] x = rows.terms()[row];
                    int[] seen = patterns.get(pattern);
                    weight += w;
                    count++;
                    double[] ofSeen = new double[seen.length];
                    for (int k = 0; k < seen.length; k++) {
                        ofSeen[k] = rest[row][seen[k]];
                    }
                    for (int a = 0; a < terms; a++) {
                        double by = w * x[a];
                        sums[a] += by;
                        if (by != 0) {
                            addTimes(products[a], x, by);
                            addTimes(crossed[a], ofSeen, by);
                        }
                    }
                    addTimes(left, ofSeen, w);
                    double[] contrast = contrastsOf(seen, ofSeen);
                    addTimes(contrastSums, contrast, w);
                    for (int j = 0; j < contrasts; j++) {
                        addTimes(contrastsByTerms[j], x, w * contrast[j]);
                        addTimes(contrastProducts[j], contrast, w * contrast[j]);
                    }
                }

                void add(Cell other) {
                    weight += other.weight;
                    count += other.count;
                    addTimes(sums, other.sums, 1);
                    addTimes(products, other.products, 1);
                    addTimes(left, other.left, 1);
                    addTimes(crossed, other.crossed, 1);
                    addTimes(contrastSums, other.contrastSums, 1);
                    addTimes(contrastsByTerms, other.contrastsByTerms, 1);
                    addTimes(contrastProducts, other.contrastProducts, 1);
                }
            }
        }

        /** What the rows of one group tell: of its effect, of the unknowns through it, and what is left. */
        private static final class OfGroup {
            final double[][] loaded;
            final double[] told;

            OfGroup(double[][] loaded, double[] told) {
                this.loaded = loaded;
                this.told = told;
            }
        }

        /** Sum of the loadings of the rows of a group and a pattern: contrasts by unknowns. */
        private static final class Loaded {
            final int pattern;
            final double[][] sum;
            double weight;

            Loaded(int pattern, double[][] sum) {
                this.pattern = pattern;
                this.sum = sum;
            }
        }

        /** Normal equations of the unknowns, and what follows. */
        private final class Solution {
            /** Whether nothing varies between groups. */
            final boolean isNone;

            final double[][] precision;
            final double[] right;
            final OfGroup[] ofGroups = new OfGroup[groups];
            /** Those of groups that are alike are one. */
            final double[][][] shrinkers = new double[groups][][];
            /** By group, what it tells of its effect through the unknowns: contrasts by unknowns. */
            final double[][][] through = new double[groups][][];

            final double[] logDeterminantsOfGroups = new double[groups];
            double squares;
            double logDeterminants;

            final double[] unknown;
            final double[][][] moved;
            final double[][] covariance;
            final double logLikelihood;

            Solution() {
                isNone = isZero(between);
                precision = new double[unknowns][unknowns];
                right = new double[unknowns];
                for (int m = 0; m < unknowns; m++) {
                    precision[m][m] = prior.free()[m] ? 0 : 1;
                }
                for (Sums.Cell cell : all) {
                    addDirect(precision, right, cell, 1);
                }
                for (Sums.Cell cell : all) {
                    Pattern pattern = patterns.get(cell.pattern);
                    for (int j = 0; j < contrasts; j++) {
                        for (int k = 0; k < contrasts; k++) {
                            squares += pattern.information[j][k] * cell.contrastProducts[j][k];
                        }
                    }
                    logDeterminants += cell.count * pattern.logDeterminant;
                }
                for (int g = 0; g < groups; g++) {
                    ofGroups[g] = ofGroup(g);
                    takeOff(g);
                }
                mirror(precision);
                RealMatrix matrix = new Array2DRowRealMatrix(precision, false);
                CholeskyDecomposition solver = decomposed(matrix);
                unknown = solver.getSolver()
                        .solve(new ArrayRealVector(right, false))
                        .toArray();
                moved = moved(unknown);
                covariance = solver.getSolver().getInverse().getData();
                double logOfPrecision = 0;
                double[][] l = solver.getL().getData();
                for (int m = 0; m < unknowns; m++) {
                    logOfPrecision += 2 * Math.log(l[m][m]);
                }
                double explained = 0;
                for (int m = 0; m < unknowns; m++) {
                    explained += right[m] * unknown[m];
                }
                logLikelihood = -(logDeterminants + logOfPrecision + squares - explained) / 2;
            }

            private void takeOff(int g) {
                shrink(g);
                if (isNone) {
                    return;
                }
                OfGroup of = ofGroups[g];
                addTransposedTimesBelow(precision, of.loaded, through[g], -1);
                double[] effect = times(shrinkers[g], of.told);
                for (int j = 0; j < contrasts; j++) {
                    for (int m = 0; m < unknowns; m++) {
                        right[m] -= of.loaded[j][m] * effect[j];
                    }
                    squares -= of.told[j] * effect[j];
                }
                logDeterminants += logDeterminantsOfGroups[g];
            }

            /** Covariance of what isn't known of a group's effect if the unknowns were: (between^-1 + information)^-1. */
            private void shrink(int g) {
                int first = sums.alike[g];
                if (isNone) {
                    shrinkers[g] = g == first ? new double[contrasts][contrasts] : shrinkers[first];
                } else if (g != first) {
                    shrinkers[g] = shrinkers[first];
                    logDeterminantsOfGroups[g] = logDeterminantsOfGroups[first];
                } else {
                    double[][] information = new double[contrasts][contrasts];
                    for (Loaded of : loaded.get(g)) {
                        addTimes(information, patterns.get(of.pattern).information, of.weight);
                    }
                    double[][] ratio = times(between, information);
                    for (int j = 0; j < contrasts; j++) {
                        ratio[j][j] += 1;
                    }
                    LUDecomposition solver =
                            new LUDecomposition(new Array2DRowRealMatrix(ratio, false), Double.MIN_NORMAL);
                    shrinkers[g] = solver.getSolver()
                            .solve(new Array2DRowRealMatrix(between, false))
                            .getData();
                    symmetrize(shrinkers[g]);
                    logDeterminantsOfGroups[g] = Math.log(solver.getDeterminant());
                }
                through[g] = times(shrinkers[g], ofGroups[g].loaded);
            }
        }

        Estimation(Sums sums, Prior prior, Declared declared) {
            this.sums = sums;
            this.rows = sums.rows;
            this.prior = prior;
            this.declared = declared;
            this.n = sums.n;
            this.terms = sums.terms;
            this.unknowns = prior.free().length;
            this.responses = sums.responses;
            this.contrasts = sums.contrasts;
            this.groups = sums.groups;
            this.basis = sums.basis;
            this.rest = sums.rest;
            this.cells = sums.cells;
            this.all = sums.all;
            for (int p = 0; p < sums.patterns.size(); p++) {
                patterns.add(new Pattern(sums.patterns.get(p), sums.projections.get(p)));
            }
            this.loadings = new double[prior.loadings().length][terms][][];
            this.movers = new Mover[loadings.length][];
            this.isMoved = new boolean[loadings.length][terms];
            for (int kind : sums.kinds) {
                for (int a = 0; a < terms; a++) {
                    loadings[kind][a] = timesTransposed(basis, prior.loadings()[kind][a]);
                }
                movers[kind] = movers(loadings[kind]);
                for (Mover mover : movers[kind]) {
                    isMoved[kind][mover.term] = true;
                }
            }
            this.loadingsOfKinds = Arrays.stream(sums.kinds)
                    .mapToObj(kind -> loadings[kind])
                    .flatMap(Arrays::stream)
                    .toArray(double[][][]::new);
            cells.forEach(ofGroup -> loaded.add(loaded(ofGroup)));
            this.within = inContrasts(declared.within());
            this.between = inContrasts(declared.between());
            this.effects = new double[groups][contrasts];
            this.effectVariances = new double[groups][][];
            this.crossed = new double[groups][][];
            if (isZero(within)) {
                start();
            }
            boolean isKnown = Double.isInfinite(declared.withinDegrees());
            if (declared.how() == Between.COVARIANCE && isZero(between) && !isKnown) {
                // from 0 no step leads away
                this.between = scaled(within, START);
            }
            estimate();
            inform();
            this.solution = new Solution();
            this.movedResponses = ofResponses(solution.moved);
        }

        /** Effects, if they are asked for: fits of which only unknowns are wanted are many. */
        private void knowEffects() {
            if (!areEffectsKnown) {
                synchronized (this) {
                    if (!areEffectsKnown) {
                        expect();
                        effectsOfResponses = Arrays.stream(effects)
                                .map(of -> times(basis, of))
                                .toArray(double[][]::new);
                        learntGroups = learnt();
                        // of use to the steps alone
                        crossed = new double[0][][];
                        areEffectsKnown = true;
                    }
                }
            }
        }

        private double[][] inContrasts(double[][] ofResponses) {
            double[][] half = timesTransposed(basis, ofResponses);
            double[][] full = times(half, basis);
            symmetrize(full);
            return full;
        }

        private double[][] ofResponses(double[][] inContrasts) {
            double[][] all = new double[responses][responses];
            double[][] half = times(basis, inContrasts);
            for (int k = 0; k < responses; k++) {
                for (int l = 0; l < responses; l++) {
                    for (int j = 0; j < contrasts; j++) {
                        all[k][l] += half[k][j] * basis[l][j];
                    }
                }
            }
            return all;
        }

        /** The covariance of what is known of nothing: that of the rows about what is known of them. */
        private void start() {
            double[] squares = new double[responses];
            double[] counts = new double[responses];
            for (int row = 0; row < n; row++) {
                for (int k = 0; k < responses; k++) {
                    if (!Double.isNaN(rest[row][k])) {
                        squares[k] += rows.weights()[row] * rest[row][k] * rest[row][k];
                        counts[k]++;
                    }
                }
            }
            double[][] diagonal = new double[responses][responses];
            for (int k = 0; k < responses; k++) {
                diagonal[k][k] = counts[k] > 0 && squares[k] > 0 ? squares[k] / counts[k] : 1;
            }
            within = inContrasts(diagonal);
        }

        /** What rows tell, by which responses they have. */
        private void inform() {
            double largest = largest(within);
            for (Pattern pattern : patterns) {
                pattern.informed.clear();
                int[] seen = pattern.seen;
                double[][] half = new double[seen.length][];
                for (int k = 0; k < seen.length; k++) {
                    half[k] = times(within, basis[seen[k]]);
                }
                double[][] covariance = new double[seen.length][seen.length];
                for (int k = 0; k < seen.length; k++) {
                    for (int l = 0; l < seen.length; l++) {
                        for (int j = 0; j < contrasts; j++) {
                            covariance[k][l] += basis[seen[k]][j] * half[l][j];
                        }
                    }
                    covariance[k][k] += RIDGE * largest;
                }
                symmetrize(covariance);
                LUDecomposition solver =
                        new LUDecomposition(new Array2DRowRealMatrix(covariance, false), Double.MIN_NORMAL);
                double[][] inverse = solver.getSolver().getInverse().getData();
                pattern.logDeterminant = Math.log(Math.abs(solver.getDeterminant()));
                double[][] of = new double[contrasts][seen.length];
                for (int j = 0; j < contrasts; j++) {
                    for (int k = 0; k < seen.length; k++) {
                        of[j][k] = basis[seen[k]][j];
                    }
                }
                pattern.teller = times(of, inverse);
                double[][] information = new double[contrasts][contrasts];
                for (int i = 0; i < contrasts; i++) {
                    for (int j = 0; j < contrasts; j++) {
                        for (int k = 0; k < seen.length; k++) {
                            information[i][j] += pattern.teller[i][k] * of[j][k];
                        }
                    }
                }
                symmetrize(information);
                pattern.information = information;
            }
        }

        private List<Loaded> loaded(List<Sums.Cell> ofGroup) {
            Map<Integer, Loaded> byPattern = new LinkedHashMap<>();
            for (Sums.Cell cell : ofGroup) {
                Loaded of = byPattern.computeIfAbsent(
                        cell.pattern, pattern -> new Loaded(pattern, new double[contrasts][unknowns]));
                of.weight += cell.weight;
                for (int a = 0; a < terms; a++) {
                    if (cell.sums[a] != 0) {
                        addTimes(of.sum, loadings[cell.kind][a], cell.sums[a]);
                    }
                }
            }
            return List.copyOf(byPattern.values());
        }

        private OfGroup ofGroup(int g) {
            double[][] sum = new double[contrasts][unknowns];
            for (Loaded of : loaded.get(g)) {
                addTimes(sum, times(patterns.get(of.pattern).information, of.sum), 1);
            }
            double[] told = new double[contrasts];
            for (Sums.Cell cell : cells.get(g)) {
                addTimes(told, times(patterns.get(cell.pattern).teller, cell.left), 1);
            }
            return new OfGroup(sum, told);
        }

        /** Adds what rows tell of the unknowns whatever their groups are, or takes it off. */
        private void addDirect(double[][] precision, double[] right, Sums.Cell cell, double sign) {
            Mover[] own = movers[cell.kind];
            double[][] of = informed(cell.pattern, cell.kind);
            double[][] told = new double[terms][];
            for (int a = 0; a < terms; a++) {
                told[a] = times(patterns.get(cell.pattern).teller, cell.crossed[a]);
            }
            for (int i = 0; i < own.length; i++) {
                double[] row = precision[own[i].unknown];
                double[] products = cell.products[own[i].term];
                for (int k = 0; k < own.length; k++) {
                    row[own[k].unknown] += sign * products[own[k].term] * of[i][k];
                }
                right[own[i].unknown] += sign * product(own[i].ofContrasts, told[own[i].term]);
            }
        }

        /** What a row of a pattern and a kind tells of each two of what moves it, but for its terms. */
        private synchronized double[][] informed(int pattern, int kind) {
            Pattern of = patterns.get(pattern);
            double[][] known = of.informed.get(kind);
            if (known != null) {
                return known;
            }
            Mover[] own = movers[kind];
            double[][] all = new double[own.length][own.length];
            for (int i = 0; i < own.length; i++) {
                double[] half = times(of.information, own[i].ofContrasts);
                for (int k = 0; k <= i; k++) {
                    all[i][k] = product(half, own[k].ofContrasts);
                    all[k][i] = all[i][k];
                }
            }
            if (patterns.size() <= FEW_PATTERNS) {
                of.informed.put(kind, all);
            }
            return all;
        }

        private void estimate() {
            if (Double.isInfinite(declared.withinDegrees())) {
                return;
            }
            settle(declared.how() == Between.SHARE ? bestShare() : 0);
        }

        /**
         * Finds the covariances for a given share of that between groups, which counts in that mode alone: by steps of the EM
         * algorithm, every two of which show how far the way goes on (squared extrapolation; Varadhan and Roland 2008,
         * Scandinavian Journal of Statistics 35, 335 to 353).
         */
        private void settle(double ofShare) {
            share = ofShare;
            if (declared.how() == Between.SHARE) {
                between = scaled(within, share);
            }
            double precision = declared.how() == Between.COVARIANCE ? PRECISION_OF_STEPS : PRECISION;
            for (int round = 0; round < ROUNDS; round++) {
                double[][] within0 = within;
                double[][] between0 = between;
                if (!step() || isSettled(within0, between0, precision)) {
                    break;
                }
                double[][] within1 = within;
                double[][] between1 = between;
                if (!step() || isSettled(within1, between1, precision)) {
                    break;
                }
                goOn(new double[][][] {within0, within1, within}, new double[][][] {between0, between1, between});
            }
        }

        /** The unknowns for the covariances as they are. */
        private void solve() {
            inform();
            solution = new Solution();
        }

        /** A step of the EM algorithm; false where the rows have no errors but those of reckoning. */
        private boolean step() {
            Optional<CompleteRows.Expected> expected = sums.complete == null
                    ? Optional.empty()
                    : sums.complete.expected(within, between, loadingsOfKinds, prior.free());
            double[][] ofRows;
            double[][] ofGroups;
            if (expected.isPresent()) {
                ofRows = expected.orElseThrow().ofRows();
                ofGroups = expected.orElseThrow().ofGroups();
            } else {
                solve();
                expect();
                ofRows = expectedOfRows();
                ofGroups = expectedOfGroups();
            }
            double[][] next = nextWithin(ofRows, ofGroups);
            if (trace(next) * n <= VANISHED * sums.squaresOfRest) {
                return false;
            }
            if (declared.how() == Between.COVARIANCE) {
                between = withoutNoise(nextBetween(ofGroups));
            }
            move(next, between);
            return true;
        }

        private void move(double[][] toWithin, double[][] toBetween) {
            within = toWithin;
            between = declared.how() == Between.SHARE ? scaled(within, share) : toBetween;
        }

        private boolean isSettled(double[][] beforeWithin, double[][] beforeBetween, double precision) {
            return change(beforeWithin, within) < precision && change(beforeBetween, between) < precision;
        }

        /** From three points of the way to where it leads, if there are covariances there. */
        private void goOn(double[][][] ofWithin, double[][][] ofBetween) {
            boolean byItself = declared.how() == Between.COVARIANCE;
            double first = squares(ofWithin, false) + (byItself ? squares(ofBetween, false) : 0);
            double turn = squares(ofWithin, true) + (byItself ? squares(ofBetween, true) : 0);
            double length = turn > 0 ? Math.min(FARTHEST, Math.sqrt(first / turn)) : 1;
            if (length <= 1) {
                return;
            }
            double[][] nextWithin = extrapolated(ofWithin, length);
            double[][] nextBetween = byItself ? extrapolated(ofBetween, length) : between;
            if (isCovariance(nextWithin) && (!byItself || isZero(nextBetween) || isCovariance(nextBetween))) {
                move(nextWithin, nextBetween);
            }
        }

        /** Sum of squares of the first step, or of how the second differs from it. */
        private static double squares(double[][][] points, boolean ofTurn) {
            double sum = 0;
            for (int i = 0; i < points[0].length; i++) {
                for (int j = 0; j < points[0].length; j++) {
                    double first = points[1][i][j] - points[0][i][j];
                    double second = points[2][i][j] - points[1][i][j];
                    sum += ofTurn ? (second - first) * (second - first) : first * first;
                }
            }
            return sum;
        }

        private static double[][] extrapolated(double[][][] points, double length) {
            double[][] next = copy(points[0]);
            for (int i = 0; i < next.length; i++) {
                for (int j = 0; j < next.length; j++) {
                    double first = points[1][i][j] - points[0][i][j];
                    double turn = points[2][i][j] - points[1][i][j] - first;
                    next[i][j] += 2 * length * first + length * length * turn;
                }
            }
            return next;
        }

        private static boolean isCovariance(double[][] matrix) {
            try {
                return new CholeskyDecomposition(new Array2DRowRealMatrix(matrix, false), RIDGE, 0).getDeterminant()
                        > 0;
            } catch (NonPositiveDefiniteMatrixException e) {
                return false;
            }
        }

        /** What the declared covariance within groups adds to the likelihood, as if it had been found from other rows. */
        private double ofDeclared() {
            if (declared.withinDegrees() == 0) {
                return 0;
            }
            LUDecomposition decomposition = new LUDecomposition(ridged(within), Double.MIN_NORMAL);
            RealMatrix ratio =
                    decomposition.getSolver().solve(new Array2DRowRealMatrix(inContrasts(declared.within()), false));
            return -declared.withinDegrees() / 2 * (Math.log(decomposition.getDeterminant()) + ratio.getTrace());
        }

        private double likelihood(double ofShare) {
            settle(ofShare);
            solve();
            return solution.logLikelihood + ofDeclared();
        }

        /** The share of greatest likelihood: from a grid on which no hill hides, by Brent's method. */
        private double bestShare() {
            double most = 1;
            for (int g = 0; g < groups; g++) {
                most = Math.max(
                        most,
                        cells.get(g).stream().mapToDouble(cell -> cell.weight).sum());
            }
            double[] steps = new double[STEPS];
            int best = 0;
            double greatest = Double.NEGATIVE_INFINITY;
            for (int i = 0; i < STEPS; i++) {
                steps[i] = i == 0 ? 0 : FIRST_STEP / most * Math.pow(STEP, i);
                double likelihood = likelihood(steps[i]);
                if (likelihood > greatest) {
                    greatest = likelihood;
                    best = i;
                }
            }
            double low = steps[Math.max(0, best - 1)];
            double high = steps[Math.min(STEPS - 1, best + 1)];
            double found = new BrentOptimizer(SHARE_PRECISION, Double.MIN_NORMAL)
                    .optimize(
                            GoalType.MAXIMIZE,
                            new UnivariateObjectiveFunction(this::likelihood),
                            new SearchInterval(low, high),
                            new MaxEval(ROUNDS))
                    .getPoint();
            return likelihood(0) >= likelihood(found) ? 0 : polished(found);
        }

        /** The likelihood is flat at its top; where a step of the EM algorithm leads nowhere is told to more digits (secants). */
        private double polished(double near) {
            double before = near;
            double after = near * (1 + POLISH);
            double ofBefore = stepOfShare(before);
            for (int round = 0; round < SECANTS; round++) {
                double ofAfter = stepOfShare(after);
                double next = after - ofAfter * (after - before) / (ofAfter - ofBefore);
                if (!(Math.abs(next / near - 1) < NEAR)) {
                    return near;
                }
                before = after;
                ofBefore = ofAfter;
                after = next;
                if (Math.abs(after - before) <= PRECISION * after) {
                    break;
                }
            }
            return after;
        }

        /** How far a step of the EM algorithm moves a share. */
        private double stepOfShare(double ofShare) {
            settle(ofShare);
            solve();
            expect();
            double[][] beside = new LUDecomposition(ridged(within), Double.MIN_NORMAL)
                    .getSolver()
                    .solve(new Array2DRowRealMatrix(expectedOfGroups(), false))
                    .getData();
            double sum = 0;
            for (int j = 0; j < contrasts; j++) {
                sum += beside[j][j];
            }
            return sum / groups / contrasts - ofShare;
        }

        private static double change(double[][] before, double[][] after) {
            double most = 0;
            double largest = Double.MIN_NORMAL;
            for (int i = 0; i < before.length; i++) {
                largest = Math.max(largest, after[i][i]);
                for (int j = 0; j < before.length; j++) {
                    most = Math.max(most, Math.abs(before[i][j] - after[i][j]));
                }
            }
            return most / largest;
        }

        /** Effects of the groups with the covariance of what isn't known of them. */
        private void expect() {
            for (int g = 0; g < groups; g++) {
                OfGroup of = solution.ofGroups[g];
                double[][] shrinker = solution.shrinkers[g];
                double[] left = of.told.clone();
                for (int j = 0; j < contrasts; j++) {
                    for (int m = 0; m < unknowns; m++) {
                        left[j] -= of.loaded[j][m] * solution.unknown[m];
                    }
                }
                effects[g] = times(shrinker, left);
                double[][] through = solution.through[g];
                crossed[g] = times(through, solution.covariance);
                double[][] variance = timesTransposedOf(crossed[g], through);
                addTimes(variance, shrinker, 1);
                effectVariances[g] = variance;
            }
        }

        /** As many groups as the rows tell the effects of. */
        private double learnt() {
            if (isZero(between)) {
                return 0;
            }
            double effective = 0;
            DecompositionSolver ofBetween = new LUDecomposition(ridged(between), Double.MIN_NORMAL).getSolver();
            for (int g = 0; g < groups; g++) {
                double[][] kept = ofBetween
                        .solve(new Array2DRowRealMatrix(effectVariances[g], false))
                        .getData();
                double known = 0;
                for (int j = 0; j < contrasts; j++) {
                    known += 1 - kept[j][j];
                }
                known = Math.max(0, known / contrasts);
                effective += known * known;
            }
            return effective;
        }

        private static RealMatrix ridged(double[][] matrix) {
            double[][] ridged = copy(matrix);
            for (int j = 0; j < matrix.length; j++) {
                ridged[j][j] += RIDGE * largest(matrix);
            }
            return new Array2DRowRealMatrix(ridged, false);
        }

        /** Nothing beside the covariance within groups is nothing. */
        private double[][] withoutNoise(double[][] ofGroups) {
            double between = 0;
            double beside = 0;
            for (int j = 0; j < contrasts; j++) {
                between += ofGroups[j][j];
                beside += within[j][j];
            }
            return between < NOTHING * beside ? new double[contrasts][contrasts] : ofGroups;
        }

        private double[][] nextBetween(double[][] ofGroups) {
            double[][] next = scaled(inContrasts(declared.between()), declared.betweenDegrees());
            addTimes(next, ofGroups, 1);
            next = scaled(next, 1 / (declared.betweenDegrees() + groups));
            symmetrize(next);
            return next;
        }

        private double[][] nextWithin(double[][] ofRows, double[][] ofGroups) {
            double[][] next = scaled(inContrasts(declared.within()), declared.withinDegrees());
            addTimes(next, ofRows, 1);
            double counted = declared.withinDegrees() + n;
            if (share > 0) {
                // effects whose covariance is a share of it tell it too
                addTimes(next, ofGroups, 1 / share);
                counted += groups;
            }
            next = scaled(next, 1 / counted);
            symmetrize(next);
            return next;
        }

        /** Products of the effects of the groups, with what isn't known of them. */
        private double[][] expectedOfGroups() {
            double[][] sum = new double[contrasts][contrasts];
            for (int g = 0; g < groups; g++) {
                addEffect(sum, g);
            }
            return sum;
        }

        private void addEffect(double[][] to, int g) {
            for (int i = 0; i < contrasts; i++) {
                for (int j = 0; j < contrasts; j++) {
                    to[i][j] += effects[g][i] * effects[g][j] + effectVariances[g][i][j];
                }
            }
        }

        /** Products of the errors of the rows, with what isn't known of them. */
        private double[][] expectedOfRows() {
            double[][] sum = new double[contrasts][contrasts];
            double[][][] uncertain = new double[patterns.size()][contrasts][contrasts];
            double[][][] squares = new double[patterns.size()][contrasts][contrasts];
            int[] counts = new int[patterns.size()];
            for (Sums.Cell cell : all) {
                counts[cell.pattern] += cell.count;
                addSquares(squares[cell.pattern], cell, fittedContrasts(cell, patterns.get(cell.pattern).projection));
            }
            for (int g = 0; g < groups; g++) {
                for (Sums.Cell cell : cells.get(g)) {
                    addEffect(squares[cell.pattern], cell, g, patterns.get(cell.pattern).projection);
                }
                for (Loaded of : loaded.get(g)) {
                    double[][] cross = timesTransposedOf(of.sum, crossed[g]);
                    double[][] to = uncertain[of.pattern];
                    for (int i = 0; i < contrasts; i++) {
                        for (int j = 0; j < contrasts; j++) {
                            to[i][j] += of.weight * effectVariances[g][i][j] - cross[i][j] - cross[j][i];
                        }
                    }
                }
            }
            for (Sums.Cell cell : all) {
                double[][][] f = loadings[cell.kind];
                for (int a = 0; a < terms; a++) {
                    double[][] half = times(f[a], solution.covariance);
                    for (int b = 0; b < terms; b++) {
                        double s = cell.products[a][b];
                        if (s == 0) {
                            continue;
                        }
                        double[][] to = uncertain[cell.pattern];
                        for (int i = 0; i < contrasts; i++) {
                            for (int j = 0; j < contrasts; j++) {
                                double product = 0;
                                for (int m = 0; m < unknowns; m++) {
                                    product += half[i][m] * f[b][j][m];
                                }
                                to[i][j] += s * product;
                            }
                        }
                    }
                }
            }
            for (int p = 0; p < patterns.size(); p++) {
                addTimes(uncertain[p], squares[p], 1);
                Pattern pattern = patterns.get(p);
                if (pattern.seen.length == contrasts) {
                    addTimes(sum, uncertain[p], 1);
                } else {
                    addFilled(sum, pattern, uncertain[p], counts[p]);
                }
            }
            return sum;
        }

        /** Squares of rows that lack responses: those that are missing follow those that are there, as far as these tell. */
        private void addFilled(double[][] next, Pattern pattern, double[][] ofContrasts, int count) {
            // errors of the contrasts as far as the responses seen tell them: within * teller * (seen responses of the
            // contrasts)
            int[] seen = pattern.seen;
            double[][] follow = times(within, pattern.teller);
            double[][] projected = new double[contrasts][contrasts];
            for (int i = 0; i < contrasts; i++) {
                for (int j = 0; j < contrasts; j++) {
                    for (int k = 0; k < seen.length; k++) {
                        projected[i][j] += follow[i][k] * basis[seen[k]][j];
                    }
                }
            }
            addTimes(next, quadratic(projected, ofContrasts), 1);
            double[][] unknown = times(times(within, pattern.information), within);
            addTimes(next, within, count);
            addTimes(next, unknown, -count);
        }

        /** What the unknowns move the contrasts by: contrasts by terms. */
        private double[][] fittedContrasts(Sums.Cell cell, double[][] seen) {
            double[][] fitted = new double[contrasts][terms];
            for (int a = 0; a < terms; a++) {
                double[] moved = times(seen, solution.moved[cell.kind][a]);
                for (int j = 0; j < contrasts; j++) {
                    fitted[j][a] = moved[j];
                }
            }
            return fitted;
        }

        /** Adds the products of the contrasts of what the unknowns leave of the rows. */
        private void addSquares(double[][] to, Sums.Cell cell, double[][] fitted) {
            double[][] expected = times(fitted, cell.products);
            for (int i = 0; i < contrasts; i++) {
                for (int j = 0; j < contrasts; j++) {
                    to[i][j] += cell.contrastProducts[i][j];
                    for (int a = 0; a < terms; a++) {
                        to[i][j] += (expected[i][a] - cell.contrastsByTerms[i][a]) * fitted[j][a]
                                - fitted[i][a] * cell.contrastsByTerms[j][a];
                    }
                }
            }
        }

        /** What the effect of their group changes of these. */
        private void addEffect(double[][] to, Sums.Cell cell, int g, double[][] seen) {
            double[] effect = times(seen, effects[g]);
            double[] left = cell.contrastSums.clone();
            addTimes(left, times(seen, contrastsBy(cell.sums, solution.moved[cell.kind])), -1);
            for (int i = 0; i < contrasts; i++) {
                for (int j = 0; j < contrasts; j++) {
                    to[i][j] += cell.weight * effect[i] * effect[j] - left[i] * effect[j] - effect[i] * left[j];
                }
            }
        }

        /** Unknowns that move terms of a kind, most of them one term alone. */
        private Mover[] movers(double[][][] ofKind) {
            List<Mover> movers = new ArrayList<>();
            for (int a = 0; a < terms; a++) {
                for (int m = 0; m < unknowns; m++) {
                    double[] ofContrasts = new double[contrasts];
                    boolean moves = false;
                    for (int j = 0; j < contrasts; j++) {
                        ofContrasts[j] = ofKind[a][j][m];
                        moves |= ofContrasts[j] != 0;
                    }
                    if (moves) {
                        movers.add(new Mover(a, m, ofContrasts));
                    }
                }
            }
            return movers.toArray(Mover[]::new);
        }

        /** Coefficients by which unknowns move the contrasts, by kind that rows are of and term. */
        private double[][][] moved(double[] unknown) {
            double[][][] moved = new double[loadings.length][terms][contrasts];
            for (int kind : sums.kinds) {
                for (Mover mover : movers[kind]) {
                    addTimes(moved[kind][mover.term], mover.ofContrasts, unknown[mover.unknown]);
                }
            }
            return moved;
        }

        private double[] contrastsBy(double[] x, double[][] ofKind) {
            double[] fitted = new double[contrasts];
            for (int a = 0; a < terms; a++) {
                if (x[a] != 0) {
                    addTimes(fitted, ofKind[a], x[a]);
                }
            }
            return fitted;
        }

        double[] unknowns() {
            return solution.unknown.clone();
        }

        double[][] covariance() {
            return copy(solution.covariance);
        }

        double[][] within() {
            return ofResponses(within);
        }

        double[][] between() {
            return ofResponses(between);
        }

        double share() {
            return share;
        }

        double[] effect(int group) {
            knowEffects();
            return effectsOfResponses[group].clone();
        }

        double[] error(int row) {
            knowEffects();
            double[] error = residual(row);
            addTimes(error, effectsOfResponses[rows.groups()[row]], -1);
            return error;
        }

        double[] residual(int row) {
            double[] left = rest[row].clone();
            takeOff(left, row, movedResponses);
            return left;
        }

        /** Takes off what the unknowns move a row by. */
        private void takeOff(double[] left, int row, double[][][] moved) {
            double[] x = rows.terms()[row];
            double[][] ofKind = moved[rows.kinds()[row]];
            for (int a = 0; a < terms; a++) {
                if (x[a] != 0 && ofKind[a].length > 0) {
                    addTimes(left, ofKind[a], -x[a]);
                }
            }
        }

        /** What contrasts are moved by in responses, by kind that rows are of and term; empty of a term that nothing moves. */
        private double[][][] ofResponses(double[][][] ofContrasts) {
            double[][][] all = new double[ofContrasts.length][terms][0];
            for (int kind : sums.kinds) {
                for (int a = 0; a < terms; a++) {
                    if (isMoved[kind][a]) {
                        all[kind][a] = times(basis, ofContrasts[kind][a]);
                    }
                }
            }
            return all;
        }

        double withinDegrees() {
            double fitted = 0;
            for (int m = 0; m < unknowns; m++) {
                fitted += prior.free()[m] ? 1 : Math.max(0, 1 - solution.covariance[m][m]);
            }
            return together(declared.withinDegrees(), n - fitted / contrasts - learntGroups());
        }

        double betweenDegrees() {
            return declared.how() != Between.KEPT && declared.betweenDegrees() == 0
                    ? groups - 1
                    : together(declared.betweenDegrees(), learntGroups());
        }

        /** The mean of a constant and an estimate, weighed by their degrees of freedom, errs by the estimate's part alone. */
        private static double together(double declared, double learnt) {
            return learnt > 0
                    ? Math.min(MANY, (declared + learnt) * (declared + learnt) / learnt)
                    : declared > 0 ? MANY : 0;
        }

        double learntGroups() {
            knowEffects();
            return learntGroups;
        }

        double[] leftOut(List<int[]> folds, double[] precisions) {
            int[] foldOf = new int[groups];
            double[][][][] moved = new double[folds.size()][][][];
            for (int fold = 0; fold < folds.size(); fold++) {
                for (int g : folds.get(fold)) {
                    foldOf[g] = fold;
                }
                moved[fold] = ofResponses(moved(without(folds.get(fold))));
            }
            double[] squares = new double[groups];
            double[] left = new double[responses];
            for (int row = 0; row < n; row++) {
                int g = rows.groups()[row];
                System.arraycopy(rest[row], 0, left, 0, responses);
                takeOff(left, row, moved[foldOf[g]]);
                double sum = 0;
                for (int k = 0; k < responses; k++) {
                    if (!Double.isNaN(rest[row][k])) {
                        sum += precisions[k] * left[k] * left[k];
                    }
                }
                squares[g] += rows.weights()[row] * sum;
            }
            return squares;
        }

        private double[] without(int[] out) {
            double[][] precision = copy(solution.precision);
            double[] right = solution.right.clone();
            for (int g : out) {
                OfGroup of = solution.ofGroups[g];
                addTransposedTimesBelow(precision, of.loaded, solution.through[g], 1);
                double[] effect = times(solution.shrinkers[g], of.told);
                for (int j = 0; j < contrasts; j++) {
                    for (int m = 0; m < unknowns; m++) {
                        right[m] += of.loaded[j][m] * effect[j];
                    }
                }
            }
            mirror(precision);
            for (Sums.Cell cell : sums.ofFold(out)) {
                addDirect(precision, right, cell, -1);
            }
            try {
                return decomposed(new Array2DRowRealMatrix(precision, false))
                        .getSolver()
                        .solve(new ArrayRealVector(right, false))
                        .toArray();
            } catch (IllegalArgumentException e) {
                double[] none = new double[unknowns];
                Arrays.fill(none, Double.NaN);
                return none;
            }
        }
    }
}
