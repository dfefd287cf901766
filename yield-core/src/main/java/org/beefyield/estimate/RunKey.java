package org.beefyield.estimate;

import java.io.Serializable;
import java.util.Comparator;
import org.beefyield.carcass.Carcass;
import org.jspecify.annotations.Nullable;

/**
 * What makes carcasses those of one run: hall and kill date, or a number of the caller's.
 *
 * @param hall hall, or null for the one that the caller doesn't name
 * @param killDate kill date, or null if not known
 * @param number number of the run, or below 0
 * @serial exclude
 */
record RunKey(@Nullable String hall, @Nullable String killDate, int number)
        implements Serializable, Comparable<RunKey> {
    static final RunKey NOT_KNOWN = new RunKey(null, null, -1);

    private static final Comparator<RunKey> ORDER = Comparator.comparing(RunKey::hall, LotKey.nullsFirst())
            .thenComparing(RunKey::killDate, LotKey.nullsFirst())
            .thenComparingInt(RunKey::number);

    static RunKey of(Carcass carcass) {
        String hall = carcass.hall().orElse(null);
        String killDate = carcass.killDate().orElse(null);
        return hall == null && killDate == null ? NOT_KNOWN : new RunKey(hall, killDate, -1);
    }

    static RunKey numbered(int number) {
        return number < 0 ? NOT_KNOWN : new RunKey(null, null, number);
    }

    /** Whether an equal key elsewhere is surely the same run. */
    boolean isKnown() {
        return number >= 0 || killDate != null;
    }

    @Override
    public int compareTo(RunKey other) {
        return ORDER.compare(this, other);
    }
}
