package org.beefyield;

import org.jspecify.annotations.Nullable;

/**
 * What the library throws when it can't go on for a reason that lies in the data: a carcass that is refused, a table or file
 * that can't be used, a price that is missing. Each subclass holds what was found, as data. One catch of this type is enough
 * for all of them. A call that is wrong in itself, such as one for a cut that no table has, is an {@link
 * IllegalArgumentException} as everywhere in Java, and never one of these.
 */
public abstract class BeefyieldException extends RuntimeException {
    private static final long serialVersionUID = 1;

    /**
     * An exception that says what was found.
     *
     * @param message what was found, and what would be valid
     */
    protected BeefyieldException(String message) {
        super(message);
    }

    /**
     * An exception that says what was found and what led to it.
     *
     * @param message what was found, and what would be valid
     * @param cause what led to it, or null
     */
    protected BeefyieldException(String message, @Nullable Throwable cause) {
        super(message, cause);
    }
}
