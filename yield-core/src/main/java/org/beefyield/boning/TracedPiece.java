package org.beefyield.boning;

import java.util.Objects;

/**
 * A boned piece on a recall list.
 *
 * @param run name of the run that boned it
 * @param piece the piece
 * @param sure whether the batches say so; false if it only can't be ruled out, for a batch is missing
 */
public record TracedPiece(String run, Intake piece, boolean sure) {
    /** Checks that nothing is missing. */
    public TracedPiece {
        Objects.requireNonNull(run, "run");
        Objects.requireNonNull(piece, "piece");
    }
}
