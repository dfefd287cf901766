package org.beefyield.boning;

import java.util.Map;
import java.util.Objects;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * A quarter of a trial's carcass, both sides together, that was weighed before and after boning.
 *
 * @param name name, such as {@code forequarter}
 * @param coldKg cold weight before boning, kg
 * @param kg kg by what was weighed of this quarter, named as in {@link Trial#kg()}
 */
public record Quarter(String name, double coldKg, Map<String, Double> kg) {
    /**
     * Checks the weights and copies them.
     *
     * @throws IllegalArgumentException if the cold weight isn't above 0 or another is below 0 or not a number,
     *     or one is beyond any carcass
     */
    public Quarter {
        Checks.noNullIn(kg, "kg");
        Objects.requireNonNull(name, "name");
        if (!(coldKg > 0 && Double.isFinite(coldKg))) {
            throw new IllegalArgumentException(name + ": cold weight " + coldKg + " kg is not above 0");
        }
        CarcassWeights.check(name + ": cold weight", coldKg);
        kg = checked(name, kg);
    }

    /** Weights, each looked at, in an order that stays. */
    static Map<String, Double> checked(String whose, Map<String, Double> kg) {
        kg.forEach((cut, weight) -> {
            if (!(weight >= 0 && Double.isFinite(weight))) {
                throw new IllegalArgumentException(
                        whose + ": " + cut + " weighs " + weight + " kg; a weight is 0 or more");
            }
            if (weight > CarcassWeights.HEAVIEST_KG) {
                throw new IllegalArgumentException(whose + ": " + cut + " weighs " + Numbers.exact(weight)
                        + " kg; a weight is at most " + Numbers.exact(CarcassWeights.HEAVIEST_KG) + " kg");
            }
        });
        return FewWeights.copyOf(kg);
    }
}
