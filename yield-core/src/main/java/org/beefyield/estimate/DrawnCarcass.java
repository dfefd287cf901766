package org.beefyield.estimate;

import java.util.List;
import org.beefyield.text.Numbers;

/** A carcass drawn from an estimate's uncertainty: one way it may turn out. Its own figures are certain. Immutable. */
public final class DrawnCarcass extends Outturn {
    private static final int TEXT_DECIMALS = 2;

    DrawnCarcass(Model model, double coldWeightKg, double[] kgBySlot) {
        super(model, coldWeightKg, kgBySlot);
    }

    @Override
    Moments moments() {
        return new Moments(model());
    }

    @Override
    String title() {
        return "Drawn carcass, " + Numbers.fixed(coldWeightKg(), TEXT_DECIMALS) + " kg cold";
    }

    @Override
    int decimals() {
        return TEXT_DECIMALS;
    }

    @Override
    boolean showsIntervals() {
        return false;
    }

    /**
     * What a reader of the figures should know, in words.
     *
     * @return how the mince differs from what was asked, if it does
     */
    @Override
    public List<String> notes() {
        return minceNotes();
    }

    /**
     * One line.
     *
     * @return its meat
     */
    @Override
    public String toString() {
        return "drawn carcass of " + Numbers.fixed(coldWeightKg(), 1) + " kg cold: meat " + Numbers.fixed(meatKg(), 1)
                + " kg";
    }
}
