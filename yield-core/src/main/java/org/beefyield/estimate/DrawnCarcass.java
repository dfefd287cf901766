package org.beefyield.estimate;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.Arrays;
import java.util.List;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** A carcass drawn from an estimate's uncertainty: one way it may turn out. Its own figures are certain. Immutable. */
public final class DrawnCarcass extends Outturn implements Serializable {
    private static final long serialVersionUID = 1;
    private static final int TEXT_DECIMALS = 2;

    DrawnCarcass(Model model, double coldWeightKg, double[] kgBySlot) {
        super(model, coldWeightKg, kgBySlot);
    }

    @Override
    List<Moments> moments() {
        return List.of();
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

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof DrawnCarcass that
                && coldWeightKg() == that.coldWeightKg()
                && Arrays.equals(kgBySlot(), that.kgBySlot())
                && model().equals(that.model());
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(kgBySlot());
    }

    /**
     * What goes over the wire.
     *
     * @param model what it was drawn with
     * @param coldWeightKg cold weight, kg
     * @param kgBySlot kg of every cut at every level
     * @serial exclude
     */
    // seen by nobody, never compared
    @SuppressWarnings("ArrayRecordComponent")
    private record Form(Model model, double coldWeightKg, double[] kgBySlot) implements Serializable {
        private Object readResolve() {
            return new DrawnCarcass(model, coldWeightKg, kgBySlot);
        }
    }

    /**
     * What is written in its place.
     *
     * @return estimator and kg
     */
    private Object writeReplace() {
        return new Form(model(), coldWeightKg(), kgBySlot());
    }

    /**
     * Refuses a carcass that was not written as its kg.
     *
     * @param in stream
     * @throws InvalidObjectException always
     */
    private void readObject(ObjectInputStream in) throws InvalidObjectException {
        throw new InvalidObjectException("a drawn carcass arrives as its estimator and kg");
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
