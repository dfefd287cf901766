package org.beefyield.benchmarks.coverage;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.random.RandomGenerator;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.ScaleError;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.Term;
import org.beefyield.table.definition.Variable;

/**
 * Draws what carcasses give, as a table and a scale declare themselves to err: the table's coefficients once; an error of
 * each hall, run and lot; each carcass's own, its true position inside the grade as written, its true weight. Shares are
 * multiplied down the tree as drawn. Nothing of this is taken from the library but the rows of the table.
 */
public final class World {
    private final TableDefinition definition;
    private final double repeatabilityKg;
    private final double biasKg;
    private final Nature nature;
    private final Tree.Numbering errors = new Tree.Numbering();
    private final Tree.Numbering ofTable = new Tree.Numbering();
    /** By manner of cutting. */
    private final List<Map<Category, Tree>> trees = new ArrayList<>();

    /**
     * Prepares a world.
     *
     * @param cuttings manners of cutting: of each, the way of each cut that is cut in ways
     */
    public World(TableDefinition definition, ScaleError scale, Nature nature, List<Map<String, String>> cuttings) {
        this.definition = definition;
        this.repeatabilityKg = scale.repeatabilityKg();
        this.biasKg = scale.biasKg();
        this.nature = nature;
        for (Map<String, String> ways : cuttings) {
            Map<Category, Tree> byCategory = new HashMap<>();
            for (Category category : definition.categories()) {
                byCategory.put(category, new Tree(definition, category, ways, errors, ofTable));
            }
            trees.add(byCategory);
        }
    }

    private Tree tree(int cutting, Category category) {
        return Objects.requireNonNull(trees.get(cutting).get(category), category.letter());
    }

    /**
     * One draw of the world, and what herds give in it.
     *
     * @param herds the herds; equal numbers of lots, runs and halls are the same ones
     * @return by herd and manner of cutting: the same carcasses in every manner
     */
    public Outcome[][] draw(List<Herd> herds, RandomGenerator random) {
        Draw draw = draw(random);
        return herds.stream().map(draw::give).toArray(Outcome[][]::new);
    }

    /** One draw of the world, which gives herd after herd. */
    public Draw draw(RandomGenerator random) {
        return new Draw(random);
    }

    /** One draw of the world: its table, and its halls, runs and lots by their numbers. */
    public final class Draw {
        private final Errors source;
        private final Common common;

        private Draw(RandomGenerator random) {
            this.source = new Errors(random, nature.heavyTails());
            this.common = new Common(source);
        }

        /** What a herd gives, in every manner of cutting. */
        public Outcome[] give(Herd herd) {
            return World.this.give(herd, common, source);
        }

        /**
         * What a hall does with carcasses of a category on average, in the first manner of cutting.
         *
         * @return by child of each breakdown in the order of the table, fractions of the parent by column
         */
        public double[][] coefficients(Category category, int hall) {
            Tree tree = tree(0, category);
            double[] ofHall = common.errors(SharedBy.HALL, hall, tree);
            double[][] drawn = common.coefficients(tree);
            double[][] all = new double[drawn.length][];
            for (int k = 0; k < all.length; k++) {
                all[k] = drawn[k].clone();
                all[k][0] += ofHall[k];
            }
            return all;
        }
    }

    /** What carcasses have in common in one draw. Each part is drawn when the first carcass needs it. */
    private final class Common {
        private final Errors source;
        private final double[] table;
        private final Map<Tree, double[][]> coefficients = new HashMap<>();
        private final Map<SharedBy, Map<Integer, double[]>> drawn = new HashMap<>();
        private final Map<SharedBy, Map<Integer, Map<Tree, double[]>>> ofShares = new HashMap<>();
        private final Map<Integer, Double> bias = new HashMap<>();

        Common(Errors source) {
            this.source = source;
            this.table = source.draw(ofTable.size());
            for (SharedBy by : SharedBy.values()) {
                drawn.put(by, new HashMap<>());
                ofShares.put(by, new HashMap<>());
            }
        }

        double[][] coefficients(Tree tree) {
            return coefficients.computeIfAbsent(tree, any -> tree.coefficients(table, nature.table()));
        }

        double[] errors(SharedBy by, int key, Tree tree) {
            return Objects.requireNonNull(ofShares.get(by))
                    .computeIfAbsent(key, any -> new HashMap<>())
                    .computeIfAbsent(tree, any -> {
                        double[] ofKey = Objects.requireNonNull(drawn.get(by))
                                .computeIfAbsent(key, first -> source.draw(errors.size()));
                        return tree.sharedErrors(by, ofKey, factor(by));
                    });
        }

        double biasKg(int run) {
            return biasKg == 0 ? 0 : bias.computeIfAbsent(run, any -> nature.bias() * biasKg * source.one());
        }
    }

    private double factor(SharedBy by) {
        return switch (by) {
            case LOT -> nature.lot();
            case RUN -> nature.run();
            case HALL -> nature.hall();
        };
    }

    private Outcome[] give(Herd herd, Common common, Errors source) {
        double[][] sums = new double[trees.size()][];
        Tree any = tree(0, definition.categories().get(0));
        for (int cutting = 0; cutting < sums.length; cutting++) {
            sums[cutting] = new double[any.size() + 1];
        }
        double[] own = new double[errors.size()];
        double[] scratch = new double[any.size() + 1];
        double[] at = new double[definition.coefficientColumns().size()];
        for (Herd.Head head : herd.heads()) {
            Carcass carcass = head.carcass();
            source.fill(own);
            for (int i = 0; i < own.length; i++) {
                own[i] *= nature.carcass();
            }
            double conformation = carcass.conformation().position()
                    + offset(carcass.conformation().width(), source);
            double fat =
                    carcass.fatClass().position() + offset(carcass.fatClass().width(), source);
            double weightKg = carcass.coldWeightKg() + common.biasKg(head.run());
            if (repeatabilityKg > 0) {
                weightKg += nature.repeatability() * repeatabilityKg * source.one();
            }
            columns(conformation, fat, weightKg, at);
            for (int cutting = 0; cutting < sums.length; cutting++) {
                Tree tree = tree(cutting, carcass.category());
                double[] shares = shares(tree, head, common, at);
                tree.addResiduals(own, shares);
                tree.addKg(weightKg, shares, sums[cutting], scratch);
            }
        }
        Outcome[] outcomes = new Outcome[sums.length];
        Arrays.setAll(
                outcomes,
                cutting -> new Outcome(tree(cutting, definition.categories().get(0)), sums[cutting]));
        return outcomes;
    }

    private double[] shares(Tree tree, Herd.Head head, Common common, double[] at) {
        double[][] coefficients = common.coefficients(tree);
        double[] lot = common.errors(SharedBy.LOT, head.lot(), tree);
        double[] run = common.errors(SharedBy.RUN, head.run(), tree);
        double[] hall = common.errors(SharedBy.HALL, head.hall(), tree);
        double[] shares = new double[coefficients.length];
        for (int k = 0; k < shares.length; k++) {
            double share = lot[k] + run[k] + hall[k];
            for (int column = 0; column < at.length; column++) {
                share += coefficients[k][column] * at[column];
            }
            shares[k] = share;
        }
        return shares;
    }

    /**
     * How far the true position lies from the middle of a grade as written: anywhere in its part. What is narrower than the
     * grades behind the table is in the residual SD, so of these the middle counts.
     */
    private double offset(double width, Errors source) {
        double fit = definition.widthFit();
        if (nature.grade() == 0 || width <= fit) {
            return 0;
        }
        long steps = Math.round(width / fit);
        if (Math.abs(steps * fit - width) > 1e-9) {
            throw new IllegalArgumentException("a grade of width " + width + " is no multiple of " + fit);
        }
        return (source.upTo((int) steps) - (steps - 1) / 2.0) * fit;
    }

    /** What each coefficient is multiplied by. */
    private void columns(double conformation, double fat, double weightKg, double[] columns) {
        double c = conformation - definition.reference().conformation();
        double f = fat - definition.reference().fat();
        double t = (weightKg - definition.reference().weightKg()) / 100;
        columns[0] = 1;
        columns[1] = c;
        columns[2] = f;
        columns[3] = t;
        for (int i = 0; i < definition.terms().size(); i++) {
            Term term = definition.terms().get(i);
            if (term instanceof Term.Product product) {
                columns[4 + i] = value(product.first(), c, f, t) * value(product.second(), c, f, t);
            } else if (term instanceof Term.Hinge hinge) {
                double beyond = (hinge.variable() == Variable.FAT ? fat : conformation) - hinge.knot();
                columns[4 + i] = Math.max(0, hinge.side() == Term.Side.ABOVE ? beyond : -beyond);
            }
        }
    }

    private static double value(Variable variable, double c, double f, double t) {
        return switch (variable) {
            case CONFORMATION -> c;
            case FAT -> f;
            case WEIGHT -> t;
        };
    }
}
