package org.beefyield.calibrate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.BiFunction;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.estimate.CarcassPart;
import org.beefyield.grid.Breakdown;
import org.beefyield.grid.CompiledTable;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.TableSchema;
import org.jspecify.annotations.Nullable;

/**
 * Goes down the breakdowns of one category with a carcass and back up: what comes of each group of cuts, and what each
 * coefficient on the way does to that.
 */
final class RunWalk {
    private static final double G_PER_KG = 1000;

    /** A breakdown in its place; its prior is null where it isn't by coefficients. */
    private static final class Split {
        final int parent;
        final int[] children;
        final Breakdown breakdown;
        final @Nullable PriorBreakdown prior;

        Split(int parent, int[] children, Breakdown breakdown, @Nullable PriorBreakdown prior) {
            this.parent = parent;
            this.children = children;
            this.breakdown = breakdown;
            this.prior = prior;
        }
    }

    private final YieldTable table;
    private final CompiledTable compiled;
    private final Category category;
    private final List<Cut> cuts;
    private final List<List<Split>> splits = new ArrayList<>();
    private final List<int[]> passing = new ArrayList<>();
    private final Terms terms;
    private final int levels;
    /** By group and cut of the last level; the last row is all cuts, which is the cold weight. */
    private final double[][] seeds;

    private final double[][] kg;
    private final double[][][] effects;

    /**
     * @param ways a way of every cut that has ways
     * @param priors of a parent and its way, what the table says of the breakdown
     * @param groups by group and code of a cut, how much of it goes into the group
     */
    RunWalk(
            YieldTable table,
            Category category,
            Map<String, String> ways,
            BiFunction<String, String, PriorBreakdown> priors,
            List<Map<String, Double>> groups) {
        this.table = table;
        this.compiled = table.unwrap(CompiledTable.class);
        this.category = category;
        this.cuts = table.definition().cuts();
        this.terms = new Terms(table.definition());
        this.levels = table.levels().size();
        boolean[] present = new boolean[cuts.size()];
        for (int level = 0; level < levels; level++) {
            List<Split> atLevel = new ArrayList<>();
            List<Integer> pass = new ArrayList<>();
            boolean[] next = new boolean[cuts.size()];
            if (level == 0) {
                atLevel.add(Objects.requireNonNull(split(-1, BreakdownRow.ROOT, ways, priors)));
            }
            for (int i = 0; i < cuts.size(); i++) {
                if (present[i]) {
                    boolean due = table.levels().indexOf(cuts.get(i).level()) == level - 1;
                    Split split = due ? split(i, cuts.get(i).code(), ways, priors) : null;
                    if (split != null) {
                        atLevel.add(split);
                    } else {
                        pass.add(i);
                        next[i] = true;
                    }
                }
            }
            for (Split split : atLevel) {
                Arrays.stream(split.children).forEach(child -> next[child] = true);
            }
            splits.add(atLevel);
            passing.add(pass.stream().mapToInt(Integer::intValue).toArray());
            present = next;
        }
        this.seeds = new double[groups.size() + 1][cuts.size()];
        for (int i = 0; i < cuts.size(); i++) {
            for (int g = 0; g < groups.size(); g++) {
                seeds[g][i] = groups.get(g).getOrDefault(cuts.get(i).code(), 0.0);
            }
            seeds[groups.size()][i] = 1;
        }
        this.kg = new double[levels][cuts.size()];
        this.effects = new double[levels][cuts.size()][seeds.length];
    }

    private @Nullable Split split(
            int parent, String code, Map<String, String> ways, BiFunction<String, String, PriorBreakdown> priors) {
        Breakdown breakdown = compiled.breakdowns(category)
                .getOrDefault(code, Map.of())
                .get(ways.getOrDefault(code, BreakdownRow.ANY));
        if (breakdown == null) {
            return null;
        }
        PriorBreakdown prior =
                breakdown.resource() == TableSchema.BREAKDOWN ? priors.apply(code, breakdown.way()) : null;
        return new Split(
                parent,
                (prior == null ? breakdown.children() : prior.weighed.children())
                        .stream().mapToInt(cuts::indexOf).toArray(),
                breakdown,
                prior);
    }

    /** Coefficients of breakdowns: columns by children. */
    interface Coefficients {
        double[][] of(PriorBreakdown breakdown, Category category);
    }

    /** Takes what the coefficients of a breakdown do: by group, the cold weight last, columns by children, kg per g/kg. */
    interface Gradient {
        double[][][] of(PriorBreakdown breakdown, Category category);
    }

    /**
     * Adds what comes of a piece.
     *
     * @param sums kg by group, the cold weight last
     * @param gradient what coefficients do to that; null if it isn't asked for
     */
    void add(Carcass carcass, CarcassPart part, Coefficients coefficients, double[] sums, @Nullable Gradient gradient) {
        double[] x = terms.of(carcass);
        int divided = part.quartering().isEmpty() ? levels - 1 : table.quarteredLevel(part.quartering());
        double[] fractions = fractions(part);
        List<List<double[]>> shares = new ArrayList<>();
        for (int level = 0; level < levels; level++) {
            Arrays.fill(kg[level], 0);
            List<double[]> atLevel = new ArrayList<>();
            for (int i : passing.get(level)) {
                kg[level][i] += kg[level - 1][i];
            }
            for (Split split : splits.get(level)) {
                double parentKg = split.parent < 0 ? carcass.coldWeightKg() : kg[level - 1][split.parent];
                double[] ofSplit = shares(split, carcass, x, coefficients);
                for (int k = 0; k < ofSplit.length; k++) {
                    kg[level][split.children[k]] += parentKg * ofSplit[k];
                }
                atLevel.add(ofSplit);
            }
            shares.add(atLevel);
            if (level == divided) {
                for (int i = 0; i < fractions.length; i++) {
                    kg[level][i] *= fractions[i];
                }
            }
        }
        for (int g = 0; g < seeds.length; g++) {
            for (int i = 0; i < cuts.size(); i++) {
                sums[g] += seeds[g][i] * kg[levels - 1][i];
            }
        }
        if (gradient != null) {
            addEffects(carcass, x, divided, fractions, shares, gradient);
        }
    }

    private void addEffects(
            Carcass carcass,
            double[] x,
            int divided,
            double[] fractions,
            List<List<double[]>> shares,
            Gradient gradient) {
        for (int i = 0; i < cuts.size(); i++) {
            for (int g = 0; g < seeds.length; g++) {
                effects[levels - 1][i][g] = seeds[g][i] * (divided == levels - 1 ? fractions[i] : 1);
            }
        }
        for (int level = levels - 1; level >= 0; level--) {
            if (level > 0) {
                for (double[] ofCut : effects[level - 1]) {
                    Arrays.fill(ofCut, 0);
                }
                for (int i : passing.get(level)) {
                    System.arraycopy(effects[level][i], 0, effects[level - 1][i], 0, seeds.length);
                }
            }
            for (int s = 0; s < splits.get(level).size(); s++) {
                Split split = splits.get(level).get(s);
                double[] ofSplit = shares.get(level).get(s);
                double parentKg = split.parent < 0 ? carcass.coldWeightKg() : kg[level - 1][split.parent];
                double[][][] to = split.prior == null ? null : gradient.of(split.prior, category);
                for (int k = 0; k < ofSplit.length; k++) {
                    double[] ofChild = effects[level][split.children[k]];
                    for (int g = 0; g < seeds.length; g++) {
                        if (split.parent >= 0) {
                            effects[level - 1][split.parent][g] += ofSplit[k] * ofChild[g];
                        }
                        for (int j = 0; to != null && ofChild[g] != 0 && j < x.length; j++) {
                            to[g][j][k] += x[j] * parentKg * ofChild[g] / G_PER_KG;
                        }
                    }
                }
            }
            if (level - 1 == divided) {
                for (int i = 0; i < cuts.size(); i++) {
                    for (int g = 0; g < seeds.length; g++) {
                        effects[divided][i][g] *= fractions[i];
                    }
                }
            }
        }
    }

    private double[] fractions(CarcassPart part) {
        double[] fractions = new double[cuts.size()];
        if (part.quartering().isEmpty()) {
            Arrays.fill(fractions, part.forequarters() / 2.0);
            return fractions;
        }
        Map<String, Double> fore = table.foreShares(part.quartering());
        for (int i = 0; i < fractions.length; i++) {
            double own = fore.getOrDefault(cuts.get(i).code(), 0.0);
            fractions[i] = (part.forequarters() * own + part.hindquarters() * (1 - own)) / 2;
        }
        return fractions;
    }

    private double[] shares(Split split, Carcass carcass, double[] x, Coefficients coefficients) {
        double[] shares = new double[split.children.length];
        if (split.prior != null) {
            double[][] of = coefficients.of(split.prior, category);
            for (int j = 0; j < x.length; j++) {
                for (int k = 0; k < shares.length; k++) {
                    shares[k] += x[j] * of[j][k] / G_PER_KG;
                }
            }
            return shares;
        }
        double t = (carcass.coldWeightKg() - table.definition().reference().weightKg()) / 100;
        compiled.nodes()
                .corners(carcass.conformation().position(), carcass.fatClass().position(), (node, weight) -> {
                    for (int k = 0; k < shares.length; k++) {
                        shares[k] += weight * (split.breakdown.share(k, node) + t * split.breakdown.slope(k, node));
                    }
                });
        return shares;
    }
}
