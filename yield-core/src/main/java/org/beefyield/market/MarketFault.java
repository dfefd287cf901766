package org.beefyield.market;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * One reason why a carcass is not in a market specification.
 *
 * @param limit the limit that it misses
 * @param miss how it misses it
 * @param distance how far it is off, in the limit's unit (kg, points of the scale, months), 0 for a grade on the edge that
 *     counts to the wrong side ({@link org.beefyield.carcass.EdgeRule}); empty where nothing
 *     can be measured, as with a category
 * @param text the reason in words, such as {@code conformation O= is one third below O+}; it
 *     counts from grade to grade, the distance to the edge of what the limit covers
 */
public record MarketFault(Limit limit, Miss miss, OptionalDouble distance, String text) {
    /** Checks that nothing is missing. */
    public MarketFault {
        Objects.requireNonNull(limit, "limit");
        Objects.requireNonNull(miss, "miss");
        Objects.requireNonNull(distance, "distance");
        Objects.requireNonNull(text, "text");
    }

    /** How a limit is missed. */
    public enum Miss {
        /** Too heavy, too good a shape, too fat or too old. */
        ABOVE,
        /** Too light, too poor a shape or too lean. */
        BELOW,
        /** Of a sort that isn't taken. */
        NOT_TAKEN,
        /** The carcass doesn't say. */
        NOT_STATED
    }

    /** What a market specification limits. */
    public enum Limit {
        /** Cold or hot carcass weight, kg. */
        WEIGHT("weight"),
        /** Category. */
        CATEGORY("category"),
        /** Conformation, points. */
        CONFORMATION("conformation"),
        /** Fat class, points. */
        FAT_CLASS("fat class"),
        /** Age, months. */
        AGE("age"),
        /** Farm assurance. */
        ASSURANCE("farm assurance");

        private final String words;

        Limit(String words) {
            this.words = words;
        }

        /**
         * The limit in words.
         *
         * @return such as {@code fat class}
         */
        public String words() {
            return words;
        }
    }

    /**
     * The reason in words.
     *
     * @return the text
     */
    @Override
    public String toString() {
        return text;
    }
}
