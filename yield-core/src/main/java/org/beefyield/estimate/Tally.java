package org.beefyield.estimate;

import java.io.InvalidObjectException;
import java.io.Serializable;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.beefyield.carcass.Carcass;
import org.beefyield.table.definition.Variable;
import org.jspecify.annotations.Nullable;

/** All that is kept of the carcasses. */
final class Tally {
    final Moments moments;
    final Map<GradeCell, Long> counts = new TreeMap<>();
    final Map<Variable, LotNote> outside = new EnumMap<>(Variable.class);
    long carcasses;
    long outsideFitted;

    Tally(Model model) {
        this(new Moments(model));
    }

    private Tally(Moments moments) {
        this.moments = moments;
    }

    /**
     * What goes over the wire.
     *
     * @param moments power sums of the weights of all, and carcasses by lot and run
     * @param counts carcasses by category and grade
     * @param outside what was outside the fitted range, by variable
     * @param carcasses number of carcasses
     * @param outsideFitted number of those outside the fitted range
     * @serial exclude
     */
    record Form(
            Moments.Form moments,
            Map<GradeCell, Long> counts,
            Map<Variable, LotNote> outside,
            long carcasses,
            long outsideFitted)
            implements Serializable {
        /** The carcasses again, of which a part is taken. */
        Tally tally(Model model, CarcassPart part) throws InvalidObjectException {
            Tally tally = new Tally(new Moments(model, part));
            try {
                tally.moments.addForm(moments);
            } catch (IllegalArgumentException e) {
                throw (InvalidObjectException) new InvalidObjectException("no lot of this table").initCause(e);
            }
            tally.counts.putAll(counts);
            tally.outside.putAll(outside);
            tally.carcasses = carcasses;
            tally.outsideFitted = outsideFitted;
            return tally;
        }
    }

    Form form() {
        return new Form(moments.form(), new TreeMap<>(counts), new EnumMap<>(outside), carcasses, outsideFitted);
    }

    void add(Carcass carcass, List<RangeNote> notes) {
        add(carcass, LotKey.of(carcass), RunKey.of(carcass), notes);
    }

    void add(Carcass carcass, LotKey lot, RunKey run, List<RangeNote> notes) {
        moments.add(carcass, lot, run);
        count(GradeCell.of(carcass), 1);
        note(notes);
    }

    void count(GradeCell cell, long more) {
        counts.merge(cell, more, Long::sum);
        carcasses += more;
    }

    void note(List<RangeNote> notes) {
        notes.forEach(note -> outside.merge(note.variable(), new LotNote(1, note), LotNote::plus));
        outsideFitted += notes.isEmpty() ? 0 : 1;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Tally that
                && counts.equals(that.counts)
                && outside.equals(that.outside)
                && carcasses == that.carcasses
                && outsideFitted == that.outsideFitted
                && moments.holdsTheSameAs(that.moments);
    }

    @Override
    public int hashCode() {
        return Objects.hash(counts, outsideFitted);
    }

    Tally copy() {
        return of(moments.part());
    }

    /** The same carcasses, of which a part is taken. */
    Tally of(CarcassPart part) {
        Tally copy = new Tally(new Moments(moments.model(), part));
        copy.add(this);
        return copy;
    }

    void add(Tally other) {
        moments.add(other.moments);
        other.counts.forEach((cell, count) -> counts.merge(cell, count, Long::sum));
        other.outside.forEach((variable, note) -> outside.merge(variable, note, LotNote::plus));
        carcasses += other.carcasses;
        outsideFitted += other.outsideFitted;
    }
}
