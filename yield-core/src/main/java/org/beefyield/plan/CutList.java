package org.beefyield.plan;

import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.beefyield.carcass.Carcass;
import org.beefyield.text.Checks;

/**
 * Carcasses of one lot of which a cut is cut up alike: a line of what the hall works from.
 *
 * @param lot supplier, kill date and lot, as far as they are known
 * @param cut code of the cut
 * @param ways the way, or the ways by the weight of the pieces
 * @param carcasses the carcasses
 */
public record CutList(String lot, String cut, List<WayOfPieces> ways, List<Carcass> carcasses) {
    /** Checks that nothing is missing and copies the lists. */
    public CutList {
        Objects.requireNonNull(lot, "lot");
        Objects.requireNonNull(cut, "cut");
        Checks.noNullIn(ways, "ways");
        Checks.noNullIn(carcasses, "carcasses");
        ways = List.copyOf(ways);
        carcasses = List.copyOf(carcasses);
    }

    /**
     * A way, and the pieces that go it.
     *
     * @param pieces their weights, such as {@code 5 to 7 kg}; empty for all
     * @param way the way
     * @param kg expected kg of the cut
     */
    public record WayOfPieces(String pieces, String way, double kg) {
        /** Checks that nothing is missing. */
        public WayOfPieces {
            Objects.requireNonNull(pieces, "pieces");
            Objects.requireNonNull(way, "way");
        }
    }

    /**
     * Expected weight of the cut.
     *
     * @return kg
     */
    public double kg() {
        return ways.stream().mapToDouble(WayOfPieces::kg).sum();
    }

    /**
     * How the cut is cut up, in words.
     *
     * @return such as {@code joints}, or {@code below 5 kg joints, 5 to 10 kg steaks, from 10 kg joints}
     */
    public String words() {
        return ways.stream()
                .map(one -> one.pieces().isEmpty() ? one.way() : one.pieces() + " " + one.way())
                .collect(Collectors.joining(", "));
    }
}
