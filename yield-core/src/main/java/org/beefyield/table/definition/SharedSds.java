package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * SDs of the errors of a share that carcasses have in common, g per kg of parent; null where the table doesn't state them. A
 * table states an SD for all of its rows or for none.
 *
 * @param lotGPerKg SD between lots, 0 or more
 * @param runGPerKg SD between runs of one hall, 0 or more
 * @param hallGPerKg SD between halls, 0 or more; 0 in a table that was made in the hall that uses it
 * @serial exclude
 */
public record SharedSds(
        @Nullable Double lotGPerKg,
        @Nullable Double runGPerKg,
        @Nullable Double hallGPerKg) implements Serializable {
    /** Nothing stated. */
    public static final SharedSds NOT_STATED = new SharedSds(null, null, null);

    /**
     * All three.
     *
     * @param lotGPerKg SD between lots, 0 or more
     * @param runGPerKg SD between runs of one hall, 0 or more
     * @param hallGPerKg SD between halls, 0 or more
     * @return the SDs
     */
    public static SharedSds of(double lotGPerKg, double runGPerKg, double hallGPerKg) {
        return new SharedSds(lotGPerKg, runGPerKg, hallGPerKg);
    }

    /**
     * One of the SDs.
     *
     * @param shared what has the error in common
     * @return g per kg of parent, or null if it isn't stated
     */
    public @Nullable Double of(SharedBy shared) {
        return switch (Objects.requireNonNull(shared, "shared")) {
            case LOT -> lotGPerKg;
            case RUN -> runGPerKg;
            case HALL -> hallGPerKg;
        };
    }
}
