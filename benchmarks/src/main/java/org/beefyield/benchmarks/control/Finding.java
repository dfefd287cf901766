package org.beefyield.benchmarks.control;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A figure of the study.
 *
 * @param situation what was drawn
 * @param runs runs that the SD from run to run is estimated from, or carcasses of each run
 * @param figure what was counted
 * @param value what came out
 * @param standardError its standard error by chance, NaN where none is told
 * @param stated what the library states for it, NaN where it states nothing
 * @param draws how many were drawn
 * @param seed of the generator
 */
public record Finding(
        String situation,
        int runs,
        String figure,
        double value,
        double standardError,
        double stated,
        int draws,
        long seed) {
    /** A part of all draws. */
    public static Finding part(Drawn of, String figure, double part, double stated) {
        return new Finding(
                of.situation(),
                of.runs(),
                figure,
                part,
                Math.sqrt(part * (1 - part) / of.draws()),
                stated,
                of.draws(),
                of.seed());
    }

    /** A figure without an error of its own. */
    static Finding plain(Drawn of, String figure, double value) {
        return new Finding(of.situation(), of.runs(), figure, value, Double.NaN, Double.NaN, of.draws(), of.seed());
    }

    /** What was drawn, and how often. */
    public record Drawn(String situation, int runs, int draws, long seed) {}

    private static String cell(double value) {
        return Double.isNaN(value) ? "" : String.format(Locale.ROOT, "%.4f", value);
    }

    @Override
    public String toString() {
        return String.join(
                ",",
                situation,
                String.valueOf(runs),
                figure,
                cell(value),
                cell(standardError),
                cell(stated),
                String.valueOf(draws),
                String.valueOf(seed));
    }

    /**
     * The file of results.
     *
     * @param second what the second column is called
     */
    public static String csv(String second, List<Finding> findings) {
        String head = "situation," + second + ",figure,value,standard_error,stated,draws,seed";
        return Stream.concat(Stream.of(head), findings.stream().map(Finding::toString))
                .collect(Collectors.joining("\n", "", "\n"));
    }
}
