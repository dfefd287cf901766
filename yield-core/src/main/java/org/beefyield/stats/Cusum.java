package org.beefyield.stats;

/**
 * Cumulative sums of scores on both sides, each score less a reference and never below 0, so that many small shifts in one
 * direction add up (Page 1954, Biometrika 41, 100 to 115).
 */
final class Cusum {
    private final double reference;
    private double high;
    private double low;
    /** Scores in a row, up to the last, over which each sum has been above 0. */
    private int highRun;

    private int lowRun;

    /**
     * Starts at 0.
     *
     * @param reference what is taken off each score, half of the shift to find
     */
    Cusum(double reference) {
        this.reference = reference;
    }

    void add(double score) {
        high = Math.max(0, high + score - reference);
        highRun = high > 0 ? highRun + 1 : 0;
        low = Math.max(0, low - score - reference);
        lowRun = low > 0 ? lowRun + 1 : 0;
    }

    void restart() {
        high = 0;
        low = 0;
        highRun = 0;
        lowRun = 0;
    }

    double high() {
        return high;
    }

    double low() {
        return low;
    }

    /** Over how many scores the larger sum has grown. */
    int length() {
        return high > low ? highRun : lowRun;
    }
}
