package org.beefyield.boning;

import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;

/** What was weighed of a run beside its boxes. */
public enum RestKind {
    /** Bone. */
    BONE,
    /** Fat trim. */
    FAT,
    /** What can't be sold, such as gristle and bruised meat. */
    WASTE,
    /** Taken for tests. */
    SAMPLES,
    /** Swept from the floor. */
    FLOOR,
    /** A loss that was weighed, such as drip. */
    LOSS;

    /**
     * The name used in files and output.
     *
     * @return such as {@code bone}
     */
    public String code() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * Reads the name used in files.
     *
     * @param code such as {@code bone}
     * @return the kind
     * @throws IllegalArgumentException if there is none of that name
     */
    public static RestKind parse(String code) {
        Objects.requireNonNull(code, "code");
        for (RestKind kind : values()) {
            if (kind.code().equals(code)) {
                return kind;
            }
        }
        throw new IllegalArgumentException("kind of rest \"" + code + "\" is none of "
                + Arrays.stream(values()).map(RestKind::code).collect(Collectors.joining(" ")));
    }
}
