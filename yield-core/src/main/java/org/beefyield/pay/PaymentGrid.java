package org.beefyield.pay;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.EdgeRule;
import org.beefyield.carcass.FatClass;
import org.beefyield.price.PriceList;
import org.beefyield.table.definition.GradeAxes;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * What a plant pays for a kg of cold weight: a base price, a difference for the grade, one for the weight, and a bonus for
 * being in specification. A row for one category goes before one for all of them. Immutable.
 *
 * <p>A grade row holds the part of the scales that its conformation and fat class cover; one without either holds all of
 * that scale. Of the rows that hold a carcass's positions the one with the smallest part counts (its points of
 * conformation times its points of fat), so that a row for {@code R= 4L} goes before one for {@code R 4}, and that before
 * one for {@code R}. A carcass that no grade row holds can't be paid: a plant that pays one price for all grades says so
 * with a row without grades and a difference of 0. A carcass right on the edge between two rows, such as {@code 4=} between
 * {@code 4L} and {@code 4H}, counts to one of them by an {@link EdgeRule}. Weights from which a band counts belong to it.
 */
public final class PaymentGrid {
    private final String currency;
    private final int decimals;
    private final List<Row> bases;
    private final List<Row> grades;
    private final List<Row> weights;
    private final List<Row> bonuses;
    private final @Nullable Predicate<? super Carcass> inSpecification;
    private final EdgeRule edge;

    /** What a row says the price or difference of. */
    public enum Line {
        /** A base price. */
        BASE("base price"),
        /** A difference for a part of the grades. */
        GRADE("grade difference"),
        /** A difference for a weight band. */
        WEIGHT("weight difference"),
        /** A bonus for being in specification. */
        IN_SPECIFICATION("bonus for being in specification");

        private final String words;

        Line(String words) {
            this.words = words;
        }

        /**
         * The line in words.
         *
         * @return such as {@code grade difference}
         */
        public String words() {
            return words;
        }
    }

    /**
     * One row; what it doesn't say is null, and then it holds all there is.
     *
     * @param line what it is about
     * @param category category, or null for all
     * @param conformation class, third or half, or null for every conformation
     * @param fatClass class, third or half, or null for every fat class
     * @param fromKg cold weight from which it counts, kg, inclusive, or null for no limit
     * @param toKg cold weight up to which it counts, kg, exclusive, or null for no limit
     * @param perKg price or difference per kg of cold weight
     */
    public record Row(
            Line line,
            @Nullable Category category,
            @Nullable Conformation conformation,
            @Nullable FatClass fatClass,
            @Nullable Double fromKg,
            @Nullable Double toKg,
            double perKg) {
        /**
         * Checks the figures.
         *
         * @throws IllegalArgumentException if the price is not finite or beyond a billion, or a weight is not finite
         */
        public Row {
            Objects.requireNonNull(line, "line");
            String where = line.words() + " %s for " + words(category, conformation, fatClass, fromKg, toKg);
            if (!Double.isFinite(perKg)) {
                throw new IllegalArgumentException(where.formatted(perKg) + " is not a finite number");
            }
            if (Math.abs(perKg) > PriceList.MOST) {
                throw new IllegalArgumentException(where.formatted(Numbers.exact(perKg)) + " is outside -"
                        + Numbers.exact(PriceList.MOST) + " to " + Numbers.exact(PriceList.MOST));
            }
            if ((fromKg != null && !Double.isFinite(fromKg)) || (toKg != null && !Double.isFinite(toKg))) {
                throw new IllegalArgumentException(
                        "weight band from " + fromKg + " to " + toKg + " kg: both are finite, or null for no limit");
            }
        }

        double lowConformation() {
            return conformation == null ? Double.NEGATIVE_INFINITY : conformation.position() - conformation.width() / 2;
        }

        double highConformation() {
            return conformation == null ? Double.POSITIVE_INFINITY : conformation.position() + conformation.width() / 2;
        }

        double lowFat() {
            return fatClass == null ? Double.NEGATIVE_INFINITY : fatClass.position() - fatClass.width() / 2;
        }

        double highFat() {
            return fatClass == null ? Double.POSITIVE_INFINITY : fatClass.position() + fatClass.width() / 2;
        }

        double low() {
            return fromKg == null ? Double.NEGATIVE_INFINITY : fromKg;
        }

        double high() {
            return toKg == null ? Double.POSITIVE_INFINITY : toKg;
        }

        boolean holds(Carcass carcass, EdgeRule edge) {
            double w = carcass.coldWeightKg();
            return (category == null || category == carcass.category())
                    && (conformation == null || isIn(carcass.conformation(), conformation, edge))
                    && (fatClass == null || isIn(carcass.fatClass(), fatClass, edge))
                    && low() <= w
                    && w < high();
        }

        private static boolean isIn(Conformation grade, Conformation part, EdgeRule edge) {
            return !edge.isBelow(grade, part) && !edge.isAbove(grade, part);
        }

        private static boolean isIn(FatClass grade, FatClass part, EdgeRule edge) {
            return !edge.isBelow(grade, part) && !edge.isAbove(grade, part);
        }

        boolean overlaps(Row other) {
            return category == other.category
                    && Math.max(lowConformation(), other.lowConformation())
                            < Math.min(highConformation(), other.highConformation())
                    && Math.max(lowFat(), other.lowFat()) < Math.min(highFat(), other.highFat())
                    && Math.max(low(), other.low()) < Math.min(high(), other.high());
        }

        /** The part of the scales that it holds, in points of conformation times points of fat. */
        double part() {
            return (conformation == null ? GradeAxes.EU.conformation().last() : conformation.width())
                    * (fatClass == null ? GradeAxes.EU.fat().last() : fatClass.width());
        }

        /**
         * What the row holds, in words.
         *
         * @return such as {@code category C, conformation R, fat class 4L}
         */
        @Override
        public String toString() {
            return words(category, conformation, fatClass, fromKg, toKg);
        }

        private static String words(
                @Nullable Category category,
                @Nullable Conformation conformation,
                @Nullable FatClass fatClass,
                @Nullable Double fromKg,
                @Nullable Double toKg) {
            StringBuilder text = new StringBuilder(category == null ? "every category" : "category " + category);
            if (conformation != null) {
                text.append(", conformation ").append(conformation);
            }
            if (fatClass != null) {
                text.append(", fat class ").append(fatClass);
            }
            if (fromKg != null) {
                text.append(", from ").append(Numbers.exact(fromKg)).append(" kg");
            }
            if (toKg != null) {
                text.append(", under ").append(Numbers.exact(toKg)).append(" kg");
            }
            return text.toString();
        }
    }

    private PaymentGrid(
            String currency,
            int decimals,
            List<Row> bases,
            List<Row> grades,
            List<Row> weights,
            List<Row> bonuses,
            @Nullable Predicate<? super Carcass> inSpecification,
            EdgeRule edge) {
        this.currency = currency;
        this.decimals = decimals;
        this.bases = List.copyOf(bases);
        this.grades = List.copyOf(grades);
        this.weights = List.copyOf(weights);
        this.bonuses = List.copyOf(bonuses);
        this.inSpecification = inSpecification;
        this.edge = edge;
    }

    /**
     * A grid without rows.
     *
     * @param currency label of the currency, such as {@code EUR}
     * @return a builder
     */
    public static Builder builder(String currency) {
        Objects.requireNonNull(currency, "currency");
        return new Builder(currency);
    }

    /** Collects rows. In every row a category of null stands for all of them. Not thread-safe. */
    public static final class Builder {
        private final String currency;
        private int decimals = PriceList.USUAL_DECIMALS;
        private final List<Row> bases = new ArrayList<>();
        private final List<Row> grades = new ArrayList<>();
        private final List<Row> weights = new ArrayList<>();
        private final List<Row> bonuses = new ArrayList<>();

        private Builder(String currency) {
            // the same labels and decimals as a price list takes
            this.currency = PriceList.builder(currency).build().currency();
        }

        /**
         * Decimals to which payments are rounded; else 2. They should be those of the price list beside which it stands.
         *
         * @param places 0 to 6
         * @return this
         * @throws IllegalArgumentException if they are outside their range
         */
        public Builder decimals(int places) {
            decimals = PriceList.builder(currency).decimals(places).build().decimals();
            return this;
        }

        /**
         * A base price.
         *
         * @param category category, or null for all
         * @param perKg price per kg of cold weight
         * @return this
         * @throws IllegalArgumentException if it is not finite, or the category has one already
         */
        public Builder base(@Nullable Category category, double perKg) {
            return add(bases, new Row(Line.BASE, category, null, null, null, null, perKg));
        }

        /**
         * A difference for a part of the grades.
         *
         * @param category category, or null for all
         * @param conformation class, third or half, or null for every conformation
         * @param fatClass class, third or half, or null for every fat class
         * @param perKg difference per kg of cold weight, above 0 for more
         * @return this
         * @throws IllegalArgumentException if it is not finite, a grade covers nothing of its scale, or a row of the same
         *     category holds as small a part and shares some of it
         */
        public Builder grade(
                @Nullable Category category,
                @Nullable Conformation conformation,
                @Nullable FatClass fatClass,
                double perKg) {
            Row row = new Row(Line.GRADE, category, conformation, fatClass, null, null, perKg);
            if (row.part() == 0) {
                throw new IllegalArgumentException("grade difference for " + row
                        + " covers nothing of the scale; give a class, a third or a half of one");
            }
            for (Row other : grades) {
                if (other.part() == row.part() && other.overlaps(row)) {
                    throw new IllegalArgumentException("grade differences for " + other + " and for " + row
                            + " cover as much as each other and share a part; one of them must be narrower, or go");
                }
            }
            return add(grades, row);
        }

        /**
         * A difference for a weight band; carcasses outside all bands get none.
         *
         * @param category category, or null for all
         * @param fromKg cold weight from which it counts, kg, this weight included, or null for no limit
         * @param toKg cold weight up to which it counts, kg, this weight left out, or null for no limit
         * @param perKg difference per kg of cold weight, above 0 for more
         * @return this
         * @throws IllegalArgumentException if it is not finite, the weights don't ascend, or the band overlaps another of
         *     the same category
         */
        public Builder weight(
                @Nullable Category category, @Nullable Double fromKg, @Nullable Double toKg, double perKg) {
            Row row = new Row(Line.WEIGHT, category, null, null, fromKg, toKg, perKg);
            if (!(row.low() < row.high())) {
                throw new IllegalArgumentException("weight band from " + Numbers.brief(row.low()) + " to "
                        + Numbers.brief(row.high()) + " kg holds no weight; two ascending weights are needed");
            }
            for (Row other : weights) {
                if (other.overlaps(row)) {
                    throw new IllegalArgumentException(
                            "weight bands for " + other + " and for " + row + " overlap; a weight has one band");
                }
            }
            return add(weights, row);
        }

        /**
         * A bonus for being in specification.
         *
         * @param category category, or null for all
         * @param perKg bonus per kg of cold weight
         * @return this
         * @throws IllegalArgumentException if it is not finite, or the category has one already
         */
        public Builder inSpecification(@Nullable Category category, double perKg) {
            return add(bonuses, new Row(Line.IN_SPECIFICATION, category, null, null, null, null, perKg));
        }

        private Builder add(List<Row> rows, Row row) {
            for (Row other : rows) {
                if (rows != grades && rows != weights && other.category() == row.category()) {
                    throw new IllegalArgumentException(row.line().words() + " for " + row + " is given twice: "
                            + Numbers.exact(other.perKg()) + " and " + Numbers.exact(row.perKg()));
                }
            }
            rows.add(row);
            return this;
        }

        /**
         * The grid.
         *
         * @return it
         * @throws IllegalArgumentException if it has no base price or no grade row
         */
        public PaymentGrid build() {
            if (bases.isEmpty()) {
                throw new IllegalArgumentException("a payment grid needs a base price");
            }
            if (grades.isEmpty()) {
                throw new IllegalArgumentException("a payment grid needs a grade difference; one price for all grades"
                        + " is a difference of 0 for every conformation and fat class");
            }
            return new PaymentGrid(currency, decimals, bases, grades, weights, bonuses, null, EdgeRule.LOWER);
        }
    }

    /**
     * The same grid with a test of what is in specification, such as a market specification.
     *
     * @param test true for carcasses that get the bonus
     * @return a grid
     */
    public PaymentGrid with(Predicate<? super Carcass> test) {
        return new PaymentGrid(
                currency, decimals, bases, grades, weights, bonuses, Objects.requireNonNull(test, "test"), edge);
    }

    /**
     * The same grid with another rule for carcasses on the edge between two rows.
     *
     * @param rule to which side of an edge a grade counts; else {@link EdgeRule#LOWER}
     * @return a grid
     */
    public PaymentGrid with(EdgeRule rule) {
        return new PaymentGrid(
                currency,
                decimals,
                bases,
                grades,
                weights,
                bonuses,
                inSpecification,
                Objects.requireNonNull(rule, "rule"));
    }

    /** What the rule does with the rows of this grid, if anything. */
    List<String> edgeWords() {
        return edge.words(
                grades.stream()
                        .flatMap(row -> Stream.ofNullable(row.conformation()))
                        .toList(),
                grades.stream()
                        .flatMap(row -> Stream.ofNullable(row.fatClass()))
                        .toList());
    }

    /**
     * Label of the currency.
     *
     * @return such as {@code EUR}
     */
    public String currency() {
        return currency;
    }

    /**
     * Every row.
     *
     * @return base prices, then differences of grades, those of weights, and bonuses, each in the order in which they were
     *     given
     */
    public List<Row> rows() {
        return Stream.of(bases, grades, weights, bonuses).flatMap(List::stream).toList();
    }

    /**
     * The rule for carcasses on the edge between two rows.
     *
     * @return to which side a grade counts
     */
    public EdgeRule edge() {
        return edge;
    }

    /**
     * Decimals to which payments are rounded.
     *
     * @return 0 to 6
     */
    public int decimals() {
        return decimals;
    }

    /**
     * Whether the grid has a bonus for being in specification, and so needs {@link #with(Predicate)} before it pays.
     *
     * @return true if so
     */
    public boolean asksForSpecification() {
        return !bonuses.isEmpty();
    }

    /**
     * What is paid for a carcass.
     *
     * @param carcass carcass
     * @return the payment, line by line
     * @throws IllegalArgumentException if the grid has no base price for its category, or no row for its grade
     * @throws IllegalStateException if the grid has a bonus for being in specification and no test of it
     */
    public Payment paid(Carcass carcass) {
        Objects.requireNonNull(carcass, "carcass");
        Row base = row(bases, carcass)
                .orElseThrow(() -> new IllegalArgumentException("the payment grid has no base price for category "
                        + carcass.category() + ", carcass " + carcass));
        Row grade = row(grades, carcass)
                .orElseThrow(() -> new IllegalArgumentException("the payment grid has no row for the grade of carcass "
                        + carcass + "; one without conformation and fat class holds every grade"));
        List<Payment.Line> lines = new ArrayList<>();
        lines.add(new Payment.Line("Base price", base.perKg()));
        lines.add(new Payment.Line("Grade", grade.perKg()));
        if (!weights.isEmpty()) {
            lines.add(new Payment.Line(
                    "Weight", row(weights, carcass).map(Row::perKg).orElse(0.0)));
        }
        if (asksForSpecification()) {
            if (inSpecification == null) {
                throw new IllegalStateException("the payment grid has a bonus for being in specification, but not what"
                        + " is in specification; give it a test: PaymentGrid.with(specification)");
            }
            boolean in = inSpecification.test(carcass);
            lines.add(new Payment.Line(
                    "In specification",
                    in ? row(bonuses, carcass).map(Row::perKg).orElse(0.0) : 0));
        }
        return new Payment(carcass, currency, decimals, lines);
    }

    /** What is paid for a kg of a carcass that is in specification or not, whatever the test says; empty if nothing is. */
    OptionalDouble perKg(Carcass carcass, boolean in) {
        Optional<Row> base = row(bases, carcass);
        Optional<Row> grade = row(grades, carcass);
        if (base.isEmpty() || grade.isEmpty()) {
            return OptionalDouble.empty();
        }
        double ofWeight = row(weights, carcass).map(Row::perKg).orElse(0.0);
        double bonus = in ? row(bonuses, carcass).map(Row::perKg).orElse(0.0) : 0;
        return OptionalDouble.of(base.get().perKg() + grade.get().perKg() + ofWeight + bonus);
    }

    /** Whether a carcass gets the bonus for being in specification. */
    boolean isInSpecification(Carcass carcass) {
        return inSpecification != null && inSpecification.test(carcass);
    }

    /** Whether a carcass has a base price and a row for its grade. */
    boolean pays(Carcass carcass) {
        return row(bases, carcass).isPresent() && row(grades, carcass).isPresent();
    }

    /** The row that counts: of the carcass's category if there is one, and of those the narrowest. */
    private Optional<Row> row(List<Row> rows, Carcass carcass) {
        return rows.stream()
                .filter(row -> row.holds(carcass, edge))
                .min(Comparator.<Row>comparingInt(row -> row.category() == null ? 1 : 0)
                        .thenComparingDouble(Row::part));
    }

    /**
     * Whether another grid has the same rows in the same order.
     *
     * @param other any object
     * @return true if so, with the same rule for edges; what is in specification is not compared
     */
    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof PaymentGrid that
                && currency.equals(that.currency)
                && decimals == that.decimals
                && bases.equals(that.bases)
                && grades.equals(that.grades)
                && weights.equals(that.weights)
                && bonuses.equals(that.bonuses)
                && edge == that.edge;
    }

    @Override
    public int hashCode() {
        return Objects.hash(currency, decimals, bases, grades, weights, bonuses, edge);
    }

    /**
     * One line.
     *
     * @return number of rows and currency
     */
    @Override
    public String toString() {
        long rows =
                Stream.of(bases, grades, weights, bonuses).mapToLong(List::size).sum();
        return "payment grid of " + rows + " rows in " + currency + " per kg";
    }
}
