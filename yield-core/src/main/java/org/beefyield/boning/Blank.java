package org.beefyield.boning;

import java.util.Objects;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.text.Numbers;

/**
 * A weight that trials left blank although they weighed half or more of what else comes of the same cut. Such trials serve
 * that breakdown only in part, see {@link WeighedBreakdown#partlyWeighed()}.
 *
 * @param parent code of the cut that was broken down, or {@code carcass}
 * @param part code of the cut, or name of the group, that is blank
 * @param trials accepted trials that left it blank
 * @param of accepted trials that weighed half or more of the others
 */
public record Blank(String parent, String part, int trials, int of) {
    /**
     * Checks that nothing is missing and that figures are figures.
     *
     * @throws IllegalArgumentException if no trial left it blank, or more than there are
     */
    public Blank {
        Objects.requireNonNull(parent, "parent");
        Objects.requireNonNull(part, "part");
        if (trials < 1 || trials > of) {
            throw new IllegalArgumentException(
                    part + " blank in " + trials + " of " + of + " trials is not one trial or more, and at most all");
        }
    }

    /**
     * One line.
     *
     * @return such as {@code bone is blank in 44 of 150 trials} or {@code dice of striploin is blank in 1 of 1 trial}; a cut
     *     that was there and weighed nothing has a 0
     */
    @Override
    public String toString() {
        return part + (parent.equals(BreakdownRow.ROOT) ? "" : " of " + parent) + " is blank in " + trials + " of "
                + Numbers.counted(of, "trial", "trials");
    }
}
