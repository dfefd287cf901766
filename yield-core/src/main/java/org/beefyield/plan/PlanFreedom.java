package org.beefyield.plan;

/** What a plan is free to choose. */
public enum PlanFreedom {
    /** Nothing: every carcass is cut by the estimator's cutting specification; what comes of it goes to orders. */
    FIXED("one cutting specification for all"),
    /** For each carcass one of the table's cutting specifications. */
    CARCASS("a cutting specification for each carcass"),
    /** For each carcass the way of each of its cuts, whatever its pieces weigh. */
    PRIMAL("a way for each cut of each carcass"),
    /** For each carcass the way of each of its cuts, pieces of different weights in different ways. */
    PIECE("a way for each cut of each carcass, by the weight of the piece");

    private final String words;

    PlanFreedom(String words) {
        this.words = words;
    }

    /**
     * What is chosen, in words.
     *
     * @return such as {@code a way for each cut of each carcass}
     */
    public String words() {
        return words;
    }
}
