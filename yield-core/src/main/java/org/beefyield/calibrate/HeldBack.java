package org.beefyield.calibrate;

import java.util.Objects;
import org.beefyield.text.Numbers;

/**
 * A breakdown that doesn't go all the way to what runs say, for a table with all of it wouldn't keep its promises.
 *
 * @param breakdown the breakdown, such as {@code carcass} or {@code striploin, steaks}
 * @param bend part of the way from a hall that differs by so many g/kg everywhere to one that differs in proportion
 * @param part part of the move that was made
 * @param problem the first thing that the table didn't hold
 */
public record HeldBack(String breakdown, double bend, double part, String problem) {
    /** Checks that nothing is missing. */
    public HeldBack {
        Objects.requireNonNull(breakdown, "breakdown");
        Objects.requireNonNull(problem, "problem");
    }

    /**
     * One line.
     *
     * @return breakdown, what was done and why
     */
    @Override
    public String toString() {
        String done = part == 0
                ? "stays as in the table in use"
                : (part == 1 ? "moved" : "moved by " + Numbers.exact(part) + " of what the runs say")
                        + (bend == 1
                                ? " in proportion"
                                : ", bent " + Numbers.exact(bend) + " of the way to proportion");
        return "breakdown of " + breakdown + " " + done + ", for else: " + problem;
    }
}
