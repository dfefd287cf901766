package org.beefyield.plan;

import java.util.List;
import java.util.Objects;
import org.beefyield.carcass.Carcass;
import org.beefyield.text.Checks;

/**
 * Carcasses of one lot of which a cut goes one way: a line of what the hall works from.
 *
 * @param lot supplier, kill date and lot, as far as they are known
 * @param cut code of the cut
 * @param pieces weight of the pieces that go this way, such as {@code 5 to 7 kg}; empty for all
 * @param way the way
 * @param carcasses the carcasses
 * @param kg expected kg of the cut
 */
public record CutList(String lot, String cut, String pieces, String way, List<Carcass> carcasses, double kg) {
    /** Checks that nothing is missing and copies the carcasses. */
    public CutList {
        Objects.requireNonNull(lot, "lot");
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(pieces, "pieces");
        Objects.requireNonNull(way, "way");
        Checks.noNullIn(carcasses, "carcasses");
        carcasses = List.copyOf(carcasses);
    }
}
