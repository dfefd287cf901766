package org.beefyield.grid;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.random.RandomGenerator;
import org.beefyield.table.definition.SharedBy;
import org.jspecify.annotations.Nullable;

/**
 * The errors of a table for one category and cutting specification: how the errors of each breakdown travel down to a
 * figure. A figure is any weighted sum of shares, such as one cut, a kind or a value; it is given by a weight for every
 * entry of {@link YieldGrid#shares}. Immutable and thread-safe.
 *
 * <p>Breakdowns err independently, and each so that its shares still add up to 1. First-order propagation (the delta
 * method): the error of a child counts with its parent's amount times what one kg of the child is worth to the figure.
 */
public final class YieldErrors {
    /** Draws of one breakdown after which a share that keeps falling below zero is taken for hopeless. */
    private static final int MOST_DRAWS = 10_000;

    private final BreakdownTree tree;
    private final DrawNumbers numbers;
    private final int coefficients;
    private final YieldGrid grid;
    /** The part of the carcass whose errors these are, null for all of it. */
    private final @Nullable PartOfCarcass part;

    YieldErrors(BreakdownTree tree, DrawNumbers numbers) {
        this(tree, numbers, tree.grid(), null);
    }

    private YieldErrors(BreakdownTree tree, DrawNumbers numbers, YieldGrid grid, @Nullable PartOfCarcass part) {
        this.tree = tree;
        this.numbers = numbers;
        this.coefficients = tree.coefficients();
        this.grid = grid;
        this.part = part;
    }

    /** The grid of a part of the carcass. */
    YieldGrid gridOf(PartOfCarcass ofCarcass) {
        return grid.filledBy((filled, node) -> ofCarcass.fill(tree, node, filled));
    }

    /** The same errors of a part of the carcass, with its grid. */
    YieldErrors of(PartOfCarcass ofCarcass, YieldGrid ofPart) {
        return new YieldErrors(tree, numbers, ofPart, ofCarcass);
    }

    /** Whether all errors but those of coefficients do the same in another category of this grid. */
    boolean errsAs(YieldErrors other) {
        if (grid() != other.grid() || tree.links().size() != other.tree.links().size()) {
            return false;
        }
        for (int i = 0; i < tree.links().size(); i++) {
            if (!tree.link(i).breakdown.errsAs(other.tree.link(i).breakdown)) {
                return false;
            }
        }
        return true;
    }

    /**
     * The grid whose errors these are.
     *
     * @return the grid
     */
    public YieldGrid grid() {
        return grid;
    }

    /**
     * What errors do to a figure, in all categories of this grid.
     *
     * @param figure weights of the figure
     * @return the effects, worked out node by node as they are asked for
     */
    public FigureEffects effects(double[] figure) {
        Effects effects = part == null ? new CarcassEffects(tree, figure) : new PartEffects(tree, part, grid, figure);
        return new FigureEffects(tree, grid, effects, figure);
    }

    /** Takes a breakdown that two figures hang on, and its place among the effects of either. */
    private interface OfBoth {
        void take(BreakdownTree.Link link, int placeInA, int placeInB);
    }

    private void ofBoth(FigureEffects a, FigureEffects b, OfBoth taker) {
        int[] ofA = a.links();
        int[] ofB = b.links();
        int j = 0;
        for (int i = 0; i < ofA.length; i++) {
            while (j < ofB.length && ofB[j] < ofA[i]) {
                j++;
            }
            if (j < ofB.length && ofB[j] == ofA[i]) {
                taker.take(tree.link(ofA[i]), i, j);
            }
        }
    }

    private static void add(double[] sum, double[] added) {
        for (int j = 0; j < added.length; j++) {
            sum[j] += added[j];
        }
    }

    /**
     * Covariance of two figures between carcasses of one grade, also where one of them is of the carcasses cut in other ways: what
     * is broken down alike errs alike.
     *
     * @param node a node of the table's range
     * @param a one figure's effects in this grid
     * @param other the errors in the ways of the other figure, or these
     * @param b the other's in the grid of those
     * @return covariance of the figures' shares, a polynomial in t = (w - w0)/100, constant first
     */
    public double[] betweenCarcasses(int node, FigureEffects a, YieldErrors other, FigureEffects b) {
        double[] covariance = new double[2 * coefficients - 1];
        double[][] effectsA = a.at(node);
        double[][] effectsB = b.at(node);
        if (other == this) {
            ofBoth(
                    a,
                    b,
                    (link, i, j) -> add(
                            covariance, link.breakdown.residual(node).covariance(effectsA[i], effectsB[j], a.room())));
            return covariance;
        }
        for (int i = 0; i < effectsA.length; i++) {
            BreakdownTree.Link link = tree.link(a.links()[i]);
            for (int j = 0; j < effectsB.length; j++) {
                if (other.tree.link(b.links()[j]).number == link.number) {
                    add(covariance, link.breakdown.residual(node).covariance(effectsA[i], effectsB[j], a.room()));
                }
            }
        }
        return covariance;
    }

    /**
     * Covariance of two figures of one carcass from the errors that it shares with others.
     *
     * @param by with which others
     * @param node a node of the table's range
     * @param a one figure's effects in this grid
     * @param b the other's
     * @return covariance of the figures' shares, a polynomial in t = (w - w0)/100, constant first
     */
    public double[] shared(SharedBy by, int node, FigureEffects a, FigureEffects b) {
        double[] covariance = new double[2 * coefficients - 1];
        double[][] effectsA = a.at(node);
        double[][] effectsB = b.at(node);
        ofBoth(a, b, (link, i, j) -> {
            ClosedErrors errors = link.breakdown.shared(by, node);
            if (errors != null) {
                add(covariance, errors.covariance(effectsA[i], effectsB[j], a.room()));
            }
        });
        return covariance;
    }

    /**
     * No effects yet of the errors that carcasses of a lot, a run or a hall have in common.
     *
     * @return to be added to
     */
    public SharedErrors noShared() {
        return new SharedErrors(numbers.breakdowns());
    }

    /**
     * Adds what the errors do that carcasses share.
     *
     * @param by with which others
     * @param figure the figure's effects in this grid
     * @param nodes nodes at which the carcasses are
     * @param sums by node, sum over the carcasses of w t^j, by j: at least as many as the grid has coefficients
     * @param effects takes the effects
     */
    public void addShared(SharedBy by, FigureEffects figure, int[] nodes, double[][] sums, SharedErrors effects) {
        int[] hangsOn = figure.links();
        for (int i = 0; i < hangsOn.length; i++) {
            BreakdownTree.Link link = tree.link(hangsOn[i]);
            if (!link.breakdown.hasShared(by)) {
                continue;
            }
            double[] ofLink = effects.of(link.number, numbers.sizeOfBreakdown(link.number));
            ClosedErrors everywhere = link.breakdown.sharedEverywhere(by);
            if (everywhere == null) {
                for (int n = 0; n < nodes.length; n++) {
                    ClosedErrors errors = link.breakdown.shared(by, nodes[n]);
                    if (errors != null) {
                        errors.addEffects(figure.weights(figure.at(nodes[n])[i], sums[n]), ofLink, link.places);
                    }
                }
            } else {
                double[] weights = figure.noWeights();
                for (int n = 0; n < nodes.length; n++) {
                    figure.addWeights(figure.at(nodes[n])[i], sums[n], 0, weights);
                }
                everywhere.addEffects(weights, ofLink, link.places);
            }
        }
    }

    /**
     * What the errors of the coefficients do to a figure.
     *
     * @param node a node of the table's range
     * @param figure the figure's effects in this grid
     * @return one effect for each coefficient column that has standard errors and that the figure hangs on
     */
    public List<CoefficientEffect> coefficients(int node, FigureEffects figure) {
        List<CoefficientEffect> all = new ArrayList<>();
        int[] hangsOn = figure.links();
        double[][] at = figure.at(node);
        for (int i = 0; i < hangsOn.length; i++) {
            for (CoefficientErrors errors : tree.link(hangsOn[i]).coefficients) {
                all.add(CoefficientEffect.of(errors, node, at[i]));
            }
        }
        return all;
    }

    /**
     * Adds what the errors of the coefficients do to carcasses at a node.
     *
     * @param node a node of the table's range
     * @param figure the figure's effects in this grid
     * @param sums power sums of the carcasses
     * @param effects takes the effects
     */
    public void addCoefficients(int node, FigureEffects figure, PowerSums sums, CoefficientSums effects) {
        int[] hangsOn = figure.links();
        double[][] at = figure.at(node);
        for (int i = 0; i < hangsOn.length; i++) {
            for (CoefficientErrors errors : tree.link(hangsOn[i]).coefficients) {
                effects.add(errors, node, at[i], sums, tree.grid().referenceWeightKg());
            }
        }
    }

    /**
     * The same at less cost, but not in the order of operations, and so to the last bit, in which tables were reckoned that know
     * of no errors in common.
     *
     * @param node a node of the table's range
     * @param figure the figure's effects in this grid
     * @param sums sum over the carcasses of w t^j, by j: one more than the grid has coefficients
     * @param effects takes the effects
     */
    public void addCoefficients(int node, FigureEffects figure, double[] sums, CoefficientSums effects) {
        int[] hangsOn = figure.links();
        double[][] at = figure.at(node);
        for (int i = 0; i < hangsOn.length; i++) {
            List<CoefficientErrors> ofLink = tree.link(hangsOn[i]).coefficients;
            if (!ofLink.isEmpty()) {
                double[] constant = figure.weights(at[i], sums);
                double[] slope = figure.weightsPer100Kg(at[i], sums);
                for (CoefficientErrors errors : ofLink) {
                    effects.add(errors, node, constant, slope, at[i].length / coefficients);
                }
            }
        }
    }

    /**
     * Adds what the errors of the coefficients do to the share of one carcass at a node.
     *
     * @param node a node of the table's range
     * @param figure the figure's effects in this grid
     * @param weight what the node counts for
     * @param byPower takes the effects, by power of t: one more than the grid has coefficients, or none
     */
    public void addCoefficients(int node, FigureEffects figure, double weight, List<CoefficientSums> byPower) {
        int[] hangsOn = figure.links();
        double[][] at = figure.at(node);
        for (int i = 0; !byPower.isEmpty() && i < hangsOn.length; i++) {
            for (CoefficientErrors errors : tree.link(hangsOn[i]).coefficients) {
                CoefficientSums.add(byPower, errors, node, at[i], weight);
            }
        }
    }

    /** No effects yet of errors of coefficients. */
    public CoefficientSums noCoefficients() {
        return new CoefficientSums(numbers);
    }

    /**
     * Which errors are drawn.
     *
     * @param betweenCarcasses those between carcasses of one grade
     * @param shared those in common with carcasses of the lot, the run, the hall
     * @param coefficients those of coefficients
     */
    public record Drawn(boolean betweenCarcasses, Set<SharedBy> shared, boolean coefficients) {
        /** Copies the set. */
        public Drawn {
            shared = shared.isEmpty() ? Set.of() : EnumSet.copyOf(shared);
        }

        /** All errors. */
        public static Drawn all() {
            return new Drawn(true, EnumSet.allOf(SharedBy.class), true);
        }
    }

    /**
     * A drawn carcass.
     *
     * @param shares as {@link YieldGrid#shares}
     * @param rejected how many sets of shares were drawn and rejected, for one of them was below 0
     */
    public record Draw(List<Double> shares, int rejected) {
        /**
         * Copies the shares.
         */
        public Draw {
            shares = List.copyOf(shares);
        }
    }

    /**
     * Draws a whole carcass of a lot, a run and a hall of its own: every breakdown with its errors between carcasses, those in
     * common with others and those of its coefficients, which all add up to 0; a breakdown with a share below 0 is drawn again.
     *
     * @param random source of randomness
     * @param parts which errors are drawn
     * @param conformation position on the 18-point scale, inside the grid
     * @param fat position on the 15-point scale, inside the grid
     * @param weightKg cold weight, kg
     * @return shares that add up to 1 at every level
     * @throws IllegalStateException if a share falls below 0 in nearly every draw
     */
    public Draw draw(RandomGenerator random, Drawn parts, double conformation, double fat, double weightKg) {
        double t = (weightKg - grid().referenceWeightKg()) / 100;
        int[] rejected = {0};
        double[] result = new double[grid().length()];
        int cutCount = tree.cuts();
        double[] amount = new double[cutCount];
        double[] leanTrimFat = new double[cutCount];
        for (int level = 0; level < tree.levels(); level++) {
            double[] next = new double[cutCount];
            double[] nextFat = new double[cutCount];
            if (level == 0) {
                BreakdownTree.Link root = tree.link(tree.root());
                split(root, 1, drawn(root.breakdown, random, parts, conformation, fat, t, rejected), next, nextFat);
            }
            for (int i = 0; level > 0 && i < cutCount; i++) {
                int number = tree.slot(level - 1, i) < 0 ? -1 : tree.follows(level - 1, i);
                BreakdownTree.Link link = number < 0 ? null : tree.link(number);
                if (link == null) {
                    next[i] += amount[i];
                    nextFat[i] += leanTrimFat[i];
                } else {
                    split(
                            link,
                            amount[i],
                            drawn(link.breakdown, random, parts, conformation, fat, t, rejected),
                            next,
                            nextFat);
                }
            }
            amount = next;
            leanTrimFat = nextFat;
            for (int i = 0; i < cutCount; i++) {
                if (tree.slot(level, i) >= 0) {
                    result[tree.slot(level, i)] = amount[i];
                }
            }
        }
        for (double fatOfCut : leanTrimFat) {
            result[result.length - 1] += fatOfCut;
        }
        List<Double> shares = new ArrayList<>();
        for (double share : result) {
            shares.add(share);
        }
        return new Draw(shares, rejected[0]);
    }

    private static void split(
            BreakdownTree.Link link, double amount, double[] shares, double[] next, double[] nextFat) {
        int[] indexes = link.breakdown.indexes;
        for (int k = 0; k < shares.length; k++) {
            next[indexes[k]] += amount * shares[k];
            nextFat[indexes[k]] += amount * shares[k] * link.leanTrimFat[k];
        }
    }

    private double[] drawn(
            Breakdown breakdown,
            RandomGenerator random,
            Drawn parts,
            double conformation,
            double fat,
            double t,
            int[] rejected) {
        double[] mean = new double[breakdown.children().size()];
        int nearest = grid().nodes().at((int) Math.rint(conformation), (int) Math.rint(fat));
        grid().nodes().corners(conformation, fat, (node, weight) -> {
            for (int k = 0; k < mean.length; k++) {
                mean[k] += weight * (breakdown.share(k, node) + t * breakdown.slope(k, node));
            }
        });
        ClosedErrors residual = breakdown.residual(nearest);
        for (int draw = 0; draw < MOST_DRAWS; draw++) {
            double[] shares = mean.clone();
            if (parts.betweenCarcasses()) {
                add(shares, residual.draw(random));
            }
            for (SharedBy by : parts.shared()) {
                ClosedErrors errors = breakdown.shared(by, nearest);
                if (errors != null) {
                    add(shares, errors.draw(random));
                }
            }
            for (Breakdown.CoefficientError error :
                    parts.coefficients() ? breakdown.coefficientErrors() : List.<Breakdown.CoefficientError>of()) {
                double[] errors = error.errors().draw(random);
                for (int i = 0; i < error.columns().size(); i++) {
                    int column = error.columns().get(i);
                    double factor = tree.formula().constant(column, nearest)
                            + t * tree.formula().slopeOf(column, nearest);
                    for (int k = 0; k < shares.length; k++) {
                        shares[k] += factor * errors[i * shares.length + k];
                    }
                }
            }
            if (noneNegative(shares)) {
                return shares;
            }
            rejected[0]++;
        }
        throw new IllegalStateException("a share of " + breakdown.parent()
                + " falls below 0 in nearly every draw; its SD is" + " too large for its level");
    }

    private static boolean noneNegative(double[] shares) {
        for (double share : shares) {
            if (share < 0) {
                return false;
            }
        }
        return true;
    }
}
