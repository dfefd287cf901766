package org.beefyield.text;

import java.util.Collection;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** Refuses what callers should not give, by its name: null, wherever it hides, and figures that are none. */
public final class Checks {
    private Checks() {}

    /**
     * Refuses a collection that is null or holds null.
     *
     * @param values what is given
     * @param name its name for the message
     * @throws NullPointerException with that name, and the place of the null
     */
    public static void noNullIn(Collection<?> values, String name) {
        Objects.requireNonNull(values, name);
        int place = 0;
        for (Object value : values) {
            refuse(value, name, place++);
        }
    }

    /**
     * Refuses an array that is null or holds null.
     *
     * @param values what is given
     * @param name its name for the message
     * @throws NullPointerException with that name, and the place of the null
     */
    public static void noNullIn(Object[] values, String name) {
        Objects.requireNonNull(values, name);
        for (int place = 0; place < values.length; place++) {
            refuse(values[place], name, place);
        }
    }

    private static void refuse(@Nullable Object value, String name, int place) {
        if (value == null) {
            throw new NullPointerException(name + " holds null at " + place);
        }
    }

    /**
     * Refuses a map that is null or holds null.
     *
     * @param values what is given
     * @param name its name for the message
     * @throws NullPointerException with that name, and the key of the null
     */
    public static void noNullIn(Map<?, ?> values, String name) {
        Objects.requireNonNull(values, name);
        values.forEach((key, value) -> {
            if (key == null || value == null) {
                throw new NullPointerException(
                        name + (key == null ? " holds null for a key" : " holds null under \"" + key + "\""));
            }
        });
    }

    /**
     * Refuses what is no finite number.
     *
     * @param what name of the figure for the message, with its unit behind a comma
     * @param value the figure
     * @return the figure
     * @throws IllegalArgumentException if it is infinite or not a number
     */
    public static double finite(String what, double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(
                    Objects.requireNonNull(what, "what") + ": " + value + " is not a finite number");
        }
        return value;
    }

    /**
     * Refuses what is no finite number, 0 or more.
     *
     * @param what name of the figure for the message, with its unit behind a comma
     * @param value the figure
     * @return the figure
     * @throws IllegalArgumentException if it is below 0, infinite or not a number
     */
    public static double notNegative(String what, double value) {
        if (!(value >= 0 && Double.isFinite(value))) {
            throw new IllegalArgumentException(Objects.requireNonNull(what, "what") + ": " + Numbers.exact(value)
                    + " is not a finite number, 0 or more");
        }
        return value;
    }

    /**
     * Refuses what is no number, or above a limit.
     *
     * @param what name of the figure for the message, with its unit behind a comma
     * @param value the figure
     * @param most the limit
     * @return the figure
     * @throws IllegalArgumentException if it is above that, infinite or not a number
     */
    public static double atMost(String what, double value, double most) {
        finite(what, value);
        if (value > most) {
            throw new IllegalArgumentException(what + ": " + Numbers.exact(value) + " is above " + Numbers.exact(most)
                    + ", the most there can be");
        }
        return value;
    }
}
