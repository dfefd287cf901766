package org.beefyield.boning;

import java.util.List;
import java.util.Objects;
import org.beefyield.frame.Frame;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.ShownInBlocks;

/**
 * Where carcasses went, or where boxes came from: the pieces, batches and boxes that hang together. Immutable.
 *
 * @param asked what was asked, such as {@code carcasses T-1, T-2}
 * @param pieces boned pieces, in the order of the runs
 * @param batches names of the batches, such as {@code batch B7 of Mereside}
 * @param boxes boxes, in the order of the runs
 */
public record RecallList(String asked, List<TracedPiece> pieces, List<String> batches, List<TracedBox> boxes)
        implements ShownInBlocks {
    /** Copies the lists. */
    public RecallList {
        Objects.requireNonNull(asked, "asked");
        Checks.noNullIn(pieces, "pieces");
        Checks.noNullIn(batches, "batches");
        Checks.noNullIn(boxes, "boxes");
        pieces = List.copyOf(pieces);
        batches = List.copyOf(batches);
        boxes = List.copyOf(boxes);
    }

    /**
     * The carcasses of its pieces.
     *
     * @return ids, each once
     */
    public List<String> carcasses() {
        return pieces.stream().map(traced -> traced.piece().id()).distinct().toList();
    }

    /**
     * The boxes as a frame, a row for each.
     *
     * @return {@code run}, {@code box}, {@code product}, {@code batch}, {@code net} in kg, {@code time}, {@code kind} and
     *     {@code sure}: {@code yes}, or {@code no} if the box only can't be ruled out
     */
    public Frame toFrame() {
        return new RecallListText(this).boxes();
    }

    /**
     * The pieces as a frame, a row for each.
     *
     * @return {@code run}, {@code carcass}, {@code kill date}, {@code supplier}, {@code lot}, {@code part}, {@code piece},
     *     {@code batch}, {@code slaughterhouse}, {@code born}, {@code reared} and {@code sure}
     */
    public Frame piecesFrame() {
        return new RecallListText(this).pieces();
    }

    /**
     * The list for people.
     *
     * @return a sentence, the carcasses and the boxes
     */
    @Override
    public Blocks blocks() {
        return new RecallListText(this).blocks();
    }

    /**
     * One line.
     *
     * @return such as {@code carcasses T-1, T-2: 4 pieces of 2 carcasses, 1 batch, 37 boxes with 742.3 kg}
     */
    @Override
    public String toString() {
        return new RecallListText(this).line();
    }
}
