package org.beefyield.json;

import java.math.BigDecimal;
import java.util.List;
import java.util.Objects;
import org.beefyield.estimate.Interval;
import org.beefyield.price.Value;
import org.beefyield.price.ValueLine;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * What a carcass or lot is worth at a price list.
 *
 * @param currency label of the currency
 * @param money the value, rounded to the currency's decimals
 * @param amount the value, not rounded
 * @param perKg value of a kg of cold weight
 * @param perHead value of a carcass, of a lot the mean
 * @param level name of the level of cutting that is valued
 * @param sd SD of the value from the uncertainty of the yields
 * @param probability with which the interval holds the value, prices as given
 * @param low lower end of that interval
 * @param high upper end of that interval
 * @param lines what adds up to the amount
 */
public record ValueJson(
        String currency,
        BigDecimal money,
        double amount,
        double perKg,
        double perHead,
        String level,
        double sd,
        double probability,
        double low,
        double high,
        List<Line> lines) {
    /**
     * A cut, or other income or cost.
     *
     * @param name name for people
     * @param cut code of the cut, or null for other income or cost
     * @param quantity kg of the cut, or head or kg that the other line counts
     * @param price amount for a kg or head
     * @param amount quantity times price, not rounded
     * @param note what to know of the price, or null
     */
    public record Line(
            String name,
            @Nullable String cut,
            double quantity,
            double price,
            double amount,
            @Nullable String note) {
        /** Refuses what is missing. */
        public Line {
            Objects.requireNonNull(name, "name");
        }

        private static Line of(ValueLine line) {
            return new Line(
                    line.name(),
                    line.code().isEmpty() ? null : line.code(),
                    line.quantity(),
                    line.price(),
                    line.amount(),
                    line.note().isEmpty() ? null : line.note());
        }
    }

    /** Refuses what is missing and copies the lines. */
    public ValueJson {
        Objects.requireNonNull(currency, "currency");
        Objects.requireNonNull(money, "money");
        Objects.requireNonNull(level, "level");
        Checks.noNullIn(lines, "lines");
        lines = List.copyOf(lines);
    }

    /**
     * The form of a value.
     *
     * @param value value
     * @param probability probability of the interval, above 0 and below 1
     * @return its form
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public static ValueJson of(Value value, double probability) {
        Objects.requireNonNull(value, "value");
        Interval interval = value.interval(probability);
        return new ValueJson(
                value.currency(),
                value.money().amount(),
                value.amount(),
                value.perKg(),
                value.perHead(),
                value.level(),
                value.sd(),
                probability,
                interval.low(),
                interval.high(),
                value.lines().stream().map(Line::of).toList());
    }
}
