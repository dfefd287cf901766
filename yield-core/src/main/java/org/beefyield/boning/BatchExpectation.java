package org.beefyield.boning;

import java.util.Objects;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * How much of a product the carcasses of a batch are expected to give.
 *
 * @param hall name of the hall, or empty
 * @param batch name of the batch
 * @param product code of the product
 * @param kg expected, kg
 * @param sdKg SD of that expectation for this batch, kg
 */
public record BatchExpectation(String hall, String batch, String product, double kg, double sdKg) {
    /**
     * Checks the figures.
     *
     * @throws IllegalArgumentException if the expected kg are below 0, or the SD isn't above 0, or one isn't finite
     */
    public BatchExpectation {
        Objects.requireNonNull(hall, "hall");
        Objects.requireNonNull(batch, "batch");
        Objects.requireNonNull(product, "product");
        Checks.notNegative("expected, kg", kg);
        if (!(sdKg > 0 && Double.isFinite(sdKg))) {
            throw new IllegalArgumentException(
                    "SD of what is expected, kg: " + Numbers.exact(sdKg) + " is not a finite number above 0");
        }
    }
}
