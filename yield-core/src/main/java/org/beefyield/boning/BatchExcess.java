package org.beefyield.boning;

import java.util.Objects;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * A batch from which more of a product was packed than its carcasses can be thought to give: mislabelled boxes, or meat from
 * elsewhere.
 *
 * @param expected what was expected of it
 * @param carcasses how many carcasses have a piece in the batch
 * @param boxedKg what was packed of the product, kg
 */
public record BatchExcess(BatchExpectation expected, int carcasses, double boxedKg) {
    /**
     * Checks the figures.
     *
     * @throws IllegalArgumentException if the weight is below 0 or not finite
     */
    public BatchExcess {
        Objects.requireNonNull(expected, "expected");
        Checks.notNegative("boxed, kg", boxedKg);
    }

    /**
     * How much more it is.
     *
     * @return kg
     */
    public double excessKg() {
        return boxedKg - expected.kg();
    }

    /**
     * How much more it is, in SDs of what was expected.
     *
     * @return a multiple of the SD
     */
    public double sds() {
        return excessKg() / expected.sdKg();
    }

    /**
     * The excess in words.
     *
     * @return such as {@code batch B7 of Mereside: 61.8 kg of fillet boxed, 52.4 kg expected of its 8 carcasses: 9.4 kg or 6.9 SDs
     *     (1.36 kg each) too much}
     */
    @Override
    public String toString() {
        return BatchMass.name(expected.hall(), expected.batch()) + ": " + Numbers.fixed(boxedKg, 1) + " kg of "
                + expected.product() + " boxed, " + Numbers.fixed(expected.kg(), 1) + " kg expected of its " + carcasses
                + (carcasses == 1 ? " carcass: " : " carcasses: ") + Numbers.fixed(excessKg(), 1) + " kg or "
                + Numbers.fixed(sds(), 1) + " SDs (" + Numbers.fixed(expected.sdKg(), 2) + " kg each) too much";
    }
}
