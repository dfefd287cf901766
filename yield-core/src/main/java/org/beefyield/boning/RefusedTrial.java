package org.beefyield.boning;

import java.util.Objects;

/**
 * A trial, or one breakdown of a trial, that is left out.
 *
 * @param carcass id of the carcass
 * @param parent code of the cut whose breakdown is left out, empty if the whole trial is
 * @param reason why, in words
 */
public record RefusedTrial(String carcass, String parent, String reason) {
    /** Checks that nothing is missing. */
    public RefusedTrial {
        Objects.requireNonNull(carcass, "carcass");
        Objects.requireNonNull(parent, "parent");
        Objects.requireNonNull(reason, "reason");
    }

    /**
     * The reason, and what is left out.
     *
     * @return one line
     */
    @Override
    public String toString() {
        return reason + (parent.isEmpty() ? "" : "; its breakdown of " + parent + " is left out");
    }
}
