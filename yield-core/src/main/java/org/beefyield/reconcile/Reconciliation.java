package org.beefyield.reconcile;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.beefyield.boning.RunBalance;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.frame.Frame;
import org.beefyield.price.Money;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/**
 * What a run weighed against what exactly its carcasses should have returned, brought to the intake weight. Products are compared
 * as the smallest groups that can be told apart, those connected by cuts that they share. What neither a product nor
 * weighed bone or fat stands for is the last line, {@value #LOSSES}, so that all lines add up to the cold weight, to the intake weight and to
 * what was weighed, to the gram; and the causes of each difference, in kg and money, to the gram and the last decimal. Immutable.
 */
public final class Reconciliation implements ShownInBlocks {
    /** Name of the line of losses, weighed ones too, of cuts that no product takes, and of every slip of the scale or the pen. */
    public static final String LOSSES = "losses, unweighed";

    /** Name of the line of cuts that only a baseline's way of cutting yields and no product takes. */
    public static final String OTHER_WAY = "only in the baseline's way";

    private static final double G_PER_KG = 1000;

    /** Weights this close add up. */
    private static final double CLOSE_KG = 1e-6;

    private final String run;
    private final double coldWeightKg;
    private final long intakeG;
    private final List<GroupLine> lines;
    private final @Nullable RunBalance balance;
    private final List<String> words;
    private final @Nullable Money none;
    private final boolean baseline;

    /**
     * What was found out about a run.
     *
     * @param run name of the run
     * @param coldWeightKg cold weight of the carcasses
     * @param intakeG weight of the intake that was boned, g
     * @param balance what went in and came out, if known
     * @param words what the intake is, and what the intervals hold
     * @param none nothing in the currency of the prices, or null without prices
     * @param baseline whether there is one
     */
    record Head(
            String run,
            double coldWeightKg,
            long intakeG,
            @Nullable RunBalance balance,
            List<String> words,
            @Nullable Money none,
            boolean baseline) {}

    Reconciliation(Head head, List<GroupFigures> groups, Map<UncertaintyPart, Double> lossesSds) {
        this.run = head.run;
        this.coldWeightKg = head.coldWeightKg;
        this.intakeG = head.intakeG;
        this.balance = head.balance;
        this.words = List.copyOf(head.words);
        this.none = head.none;
        this.baseline = head.baseline;
        List<GroupFigures> all = new ArrayList<>(groups);
        all.add(losses(groups, lossesSds));
        double factor = intakeG / G_PER_KG / coldWeightKg;
        this.lines = all.stream().map(figures -> new GroupLine(figures, factor)).toList();
    }

    private GroupFigures losses(List<GroupFigures> groups, Map<UncertaintyPart, Double> sds) {
        double ofBaseline = coldWeightKg;
        double sameWay = coldWeightKg;
        double expected = coldWeightKg;
        long weighed = intakeG;
        for (GroupFigures group : groups) {
            ofBaseline -= group.baselineKg();
            sameWay -= group.sameWayKg();
            expected -= group.expectedKg();
            weighed -= group.weighedG();
        }
        return new GroupFigures(
                LOSSES,
                left(ofBaseline, "of the baseline"),
                left(sameWay, "cut the baseline's way"),
                left(expected, "expected"),
                weighed / G_PER_KG,
                0,
                0,
                0,
                sds);
    }

    private double left(double kg, String what) {
        if (kg < -CLOSE_KG) {
            throw new IllegalArgumentException(run + ": groups come to " + Numbers.exact(coldWeightKg - kg) + " kg "
                    + what + ", more than the cold weight of " + Numbers.exact(coldWeightKg) + " kg");
        }
        return Math.max(0, kg);
    }

    /**
     * Sets weighed against expected of which the figures are known already.
     *
     * @param run name of the run
     * @param coldWeightKg cold weight of the carcasses, that the expected weights are for, kg
     * @param intakeKg the hall's own weight of what was boned, kg
     * @param groups what was expected and weighed
     * @return the reconciliation, without money
     * @throws IllegalArgumentException if a weight isn't above 0, a name stands twice, or more is expected than the cold weight
     */
    public static Reconciliation of(String run, double coldWeightKg, double intakeKg, List<GroupFigures> groups) {
        return of(run, coldWeightKg, intakeKg, groups, null);
    }

    /**
     * Sets weighed against expected, in kg and money, of which the figures are known already.
     *
     * @param run name of the run
     * @param coldWeightKg cold weight of the carcasses, that the expected weights are for, kg
     * @param intakeKg the hall's own weight of what was boned, kg
     * @param groups what was expected and weighed, with prices
     * @param currency label of their currency
     * @param decimals decimals of amounts, 0 or more
     * @return the reconciliation
     * @throws IllegalArgumentException as {@link #of(String, double, double, List)}, or if the label is blank or the decimals are
     *     below 0
     */
    public static Reconciliation of(
            String run,
            double coldWeightKg,
            double intakeKg,
            List<GroupFigures> groups,
            String currency,
            int decimals) {
        return of(run, coldWeightKg, intakeKg, groups, Money.rounded(0, decimals, currency));
    }

    private static Reconciliation of(
            String run, double coldWeightKg, double intakeKg, List<GroupFigures> groups, @Nullable Money none) {
        Objects.requireNonNull(run, "run");
        Checks.noNullIn(groups, "groups");
        checkWeight(run, "cold weight", coldWeightKg);
        checkWeight(run, "intake weight", intakeKg);
        Set<String> names = new HashSet<>(Set.of(LOSSES));
        for (GroupFigures group : groups) {
            if (!names.add(group.group())) {
                throw new IllegalArgumentException(
                        run + ": two groups are called " + group.group() + "; each has a name of its own");
            }
        }
        boolean baseline = groups.stream()
                .anyMatch(group -> group.baselineKg() != group.expectedKg()
                        || group.sameWayKg() != group.expectedKg()
                        || group.baselinePrice() != group.price());
        Head head = new Head(run, coldWeightKg, Math.round(G_PER_KG * intakeKg), null, List.of(), none, baseline);
        return new Reconciliation(head, groups, Map.of());
    }

    private static void checkWeight(String run, String what, double kg) {
        if (!(kg > 0 && Double.isFinite(kg))) {
            throw new IllegalArgumentException(
                    run + ": " + what + ", kg: " + Numbers.exact(kg) + " is not a finite number above 0");
        }
    }

    /**
     * Name of the run.
     *
     * @return such as {@code Mereside 2026-11-03}
     */
    public String run() {
        return run;
    }

    /**
     * Cold weight of what was boned, by which it was estimated.
     *
     * @return kg
     */
    public double coldWeightKg() {
        return coldWeightKg;
    }

    /**
     * The hall's own weight of what was boned.
     *
     * @return kg, to the gram
     */
    public double intakeKg() {
        return intakeG / G_PER_KG;
    }

    /**
     * What the expected weights are multiplied with.
     *
     * @return intake weight per kg of cold weight
     */
    public double factor() {
        return intakeKg() / coldWeightKg;
    }

    /**
     * What went in and came out, in grams.
     *
     * @return the balance, or empty if the reconciliation wasn't made of a run
     */
    public Optional<RunBalance> balance() {
        return Optional.ofNullable(balance);
    }

    /** Whether mix, way and prices are told apart. */
    boolean hasBaseline() {
        return baseline;
    }

    /** What the intake is, and what the intervals hold. */
    List<String> words() {
        return words;
    }

    Optional<Money> none() {
        return Optional.ofNullable(none);
    }

    /**
     * Every group, {@value #LOSSES} last.
     *
     * @return lines of which expected, scaled and weighed add up to cold weight and intake weight
     */
    public List<GroupLine> lines() {
        return lines;
    }

    /**
     * A group.
     *
     * @param group its name
     * @return its line
     * @throws IllegalArgumentException if there is none of that name
     */
    public GroupLine line(String group) {
        return lines.get(index(group));
    }

    private int index(String group) {
        Objects.requireNonNull(group, "group");
        for (int i = 0; i < lines.size(); i++) {
            if (lines.get(i).group().equals(group)) {
                return i;
            }
        }
        throw new IllegalArgumentException("no group \"" + group + "\"; there are "
                + lines.stream().map(GroupLine::group).collect(Collectors.joining(", ")));
    }

    /**
     * The part of a cause in the difference of a group, in kg.
     *
     * @param group name of the group
     * @param cause cause
     * @return kg, not rounded; those of all groups and causes add up to the intake weight less the cold weight
     * @throws IllegalArgumentException if there is no such group
     */
    public double kg(String group, Cause cause) {
        return line(group).kgFor(Objects.requireNonNull(cause, "cause"));
    }

    /**
     * The part of a cause in the difference of a group, as money.
     *
     * @param group name of the group
     * @param cause cause
     * @return amount as printed: the baseline's value and the causes of a group add up to the value of what was weighed, and a
     *     cause's amounts to {@link #money(Cause)}
     * @throws IllegalArgumentException if there is no such group, or nothing is priced
     */
    public Money money(String group, Cause cause) {
        return text().money(index(group), Objects.requireNonNull(cause, "cause"));
    }

    /**
     * The part of a cause in the whole difference, as money.
     *
     * @param cause cause
     * @return amount as printed; with {@link #baselineMoney()} they add up to {@link #weighedMoney()}
     * @throws IllegalArgumentException if nothing is priced
     */
    public Money money(Cause cause) {
        return text().money(lines.size(), Objects.requireNonNull(cause, "cause"));
    }

    /**
     * What the baseline would have brought, or without one the carcasses by their cold weight.
     *
     * @return amount as printed
     * @throws IllegalArgumentException if nothing is priced
     */
    public Money baselineMoney() {
        return text().baselineMoney();
    }

    /**
     * What was weighed is worth.
     *
     * @return amount as printed
     * @throws IllegalArgumentException if nothing is priced
     */
    public Money weighedMoney() {
        return text().weighedMoney();
    }

    private ReconciliationText text() {
        return new ReconciliationText(this);
    }

    /** The parts that say how this run differs from others of its hall: all but those of hall and table. */
    static Set<UncertaintyPart> partsOfRun() {
        return EnumSet.complementOf(EnumSet.of(UncertaintyPart.HALL, UncertaintyPart.COEFFICIENTS));
    }

    /** The parts that runs of a hall don't have in common, one run's own error left out too. */
    static Set<UncertaintyPart> partsWithinRun() {
        return EnumSet.complementOf(
                EnumSet.of(UncertaintyPart.HALL, UncertaintyPart.COEFFICIENTS, UncertaintyPart.RUN));
    }

    /**
     * Groups side by side: expected, brought to the intake weight, weighed, and the difference.
     *
     * @return a table whose kg add up to the intake as printed
     */
    public TextTable groupTable() {
        return text().groupTable();
    }

    /**
     * Kilograms by group and cause.
     *
     * @return a table that adds up along rows and columns as printed, to the gram
     */
    public TextTable kgTable() {
        return text().kgTable();
    }

    /**
     * Money by group and cause.
     *
     * @return a table that adds up along rows and columns as printed
     * @throws IllegalArgumentException if nothing is priced
     */
    public TextTable moneyTable() {
        return text().moneyTable();
    }

    /**
     * The reconciliation as a frame, a row for each group.
     *
     * @return {@code run}; {@code group}; {@code expected}, {@code scaled}, {@code weighed} and {@code difference} in kg; the
     *     difference in % of the scaled; {@code SD}, {@code 90 % interval low} and {@code high} in kg; {@code SDs off}; and a
     *     column in kg for each {@link Cause} that moves kg, and with prices one in the currency for each cause
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
     * @return run, intake, and the group that is farthest off
     */
    @Override
    public String toString() {
        return text().sentence();
    }
}
