package org.beefyield.estimate;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * What a lot of carcasses is expected to return together, and how sure that is. Immutable; two lots of the same estimator
 * add up with {@link #plus}. Memory does not grow with the number of carcasses. Serializable by its power sums and its
 * estimator, so that the parts of a cluster job can add up. Two are equal if names, estimators and power sums are, these to the
 * last bit, so that lots of the same carcasses in another order need not be.
 */
public final class LotEstimate extends Outturn implements Serializable {
    private static final long serialVersionUID = 1;
    private static final int TEXT_DECIMALS = 1;

    private final transient Tally tally;
    private final transient @Nullable String name;

    private LotEstimate(Model model, Tally tally, @Nullable String name) {
        super(model, tally.moments.coldWeightKg(), tally.moments.kgBySlot());
        this.tally = tally;
        this.name = name;
    }

    /**
     * The same lot with a name, which stands above its tables.
     *
     * @param newName name for people, such as that of the farm and the day
     * @return a lot
     * @throws IllegalArgumentException if the name is blank
     */
    public LotEstimate withName(String newName) {
        if (Objects.requireNonNull(newName, "newName").isBlank()) {
            throw new IllegalArgumentException("the name of a lot is blank; give one, or leave it out");
        }
        return new LotEstimate(model(), tally, newName);
    }

    /**
     * The lot's name.
     *
     * @return the name, or empty if it has none
     */
    public Optional<String> name() {
        return Optional.ofNullable(name);
    }

    /**
     * This lot and another together.
     *
     * @param other a lot of an equal estimator
     * @return both, with the name if they have the same
     * @throws IllegalArgumentException if the lots were estimated from other tables or in another manner
     */
    public LotEstimate plus(LotEstimate other) {
        Objects.requireNonNull(other, "other");
        model().checkSame(other.model());
        Tally both = new Tally(model());
        both.add(tally);
        both.add(other.tally);
        return new LotEstimate(model(), both, Objects.equals(name, other.name) ? name : null);
    }

    /**
     * The same carcasses cut in another way: what is kept of them doesn't depend on that, so they need not be read again.
     *
     * @param specification one way for every cut that has ways
     * @return the lot under it, to the last bit as if it had been collected so
     * @throws IllegalArgumentException if it names a cut or way that the table doesn't have, or leaves one out
     */
    public LotEstimate under(CuttingSpecification specification) {
        Objects.requireNonNull(specification, "specification");
        return in(model().with(specification));
    }

    /**
     * The same carcasses under one of the table's cutting specifications.
     *
     * @param specification name of the specification
     * @return the lot under it
     * @throws IllegalArgumentException if the table has none of that name
     */
    public LotEstimate under(String specification) {
        Objects.requireNonNull(specification, "specification");
        return under(table().specification(specification));
    }

    /**
     * The same lot with other parts of the uncertainty in its SDs, intervals and promises.
     *
     * @param parts parts that count
     * @return a lot
     */
    public LotEstimate counting(Set<UncertaintyPart> parts) {
        Checks.noNullIn(parts, "parts");
        return in(model().counting(parts));
    }

    /**
     * The same lot in a hall that cuts as the table does: its SDs, intervals and promises leave {@link UncertaintyPart#HALL} out.
     *
     * @return a lot
     */
    public LotEstimate inOwnHall() {
        return in(model().inOwnHall());
    }

    private LotEstimate in(Model other) {
        Tally same = new Tally(other);
        same.add(tally);
        return new LotEstimate(other, same, name);
    }

    /**
     * Number of lots, by supplier, kill date and name, that are known apart: the carcasses of each have errors in common.
     * Carcasses of which none of these is known are one lot.
     *
     * @return 1 or more, or 0 if the table states no SD between lots
     */
    public int lots() {
        return tally.moments.lots();
    }

    /**
     * Number of runs, by hall and kill date, that are known apart: the carcasses of each have errors in common. Carcasses of a
     * hall without kill date are one run.
     *
     * @return 1 or more, or 0 if the table states no SD between runs or halls and the scale no bias
     */
    public int runs() {
        return tally.moments.runs();
    }

    @Override
    List<Moments> moments() {
        return List.of(tally.moments);
    }

    /**
     * A part of these carcasses alone.
     *
     * @param part the part, the same of each carcass
     * @return what comes of it
     * @throws IllegalArgumentException if the table doesn't have its quartering
     */
    public PartEstimate part(CarcassPart part) {
        Objects.requireNonNull(part, "part");
        return PartEstimate.of(tally, part);
    }

    /**
     * Number of carcasses.
     *
     * @return 1 or more
     */
    public long carcasses() {
        return tally.carcasses;
    }

    /**
     * Mean weight of one piece of a cut over all carcasses of the lot.
     *
     * @param cut code
     * @return kg of one piece of one side, or empty if the cut isn't sold by the piece
     * @throws IllegalArgumentException if the table has no such cut
     */
    @Override
    public OptionalDouble pieceKg(String cut) {
        OptionalDouble ofAll = super.pieceKg(cut);
        return ofAll.isEmpty() ? ofAll : OptionalDouble.of(ofAll.getAsDouble() / carcasses());
    }

    /**
     * Number of carcasses outside the range of the data behind the table, in whatever variable.
     *
     * @return 0 or more
     */
    public long outsideFitted() {
        return tally.outsideFitted;
    }

    /**
     * Number of carcasses by whole classes.
     *
     * @return an unmodifiable map in order of category, conformation and fat class
     */
    public Map<GradeCell, Long> counts() {
        return Collections.unmodifiableMap(tally.counts);
    }

    /**
     * Number of carcasses by category.
     *
     * @return an unmodifiable map in order of category
     */
    public Map<Category, Long> categories() {
        Map<Category, Long> categories = new EnumMap<>(Category.class);
        tally.counts.forEach((cell, count) -> categories.merge(cell.category(), count, Long::sum));
        return Collections.unmodifiableMap(categories);
    }

    /**
     * Mean conformation.
     *
     * @return mean position on the 18-point scale
     */
    public double meanConformation() {
        return tally.moments.conformationPositions() / tally.carcasses;
    }

    /**
     * Mean fat class.
     *
     * @return mean position on the 15-point scale
     */
    public double meanFat() {
        return tally.moments.fatPositions() / tally.carcasses;
    }

    /**
     * How many carcasses lie outside the range of the data behind the table, by variable, and the farthest of them.
     *
     * @return one note for each variable in which any does
     */
    public List<LotNote> rangeNotes() {
        return List.copyOf(tally.outside.values());
    }

    /**
     * What a reader of the figures should know, in words.
     *
     * @return notes on ranges, mince and errors that the table doesn't state
     */
    @Override
    public List<String> notes() {
        List<String> notes = new ArrayList<>();
        tally.outside.values().forEach(note -> notes.add(note.toString()));
        notes.addAll(minceNotes());
        notes.addAll(PartsText.notStated(table()));
        return notes;
    }

    /**
     * What the saleable weight of this lot rests on, and what stands behind the categories.
     *
     * @return by kind of the weakest source; worked out when asked for
     */
    public Support support() {
        return Support.of(tally.moments);
    }

    @Override
    <T> Frame.Builder<T> addHeads(Frame.Builder<T> rows) {
        // each row is of all of them
        Column carcasses = Column.number("carcasses");
        return super.addHeads(rows.text("lot", row -> name().orElse("")).number(carcasses, row -> carcasses()));
    }

    @Override
    List<String> supportWords() {
        return SupportText.sentences(support());
    }

    @Override
    boolean showsBothHalls() {
        return true;
    }

    @Override
    String title() {
        return name().map(known -> known + ", lot of ").orElse("Lot of ")
                + Numbers.grouped(Long.toString(carcasses()))
                + (carcasses() == 1 ? " carcass, " : " carcasses, ")
                + Numbers.grouped(Numbers.fixed(coldWeightKg(), TEXT_DECIMALS)) + " kg cold";
    }

    @Override
    int decimals() {
        return TEXT_DECIMALS;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof LotEstimate that
                && Objects.equals(name, that.name)
                && tally.equals(that.tally)
                && model().equals(that.model());
    }

    @Override
    public int hashCode() {
        return Objects.hash(name, tally);
    }

    /**
     * One line.
     *
     * @return name if there is one, number of carcasses, cold weight, meat and table
     */
    @Override
    public String toString() {
        return name().map(known -> known + ": ").orElse("") + carcasses()
                + (carcasses() == 1 ? " carcass, " : " carcasses, ") + Numbers.fixed(coldWeightKg(), 1)
                + " kg cold: meat " + Numbers.fixed(meatKg(), 1) + " kg (" + table().identity() + ")";
    }

    /**
     * What goes over the wire.
     *
     * @param model what the lot was estimated with
     * @param tally all that is kept of the carcasses
     * @param name name of the lot, or null
     * @serial exclude
     */
    private record Form(
            Model model, Tally.Form tally, @Nullable String name) implements Serializable {
        private Object readResolve() throws InvalidObjectException {
            return new LotEstimate(model, tally.tally(model, CarcassPart.carcass()), name);
        }
    }

    /**
     * What is written in its place.
     *
     * @return estimator, power sums and counts
     */
    private Object writeReplace() {
        return new Form(model(), tally.form(), name);
    }

    /**
     * Refuses a lot that was not written as its power sums.
     *
     * @param in stream
     * @throws InvalidObjectException always
     */
    private void readObject(ObjectInputStream in) throws InvalidObjectException {
        throw new InvalidObjectException("a lot arrives as its power sums");
    }

    /** Adds carcasses up to a lot. Not thread-safe; let each thread have its own and merge them. */
    public static final class Collector {
        private final Model model;
        private final Tally tally;
        private @Nullable ColumnTotals columns;
        private boolean oneLot;

        Collector(Model model) {
            this.model = model;
            this.tally = new Tally(model);
        }

        /**
         * Takes all carcasses that are added from now on for one lot of one run, whatever their suppliers and kill dates: for
         * millions of them, of which lots and runs would take memory, at the price of wider intervals.
         *
         * @return this
         */
        public Collector asOneLot() {
            oneLot = true;
            return this;
        }

        private void take(Carcass carcass) {
            List<RangeNote> notes = model.notes(carcass);
            if (oneLot) {
                tally.add(carcass, LotKey.NOT_KNOWN, RunKey.NOT_KNOWN, notes);
            } else {
                tally.add(carcass, notes);
            }
        }

        /**
         * Adds a carcass.
         *
         * @param carcass carcass
         * @return this
         * @throws RefusedCarcassException if the table gives no estimate for it; the lot is as before
         */
        public Collector add(Carcass carcass) {
            Objects.requireNonNull(carcass, "carcass");
            model.check(carcass);
            take(carcass);
            return this;
        }

        /**
         * Adds a carcass, or says why the table gives no estimate for it.
         *
         * @param carcass carcass
         * @return empty if it was added; else the reasons, and the lot is as before
         */
        public List<Refusal> tryAdd(Carcass carcass) {
            Objects.requireNonNull(carcass, "carcass");
            List<Refusal> refusals = model.refusals(carcass);
            if (refusals.isEmpty()) {
                take(carcass);
            }
            return refusals;
        }

        /**
         * Adds rows of columns, the same as one by one within rounding and much faster. What is refused is left out and
         * says why in its flags ({@link RowFlag}).
         *
         * @param carcasses carcasses
         * @param from first row
         * @param to row behind the last
         * @param flags takes the flags of row {@code from + i} at i
         * @return number of rows that were refused
         * @throws IndexOutOfBoundsException if there are no such rows
         * @throws IllegalArgumentException if there are fewer places for flags than rows
         */
        public int add(CarcassColumns carcasses, int from, int to, byte[] flags) {
            Objects.requireNonNull(carcasses, "carcasses");
            Objects.requireNonNull(flags, "flags");
            YieldColumns.checkRows(carcasses, from, to, flags);
            if (carcasses.hasWidths()) {
                return addOneByOne(carcasses, from, to, flags);
            }
            if (columns == null || !columns.takes(carcasses)) {
                drainColumns();
                columns = new ColumnTotals(model, tally.moments, carcasses);
            }
            return columns.add(
                    oneLot ? carcasses.withoutKeys() : carcasses,
                    from,
                    to,
                    flags,
                    (conformation, fat, coldWeightKg) -> tally.note(model.notes(conformation, fat, coldWeightKg)));
        }

        /** Rows that are graded each in its own way: sums go by width, so that there is no gain in arrays. */
        private int addOneByOne(CarcassColumns carcasses, int from, int to, byte[] flags) {
            RowChecks checks = new RowChecks(model);
            int refused = 0;
            for (int row = from; row < to; row++) {
                byte flag = checks.flags(carcasses, row);
                flags[row - from] = flag;
                if (RowFlag.isRefused(flag)) {
                    refused++;
                } else {
                    Carcass carcass = carcasses.carcass(row);
                    tally.add(carcass, lot(carcasses, row), run(carcasses, row), model.notes(carcass));
                }
            }
            return refused;
        }

        private LotKey lot(CarcassColumns carcasses, int row) {
            return oneLot ? LotKey.NOT_KNOWN : carcasses.lot(row);
        }

        private RunKey run(CarcassColumns carcasses, int row) {
            return oneLot ? RunKey.NOT_KNOWN : carcasses.run(row);
        }

        /** What columns summed up, into the tally: not after each chunk, for a small one has few carcasses to a node. */
        private Tally drainColumns() {
            if (columns != null) {
                columns.drainTo(tally.moments, tally::count);
            }
            return tally;
        }

        /**
         * Adds all that another collector holds, or this one once more; that one stays as it is.
         *
         * @param other a collector of an equal estimator
         * @return this
         * @throws IllegalArgumentException if its carcasses are estimated from another table or in another manner
         */
        public Collector add(Collector other) {
            Objects.requireNonNull(other, "other");
            model.checkSame(other.model);
            Tally more = other.drainColumns();
            // what grows can't be read at once
            tally.add(other == this ? more.copy() : more);
            return this;
        }

        /**
         * The lot so far.
         *
         * @return the estimate of all carcasses added
         * @throws IllegalStateException if there is none
         */
        public LotEstimate lot() {
            if (drainColumns().carcasses == 0) {
                throw new IllegalStateException("a lot has at least one carcass");
            }
            return new LotEstimate(model, tally.copy(), null);
        }
    }
}
