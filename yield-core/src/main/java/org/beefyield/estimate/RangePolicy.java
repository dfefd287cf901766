package org.beefyield.estimate;

/** What to do with a carcass outside the range that has data behind it; outside the allowed range it is refused. */
public enum RangePolicy {
    /** Estimate it and note the distance. */
    NOTE_OUTSIDE_FITTED,
    /** Refuse it. */
    REFUSE_OUTSIDE_FITTED
}
