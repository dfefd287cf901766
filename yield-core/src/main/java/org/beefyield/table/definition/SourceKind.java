package org.beefyield.table.definition;

import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;

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
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /**
     * Reads the name used in files.
     *
     * @param code such as {@code common-practice}
     * @return the kind
     * @throws IllegalArgumentException if there is none of that name
     */
    public static SourceKind parse(String code) {
        Objects.requireNonNull(code, "code");
        for (SourceKind kind : values()) {
            if (kind.code().equals(code)) {
                return kind;
            }
        }
        throw new IllegalArgumentException("kind \"" + code + "\" is none of "
                + Arrays.stream(values()).map(SourceKind::code).collect(Collectors.joining(" ")));
    }
}
