package org.beefyield.grid;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.random.RandomGenerator;
import org.beefyield.cut.Cut;
import org.beefyield.table.definition.BreakdownRow;
import org.jspecify.annotations.Nullable;

/**
 * The errors of a table for one category and cutting specification: how the errors of each breakdown travel down to a
 * figure. A figure is any weighted sum of shares, such as one cut, a kind or a value; it is given by a weight for every
 * entry of {@link YieldGrid#shares}. Immutable.
 *
 * <p>Breakdowns err independently, and each so that its shares still add up to 1. First-order propagation (the delta
 * method): the error of a child counts with its parent's amount times what one kg of the child is worth to the figure.
 */
public final class YieldErrors {
    /** Draws of one breakdown after which a share that keeps falling below zero is taken for hopeless. */
    private static final int MOST_DRAWS = 10_000;

    private final YieldGrid grid;
    /** By code of parent, the first category of the table whose coefficients are the same: they are one draw. */
    private final Map<String, Integer> firstAlike;

    private final int levels;
    private final int cutCount;
    /** By level and cut, its slot there or -1. */
    private final int[][] slot;
    /** By level and cut, the breakdown that follows or null if it stays. */
    private final @Nullable Link[][] due;

    private final Link root;
    private final CoefficientShares formula;
    private final int coefficients;
    private final int fatSlot;

    /** A breakdown with the fat content of the lean trim that each child is and that lasts to the end, fraction. */
    private record Link(Breakdown breakdown, List<Double> leanTrimFat) {}

    public YieldErrors(
            TableLayout layout,
            List<Cut> cuts,
            YieldGrid grid,
            Map<String, Breakdown> breakdowns,
            Map<String, Integer> firstAlike,
            CoefficientShares formula,
            int coefficients) {
        this.grid = grid;
        this.firstAlike = firstAlike;
        this.formula = formula;
        this.coefficients = coefficients;
        this.levels = layout.levels().size();
        this.cutCount = cuts.size();
        this.fatSlot = layout.size();
        this.slot = new int[levels][cutCount];
        this.due = new Link[levels][cutCount];
        for (int level = levels - 1; level >= 0; level--) {
            for (int i = 0; i < cutCount; i++) {
                Cut cut = cuts.get(i);
                slot[level][i] = layout.find(level, cut.code());
                Breakdown breakdown = breakdowns.get(cut.code());
                boolean follows = level < levels - 1 && layout.levelIndex(cut.level()) == level;
                due[level][i] = follows && breakdown != null ? link(cut, breakdown, level + 1) : null;
            }
        }
        Breakdown first = breakdowns.get(BreakdownRow.ROOT);
        if (first == null) {
            throw new IllegalArgumentException("a table breaks the carcass down");
        }
        this.root = link(null, first, 0);
    }

    private Link link(@Nullable Cut parent, Breakdown breakdown, int level) {
        List<Double> fat = new ArrayList<>();
        for (int k = 0; k < breakdown.children().size(); k++) {
            Double fatPct = YieldGrid.fatOfLeanTrim(parent, breakdown.children().get(k));
            boolean lasts = true;
            for (int l = level; l < levels; l++) {
                lasts &= due[l][breakdown.indexes[k]] == null;
            }
            fat.add(fatPct != null && lasts ? fatPct / 100 : 0.0);
        }
        return new Link(breakdown, fat);
    }

    /**
     * The grid whose errors these are.
     *
     * @return the grid
     */
    public YieldGrid grid() {
        return grid;
    }

    /** What an error of each child of a breakdown does to a figure, if any: by child, a polynomial in t. */
    private record Effect(Breakdown breakdown, boolean any, List<double[]> ofChildren) {
        double[][] array() {
            return ofChildren.toArray(double[][]::new);
        }
    }

    /** The effects of every breakdown at a node: what a kg is worth, from the last level up, times the parent's amount. */
    private List<Effect> effects(int node, double[] figure) {
        List<Effect> effects = new ArrayList<>();
        double[][] worth = new double[cutCount][coefficients];
        for (int level = levels - 1; level >= 0; level--) {
            double[][] at = new double[cutCount][];
            for (int i = 0; i < cutCount; i++) {
                int here = slot[level][i];
                if (here < 0) {
                    at[i] = new double[coefficients];
                    continue;
                }
                Link link = due[level][i];
                at[i] = link == null
                        ? worth[i].clone()
                        : worth(link, node, figure, worth, grid.ofSlots(node, here), effects);
                at[i][0] += figure[here];
            }
            worth = at;
        }
        double[] whole = new double[coefficients];
        whole[0] = 1;
        worth(root, node, figure, worth, whole, effects);
        return effects;
    }

    /** What a kg of a parent is worth through its children; adds the breakdown's effect. */
    private double[] worth(
            Link link, int node, double[] figure, double[][] worthOfCuts, double[] amount, List<Effect> effects) {
        Breakdown breakdown = link.breakdown();
        double[] worth = new double[coefficients];
        List<double[]> ofChildren = new ArrayList<>(breakdown.indexes.length);
        boolean any = false;
        for (int k = 0; k < breakdown.indexes.length; k++) {
            double[] ofChild = worthOfCuts[breakdown.indexes[k]].clone();
            ofChild[0] += figure[fatSlot] * link.leanTrimFat().get(k);
            double share = breakdown.share(k, node);
            double slope = breakdown.slope(k, node);
            for (int j = 0; j < coefficients; j++) {
                any |= ofChild[j] != 0;
                worth[j] += share * ofChild[j] + (j == 0 ? 0 : slope * ofChild[j - 1]);
            }
            ofChildren.add(ofChild);
        }
        if (any) {
            ofChildren.replaceAll(ofChild -> product(amount, ofChild));
        }
        effects.add(new Effect(breakdown, any, ofChildren));
        return worth;
    }

    /** A product whose degree is known not to pass that of the grid. */
    private static double[] product(double[] a, double[] b) {
        double[] product = new double[a.length];
        for (int i = 0; i < a.length; i++) {
            for (int j = 0; i + j < product.length; j++) {
                product[i + j] += a[i] * b[j];
            }
        }
        return product;
    }

    /**
     * Covariance of two figures between carcasses of one grade.
     *
     * @param node a node of the table's range
     * @param a weights of one figure
     * @param b weights of the other
     * @return covariance of the figures' shares, a polynomial in t = (w - w0)/100, constant first
     */
    public double[] betweenCarcasses(int node, double[] a, double[] b) {
        List<Effect> effectsA = effects(node, a);
        List<Effect> effectsB = a == b ? effectsA : effects(node, b);
        double[] covariance = new double[2 * coefficients - 1];
        for (int i = 0; i < effectsA.size(); i++) {
            if (!effectsA.get(i).any() || !effectsB.get(i).any()) {
                continue;
            }
            double[] ofBreakdown = effectsA.get(i)
                    .breakdown()
                    .residual(node)
                    .covariance(effectsA.get(i).array(), effectsB.get(i).array());
            for (int j = 0; j < ofBreakdown.length; j++) {
                covariance[j] += ofBreakdown[j];
            }
        }
        return covariance;
    }

    /**
     * What the errors of the coefficients do to a figure.
     *
     * @param node a node of the table's range
     * @param figure weights of the figure
     * @return one effect for each coefficient column that has standard errors, in an order that doesn't depend on the
     *     figure
     */
    public List<CoefficientEffect> coefficients(int node, double[] figure) {
        List<CoefficientEffect> all = new ArrayList<>();
        for (Effect effect : effects(node, figure)) {
            for (Breakdown.CoefficientError error : effect.breakdown().coefficientErrors()) {
                int children = effect.ofChildren().size();
                double[][] ofChildren = new double[error.columns().size() * children][coefficients + 1];
                for (int k = 0; k < ofChildren.length; k++) {
                    double[] value = formula.value(error.columns().get(k / children), node);
                    double[] ofChild = effect.ofChildren().get(k % children);
                    for (int j = 0; j < coefficients; j++) {
                        ofChildren[k][j] += value[0] * ofChild[j];
                        ofChildren[k][j + 1] += value[1] * ofChild[j];
                    }
                }
                all.add(new CoefficientEffect(
                        new CoefficientEffect.Key(
                                effect.breakdown().parent(),
                                effect.breakdown().way(),
                                firstAlike.getOrDefault(effect.breakdown().parent(), 0),
                                error.columns(),
                                error.errors().sds()),
                        error.errors(),
                        ofChildren));
            }
        }
        return all;
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
     * Draws a whole carcass: every breakdown with its errors between carcasses and those of its coefficients, which add up
     * to 0; a breakdown with a share below 0 is drawn again.
     *
     * @param random source of randomness
     * @param conformation position on the 18-point scale, inside the grid
     * @param fat position on the 15-point scale, inside the grid
     * @param weightKg cold weight, kg
     * @return shares that add up to 1 at every level
     * @throws IllegalStateException if a share falls below 0 in nearly every draw
     */
    public Draw draw(RandomGenerator random, double conformation, double fat, double weightKg) {
        double t = (weightKg - grid.referenceWeightKg()) / 100;
        int[] rejected = {0};
        double[] result = new double[grid.length()];
        double[] amount = new double[cutCount];
        double[] leanTrimFat = new double[cutCount];
        for (int level = 0; level < levels; level++) {
            double[] next = new double[cutCount];
            double[] nextFat = new double[cutCount];
            if (level == 0) {
                split(root, 1, drawn(root.breakdown(), random, conformation, fat, t, rejected), next, nextFat);
            }
            for (int i = 0; level > 0 && i < cutCount; i++) {
                Link link = slot[level - 1][i] < 0 ? null : due[level - 1][i];
                if (link == null) {
                    next[i] += amount[i];
                    nextFat[i] += leanTrimFat[i];
                } else {
                    split(
                            link,
                            amount[i],
                            drawn(link.breakdown(), random, conformation, fat, t, rejected),
                            next,
                            nextFat);
                }
            }
            amount = next;
            leanTrimFat = nextFat;
            for (int i = 0; i < cutCount; i++) {
                if (slot[level][i] >= 0) {
                    result[slot[level][i]] = amount[i];
                }
            }
        }
        for (double fatOfCut : leanTrimFat) {
            result[fatSlot] += fatOfCut;
        }
        List<Double> shares = new ArrayList<>();
        for (double share : result) {
            shares.add(share);
        }
        return new Draw(shares, rejected[0]);
    }

    private static void split(Link link, double amount, double[] shares, double[] next, double[] nextFat) {
        int[] indexes = link.breakdown().indexes;
        for (int k = 0; k < shares.length; k++) {
            next[indexes[k]] += amount * shares[k];
            nextFat[indexes[k]] += amount * shares[k] * link.leanTrimFat().get(k);
        }
    }

    private double[] drawn(
            Breakdown breakdown, RandomGenerator random, double conformation, double fat, double t, int[] rejected) {
        double[] mean = new double[breakdown.children().size()];
        int nearest = grid.nodes().at((int) Math.rint(conformation), (int) Math.rint(fat));
        grid.nodes().corners(conformation, fat, (node, weight) -> {
            for (int k = 0; k < mean.length; k++) {
                mean[k] += weight * (breakdown.share(k, node) + t * breakdown.slope(k, node));
            }
        });
        ClosedErrors residual = breakdown.residual(nearest);
        for (int draw = 0; draw < MOST_DRAWS; draw++) {
            double[] shares = mean.clone();
            add(shares, residual.draw(random), 1);
            for (Breakdown.CoefficientError error : breakdown.coefficientErrors()) {
                double[] errors = error.errors().draw(random);
                for (int i = 0; i < error.columns().size(); i++) {
                    double[] value = formula.value(error.columns().get(i), nearest);
                    for (int k = 0; k < shares.length; k++) {
                        shares[k] += (value[0] + t * value[1]) * errors[i * shares.length + k];
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

    private static void add(double[] shares, double[] errors, double factor) {
        for (int k = 0; k < shares.length; k++) {
            shares[k] += factor * errors[k];
        }
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
