package org.beefyield.table.definition;

import java.util.Locale;

/** What a share depends on. */
public enum Variable {
    /** Conformation, position on the 18-point scale. */
    CONFORMATION,
    /** Fat class, position on the 15-point scale. */
    FAT,
    /** Cold carcass weight; in a term, hundreds of kg from the reference weight. */
    WEIGHT;

    /**
     * The name used in files.
     *
     * @return conformation, fat or weight
     */
    public String code() {
        return name().toLowerCase(Locale.ROOT);
    }
}
