package org.beefyield.cut;

import org.beefyield.text.Names;

/** What sort of thing a cut is; totals are formed by kind. */
public enum CutKind {
    /** Meat before it is split into primals. */
    MEAT,
    /** A major cut as it leaves the boning line. */
    PRIMAL,
    /** Retail steaks. */
    STEAK,
    /** Retail joints (roasts). */
    JOINT,
    /** Diced meat. */
    DICE,
    /** Small pieces of lean for mince. */
    LEAN_TRIM,
    /** Lean trim brought to a fat content. */
    MINCE,
    /** Fat cut away. */
    FAT_TRIM,
    /** Bone. */
    BONE,
    /** Evaporation, drip, saw and floor. */
    LOSS;

    /**
     * The name used in files and output.
     *
     * @return such as {@code lean-trim}
     */
    public String code() {
        return Names.code(this);
    }

    /**
     * Reads the name used in files.
     *
     * @param code such as {@code lean-trim}
     * @return the kind
     * @throws IllegalArgumentException if there is none of that name
     */
    public static CutKind parse(String code) {
        return Names.parse(CutKind.class, "kind", code);
    }
}
