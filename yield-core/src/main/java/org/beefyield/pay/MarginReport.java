package org.beefyield.pay;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.estimate.GradeCell;
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

    private MarginReport(Collector collector) {
        this.valuer = collector.valuer;
        this.grid = collector.grid;
        this.byCategory = Collections.unmodifiableMap(new EnumMap<>(collector.byCategory));
        this.bySupplier = Collections.unmodifiableMap(new TreeMap<>(collector.bySupplier));
        this.byGrade = Collections.unmodifiableMap(new TreeMap<>(collector.byGrade));
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

    /** Adds carcasses up to a report; none is kept. Not thread-safe; let each thread have its own and merge them. */
    public static final class Collector {
        private static final String NOT_STATED = "not stated";

        private final Valuer valuer;
        private final PaymentGrid grid;
        private final Map<Category, Margin> byCategory = new EnumMap<>(Category.class);
        private final Map<String, Margin> bySupplier = new TreeMap<>();
        private final Map<GradeCell, Margin> byGrade = new TreeMap<>();

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
            add(byCategory, carcass.category(), one);
            add(bySupplier, carcass.supplier().orElse(NOT_STATED), one);
            add(byGrade, GradeCell.of(carcass), one);
            return this;
        }

        private static <K> void add(Map<K, Margin> margins, K key, Margin more) {
            margins.merge(key, more, Margin::plus);
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
            other.byCategory.forEach((key, margin) -> add(byCategory, key, margin));
            other.bySupplier.forEach((key, margin) -> add(bySupplier, key, margin));
            other.byGrade.forEach((key, margin) -> add(byGrade, key, margin));
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
