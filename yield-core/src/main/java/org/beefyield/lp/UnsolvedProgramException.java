package org.beefyield.lp;

import java.util.Objects;
import org.beefyield.BeefyieldException;
import org.jspecify.annotations.Nullable;

/** A solver ended without an answer, or with one that isn't true. */
public final class UnsolvedProgramException extends BeefyieldException {
    private static final long serialVersionUID = 1;

    /**
     * Says why there is no solution to be used.
     *
     * @param message what the solver said, or what is wrong with it
     */
    public UnsolvedProgramException(String message) {
        super(Objects.requireNonNull(message, "message"));
    }

    /**
     * Says why there is no solution to be used.
     *
     * @param message what the solver said, or what is wrong with it
     * @param cause what led to it, or null
     */
    public UnsolvedProgramException(String message, @Nullable Throwable cause) {
        super(Objects.requireNonNull(message, "message"), cause);
    }
}
