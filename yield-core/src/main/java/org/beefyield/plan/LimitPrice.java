package org.beefyield.plan;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What it is worth to move a limit of a day.
 *
 * @param what which limit
 * @param order number of the order, empty for hours
 * @param limit the limit as it is, kg or hours
 * @param more what one kg or hour more is worth; empty if the day can't be planned then
 * @param less what one kg or hour less is worth; empty if the day can't be planned then
 */
public record LimitPrice(What what, Optional<String> order, double limit, OptionalDouble more, OptionalDouble less) {
    /** Checks that nothing is missing. */
    public LimitPrice {
        Objects.requireNonNull(what, "what");
        Objects.requireNonNull(order, "order");
        Objects.requireNonNull(more, "more");
        Objects.requireNonNull(less, "less");
    }

    /** A limit of a day. */
    public enum What {
        /** What has to be delivered of an order, kg. */
        LEAST("least"),
        /** What is taken of an order at most, kg. */
        MOST("most"),
        /** What an order takes exactly, kg. */
        AMOUNT("amount"),
        /** Hours of all people together. */
        HOURS("hours");

        private final String word;

        What(String word) {
            this.word = word;
        }

        /**
         * The limit in a word.
         *
         * @return such as {@code least}
         */
        public String word() {
            return word;
        }
    }
}
