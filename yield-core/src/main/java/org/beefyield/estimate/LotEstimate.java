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
import java.util.TreeMap;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.grid.PowerSums;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.definition.Variable;
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

    /** All that is kept of the carcasses. */
    private static final class Tally {
        private final Moments moments;
        private final Map<GradeCell, Long> counts = new TreeMap<>();
        private final Map<Variable, LotNote> outside = new EnumMap<>(Variable.class);
        private long carcasses;
        private long outsideFitted;

        Tally(Model model) {
            moments = new Moments(model);
        }

        void add(Carcass carcass, List<RangeNote> notes) {
            moments.add(carcass);
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
                    && moments.form().equals(that.moments.form());
        }

        @Override
        public int hashCode() {
            return Objects.hash(counts, outsideFitted);
        }

        void add(Tally other) {
            moments.add(other.moments);
            other.counts.forEach((cell, count) -> counts.merge(cell, count, Long::sum));
            other.outside.forEach((variable, note) -> outside.merge(variable, note, LotNote::plus));
            carcasses += other.carcasses;
            outsideFitted += other.outsideFitted;
        }
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
        Model other = model().with(specification);
        Tally same = new Tally(other);
        same.add(tally);
        return new LotEstimate(other, same, name);
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

    @Override
    Moments moments() {
        return tally.moments;
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
     * @return notes on ranges and mince
     */
    @Override
    public List<String> notes() {
        List<String> notes = new ArrayList<>();
        tally.outside.values().forEach(note -> notes.add(note.toString()));
        notes.addAll(minceNotes());
        return notes;
    }

    @Override
    String title() {
        return name().map(known -> known + ", lot of ").orElse("Lot of ") + carcasses()
                + (carcasses() == 1 ? " carcass, " : " carcasses, ") + Numbers.fixed(coldWeightKg(), TEXT_DECIMALS)
                + " kg cold";
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
     * @param sums power sums of the weights, by category, node and width of the grades
     * @param counts carcasses by category and grade
     * @param outside what was outside the fitted range, by variable
     * @param carcasses number of carcasses
     * @param outsideFitted number of those outside the fitted range
     * @param name name of the lot, or null
     * @serial exclude
     */
    private record Form(
            Model model,
            Map<Moments.Key, PowerSums> sums,
            Map<GradeCell, Long> counts,
            Map<Variable, LotNote> outside,
            long carcasses,
            long outsideFitted,
            @Nullable String name)
            implements Serializable {
        private Object readResolve() throws InvalidObjectException {
            Tally tally = new Tally(model);
            try {
                tally.moments.addForm(sums);
            } catch (IllegalArgumentException e) {
                throw (InvalidObjectException) new InvalidObjectException("no lot of this table").initCause(e);
            }
            tally.counts.putAll(counts);
            tally.outside.putAll(outside);
            tally.carcasses = carcasses;
            tally.outsideFitted = outsideFitted;
            return new LotEstimate(model, tally, name);
        }
    }

    /**
     * What is written in its place.
     *
     * @return estimator, power sums and counts
     */
    private Object writeReplace() {
        return new Form(
                model(),
                tally.moments.form(),
                new TreeMap<>(tally.counts),
                new EnumMap<>(tally.outside),
                tally.carcasses,
                tally.outsideFitted,
                name);
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

        Collector(Model model) {
            this.model = model;
            this.tally = new Tally(model);
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
            tally.add(carcass, model.notes(carcass));
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
                tally.add(carcass, model.notes(carcass));
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
                columns = new ColumnTotals(model, tally.moments.powers(), carcasses);
            }
            return columns.add(
                    carcasses,
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
                    tally.add(carcass, model.notes(carcass));
                }
            }
            return refused;
        }

        /** What columns summed up, into the tally: not after each chunk, for a small one has few carcasses to a node. */
        private Tally drainColumns() {
            if (columns != null) {
                columns.drainTo(tally.moments::add, tally::count);
            }
            return tally;
        }

        /**
         * Adds all that another collector holds; that one stays as it is.
         *
         * @param other a collector of an equal estimator
         * @return this
         * @throws IllegalArgumentException if its carcasses are estimated from another table or in another manner
         */
        public Collector add(Collector other) {
            Objects.requireNonNull(other, "other");
            model.checkSame(other.model);
            tally.add(other.drainColumns());
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
            Tally copy = new Tally(model);
            copy.add(tally);
            return new LotEstimate(model, copy, null);
        }
    }
}
