package org.beefyield.estimate;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.grid.CompiledTable;
import org.beefyield.grid.Nodes;
import org.beefyield.grid.RowPaths;
import org.beefyield.grid.TableLayout;
import org.beefyield.grid.YieldErrors;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.Variable;
import org.jspecify.annotations.Nullable;

/**
 * What an estimator and all that it estimates share: a table multiplied through under one cutting specification, and what
 * was chosen beside it. Immutable and thread-safe. Serialized as the table's definition; where it arrives the table is
 * compiled and proved again.
 */
final class Model implements Serializable {
    private static final long serialVersionUID = 1;

    private final transient YieldTable table;
    private final transient TableLayout layout;
    private final transient CuttingSpecification specification;
    private final transient RangePolicy policy;
    private final transient @Nullable MinceTarget minceTarget;
    private final transient ScaleError scaleError;
    private final transient Set<UncertaintyPart> counted;
    private final transient boolean hasSharedErrors;
    private final transient boolean keepsLots;
    private final transient boolean keepsRuns;
    private final transient CompiledTable.InWays compiled;
    private final transient MinceSlots minceSlots;
    private final transient Variances variances;
    /** Parts of carcasses that were asked for; a table has few quarterings. */
    private final transient Map<CarcassPart, CompiledTable.InWays> parts = new ConcurrentHashMap<>();
    /** The same without the hall's part, so that what it keeps lasts. */
    private transient volatile @Nullable Model inOwnHall;

    private Model(
            YieldTable table,
            CuttingSpecification specification,
            RangePolicy policy,
            @Nullable MinceTarget minceTarget,
            ScaleError scaleError,
            Set<UncertaintyPart> counted,
            CompiledTable.InWays compiled) {
        this.table = table;
        this.layout = table.unwrap(CompiledTable.class).layout();
        this.specification = specification;
        this.policy = policy;
        this.minceTarget = minceTarget;
        this.scaleError = scaleError;
        this.counted = counted;
        this.compiled = compiled;
        CompiledTable whole = table.unwrap(CompiledTable.class);
        this.keepsLots = whole.hasShared(SharedBy.LOT);
        boolean ofRuns = whole.hasShared(SharedBy.RUN) || whole.hasShared(SharedBy.HALL);
        this.hasSharedErrors = keepsLots || ofRuns;
        this.keepsRuns = ofRuns || scaleError.biasKg() > 0;
        this.minceSlots = new MinceSlots(layout);
        this.variances = new Variances(anyGrid().length());
    }

    private Model(
            YieldTable table,
            CuttingSpecification specification,
            RangePolicy policy,
            @Nullable MinceTarget minceTarget,
            ScaleError scaleError,
            Set<UncertaintyPart> counted) {
        this(
                table,
                specification,
                policy,
                minceTarget,
                scaleError,
                counted,
                table.unwrap(CompiledTable.class)
                        .in(checked(table, specification).ways()));
    }

    private static CuttingSpecification checked(YieldTable table, CuttingSpecification specification) {
        table.check(specification);
        return specification;
    }

    /** Without mince and scale errors; carcasses outside the fitted range are noted. */
    static Model of(YieldTable table, CuttingSpecification specification) {
        return new Model(
                table, specification, RangePolicy.NOTE_OUTSIDE_FITTED, null, ScaleError.NONE, UncertaintyPart.all());
    }

    Model with(CuttingSpecification newSpecification) {
        return new Model(table, newSpecification, policy, minceTarget, scaleError, counted);
    }

    Model with(RangePolicy newPolicy) {
        return new Model(table, specification, newPolicy, minceTarget, scaleError, counted, compiled);
    }

    Model with(ScaleError newScaleError) {
        return new Model(table, specification, policy, minceTarget, newScaleError, counted, compiled);
    }

    /** Unchecked: see {@link YieldEstimator#with(MinceTarget)}. */
    Model with(MinceTarget newTarget) {
        return new Model(table, specification, policy, newTarget, scaleError, counted, compiled);
    }

    Model withoutMince() {
        return minceTarget == null
                ? this
                : new Model(table, specification, policy, null, scaleError, counted, compiled);
    }

    /** With other parts of the uncertainty in SDs, intervals and promises. */
    Model counting(Set<UncertaintyPart> parts) {
        Set<UncertaintyPart> copy = EnumSet.noneOf(UncertaintyPart.class);
        copy.addAll(parts);
        return new Model(
                table, specification, policy, minceTarget, scaleError, Collections.unmodifiableSet(copy), compiled);
    }

    /** Without what the hall does otherwise than the table. */
    Model inOwnHall() {
        if (!counted.contains(UncertaintyPart.HALL)) {
            return this;
        }
        Model own = inOwnHall;
        if (own == null) {
            Set<UncertaintyPart> others = EnumSet.copyOf(counted);
            others.remove(UncertaintyPart.HALL);
            own = counting(others);
            inOwnHall = own;
        }
        return own;
    }

    /** The parts of the uncertainty that SDs, intervals and promises hold. */
    Set<UncertaintyPart> counted() {
        return counted;
    }

    /** Whether the table has carcasses of a lot, a run or a hall err together. */
    boolean hasSharedErrors() {
        return hasSharedErrors;
    }

    /** Whether carcasses of one lot err together. */
    boolean keepsLots() {
        return keepsLots;
    }

    /** Whether carcasses of one run or hall err together, or are weighed together. */
    boolean keepsRuns() {
        return keepsRuns;
    }

    YieldTable table() {
        return table;
    }

    /** Where the table's cuts stand in every array of kg. */
    TableLayout layout() {
        return layout;
    }

    CuttingSpecification specification() {
        return specification;
    }

    RangePolicy policy() {
        return policy;
    }

    Optional<MinceTarget> minceTarget() {
        return Optional.ofNullable(minceTarget);
    }

    ScaleError scaleError() {
        return scaleError;
    }

    MinceSlots minceSlots() {
        return minceSlots;
    }

    /** Those of single carcasses, kept for the next one of the grade. */
    Variances variances() {
        return variances;
    }

    private CompiledTable.InWays in(CarcassPart part) {
        return part.isCarcass() ? compiled : parts.computeIfAbsent(part, this::compile);
    }

    private CompiledTable.InWays compile(CarcassPart part) {
        int level = 0;
        Map<String, Double> fractions = new HashMap<>();
        if (!part.cut().isEmpty()) {
            level = layout.lastLevelOf(part.cut());
            fractions.put(part.cut(), 1.0);
        } else if (part.quartering().isEmpty()) {
            layout.cutsAt(level).forEach(cut -> fractions.put(cut.code(), part.fraction(0)));
        } else {
            level = table.quarteredLevel(part.quartering());
            table.foreShares(part.quartering()).forEach((cut, fore) -> fractions.put(cut, part.fraction(fore)));
        }
        return table.unwrap(CompiledTable.class).part(compiled, level, fractions);
    }

    YieldErrors errors(Category category) {
        return served(compiled.errors(), category);
    }

    /** What comes of a part of a carcass, in shares of the whole carcass's weight. */
    YieldGrid grid(Category category, CarcassPart part) {
        return served(in(part).grids(), category);
    }

    /** The errors of that. */
    YieldErrors errors(Category category, CarcassPart part) {
        return served(in(part).errors(), category);
    }

    private <T> T served(Map<Category, T> byCategory, Category category) {
        T found = byCategory.get(category);
        if (found == null) {
            throw new IllegalArgumentException(table.notServed(category));
        }
        return found;
    }

    /** The categories served. */
    Set<Category> categories() {
        return compiled.grids().keySet();
    }

    /** Whether a slot of the layout holds anything in any category. */
    boolean yields(int slot) {
        return compiled.grids().values().stream().anyMatch(grid -> grid.yields(slot));
    }

    YieldGrid grid(Category category) {
        return served(compiled.grids(), category);
    }

    /** Where nodes lie, the same in all categories. */
    Nodes nodes() {
        return anyGrid().nodes();
    }

    /** For what is the same in all: the reference weight, how many coefficients. */
    YieldGrid anyGrid() {
        return compiled.grids().values().iterator().next();
    }

    /** The first category in which all errors but those of coefficients do the same as in this one. */
    Category alike(Category category) {
        return compiled.alike().getOrDefault(category, category);
    }

    /** For what is the same in all: how many draws there are. */
    YieldErrors anyErrors() {
        return compiled.errors().values().iterator().next();
    }

    /** The rows down which saleable meat of a category comes. */
    RowPaths paths(Category category) {
        return table.unwrap(CompiledTable.class)
                .paths(category, specification.ways(), cut -> Figure.isMeat(cut.kind()));
    }

    /** Refuses a carcass for which the table gives no estimate. */
    void check(Carcass carcass) {
        List<Refusal> refusals = refusals(carcass);
        if (!refusals.isEmpty()) {
            throw new RefusedCarcassException(carcass, refusals);
        }
    }

    /** Why there is no estimate for a carcass; none if there is one. */
    List<Refusal> refusals(Carcass carcass) {
        if (!compiled.grids().containsKey(carcass.category())) {
            return List.of(Refusal.notServed(table, carcass.category()));
        }
        List<RangeNote> notes = notes(carcass);
        if (notes.isEmpty()) {
            return List.of();
        }
        List<Refusal> refusals = new ArrayList<>();
        for (Variable variable : Variable.values()) {
            double value = value(
                    variable,
                    carcass.conformation().position(),
                    carcass.fatClass().position(),
                    carcass.coldWeightKg());
            Range allowed = table.definition().allowed().of(variable);
            if (!allowed.contains(value)) {
                refusals.add(Refusal.outsideAllowed(carcass, variable, value, allowed));
            }
        }
        if (refusals.isEmpty() && policy == RangePolicy.REFUSE_OUTSIDE_FITTED) {
            notes.forEach(note -> refusals.add(Refusal.outsideFitted(carcass, note)));
        }
        return refusals;
    }

    List<RangeNote> notes(Carcass carcass) {
        return notes(carcass.conformation().position(), carcass.fatClass().position(), carcass.coldWeightKg());
    }

    /** Where a carcass lies outside the fitted range. */
    List<RangeNote> notes(double conformation, double fat, double weight) {
        TableRange fitted = table.definition().fitted();
        if (fitted.conformation().contains(conformation)
                && fitted.fat().contains(fat)
                && fitted.weightKg().contains(weight)) {
            return List.of();
        }
        List<RangeNote> notes = new ArrayList<>();
        for (Variable variable : Variable.values()) {
            double value = value(variable, conformation, fat, weight);
            if (!fitted.of(variable).contains(value)) {
                notes.add(new RangeNote(variable, value, fitted.of(variable)));
            }
        }
        return List.copyOf(notes);
    }

    private static double value(Variable variable, double conformation, double fat, double weight) {
        return switch (variable) {
            case CONFORMATION -> conformation;
            case FAT -> fat;
            case WEIGHT -> weight;
        };
    }

    /** Outturns add up, and are compared, only if they were estimated alike. */
    void checkSame(Model other) {
        if (!comparable(other)
                || !specification.equals(other.specification)
                || !Objects.equals(minceTarget, other.minceTarget)) {
            throw apart(other, "the same table, cutting specification, mince, scale and parts of the uncertainty");
        }
    }

    /** A difference also compares ways of cutting. */
    void checkComparable(Model other) {
        if (!comparable(other)) {
            throw apart(other, "the same table, scale and parts of the uncertainty");
        }
    }

    private boolean comparable(Model other) {
        return table.equals(other.table) && scaleError.equals(other.scaleError) && counted.equals(other.counted);
    }

    private IllegalArgumentException apart(Model other, String needed) {
        return new IllegalArgumentException(
                "outturns go together only with " + needed + ": " + this + " against " + other);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return this == other
                || (other instanceof Model that
                        && table.equals(that.table)
                        && specification.equals(that.specification)
                        && policy == that.policy
                        && Objects.equals(minceTarget, that.minceTarget)
                        && scaleError.equals(that.scaleError)
                        && counted.equals(that.counted));
    }

    @Override
    public int hashCode() {
        return Objects.hash(table, specification, policy, minceTarget, scaleError);
    }

    /** Table, cutting specification and mince target. */
    @Override
    public String toString() {
        return table.identity()
                + (specification.name().isEmpty() ? "" : ", " + specification)
                + (minceTarget == null ? "" : ", " + minceTarget)
                + (counted.contains(UncertaintyPart.HALL) ? "" : ", in a hall that cuts as the table does");
    }

    /**
     * What goes over the wire.
     *
     * @param definition the table's coefficients
     * @param specification way of each cut that is broken down
     * @param policy what happens outside the table's ranges
     * @param minceTarget fat content of mince, or null for none
     * @param scaleError errors of the scale
     * @param counted parts of the uncertainty in SDs and intervals
     * @serial exclude
     */
    private record Form(
            TableDefinition definition,
            CuttingSpecification specification,
            RangePolicy policy,
            @Nullable MinceTarget minceTarget,
            ScaleError scaleError,
            Set<UncertaintyPart> counted)
            implements Serializable {
        private Object readResolve() {
            return new Model(YieldTable.of(definition), specification, policy, minceTarget, scaleError, counted);
        }
    }

    private Object writeReplace() {
        return new Form(table.definition(), specification, policy, minceTarget, scaleError, counted);
    }

    private void readObject(ObjectInputStream in) throws InvalidObjectException {
        throw new InvalidObjectException("an estimator arrives as its table's coefficients");
    }
}
