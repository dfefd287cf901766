package org.beefyield.data.table;

import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.SortedMap;
import java.util.TreeMap;
import org.beefyield.table.YieldTable;
import org.jspecify.annotations.Nullable;

/** A table by class that was made from a plain look-up sheet, and what the sheet doesn't say. Immutable. */
public final class LookUpSheet {
    private final YieldTable table;
    private final SortedMap<Long, Double> rounded;
    private final List<String> notes;

    LookUpSheet(YieldTable table, SortedMap<Long, Double> rounded, List<String> notes) {
        this.table = table;
        this.rounded = Collections.unmodifiableSortedMap(new TreeMap<>(rounded));
        this.notes = List.copyOf(notes);
    }

    /**
     * The table.
     *
     * @return proved, with one level of cuts that all come from the carcass
     */
    public YieldTable table() {
        return table;
    }

    /**
     * Rows that didn't add up to 100 %, as far as rounding explains, and were brought to it in proportion.
     *
     * @return number of the line to what its cuts added up to, per cent; unmodifiable
     */
    public SortedMap<Long, Double> rounded() {
        return rounded;
    }

    /**
     * What the sheet doesn't say and what was taken instead, for its owner to look at.
     *
     * @return sentences
     */
    public List<String> notes() {
        return notes;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof LookUpSheet that
                && table.equals(that.table)
                && rounded.equals(that.rounded)
                && notes.equals(that.notes);
    }

    @Override
    public int hashCode() {
        return Objects.hash(table, rounded, notes);
    }

    /**
     * One line.
     *
     * @return such as {@code our-hall@1#0123456789ab from a look-up sheet: 15 rows brought to 100 %, 6 notes}
     */
    @Override
    public String toString() {
        return table.identity() + " from a look-up sheet: " + rounded.size()
                + (rounded.size() == 1 ? " row" : " rows") + " brought to 100 %, " + notes.size()
                + (notes.size() == 1 ? " note" : " notes");
    }
}
