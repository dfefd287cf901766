package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;

/**
 * How much of a cut lies in the forequarter.
 *
 * @param quartering name of the quartering, such as {@code 10-rib forequarter}
 * @param cut code of the cut
 * @param foreShare fraction of the cut in the forequarter, 0 to 1
 * @param source short name of the source
 * @serial exclude
 */
public record QuarteringRow(String quartering, String cut, double foreShare, String source) implements Serializable {
    /** Checks that nothing is missing. */
    public QuarteringRow {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(quartering, "quartering");
        Objects.requireNonNull(source, "source");
    }
}
