package org.beefyield.market;

import java.util.Objects;
import org.beefyield.text.Numbers;

/**
 * The weights of a piece that fit a pack.
 *
 * @param cut code of a cut that is sold by the piece, such as {@code striploin}
 * @param way the way of cutting it up that needs the window, such as {@code steaks}; {@code *} for every way
 * @param fromKg lightest piece that fits, kg, inclusive, 0 for no limit
 * @param toKg heaviest piece that fits, kg, inclusive, infinity for no limit
 * @param otherwise the way in which the cut goes if a piece doesn't fit, such as {@code joints}; empty if nothing is said
 */
public record SizeWindow(String cut, String way, double fromKg, double toKg, String otherwise) {
    /** Stands for every way. */
    public static final String EVERY_WAY = "*";

    /**
     * Checks the limits.
     *
     * @throws IllegalArgumentException if the limits are not ascending or below 0, or the way out is the way itself
     */
    public SizeWindow {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(way, "way");
        Objects.requireNonNull(otherwise, "otherwise");
        if (!(fromKg >= 0 && fromKg <= toKg && fromKg < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("pieces from " + Numbers.brief(fromKg) + " to " + Numbers.brief(toKg)
                    + " kg: two ascending weights of 0 kg or more are needed");
        }
        if (!otherwise.isEmpty() && (otherwise.equals(way) || way.equals(EVERY_WAY))) {
            throw new IllegalArgumentException("a piece of " + cut + " that doesn't fit as " + way + " can't go as "
                    + otherwise + "; name a way that needs the window and another one without it");
        }
    }

    /**
     * Whether the window is asked for when its cut goes in a way.
     *
     * @param cutAs name of the way
     * @return true if so
     */
    public boolean isFor(String cutAs) {
        Objects.requireNonNull(cutAs, "cutAs");
        return way.equals(EVERY_WAY) || way.equals(cutAs);
    }

    /**
     * The window in words.
     *
     * @return such as {@code striploin as steaks, pieces of 5 to 10 kg}
     */
    @Override
    public String toString() {
        return words(cut);
    }

    /**
     * The window with another name for its cut.
     *
     * @param name such as the name that a table has for it
     * @return such as {@code Striploin as steaks, pieces of 5 to 10 kg}
     */
    public String words(String name) {
        Objects.requireNonNull(name, "name");
        String sizes = fromKg > 0
                ? Double.isInfinite(toKg)
                        ? "from " + Numbers.brief(fromKg) + " kg"
                        : "of " + Numbers.brief(fromKg) + " to " + Numbers.brief(toKg) + " kg"
                : Double.isInfinite(toKg) ? "of any weight" : "up to " + Numbers.brief(toKg) + " kg";
        return name + (way.equals(EVERY_WAY) ? "" : " as " + way) + ", pieces " + sizes;
    }
}
