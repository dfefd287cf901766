package org.beefyield.lp;

import java.util.Objects;
import java.util.Optional;

/**
 * What it is worth to move the bound of a row. Where several bounds meet in the maximum, moving it up is worth something else
 * than moving it down, so there are two prices, never one.
 *
 * @param row name of the row
 * @param bound the bound that is moved
 * @param up what moving it up is worth; nothing if that leaves no solution
 * @param down what moving it down is worth; nothing if that leaves no solution
 */
public record ShadowPrice(String row, double bound, Optional<Direction> up, Optional<Direction> down) {
    /** Checks that all are there. */
    public ShadowPrice {
        Objects.requireNonNull(row, "row");
        Objects.requireNonNull(up, "up");
        Objects.requireNonNull(down, "down");
    }

    /**
     * What it is worth to move a bound in one direction.
     *
     * @param price how much the maximum changes with each unit by which the bound goes up; going down it changes by as much the
     *     other way
     * @param until the bound as far as the price holds exactly
     * @param further whether the price may hold further, because that is as far as was looked
     */
    public record Direction(double price, double until, boolean further) {}
}
