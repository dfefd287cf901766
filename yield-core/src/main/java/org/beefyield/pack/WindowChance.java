package org.beefyield.pack;

import java.util.Objects;
import org.beefyield.market.SizeWindow;

/**
 * How likely a piece of one carcass fits a window.
 *
 * @param window the window
 * @param piece what one piece may weigh
 * @param below chance that it is too light
 * @param above chance that it is too heavy
 */
public record WindowChance(SizeWindow window, PieceWeight piece, double below, double above) {
    /** Checks that nothing is missing. */
    public WindowChance {
        Objects.requireNonNull(window, "window");
        Objects.requireNonNull(piece, "piece");
    }

    /**
     * The chances of a window.
     *
     * @param window the window
     * @param piece what one piece may weigh
     * @return the chances
     */
    public static WindowChance of(SizeWindow window, PieceWeight piece) {
        Objects.requireNonNull(window, "window");
        Objects.requireNonNull(piece, "piece");
        return new WindowChance(window, piece, piece.chanceBelow(window.fromKg()), piece.chanceAbove(window.toKg()));
    }

    /**
     * Chance that the piece fits.
     *
     * @return probability
     */
    public double inside() {
        return 1 - below - above;
    }
}
