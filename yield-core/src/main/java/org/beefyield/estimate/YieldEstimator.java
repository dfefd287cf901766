package org.beefyield.estimate;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collector;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.grid.TableLayout;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Estimates what carcasses return, from one table, under one cutting specification. Immutable and thread-safe; the
 * {@code with} methods give a changed copy. Serializable by the table's coefficients, so that a cluster job can carry it:
 * where it arrives the table is compiled and proved again.
 *
 * <pre>{@code
 * YieldEstimator estimator = YieldEstimator.of(table);
 * YieldEstimate estimate = estimator.estimate(
 *         Carcass.of(Category.STEER, Conformation.parse("R="), FatClass.parse("3+"), 342.0));
 * double striploin = estimate.kg("striploin");
 * }</pre>
 */
public final class YieldEstimator implements Serializable {
    private static final long serialVersionUID = 1;

    private final transient Model model;

    private YieldEstimator(Model model) {
        this.model = model;
    }

    /**
     * An estimator with the table's first cutting specification, without mince, that notes carcasses outside the fitted
     * range.
     *
     * @param table table
     * @return an estimator
     * @throws IllegalArgumentException if the table has ways to choose from and no cutting specification
     */
    public static YieldEstimator of(YieldTable table) {
        Objects.requireNonNull(table, "table");
        return of(
                table,
                table.specifications().isEmpty()
                        ? CuttingSpecification.NONE
                        : table.specifications().get(0));
    }

    /**
     * An estimator for a table under a cutting specification of the caller's.
     *
     * @param table table
     * @param specification one way for every cut that has ways
     * @return an estimator
     * @throws IllegalArgumentException if it names a cut or way that the table doesn't have, or leaves one out
     */
    public static YieldEstimator of(YieldTable table, CuttingSpecification specification) {
        Objects.requireNonNull(table, "table");
        Objects.requireNonNull(specification, "specification");
        return new YieldEstimator(Model.of(table, specification));
    }

    /**
     * The same under another cutting specification.
     *
     * @param newSpecification one way for every cut that has ways
     * @return an estimator
     * @throws IllegalArgumentException if it names a cut or way that the table doesn't have, or leaves one out
     */
    public YieldEstimator with(CuttingSpecification newSpecification) {
        Objects.requireNonNull(newSpecification, "newSpecification");
        return new YieldEstimator(model.with(newSpecification));
    }

    /**
     * The same under one of the table's cutting specifications.
     *
     * @param name name of the specification
     * @return an estimator
     * @throws IllegalArgumentException if the table has none of that name
     */
    public YieldEstimator withSpecification(String name) {
        Objects.requireNonNull(name, "name");
        return with(table().specification(name));
    }

    /**
     * The same with one cut broken down another way: {@code with("striploin", "joints")}.
     *
     * @param parent code of the cut that is broken down
     * @param way its way
     * @return an estimator
     * @throws IllegalArgumentException if the table has no such cut or way
     */
    public YieldEstimator with(String parent, String way) {
        Objects.requireNonNull(parent, "parent");
        Objects.requireNonNull(way, "way");
        return with(specification().with(parent, way));
    }

    /**
     * The same with another policy on ranges.
     *
     * @param newPolicy policy
     * @return an estimator
     */
    public YieldEstimator with(RangePolicy newPolicy) {
        Objects.requireNonNull(newPolicy, "newPolicy");
        return new YieldEstimator(model.with(newPolicy));
    }

    /**
     * The same with carcasses that were weighed on a scale with errors.
     *
     * @param newScaleError how far it can be off
     * @return an estimator
     */
    public YieldEstimator with(ScaleError newScaleError) {
        Objects.requireNonNull(newScaleError, "newScaleError");
        return new YieldEstimator(model.with(newScaleError));
    }

    /**
     * The same with lean trim brought to a fat content by fat trim, at the last level.
     *
     * @param newTarget target
     * @return an estimator
     * @throws IllegalArgumentException if the table yields no lean trim, does not state the fat content of lean trim or
     *     fat trim, or its fat trim is no fatter than the target
     */
    public YieldEstimator with(MinceTarget newTarget) {
        Objects.requireNonNull(newTarget, "newTarget");
        YieldTable table = table();
        List<Cut> last = table.cutsAt(table.levels().get(table.levels().size() - 1));
        if (last.stream().noneMatch(cut -> cut.kind() == CutKind.LEAN_TRIM)) {
            throw new IllegalArgumentException(newTarget + " needs lean trim, and table "
                    + table.definition().name() + " yields none at its last level");
        }
        if (table.catalogue().find(Outturn.MINCE_CODE).isPresent()) {
            throw new IllegalArgumentException(newTarget + " can't be made: table "
                    + table.definition().name() + " has a cut of its own called " + Outturn.MINCE_CODE);
        }
        List<String> unstated = table.cutsWithoutFatContent();
        if (!unstated.isEmpty()) {
            throw new IllegalArgumentException(
                    newTarget + " needs the fat content (" + Cut.FAT_PCT + ") of " + String.join(", ", unstated)
                            + " in table " + table.definition().name());
        }
        for (Cut cut : last) {
            Double fatPct = cut.fatPct();
            if (cut.kind() == CutKind.FAT_TRIM && fatPct != null && newTarget.fat() >= fatPct / 100) {
                throw new IllegalArgumentException(newTarget + " can't be reached with " + cut.code() + " of "
                        + Numbers.upTo(fatPct, 1) + " % fat; a target lies below that");
            }
        }
        return new YieldEstimator(model.with(newTarget));
    }

    /**
     * The same without mince: lean trim and fat trim stay as they come off the knife.
     *
     * @return an estimator
     */
    public YieldEstimator withoutMince() {
        return new YieldEstimator(model.withoutMince());
    }

    /**
     * The same with other parts of the uncertainty in SDs, intervals and promises.
     *
     * @param parts parts that count
     * @return an estimator
     */
    public YieldEstimator counting(Set<UncertaintyPart> parts) {
        Checks.noNullIn(parts, "parts");
        return new YieldEstimator(model.counting(parts));
    }

    /**
     * The same for a hall that cuts as the table does, such as the one in which the table was made: SDs, intervals and promises
     * leave {@link UncertaintyPart#HALL} out.
     *
     * @return an estimator
     */
    public YieldEstimator inOwnHall() {
        return new YieldEstimator(model.inOwnHall());
    }

    /**
     * The parts of the uncertainty that SDs, intervals and promises hold.
     *
     * @return all of them unless chosen otherwise; unmodifiable
     */
    public Set<UncertaintyPart> counted() {
        return model.counted();
    }

    Model model() {
        return model;
    }

    /**
     * The table.
     *
     * @return the table
     */
    public YieldTable table() {
        return model.table();
    }

    /**
     * How primals are cut.
     *
     * @return the cutting specification
     */
    public CuttingSpecification specification() {
        return model.specification();
    }

    /**
     * What mince is brought to.
     *
     * @return the target, or empty if lean trim stays as it is
     */
    public Optional<MinceTarget> minceTarget() {
        return model.minceTarget();
    }

    /**
     * How far the scale can be off.
     *
     * @return no error unless set
     */
    public ScaleError scaleError() {
        return model.scaleError();
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof YieldEstimator that && model.equals(that.model);
    }

    @Override
    public int hashCode() {
        return model.hashCode();
    }

    /**
     * One line.
     *
     * @return table, cutting specification and mince target
     */
    @Override
    public String toString() {
        return model.toString();
    }

    /**
     * The cuts that the specification can yield at a level; a table may have others, which other ways yield. With a
     * mince target the last level has {@value Outturn#MINCE_CODE} in the place of lean trim.
     *
     * @param level name of the level
     * @return cuts in printing order
     * @throws IllegalArgumentException if the table has no such level
     */
    public List<Cut> yields(String level) {
        Objects.requireNonNull(level, "level");
        TableLayout layout = model.layout();
        int index = layout.levelIndex(level);
        boolean minced = minceTarget().isPresent() && index == layout.levels().size() - 1;
        List<Cut> yields = new ArrayList<>();
        for (int i = 0; i < layout.cutsAt(index).size(); i++) {
            Cut cut = layout.cutsAt(index).get(i);
            int slot = layout.start(index) + i;
            if (model.yields(slot) && !(minced && cut.kind() == CutKind.LEAN_TRIM)) {
                yields.add(cut);
            }
        }
        if (minced) {
            yields.add(Outturn.mince(level));
        }
        return yields;
    }

    /**
     * Estimates one carcass.
     *
     * @param carcass carcass
     * @return its estimate, with a note for each variable outside the fitted range
     * @throws RefusedCarcassException if its category isn't served, it lies outside the allowed range, or outside the
     *     fitted range and the policy refuses that
     */
    public YieldEstimate estimate(Carcass carcass) {
        Objects.requireNonNull(carcass, "carcass");
        model.check(carcass);
        return YieldEstimate.of(model, carcass);
    }

    /**
     * Estimates one carcass, or says why the table gives no estimate for it.
     *
     * @param carcass carcass
     * @return its estimate, or the reasons
     */
    public TriedEstimate tryEstimate(Carcass carcass) {
        Objects.requireNonNull(carcass, "carcass");
        List<Refusal> refusals = model.refusals(carcass);
        return new TriedEstimate(carcass, refusals.isEmpty() ? YieldEstimate.of(model, carcass) : null, refusals);
    }

    /**
     * Estimates of many carcasses into arrays: every cut of every level. Make it once: it lays the table out anew.
     *
     * @return the columns
     */
    public YieldColumns columns() {
        return new YieldColumns(model, 0, model.layout().levels().size() - 1);
    }

    /**
     * Estimates of many carcasses into arrays: every cut of one level. Make it once: it lays the table out anew.
     *
     * @param level name of the level
     * @return the columns
     * @throws IllegalArgumentException if the table has no such level
     */
    public YieldColumns columns(String level) {
        Objects.requireNonNull(level, "level");
        int index = model.layout().levelIndex(level);
        return new YieldColumns(model, index, index);
    }

    /**
     * Checks that an outturn was estimated by this estimator or an equal one.
     *
     * @param outturn outturn
     * @throws IllegalArgumentException if table, cutting specification, mince or scale differ
     */
    public void check(Outturn outturn) {
        Objects.requireNonNull(outturn, "outturn");
        model.checkSame(outturn.model());
    }

    /**
     * Estimates a lot.
     *
     * @param carcasses at least one carcass
     * @return the estimate of all of them together
     * @throws RefusedCarcassException if the table gives no estimate for one of them; use {@link #collector()} to go on
     *     without it
     * @throws IllegalStateException if there is none
     */
    public LotEstimate estimateLot(Iterable<Carcass> carcasses) {
        Objects.requireNonNull(carcasses, "carcasses");
        LotEstimate.Collector collector = collector();
        carcasses.forEach(collector::add);
        return collector.lot();
    }

    /**
     * Collects a stream of carcasses to a lot: {@code carcasses.stream().collect(estimator.collecting())}. Parallel streams
     * are welcome.
     *
     * @return a collector, which refuses as {@link #estimateLot} does
     */
    public Collector<Carcass, ?, LotEstimate> collecting() {
        return Collector.of(
                this::collector,
                LotEstimate.Collector::add,
                LotEstimate.Collector::add,
                LotEstimate.Collector::lot,
                Collector.Characteristics.UNORDERED);
    }

    /**
     * Starts a lot to which carcasses are added one by one.
     *
     * @return an empty collector
     */
    public LotEstimate.Collector collector() {
        return new LotEstimate.Collector(model);
    }

    /**
     * What goes over the wire.
     *
     * @param model the table's coefficients and what was chosen
     * @serial exclude
     */
    private record Form(Model model) implements Serializable {
        private Object readResolve() {
            return new YieldEstimator(model);
        }
    }

    /**
     * What is written in its place.
     *
     * @return the table's coefficients and what was chosen
     */
    private Object writeReplace() {
        return new Form(model);
    }

    /**
     * Refuses an estimator that was not written as its table's coefficients.
     *
     * @param in stream
     * @throws InvalidObjectException always
     */
    private void readObject(ObjectInputStream in) throws InvalidObjectException {
        throw new InvalidObjectException("an estimator arrives as its table's coefficients");
    }
}
