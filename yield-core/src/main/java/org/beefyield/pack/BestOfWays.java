package org.beefyield.pack;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.beefyield.pack.MinceWorth.Trims;

/**
 * Which ways of several cuts return most together. A way adds to the sums of the trims and of all else, so that in each case of
 * {@link MinceWorth} what it brings there is known by itself: no choice for the cuts that are left can be worth more, in any
 * case, than each cut's best. Choices that this rules out are not looked at (branch and bound). Not thread-safe.
 */
final class BestOfWays {
    /** Choices of worths closer than this are equal: the arithmetic's noise. */
    static final double SAME = 1e-9;

    private final MinceWorth worth;
    private final List<List<Trims>> ways;
    private final List<Bound> bounds;
    private int[] best;
    private double most;

    private BestOfWays(MinceWorth worth, Trims fixed, List<List<Trims>> ways) {
        this.worth = worth;
        this.ways = ways;
        this.bounds = worth.cases().stream().map(Bound::new).toList();
        this.best = new int[ways.size()];
        this.most = worth.of(sum(fixed, best));
    }

    /**
     * The choice that is worth most.
     *
     * @param fixed sums beside what the ways add
     * @param ways by cut and way what it adds, the fixed way first: it stays wherever another isn't worth more
     * @return number of a way, by cut
     */
    static int[] choice(MinceWorth worth, Trims fixed, List<List<Trims>> ways) {
        BestOfWays search = new BestOfWays(worth, fixed, ways);
        search.from(0, fixed, new int[ways.size()]);
        search.keepFixedWays(fixed);
        return search.best;
    }

    private Trims sum(Trims fixed, int[] choice) {
        Trims sum = fixed;
        for (int cut = 0; cut < choice.length; cut++) {
            sum = sum.plus(1, ways.get(cut).get(choice[cut]));
        }
        return sum;
    }

    /** Tries the ways of a cut and of those behind it. */
    private void from(int cut, Trims before, int[] choice) {
        if (cut == ways.size()) {
            double now = worth.of(before);
            if (now > most + SAME) {
                most = now;
                best = choice.clone();
            }
            return;
        }
        List<Branch> branches = new ArrayList<>();
        for (int way = 0; way < ways.get(cut).size(); way++) {
            Trims sum = before.plus(1, ways.get(cut).get(way));
            double atMost = bounds.stream()
                    .mapToDouble(bound -> bound.of(cut + 1, sum))
                    .max()
                    .orElse(Double.NEGATIVE_INFINITY);
            branches.add(new Branch(way, sum, atMost));
        }
        branches.sort(Comparator.comparingDouble(Branch::atMost).reversed());
        for (Branch branch : branches) {
            if (branch.atMost <= most + SAME) {
                return;
            }
            choice[cut] = branch.way;
            from(cut + 1, branch.sum, choice);
        }
    }

    private void keepFixedWays(Trims fixed) {
        for (int cut = 0; cut < best.length; cut++) {
            int[] kept = best.clone();
            kept[cut] = 0;
            double now = worth.of(sum(fixed, kept));
            if (now >= most - SAME) {
                best = kept;
                most = now;
            }
        }
    }

    private record Branch(int way, Trims sum, double atMost) {}

    /** The most that can come in one case. */
    private final class Bound {
        private final Most worth;
        private final List<Most> signs;

        Bound(MinceWorth.Case one) {
            this.worth = new Most(one.worth());
            this.signs = one.signs().stream().map(Most::new).toList();
        }

        /** The same after choices that sum up to something, and before those of a cut and behind it. */
        double of(int cut, Trims sum) {
            boolean reached = signs.stream().allMatch(sign -> sign.of(cut, sum) >= -SAME);
            return reached ? worth.of(cut, sum) : Double.NEGATIVE_INFINITY;
        }
    }

    /** The most that a linear function can come to. */
    private final class Most {
        private final Trims function;
        /** By cut what it and those behind it add at most. */
        private final double[] behind = new double[ways.size() + 1];

        Most(Trims function) {
            this.function = function;
            for (int cut = ways.size() - 1; cut >= 0; cut--) {
                behind[cut] = behind[cut + 1]
                        + ways.get(cut).stream().mapToDouble(function::of).max().orElseThrow();
            }
        }

        double of(int cut, Trims sum) {
            return function.of(sum) + behind[cut];
        }
    }
}
