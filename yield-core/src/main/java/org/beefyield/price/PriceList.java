package org.beefyield.price;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Outturn;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * What a plant gets for what it sells, and its other income and cost: prices per kg of cuts, of kinds, and of mince by its
 * fat content. A price of a cut goes before that of its kind. Mince is sold at the fat that it has: at the price of the
 * least fat content in the list that is not below its own. Immutable.
 *
 * <p>The currency is a label. Amounts are worked out in doubles and rounded to the list's decimals at the end, so that
 * what is printed adds up.
 */
public final class PriceList implements Serializable {
    private static final long serialVersionUID = 1;

    /** Decimals of an amount, where the list doesn't say: cents. */
    public static final int USUAL_DECIMALS = 2;

    /** The highest price of a kg or a head, in any currency: what is sold must still be told to the last decimal. */
    public static final double MOST = 1e9;

    private final transient String currency;
    private final transient int decimals;
    private final transient Map<String, Double> byCut;
    private final transient Map<CutKind, Double> byKind;
    /** By fat content in per cent; one under -1 is for any mince. */
    private final transient NavigableMap<Double, Double> mince;

    private final transient List<OtherLine> others;

    private static final double ANY_MINCE = -1;

    /**
     * Income or cost beside the cuts, such as the hide, or slaughter and boning.
     *
     * @param name name
     * @param per what it is counted by
     * @param amount amount, above 0 for income, below for cost
     * @serial exclude
     */
    public record OtherLine(String name, Per per, double amount) implements Serializable {
        /**
         * Checks the amount.
         *
         * @throws IllegalArgumentException if it is not finite or beyond a billion
         */
        public OtherLine {
            Objects.requireNonNull(name, "name");
            Objects.requireNonNull(per, "per");
            Builder.checked(name, amount);
        }

        /** What an other line is counted by. */
        public enum Per {
            /** Per kg of cold carcass weight. */
            KG,
            /** Per carcass. */
            HEAD
        }
    }

    private PriceList(Builder builder) {
        this.currency = builder.currency;
        this.decimals = builder.decimals;
        this.byCut = Collections.unmodifiableMap(new LinkedHashMap<>(builder.byCut));
        this.byKind = Collections.unmodifiableMap(new LinkedHashMap<>(builder.byKind));
        this.mince = Collections.unmodifiableNavigableMap(new TreeMap<>(builder.mince));
        this.others = List.copyOf(builder.others);
    }

    /**
     * An empty list.
     *
     * @param currency label of the currency, such as {@code EUR}
     * @return a builder
     */
    public static Builder builder(String currency) {
        Objects.requireNonNull(currency, "currency");
        return new Builder(currency);
    }

    /**
     * A list to be changed.
     *
     * @return a builder that holds what this list holds
     */
    public Builder toBuilder() {
        Builder builder = new Builder(currency).decimals(decimals);
        builder.byCut.putAll(byCut);
        builder.byKind.putAll(byKind);
        builder.mince.putAll(mince);
        builder.others.addAll(others);
        return builder;
    }

    /** Collects prices; a price given again takes the place of the one before. Not thread-safe. */
    public static final class Builder {
        private String currency;
        private int decimals = USUAL_DECIMALS;
        private final Map<String, Double> byCut = new LinkedHashMap<>();
        private final Map<CutKind, Double> byKind = new LinkedHashMap<>();
        private final Map<Double, Double> mince = new TreeMap<>();
        private final List<OtherLine> others = new ArrayList<>();

        private Builder(String currency) {
            this.currency = Money.checkedLabel(currency);
        }

        /**
         * Another label of the currency; prices stay as they are.
         *
         * @param label such as {@code EUR}
         * @return this
         * @throws IllegalArgumentException if it is blank
         */
        public Builder currency(String label) {
            Objects.requireNonNull(label, "label");
            currency = Money.checkedLabel(label);
            return this;
        }

        /**
         * Decimals to which amounts are rounded.
         *
         * @param places 0 to 6
         * @return this
         * @throws IllegalArgumentException if they are outside their range
         */
        public Builder decimals(int places) {
            if (places < 0 || places > 6) {
                throw new IllegalArgumentException("decimals of an amount " + places + " are outside 0 to 6");
            }
            decimals = places;
            return this;
        }

        /**
         * Price of a cut.
         *
         * @param cut code
         * @param perKg price per kg; 0 or below for what costs to be rid of
         * @return this
         * @throws IllegalArgumentException if the price is not finite or beyond a billion
         */
        public Builder cut(String cut, double perKg) {
            Objects.requireNonNull(cut, "cut");
            byCut.put(cut, checked("price of " + cut, perKg));
            return this;
        }

        /**
         * Price of every cut of a kind that has none of its own.
         *
         * @param kind kind
         * @param perKg price per kg
         * @return this
         * @throws IllegalArgumentException if the price is not finite or beyond a billion
         */
        public Builder kind(CutKind kind, double perKg) {
            Objects.requireNonNull(kind, "kind");
            byKind.put(kind, checked("price of " + kind.code(), perKg));
            return this;
        }

        /**
         * Price of mince up to a fat content: of what has this fat, or less and no price of its own.
         *
         * @param fatPercent fat content, per cent
         * @param perKg price per kg
         * @return this
         * @throws IllegalArgumentException if the price is not finite or beyond a billion, or the fat content outside its range
         */
        public Builder mince(double fatPercent, double perKg) {
            mince.put(percent(MinceTarget.fatPercent(fatPercent).fat()), checked("price of mince", perKg));
            return this;
        }

        /**
         * Price of mince that is fatter than all contents with a price.
         *
         * @param perKg price per kg
         * @return this
         * @throws IllegalArgumentException if the price is not finite or beyond a billion
         */
        public Builder mince(double perKg) {
            mince.put(ANY_MINCE, checked("price of mince", perKg));
            return this;
        }

        /**
         * Other income or cost per kg of cold carcass weight.
         *
         * @param name name
         * @param amount amount per kg, above 0 for income, below for cost
         * @return this
         * @throws IllegalArgumentException if the amount is not finite or beyond a billion
         */
        public Builder otherPerKg(String name, double amount) {
            Objects.requireNonNull(name, "name");
            others.add(new OtherLine(name, OtherLine.Per.KG, amount));
            return this;
        }

        /**
         * Other income or cost per carcass.
         *
         * @param name name
         * @param amount amount per carcass, above 0 for income, below for cost
         * @return this
         * @throws IllegalArgumentException if the amount is not finite or beyond a billion
         */
        public Builder otherPerHead(String name, double amount) {
            Objects.requireNonNull(name, "name");
            others.add(new OtherLine(name, OtherLine.Per.HEAD, amount));
            return this;
        }

        private static double checked(String what, double amount) {
            if (!Double.isFinite(amount)) {
                throw new IllegalArgumentException(what + " " + amount + " is not a finite number");
            }
            if (Math.abs(amount) > MOST) {
                throw new IllegalArgumentException(what + " " + Numbers.exact(amount) + " is outside -"
                        + Numbers.exact(MOST) + " to " + Numbers.exact(MOST));
            }
            return amount;
        }

        /**
         * The list.
         *
         * @return it
         */
        public PriceList build() {
            return new PriceList(this);
        }
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
     * Decimals to which amounts are rounded.
     *
     * @return 0 to 6
     */
    public int decimals() {
        return decimals;
    }

    /**
     * Prices of single cuts.
     *
     * @return an unmodifiable map by code, per kg
     */
    public Map<String, Double> cuts() {
        return byCut;
    }

    /**
     * Prices of kinds.
     *
     * @return an unmodifiable map, per kg
     */
    public Map<CutKind, Double> kinds() {
        return byKind;
    }

    /**
     * Prices of mince by its fat content.
     *
     * @return an unmodifiable map by fat content in per cent, leanest first, per kg; {@link #anyMince()} is not in it
     */
    public Map<Double, Double> mince() {
        return mince.tailMap(0.0);
    }

    /**
     * Price of mince that is fatter than all contents with a price.
     *
     * @return price per kg, or empty if there is none of its own
     */
    public OptionalDouble anyMince() {
        Double any = mince.get(ANY_MINCE);
        return any == null ? OptionalDouble.empty() : OptionalDouble.of(any);
    }

    /**
     * Income and cost beside the cuts.
     *
     * @return an unmodifiable list
     */
    public List<OtherLine> others() {
        return others;
    }

    /**
     * The price at which mince of a fat content is sold: that of the next fatter content in the list, else of any mince.
     *
     * @param fat fat content, fraction
     * @return price per kg, or empty if the list has none for mince so fat
     * @throws IllegalArgumentException if the fraction is outside 0 to 1
     */
    public OptionalDouble minceAt(double fat) {
        if (!(fat >= 0 && fat <= 1)) {
            throw new IllegalArgumentException("fat content of mince " + fat + " is outside 0 to 1");
        }
        Optional<MincePrice> price = ofMince(fat);
        return price.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(price.get().perKg());
    }

    /**
     * Price of a cut, by its code or else its kind.
     *
     * @param cut cut
     * @return price per kg, or empty if the list has neither
     */
    public Optional<Double> of(Cut cut) {
        Objects.requireNonNull(cut, "cut");
        Double own = byCut.get(cut.code());
        return Optional.ofNullable(own != null ? own : byKind.get(cut.kind()));
    }

    /**
     * A price of mince.
     *
     * @param perKg price per kg
     * @param upToPercent fat content of the list that it is for, per cent; null for a price that no fat content is said of
     */
    record MincePrice(double perKg, @Nullable Double upToPercent) {}

    /** The price at which mince of a fat content (fraction) is sold: that of the next fatter content in the list. */
    Optional<MincePrice> ofMince(double fat) {
        Map.Entry<Double, Double> next = mince.ceilingEntry(percent(fat));
        if (next != null) {
            return Optional.of(new MincePrice(next.getValue(), next.getKey()));
        }
        Double any = mince.get(ANY_MINCE);
        Double own = any != null ? any : byCut.get(Outturn.MINCE_CODE);
        Double price = own != null ? own : byKind.get(CutKind.MINCE);
        return price == null ? Optional.empty() : Optional.of(new MincePrice(price, null));
    }

    /** The fattest mince that has a price of its own, per cent. */
    OptionalDouble fattestMincePercent() {
        return mince.isEmpty() || mince.lastKey() == ANY_MINCE
                ? OptionalDouble.empty()
                : OptionalDouble.of(mince.lastKey());
    }

    /** Fat content in per cent, to a millionth, so that 15 and 85 lean are one. */
    static double percent(double fat) {
        return Math.rint(fat * 1e8) / 1e6;
    }

    /**
     * The same list with every price and other line times a factor.
     *
     * @param factor factor, finite
     * @return a list
     * @throws IllegalArgumentException if the factor is not finite, or makes a price of more than a billion
     */
    public PriceList times(double factor) {
        Builder builder = builder(currency).decimals(decimals);
        byCut.forEach((cut, price) -> builder.cut(cut, factor * price));
        byKind.forEach((kind, price) -> builder.kind(kind, factor * price));
        mince.forEach((fat, price) -> builder.mince.put(fat, Builder.checked("price of mince", factor * price)));
        others.forEach(line -> builder.others.add(new OtherLine(line.name(), line.per(), factor * line.amount())));
        return builder.build();
    }

    /**
     * An amount as money.
     *
     * @param amount amount in the list's currency, finite
     * @return the amount rounded half up to the list's decimals
     * @throws IllegalArgumentException if it is not finite
     */
    public Money money(double amount) {
        return Money.rounded(amount, decimals, currency);
    }

    /**
     * Refuses amounts that don't go together: there is no conversion.
     *
     * @param other label of another currency
     * @throws IllegalArgumentException if it is another one than the list's
     */
    public void checkCurrency(String other) {
        Objects.requireNonNull(other, "other");
        if (!currency.equals(other)) {
            throw new IllegalArgumentException(Money.dontGoTogether(currency, other));
        }
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof PriceList that
                && currency.equals(that.currency)
                && decimals == that.decimals
                && byCut.equals(that.byCut)
                && byKind.equals(that.byKind)
                && mince.equals(that.mince)
                && others.equals(that.others);
    }

    @Override
    public int hashCode() {
        return Objects.hash(currency, decimals, byCut, byKind, mince, others);
    }

    /**
     * What goes over the wire.
     *
     * @param currency label
     * @param decimals decimals of amounts
     * @param byCut prices by code
     * @param byKind prices by kind
     * @param mince prices by fat content
     * @param others income and cost beside the cuts
     * @serial exclude
     */
    private record Form(
            String currency,
            int decimals,
            Map<String, Double> byCut,
            Map<CutKind, Double> byKind,
            Map<Double, Double> mince,
            List<OtherLine> others)
            implements Serializable {
        private Object readResolve() {
            Builder builder = new Builder(currency).decimals(decimals);
            byCut.forEach(builder::cut);
            byKind.forEach(builder::kind);
            mince.forEach((fat, perKg) -> builder.mince.put(fat, Builder.checked("price of mince", perKg)));
            builder.others.addAll(others);
            return builder.build();
        }
    }

    /**
     * What is written in its place.
     *
     * @return the prices
     */
    private Object writeReplace() {
        return new Form(
                currency,
                decimals,
                new LinkedHashMap<>(byCut),
                new LinkedHashMap<>(byKind),
                new TreeMap<>(mince),
                others);
    }

    /**
     * Refuses a list that was not written as its prices.
     *
     * @param in stream
     * @throws InvalidObjectException always
     */
    private void readObject(ObjectInputStream in) throws InvalidObjectException {
        throw new InvalidObjectException("a price list arrives as its prices");
    }

    /**
     * One line.
     *
     * @return currency and number of prices
     */
    @Override
    public String toString() {
        return (byCut.size() + byKind.size() + mince.size()) + " prices per kg in " + currency;
    }
}
