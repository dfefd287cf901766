package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;
import org.beefyield.cut.CutKind;
import org.jspecify.annotations.Nullable;

/**
 * A promise that a table makes about itself and is proved against: a cut, or the total of a kind, as g per kg of
 * carcass at a level, rises or falls with a variable.
 *
 * @param cut code of the cut, or null if the expectation is about a kind
 * @param kind the kind, or null if the expectation is about a cut
 * @param level level of the table
 * @param variable the variable
 * @param direction rises or falls
 * @param strict whether standing still is a failure
 * @param over fitted or allowed range
 * @param note why, empty if nothing
 * @serial exclude
 */
public record Expectation(
        @Nullable String cut,
        @Nullable CutKind kind,
        String level,
        Variable variable,
        Direction direction,
        boolean strict,
        Over over,
        String note)
        implements Serializable {
    /** Checks that nothing is missing. */
    public Expectation {
        Objects.requireNonNull(direction, "direction");
        Objects.requireNonNull(level, "level");
        Objects.requireNonNull(note, "note");
        Objects.requireNonNull(over, "over");
        Objects.requireNonNull(variable, "variable");
    }

    /** Which way. */
    public enum Direction {
        /** More of the variable, more of the cut. */
        RISES,
        /** More of the variable, less of the cut. */
        FALLS
    }

    /** Where. */
    public enum Over {
        /** Over the fitted range. */
        FITTED,
        /** Over the whole allowed range. */
        ALLOWED
    }

    /**
     * The promise in words.
     *
     * @return such as {@code striploin at level primal rises strictly with conformation over the allowed range}
     */
    public String claim() {
        return (kind == null ? cut : "total of kind " + kind.code()) + " at level " + level + " "
                + (direction == Direction.RISES ? "rises" : "falls") + (strict ? " strictly" : "") + " with "
                + variable.code() + " over the " + (over == Over.FITTED ? "fitted" : "allowed") + " range";
    }
}
