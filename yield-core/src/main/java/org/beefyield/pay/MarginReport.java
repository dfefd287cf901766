package org.beefyield.pay;

import java.util.Collections;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.GradeCell;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.frame.Frame;
import org.beefyield.price.MissingPriceException;
import org.beefyield.price.Value;
import org.beefyield.price.Valuer;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;

/**
 * What a hall's carcasses are worth against what was paid for them, by category, supplier and grade. Each is valued by
 * itself, so mince is made from its own fat trim. Immutable; a {@link Collector} adds carcasses up to it.
 */
public final class MarginReport implements ShownInBlocks {
    private final Valuer valuer;
    private final PaymentGrid grid;
    private final Map<Category, Margin> byCategory;
    private final Map<String, Margin> bySupplier;
    private final Map<GradeCell, Margin> byGrade;
    /** What all are worth together; empty if there is none, or the mince of all together has no price. */
    private final Optional<Value> value;
    /** The same of each of these. */
    private final Map<Object, Optional<Value>> values = new HashMap<>();

    private MarginReport(Collector collector) {
        this.valuer = collector.valuer;
        this.grid = collector.grid;
        this.byCategory = Collections.unmodifiableMap(margins(collector.byCategory, new EnumMap<>(Category.class)));
        this.bySupplier = Collections.unmodifiableMap(margins(collector.bySupplier, new TreeMap<>()));
        this.byGrade = Collections.unmodifiableMap(margins(collector.byGrade, new TreeMap<>()));
        LotEstimate.Collector all = valuer.estimator().collector();
        collector.byCategory.values().forEach(group -> all.add(group.lot));
        this.value = byCategory.isEmpty() ? Optional.empty() : value(all);
    }

    private <K> Map<K, Margin> margins(Map<K, Group> groups, Map<K, Margin> margins) {
        groups.forEach((key, group) -> {
            margins.put(key, group.margin);
            values.put(key, value(group.lot));
        });
        return margins;
    }

    private Optional<Value> value(LotEstimate.Collector carcasses) {
        try {
            return Optional.of(valuer.value(carcasses.lot()));
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
     * @throws IllegalArgumentException if the two are not in one currency
     */
    public static Collector collector(Valuer valuer, PaymentGrid grid) {
        Objects.requireNonNull(valuer, "valuer");
        Objects.requireNonNull(grid, "grid");
        valuer.prices().checkCurrency(grid.currency());
        return new Collector(valuer, grid);
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
        return byCategory.values().stream().reduce(Margin::plus);
    }

    /** What that interval holds, in words. */
    List<String> intervalWords() {
        return value.map(all -> all.outturn().intervalWords(all.figure())).orElse(List.of());
    }

    /**
     * Margins by category.
     *
     * @return an unmodifiable map
     */
    public Map<Category, Margin> byCategory() {
        return byCategory;
    }

    /**
     * Margins by supplier.
     *
     * @return an unmodifiable map by name; carcasses without a supplier are under {@code not stated}
     */
    public Map<String, Margin> bySupplier() {
        return bySupplier;
    }

    /**
     * Margins by whole classes of conformation and fat.
     *
     * @return an unmodifiable map in order of category, conformation and fat class
     */
    public Map<GradeCell, Margin> byGrade() {
        return byGrade;
    }

    /**
     * The interval that holds the margin of all carcasses with a probability: of what their cuts will weigh at certain prices and
     * payments, errors that they have in common counted in full.
     *
     * @param probability above 0 and below 1
     * @return the interval, in the currency; empty if there is no carcass, or the mince of all together has no price
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Optional<Interval> interval(double probability) {
        return total().flatMap(margin -> interval(margin, value, probability));
    }

    /**
     * The interval that holds the margin of a category.
     *
     * @param category category
     * @param probability above 0 and below 1
     * @return the interval, as {@link #interval(double)}; empty also if there is no carcass of the category
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Optional<Interval> interval(Category category, double probability) {
        return interval(byCategory, Objects.requireNonNull(category, "category"), probability);
    }

    /**
     * The interval that holds the margin of a supplier.
     *
     * @param supplier name
     * @param probability above 0 and below 1
     * @return the interval, as {@link #interval(double)}; empty also if there is no carcass of the supplier
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Optional<Interval> interval(String supplier, double probability) {
        return interval(bySupplier, Objects.requireNonNull(supplier, "supplier"), probability);
    }

    /**
     * The interval that holds the margin of a grade.
     *
     * @param grade category and whole classes
     * @param probability above 0 and below 1
     * @return the interval, as {@link #interval(double)}; empty also if there is no carcass of the grade
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Optional<Interval> interval(GradeCell grade, double probability) {
        return interval(byGrade, Objects.requireNonNull(grade, "grade"), probability);
    }

    private <K> Optional<Interval> interval(Map<K, Margin> margins, K key, double probability) {
        return Optional.ofNullable(margins.get(key))
                .flatMap(margin -> interval(margin, values.getOrDefault(key, Optional.empty()), probability));
    }

    private static Optional<Interval> interval(Margin margin, Optional<Value> together, double probability) {
        // mince of all together has fat trim of other carcasses too, so that its value is another one
        return together.map(value -> Interval.normal(margin.amount(), value.sd(), probability));
    }

    /** What margins are looked at by. */
    public enum By {
        /** Category. */
        CATEGORY,
        /** Supplier. */
        SUPPLIER,
        /** Category and whole classes of conformation and fat. */
        GRADE
    }

    /**
     * The margins as a frame.
     *
     * @param by what each row is of
     * @return {@code table}; {@code category}, {@code supplier}, or {@code category}, {@code conformation} and {@code fat
     *     class}; {@code carcasses}; {@code cold weight} in kg; {@code value}, {@code paid}, {@code margin} and
     *     {@code 90 % interval low} and {@code high} of it in the currency, these missing where the mince of all together has no
     *     price; {@code margin a kg} and {@code break-even price} in the currency a kg of cold weight
     */
    public Frame toFrame(By by) {
        return new MarginReportText(this).frame(Objects.requireNonNull(by, "by"));
    }

    /**
     * The report for people: tables by category, supplier and grade.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return new MarginReportText(this).blocks();
    }

    /**
     * One line.
     *
     * @return such as {@code 200 carcasses: margin 10210.55 EUR, 0.153 a kg}
     */
    @Override
    public String toString() {
        return new MarginReportText(this).sentence();
    }

    /** Carcasses that are looked at together. */
    private static final class Group {
        private final LotEstimate.Collector lot;
        private Margin margin;

        Group(Valuer valuer, PaymentGrid grid) {
            lot = valuer.estimator().collector();
            margin = new Margin(0, 0, 0, 0, grid.currency(), valuer.prices().decimals());
        }

        void add(Margin one, Carcass carcass) {
            margin = margin.plus(one);
            lot.add(carcass);
        }

        void add(Group other) {
            margin = margin.plus(other.margin);
            lot.add(other.lot);
        }
    }

    /** Adds carcasses up to a report; none is kept. Not thread-safe; let each thread have its own and merge them. */
    public static final class Collector {
        private static final String NOT_STATED = "not stated";

        private final Valuer valuer;
        private final PaymentGrid grid;
        private final Map<Category, Group> byCategory = new EnumMap<>(Category.class);
        private final Map<String, Group> bySupplier = new TreeMap<>();
        private final Map<GradeCell, Group> byGrade = new TreeMap<>();

        private Collector(Valuer valuer, PaymentGrid grid) {
            this.valuer = valuer;
            this.grid = grid;
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
            group(byCategory, carcass.category()).add(one, carcass);
            group(bySupplier, carcass.supplier().orElse(NOT_STATED)).add(one, carcass);
            group(byGrade, GradeCell.of(carcass)).add(one, carcass);
            return this;
        }

        private <K> Group group(Map<K, Group> groups, K key) {
            return groups.computeIfAbsent(key, k -> new Group(valuer, grid));
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
                        "margins go together only of one and the same valuer and payment grid: " + valuer + " and "
                                + grid + " against " + other.valuer + " and " + other.grid);
            }
            other.byCategory.forEach((key, more) -> group(byCategory, key).add(more));
            other.bySupplier.forEach((key, more) -> group(bySupplier, key).add(more));
            other.byGrade.forEach((key, more) -> group(byGrade, key).add(more));
            return this;
        }

        /**
         * The report so far.
         *
         * @return the report on all carcasses added
         */
        public MarginReport result() {
            return new MarginReport(this);
        }
    }
}
