package org.beefyield.pay;

import java.util.Objects;
import org.beefyield.price.Money;

/**
 * What carcasses are worth less what was paid for them.
 *
 * @param carcasses number of carcasses
 * @param coldWeightKg their cold weight, kg
 * @param value what they are worth, not rounded
 * @param paid what was paid for them
 * @param currency label of the currency
 * @param decimals decimals of its amounts
 */
public record Margin(long carcasses, double coldWeightKg, double value, double paid, String currency, int decimals) {
    /**
     * Checks the figures.
     *
     * @throws IllegalArgumentException if a count, weight or number of decimals is below 0, or a figure is not finite
     */
    public Margin {
        Objects.requireNonNull(currency, "currency");
        if (carcasses < 0 || !(coldWeightKg >= 0 && coldWeightKg < Double.POSITIVE_INFINITY) || decimals < 0) {
            throw new IllegalArgumentException("a margin of " + carcasses + " carcasses of " + coldWeightKg + " kg to "
                    + decimals + " decimals: each is a finite number of 0 or more");
        }
        if (!Double.isFinite(value) || !Double.isFinite(paid)) {
            throw new IllegalArgumentException(
                    "value " + value + " and payment " + paid + " of a margin are not both finite numbers");
        }
    }

    /**
     * What they are worth as money.
     *
     * @return value rounded half up
     */
    public Money valueMoney() {
        return Money.rounded(value, decimals, currency);
    }

    /**
     * What was paid for them as money.
     *
     * @return payment rounded half up
     */
    public Money paidMoney() {
        return Money.rounded(paid, decimals, currency);
    }

    /**
     * The margin as money.
     *
     * @return {@link #valueMoney()} less {@link #paidMoney()}, below 0 for a loss
     */
    public Money money() {
        return valueMoney().minus(paidMoney());
    }

    /**
     * The margin.
     *
     * @return value less what was paid, below 0 for a loss
     */
    public double amount() {
        return value - paid;
    }

    /**
     * The margin on a kg.
     *
     * @return amount per kg of cold weight
     */
    public double perKg() {
        return amount() / coldWeightKg;
    }

    /**
     * What was paid for a kg.
     *
     * @return amount per kg of cold weight
     */
    public double paidPerKg() {
        return paid / coldWeightKg;
    }

    /**
     * The price at which nothing is gained or lost: what a kg is worth.
     *
     * @return price per kg of cold weight
     */
    public double breakEvenPerKg() {
        return value / coldWeightKg;
    }

    Margin plus(Margin other) {
        return new Margin(
                carcasses + other.carcasses,
                coldWeightKg + other.coldWeightKg,
                value + other.value,
                paid + other.paid,
                currency,
                decimals);
    }
}
