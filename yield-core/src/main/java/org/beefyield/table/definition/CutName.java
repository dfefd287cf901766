package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;

/**
 * The name of a cut in another language.
 *
 * @param cut code of the cut
 * @param language BCP 47 tag, such as {@code de}
 * @param name the name
 * @serial exclude
 */
public record CutName(String cut, String language, String name) implements Serializable {
    /** Checks that nothing is missing. */
    public CutName {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(language, "language");
        Objects.requireNonNull(name, "name");
    }
}
