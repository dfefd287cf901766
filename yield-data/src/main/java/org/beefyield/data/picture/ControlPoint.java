package org.beefyield.data.picture;

import java.time.LocalDate;
import java.util.Objects;

/**
 * A point of a series under control.
 *
 * @param date day
 * @param value the figure on that day, in the unit of the series; NaN where there is none
 * @param low lower control limit, in the same unit; NaN for none
 * @param high upper control limit, not below the lower one; NaN for none
 * @param isAlarm whether it calls for somebody to look, by whatever rule
 */
public record ControlPoint(LocalDate date, double value, double low, double high, boolean isAlarm) {
    /**
     * Checks the figures.
     *
     * @throws IllegalArgumentException if one is infinite, the limits are the wrong way round, or there is an alarm without a
     *     value
     */
    public ControlPoint {
        Objects.requireNonNull(date, "date");
        if (Double.isInfinite(value) || Double.isInfinite(low) || Double.isInfinite(high)) {
            throw new IllegalArgumentException("value " + value + ", limits " + low + " and " + high + " of " + date
                    + ": each is a finite number, or NaN for none");
        }
        if (low > high) {
            throw new IllegalArgumentException(
                    "limits " + low + " and " + high + " of " + date + ": the lower one goes first");
        }
        if (isAlarm && Double.isNaN(value)) {
            throw new IllegalArgumentException("alarm of " + date + " without a value; an alarm is about a figure");
        }
    }
}
