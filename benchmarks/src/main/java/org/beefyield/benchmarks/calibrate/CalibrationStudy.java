package org.beefyield.benchmarks.calibrate;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.random.RandomGenerator;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.benchmarks.control.Finding;
import org.beefyield.benchmarks.control.Finding.Drawn;
import org.beefyield.benchmarks.coverage.Nature;
import org.beefyield.benchmarks.coverage.Outcome;
import org.beefyield.benchmarks.coverage.World;
import org.beefyield.boning.Trial;
import org.beefyield.boning.TrialSet;
import org.beefyield.calibrate.BreakdownFit;
import org.beefyield.calibrate.Calibrated;
import org.beefyield.calibrate.Calibration;
import org.beefyield.calibrate.Finding.Kind;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.ScaleError;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.TableDefinition;

/**
 * Draws halls, calibrates the table to trials of theirs and counts how near it comes, how often its intervals hold and what it finds
 * wrong with trials in which nothing or something is: {@code benchmarks/calibration}.
 */
public final class CalibrationStudy {
    /** Of the committed results. */
    static final long SEED = 20_261_129;

    static final String TABLE = "halls that end with a table";
    static final String MORE_VARIANCE = "halls with more variance of meat of 40 on a new day than before";
    static final String FALSE_ALARM = "halls with a false alarm";
    static final String NOTICED = "noticed";

    /** Of what a person should look at, what says that something is wrong. */
    static final Set<Kind> ALARMS =
            EnumSet.of(Kind.DAY, Kind.OUTLIER, Kind.CATEGORY, Kind.FAR, Kind.SWAPPED, Kind.RUNS);

    private static final String LEVEL = "tissue";
    private static final double G_PER_KG = 1000;
    /** A standard error of what isn't fitted, g per kg. */
    private static final double NOISE = 1e-6;

    private static final int GRADES = 8;
    private static final int CARCASSES = 8;
    /** By size, how many. */
    private static final Map<Integer, Integer> LOTS = new TreeMap<>(Map.of(40, 3, 400, 1));

    private CalibrationStudy() {}

    /**
     * Runs all of it.
     *
     * @param args the file of results, and how many halls are drawn for each scenario, for each fault and for each fault in
     *     primals
     * @throws IOException if it can't be written
     */
    public static void main(String[] args) throws IOException {
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        List<Finding> all = new ArrayList<>();
        for (Scenario scenario : Scenario.all()) {
            print(out, all, run(scenario, Integer.parseInt(args[1]), SEED, Interval.SHOWN_PROBABILITY));
        }
        for (Fault fault : Fault.values()) {
            print(out, all, run(fault, Integer.parseInt(args[fault.isOfPrimals() ? 3 : 2]), SEED));
        }
        Files.writeString(Path.of(args[0]), Finding.csv("trials", all));
    }

    private static void print(PrintStream out, List<Finding> all, List<Finding> some) {
        some.forEach(out::println);
        all.addAll(some);
    }

    private static List<Tally> halls(int count, long seed, Function<RandomGenerator, Tally> see) {
        return IntStream.range(0, count)
                .parallel()
                .mapToObj(hall -> see.apply(new SplittableRandom(seed + 1_000_003L * hall)))
                .toList();
    }

    /**
     * Halls of a scenario.
     *
     * @param sure probability of the intervals
     */
    static List<Finding> run(Scenario scenario, int halls, long seed, double sure) {
        World world = scenario.world();
        YieldEstimator before = YieldEstimator.of(YieldTable.of(scenario.declared()));
        return Tally.findings(
                halls(
                        halls,
                        seed + 31L * scenario.trials() + scenario.name().hashCode(),
                        random -> see(scenario, world, before, random, sure)),
                new Drawn(scenario.name(), scenario.trials(), halls, seed));
    }

    private static Tally see(
            Scenario scenario, World world, YieldEstimator before, RandomGenerator random, double sure) {
        Tally tally = new Tally();
        Hall hall = Hall.draw(scenario.truth(), world, scenario.categories(), random);
        List<Trial> trials = hall.trials(
                scenario.trials(), scenario.days(), scenario.categories(), LEVEL, TissueTable.CUTS.subList(0, 3));
        TrialSet set = TrialSet.of(before.table(), trials);
        Calibrated calibrated;
        YieldTable table;
        try {
            calibrated = Calibration.of(set).fit();
            table = calibrated.table("hall", "1");
        } catch (RuntimeException e) {
            // that there is always a table is what is counted
            tally.add(TABLE, false);
            return tally;
        }
        tally.add(TABLE, true);
        learnt(tally, calibrated);
        alarms(tally, calibrated);
        YieldEstimator now = YieldEstimator.of(table);
        calibrated.fits().forEach(fit -> coefficients(tally, scenario, hall, trials, fit, sure));
        expectations(tally, scenario, hall, LeastSquares.of(set), before, now, random, sure);
        for (int i = 0; i < CARCASSES; i++) {
            boned(tally, "carcass", hall, now, Hall.carcasses(1, scenario.categories(), random), sure);
        }
        LOTS.forEach((size, count) -> {
            for (int i = 0; i < count; i++) {
                boned(tally, "lot of " + size, hall, now, Hall.carcasses(size, scenario.categories(), random), sure);
            }
        });
        List<Carcass> lot = Hall.carcasses(40, scenario.categories(), random);
        Figure meat = Figure.cut(LEVEL, TissueTable.CUTS.get(0));
        tally.add(
                MORE_VARIANCE,
                now.estimateLot(lot).sd(meat) > before.estimateLot(lot).sd(meat));
        return tally;
    }

    private static void learnt(Tally tally, Calibrated calibrated) {
        String taken = calibrated.fits().stream().map(BreakdownFit::fitted).collect(Collectors.joining());
        boolean isBent = taken.contains("proportion");
        tally.add("learnt all terms", !isBent && taken.startsWith("all terms"));
        tally.add("learnt less", !isBent && !taken.isEmpty() && !taken.startsWith("all terms"));
        tally.add("learnt in proportion or part of the way to it", isBent);
        tally.add("learnt nothing", taken.isEmpty());
    }

    private static void alarms(Tally tally, Calibrated calibrated) {
        Set<Kind> kinds = EnumSet.noneOf(Kind.class);
        calibrated.findings().forEach(finding -> kinds.add(finding.kind()));
        kinds.retainAll(ALARMS);
        tally.add(FALSE_ALARM, !kinds.isEmpty());
        ALARMS.forEach(kind -> tally.add(FALSE_ALARM + ": " + kind, kinds.contains(kind)));
    }

    private static void coefficients(
            Tally tally, Scenario scenario, Hall hall, List<Trial> trials, BreakdownFit fit, double sure) {
        List<String> columns = scenario.truth().coefficientColumns();
        for (int child = 0; child < TissueTable.CUTS.size(); child++) {
            String cut = TissueTable.CUTS.get(child);
            for (int column = 0; column < 3; column++) {
                double error = fit.standardError(cut, columns.get(column));
                if (error < NOISE) {
                    continue;
                }
                double truth = 0;
                for (Trial trial : trials) {
                    truth += hall.coefficient(trial.carcass().category(), child, column) / trials.size();
                }
                double found = fit.coefficient(cut, columns.get(column));
                boolean holds = Interval.normal(found, error, sure).contains(truth);
                tally.add(Tally.HELD + (column == 0 ? "level" : "slope"), holds);
                tally.add(Tally.HELD + (column == 0 ? "level" : "slope") + ": " + cut, holds);
            }
        }
    }

    private static void expectations(
            Tally tally,
            Scenario scenario,
            Hall hall,
            LeastSquares alone,
            YieldEstimator before,
            YieldEstimator now,
            RandomGenerator random,
            double sure) {
        ReferencePoint reference = scenario.truth().reference();
        List<Carcass> asked = new ArrayList<>(Hall.carcasses(GRADES, scenario.categories(), random));
        asked.add(Carcass.of(
                scenario.categories().get(0),
                Conformation.third((int) reference.conformation()),
                FatClass.third((int) reference.fat()),
                reference.weightKg()));
        YieldEstimator ofExpectation = now.counting(EnumSet.of(UncertaintyPart.HALL, UncertaintyPart.COEFFICIENTS));
        for (Carcass carcass : asked) {
            boolean isLevel = carcass.lot().isEmpty();
            String of = isLevel ? "level" : "expected share";
            YieldEstimate estimate = ofExpectation.estimate(carcass);
            YieldEstimate prior = before.estimate(carcass);
            for (int child = 0; child < TissueTable.CUTS.size(); child++) {
                String cut = TissueTable.CUTS.get(child);
                double truth = hall.expected(carcass, child);
                if (!cut.equals(TissueTable.LOSS)) {
                    tally.add(Tally.ROOT + of + ": before", square(G_PER_KG * prior.share(cut) - truth));
                    tally.add(Tally.ROOT + of + ": now", square(G_PER_KG * estimate.share(cut) - truth));
                    tally.add(Tally.ROOT + of + ": least squares", square(alone.share(carcass, child) - truth));
                }
                if (!isLevel) {
                    boolean holds = estimate.interval(cut, sure).contains(truth * carcass.coldWeightKg() / G_PER_KG);
                    tally.add(Tally.HELD + of, holds);
                    tally.add(Tally.HELD + of + ": " + cut, holds);
                }
            }
        }
    }

    private static double square(double value) {
        return value * value;
    }

    private static void boned(
            Tally tally, String what, Hall hall, YieldEstimator now, List<Carcass> carcasses, double sure) {
        Outcome outcome = hall.bone(carcasses);
        LotEstimate lot = now.estimateLot(carcasses);
        for (String cut : TissueTable.CUTS) {
            boolean holds = lot.interval(Figure.cut(LEVEL, cut), sure).contains(outcome.kg(0, cut));
            tally.add(Tally.HELD + what, holds);
            tally.add(Tally.HELD + what + ": " + cut, holds);
        }
    }

    /** Halls with a fault. */
    static List<Finding> run(Fault fault, int halls, long seed) {
        TableDefinition table = fault.isOfPrimals() ? TissueTable.primals() : TissueTable.tissue();
        TableDefinition truth = fault == Fault.DAYS ? TissueTable.withRuns(4) : table;
        YieldTable prior = YieldTable.of(table);
        World world = new World(
                truth,
                ScaleError.NONE,
                fault.isOfTablesCategories() ? Scenario.ONE_TABLE : Nature.AS_DECLARED,
                List.of(Map.of()));
        String level = truth.levels().get(truth.levels().size() - 1);
        List<String> cuts = truth.cuts().stream()
                .filter(cut -> cut.level().equals(level) && cut.kind() != CutKind.LOSS)
                .map(Cut::code)
                .toList();
        return Tally.findings(
                halls(halls, seed + 31L * fault.words.hashCode(), random -> {
                    Hall hall = Hall.draw(truth, world, fault.categories(), random);
                    List<Trial> trials = hall.trials(fault.trials, fault.days, fault.categories(), level, cuts);
                    return see(fault, TrialSet.of(prior, fault.in(trials)));
                }),
                new Drawn(fault.words, fault.trials, halls, seed));
    }

    private static Tally see(Fault fault, TrialSet trials) {
        Tally tally = new Tally();
        Calibrated calibrated;
        try {
            calibrated = Calibration.of(trials).fit();
            calibrated.table("hall", "1");
            tally.add(TABLE, true);
        } catch (RuntimeException e) {
            tally.add(TABLE, false);
            return tally;
        }
        if (fault.isNone()) {
            alarms(tally, calibrated);
        } else {
            tally.add(NOTICED, fault.isNoticed(calibrated));
        }
        return tally;
    }
}
