package org.beefyield.estimate;

import java.io.Serializable;
import java.util.Comparator;
import java.util.Objects;
import java.util.stream.Stream;

/**
 * How many carcasses of a lot lie outside the fitted range in one variable, and the farthest of them.
 *
 * @param carcasses number of carcasses
 * @param extreme note of the carcass that is farthest outside
 * @serial exclude
 */
public record LotNote(long carcasses, RangeNote extreme) implements Serializable {
    /** Checks that nothing is missing. */
    public LotNote {
        Objects.requireNonNull(extreme, "extreme");
    }

    /** The note that speaks for both, in whichever order they come: of two as far outside the one below the range. */
    LotNote plus(LotNote other) {
        return new LotNote(
                carcasses + other.carcasses,
                Stream.of(extreme, other.extreme)
                        .max(Comparator.comparingDouble(RangeNote::distance)
                                .thenComparing(RangeNote::value, Comparator.reverseOrder()))
                        .orElseThrow());
    }

    /**
     * The note in words.
     *
     * @return such as {@code 3 carcasses: ..., the farthest}
     */
    @Override
    public String toString() {
        return carcasses == 1
                ? "1 carcass: " + extreme
                : carcasses + " carcasses outside the fitted range in "
                        + extreme.variable().code() + "; the farthest: " + extreme;
    }
}
