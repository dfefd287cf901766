package org.beefyield.lp;

/** How the search for a maximum ended. */
public enum SolutionStatus {
    /** There is a maximum, and the solution has it. */
    OPTIMAL,
    /** No values meet all bounds and rows. */
    INFEASIBLE,
    /** The objective can be as high as one likes. */
    UNBOUNDED
}
