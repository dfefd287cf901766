package org.beefyield.boning;

import org.beefyield.text.Names;

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
        return Names.code(this);
    }

    /**
     * Reads the name used in files.
     *
     * @param code such as {@code bone}
     * @return the kind
     * @throws IllegalArgumentException if there is none of that name
     */
    public static RestKind parse(String code) {
        return Names.parse(RestKind.class, "kind of rest", code);
    }
}
