package org.beefyield.data.picture;

import java.time.LocalDate;
import java.util.List;
import java.util.Objects;

/**
 * What is expected of a day.
 *
 * @param date day
 * @param quantiles quantiles of the figure, ascending, in its unit
 */
public record FanDay(LocalDate date, List<Double> quantiles) {
    /**
     * Checks the quantiles.
     *
     * @throws IllegalArgumentException if one is not a finite number or they don't ascend
     */
    public FanDay {
        Objects.requireNonNull(date, "date");
        quantiles = List.copyOf(quantiles);
        for (int i = 0; i < quantiles.size(); i++) {
            if (!Double.isFinite(quantiles.get(i))) {
                throw new IllegalArgumentException("quantile " + quantiles.get(i) + " of " + date
                        + " is not a finite number; leave out a day that has none");
            }
            if (i > 0 && quantiles.get(i) < quantiles.get(i - 1)) {
                throw new IllegalArgumentException("quantiles " + quantiles + " of " + date + " don't ascend");
            }
        }
    }
}
