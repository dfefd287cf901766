package org.beefyield.price;

import org.beefyield.BeefyieldException;

/**
 * A price list has no price for mince as fat as it turned out. Which price is asked for is known only when the mince is
 * made, so that no {@link Valuer} could refuse the list before.
 */
public final class MissingPriceException extends BeefyieldException {
    private static final long serialVersionUID = 1;

    /** Fat content of the mince, fraction by weight. */
    private final double fat;

    MissingPriceException(String message, double fat) {
        super(message);
        this.fat = fat;
    }

    /**
     * Fat content of the mince.
     *
     * @return fraction by weight
     */
    public double fat() {
        return fat;
    }
}
