package org.beefyield.table.definition;

import org.beefyield.text.Names;

/** How solid a figure is, from the most solid to the weakest. */
public enum SourceKind {
    /** Read in a publication. */
    PUBLISHED,
    /** Arithmetic on published figures. */
    DERIVED,
    /** A fact of the trade without a source. */
    COMMON_PRACTICE,
    /** Believed, not checked against the original. */
    UNVERIFIED,
    /** Assumed by the maker of the table. */
    ASSUMPTION;

    /**
     * The name used in files.
     *
     * @return such as {@code common-practice}
     */
    public String code() {
        return Names.code(this);
    }

    /**
     * Reads the name used in files.
     *
     * @param code such as {@code common-practice}
     * @return the kind
     * @throws IllegalArgumentException if there is none of that name
     */
    public static SourceKind parse(String code) {
        return Names.parse(SourceKind.class, TableColumn.KIND, code);
    }
}
