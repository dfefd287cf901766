package org.beefyield.boning;

import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;

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
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * Reads the name used in files.
     *
     * @param code such as {@code downgraded}
     * @return the kind
     * @throws IllegalArgumentException if there is none of that name
     */
    public static BoxKind parse(String code) {
        Objects.requireNonNull(code, "code");
        for (BoxKind kind : values()) {
            if (kind.code().equals(code)) {
                return kind;
            }
        }
        throw new IllegalArgumentException("kind of box \"" + code + "\" is none of "
                + Arrays.stream(values()).map(BoxKind::code).collect(Collectors.joining(" ")));
    }
}
