package org.beefyield.lp;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * The fewest demands that can't be met together. Whatever demands can't be met together hit every set of demands without which
 * the others can: so the smallest set that hits all such sets that are known is either what is looked for, or it can be met, and
 * what can't be met beside it is one more set to be hit.
 */
final class SmallestSet {
    private final Demands demands;
    private final List<BitSet> toHit = new ArrayList<>();
    private BitSet set = new BitSet();
    private boolean proven;

    private SmallestSet(Demands demands) {
        this.demands = demands;
    }

    /** Looks for it from demands that can't be met. */
    static SmallestSet of(Demands demands, Demands.Try unmet, int solves) {
        SmallestSet smallest = new SmallestSet(demands);
        smallest.set = smallest.irreducible(unmet, true);
        if (demands.attempt(smallest.set).isMet()) {
            // What multipliers proved was within their rounding.
            smallest.set = smallest.irreducible(unmet, false);
        }
        smallest.search(demands.solved() + solves);
        return smallest;
    }

    BitSet set() {
        return (BitSet) set.clone();
    }

    /** Whether there is no smaller one. */
    boolean isProven() {
        return proven;
    }

    /** Leaves demands out, those that matter least first, until the rest could be met if any more were left out. */
    private BitSet irreducible(Demands.Try unmet, boolean byMultipliers) {
        toHit.clear();
        BitSet left = byMultipliers ? unmet.proven() : demands.all();
        List<Integer> order = demands.all().stream()
                .boxed()
                .sorted(Comparator.comparingDouble(demand -> unmet.part(demand)))
                .toList();
        for (int demand : order) {
            if (!left.get(demand)) {
                continue;
            }
            BitSet without = (BitSet) left.clone();
            without.clear(demand);
            Demands.Try tried = demands.attempt(without);
            if (tried.isMet()) {
                toHit.add(others(without));
            } else {
                left = without;
                if (byMultipliers) {
                    left.and(tried.proven());
                }
            }
        }
        return left;
    }

    private void search(int most) {
        while (demands.solved() < most) {
            HittingSet hitting = HittingSet.of(toHit, set.cardinality());
            Optional<BitSet> smaller = hitting.smallest();
            if (smaller.isEmpty()) {
                proven = hitting.isProven();
                return;
            }
            if (!demands.attempt(smaller.get()).isMet()) {
                set = smaller.get();
                proven = hitting.isProven();
                return;
            }
            toHit.add(others(mostMet(smaller.get(), most)));
        }
    }

    /** Demands that can be met together, to which none can be added unless the limit is reached. */
    private BitSet mostMet(BitSet known, int most) {
        BitSet met = demands.metWith(known);
        BitSet others = others(met);
        for (int demand = others.nextSetBit(0); demand >= 0; demand = others.nextSetBit(demand + 1)) {
            if (met.get(demand) || demands.solved() >= most) {
                continue;
            }
            BitSet more = (BitSet) met.clone();
            more.set(demand);
            if (demands.attempt(more).isMet()) {
                met = demands.metWith(more);
            }
        }
        return met;
    }

    private BitSet others(BitSet some) {
        BitSet others = demands.all();
        others.andNot(some);
        return others;
    }
}
