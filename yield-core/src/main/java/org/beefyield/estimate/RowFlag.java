package org.beefyield.estimate;

import java.util.EnumSet;
import java.util.Set;

/**
 * What is to be said of one row of many. A row's flags are the bits of one byte, 0 if there is nothing to say; {@link
 * CarcassColumns#carcass} and {@link YieldEstimator#estimate} say it in words.
 */
public enum RowFlag {
    /** No estimate: the table does not serve this category, or it is none. */
    CATEGORY_REFUSED(1),
    /** No estimate: conformation is outside the allowed range, or outside the fitted range and that is refused too. */
    CONFORMATION_REFUSED(2),
    /** No estimate: fat class is outside the allowed range, or outside the fitted range and that is refused too. */
    FAT_CLASS_REFUSED(4),
    /** No estimate: cold weight is outside the allowed range, or outside the fitted range and that is refused too. */
    WEIGHT_REFUSED(8),
    /** Conformation is outside the range of the data behind the table. */
    CONFORMATION_OUTSIDE_FITTED(16),
    /** Fat class is outside the range of the data behind the table. */
    FAT_CLASS_OUTSIDE_FITTED(32),
    /** Cold weight is outside the range of the data behind the table. */
    WEIGHT_OUTSIDE_FITTED(64);

    private static final int REFUSED =
            CATEGORY_REFUSED.bit | CONFORMATION_REFUSED.bit | FAT_CLASS_REFUSED.bit | WEIGHT_REFUSED.bit;

    private final int bit;

    RowFlag(int bit) {
        this.bit = bit;
    }

    /**
     * This flag's bit.
     *
     * @return a power of 2
     */
    public int bit() {
        return bit;
    }

    /**
     * Whether a row has no estimate.
     *
     * @param flags flags of a row
     * @return true if it was refused
     */
    public static boolean isRefused(byte flags) {
        return (flags & REFUSED) != 0;
    }

    /**
     * The flags that are set.
     *
     * @param flags flags of a row
     * @return a new set, empty if there is nothing to say
     */
    public static Set<RowFlag> of(byte flags) {
        Set<RowFlag> set = EnumSet.noneOf(RowFlag.class);
        for (RowFlag flag : values()) {
            if ((flags & flag.bit()) != 0) {
                set.add(flag);
            }
        }
        return set;
    }
}
