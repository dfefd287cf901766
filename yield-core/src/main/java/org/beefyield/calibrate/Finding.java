package org.beefyield.calibrate;

import java.util.Objects;

/**
 * Something about the trials or the fit that a person should look at. Nothing is changed because of it.
 *
 * @param kind what it is about
 * @param breakdown the breakdown, such as {@code carcass} or {@code striploin, steaks}
 * @param message what was found, in words
 */
public record Finding(Kind kind, String breakdown, String message) {
    /** Checks that nothing is missing. */
    public Finding {
        Objects.requireNonNull(breakdown, "breakdown");
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(message, "message");
    }

    /** What findings are about. */
    public enum Kind {
        /** A breakdown that was not fitted and stays as in the prior table. */
        NOT_FITTED,
        /** Cuts weighed as a group. */
        GROUP,
        /** Few rows for the number of terms. */
        FEW_ROWS,
        /** Carcasses that weigh heavily in the fit. */
        LEVERAGE,
        /** A carcass whose cuts lie beyond chance. */
        OUTLIER,
        /** A day whose cuts lie beyond chance. */
        DAY,
        /** Two columns that look swapped. */
        SWAPPED,
        /** A column that is far from what the prior table expects, as if it were in another unit or of one side only. */
        FAR,
        /** A category that differs from the others in another way than the prior table says. */
        CATEGORY,
        /** Days that differ more, or less, than the prior table states. */
        RUNS,
        /** Trials that pass their balance because they are unlike the others. */
        SELECTED,
        /** A weight that many trials left blank. */
        BLANK,
        /** A breakdown that halls differ in otherwise than the prior table thinks possible, so that the trials alone count. */
        CONTRADICTED,
        /** What was not fitted although trials were there for it, and why. */
        GIVEN_UP
    }

    /**
     * One line.
     *
     * @return breakdown and message
     */
    @Override
    public String toString() {
        return "breakdown of " + breakdown + ": " + message;
    }
}
