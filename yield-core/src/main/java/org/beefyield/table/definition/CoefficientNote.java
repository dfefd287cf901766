package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * A note on one coefficient whose source differs from its row's, or whose standard error is known.
 *
 * @param category category of the row
 * @param way way of the row
 * @param parent parent of the row
 * @param cut child of the row
 * @param term column of the coefficient
 * @param standardError standard error in the column's unit, or null if not stated
 * @param errorId name of the error, or empty for the usual: notes of equal names are one draw, whatever the category; without
 *     a name the errors of one term of a breakdown are one draw for all categories, but for the level's where a row serves
 *     single categories. One coefficient may have several notes with standard errors if their names differ
 * @param source short name of the source
 * @serial exclude
 */
public record CoefficientNote(
        String category,
        String way,
        String parent,
        String cut,
        String term,
        @Nullable Double standardError,
        String errorId,
        String source)
        implements Serializable {
    /** Checks that nothing is missing. */
    public CoefficientNote {
        Objects.requireNonNull(category, "category");
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(errorId, "errorId");
        Objects.requireNonNull(parent, "parent");
        Objects.requireNonNull(source, "source");
        Objects.requireNonNull(term, "term");
        Objects.requireNonNull(way, "way");
    }

    /**
     * A note on an error without a name.
     *
     * @param category category of the row
     * @param way way of the row
     * @param parent parent of the row
     * @param cut child of the row
     * @param term column of the coefficient
     * @param standardError standard error in the column's unit, or null if not stated
     * @param source short name of the source
     */
    public CoefficientNote(
            String category,
            String way,
            String parent,
            String cut,
            String term,
            @Nullable Double standardError,
            String source) {
        this(category, way, parent, cut, term, standardError, "", source);
    }
}
