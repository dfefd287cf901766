package org.beefyield.estimate;

import java.io.Serializable;
import java.util.Comparator;
import org.beefyield.carcass.Carcass;
import org.jspecify.annotations.Nullable;

/**
 * What makes carcasses those of one lot: supplier, kill date and the lot's name, or a number of the caller's.
 *
 * @param supplier supplier, or null if not known
 * @param killDate kill date, or null
 * @param lot name of the lot, or null
 * @param number number of the lot, or below 0
 * @serial exclude
 */
record LotKey(
        @Nullable String supplier,
        @Nullable String killDate,
        @Nullable String lot,
        int number) implements Serializable, Comparable<LotKey> {
    static final LotKey NOT_KNOWN = new LotKey(null, null, null, -1);

    private static final Comparator<LotKey> ORDER = Comparator.comparing(LotKey::supplier, nullsFirst())
            .thenComparing(LotKey::killDate, nullsFirst())
            .thenComparing(LotKey::lot, nullsFirst())
            .thenComparingInt(LotKey::number);

    static Comparator<@Nullable String> nullsFirst() {
        return Comparator.nullsFirst(Comparator.<String>naturalOrder());
    }

    static LotKey of(Carcass carcass) {
        String supplier = carcass.supplier().orElse(null);
        String killDate = carcass.killDate().orElse(null);
        String lot = carcass.lot().orElse(null);
        return supplier == null && killDate == null && lot == null
                ? NOT_KNOWN
                : new LotKey(supplier, killDate, lot, -1);
    }

    static LotKey numbered(int number) {
        return number < 0 ? NOT_KNOWN : new LotKey(null, null, null, number);
    }

    /** Whether an equal key elsewhere is surely the same lot: a farm sends cattle on many days. */
    boolean isKnown() {
        return number >= 0 || (killDate != null && (supplier != null || lot != null));
    }

    @Override
    public int compareTo(LotKey other) {
        return ORDER.compare(this, other);
    }
}
