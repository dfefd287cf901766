package org.beefyield.estimate;

/** A carcass for which a table gives no estimate: its category isn't served, or it lies outside the allowed range. */
public final class RefusedCarcassException extends IllegalArgumentException {
    private static final long serialVersionUID = 1;

    RefusedCarcassException(String message) {
        super(message);
    }
}
