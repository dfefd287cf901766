package org.beefyield.price;

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
public final class PriceList {
    /** Decimals of an amount, where the list doesn't say: cents. */
    public static final int USUAL_DECIMALS = 2;

    private final String currency;
    private final int decimals;
    private final Map<String, Double> byCut;
    private final Map<CutKind, Double> byKind;
    /** By fat content in per cent; one under -1 is for any mince. */
    private final NavigableMap<Double, Double> mince;

    private final List<OtherLine> others;

    private static final double ANY_MINCE = -1;

    /**
     * Income or cost beside the cuts, such as the hide, or slaughter and boning.
     *
     * @param name name
     * @param per what it is counted by
     * @param amount amount, above 0 for income, below for cost
     */
    public record OtherLine(String name, Per per, double amount) {
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
        private final String currency;
        private int decimals = USUAL_DECIMALS;
        private final Map<String, Double> byCut = new LinkedHashMap<>();
        private final Map<CutKind, Double> byKind = new LinkedHashMap<>();
        private final Map<Double, Double> mince = new TreeMap<>();
        private final List<OtherLine> others = new ArrayList<>();

        private Builder(String currency) {
            this.currency = Objects.requireNonNull(currency);
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
         * @throws IllegalArgumentException if the price is not finite
         */
        public Builder cut(String cut, double perKg) {
            byCut.put(cut, checked("price of " + cut, perKg));
            return this;
        }

        /**
         * Price of every cut of a kind that has none of its own.
         *
         * @param kind kind
         * @param perKg price per kg
         * @return this
         * @throws IllegalArgumentException if the price is not finite
         */
        public Builder kind(CutKind kind, double perKg) {
            byKind.put(kind, checked("price of " + kind.code(), perKg));
            return this;
        }

        /**
         * Price of mince up to a fat content: of what has this fat, or less and no price of its own.
         *
         * @param fatPercent fat content, per cent
         * @param perKg price per kg
         * @return this
         * @throws IllegalArgumentException if the price is not finite or the fat content outside its range
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
         * @throws IllegalArgumentException if the price is not finite
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
         * @throws IllegalArgumentException if the amount is not finite
         */
        public Builder otherPerKg(String name, double amount) {
            others.add(new OtherLine(name, OtherLine.Per.KG, checked(name, amount)));
            return this;
        }

        /**
         * Other income or cost per carcass.
         *
         * @param name name
         * @param amount amount per carcass, above 0 for income, below for cost
         * @return this
         * @throws IllegalArgumentException if the amount is not finite
         */
        public Builder otherPerHead(String name, double amount) {
            others.add(new OtherLine(name, OtherLine.Per.HEAD, checked(name, amount)));
            return this;
        }

        private static double checked(String what, double amount) {
            if (!Double.isFinite(amount)) {
                throw new IllegalArgumentException(what + " " + amount + " is not a finite number");
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
     * Income and cost beside the cuts.
     *
     * @return an unmodifiable list
     */
    public List<OtherLine> others() {
        return others;
    }

    /** Price per kg of a cut, by its code or else its kind. */
    Optional<Double> of(Cut cut) {
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
     * @throws IllegalArgumentException if the factor is not finite
     */
    public PriceList times(double factor) {
        Builder builder = builder(currency).decimals(decimals);
        byCut.forEach((cut, price) -> builder.cut(cut, factor * price));
        byKind.forEach((kind, price) -> builder.kind(kind, factor * price));
        mince.forEach((fat, price) -> builder.mince.put(fat, Builder.checked("price of mince", factor * price)));
        others.forEach(line -> builder.others.add(
                new OtherLine(line.name(), line.per(), Builder.checked(line.name(), factor * line.amount()))));
        return builder.build();
    }

    /**
     * An amount as money.
     *
     * @param amount amount in the list's currency
     * @return the amount rounded to the list's decimals, without the currency
     */
    public String money(double amount) {
        return Numbers.fixed(amount, decimals);
    }

    /**
     * Refuses amounts that don't go together: there is no conversion.
     *
     * @param other label of another currency
     * @throws IllegalArgumentException if it is another one than the list's
     */
    public void checkCurrency(String other) {
        if (!currency.equals(other)) {
            throw new IllegalArgumentException("amounts in " + currency + " and in " + other
                    + " don't go together; bring them to one currency first");
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
     * One line.
     *
     * @return currency and number of prices
     */
    @Override
    public String toString() {
        return (byCut.size() + byKind.size() + mince.size()) + " prices per kg in " + currency;
    }
}
