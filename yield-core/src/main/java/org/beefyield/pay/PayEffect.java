package org.beefyield.pay;

/**
 * What a cause did to carcasses beside the hall's average: to their worth, and to what was paid for them.
 *
 * @param worth how much more they are worth for it, below 0 for less
 * @param paid how much more was paid for it, below 0 for less
 */
public record PayEffect(double worth, double paid) {
    /** A cause that did nothing. */
    static final PayEffect NONE = new PayEffect(0, 0);

    /**
     * Checks the figures.
     *
     * @throws IllegalArgumentException if one is not finite
     */
    public PayEffect {
        if (!Double.isFinite(worth) || !Double.isFinite(paid)) {
            throw new IllegalArgumentException(
                    "worth " + worth + " and payment " + paid + " of a cause are not both finite numbers");
        }
    }

    /**
     * What the cause did to the margin.
     *
     * @return worth less payment
     */
    public double amount() {
        return worth - paid;
    }

    /**
     * Whether a loss comes from the price more than from the carcasses: the grid pays for what they are not worth.
     *
     * @return true if more was paid than less worth is there; false also if there is no loss
     */
    public boolean isOfPrice() {
        return amount() < 0 && paid > -worth;
    }

    PayEffect plus(PayEffect other) {
        return new PayEffect(worth + other.worth, paid + other.paid);
    }

    PayEffect times(double factor) {
        return new PayEffect(worth * factor, paid * factor);
    }
}
