package org.beefyield.benchmarks.control;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.benchmarks.control.Finding.Drawn;
import org.beefyield.benchmarks.coverage.Nature;
import org.beefyield.benchmarks.coverage.World;
import org.beefyield.boning.BatchExcess;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Box;
import org.beefyield.boning.Product;
import org.beefyield.boning.Rest;
import org.beefyield.boning.RestKind;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.reconcile.GroupLine;
import org.beefyield.reconcile.Reconciliation;
import org.beefyield.reconcile.Season;
import org.beefyield.stats.ControlChart;
import org.beefyield.stats.Sample;

/**
 * Draws seasons of boning runs with a fault of the trade and counts how soon the library notices it, and what it notices where
 * nothing is wrong: {@code benchmarks/faults}.
 */
public final class FaultStudy {
    /** Of the committed results. */
    static final long SEED = 20_261_129;

    /** Carcasses that a hall bones in a day. */
    static final List<Integer> SIZES = List.of(20, 200);

    /** Runs within which a fault is noticed. */
    static final List<Integer> WITHIN = List.of(5, 10, 30);

    /** False names by batch excess in a season. */
    static final double NAMES = 0.05;

    /** Runs by which a stated begin may be off. */
    private static final int NEAR = 2;

    private static final double G_PER_KG = 1000;

    /** What runs of a hall don't have in common, the run's own error left out. */
    private static final Set<UncertaintyPart> WITHIN_RUN =
            EnumSet.complementOf(EnumSet.of(UncertaintyPart.HALL, UncertaintyPart.COEFFICIENTS, UncertaintyPart.RUN));

    /** Groups by the code of a product: each is one of its own. */
    private static final Map<String, String> NAMES_OF =
            FaultSeason.PRODUCTS.stream().collect(Collectors.toMap(Product::code, Product::name));

    private static final String OWN_HALL = " in a hall that cuts as the table";

    private FaultStudy() {}

    /**
     * Runs all of it.
     *
     * @param args the file of results, and how many seasons of the smaller and of the larger hall are drawn for each fault
     * @throws IOException if it can't be written
     */
    public static void main(String[] args) throws IOException {
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        List<Finding> all = new ArrayList<>();
        for (int i = 0; i < SIZES.size(); i++) {
            int draws = Integer.parseInt(args[1 + i]);
            print(out, all, anyHall(SIZES.get(i), draws, SEED));
            print(out, all, ownHall(SIZES.get(i), draws / 2, SEED));
        }
        Files.writeString(Path.of(args[0]), Finding.csv("carcasses", all));
    }

    private static void print(PrintStream out, List<Finding> all, List<Finding> some) {
        some.forEach(out::println);
        all.addAll(some);
    }

    /**
     * What was seen in a season.
     *
     * @param stated the board's chance of a false alarm after the baseline
     * @param delay runs from the first with the fault to the one in which its group was in an alarm, both counted; infinite if
     *     it wasn't
     * @param late how many runs after the first with the fault that alarm says that it began
     * @param falseAlarms number of other alarms by group
     * @param unbalanced number of runs that don't balance
     * @param firstUnbalanced whether the first run with the fault doesn't balance
     * @param names batches and products that are named for having too much
     * @param named whether batches of the first day are, for what the fault makes too much
     */
    private record Seen(
            double stated,
            double delay,
            int late,
            Map<String, Integer> falseAlarms,
            int unbalanced,
            boolean firstUnbalanced,
            int names,
            boolean named) {
        boolean isNoticed(int within) {
            return delay <= within;
        }

        int allFalseAlarms() {
            return falseAlarms.values().stream().mapToInt(Integer::intValue).sum();
        }
    }

    /**
     * A season without a fault and what it takes to judge the same with one: carcasses are estimated only once.
     *
     * @param drawn how it was drawn
     * @param runs its runs without a fault
     * @param season how they are judged
     */
    record Base(FaultSeason drawn, List<BoningRun> runs, Season season) {
        static Base of(World world, int size, SplittableRandom random) {
            FaultSeason drawn = new FaultSeason(world, size, random);
            List<BoningRun> runs = drawn.withoutFault();
            return new Base(drawn, runs, Season.of(runs, FaultSeason.ESTIMATOR, FaultSeason.PRODUCTS));
        }

        List<BoningRun> with(Fault fault) {
            return IntStream.range(0, FaultSeason.RUNS)
                    .mapToObj(run -> fault.isIn(run) ? drawn.bone(run, fault) : runs.get(run))
                    .toList();
        }
    }

    /** Numbers of the runs that are judged. */
    private static int[] judged(List<BoningRun> runs) {
        return IntStream.range(0, runs.size())
                .filter(run -> runs.get(run).balance().holds())
                .toArray();
    }

    /**
     * The charts of a season with a fault, as {@link Season} draws them: a fault changes what is weighed, not what is
     * expected.
     */
    static Map<String, ControlChart> charts(Season base, List<BoningRun> runs) {
        int[] judged = judged(runs);
        Map<String, ControlChart> charts = new LinkedHashMap<>();
        for (String group : base.groups()) {
            double[] values = new double[judged.length];
            double[] variances = new double[judged.length];
            for (int i = 0; i < judged.length; i++) {
                Reconciliation run = base.runs().get(judged[i]);
                GroupLine line = run.line(group);
                double weighedKg = weighedKg(runs.get(judged[i]), group);
                values[i] = G_PER_KG * (weighedKg - line.scaledKg()) / run.intakeKg();
                double sd = G_PER_KG * line.sdKg(WITHIN_RUN) / run.intakeKg();
                variances[i] = sd * sd;
            }
            charts.put(group, base.board().chart(values, variances));
        }
        return charts;
    }

    private static double weighedKg(BoningRun run, String group) {
        long grams = 0;
        for (Rest rest : run.rest()) {
            boolean ofGroup = rest.kind() == RestKind.FLOOR
                    ? group.equals(Reconciliation.LOSSES)
                    : group.equals(rest.kind() == RestKind.BONE ? "Bone" : "Fat");
            grams += ofGroup ? Math.round(G_PER_KG * rest.kg()) : 0;
        }
        for (Box box : run.boxes()) {
            grams += group.equals(NAMES_OF.get(box.product())) ? Math.round(G_PER_KG * box.netKg()) : 0;
        }
        return (grams + (group.equals(Reconciliation.LOSSES) ? run.balance().unexplainedG() : 0)) / G_PER_KG;
    }

    private static Seen see(Base base, Fault fault) {
        List<BoningRun> runs = base.with(fault);
        int[] judged = judged(runs);
        Map<String, ControlChart> charts = charts(base.season(), runs);
        double delay = Double.POSITIVE_INFINITY;
        int late = 0;
        Map<String, Integer> falseAlarms = new LinkedHashMap<>();
        for (Map.Entry<String, ControlChart> chart : charts.entrySet()) {
            String group = chart.getKey();
            falseAlarms.put(group, 0);
            for (ControlChart.Alarm alarm : chart.getValue().alarms()) {
                int since = judged[alarm.since()];
                int noticed = judged[alarm.noticed()];
                boolean ofFault = fault.moves(group, alarm.high())
                        && since < FaultSeason.FROM + fault.runs
                        && judged[alarm.until()] >= FaultSeason.FROM;
                if (!ofFault || noticed < FaultSeason.FROM) {
                    falseAlarms.merge(group, 1, Integer::sum);
                }
                if (ofFault && group.equals(fault.group) && delay == Double.POSITIVE_INFINITY) {
                    delay = Math.max(noticed, FaultSeason.FROM) + 1.0 - FaultSeason.FROM;
                    late = since - FaultSeason.FROM;
                }
            }
        }
        String first = "R" + (FaultSeason.FROM + 1) + "-";
        List<BatchExcess> excess = fault == Fault.NONE
                ? base.season().excess()
                : fault.tooMuch().isEmpty()
                        ? List.of()
                        : Season.of(runs, FaultSeason.ESTIMATOR, FaultSeason.PRODUCTS)
                                .excess();
        return new Seen(
                base.season()
                        .board()
                        .chanceOfFalseAlarm(
                                FaultSeason.RUNS - base.season().board().baseline()),
                delay,
                late,
                falseAlarms,
                FaultSeason.RUNS - judged.length,
                !runs.get(FaultSeason.FROM).balance().holds(),
                excess.size(),
                excess.stream()
                        .map(BatchExcess::expected)
                        .anyMatch(one ->
                                one.batch().startsWith(first) && fault.tooMuch().contains(one.product())));
    }

    private static <T> List<T> seasons(Nature nature, int size, int draws, long seed, Function<Base, T> see) {
        World world = FaultSeason.world(nature);
        return IntStream.range(0, draws)
                .parallel()
                .mapToObj(draw ->
                        see.apply(Base.of(world, size, new SplittableRandom(seed + 1_000_003L * draw + 31L * size))))
                .toList();
    }

    /** Seasons without and with each fault in halls that differ from the table as it declares. */
    static List<Finding> anyHall(int size, int draws, long seed) {
        List<Map<Fault, Seen>> seen = seasons(FaultSeason.ANY_HALL, size, draws, seed, base -> {
            Map<Fault, Seen> byFault = new EnumMap<>(Fault.class);
            for (Fault fault : Fault.values()) {
                byFault.put(fault, see(base, fault));
            }
            return byFault;
        });
        List<Finding> findings = new ArrayList<>();
        for (Fault fault : Fault.values()) {
            findings.addAll(findings(
                    fault,
                    new Drawn(fault.words, size, draws, seed),
                    seen.stream()
                            .map(byFault -> Objects.requireNonNull(byFault.get(fault)))
                            .toList()));
        }
        return findings;
    }

    /** Seasons without a fault in halls that cut as the table does, if it is right. */
    static List<Finding> ownHall(int size, int draws, long seed) {
        return withoutFault(
                new Drawn(Fault.NONE.words + OWN_HALL, size, draws, seed),
                seasons(FaultSeason.OWN_HALL, size, draws, seed, base -> see(base, Fault.NONE)));
    }

    private static List<Finding> findings(Fault fault, Drawn drawn, List<Seen> seen) {
        if (fault == Fault.NONE) {
            return withoutFault(drawn, seen);
        }
        List<Finding> findings = new ArrayList<>();
        if (!fault.group.isEmpty()) {
            findings.addAll(noticed(fault, drawn, seen));
        }
        findings.add(mean(drawn, "false alarms", seen, Seen::allFalseAlarms, Double.NaN));
        findings.add(part(drawn, "first run doesn't balance", seen, Seen::firstUnbalanced));
        if (!fault.tooMuch().isEmpty()) {
            findings.add(part(drawn, "batch excess on the first day", seen, Seen::named));
        }
        return findings;
    }

    private static List<Finding> withoutFault(Drawn drawn, List<Seen> seen) {
        int runs = FaultSeason.RUNS - Season.BASELINE;
        List<Finding> findings = new ArrayList<>();
        findings.add(Finding.part(
                drawn,
                "seasons with a false alarm",
                average(seen, one -> one.allFalseAlarms() > 0 ? 1 : 0),
                average(seen, Seen::stated)));
        findings.add(mean(drawn, "false alarms", seen, Seen::allFalseAlarms, runs / Season.RUNS_PER_FALSE_ALARM));
        List<String> groups = seen.stream()
                .flatMap(one -> one.falseAlarms().keySet().stream())
                .distinct()
                .toList();
        for (String group : groups) {
            findings.add(mean(
                    drawn,
                    "false alarms: " + group.replace(',', ' ').replace("  ", " "),
                    seen,
                    one -> one.falseAlarms().getOrDefault(group, 0),
                    runs / Season.RUNS_PER_FALSE_ALARM / groups.size()));
        }
        findings.add(mean(drawn, "runs that don't balance", seen, Seen::unbalanced, Double.NaN));
        findings.add(part(drawn, "seasons with a run that doesn't balance", seen, one -> one.unbalanced() > 0));
        findings.add(mean(drawn, "batches named for excess", seen, Seen::names, NAMES));
        return findings;
    }

    private static List<Finding> noticed(Fault fault, Drawn drawn, List<Seen> seen) {
        List<Finding> findings = new ArrayList<>();
        if (!WITHIN.contains(fault.runs)) {
            findings.add(part(drawn, "noticed within " + runs(fault.runs), seen, one -> one.isNoticed(fault.runs)));
        }
        for (int within : WITHIN) {
            findings.add(part(drawn, "noticed within " + runs(within), seen, one -> one.isNoticed(within)));
        }
        double[] delays = seen.stream().mapToDouble(Seen::delay).sorted().toArray();
        if (delays[Math.min(delays.length / 2 + 1, delays.length - 1)] < Double.POSITIVE_INFINITY) {
            findings.add(median(drawn, delays));
        }
        List<Seen> found =
                seen.stream().filter(one -> one.isNoticed(FaultSeason.RUNS)).toList();
        if (!found.isEmpty()) {
            findings.add(part(
                    new Drawn(drawn.situation(), drawn.runs(), found.size(), drawn.seed()),
                    "stated begin within " + runs(NEAR) + " if noticed",
                    found,
                    one -> Math.abs(one.late()) <= NEAR));
        }
        return findings;
    }

    /** The median, and half of the way between those as many places around it as its standard error has. */
    private static Finding median(Drawn drawn, double[] sorted) {
        double half = 0.5 / Math.sqrt(sorted.length);
        double low = Sample.quantile(sorted, Math.max(0, 0.5 - half));
        double high = Sample.quantile(sorted, Math.min(1, 0.5 + half));
        return new Finding(
                drawn.situation(),
                drawn.runs(),
                "runs until noticed: median",
                Sample.quantile(sorted, 0.5),
                high < Double.POSITIVE_INFINITY ? (high - low) / 2 : Double.NaN,
                Double.NaN,
                drawn.draws(),
                drawn.seed());
    }

    private static String runs(int runs) {
        return runs + (runs == 1 ? " run" : " runs");
    }

    private static double average(List<Seen> seen, ToDoubleFunction<Seen> of) {
        return seen.stream().mapToDouble(of).average().orElseThrow();
    }

    private static Finding part(Drawn drawn, String figure, List<Seen> seen, Predicate<Seen> of) {
        return Finding.part(drawn, figure, average(seen, one -> of.test(one) ? 1 : 0), Double.NaN);
    }

    private static Finding mean(Drawn drawn, String figure, List<Seen> seen, ToDoubleFunction<Seen> of, double stated) {
        double[] values = seen.stream().mapToDouble(of).toArray();
        return new Finding(
                drawn.situation(),
                drawn.runs(),
                figure + " in a season",
                Sample.mean(values),
                Sample.sd(values) / Math.sqrt(values.length),
                stated,
                drawn.draws(),
                drawn.seed());
    }
}
