package org.beefyield.boning;

import java.util.Objects;

/**
 * A box on a recall list.
 *
 * @param run name of the run that packed it
 * @param box the box
 * @param sure whether the batches say so; false if it only can't be ruled out, for a batch is missing
 */
public record TracedBox(String run, Box box, boolean sure) {
    /** Checks that nothing is missing. */
    public TracedBox {
        Objects.requireNonNull(run, "run");
        Objects.requireNonNull(box, "box");
    }
}
