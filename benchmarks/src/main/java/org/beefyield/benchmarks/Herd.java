package org.beefyield.benchmarks;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.beefyield.estimate.CarcassColumns;

/** Steers drawn over the fitted range of the shipped table, as columns; the same from one run to the next. */
public final class Herd {
    /** Letters of their category. */
    public final byte[] categories;

    /** Positions on the 18-point scale. */
    public final byte[] conformation;

    /** Positions on the 15-point scale. */
    public final byte[] fat;

    /** Cold weights, kg. */
    public final double[] coldKg;

    /**
     * Draws steers.
     *
     * @param size number of carcasses
     */
    public Herd(int size) {
        SplittableRandom random = new SplittableRandom(1);
        categories = new byte[size];
        Arrays.fill(categories, (byte) 'C');
        conformation = new byte[size];
        fat = new byte[size];
        coldKg = new double[size];
        for (int i = 0; i < size; i++) {
            conformation[i] = (byte) random.nextInt(2, 15);
            fat[i] = (byte) random.nextInt(3, 14);
            coldKg[i] = Math.round(random.nextDouble(2340, 5010)) / 10.0;
        }
    }

    /**
     * The carcasses.
     *
     * @return columns over these arrays
     */
    public CarcassColumns columns() {
        return CarcassColumns.thirds(categories, conformation, fat, coldKg);
    }
}
