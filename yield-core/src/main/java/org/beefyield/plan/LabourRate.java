package org.beefyield.plan;

import java.util.Objects;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.text.Numbers;

/**
 * How fast a hall cuts a cut up in a way.
 *
 * @param cut code of the cut that is broken down; {@code *} for all that have no rate of their own
 * @param way the way; {@code *} for every way that has no rate of its own
 * @param kgPerHour kg of the cut that a person cuts up in an hour, above 0
 * @param mostHours hours at most for what goes at this rate, infinite for no limit of its own
 */
public record LabourRate(String cut, String way, double kgPerHour, double mostHours) {
    /** Stands for every cut or way. */
    public static final String ANY = BreakdownRow.ANY;

    /**
     * Checks the figures.
     *
     * @throws IllegalArgumentException if a name is blank, the rate is not a finite number above 0, or the hours are below 0
     */
    public LabourRate {
        Objects.requireNonNull(cut, "cut");
        Objects.requireNonNull(way, "way");
        Order.notBlank("cut of a labour rate", cut);
        Order.notBlank("way of a labour rate", way);
        if (!(kgPerHour > 0 && kgPerHour < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(Numbers.brief(kgPerHour) + " kg an hour of " + cut + " as " + way
                    + " is not a finite number above 0");
        }
        if (!(mostHours >= 0)) {
            throw new IllegalArgumentException(
                    Numbers.brief(mostHours) + " hours for " + cut + " as " + way + " are not 0 or more");
        }
    }

    /**
     * A rate without a limit of hours of its own.
     *
     * @param cut code of the cut
     * @param way the way
     * @param kgPerHour kg of the cut that a person cuts up in an hour, above 0
     * @return the rate
     * @throws IllegalArgumentException if it is not a finite number above 0
     */
    public static LabourRate of(String cut, String way, double kgPerHour) {
        return new LabourRate(cut, way, kgPerHour, Double.POSITIVE_INFINITY);
    }

    /** How closely it names a cut and way; below 0 if it doesn't. */
    int closeness(String ofCut, String inWay) {
        boolean takesCut = cut.equals(ofCut) || cut.equals(ANY);
        boolean takesWay = way.equals(inWay) || way.equals(ANY);
        return takesCut && takesWay ? (cut.equals(ANY) ? 0 : 2) + (way.equals(ANY) ? 0 : 1) : -1;
    }
}
