package org.beefyield.table.definition;

import java.io.Serializable;
import org.jspecify.annotations.Nullable;

/**
 * How the carcasses behind a table were handled; tables of different basis compare only with a note.
 *
 * @param quartering how sides were quartered, or null if not stated
 * @param hanging how sides were hung, or null if not stated
 * @param fatCoverMm fat left on the primals, mm, or null if not stated
 * @param ageingDays days of ageing before weighing, or null if not stated
 * @param boneless whether the cuts are boneless, or null if not stated
 * @serial exclude
 */
public record Basis(
        @Nullable String quartering,
        @Nullable String hanging,
        @Nullable Double fatCoverMm,
        @Nullable Double ageingDays,
        @Nullable Boolean boneless)
        implements Serializable {
    /** Nothing stated. */
    public static final Basis NOT_STATED = new Basis(null, null, null, null, null);
}
