package org.beefyield.pack;

import java.util.Objects;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.beefyield.cut.Cut;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.market.SizeWindow;

/**
 * What one piece of a cut may weigh: normal, from the estimate's uncertainty and the difference between left and right.
 *
 * @param pieces pieces in the carcass
 * @param meanKg mean of one, kg
 * @param sdKg SD of one, kg
 */
public record PieceWeight(double pieces, double meanKg, double sdKg) {
    /**
     * Checks the figures.
     *
     * @throws IllegalArgumentException if one is not finite or below 0
     */
    public PieceWeight {
        if (!(pieces >= 0 && meanKg >= 0 && sdKg >= 0 && pieces + meanKg + sdKg < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("a piece weight of " + pieces + " pieces, mean " + meanKg + " kg and SD "
                    + sdKg + " kg: each is a finite number of 0 or more");
        }
    }

    private static final NormalDistribution STANDARD = new NormalDistribution(null, 0, 1);

    /**
     * The pieces of a cut. A piece of one side is half of both, with the table's left-right SD around it, over the pieces
     * of a side; of a cut with one piece in the carcass there is no left and right. They are those of a hall that cuts as the
     * table does: which pieces fit differs from hall to hall, and a hall knows its own knives; see {@link #inAnyHall}.
     *
     * @param estimate estimate of a carcass
     * @param cut code of a cut
     * @return the distribution of one piece
     * @throws IllegalArgumentException if the table has no such cut, or it isn't sold by the piece
     */
    public static PieceWeight of(YieldEstimate estimate, String cut) {
        Objects.requireNonNull(estimate, "estimate");
        return inAnyHall(estimate.inOwnHall(), cut);
    }

    /**
     * The pieces of a cut with all that the estimate counts, also how halls differ from the table.
     *
     * @param estimate estimate of a carcass
     * @param cut code of a cut
     * @return the distribution of one piece
     * @throws IllegalArgumentException if the table has no such cut, or it isn't sold by the piece
     */
    public static PieceWeight inAnyHall(YieldEstimate estimate, String cut) {
        Objects.requireNonNull(estimate, "estimate");
        Objects.requireNonNull(cut, "cut");
        Cut its = estimate.table().catalogue().cut(cut);
        double meanKg = estimate.pieceKg(cut)
                .orElseThrow(() -> new IllegalArgumentException("cut \"" + cut + "\" isn't sold by the piece: table "
                        + estimate.table().identity() + " states no " + Cut.PIECES_PER_SIDE + " of it"));
        double pieces = estimate.kg(cut) == 0 ? 0 : estimate.kg(cut) / meanKg;
        Double splitPct = its.sideSplitSdPct();
        double ofSides = splitPct == null || pieces <= 1 ? 0 : meanKg * splitPct / 100;
        double ofCut = pieces == 0 ? 0 : estimate.sd(cut) / pieces;
        return new PieceWeight(pieces, meanKg, Math.hypot(ofCut, ofSides));
    }

    /**
     * Chance that a piece is lighter.
     *
     * @param kg weight, kg
     * @return probability
     */
    public double chanceBelow(double kg) {
        if (sdKg == 0) {
            return meanKg < kg ? 1 : 0;
        }
        return STANDARD.cumulativeProbability((kg - meanKg) / sdKg);
    }

    /**
     * Chance that a piece is heavier.
     *
     * @param kg weight, kg
     * @return probability
     */
    public double chanceAbove(double kg) {
        if (sdKg == 0) {
            return meanKg > kg ? 1 : 0;
        }
        return STANDARD.cumulativeProbability((meanKg - kg) / sdKg);
    }

    /** What of a piece's mean weight lies in pieces outside a window: heavy ones count for more. */
    double kgOutside(SizeWindow window) {
        double low = meanKg * chanceBelow(window.fromKg()) - sdKg * density(window.fromKg());
        double high = meanKg * chanceAbove(window.toKg()) + sdKg * density(window.toKg());
        return low + high;
    }

    private double density(double kg) {
        return sdKg == 0 || Double.isInfinite(kg) ? 0 : STANDARD.density((kg - meanKg) / sdKg);
    }
}
