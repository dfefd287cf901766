package org.beefyield.price;

import java.io.Serializable;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * An amount of money: a decimal number with the decimals of its list, and the label of a currency. Two of one currency add up,
 * differ and compare; two of different ones don't go together. Equal if currency and number are, whatever the decimals:
 * 306170 JPY and 306170.00 JPY are. Immutable.
 *
 * @serial exclude
 */
public final class Money implements Comparable<Money>, Serializable {
    private static final long serialVersionUID = 1;

    private final BigDecimal amount;
    private final String currency;

    private Money(BigDecimal amount, String currency) {
        this.amount = amount;
        this.currency = currency;
    }

    /**
     * An amount as it is.
     *
     * @param amount the number; it is printed with the decimals that it has, none if its scale is below 0
     * @param currency label of the currency, such as {@code EUR}
     * @return the money
     * @throws IllegalArgumentException if the label is blank
     */
    public static Money of(BigDecimal amount, String currency) {
        Objects.requireNonNull(currency, "currency");
        Objects.requireNonNull(amount, "amount");
        return new Money(amount.scale() < 0 ? amount.setScale(0) : amount, checkedLabel(currency));
    }

    /**
     * An amount rounded half up.
     *
     * @param amount a finite number
     * @param decimals decimals, 0 or more
     * @param currency label of the currency, such as {@code EUR}
     * @return the money
     * @throws IllegalArgumentException if the number is not finite, the decimals are below 0, or the label is blank
     */
    public static Money rounded(double amount, int decimals, String currency) {
        Objects.requireNonNull(currency, "currency");
        if (!Double.isFinite(amount)) {
            throw new IllegalArgumentException("amount " + amount + " of money is not a finite number");
        }
        if (decimals < 0) {
            throw new IllegalArgumentException("decimals of an amount " + decimals + " are below 0");
        }
        return new Money(BigDecimal.valueOf(amount).setScale(decimals, RoundingMode.HALF_UP), checkedLabel(currency));
    }

    static String checkedLabel(String currency) {
        if (Objects.requireNonNull(currency, "currency").isBlank()) {
            throw new IllegalArgumentException("the label of a currency is blank; give one, such as EUR");
        }
        return currency;
    }

    /**
     * The number.
     *
     * @return the amount, with its decimals
     */
    public BigDecimal amount() {
        return amount;
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
     * The number as printed, without the currency.
     *
     * @return such as {@code 306170.00}
     */
    public String amountText() {
        return amount.toPlainString();
    }

    /**
     * The sum.
     *
     * @param other money of the same currency
     * @return both together, with the decimals of the one that has more
     * @throws IllegalArgumentException if it is of another currency
     */
    public Money plus(Money other) {
        Objects.requireNonNull(other, "other");
        checkSame(other);
        return new Money(amount.add(other.amount), currency);
    }

    /**
     * The difference.
     *
     * @param other money of the same currency
     * @return this less that, with the decimals of the one that has more
     * @throws IllegalArgumentException if it is of another currency
     */
    public Money minus(Money other) {
        Objects.requireNonNull(other, "other");
        checkSame(other);
        return new Money(amount.subtract(other.amount), currency);
    }

    /**
     * The opposite amount.
     *
     * @return the amount with the other sign
     */
    public Money negate() {
        return new Money(amount.negate(), currency);
    }

    /**
     * The amount without its sign.
     *
     * @return 0 or more
     */
    public Money abs() {
        return new Money(amount.abs(), currency);
    }

    /**
     * The sign of the amount as rounded.
     *
     * @return -1, 0 or 1
     */
    public int signum() {
        return amount.signum();
    }

    private void checkSame(Money other) {
        if (!currency.equals(Objects.requireNonNull(other, "other").currency)) {
            throw new IllegalArgumentException(dontGoTogether(currency, other.currency));
        }
    }

    static String dontGoTogether(String one, String other) {
        return "amounts in " + one + " and in " + other + " don't go together; bring them to one currency first";
    }

    /**
     * Which is more.
     *
     * @param other money of the same currency
     * @return below 0, 0 or above 0 as this is less than, equal to or more than that
     * @throws IllegalArgumentException if it is of another currency
     */
    @Override
    public int compareTo(Money other) {
        Objects.requireNonNull(other, "other");
        checkSame(other);
        return amount.compareTo(other.amount);
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Money that && currency.equals(that.currency) && amount.compareTo(that.amount) == 0;
    }

    @Override
    public int hashCode() {
        return Objects.hash(amount.stripTrailingZeros(), currency);
    }

    /**
     * Amount and currency.
     *
     * @return such as {@code 306170.00 EUR}
     */
    @Override
    public String toString() {
        return amountText() + " " + currency;
    }
}
