package org.beefyield.carcass;

import java.util.Objects;
import org.beefyield.text.Numbers;

/** Carcass weights: hot to cold, and the limits of what is taken for a weight at all. */
public final class CarcassWeights {
    /** Heaviest weight taken for a beef carcass, kg; anything above is a slip of the pen (our limit, no source). */
    public static final double HEAVIEST_KG = 1200;

    private CarcassWeights() {}

    /**
     * Cold weight of a carcass weighed hot within 60 minutes of sticking: 2 % less, Commission Delegated Regulation
     * (EU) 2017/1182, Art. 14(3).
     *
     * @param hotKg hot weight, kg, above 0 and at most {@value #HEAVIEST_KG}
     * @return cold weight, kg
     * @throws IllegalArgumentException if the weight is outside its range or not a number
     */
    public static double coldFromHot(double hotKg) {
        check("hot weight", hotKg);
        return hotKg * 98 / 100;
    }

    /**
     * The hot weight whose cold weight this is.
     *
     * @param coldKg cold weight, kg, above 0 and at most {@value #HEAVIEST_KG}
     * @return hot weight, kg, to a millionth, so that a weight of few decimals comes back as it was
     * @throws IllegalArgumentException if the weight is outside its range or not a number
     */
    public static double hotFromCold(double coldKg) {
        check("cold weight", coldKg);
        return Math.rint(coldKg * 100 / 98 * 1e6) / 1e6;
    }

    /**
     * Refuses what can't be a carcass weight.
     *
     * @param what name of the weight for the message, such as {@code cold weight}
     * @param kg weight, kg
     * @return the weight
     * @throws IllegalArgumentException if it is not above 0 and at most {@value #HEAVIEST_KG} kg
     */
    public static double check(String what, double kg) {
        Objects.requireNonNull(what, "what");
        if (!(kg > 0 && kg <= HEAVIEST_KG)) {
            throw new IllegalArgumentException(what + " " + Numbers.exact(kg) + " kg is not above 0 and at most "
                    + Numbers.exact(HEAVIEST_KG) + " kg");
        }
        return kg;
    }
}
