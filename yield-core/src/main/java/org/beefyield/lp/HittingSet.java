package org.beefyield.lp;

import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The smallest set that has something in common with each of some sets. */
final class HittingSet {
    private static final int NODES = 200_000;

    private final List<BitSet> sets;
    private int below;
    private int nodes;
    private @Nullable BitSet found;

    private HittingSet(List<BitSet> sets, int below) {
        this.sets = sets;
        this.below = below;
    }

    /** Looks for one of fewer elements than a number. */
    static HittingSet of(List<BitSet> sets, int below) {
        HittingSet hitting = new HittingSet(sets, below);
        hitting.search(new BitSet(), new BitSet());
        return hitting;
    }

    /** The smallest, nothing if there is none of so few elements. */
    Optional<BitSet> smallest() {
        return Optional.ofNullable(found);
    }

    /** Whether all was looked through. */
    boolean isProven() {
        return nodes < NODES;
    }

    private void search(BitSet chosen, BitSet banned) {
        if (++nodes >= NODES) {
            return;
        }
        BitSet apart = new BitSet();
        int needed = 0;
        @Nullable BitSet narrowest = null;
        for (BitSet set : sets) {
            if (set.intersects(chosen)) {
                continue;
            }
            BitSet open = (BitSet) set.clone();
            open.andNot(banned);
            if (narrowest == null || open.cardinality() < narrowest.cardinality()) {
                narrowest = open;
            }
            // Sets that have nothing in common need an element each.
            if (!open.intersects(apart)) {
                apart.or(open);
                needed++;
            }
        }
        if (chosen.cardinality() + needed >= below) {
            return;
        }
        if (narrowest == null) {
            found = (BitSet) chosen.clone();
            below = chosen.cardinality();
            return;
        }
        BitSet forbidden = (BitSet) banned.clone();
        for (int element = narrowest.nextSetBit(0); element >= 0; element = narrowest.nextSetBit(element + 1)) {
            chosen.set(element);
            search(chosen, forbidden);
            chosen.clear(element);
            forbidden.set(element);
        }
    }
}
