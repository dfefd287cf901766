package org.beefyield.grid;

/** What errors of breakdowns do to one figure. */
interface Effects {
    /** Breakdowns that the figure hangs on, by number, in the order of their effects. */
    int[] links();

    /** By breakdown of {@link #links}, child by child, what an error of the child does to the figure: polynomials in t. */
    double[][] at(int node);
}
