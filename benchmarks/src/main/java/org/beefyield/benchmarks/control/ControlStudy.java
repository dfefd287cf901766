package org.beefyield.benchmarks.control;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.IntFunction;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.beefyield.benchmarks.control.Finding.Drawn;
import org.beefyield.stats.Bounds;
import org.beefyield.stats.ControlBoard;
import org.beefyield.stats.ControlChart;
import org.beefyield.stats.RandomEffects;
import org.beefyield.stats.Sample;

/**
 * Draws runs of 60 to 200 carcasses whose product scatters by 24 g per kg between carcasses and by an SD from run to run, and
 * counts how well that SD is found, how often boards raise false alarms and how soon they find a shift: {@code
 * benchmarks/control}. All figures are made up but for that of carcasses, which is that of published trials for one product.
 */
public final class ControlStudy {
    /** Of the committed results. */
    static final long SEED = 20_261_129;

    /** Runs that the SD is estimated from. */
    static final List<Integer> RUNS = List.of(5, 10, 20, 40);

    /** SDs from run to run, g per kg; within a run of 60 to 200 carcasses it is 1.7 to 3.1. */
    static final List<Double> RUN_SDS = List.of(2.0, 5.0);

    /** Shifts in SDs of a run: from run to run and within it, of 130 carcasses. */
    static final List<Double> SHIFTS = List.of(1.0, 1.5, 2.0, 3.0, 4.0);

    static final int PRODUCTS = 10;
    /** Runs of a season after the baseline. */
    static final int SEASON = 60;

    static final double RUNS_PER_FALSE_ALARM = 200;
    /** Runs between the baseline and a shift, and after a shift that ends. */
    private static final int AROUND = 20;

    private static final int STAYS = 40;
    private static final int WEEK = 5;
    private static final double SD_OF_CARCASSES = 24;
    private static final double SURE = 0.9;

    private ControlStudy() {}

    /**
     * Runs all of it.
     *
     * @param args the file of results
     * @throws IOException if it can't be written
     */
    public static void main(String[] args) throws IOException {
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        List<Finding> all = new ArrayList<>();
        for (double sd : RUN_SDS) {
            for (int runs : RUNS) {
                print(out, all, estimates(sd, runs, 20_000, SEED));
            }
        }
        for (double sd : RUN_SDS) {
            for (int runs : RUNS.subList(1, RUNS.size())) {
                print(out, all, falseAlarms(sd, runs, 1500, SEED));
            }
        }
        for (int runs : RUNS.subList(1, RUNS.size())) {
            print(out, all, takenAsKnown(5, runs, 20_000, SEED));
        }
        for (double shift : SHIFTS) {
            for (int runs : RUNS.subList(1, RUNS.size())) {
                print(out, all, shifts(shift, STAYS, runs, 2000, SEED));
                print(out, all, shifts(shift, WEEK, runs, 2000, SEED));
            }
        }
        Files.writeString(Path.of(args[0]), Finding.csv("runs", all));
    }

    private static void print(PrintStream out, List<Finding> all, List<Finding> some) {
        some.forEach(out::println);
        all.addAll(some);
    }

    /** Values of runs, and their known variances. */
    private static final class Season {
        private final double[] values;
        private final double[] variances;

        Season(double[] values, double[] variances) {
            this.values = values;
            this.variances = variances;
        }

        static Season of(int runs, double runSd, SplittableRandom random) {
            double[] values = new double[runs];
            double[] variances = new double[runs];
            for (int run = 0; run < runs; run++) {
                int carcasses = random.nextInt(60, 201);
                variances[run] = SD_OF_CARCASSES * SD_OF_CARCASSES / carcasses;
                values[run] = random.nextGaussian() * Math.hypot(runSd, Math.sqrt(variances[run]));
            }
            return new Season(values, variances);
        }

        Season first(int runs) {
            return new Season(Arrays.copyOf(values, runs), Arrays.copyOf(variances, runs));
        }

        RandomEffects effects() {
            return RandomEffects.of(values, variances);
        }
    }

    /** Something of each draw, each with a generator of its own. */
    private static <T> List<T> each(Drawn drawn, IntFunction<T> of) {
        return IntStream.range(0, drawn.draws()).parallel().mapToObj(of).toList();
    }

    private static SplittableRandom random(Drawn drawn, int draw) {
        return new SplittableRandom(
                drawn.seed() + 1_000_003L * draw + 31L * drawn.situation().hashCode() + drawn.runs());
    }

    private static <T> double mean(List<T> draws, ToDoubleFunction<T> of) {
        return draws.stream().mapToDouble(of).average().orElseThrow();
    }

    private static double[] sorted(List<Double> values) {
        return values.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    }

    private record Estimate(double sd, boolean sdHeld, boolean meanHeld, boolean nextHeld) {}

    private static boolean holds(Bounds bounds, double value) {
        return bounds.low() <= value && value <= bounds.high();
    }

    /** The SD from run to run as it is estimated, and how often what is stated holds. */
    static List<Finding> estimates(double runSd, int runs, int draws, long seed) {
        Drawn drawn = new Drawn("run SD " + runSd, runs, draws, seed);
        List<Estimate> estimates = each(drawn, draw -> {
            Season season = Season.of(runs + 1, runSd, random(drawn, draw));
            RandomEffects effects = season.first(runs).effects();
            return new Estimate(
                    effects.sd(),
                    holds(effects.varianceBounds(SURE), runSd * runSd),
                    holds(effects.meanBounds(SURE), 0),
                    holds(effects.next(season.variances[runs], SURE), season.values[runs]));
        });
        double[] sds = sorted(estimates.stream().map(Estimate::sd).toList());
        return List.of(
                Finding.plain(drawn, "run SD: 5 % below", Sample.quantile(sds, 0.05)),
                Finding.plain(drawn, "run SD: median", Sample.quantile(sds, 0.5)),
                Finding.plain(drawn, "run SD: 95 % below", Sample.quantile(sds, 0.95)),
                Finding.part(drawn, "run SD of 0", mean(estimates, one -> one.sd() == 0 ? 1 : 0), Double.NaN),
                Finding.part(drawn, "run SD within its bounds", mean(estimates, one -> one.sdHeld() ? 1 : 0), SURE),
                Finding.part(drawn, "mean within its bounds", mean(estimates, one -> one.meanHeld() ? 1 : 0), SURE),
                Finding.part(
                        drawn, "next run within its bounds", mean(estimates, one -> one.nextHeld() ? 1 : 0), SURE));
    }

    /** Seasons without any fault. */
    static List<Finding> falseAlarms(double runSd, int runs, int draws, long seed) {
        Drawn drawn = new Drawn("no fault and run SD " + runSd, runs, draws, seed);
        ControlBoard board = ControlBoard.of(PRODUCTS, runs, RUNS_PER_FALSE_ALARM);
        List<Integer> alarms = each(drawn, draw -> {
            SplittableRandom random = random(drawn, draw);
            int count = 0;
            for (int product = 0; product < PRODUCTS; product++) {
                Season season = Season.of(runs + SEASON, runSd, random);
                count += board.chart(season.values, season.variances).alarms().size();
            }
            return count;
        });
        double rate = mean(alarms, count -> (double) count / SEASON);
        double error = Math.sqrt(mean(alarms, count -> Math.pow((double) count / SEASON - rate, 2)) / draws);
        return List.of(
                Finding.part(
                        drawn,
                        "seasons with a false alarm",
                        mean(alarms, count -> count > 0 ? 1 : 0),
                        board.chanceOfFalseAlarm(SEASON)),
                new Finding(
                        drawn.situation(),
                        runs,
                        "false alarms in a run of the board",
                        rate,
                        error,
                        1 / RUNS_PER_FALSE_ALARM,
                        draws,
                        seed));
    }

    /** What it would be with the same limits if the mean and the SD of the baseline were taken for the true ones. */
    static List<Finding> takenAsKnown(double runSd, int runs, int draws, long seed) {
        Drawn drawn =
                new Drawn("no fault and run SD " + runSd + " with the baseline taken as known", runs, draws, seed);
        ControlBoard board = ControlBoard.of(PRODUCTS, runs, RUNS_PER_FALSE_ALARM);
        List<Boolean> alarmed = each(drawn, draw -> {
            SplittableRandom random = random(drawn, draw);
            boolean any = false;
            for (int product = 0; product < PRODUCTS; product++) {
                Season season = Season.of(runs + SEASON, runSd, random);
                RandomEffects known = season.first(runs).effects();
                double high = 0;
                double low = 0;
                for (int run = runs; run < runs + SEASON; run++) {
                    double score =
                            (season.values[run] - known.mean()) / Math.sqrt(season.variances[run] + known.variance());
                    high = Math.max(0, high + score - 0.5);
                    low = Math.max(0, low - score - 0.5);
                    any |= Math.max(high, low) >= board.sumLimit() || Math.abs(score) > board.singleLimit();
                }
            }
            return any;
        });
        return List.of(Finding.part(
                drawn,
                "seasons with a false alarm",
                mean(alarmed, any -> any ? 1 : 0),
                board.chanceOfFalseAlarm(SEASON)));
    }

    /**
     * What became of a fault.
     *
     * @param delay runs from the first with the fault to the one in which it was noticed, both counted; infinite if it wasn't
     * @param late how many runs after the first with the fault the alarm says that it began
     * @param before alarms of the runs before it
     * @param after alarms of the runs after it, but for one that goes on
     */
    private record Found(double delay, double late, int before, int after) {}

    /** Seasons in which one product lies too low for so many runs. */
    static List<Finding> shifts(double shift, int lasting, int runs, int draws, long seed) {
        Drawn drawn = new Drawn(shift + " SD too low for " + lasting + " runs", runs, draws, seed);
        ControlBoard board = ControlBoard.of(PRODUCTS, runs, RUNS_PER_FALSE_ALARM);
        double runSd = 5;
        double off = shift * Math.hypot(runSd, SD_OF_CARCASSES / Math.sqrt(130));
        int from = runs + AROUND;
        int to = from + lasting;
        List<Found> found = each(drawn, draw -> {
            Season season = Season.of(to + AROUND, runSd, random(drawn, draw));
            for (int run = from; run < to; run++) {
                season.values[run] -= off;
            }
            List<ControlChart.Alarm> alarms =
                    board.chart(season.values, season.variances).alarms();
            return alarms.stream()
                    .filter(alarm -> !alarm.high() && alarm.until() >= from && alarm.noticed() < to)
                    .findFirst()
                    .map(alarm -> new Found(
                            Math.max(alarm.noticed(), from) + 1.0 - from,
                            alarm.since() - from,
                            count(alarms, 0, from),
                            count(alarms, to, to + AROUND)))
                    .orElseGet(() -> new Found(
                            Double.POSITIVE_INFINITY, 0, count(alarms, 0, from), count(alarms, to, to + AROUND)));
        });
        double[] delays = sorted(found.stream().map(Found::delay).toList());
        double[] late = sorted(found.stream()
                .filter(one -> one.delay() < Double.POSITIVE_INFINITY)
                .map(Found::late)
                .toList());
        List<Finding> findings = new ArrayList<>();
        for (int within : lasting > WEEK ? new int[] {WEEK, 2 * WEEK, lasting} : new int[] {lasting}) {
            findings.add(Finding.part(
                    drawn,
                    "noticed within " + within + " runs",
                    mean(found, one -> one.delay() <= within ? 1 : 0),
                    Double.NaN));
        }
        if (delays[draws / 2] < Double.POSITIVE_INFINITY) {
            findings.add(Finding.plain(drawn, "runs until noticed: median", delays[draws / 2]));
        }
        findings.add(
                Finding.plain(drawn, "runs by which its stated begin is late: median", Sample.quantile(late, 0.5)));
        findings.add(Finding.plain(
                drawn, "false alarms in a run of the product before", mean(found, Found::before) / AROUND));
        findings.add(
                Finding.plain(drawn, "false alarms in a run of the product after", mean(found, Found::after) / AROUND));
        return findings;
    }

    private static int count(List<ControlChart.Alarm> alarms, int from, int to) {
        return (int) alarms.stream()
                .filter(alarm -> alarm.noticed() >= from && alarm.noticed() < to)
                .count();
    }
}
