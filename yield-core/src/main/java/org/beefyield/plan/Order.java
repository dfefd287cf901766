package org.beefyield.plan;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Outturn;
import org.beefyield.market.MarketSpecification;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * What a customer has ordered: kilograms of a product, at a price per kg, of such carcasses and such pieces as he takes.
 *
 * <p>The product is a cut of the table's last level ({@code striploin-steak}), a cut that is broken down, of which the steaks,
 * joints and dice are meant ({@code striploin}, with a way if it matters), a product of the hall, or mince of a fat content.
 * Mince that is leaner than ordered is taken too. Immutable.
 */
public final class Order {
    private final String id;
    private final String customer;
    private final String product;
    private final String way;
    private final @Nullable Double fatPercent;
    private final double minKg;
    private final double maxKg;
    private final double price;
    private final @Nullable Double penalty;
    private final @Nullable MarketSpecification carcasses;
    private final double pieceFromKg;
    private final double pieceToKg;

    private Order(Builder builder) {
        this.id = builder.id;
        this.customer = builder.customer;
        this.product = builder.product;
        this.way = builder.way;
        this.fatPercent = builder.fatPercent;
        this.minKg = builder.minKg;
        this.maxKg = builder.maxKg;
        this.price = builder.price;
        this.penalty = builder.penalty;
        this.carcasses = builder.carcasses;
        this.pieceFromKg = builder.pieceFromKg;
        this.pieceToKg = builder.pieceToKg;
    }

    /**
     * An order of a product, so far of as much as there is, at a price of 0.
     *
     * @param id its number
     * @param product code of a cut or of a product
     * @return a builder
     * @throws IllegalArgumentException if one is blank
     */
    public static Builder builder(String id, String product) {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(product, "product");
        return new Builder(id, product, null);
    }

    /**
     * An order of mince.
     *
     * @param id its number
     * @param fatPercent the most fat it may have, per cent
     * @return a builder
     * @throws IllegalArgumentException if the number is blank or the fat content outside its range
     */
    public static Builder mince(String id, double fatPercent) {
        Objects.requireNonNull(id, "id");
        MinceTarget.fatPercent(fatPercent);
        return new Builder(id, Outturn.MINCE_CODE, fatPercent);
    }

    /** Collects what is ordered. Not thread-safe. */
    public static final class Builder {
        private final String id;
        private final String product;
        private final @Nullable Double fatPercent;
        private String customer = "";
        private String way = "";
        private double minKg;
        private double maxKg = Double.POSITIVE_INFINITY;
        private double price;
        private @Nullable Double penalty;
        private @Nullable MarketSpecification carcasses;
        private double pieceFromKg;
        private double pieceToKg = Double.POSITIVE_INFINITY;

        private Builder(String id, String product, @Nullable Double fatPercent) {
            this.id = notBlank("id of an order", id);
            this.product = notBlank("product of order " + id, product);
            this.fatPercent = fatPercent;
        }

        /**
         * Who ordered it.
         *
         * @param name name, empty if it isn't said
         * @return this
         */
        public Builder customer(String name) {
            this.customer = Objects.requireNonNull(name, "name");
            return this;
        }

        /**
         * The way in which the cut has to be cut up.
         *
         * @param name a way of the table, empty for any
         * @return this
         */
        public Builder way(String name) {
            this.way = Objects.requireNonNull(name, "name");
            return this;
        }

        /**
         * How much is ordered.
         *
         * @param min what has to be delivered, kg, 0 or more
         * @param max what is taken at most, kg, no less; infinite for all there is
         * @return this
         * @throws IllegalArgumentException if they are not ascending or below 0
         */
        public Builder kg(double min, double max) {
            if (!(min >= 0 && min <= max && min < Double.POSITIVE_INFINITY)) {
                throw new IllegalArgumentException("order " + id + " of " + Numbers.brief(min) + " to "
                        + Numbers.brief(max) + " kg: two ascending weights of 0 kg or more are needed");
            }
            this.minKg = min;
            this.maxKg = max;
            return this;
        }

        /**
         * What is paid for a kg.
         *
         * @param perKg price per kg, finite
         * @return this
         * @throws IllegalArgumentException if it is not finite
         */
        public Builder price(double perKg) {
            this.price = finite("price", perKg);
            return this;
        }

        /**
         * What each kg costs that is missing of the least that has to be delivered. Without it nothing may be missing.
         *
         * @param perKg penalty per kg, 0 or more
         * @return this
         * @throws IllegalArgumentException if it is not finite or below 0
         */
        public Builder penalty(double perKg) {
            if (!(finite("penalty", perKg) >= 0)) {
                throw new IllegalArgumentException(
                        "penalty " + Numbers.brief(perKg) + " of order " + id + " is below 0");
            }
            this.penalty = perKg;
            return this;
        }

        /**
         * The carcasses of which it has to be.
         *
         * @param specification what the customer takes
         * @return this
         */
        public Builder carcasses(MarketSpecification specification) {
            this.carcasses = Objects.requireNonNull(specification, "specification");
            return this;
        }

        /**
         * The weight of the pieces of which it has to be: of the cut before it is cut up.
         *
         * @param fromKg lightest, kg, 0 for no limit
         * @param toKg heaviest, kg, infinite for no limit
         * @return this
         * @throws IllegalArgumentException if they are not ascending or below 0
         */
        public Builder pieces(double fromKg, double toKg) {
            if (!(fromKg >= 0 && fromKg < toKg && fromKg < Double.POSITIVE_INFINITY)) {
                throw new IllegalArgumentException("order " + id + " of pieces from " + Numbers.brief(fromKg) + " to "
                        + Numbers.brief(toKg) + " kg: two ascending weights of 0 kg or more are needed");
            }
            this.pieceFromKg = fromKg;
            this.pieceToKg = toKg;
            return this;
        }

        private double finite(String what, double amount) {
            if (!Double.isFinite(amount)) {
                throw new IllegalArgumentException(what + " " + amount + " of order " + id + " is not a finite number");
            }
            return amount;
        }

        /**
         * The order.
         *
         * @return it
         */
        public Order build() {
            return new Order(this);
        }
    }

    static String notBlank(String what, String text) {
        if (text.isBlank()) {
            throw new IllegalArgumentException(what + " is blank");
        }
        return text;
    }

    /**
     * Its number.
     *
     * @return not blank
     */
    public String id() {
        return id;
    }

    /**
     * Who ordered it.
     *
     * @return name, empty if it isn't said
     */
    public String customer() {
        return customer;
    }

    /**
     * What is ordered.
     *
     * @return code of a cut or product; {@code mince} of mince
     */
    public String product() {
        return product;
    }

    /**
     * The way in which the cut has to be cut up.
     *
     * @return its name, empty for any
     */
    public String way() {
        return way;
    }

    /**
     * The most fat that ordered mince may have.
     *
     * @return per cent; empty if it isn't mince that is ordered
     */
    public OptionalDouble fatPercent() {
        return fatPercent == null ? OptionalDouble.empty() : OptionalDouble.of(fatPercent);
    }

    /** Whether mince is ordered. */
    boolean isMince() {
        return fatPercent != null;
    }

    /** The most fat as a fraction; not a number if it isn't mince. */
    double fat() {
        return fatPercent == null ? Double.NaN : fatPercent / 100;
    }

    /**
     * What has to be delivered.
     *
     * @return kg, 0 or more
     */
    public double minKg() {
        return minKg;
    }

    /**
     * What is taken at most.
     *
     * @return kg, infinite for all there is
     */
    public double maxKg() {
        return maxKg;
    }

    /**
     * What is paid for a kg.
     *
     * @return price per kg
     */
    public double price() {
        return price;
    }

    /**
     * What each missing kg costs.
     *
     * @return penalty per kg; empty if nothing may be missing
     */
    public OptionalDouble penalty() {
        return penalty == null ? OptionalDouble.empty() : OptionalDouble.of(penalty);
    }

    /** Whether the least has to be delivered whatever it costs. */
    boolean isFirm() {
        return penalty == null && minKg > 0;
    }

    /**
     * The carcasses of which it has to be.
     *
     * @return what the customer takes; empty for any
     */
    public Optional<MarketSpecification> carcasses() {
        return Optional.ofNullable(carcasses);
    }

    /**
     * The lightest piece of which it may be.
     *
     * @return kg, 0 for no limit
     */
    public double pieceFromKg() {
        return pieceFromKg;
    }

    /**
     * The heaviest piece of which it may be.
     *
     * @return kg, infinite for no limit
     */
    public double pieceToKg() {
        return pieceToKg;
    }

    /** Whether pieces of some weights alone are taken. */
    boolean limitsPieces() {
        return pieceFromKg > 0 || pieceToKg < Double.POSITIVE_INFINITY;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Order that
                && id.equals(that.id)
                && customer.equals(that.customer)
                && product.equals(that.product)
                && way.equals(that.way)
                && Objects.equals(fatPercent, that.fatPercent)
                && minKg == that.minKg
                && maxKg == that.maxKg
                && price == that.price
                && Objects.equals(penalty, that.penalty)
                && Objects.equals(carcasses, that.carcasses)
                && pieceFromKg == that.pieceFromKg
                && pieceToKg == that.pieceToKg;
    }

    @Override
    public int hashCode() {
        return Objects.hash(id, customer, product, way, fatPercent, minKg, maxKg, price, penalty, carcasses);
    }

    /** The product in words. */
    String words() {
        StringBuilder words = new StringBuilder(product);
        if (fatPercent != null) {
            words.append(" up to ").append(Numbers.brief(fatPercent)).append(" % fat");
        }
        if (!way.isEmpty()) {
            words.append(" as ").append(way);
        }
        if (limitsPieces()) {
            words.append(", pieces ");
            if (pieceToKg == Double.POSITIVE_INFINITY) {
                words.append("from ").append(Numbers.brief(pieceFromKg));
            } else {
                words.append(pieceFromKg > 0 ? Numbers.brief(pieceFromKg) + " to " : "up to ")
                        .append(Numbers.brief(pieceToKg));
            }
            words.append(" kg");
        }
        if (carcasses != null) {
            words.append(", carcasses ").append(carcasses.name());
        }
        return words.toString();
    }

    /**
     * One line.
     *
     * @return number, product, kg and price
     */
    @Override
    public String toString() {
        String kg = maxKg == Double.POSITIVE_INFINITY
                ? "from " + Numbers.brief(minKg) + " kg"
                : minKg == maxKg
                        ? Numbers.brief(minKg) + " kg"
                        : Numbers.brief(minKg) + " to " + Numbers.brief(maxKg) + " kg";
        return id + ": " + words() + ", " + kg + " at " + Numbers.brief(price);
    }
}
