package org.beefyield.estimate;

/** The parts of an estimate's uncertainty, kept apart because a lot averages only some of them. */
public enum UncertaintyPart {
    /** Carcasses of one grade and weight differ; independent from carcass to carcass. */
    BETWEEN_CARCASSES,
    /** The table's coefficients have standard errors; the same error in every carcass. */
    COEFFICIENTS,
    /** A grade stands for a part of the scale wider than that behind the table; independent. */
    GRADE_RESOLUTION,
    /** The scale's repeatability; independent. */
    SCALE_REPEATABILITY,
    /** The scale's bias; the same error in every carcass. */
    SCALE_BIAS
}
