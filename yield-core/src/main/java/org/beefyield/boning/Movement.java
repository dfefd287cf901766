package org.beefyield.boning;

import org.beefyield.text.Names;

/** Where a piece of a run's intake came from and went to: the line, or the stock of uncut pieces. */
public enum Movement {
    /** Came in and was boned in this run. */
    BONED(true, true),
    /** Came in with an earlier run, lay uncut, and was boned in this one. */
    TAKEN_FROM_STOCK(false, true),
    /** Came in with this run and was left uncut. */
    LEFT_IN_STOCK(true, false);

    private final boolean cameIn;
    private final boolean wasBoned;

    Movement(boolean cameIn, boolean wasBoned) {
        this.cameIn = cameIn;
        this.wasBoned = wasBoned;
    }

    /**
     * Whether it is part of this run's intake.
     *
     * @return false for what an earlier run brought in
     */
    public boolean cameIn() {
        return cameIn;
    }

    /**
     * Whether this run boned it.
     *
     * @return false for what was left uncut
     */
    public boolean wasBoned() {
        return wasBoned;
    }

    /**
     * The name used in files and output.
     *
     * @return such as {@code taken-from-stock}
     */
    public String code() {
        return Names.code(this);
    }

    /**
     * Reads the name used in files.
     *
     * @param code such as {@code taken-from-stock}
     * @return the movement
     * @throws IllegalArgumentException if there is none of that name
     */
    public static Movement parse(String code) {
        return Names.parse(Movement.class, "movement", code);
    }
}
