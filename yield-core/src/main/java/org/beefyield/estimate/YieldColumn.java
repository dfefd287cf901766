package org.beefyield.estimate;

import java.util.Objects;
import org.beefyield.cut.Cut;

/**
 * What a column of estimates holds.
 *
 * @param level name of the level
 * @param cut cut
 */
public record YieldColumn(String level, Cut cut) {
    /** Checks that nothing is missing. */
    public YieldColumn {
        Objects.requireNonNull(level, "level");
        Objects.requireNonNull(cut, "cut");
    }

    /**
     * Its name, as wide files have it.
     *
     * @return such as {@code primal.fillet}
     */
    @Override
    public String toString() {
        return level + "." + cut.code();
    }
}
