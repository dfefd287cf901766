package org.beefyield.estimate;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.grid.TableLayout;
import org.beefyield.grid.YieldErrors;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Variable;
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

    private final transient YieldTable table;
    private final transient CuttingSpecification specification;
    private final transient RangePolicy policy;
    private final transient @Nullable MinceTarget minceTarget;
    private final transient ScaleError scaleError;
    private final transient Map<Category, YieldGrid> grids;
    private final transient Map<Category, YieldErrors> errors;
    private final transient MinceSlots minceSlots;
    private final transient Variances variances = new Variances(this);

    private YieldEstimator(
            YieldTable table,
            CuttingSpecification specification,
            RangePolicy policy,
            @Nullable MinceTarget minceTarget,
            ScaleError scaleError,
            Map<Category, YieldGrid> grids,
            Map<Category, YieldErrors> errors) {
        this.table = table;
        this.specification = specification;
        this.policy = policy;
        this.minceTarget = minceTarget;
        this.scaleError = scaleError;
        this.grids = grids;
        this.errors = errors;
        this.minceSlots = new MinceSlots(table.layout());
    }

    private YieldEstimator(
            YieldTable table,
            CuttingSpecification specification,
            RangePolicy policy,
            @Nullable MinceTarget minceTarget,
            ScaleError scaleError) {
        this(
                table,
                specification,
                policy,
                minceTarget,
                scaleError,
                new EnumMap<>(Category.class),
                new EnumMap<>(Category.class));
        for (List<Category> group : table.categoryGroups()) {
            YieldGrid grid = table.grid(group.get(0), specification);
            for (Category category : group) {
                grids.put(category, grid);
                errors.put(category, table.errors(category, specification, grid));
            }
        }
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
        return new YieldEstimator(table, specification, RangePolicy.NOTE_OUTSIDE_FITTED, null, ScaleError.NONE);
    }

    /**
     * The same under another cutting specification.
     *
     * @param newSpecification one way for every cut that has ways
     * @return an estimator
     * @throws IllegalArgumentException if it names a cut or way that the table doesn't have, or leaves one out
     */
    public YieldEstimator with(CuttingSpecification newSpecification) {
        return new YieldEstimator(table, newSpecification, policy, minceTarget, scaleError);
    }

    /**
     * The same under one of the table's cutting specifications.
     *
     * @param name name of the specification
     * @return an estimator
     * @throws IllegalArgumentException if the table has none of that name
     */
    public YieldEstimator withSpecification(String name) {
        return with(table.specification(name));
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
        return with(specification.with(parent, way));
    }

    /**
     * The same with another policy on ranges.
     *
     * @param newPolicy policy
     * @return an estimator
     */
    public YieldEstimator with(RangePolicy newPolicy) {
        return new YieldEstimator(table, specification, newPolicy, minceTarget, scaleError, grids, errors);
    }

    /**
     * The same with carcasses that were weighed on a scale with errors.
     *
     * @param newScaleError how far it can be off
     * @return an estimator
     */
    public YieldEstimator with(ScaleError newScaleError) {
        return new YieldEstimator(table, specification, policy, minceTarget, newScaleError, grids, errors);
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
        List<Cut> last = table.layout().cutsAt(table.layout().levels().size() - 1);
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
                    newTarget + " needs the fat content (fat_pct) of " + String.join(", ", unstated) + " in table "
                            + table.definition().name());
        }
        for (Cut cut : last) {
            Double fatPct = cut.fatPct();
            if (cut.kind() == CutKind.FAT_TRIM && fatPct != null && newTarget.fat() >= fatPct / 100) {
                throw new IllegalArgumentException(newTarget + " can't be reached with " + cut.code() + " of "
                        + Numbers.upTo(fatPct, 1) + " % fat; a target lies below that");
            }
        }
        return new YieldEstimator(table, specification, policy, newTarget, scaleError, grids, errors);
    }

    /**
     * The table.
     *
     * @return the table
     */
    public YieldTable table() {
        return table;
    }

    /**
     * How primals are cut.
     *
     * @return the cutting specification
     */
    public CuttingSpecification specification() {
        return specification;
    }

    /**
     * What mince is brought to.
     *
     * @return the target, or empty if lean trim stays as it is
     */
    public Optional<MinceTarget> minceTarget() {
        return Optional.ofNullable(minceTarget);
    }

    /**
     * How far the scale can be off.
     *
     * @return no error unless set
     */
    public ScaleError scaleError() {
        return scaleError;
    }

    /**
     * One line.
     *
     * @return table, cutting specification and mince target
     */
    @Override
    public String toString() {
        return table.identity()
                + (specification.name().isEmpty() ? "" : ", " + specification)
                + (minceTarget == null ? "" : ", " + minceTarget);
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
        TableLayout layout = table.layout();
        int index = layout.levelIndex(level);
        boolean minced = minceTarget != null && index == layout.levels().size() - 1;
        List<Cut> yields = new ArrayList<>();
        for (int i = 0; i < layout.cutsAt(index).size(); i++) {
            Cut cut = layout.cutsAt(index).get(i);
            int slot = layout.start(index) + i;
            if (grids.values().stream().anyMatch(grid -> grid.yields(slot))
                    && !(minced && cut.kind() == CutKind.LEAN_TRIM)) {
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
        List<RangeNote> notes = check(carcass);
        YieldGrid grid = grid(carcass.category());
        double[] kg = new double[grid.length()];
        grid.kg(carcass.conformation().position(), carcass.fatClass().position(), carcass.coldWeightKg(), kg);
        return new YieldEstimate(this, carcass, notes, kg);
    }

    /**
     * Estimates of many carcasses into arrays: every cut of every level. Make it once: it lays the table out anew.
     *
     * @return the columns
     */
    public YieldColumns columns() {
        return new YieldColumns(this, 0, table.layout().levels().size() - 1);
    }

    /**
     * Estimates of many carcasses into arrays: every cut of one level. Make it once: it lays the table out anew.
     *
     * @param level name of the level
     * @return the columns
     * @throws IllegalArgumentException if the table has no such level
     */
    public YieldColumns columns(String level) {
        int index = table.layout().levelIndex(level);
        return new YieldColumns(this, index, index);
    }

    /** Refuses a carcass or says where it lies outside the fitted range. */
    List<RangeNote> check(Carcass carcass) {
        if (!grids.containsKey(carcass.category())) {
            throw new RefusedCarcassException(table.notServed(carcass.category()));
        }
        return check(carcass.conformation().position(), carcass.fatClass().position(), carcass.coldWeightKg());
    }

    YieldGrid grid(Category category) {
        YieldGrid grid = grids.get(category);
        if (grid == null) {
            throw new RefusedCarcassException(table.notServed(category));
        }
        return grid;
    }

    YieldGrid anyGrid() {
        return grids.values().iterator().next();
    }

    YieldErrors errors(Category category) {
        YieldErrors its = errors.get(category);
        if (its == null) {
            throw new RefusedCarcassException(table.notServed(category));
        }
        return its;
    }

    /**
     * Checks that an outturn was estimated by this estimator or an equal one.
     *
     * @param outturn outturn
     * @throws IllegalArgumentException if table, cutting specification, mince or scale differ
     */
    public void check(Outturn outturn) {
        checkSame(outturn.estimator());
    }

    MinceSlots minceSlots() {
        return minceSlots;
    }

    RangePolicy policy() {
        return policy;
    }

    /** The categories served. */
    Set<Category> categories() {
        return grids.keySet();
    }

    Variances variances() {
        return variances;
    }

    /** Lots add up only if they were estimated alike. */
    void checkSame(YieldEstimator other) {
        boolean same = table.equals(other.table)
                && specification.equals(other.specification)
                && Objects.equals(minceTarget, other.minceTarget)
                && scaleError.equals(other.scaleError);
        if (!same) {
            throw new IllegalArgumentException(
                    "outturns go together only with the same table, cutting specification, mince and scale: " + this
                            + " against " + other);
        }
    }

    List<RangeNote> check(double conformation, double fat, double weight) {
        TableRange fitted = table.definition().fitted();
        if (fitted.conformation().contains(conformation)
                && fitted.fat().contains(fat)
                && fitted.weightKg().contains(weight)) {
            return List.of();
        }
        List<RangeNote> notes = new ArrayList<>();
        List<String> refusals = new ArrayList<>();
        for (Variable variable : Variable.values()) {
            double value = switch (variable) {
                case CONFORMATION -> conformation;
                case FAT -> fat;
                case WEIGHT -> weight;
            };
            if (!table.definition().allowed().of(variable).contains(value)) {
                refusals.add(RangeNote.describe(
                        variable, value, table.definition().allowed().of(variable), "allowed"));
            }
            if (!fitted.of(variable).contains(value)) {
                notes.add(new RangeNote(variable, value, fitted.of(variable)));
            }
        }
        if (refusals.isEmpty() && policy == RangePolicy.REFUSE_OUTSIDE_FITTED) {
            notes.forEach(note -> refusals.add(note.toString()));
        }
        if (!refusals.isEmpty()) {
            throw new RefusedCarcassException(String.join("; ", refusals));
        }
        return List.copyOf(notes);
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
        LotEstimate.Collector collector = collector();
        carcasses.forEach(collector::add);
        return collector.lot();
    }

    /**
     * Starts a lot to which carcasses are added one by one.
     *
     * @return an empty collector
     */
    public LotEstimate.Collector collector() {
        return new LotEstimate.Collector(this);
    }

    /**
     * What goes over the wire.
     *
     * @param definition the table's coefficients
     * @param specification way of each cut that is broken down
     * @param policy what happens outside the table's ranges
     * @param minceTarget fat content of mince, or null for none
     * @param scaleError errors of the scale
     * @serial exclude
     */
    private record Form(
            TableDefinition definition,
            CuttingSpecification specification,
            RangePolicy policy,
            @Nullable MinceTarget minceTarget,
            ScaleError scaleError)
            implements Serializable {
        private Object readResolve() {
            return new YieldEstimator(YieldTable.of(definition), specification, policy, minceTarget, scaleError);
        }
    }

    /**
     * What is written in its place.
     *
     * @return the table's coefficients and what was chosen
     */
    private Object writeReplace() {
        return new Form(table.definition(), specification, policy, minceTarget, scaleError);
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
