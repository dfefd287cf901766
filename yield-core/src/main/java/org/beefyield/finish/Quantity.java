package org.beefyield.finish;

import org.beefyield.text.Names;

/** What has to be assumed of an animal near finish where its owner doesn't say. */
public enum Quantity {
    /** Kg of cold carcass in a kg of live weight gained. */
    CARCASS_SHARE_OF_GAIN("carcass in a kg of live gain", "kg", 0, 1),
    /** Points of fat gained a day. */
    FAT_POINTS_PER_DAY("fat gained", "points a day", -0.2, 0.2),
    /** SD between animals of the points of fat gained a day. */
    FAT_POINTS_PER_DAY_SD("SD between animals of fat gained", "points a day", 0, 0.1),
    /** Points of conformation gained with a kg of cold carcass. */
    CONFORMATION_POINTS_PER_KG("conformation gained", "points a kg of carcass", -0.1, 0.1),
    /** Killing-out of an animal of conformation R=, cold carcass in % of live weight. */
    KILLING_OUT_AT_R_PERCENT("killing-out at R=", "% of live weight", 30, 75),
    /** How much more of a class better conformation, in % of live weight. */
    KILLING_OUT_PER_CLASS_PERCENT("killing-out gained by a class of conformation", "% of live weight", 0, 5),
    /** SD between animals of killing-out, in % of live weight. */
    KILLING_OUT_SD_PERCENT("SD between animals of killing-out", "% of live weight", 0, 10),
    /** SD between animals of the live weight gained a day. */
    GAIN_SD_KG_PER_DAY("SD between animals of live gain", "kg a day", 0, 2),
    /** How far the eye errs in conformation on the live animal, SD. */
    CONFORMATION_SD_POINTS("SD of conformation seen alive", "points", 0, 6),
    /** How far the eye errs in fat class on the live animal, SD. */
    FAT_SD_POINTS("SD of fat class seen alive", "points", 0, 6);

    private final String words;
    private final String unit;
    private final double low;
    private final double high;

    Quantity(String words, String unit, double low, double high) {
        this.words = words;
        this.unit = unit;
        this.low = low;
        this.high = high;
    }

    /**
     * The name used in files.
     *
     * @return such as {@code fat-points-per-day}
     */
    public String code() {
        return Names.code(this);
    }

    /**
     * The quantity in words.
     *
     * @return such as {@code fat gained}
     */
    public String words() {
        return words;
    }

    /**
     * Its unit.
     *
     * @return such as {@code points a day}
     */
    public String unit() {
        return unit;
    }

    /**
     * The least that is taken for it.
     *
     * @return in its unit
     */
    public double low() {
        return low;
    }

    /**
     * The most that is taken for it.
     *
     * @return in its unit
     */
    public double high() {
        return high;
    }
}
