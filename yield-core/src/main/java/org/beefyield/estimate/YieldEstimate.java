package org.beefyield.estimate;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.random.RandomGenerator;
import org.beefyield.carcass.Carcass;
import org.beefyield.frame.Frame;
import org.beefyield.grid.YieldGrid;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * What one carcass is expected to return. Immutable. Two are equal if the carcasses are and the estimators. Serializable by its
 * carcass and its estimator; in one stream the estimator is written once.
 */
public final class YieldEstimate extends Outturn implements Serializable {
    private static final long serialVersionUID = 1;
    private static final int TEXT_DECIMALS = 2;

    private final transient Carcass carcass;
    private final transient List<RangeNote> rangeNotes;

    private YieldEstimate(Model model, Carcass carcass, List<RangeNote> rangeNotes, double[] kgBySlot) {
        super(model, carcass.coldWeightKg(), kgBySlot);
        this.carcass = carcass;
        this.rangeNotes = rangeNotes;
    }

    /** The estimate of a carcass that isn't refused. */
    static YieldEstimate of(Model model, Carcass carcass) {
        YieldGrid grid = model.grid(carcass.category());
        double[] kg = new double[grid.length()];
        grid.kg(carcass.conformation().position(), carcass.fatClass().position(), carcass.coldWeightKg(), kg);
        return new YieldEstimate(model, carcass, model.notes(carcass), kg);
    }

    @Override
    double variance(double[] gradient) {
        double t = (coldWeightKg() - model().anyGrid().referenceWeightKg()) / 100;
        return model().variances()
                .of(
                        carcass,
                        t,
                        gradient,
                        (category, conformation, fat, conformationWidth, fatWidth, a, b) -> Spread.ofCarcass(
                                model(), category, conformation, fat, conformationWidth, fatWidth, a, b));
    }

    @Override
    List<Moments> moments() {
        return List.of(ofCarcass());
    }

    private Moments ofCarcass() {
        Moments moments = new Moments(model());
        moments.add(carcass);
        return moments;
    }

    /**
     * A part of this carcass alone.
     *
     * @param part the part
     * @return what comes of it
     * @throws IllegalArgumentException if the table doesn't have its quartering
     */
    public PartEstimate part(CarcassPart part) {
        Objects.requireNonNull(part, "part");
        Tally tally = new Tally(model());
        tally.add(carcass, rangeNotes);
        return PartEstimate.of(tally, part);
    }

    @Override
    boolean isOneCarcass() {
        return true;
    }

    /**
     * The same estimate with other parts of the uncertainty in its SDs, intervals and promises.
     *
     * @param parts parts that count
     * @return an estimate
     */
    public YieldEstimate counting(Set<UncertaintyPart> parts) {
        Checks.noNullIn(parts, "parts");
        return new YieldEstimate(model().counting(parts), carcass, rangeNotes, kgBySlot());
    }

    /**
     * The same estimate in a hall that cuts as the table does: its SDs, intervals and promises leave {@link UncertaintyPart#HALL}
     * out.
     *
     * @return an estimate
     */
    public YieldEstimate inOwnHall() {
        return new YieldEstimate(model().inOwnHall(), carcass, rangeNotes, kgBySlot());
    }

    /**
     * The carcass.
     *
     * @return the carcass
     */
    public Carcass carcass() {
        return carcass;
    }

    @Override
    <T> Frame.Builder<T> addHeads(Frame.Builder<T> rows) {
        return CarcassHeads.add(rows, row -> carcass, row -> table().identity());
    }

    /**
     * Where the carcass lies outside the range of the data behind the table.
     *
     * @return one note for each variable, empty inside the range
     */
    public List<RangeNote> rangeNotes() {
        return rangeNotes;
    }

    /**
     * Draws whole carcasses from the uncertainty of this estimate: each adds up at every level, and no share is below 0,
     * for a breakdown that has one is drawn again.
     *
     * @param random source of randomness; the same seed gives the same carcasses
     * @param size number of carcasses, 1 or more
     * @return the carcasses, and what drawing again does to the mean where it matters
     * @throws IllegalArgumentException if the size is below 1
     * @throws IllegalStateException if a share falls below 0 in nearly every draw
     */
    public CarcassSample sample(RandomGenerator random, int size) {
        Objects.requireNonNull(random, "random");
        return CarcassSample.of(this, carcass, random, size);
    }

    /**
     * Everything that a reader of the figures should know, in words.
     *
     * @return range notes and, if the mince is not as asked, how it differs
     */
    @Override
    public List<String> notes() {
        List<String> notes = new ArrayList<>();
        rangeNotes.forEach(note -> notes.add(note.toString()));
        notes.addAll(minceNotes());
        return notes;
    }

    /**
     * What the saleable weight of this estimate rests on, and what stands behind the category.
     *
     * @return by kind of the weakest source; worked out when asked for
     */
    public Support support() {
        return Support.of(ofCarcass());
    }

    @Override
    List<String> supportWords() {
        return SupportText.sentences(support());
    }

    @Override
    String title() {
        return "Carcass " + carcass.id().map(id -> id + ": ").orElse("") + "category " + carcass.category() + " ("
                + carcass.category().definition() + "), conformation " + carcass.conformation() + ", fat class "
                + carcass.fatClass() + ", " + Numbers.fixed(coldWeightKg(), TEXT_DECIMALS) + " kg cold";
    }

    @Override
    int decimals() {
        return TEXT_DECIMALS;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof YieldEstimate that && carcass.equals(that.carcass) && model().equals(that.model());
    }

    @Override
    public int hashCode() {
        return carcass.hashCode();
    }

    /**
     * What goes over the wire.
     *
     * @param model what it was estimated with
     * @param carcass the carcass
     * @serial exclude
     */
    private record Form(Model model, Carcass carcass) implements Serializable {
        private Object readResolve() {
            return of(model, carcass);
        }
    }

    /**
     * What is written in its place.
     *
     * @return estimator and carcass
     */
    private Object writeReplace() {
        return new Form(model(), carcass);
    }

    /**
     * Refuses an estimate that was not written as its carcass.
     *
     * @param in stream
     * @throws InvalidObjectException always
     */
    private void readObject(ObjectInputStream in) throws InvalidObjectException {
        throw new InvalidObjectException("an estimate arrives as its estimator and carcass");
    }

    /**
     * One line.
     *
     * @return the carcass, its meat and the table
     */
    @Override
    public String toString() {
        return carcass + ": meat " + Numbers.fixed(meatKg(), 1) + " kg (" + table().identity() + ")";
    }
}
