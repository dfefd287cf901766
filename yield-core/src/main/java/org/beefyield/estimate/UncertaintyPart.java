package org.beefyield.estimate;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;
import org.beefyield.table.definition.SharedBy;

/** The parts of an estimate's uncertainty, kept apart because each is common to other carcasses. */
public enum UncertaintyPart {
    /** Carcasses of one grade and weight differ; independent from carcass to carcass. */
    BETWEEN_CARCASSES,
    /** The table's coefficients have standard errors; the same error in every carcass estimated with the table. */
    COEFFICIENTS,
    /** A grade stands for a part of the scale wider than that behind the table; independent. */
    GRADE_RESOLUTION,
    /** Lots differ: type, herd, feeding; one error for all carcasses of a lot. */
    LOT,
    /** Runs of a hall differ: day, team, chiller; one error for all that a hall bones in a run. */
    RUN,
    /** Halls differ: the table was made elsewhere; one error for all that a hall does with the table. */
    HALL,
    /** The scale's repeatability; independent. */
    SCALE_REPEATABILITY,
    /** The scale's bias; one error for all carcasses of a run. */
    SCALE_BIAS;

    private static final Set<UncertaintyPart> ALL = Collections.unmodifiableSet(EnumSet.allOf(UncertaintyPart.class));
    private static final Set<UncertaintyPart> IN_OWN_HALL =
            Collections.unmodifiableSet(EnumSet.complementOf(EnumSet.of(HALL)));
    private static final Set<UncertaintyPart> OF_EXPECTATION =
            Collections.unmodifiableSet(EnumSet.of(COEFFICIENTS, HALL, SCALE_BIAS));

    /**
     * All parts.
     *
     * @return an unmodifiable set
     */
    public static Set<UncertaintyPart> all() {
        return ALL;
    }

    /**
     * The parts that are left inside a hall that cuts as the table does: all but {@link #HALL}.
     *
     * @return an unmodifiable set
     */
    public static Set<UncertaintyPart> inOwnHall() {
        return IN_OWN_HALL;
    }

    /**
     * The parts that an expectation has: what stays however many carcasses, lots and runs there are.
     *
     * @return an unmodifiable set
     */
    public static Set<UncertaintyPart> ofExpectation() {
        return OF_EXPECTATION;
    }

    /** The part that is common to carcasses of a lot, a run or a hall. */
    static UncertaintyPart of(SharedBy by) {
        return switch (by) {
            case LOT -> LOT;
            case RUN -> RUN;
            case HALL -> HALL;
        };
    }
}
