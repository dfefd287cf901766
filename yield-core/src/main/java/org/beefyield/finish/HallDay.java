package org.beefyield.finish;

import java.util.Objects;
import java.util.OptionalDouble;
import org.beefyield.estimate.Interval;

/**
 * What an animal's carcass is to the hall on a day: that which is expected of it, through the table.
 *
 * @param value what it is worth at the hall's prices
 * @param valueInterval the interval that holds that with 90 %: table, weight and grades err; prices as given
 * @param margin value less payment, a head that is sold
 * @param saleableShare saleable meat, fraction of the cold weight
 * @param fatTrimKg fat trim, kg
 * @param extraFatTrimKg fat trim more than at today's fat class and the day's weight, kg
 * @param extraFatFeedKg feed that this extra fat took, kg, its share of all feed if a kg of fat takes
 *     {@value org.beefyield.feedback.Overfat#USUAL_FEED_RATIO} times that of a kg of meat; empty if no feed is counted or nothing
 *     was gained
 */
public record HallDay(
        double value,
        Interval valueInterval,
        double margin,
        double saleableShare,
        double fatTrimKg,
        double extraFatTrimKg,
        OptionalDouble extraFatFeedKg) {
    /** Checks that nothing is missing. */
    public HallDay {
        Objects.requireNonNull(valueInterval, "valueInterval");
        Objects.requireNonNull(extraFatFeedKg, "extraFatFeedKg");
    }
}
