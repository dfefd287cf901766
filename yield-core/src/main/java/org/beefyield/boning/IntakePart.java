package org.beefyield.boning;

import org.beefyield.text.Names;

/** What of a carcass came to the boning line as one piece with a weight of its own. */
public enum IntakePart {
    /** The whole carcass, both sides weighed together. */
    CARCASS(1, 1),
    /** One side. */
    SIDE(0.5, 0.5),
    /** The forequarter of one side. */
    FOREQUARTER(0.5, 0),
    /** The hindquarter of one side. */
    HINDQUARTER(0, 0.5);

    private final double foreShare;
    private final double hindShare;

    IntakePart(double foreShare, double hindShare) {
        this.foreShare = foreShare;
        this.hindShare = hindShare;
    }

    /**
     * How much of the carcass's two forequarters it is.
     *
     * @return 1 for a carcass, a half for a side and a forequarter, 0 for a hindquarter
     */
    public double foreShare() {
        return foreShare;
    }

    /**
     * How much of the carcass's two hindquarters it is.
     *
     * @return 1 for a carcass, a half for a side and a hindquarter, 0 for a forequarter
     */
    public double hindShare() {
        return hindShare;
    }

    /**
     * The name used in files and output.
     *
     * @return such as {@code forequarter}
     */
    public String code() {
        return Names.code(this);
    }

    /**
     * Reads the name used in files.
     *
     * @param code such as {@code forequarter}
     * @return the part
     * @throws IllegalArgumentException if there is none of that name
     */
    public static IntakePart parse(String code) {
        return Names.parse(IntakePart.class, "part", code);
    }
}
