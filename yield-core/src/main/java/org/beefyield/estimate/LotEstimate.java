package org.beefyield.estimate;

import java.util.Arrays;
import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Rounding;
import org.jspecify.annotations.Nullable;

/** What a lot of carcasses is expected to return together. Immutable. */
public final class LotEstimate extends Outturn {
    private static final int TEXT_DECIMALS = 1;

    private final long carcasses;
    private final long outsideFitted;

    private LotEstimate(
            YieldTable table,
            CuttingSpecification specification,
            @Nullable MinceTarget target,
            double coldWeightKg,
            double[] kgBySlot,
            long carcasses,
            long outsideFitted) {
        super(table, specification, target, coldWeightKg, kgBySlot);
        this.carcasses = carcasses;
        this.outsideFitted = outsideFitted;
    }

    /**
     * Number of carcasses.
     *
     * @return 1 or more
     */
    public long carcasses() {
        return carcasses;
    }

    /**
     * Number of carcasses outside the range of the data behind the table.
     *
     * @return 0 or more
     */
    public long outsideFitted() {
        return outsideFitted;
    }

    /**
     * What a reader of the figures should know, in words.
     *
     * @return notes on ranges and mince
     */
    public List<String> notes() {
        List<String> notes = new java.util.ArrayList<>();
        if (outsideFitted > 0) {
            notes.add(outsideFitted + " of " + carcasses
                    + " carcasses lie outside the range of the data behind the table");
        }
        mince().map(Mince::note).filter(note -> !note.isEmpty()).ifPresent(notes::add);
        return notes;
    }

    /**
     * The lot for people: every level as a table in kg and per cent, quarters, notes and cautions.
     *
     * @return lines of plain text
     */
    public String toText() {
        return toText(
                "Lot of " + carcasses + (carcasses == 1 ? " carcass, " : " carcasses, ")
                        + Rounding.fixed(coldWeightKg(), TEXT_DECIMALS) + " kg cold",
                TEXT_DECIMALS,
                notes());
    }

    /**
     * One line.
     *
     * @return number of carcasses, cold weight, meat and table
     */
    @Override
    public String toString() {
        return carcasses + " carcasses, " + Rounding.fixed(coldWeightKg(), 1) + " kg cold: meat "
                + Rounding.fixed(meatKg(), 1) + " kg (" + table().identity() + ")";
    }

    /** Adds estimates up to a lot. Not thread-safe. */
    public static final class Collector {
        private final YieldEstimator estimator;
        private final double[] kgBySlot;
        private double coldWeightKg;
        private long carcasses;
        private long outsideFitted;

        Collector(YieldEstimator estimator) {
            this.estimator = estimator;
            this.kgBySlot = new double[estimator.table().layout().size() + 1];
        }

        /**
         * Estimates a carcass and adds it.
         *
         * @param carcass carcass
         * @return its estimate
         * @throws RefusedCarcassException if the table gives no estimate for it; the lot is as before
         */
        public YieldEstimate add(Carcass carcass) {
            YieldEstimate estimate = estimator.estimate(carcass);
            for (int slot = 0; slot < kgBySlot.length; slot++) {
                kgBySlot[slot] += estimate.slotKg(slot);
            }
            coldWeightKg += carcass.coldWeightKg();
            carcasses++;
            outsideFitted += estimate.rangeNotes().isEmpty() ? 0 : 1;
            return estimate;
        }

        /**
         * The lot so far.
         *
         * @return the estimate of all carcasses added
         * @throws IllegalStateException if there is none
         */
        public LotEstimate lot() {
            if (carcasses == 0) {
                throw new IllegalStateException("a lot has at least one carcass");
            }
            return new LotEstimate(
                    estimator.table(),
                    estimator.specification(),
                    estimator.minceTarget().orElse(null),
                    coldWeightKg,
                    Arrays.copyOf(kgBySlot, kgBySlot.length),
                    carcasses,
                    outsideFitted);
        }
    }
}
