package org.beefyield.boning;

import java.util.List;
import java.util.Objects;
import org.beefyield.text.Checks;

/**
 * What doesn't hold together in the records of runs.
 *
 * @param kind what sort of fault it is
 * @param ids carcasses or boxes that it is about, all of them
 * @param words one line that names the run, carcass, batch or box
 */
public record TraceFinding(Kind kind, List<String> ids, String words) {
    /** Sorts of faults. */
    public enum Kind {
        /** A piece, batch or box hangs on nothing. */
        ORPHAN,
        /** Something is there twice, or more of a carcass than there is. */
        DOUBLE,
        /** A batch is of several days, slaughterhouses or origins. */
        MIXED,
        /** More came out than went in. */
        EXCESS
    }

    /** Copies the list. */
    public TraceFinding {
        Objects.requireNonNull(kind, "kind");
        Checks.noNullIn(ids, "ids");
        Objects.requireNonNull(words, "words");
        ids = List.copyOf(ids);
    }

    /**
     * The finding in words.
     *
     * @return one line
     */
    @Override
    public String toString() {
        return words;
    }
}
