package org.beefyield.estimate;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * What parts of carcasses are expected to return: quarters, sides, one cut alone, or a mixture of these and of whole carcasses. It is made of an
 * estimate of the carcasses, {@link YieldEstimate#part} or {@link LotEstimate#part}, and adds up with {@link #plus}. Immutable.
 *
 * <p>A cut that the table's quartering divides lies in the forequarter by its fraction, the same in every carcass; what comes of the
 * cut lies there as the cut does, and meat or another cut before it as far as its cuts do. So forequarters and hindquarters of a
 * carcass add up to it in every cut of every level. That the knife doesn't always divide at the same place is in none of the
 * {@link UncertaintyPart parts of the uncertainty}. The cold weight is the expected one of the parts.
 */
public final class PartEstimate extends Outturn implements Serializable {
    private static final long serialVersionUID = 1;
    private static final int DECIMALS_OF_ONE = 2;
    private static final int DECIMALS_OF_MANY = 1;

    /** The carcasses by what is taken of each. */
    private final transient SortedMap<CarcassPart, Tally> tallies;

    private PartEstimate(Model model, SortedMap<CarcassPart, Tally> tallies) {
        this(model, tallies, kgBySlot(model, tallies));
    }

    private PartEstimate(Model model, SortedMap<CarcassPart, Tally> tallies, double[] kgBySlot) {
        super(
                model,
                Arrays.stream(kgBySlot, model.layout().start(0), model.layout().start(1))
                        .sum(),
                kgBySlot);
        this.tallies = tallies;
    }

    private static double[] kgBySlot(Model model, SortedMap<CarcassPart, Tally> tallies) {
        double[] kg = new double[model.anyGrid().length()];
        for (Tally tally : tallies.values()) {
            double[] ofPart = tally.moments.kgBySlot();
            for (int slot = 0; slot < kg.length; slot++) {
                kg[slot] += ofPart[slot];
            }
        }
        return kg;
    }

    /** A part of each of some carcasses. */
    static PartEstimate of(Tally carcasses, CarcassPart part) {
        SortedMap<CarcassPart, Tally> tallies = new TreeMap<>();
        tallies.put(part, carcasses.of(part));
        return new PartEstimate(carcasses.moments.model(), tallies);
    }

    /**
     * These parts and parts of other carcasses together: errors of lots, runs, halls and the table are common to both as they are
     * in a lot. Two parts of one carcass are one {@link CarcassPart}; added here they would be taken for parts of two carcasses.
     *
     * @param other parts of other carcasses, by an equal estimator
     * @return both
     * @throws IllegalArgumentException if they were estimated from other tables or in another manner
     */
    public PartEstimate plus(PartEstimate other) {
        Objects.requireNonNull(other, "other");
        model().checkSame(other.model());
        SortedMap<CarcassPart, Tally> both = new TreeMap<>(tallies);
        other.tallies.forEach((part, more) -> both.merge(part, more, (known, theirs) -> {
            Tally sum = known.copy();
            sum.add(theirs);
            return sum;
        }));
        return new PartEstimate(model(), both);
    }

    @Override
    List<Moments> moments() {
        return tallies.values().stream().map(tally -> tally.moments).toList();
    }

    @Override
    boolean isOneCarcass() {
        return head() == 1;
    }

    /**
     * Number of carcasses of which a part is here.
     *
     * @return 1 or more
     */
    public long head() {
        return tallies.values().stream().mapToLong(tally -> tally.carcasses).sum();
    }

    /**
     * Number of carcasses by what is taken of each.
     *
     * @return an unmodifiable map, whole carcasses first
     */
    public Map<CarcassPart, Long> carcasses() {
        Map<CarcassPart, Long> counts = new TreeMap<>();
        tallies.forEach((part, tally) -> counts.put(part, tally.carcasses));
        return Collections.unmodifiableMap(counts);
    }

    /**
     * How many carcasses lie outside the range of the data behind the table, by variable, and the farthest of them.
     *
     * @return one note for each variable in which any does
     */
    public List<LotNote> rangeNotes() {
        Map<Variable, LotNote> outside = new EnumMap<>(Variable.class);
        tallies.values()
                .forEach(tally ->
                        tally.outside.forEach((variable, note) -> outside.merge(variable, note, LotNote::plus)));
        return List.copyOf(outside.values());
    }

    /**
     * What a reader of the figures should know, in words.
     *
     * @return notes on ranges, mince and errors that the table doesn't state
     */
    @Override
    public List<String> notes() {
        List<String> notes = new ArrayList<>();
        rangeNotes().forEach(note -> notes.add(note.toString()));
        notes.addAll(minceNotes());
        notes.addAll(PartsText.notStated(table()));
        return notes;
    }

    /**
     * Of a part, none: a quarter may have a piece of a cut, or two.
     *
     * @param cut code
     * @return empty
     * @throws IllegalArgumentException if the table has no such cut
     */
    @Override
    public OptionalDouble pieceKg(String cut) {
        kg(cut);
        return OptionalDouble.empty();
    }

    /**
     * Weight of the forequarters and hindquarters.
     *
     * @param quartering name of a quartering of the table
     * @return the quarters, which add up to the cold weight
     * @throws IllegalArgumentException if the table has none of that name, carcasses are divided by another, or one
     *     cut is taken alone
     */
    @Override
    public Quarters quarters(String quartering) {
        Objects.requireNonNull(quartering, "name of a quartering");
        table().foreShares(quartering);
        double fore = 0;
        for (Map.Entry<CarcassPart, Tally> entry : tallies.entrySet()) {
            CarcassPart part = entry.getKey();
            if (!part.cut().isEmpty()) {
                throw new IllegalArgumentException(part + " alone has no quarters");
            }
            if (!part.quartering().isEmpty() && !part.quartering().equals(quartering)) {
                throw new IllegalArgumentException(part + " can't be divided again by quartering \"" + quartering
                        + "\"; ask for \"" + part.quartering() + "\"");
            }
            if (part.forequarters() > 0) {
                CarcassPart ofIt = new CarcassPart(quartering, part.forequarters(), 0);
                fore += of(entry.getValue(), ofIt).coldWeightKg();
            }
        }
        return new Quarters(quartering, fore, coldWeightKg() - fore);
    }

    @Override
    boolean showsQuarters() {
        return false;
    }

    @Override
    <T> Frame.Builder<T> addHeads(Frame.Builder<T> rows) {
        // each row is of all of them
        Column carcasses = Column.number("carcasses");
        return super.addHeads(rows.text("parts", row -> words()).number(carcasses, row -> head()));
    }

    @Override
    boolean showsBothHalls() {
        return !isOneCarcass();
    }

    /**
     * What is here, in words.
     *
     * @return such as {@code 12 carcasses and 80 forequarters (10-rib forequarter) of 40 carcasses}
     */
    public String words() {
        List<String> words = tallies.entrySet().stream()
                .map(entry -> words(entry.getKey(), entry.getValue().carcasses))
                .toList();
        int last = words.size() - 1;
        return last == 0
                ? words.get(0)
                : words.stream().limit(last).collect(Collectors.joining(", ")) + " and " + words.get(last);
    }

    private static String words(CarcassPart part, long carcasses) {
        String counted = Numbers.counted(carcasses, "carcass", "carcasses");
        return part.isCarcass() ? counted : part.words(carcasses) + " of " + counted;
    }

    @Override
    String title() {
        return words() + ", " + Numbers.fixed(coldWeightKg(), decimals()) + " kg cold";
    }

    @Override
    int decimals() {
        return isOneCarcass() ? DECIMALS_OF_ONE : DECIMALS_OF_MANY;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof PartEstimate that && tallies.equals(that.tallies) && model().equals(that.model());
    }

    @Override
    public int hashCode() {
        return tallies.hashCode();
    }

    /**
     * What goes over the wire.
     *
     * @param model what they were estimated with
     * @param tallies the carcasses by what is taken of each
     * @serial exclude
     */
    private record Form(Model model, SortedMap<CarcassPart, Tally.Form> tallies) implements Serializable {
        private Object readResolve() throws InvalidObjectException {
            SortedMap<CarcassPart, Tally> made = new TreeMap<>();
            for (Map.Entry<CarcassPart, Tally.Form> entry : tallies.entrySet()) {
                made.put(entry.getKey(), entry.getValue().tally(model, entry.getKey()));
            }
            return new PartEstimate(model, made);
        }
    }

    /**
     * What is written in its place.
     *
     * @return estimator, power sums and counts
     */
    private Object writeReplace() {
        SortedMap<CarcassPart, Tally.Form> forms = new TreeMap<>();
        tallies.forEach((part, tally) -> forms.put(part, tally.form()));
        return new Form(model(), forms);
    }

    /**
     * Refuses an estimate that was not written as its power sums.
     *
     * @param in stream
     * @throws InvalidObjectException always
     */
    private void readObject(ObjectInputStream in) throws InvalidObjectException {
        throw new InvalidObjectException("an estimate of parts arrives as its power sums");
    }

    /**
     * One line.
     *
     * @return the parts, their cold weight, meat and table
     */
    @Override
    public String toString() {
        return words() + ", " + Numbers.fixed(coldWeightKg(), 1) + " kg cold: meat " + Numbers.fixed(meatKg(), 1)
                + " kg (" + table().identity() + ")";
    }
}
