package org.beefyield.benchmarks.coverage;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * How often something held.
 *
 * @param table name of the table
 * @param situation name of the situation
 * @param figure name of the figure
 * @param draws number of draws
 * @param seed seed
 * @param coverage part of the draws that were held
 * @param nominal what was stated
 * @param demand what it should be
 * @param apart by how many SDs what should be far from 0 is, in the set of carcasses where that is least
 * @param sdRatio SD of what was drawn over the SD stated, the mean of all sets
 */
record Result(
        String table,
        String situation,
        String figure,
        int draws,
        long seed,
        double coverage,
        double nominal,
        Situation.Demand demand,
        double apart,
        double sdRatio) {
    /** How far coverage may be off. */
    static final double MARGIN = 0.01;

    /** By how many SDs a figure should be above 0 for a demand to be made. */
    static final double APART = 3;

    private static final String HEADER =
            "table,situation,figure,draws,seed,coverage,standard_error,stated,demanded,least_sds_from_zero,sd_ratio";

    double standardError() {
        return Math.sqrt(coverage * (1 - coverage) / draws);
    }

    /** Whether anything is demanded. */
    boolean isDemanded() {
        return demand != Situation.Demand.NONE && apart >= APART;
    }

    /** Whether coverage is what it should be, if anything is demanded. */
    boolean isAsDemanded() {
        boolean held = Math.abs(coverage - nominal) <= MARGIN;
        return !isDemanded() || held == (demand == Situation.Demand.HELD);
    }

    private String demanded() {
        String range = number(nominal - MARGIN, 2) + " to " + number(nominal + MARGIN, 2);
        if (!isDemanded()) {
            return "";
        }
        return demand == Situation.Demand.HELD ? range : "not " + range;
    }

    private static String number(double value, int places) {
        // an SD over 0 is none
        return !Double.isFinite(value) ? "" : String.format(Locale.ROOT, "%." + places + "f", value);
    }

    private String line() {
        return String.join(
                ",",
                table,
                situation,
                figure,
                Integer.toString(draws),
                Long.toString(seed),
                number(coverage, 4),
                number(standardError(), 4),
                number(nominal, 2),
                demanded(),
                number(apart, 1),
                number(sdRatio, 3));
    }

    static String csv(List<Result> results) {
        List<String> lines = new ArrayList<>();
        lines.add(HEADER);
        results.forEach(result -> lines.add(result.line()));
        return String.join("\n", lines) + "\n";
    }

    @Override
    public String toString() {
        return line();
    }
}
