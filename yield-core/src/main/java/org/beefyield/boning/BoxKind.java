package org.beefyield.boning;

import org.beefyield.text.Names;

/** How a box came to be. */
public enum BoxKind {
    /** Packed from the boning line. */
    FIRST(true),
    /** Packed again from other boxes, whose weight is counted already. */
    REWORK(false),
    /** Packed from the boning line as something less than what was cut. */
    DOWNGRADED(true);

    private final boolean counted;

    BoxKind(boolean counted) {
        this.counted = counted;
    }

    /**
     * Whether its weight is part of what came off the line.
     *
     * @return false if other boxes count it
     */
    public boolean isCounted() {
        return counted;
    }

    /**
     * The name used in files and output.
     *
     * @return such as {@code downgraded}
     */
    public String code() {
        return Names.code(this);
    }

    /**
     * Reads the name used in files.
     *
     * @param code such as {@code downgraded}
     * @return the kind
     * @throws IllegalArgumentException if there is none of that name
     */
    public static BoxKind parse(String code) {
        return Names.parse(BoxKind.class, "kind of box", code);
    }
}
