package org.beefyield.report;

import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.frame.Frame;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.ShownInBlocks;

/**
 * What meat inspection cut off, by region of the carcass, taken off the cuts that lie there. A weight is what was left, and an
 * estimate from it takes a little from every cut; here the carcass is estimated as it was, and what was cut off goes from the meat
 * of its region. Of each cut this is a correction in kg; they add up to 0 over all cuts of the level. Immutable.
 *
 * <p>Hind and fore are the quarters of the table's first quartering, without flank and neck, which are the cuts whose codes have
 * these words; where the table has no such cut, they belong to their quarter. In proportion to the weight of the cuts (common
 * practice: which muscle was cut, nobody writes down).
 */
public final class TrimmedParts implements ShownInBlocks {
    private final String level;
    private final Map<Cut, Double> corrections;
    private final Map<Region, Double> trimmed;
    private final long carcasses;
    private final double unplacedKg;

    /** A region of a carcass. */
    public enum Region {
        /** Hindquarter without flank. */
        HIND,
        /** Flank. */
        FLANK,
        /** Forequarter without neck. */
        FORE,
        /** Neck. */
        NECK;

        /**
         * The region in words.
         *
         * @return such as {@code hind}
         */
        public String words() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    private TrimmedParts(Collector collector) {
        this.level = collector.level;
        Map<Cut, Double> byCut = new LinkedHashMap<>();
        for (int i = 0; i < collector.cuts.size(); i++) {
            byCut.put(collector.cuts.get(i), collector.corrections[i]);
        }
        this.corrections = Collections.unmodifiableMap(byCut);
        this.trimmed = Collections.unmodifiableMap(new EnumMap<>(collector.trimmed));
        this.carcasses = collector.carcasses;
        this.unplacedKg = collector.unplacedKg;
    }

    /**
     * A collector of carcasses.
     *
     * @param estimator how they are estimated
     * @return an empty collector
     */
    public static Collector collector(YieldEstimator estimator) {
        return new Collector(Objects.requireNonNull(estimator, "estimator"));
    }

    /**
     * Carcasses of which something was cut off.
     *
     * @return 0 or more
     */
    public long carcasses() {
        return carcasses;
    }

    /**
     * What was cut off.
     *
     * @return kg by region, of regions of which anything was; unmodifiable
     */
    public Map<Region, Double> trimmedKg() {
        return trimmed;
    }

    /**
     * What was cut off and could be taken off no cut: the table has no quartering, gives no estimate for the whole carcass, or
     * the cuts of a region don't weigh as much. By
     * as much every cut may turn out lighter.
     *
     * @return kg, 0 or more
     */
    public double unplacedKg() {
        return unplacedKg;
    }

    /**
     * Level of the cuts.
     *
     * @return name of the level that the table's quartering divides; empty if it has none
     */
    public Optional<String> level() {
        return level.isEmpty() ? Optional.empty() : Optional.of(level);
    }

    /**
     * What the estimate of each cut is to be corrected by.
     *
     * @return kg by cut of the level, below 0 for less, which add up to 0; unmodifiable
     */
    public Map<Cut, Double> corrections() {
        return corrections;
    }

    /**
     * The corrections as a frame, a row for each cut.
     *
     * @return {@code level}; {@code cut}, its code; {@code correction} in kg
     */
    public Frame toFrame() {
        return new TrimmedPartsText(this).frame();
    }

    /**
     * The corrections for people.
     *
     * @return sentences, and a table if anything was placed
     */
    @Override
    public Blocks blocks() {
        return new TrimmedPartsText(this).blocks();
    }

    /**
     * One line.
     *
     * @return such as {@code 34.5 kg trimmed off 5 carcasses: hind 20.1, neck 14.4}
     */
    @Override
    public String toString() {
        return new TrimmedPartsText(this).sentence();
    }

    /** Adds carcasses up; none is kept. Not thread-safe; let each thread have its own and merge them. */
    public static final class Collector {
        private final YieldEstimator estimator;
        private final String level;
        private final List<Cut> cuts;
        /** By region, which part of each cut's weight lies in it. */
        private final Map<Region, double[]> parts = new EnumMap<>(Region.class);

        private final Map<Region, Double> trimmed = new EnumMap<>(Region.class);
        private final double[] corrections;
        private long carcasses;
        private double unplacedKg;

        private Collector(YieldEstimator estimator) {
            this.estimator = estimator;
            YieldTable table = estimator.table();
            Optional<String> quartering = table.quarterings().stream().findFirst();
            level = quartering
                    .map(name -> table.levels().get(table.quarteredLevel(name)))
                    .orElse("");
            cuts = level.isEmpty() ? List.of() : table.cutsAt(level);
            corrections = new double[cuts.size()];
            quartering.ifPresent(name -> place(table.foreShares(name)));
        }

        private void place(Map<String, Double> foreShares) {
            for (Region region : Region.values()) {
                parts.put(region, new double[cuts.size()]);
            }
            boolean flank = cuts.stream().anyMatch(cut -> isOf(cut, Region.FLANK));
            boolean neck = cuts.stream().anyMatch(cut -> isOf(cut, Region.NECK));
            for (int i = 0; i < cuts.size(); i++) {
                Cut cut = cuts.get(i);
                if (cut.kind() == CutKind.FAT_TRIM || cut.kind() == CutKind.BONE || cut.kind() == CutKind.LOSS) {
                    continue;
                }
                double fore = foreShares.getOrDefault(cut.code(), 0.0);
                if (isOf(cut, Region.FLANK)) {
                    Objects.requireNonNull(parts.get(Region.FLANK))[i] = 1;
                } else if (isOf(cut, Region.NECK)) {
                    Objects.requireNonNull(parts.get(Region.NECK))[i] = 1;
                } else {
                    Objects.requireNonNull(parts.get(Region.FORE))[i] = fore;
                    Objects.requireNonNull(parts.get(Region.HIND))[i] = 1 - fore;
                }
            }
            if (!flank) {
                parts.put(Region.FLANK, of(Region.HIND));
            }
            if (!neck) {
                parts.put(Region.NECK, of(Region.FORE));
            }
        }

        private double[] of(Region region) {
            return Objects.requireNonNull(parts.get(region));
        }

        private static boolean isOf(Cut cut, Region region) {
            return Arrays.asList(cut.code().split("-", -1)).contains(region.words());
        }

        /**
         * Adds a carcass of which something was cut off before it was weighed.
         *
         * @param carcass carcass with the weight that was left
         * @param kgByRegion kg cut off, above 0, by region
         * @return this
         * @throws IllegalArgumentException if a weight isn't above 0
         * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for what was left; nothing is added
         */
        public Collector add(Carcass carcass, Map<Region, Double> kgByRegion) {
            Objects.requireNonNull(carcass, "carcass");
            Checks.noNullIn(kgByRegion, "kgByRegion");
            kgByRegion.forEach((region, kg) -> {
                if (!(kg > 0 && kg < Double.POSITIVE_INFINITY)) {
                    throw new IllegalArgumentException(
                            "trimmed " + kg + " kg off the " + region.words() + " is not a finite number above 0");
                }
            });
            double all = kgByRegion.values().stream().mapToDouble(kg -> kg).sum();
            YieldEstimate left = estimator.estimate(carcass);
            Optional<YieldEstimate> whole = level.isEmpty()
                    ? Optional.empty()
                    : estimator
                            .tryEstimate(carcass.withColdWeightKg(carcass.coldWeightKg() + all))
                            .estimate();
            carcasses++;
            kgByRegion.forEach((region, kg) -> trimmed.merge(region, kg, Double::sum));
            if (whole.isEmpty() || !place(left, whole.get(), kgByRegion)) {
                unplacedKg += all;
            }
            return this;
        }

        /** False, and nothing is placed, if more was cut off than the cuts of a region weigh. */
        private boolean place(YieldEstimate left, YieldEstimate whole, Map<Region, Double> kgByRegion) {
            double[] kg = cuts.stream()
                    .mapToDouble(cut -> whole.kg(level, cut.code()))
                    .toArray();
            double[] after = kg.clone();
            kgByRegion.forEach((region, off) -> {
                double[] part = of(region);
                double there = there(part, kg);
                if (!(there > 0)) {
                    // no cut lies there, so any may have lost it
                    part = cuts.stream()
                            .mapToDouble(cut -> cut.kind() == CutKind.BONE ? 0 : 1)
                            .toArray();
                    there = there(part, kg);
                }
                for (int i = 0; i < kg.length; i++) {
                    after[i] -= off * part[i] * kg[i] / there;
                }
            });
            if (Arrays.stream(after).anyMatch(weight -> weight < 0)) {
                return false;
            }
            for (int i = 0; i < kg.length; i++) {
                corrections[i] += after[i] - left.kg(level, cuts.get(i).code());
            }
            return true;
        }

        private static double there(double[] part, double[] kg) {
            double there = 0;
            for (int i = 0; i < kg.length; i++) {
                there += part[i] * kg[i];
            }
            return there;
        }

        /**
         * Adds all that another collector holds; that one stays as it is.
         *
         * @param other a collector of the same estimator
         * @return this
         * @throws IllegalArgumentException if it is of another
         */
        public Collector add(Collector other) {
            Objects.requireNonNull(other, "other");
            if (!estimator.equals(other.estimator)) {
                throw new IllegalArgumentException("what was trimmed goes together only by one and the same estimator: "
                        + estimator + " against " + other.estimator);
            }
            for (int i = 0; i < corrections.length; i++) {
                corrections[i] += other.corrections[i];
            }
            other.trimmed.forEach((region, kg) -> trimmed.merge(region, kg, Double::sum));
            carcasses += other.carcasses;
            unplacedKg += other.unplacedKg;
            return this;
        }

        /**
         * What was trimmed so far.
         *
         * @return of all carcasses added
         */
        public TrimmedParts result() {
            return new TrimmedParts(this);
        }
    }
}
