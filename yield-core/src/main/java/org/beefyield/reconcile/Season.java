package org.beefyield.reconcile;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.beefyield.boning.BatchExcess;
import org.beefyield.boning.BatchExpectation;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Product;
import org.beefyield.boning.RunBalance;
import org.beefyield.boning.Trace;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.frame.Frame;
import org.beefyield.price.Money;
import org.beefyield.price.Valuer;
import org.beefyield.stats.Bounds;
import org.beefyield.stats.ControlBoard;
import org.beefyield.stats.ControlChart;
import org.beefyield.stats.FalseDiscovery;
import org.beefyield.stats.RandomEffects;
import org.beefyield.text.Blocks;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/**
 * The runs of one hall one after the other: which group of products was off, since when and by how much money, and how far runs of
 * the hall differ anyway. A run is judged by what the runs before it let expect: neither the hall's mean difference from the
 * table nor its SD from run to run is taken for known, and what carcasses and lots make in each run is. Runs that don't balance are
 * named and neither judged nor learnt from. Immutable.
 */
public final class Season implements ShownInBlocks {
    /** Runs that are learnt from before one can be in an alarm, where nothing else is said. */
    public static final int BASELINE = 20;

    /** Runs of the whole board to one false alarm, where nothing else is said: a year of weekly runs and more. */
    public static final double RUNS_PER_FALSE_ALARM = 100;

    /** Seasons of which one has a batch that is named by chance. */
    static final int SEASONS_PER_FALSE_NAME = 20;

    /** Of the groups that are called out in a run, the part that may be so by chance. */
    static final double FALSE_PART = 0.05;

    private static final double G_PER_KG = 1000;
    static final double SURE = 0.9;

    private final List<BoningRun> boned;
    private final Reconciler reconciler;
    private final List<Reconciliation> runs;
    private final List<Reconciliation> judged;
    private final List<RunBalance> unbalanced;
    private final List<String> groups;
    private final ControlBoard board;
    private final Map<String, ControlChart> charts;

    private Season(
            List<BoningRun> boned,
            Reconciler reconciler,
            List<Reconciliation> runs,
            int baseline,
            double runsPerFalseAlarm) {
        this.boned = boned;
        this.reconciler = reconciler;
        this.runs = runs;
        this.judged = runs.stream()
                .filter(run -> run.balance().map(RunBalance::holds).orElse(true))
                .toList();
        this.unbalanced = runs.stream()
                .flatMap(run -> run.balance().stream())
                .filter(balance -> !balance.holds())
                .toList();
        this.groups = judged.isEmpty()
                ? List.of()
                : judged.get(0).lines().stream()
                        .map(GroupLine::group)
                        .filter(this::isSureInEveryRun)
                        .toList();
        this.board = ControlBoard.of(Math.max(1, groups.size()), baseline, runsPerFalseAlarm);
        this.charts = new LinkedHashMap<>();
        groups.forEach(group -> charts.put(group, board.chart(values(group), variances(group))));
    }

    private boolean isSureInEveryRun(String group) {
        return judged.stream().allMatch(run -> withinSd(run, group) > 0);
    }

    /**
     * A season in kg, with a baseline of {@value #BASELINE} runs and one false alarm in {@value #RUNS_PER_FALSE_ALARM} runs.
     *
     * @param runs runs of one hall, in any order
     * @param estimator how carcasses are estimated and cut
     * @param products every product that their boxes name, and which cuts of the table's last level go into it
     * @return the season
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for a carcass
     * @throws IllegalArgumentException if there is no run, they are of two halls, two are of one day, or one can't be reconciled
     */
    public static Season of(List<BoningRun> runs, YieldEstimator estimator, List<Product> products) {
        return of(runs, Reconciler.of(estimator, products, runs), BASELINE, RUNS_PER_FALSE_ALARM);
    }

    /**
     * A season in kg and money, with a baseline of {@value #BASELINE} runs and one false alarm in {@value #RUNS_PER_FALSE_ALARM}
     * runs.
     *
     * @param runs runs of one hall, in any order
     * @param valuer how carcasses are estimated, cut and valued
     * @param products every product that their boxes name, and which cuts of the valued level go into it
     * @return the season
     * @throws org.beefyield.estimate.RefusedCarcassException if the table gives no estimate for a carcass
     * @throws IllegalArgumentException as {@link #of(List, YieldEstimator, List)}
     */
    public static Season of(List<BoningRun> runs, Valuer valuer, List<Product> products) {
        return of(runs, Reconciler.of(valuer, products, runs), BASELINE, RUNS_PER_FALSE_ALARM);
    }

    private static Season of(List<BoningRun> runs, Reconciler reconciler, int baseline, double runsPerFalseAlarm) {
        List<BoningRun> byDay = byDay(runs);
        return new Season(
                byDay,
                reconciler,
                byDay.stream().map(run -> reconciler.reconcile(run, null)).toList(),
                baseline,
                runsPerFalseAlarm);
    }

    /** Runs of one hall in the order of their days. */
    static List<BoningRun> byDay(List<BoningRun> runs) {
        if (runs.isEmpty()) {
            throw new IllegalArgumentException("a season has no run; it has one or more");
        }
        List<BoningRun> byDay =
                runs.stream().sorted(Comparator.comparing(BoningRun::day)).toList();
        for (int i = 1; i < byDay.size(); i++) {
            if (!byDay.get(i).hall().equals(byDay.get(0).hall())) {
                throw new IllegalArgumentException("a season is of one hall; these runs are of "
                        + byDay.stream()
                                .map(BoningRun::hall)
                                .distinct()
                                .sorted()
                                .collect(Collectors.joining(", ")));
            }
            if (byDay.get(i).day().equals(byDay.get(i - 1).day())) {
                throw new IllegalArgumentException(
                        "two runs are " + byDay.get(i).name() + "; a hall has one a day");
            }
        }
        return byDay;
    }

    /**
     * The same runs judged by other limits.
     *
     * @param baseline runs that are learnt from before one can be in an alarm, 3 or more
     * @param runsPerFalseAlarm runs of the whole board in which one false alarm is expected if nothing ever changes, 10 or more
     * @return a season
     * @throws IllegalArgumentException if a number is less than that
     */
    public Season judgedBy(int baseline, double runsPerFalseAlarm) {
        return new Season(boned, reconciler, runs, baseline, runsPerFalseAlarm);
    }

    /**
     * Name of the hall.
     *
     * @return the name, empty if it has none
     */
    public String hall() {
        return boned.get(0).hall();
    }

    /**
     * Every run.
     *
     * @return in the order of their days
     */
    public List<Reconciliation> runs() {
        return runs;
    }

    /**
     * Runs that are judged and learnt from: those that balance.
     *
     * @return in the order of their days; points and alarms of {@link #chart} number them from 0
     */
    public List<Reconciliation> judged() {
        return judged;
    }

    /**
     * Runs that don't balance.
     *
     * @return their balances, in the order of their days
     */
    public List<RunBalance> unbalanced() {
        return unbalanced;
    }

    /**
     * Groups that are watched: those of which it is known how sure they are.
     *
     * @return their names
     */
    public List<String> groups() {
        return groups;
    }

    /**
     * The limits, and the rate of false alarms that they keep.
     *
     * @return the board
     */
    public ControlBoard board() {
        return board;
    }

    /**
     * The charts of a group: weighed less expected, g per kg of intake.
     *
     * @param group name of a watched group
     * @return the charts
     * @throws IllegalArgumentException if no such group is watched
     */
    public ControlChart chart(String group) {
        ControlChart chart = charts.get(Objects.requireNonNull(group, "group"));
        if (chart == null) {
            throw new IllegalArgumentException(
                    "no group \"" + group + "\" is watched; there are " + String.join(", ", groups));
        }
        return chart;
    }

    boolean isWithoutRest() {
        return boned.stream().allMatch(run -> run.rest().isEmpty());
    }

    static double gPerKg(Reconciliation run, String group) {
        return G_PER_KG * run.line(group).differenceKg() / run.intakeKg();
    }

    static double withinSd(Reconciliation run, String group) {
        return G_PER_KG * run.line(group).sdKg(Reconciliation.partsWithinRun()) / run.intakeKg();
    }

    private double[] values(String group) {
        return judged.stream().mapToDouble(run -> gPerKg(run, group)).toArray();
    }

    private double[] variances(String group) {
        return judged.stream()
                .mapToDouble(run -> withinSd(run, group))
                .map(sd -> sd * sd)
                .toArray();
    }

    /**
     * Every alarm: which group, since when, and how much money.
     *
     * @return in the order in which they were noticed
     */
    public List<SeasonAlarm> alarms() {
        List<Map.Entry<Integer, SeasonAlarm>> alarms = new ArrayList<>();
        charts.forEach((group, chart) ->
                chart.alarms().forEach(alarm -> alarms.add(Map.entry(alarm.noticed(), alarm(group, chart, alarm)))));
        alarms.sort(Map.Entry.comparingByKey());
        return alarms.stream().map(Map.Entry::getValue).toList();
    }

    private SeasonAlarm alarm(String group, ControlChart chart, ControlChart.Alarm alarm) {
        double gPerKg = chart.difference(alarm);
        double kg = 0;
        double amount = 0;
        for (int run = alarm.since(); run <= alarm.until(); run++) {
            double ofRun = gPerKg / G_PER_KG * judged.get(run).intakeKg();
            kg += ofRun;
            amount += ofRun * price(judged.get(run), group);
        }
        @Nullable Money none = judged.get(0).none().orElse(null);
        return new SeasonAlarm(
                group,
                alarm.kind(),
                judged.get(alarm.since()).run(),
                judged.get(alarm.noticed()).run(),
                judged.get(alarm.until()).run(),
                alarm.until() - alarm.since() + 1,
                gPerKg,
                kg,
                none == null ? null : Money.rounded(amount, none.amount().scale(), none.currency()));
    }

    /** What a kg of a group brings; a kg of losses takes away what a kg of the intake brings. */
    private static double price(Reconciliation run, String group) {
        return group.equals(Reconciliation.LOSSES)
                ? -run.lines().stream()
                                .mapToDouble(line -> line.figures().price() * line.scaledKg())
                                .sum()
                        / run.intakeKg()
                : run.line(group).figures().price();
    }

    /**
     * Batches from which more of a product was packed than their carcasses can be thought to give: mislabelled boxes, or meat that
     * stands in no intake. Runs that don't balance are looked through too. What the hall's runs were found to return more or less
     * than the table expects is allowed for, if so many are in no alarm as the baseline has; else how halls may differ is. The SD
     * from run to run is the larger of the table's and the one found.
     *
     * @return those that have more, most SDs first; one season in {@value #SEASONS_PER_FALSE_NAME} at most has one that is named by
     *     chance
     */
    public List<BatchExcess> excess() {
        Map<String, RandomEffects> known = learnt();
        known.values().removeIf(effects -> effects.count() < board.baseline());
        List<BatchExpectation> expected = boned.stream()
                .flatMap(run -> reconciler.batches(run, known).stream())
                .toList();
        return expected.isEmpty()
                ? List.of()
                : Trace.of(boned).excess(expected, FalseDiscovery.limit(expected.size(), 1.0 / SEASONS_PER_FALSE_NAME));
    }

    private Map<String, RandomEffects> learnt() {
        Map<String, RandomEffects> learnt = new LinkedHashMap<>();
        groups.forEach(group -> chart(group).learnt().ifPresent(effects -> learnt.put(group, effects)));
        return learnt;
    }

    /**
     * Where weighed less expected of a run lies, 90 % sure, if nothing is wrong: what all other runs in no alarm, earlier and later
     * ones, tell of the hall's mean, of how its runs differ and of how sure both are, and the variance that the run's own carcasses
     * and lots make.
     *
     * @param group name of a watched group
     * @param run number of a judged run, from 0
     * @return the bounds, g per kg of intake; none if fewer than two other runs are in no alarm
     * @throws IllegalArgumentException if no such group is watched
     * @throws IndexOutOfBoundsException if there is no such run
     */
    public Optional<Bounds> bounds(String group, int run) {
        ControlChart chart = chart(group);
        double sd = withinSd(judged.get(Objects.checkIndex(run, judged.size())), group);
        return chart.learntWithout(run).map(effects -> effects.next(sd * sd, SURE));
    }

    /**
     * Groups that are called out in a run among all of its groups: by chance one or more are in one run of twenty at most, if
     * nothing is wrong (Benjamini and Hochberg). Groups that are called out in runs without a fault add up over a season.
     *
     * @param run number of a judged run, from 0
     * @return names of groups; none within the baseline
     * @throws IndexOutOfBoundsException if there is no such run
     */
    public List<String> calledOut(int run) {
        Objects.checkIndex(run, judged.size());
        if (run < board.baseline()) {
            return List.of();
        }
        double[] scores = groups.stream()
                .mapToDouble(group ->
                        chart(group).points().get(run - board.baseline()).score())
                .toArray();
        return Arrays.stream(FalseDiscovery.ofScores(scores).calledOut(FALSE_PART))
                .mapToObj(groups::get)
                .toList();
    }

    /**
     * How runs of the hall differ in each group, for the table's SD between runs and its own level.
     *
     * @return an effect for each watched group; none of fewer than two runs
     */
    public List<RunEffect> effects() {
        Map<String, RandomEffects> learnt = learnt();
        double all =
                learnt.values().stream().mapToDouble(RandomEffects::variance).sum();
        List<RunEffect> effects = new ArrayList<>();
        learnt.forEach((group, one) -> {
            double variance = one.variance();
            Bounds bounds = one.varianceBounds(SURE);
            effects.add(new RunEffect(
                    group,
                    one.count(),
                    one.mean(),
                    one.meanBounds(SURE),
                    one.sd(),
                    new Bounds(Math.sqrt(bounds.low()), Math.sqrt(bounds.high())),
                    Math.sqrt(Math.min(variance, all - variance))));
        });
        return List.copyOf(effects);
    }

    private SeasonText text() {
        return new SeasonText(this);
    }

    /**
     * Every alarm.
     *
     * @return a table without a total
     */
    public TextTable alarmTable() {
        return text().alarmTable();
    }

    /**
     * A run against what the hall's runs in no alarm let expect of it: its own kg by the table, more or less by their mean, with the
     * interval of {@link #bounds}.
     *
     * @param run number of a judged run, from 0
     * @return a table without a total, a row for each watched group; its SDs are those of {@link ControlChart.Point#score}
     * @throws IndexOutOfBoundsException if there is no such run
     */
    public TextTable runTable(int run) {
        return text().runTable(Objects.checkIndex(run, judged.size()));
    }

    /**
     * How runs of the hall differ.
     *
     * @return a table without a total
     */
    public TextTable effectTable() {
        return text().effectTable();
    }

    /**
     * The season as a frame, a row for each run, those too that don't balance, and each line.
     *
     * @return {@code run}; {@code group}; {@code balances}, {@code yes} or {@code no}; {@code intake}, {@code scaled} and
     *     {@code weighed} in kg; {@code difference}, {@code SD within the run}, {@code 90 % interval low} and {@code high} of
     *     {@link #bounds} in g per kg of intake; {@code score}, {@code sum high} and {@code sum low}, missing within the
     *     baseline and for runs that don't balance; {@code alarm}, {@code high}, {@code low} or empty; and with prices
     *     {@code difference worth} in the currency
     */
    public Frame toFrame() {
        return text().frame();
    }

    @Override
    public Blocks blocks() {
        return text().blocks();
    }

    /**
     * One line.
     *
     * @return hall, number of runs and alarms
     */
    @Override
    public String toString() {
        return text().sentence();
    }

    /** What a point of a judged run is, or empty within the baseline. */
    Optional<ControlChart.Point> point(String group, int run) {
        return run < board.baseline()
                ? Optional.empty()
                : Optional.of(chart(group).points().get(run - board.baseline()));
    }
}
