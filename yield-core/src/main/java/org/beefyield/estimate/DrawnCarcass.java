package org.beefyield.estimate;

/** A carcass drawn from an estimate's uncertainty: one way it may turn out. Its own figures are certain. Immutable. */
public final class DrawnCarcass extends Outturn {
    DrawnCarcass(YieldEstimator estimator, double coldWeightKg, double[] kgBySlot) {
        super(estimator, coldWeightKg, kgBySlot);
    }

    @Override
    Moments moments() {
        return new Moments(estimator());
    }

    /**
     * One line.
     *
     * @return its meat
     */
    @Override
    public String toString() {
        return "drawn carcass of " + coldWeightKg() + " kg cold: meat " + meatKg() + " kg";
    }
}
