package org.beefyield.pay;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.GradeCell;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.frame.Frame;
import org.beefyield.price.MissingPriceException;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;
import org.jspecify.annotations.Nullable;

/**
 * Who was overpaid, and why: suppliers and grades beside the hall's average margin on a kg, with an interval in which errors in
 * common cancel, shared out to causes, each with what it did to the worth of the carcasses and to what was paid for them.
 * Immutable; a {@link Collector} adds carcasses up to it.
 *
 * <p>Of each carcass the margin on a kg is set against that of the table's reference carcass, category after conformation after
 * fat class after weight after specification, and the mean is taken over every order in which they can change (Shapley 1953, as
 * {@link org.beefyield.price.Attribution}); from a supplier's sum goes the hall's own, kg for kg, so that what is left is the
 * supplier's and adds up to what its margin lies off. Where the grid pays nothing for a step on the way, the payment stays as it
 * was. Nobody is overpaid here whose interval holds 0.
 */
public final class Overpayment implements ShownInBlocks {
    private final Valuer valuer;
    private final PaymentGrid grid;
    private final List<PaidBeside> suppliers;
    private final List<PaidBeside> grades;
    private final List<GridChange> changes;
    private final @Nullable Margin total;
    private final @Nullable Overpayment baseline;

    private Overpayment(
            Overpayment of, List<PaidBeside> suppliers, List<PaidBeside> grades, @Nullable Overpayment baseline) {
        this.valuer = of.valuer;
        this.grid = of.grid;
        this.suppliers = List.copyOf(suppliers);
        this.grades = List.copyOf(grades);
        this.changes = of.changes;
        this.total = of.total;
        this.baseline = baseline;
    }

    private Overpayment(Collector collector) {
        this.valuer = collector.valuer;
        this.grid = collector.grid;
        this.baseline = null;
        Group all = new Group(valuer, grid);
        collector.bySupplier.values().forEach(all::add);
        this.total = collector.bySupplier.isEmpty() ? null : all.margin;
        this.suppliers = beside(collector.bySupplier, all, name -> name);
        Map<GradeCell, Group> byGrade = new TreeMap<>();
        collector.byGrade.forEach((grade, those) -> those.values()
                .forEach(group -> byGrade.computeIfAbsent(grade, any -> new Group(valuer, grid))
                        .add(group)));
        this.grades = beside(byGrade, all, Overpayment::words);
        List<GridChange> found = new ArrayList<>();
        for (PaidBeside line : grades) {
            if (line.isOverpaid()) {
                GradeCell grade = byGrade.keySet().stream()
                        .filter(one -> words(one).equals(line.name()))
                        .findFirst()
                        .orElseThrow();
                found.add(change(grade, line, Objects.requireNonNull(collector.byGrade.get(grade))));
            }
        }
        this.changes = List.copyOf(found);
    }

    private static GridChange change(GradeCell grade, PaidBeside line, Map<String, Group> bySupplier) {
        double perKg = line.beside() / line.margin().coldWeightKg();
        Map<String, Double> costs = new LinkedHashMap<>();
        bySupplier.entrySet().stream()
                .sorted(Comparator.comparingDouble(
                        entry -> -entry.getValue().margin.coldWeightKg()))
                .forEach(entry -> costs.put(
                        entry.getKey(), -perKg * entry.getValue().margin.coldWeightKg()));
        return new GridChange(grade, perKg, costs);
    }

    /** A grade as tables have it. */
    static String words(GradeCell grade) {
        return grade.words();
    }

    /** Each group beside all; those overpaid first, by money beyond their interval, then the others, least margin first. */
    private <K> List<PaidBeside> beside(Map<K, Group> groups, Group all, Function<K, String> name) {
        List<Group> list = List.copyOf(groups.values());
        List<LotEstimate.Collector> others = others(list);
        List<PaidBeside> lines = new ArrayList<>();
        int i = 0;
        for (Map.Entry<K, Group> entry : groups.entrySet()) {
            lines.add(beside(name.apply(entry.getKey()), entry.getValue(), all, others.get(i)));
            i++;
        }
        lines.sort(Comparator.comparingDouble((PaidBeside line) -> -line.beyond())
                .thenComparingDouble(PaidBeside::beside));
        return List.copyOf(lines);
    }

    /** By group, the carcasses of all other groups, in as many steps as there are groups. */
    private List<LotEstimate.Collector> others(List<Group> groups) {
        int n = groups.size();
        List<LotEstimate.Collector> others = new ArrayList<>();
        LotEstimate.Collector before = valuer.estimator().collector();
        for (Group group : groups) {
            others.add(valuer.estimator().collector().add(before));
            before.add(group.lot);
        }
        LotEstimate.Collector behind = valuer.estimator().collector();
        for (int i = n - 1; i >= 0; i--) {
            others.get(i).add(behind);
            behind.add(groups.get(i).lot);
        }
        return others;
    }

    private PaidBeside beside(String name, Group group, Group all, LotEstimate.Collector others) {
        double part = group.margin.coldWeightKg() / all.margin.coldWeightKg();
        Map<PayCause, PayEffect> effects = new EnumMap<>(PayCause.class);
        for (PayCause cause : PayCause.values()) {
            PayEffect ofAll = Objects.requireNonNullElse(all.effects.get(cause), PayEffect.NONE);
            effects.put(
                    cause,
                    Objects.requireNonNullElse(group.effects.get(cause), PayEffect.NONE)
                            .plus(ofAll.times(-part)));
        }
        double beside = group.margin.amount() - part * all.margin.amount();
        boolean alone = group.margin.carcasses() == all.margin.carcasses();
        Interval interval = alone || !valuer.estimator().table().statesSds()
                ? null
                : sd(group, others, part)
                        .map(sd -> Interval.normal(beside, sd, Interval.SHOWN_PROBABILITY))
                        .orElse(null);
        return new PaidBeside(name, group.margin, beside, interval, effects, null);
    }

    /** SD of the weighed worth of a group less its share of all: what is paid is certain. */
    private Optional<Double> sd(Group group, LotEstimate.Collector others, double part) {
        try {
            Value ours = valuer.value(group.lot.lot());
            Value theirs = valuer.value(others.lot());
            return Optional.of(ours.outturn()
                    .minus(
                            ours.figure().times(1 - part),
                            theirs.outturn(),
                            theirs.figure().times(part))
                    .sdKg());
        } catch (MissingPriceException e) {
            return Optional.empty();
        }
    }

    /**
     * A collector of carcasses.
     *
     * @param valuer what carcasses are worth
     * @param grid what is paid for them
     * @return an empty collector
     * @throws IllegalArgumentException if the two are not in one currency, or the grid pays in no category for a carcass like the
     *     table's reference
     */
    public static Collector collector(Valuer valuer, PaymentGrid grid) {
        Objects.requireNonNull(valuer, "valuer");
        Objects.requireNonNull(grid, "grid");
        valuer.prices().checkCurrency(grid.currency());
        return new Collector(valuer, grid, reference(valuer, grid));
    }

    private static Carcass reference(Valuer valuer, PaymentGrid grid) {
        ReferencePoint point = valuer.estimator().table().definition().reference();
        for (Category category : Category.values()) {
            Carcass carcass = Carcass.of(
                    category,
                    Conformation.ofPosition(point.conformation(), 0),
                    FatClass.ofPosition(point.fat(), 0),
                    point.weightKg());
            if (grid.pays(carcass)
                    && valuer.estimator().tryEstimate(carcass).estimate().isPresent()) {
                return carcass;
            }
        }
        throw new IllegalArgumentException("the payment grid has in no category a base price and a grade row for"
                + " conformation " + Conformation.ofPosition(point.conformation(), 0) + ", fat class "
                + FatClass.ofPosition(point.fat(), 0)
                + ", the reference carcass of the table, from which causes are told");
    }

    /**
     * What the carcasses were valued by.
     *
     * @return the valuer
     */
    public Valuer valuer() {
        return valuer;
    }

    /**
     * What they were paid by.
     *
     * @return the payment grid
     */
    public PaymentGrid grid() {
        return grid;
    }

    /**
     * All carcasses together.
     *
     * @return their margin, or empty if there is none
     */
    public Optional<Margin> total() {
        return Optional.ofNullable(total);
    }

    /**
     * Every supplier beside the hall's average.
     *
     * @return overpaid ones first, by money beyond their interval, then the others, the lowest margin beside the average first;
     *     carcasses without a supplier are under {@code not stated}
     */
    public List<PaidBeside> suppliers() {
        return suppliers;
    }

    /**
     * Every grade, by category and whole classes, beside the hall's average.
     *
     * @return in the order of {@link #suppliers()}
     */
    public List<PaidBeside> grades() {
        return grades;
    }

    /**
     * What causes took of all suppliers that are overpaid.
     *
     * @return an unmodifiable map, all zero if nobody is
     */
    public Map<PayCause, PayEffect> causes() {
        Map<PayCause, PayEffect> sums = new EnumMap<>(PayCause.class);
        for (PayCause cause : PayCause.values()) {
            sums.put(
                    cause,
                    suppliers.stream()
                            .filter(PaidBeside::isOverpaid)
                            .map(line -> line.effect(cause))
                            .reduce(PayEffect.NONE, PayEffect::plus));
        }
        return Collections.unmodifiableMap(sums);
    }

    /**
     * Changes of the grid that would mend overpaid grades.
     *
     * @return one for each overpaid grade, in the order of {@link #grades()}
     */
    public List<GridChange> gridChanges() {
        return changes;
    }

    /**
     * The same beside an earlier time.
     *
     * @param earlier what was paid then, in the same currency
     * @return a copy that says how margins changed
     * @throws IllegalArgumentException if it is in another currency
     */
    public Overpayment since(Overpayment earlier) {
        Objects.requireNonNull(earlier, "earlier");
        valuer.prices().checkCurrency(earlier.grid.currency());
        return new Overpayment(this, since(suppliers, earlier.suppliers), since(grades, earlier.grades), earlier);
    }

    private static List<PaidBeside> since(List<PaidBeside> lines, List<PaidBeside> earlier) {
        return lines.stream()
                .map(line -> line.since(earlier.stream()
                        .filter(other -> other.name().equals(line.name()))
                        .map(other -> other.margin().perKg())
                        .findFirst()
                        .orElse(null)))
                .toList();
    }

    /**
     * What it is compared with.
     *
     * @return the earlier time, or empty
     */
    public Optional<Overpayment> baseline() {
        return Optional.ofNullable(baseline);
    }

    /** What lines are of. */
    public enum By {
        /** Supplier. */
        SUPPLIER,
        /** Category and whole classes of conformation and fat. */
        GRADE
    }

    /**
     * The comparison as a frame.
     *
     * @param by what each row is of
     * @return {@code table}; {@code supplier} or {@code grade}; {@code carcasses}; {@code cold weight} in kg; {@code value},
     *     {@code paid}, {@code margin}, {@code beside the hall} with {@code 90 % interval low} and {@code high} of it, missing where
     *     it has none, and {@code beyond the interval} in the currency; {@code main cause}, missing of those that are not overpaid;
     *     for each cause {@code worth more for} and {@code paid more for} it in the currency; {@code margin a kg} and, beside a
     *     baseline, its {@code change} in the currency a kg
     */
    public Frame toFrame(By by) {
        return new OverpaymentText(this).frame(Objects.requireNonNull(by, "by"));
    }

    /**
     * The comparison for people: who was overpaid and for what, suppliers, grades, causes and what would mend the grid.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new OverpaymentText(this).blocks();
    }

    /**
     * Who was overpaid and mostly for what, a sentence for each supplier.
     *
     * @return sentences, each with a full stop; one that says so if there is none
     */
    public List<String> sentences() {
        return new OverpaymentText(this).sentences();
    }

    /**
     * One line.
     *
     * @return such as {@code 2 of 8 suppliers overpaid beside the hall's average}
     */
    @Override
    public String toString() {
        return new OverpaymentText(this).sentence();
    }

    /** Carcasses that are looked at together. */
    private static final class Group {
        private final LotEstimate.Collector lot;
        private final Map<PayCause, PayEffect> effects = new EnumMap<>(PayCause.class);
        private Margin margin;

        Group(Valuer valuer, PaymentGrid grid) {
            lot = valuer.estimator().collector();
            margin = new Margin(0, 0, 0, 0, grid.currency(), valuer.prices().decimals());
        }

        void add(Margin one, Map<PayCause, PayEffect> its, Carcass carcass) {
            margin = margin.plus(one);
            add(its);
            lot.add(carcass);
        }

        private void add(Map<PayCause, PayEffect> more) {
            more.forEach((cause, effect) -> effects.merge(cause, effect, PayEffect::plus));
        }

        void add(Group other) {
            margin = margin.plus(other.margin);
            add(other.effects);
            lot.add(other.lot);
        }
    }

    /** Adds carcasses up to a report; none is kept. Not thread-safe; let each thread have its own and merge them. */
    public static final class Collector {
        private static final String NOT_STATED = "not stated";

        private final Valuer valuer;
        private final PaymentGrid grid;
        private final PaySwap swap;
        private final Map<String, Group> bySupplier = new TreeMap<>();
        private final Map<GradeCell, Map<String, Group>> byGrade = new TreeMap<>();

        private Collector(Valuer valuer, PaymentGrid grid, Carcass reference) {
            this.valuer = valuer;
            this.grid = grid;
            this.swap = new PaySwap(valuer, grid, reference);
        }

        /**
         * Adds a carcass.
         *
         * @param carcass carcass
         * @return this
         * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for it; nothing is added
         * @throws IllegalArgumentException if the grid doesn't pay for it; nothing is added
         * @throws IllegalStateException if the grid has a bonus for being in specification and no test of it
         */
        public Collector add(Carcass carcass) {
            Objects.requireNonNull(carcass, "carcass");
            Margin one = new Margin(
                    1,
                    carcass.coldWeightKg(),
                    valuer.value(carcass).amount(),
                    grid.paid(carcass).money().amount().doubleValue(),
                    valuer.prices().currency(),
                    valuer.prices().decimals());
            Map<PayCause, PayEffect> effects = swap.effects(carcass, one);
            String supplier = carcass.supplier().orElse(NOT_STATED);
            group(bySupplier, supplier).add(one, effects, carcass);
            group(ofGrade(GradeCell.of(carcass)), supplier).add(one, effects, carcass);
            return this;
        }

        private Map<String, Group> ofGrade(GradeCell grade) {
            return byGrade.computeIfAbsent(grade, any -> new TreeMap<>());
        }

        private Group group(Map<String, Group> groups, String supplier) {
            return groups.computeIfAbsent(supplier, any -> new Group(valuer, grid));
        }

        /**
         * Adds all that another collector holds; that one stays as it is.
         *
         * @param other a collector of the same prices and payment grid
         * @return this
         * @throws IllegalArgumentException if it is of others
         */
        public Collector add(Collector other) {
            Objects.requireNonNull(other, "other");
            if (!valuer.equals(other.valuer) || !grid.equals(other.grid)) {
                throw new IllegalArgumentException(
                        "overpayments go together only of one and the same valuer and payment grid: " + valuer + " and "
                                + grid + " against " + other.valuer + " and " + other.grid);
            }
            other.bySupplier.forEach((name, more) -> group(bySupplier, name).add(more));
            other.byGrade.forEach((grade, those) ->
                    those.forEach((name, more) -> group(ofGrade(grade), name).add(more)));
            return this;
        }

        /**
         * The report so far.
         *
         * @return the report on all carcasses added
         */
        public Overpayment result() {
            return new Overpayment(this);
        }
    }
}
