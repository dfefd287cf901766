package org.beefyield.pay;

/**
 * What carcasses are worth less what was paid for them.
 *
 * @param carcasses number of carcasses
 * @param coldWeightKg their cold weight, kg
 * @param value what they are worth, not rounded
 * @param paid what was paid for them
 */
public record Margin(long carcasses, double coldWeightKg, double value, double paid) {
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
                carcasses + other.carcasses, coldWeightKg + other.coldWeightKg, value + other.value, paid + other.paid);
    }
}
