package org.beefyield.finish;

/**
 * What an animal has cost from today to a day.
 *
 * @param feedKg feed eaten, kg
 * @param feed what that cost
 * @param yardage yardage
 * @param interest interest on what it would bring today
 * @param place what the next animal would have earned on its place
 * @param deaths what is lost of its payment by the chance that it dies
 */
public record HeldCost(double feedKg, double feed, double yardage, double interest, double place, double deaths) {
    /**
     * All of it.
     *
     * @return amount in the currency of the payment
     */
    public double total() {
        return feed + yardage + interest + place + deaths;
    }
}
