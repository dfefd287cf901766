package org.beefyield.estimate;

import java.util.Objects;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;

/**
 * What became of the lean trim: Pearson's square, capped by the fat trim there is.
 *
 * @param target fat content asked for
 * @param leanTrimKg lean trim that went in, kg
 * @param fatTrimKg fat trim that went in, kg
 * @param fat fat content reached, fraction by weight; the target unless the lean trim is fatter or the fat trim ran
 *     out; 0 if there is no mince
 * @param fatOfFatTrim fat content of the fat trim, fraction by weight
 */
public record Mince(MinceTarget target, double leanTrimKg, double fatTrimKg, double fat, double fatOfFatTrim)
        implements ShownInBlocks {
    /** Checks that nothing is missing. */
    public Mince {
        Objects.requireNonNull(target, "target");
    }

    /** Fat contents closer than this are equal: rounding noise of the square. */
    static final double SAME = 1e-9;

    /**
     * Kilograms of mince.
     *
     * @return lean trim and fat trim together
     */
    public double kg() {
        return leanTrimKg + fatTrimKg;
    }

    /**
     * Whether all the fat trim went in and more was wanted.
     *
     * @return true if so
     */
    public boolean isShortOfFatTrim() {
        return kg() > 0 && target.fat() - fat > SAME;
    }

    /**
     * How the mince differs from what was asked.
     *
     * @return such as {@code mince is fatter than asked by 1.90 points of fat}, empty if it is as asked
     */
    public String note() {
        return MinceText.note(this);
    }

    /**
     * The mince for people.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return MinceText.blocks(this);
    }

    /**
     * One line.
     *
     * @return such as {@code mince at 15 % fat asked: 71.40 kg at 15.00 % fat}
     */
    @Override
    public String toString() {
        return MinceText.line(this);
    }

    /**
     * Brings lean trim to a target.
     *
     * @param leanKg lean trim, kg
     * @param leanFatKg fat in it, kg
     * @param fatTrimKg fat trim there is, kg
     * @param fatTrimFat fat content of the fat trim, fraction, above the target
     */
    static Mince of(MinceTarget target, double leanKg, double leanFatKg, double fatTrimKg, double fatTrimFat) {
        double added = addedKg(target, leanKg, leanFatKg, fatTrimKg, fatTrimFat);
        double kg = leanKg + added;
        return new Mince(target, leanKg, added, kg == 0 ? 0 : (leanFatKg + added * fatTrimFat) / kg, fatTrimFat);
    }

    /** Fat trim that goes in, kg. */
    static double addedKg(MinceTarget target, double leanKg, double leanFatKg, double fatTrimKg, double fatTrimFat) {
        double t = target.fat();
        double wanted = (t * leanKg - leanFatKg) / (fatTrimFat - t);
        return Math.min(Math.max(0, wanted), fatTrimKg);
    }

    /** What is left of one fat trim: all give in proportion. */
    static double leftKg(double kg, double addedKg, double allFatTrimKg) {
        return addedKg > 0 ? kg - addedKg * kg / allFatTrimKg : kg;
    }
}
