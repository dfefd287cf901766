package org.beefyield.boning;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutCatalogue;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Variable;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * Boning trials against a table: which of them balance, and what it took to close them. Immutable.
 *
 * <p><b>Balance.</b> What was weighed after boning may differ from the weight before by {@value Balance#LIMIT_PCT} % of
 * it, or what the {@link #with(BalanceRule) rule} says, for each quarter and for the quarters against the carcass where
 * quarters were weighed, else for the carcass. A trial that is further off is refused. The same holds for each cut that was
 * weighed and then broken down: there the trial stays, without that breakdown. Where not all was weighed only too much can
 * be seen. A carcass that the table doesn't serve is refused too.
 *
 * <p><b>Closing.</b> What is missing in a breakdown goes to its loss, which needn't be weighed. Where there is no loss, or
 * it would fall below 0, all children are scaled in proportion. What was expected to be missing is part of the loss: shares
 * are of the weight at intake.
 *
 * <p>A cut that was not weighed weighs what came of it, if all of that was weighed. Children that weren't weighed apart
 * form a group: its weight is one weight, under the group's name.
 */
public final class TrialSet {
    private final YieldTable table;
    private final Map<String, String> ways;
    private final Map<String, List<String>> groups;
    private final BalanceRule rule;
    private final Map<String, WeighedBreakdown> breakdowns = new LinkedHashMap<>();
    /** Parents by child, of the breakdowns looked at. */
    private final Map<String, Set<String>> parents = new LinkedHashMap<>();

    private final List<Trial> trials;
    private final List<Trial> accepted = new ArrayList<>();
    private final List<RefusedTrial> refused = new ArrayList<>();
    private final List<Balance> balances = new ArrayList<>();
    /** Those of the balances that hold carcasses against their quarters or what came of them. */
    private final List<Balance> ofCarcasses = new ArrayList<>();
    /** Those of the balances that hold quarters against what came of them. */
    private final List<Balance> ofQuarters = new ArrayList<>();

    private final List<Closing> closings = new ArrayList<>();
    private final List<Blank> blanks = new ArrayList<>();
    /** By parent, parts of what all trials lacked that weighed all of it. */
    private final Map<String, Double> missing = new HashMap<>();
    /** By parent and part, or child: what its weight goes by. */
    private final Map<String, List<Names>> namesOfParts = new HashMap<>();

    private final Map<String, List<Names>> namesOfChildren = new HashMap<>();

    /**
     * What a weight goes by.
     *
     * @param withParent its name with the parent
     * @param plain its name without, if that says what is meant
     */
    private record Names(String withParent, @Nullable String plain) {
        @Nullable
        Double of(Trial trial) {
            Double named = trial.kg().get(withParent);
            return named != null || plain == null ? named : trial.kg().get(plain);
        }
    }

    /** A trial with the weights of breakdowns, of which each is worked out once. */
    private static final class Weights {
        final Trial trial;
        /** By parent and part, null if it is not known. */
        final Map<String, List<@Nullable Double>> known = new HashMap<>();

        Weights(Trial trial) {
            this.trial = trial;
        }
    }

    private TrialSet(
            YieldTable table,
            Map<String, String> ways,
            Map<String, List<String>> groups,
            BalanceRule rule,
            List<Trial> trials) {
        this.table = table;
        this.ways = ways;
        this.groups = groups;
        this.rule = rule;
        this.trials = List.copyOf(trials);
        checkGroups();
        for (BreakdownRow row : table.definition().breakdown()) {
            String parent = row.parent();
            if (!breakdowns.containsKey(parent) && (table.ways(parent).isEmpty() || ways.containsKey(parent))) {
                String way = ways.getOrDefault(parent, BreakdownRow.ANY);
                breakdowns.put(parent, new WeighedBreakdown(table.definition(), parent, way, groups));
            }
        }
        breakdowns
                .values()
                .forEach(breakdown -> breakdown
                        .children()
                        .forEach(child -> parents.computeIfAbsent(child.code(), code -> new LinkedHashSet<>())
                                .add(breakdown.parent())));
        for (WeighedBreakdown breakdown : breakdowns.values()) {
            namesOfParts.put(
                    breakdown.parent(),
                    breakdown.parts().stream()
                            .map(part -> names(breakdown.parent(), part.name()))
                            .toList());
            namesOfChildren.put(
                    breakdown.parent(),
                    breakdown.children().stream()
                            .map(child -> names(breakdown.parent(), child.code()))
                            .toList());
        }
        Map<String, int[]> blank = new HashMap<>();
        Map<String, int[]> of = new HashMap<>();
        for (WeighedBreakdown breakdown : breakdowns.values()) {
            blank.put(breakdown.parent(), new int[breakdown.parts().size()]);
            of.put(breakdown.parent(), new int[breakdown.parts().size()]);
        }
        Set<String> seen = new HashSet<>();
        Set<String> checked = new HashSet<>();
        for (Trial trial : trials) {
            checkNames(trial, checked);
            List<String> reasons =
                    seen.add(trial.id()) ? notServed(trial.carcass()) : List.of("a trial of this id stands above");
            reasons.forEach(
                    reason -> refused.add(new RefusedTrial(trial.id(), "", "carcass " + trial.id() + ": " + reason)));
            Weights weights = new Weights(trial);
            if (reasons.isEmpty() && balances(weights)) {
                accepted.add(trial);
                for (WeighedBreakdown breakdown : breakdowns.values()) {
                    add(weights, breakdown);
                    count(weights, breakdown, of(blank, breakdown), of(of, breakdown));
                }
            }
        }
        for (WeighedBreakdown breakdown : breakdowns.values()) {
            for (int i = 0; i < breakdown.parts().size(); i++) {
                if (of(blank, breakdown)[i] > 0) {
                    blanks.add(new Blank(
                            breakdown.parent(),
                            breakdown.parts().get(i).name(),
                            of(blank, breakdown)[i],
                            of(of, breakdown)[i]));
                }
            }
        }
    }

    /**
     * Trials of a table under its first cutting specification, every cut weighed apart.
     *
     * @param table the table to calibrate
     * @param trials trials in any order
     * @return the set
     * @throws IllegalArgumentException if a weight's name is neither a cut of the table nor a group
     */
    public static TrialSet of(YieldTable table, List<Trial> trials) {
        Checks.noNullIn(trials, "trials");
        Objects.requireNonNull(table, "table");
        List<CuttingSpecification> specifications = table.specifications();
        return new TrialSet(
                table,
                specifications.isEmpty() ? Map.of() : specifications.get(0).ways(),
                Map.of(),
                BalanceRule.DEFAULT,
                trials);
    }

    /**
     * Trials of a table.
     *
     * @param table the table to calibrate
     * @param specification the cutting specification that was cut to
     * @param groups by name, codes of the cuts that were weighed together; children of one parent, each in one group at
     *     most
     * @param trials trials in any order
     * @return the set
     * @throws IllegalArgumentException if the specification doesn't fit the table, a group names a cut that the table
     *     doesn't have or that is in two groups, or a weight's name is neither a cut of the table nor a group
     */
    public static TrialSet of(
            YieldTable table,
            CuttingSpecification specification,
            Map<String, List<String>> groups,
            List<Trial> trials) {
        Checks.noNullIn(groups, "groups");
        Checks.noNullIn(trials, "trials");
        Objects.requireNonNull(specification, "specification");
        Objects.requireNonNull(table, "table");
        table.check(specification);
        Map<String, List<String>> copied = new LinkedHashMap<>();
        groups.forEach((name, cuts) -> {
            Checks.noNullIn(cuts, "groups");
            copied.put(name, List.copyOf(cuts));
        });
        return new TrialSet(table, specification.ways(), copied, BalanceRule.DEFAULT, trials);
    }

    /**
     * The same trials held to another rule; without one they are held to {@link BalanceRule#DEFAULT}.
     *
     * @param newRule what may be missing
     * @return a set
     */
    public TrialSet with(BalanceRule newRule) {
        Objects.requireNonNull(newRule, "newRule");
        return newRule.equals(rule) ? this : new TrialSet(table, ways, groups, newRule, trials);
    }

    private void checkGroups() {
        Set<String> grouped = new HashSet<>();
        groups.forEach((group, cuts) -> {
            if (table.catalogue().find(group).isPresent()) {
                throw new IllegalArgumentException(
                        "group \"" + group + "\" has the name of a cut; give it one of its own");
            }
            for (String cut : cuts) {
                table.catalogue().cut(cut);
                if (!grouped.add(cut)) {
                    throw new IllegalArgumentException("group \"" + group + "\": " + cut + " is in another group too");
                }
            }
        });
    }

    /**
     * Checks names of weights.
     *
     * @param checked those that are good already, to which others are added
     */
    private void checkNames(Trial trial, Set<String> checked) {
        CutCatalogue catalogue = table.catalogue();
        for (String name : trial.kg().keySet()) {
            if (!checked.add(name)) {
                continue;
            }
            int slash = name.indexOf('/');
            String parent = slash < 0 ? "" : name.substring(0, slash);
            String child = name.substring(slash + 1);
            if (!groups.containsKey(child) && catalogue.find(child).isEmpty()) {
                throw new IllegalArgumentException("carcass " + trial.id() + ": " + catalogue.unknown(child)
                        + (groups.isEmpty() ? "" : "; groups: " + String.join(", ", groups.keySet())));
            }
            if (slash >= 0
                    && !parent.equals(BreakdownRow.ROOT)
                    && catalogue.find(parent).isEmpty()) {
                throw new IllegalArgumentException("carcass " + trial.id() + ": " + catalogue.unknown(parent));
            }
        }
    }

    /** Why the table doesn't serve a carcass, nothing if it does. */
    private List<String> notServed(Carcass carcass) {
        if (!table.definition().categories().contains(carcass.category())) {
            return List.of(table.notServed(carcass.category()));
        }
        List<String> reasons = new ArrayList<>();
        for (Variable variable : Variable.values()) {
            double value = switch (variable) {
                case CONFORMATION -> carcass.conformation().position();
                case FAT -> carcass.fatClass().position();
                case WEIGHT -> carcass.coldWeightKg();
            };
            if (!table.definition().allowed().of(variable).contains(value)) {
                reasons.add(TrialSetText.outside(carcass, variable, table));
            }
        }
        return reasons;
    }

    /** Whether a trial balances as a whole; adds what was looked at. */
    private boolean balances(Weights weights) {
        Trial trial = weights.trial;
        WeighedBreakdown root = breakdowns.get(BreakdownRow.ROOT);
        List<@Nullable Double> weighed = root == null ? List.of() : weighed(weights, root);
        boolean complete = root == null || isComplete(weighed, root);
        List<Balance> own = new ArrayList<>();
        double sum = 0;
        for (Quarter quarter : trial.quarters()) {
            sum += quarter.coldKg();
            own.add(balance(
                    trial, quarter.name(), quarter.coldKg(), topmost(quarter.kg()), complete, rule.inQuarterPct()));
        }
        ofQuarters.addAll(own);
        double cold = trial.carcass().coldWeightKg();
        if (!trial.quarters().isEmpty()) {
            own.add(balance(trial, "quarters", cold, sum, true, rule.ofQuartersPct()));
        } else if (root != null) {
            own.add(balance(trial, BreakdownRow.ROOT, cold, total(weighed), complete, rule.expectedPct()));
        }
        ofCarcasses.addAll(own.subList(trial.quarters().size(), own.size()));
        balances.addAll(own);
        own.stream()
                .filter(balance -> !balance.holds())
                .forEach(balance -> refused.add(new RefusedTrial(trial.id(), "", balance.toString())));
        return own.stream().allMatch(Balance::holds);
    }

    private Balance balance(Trial trial, String part, double inKg, double outKg, boolean complete, double expectedPct) {
        return new Balance(trial.id(), part, inKg, outKg, complete, expectedPct, rule.limitPct());
    }

    /** Whether all was weighed but for the loss. */
    private static boolean isComplete(List<@Nullable Double> weighed, WeighedBreakdown breakdown) {
        int loss = breakdown.lossPart().orElse(-1);
        boolean complete = true;
        for (int i = 0; i < weighed.size(); i++) {
            complete &= weighed.get(i) != null || i == loss;
        }
        return complete;
    }

    /** What was weighed, without what is part of something that was weighed too. */
    private double topmost(Map<String, Double> kg) {
        double sum = 0;
        for (Map.Entry<String, Double> entry : kg.entrySet()) {
            if (!isPart(entry.getKey(), kg.keySet())) {
                sum += entry.getValue();
            }
        }
        return sum;
    }

    private boolean isPart(String name, Set<String> weighed) {
        int slash = name.indexOf('/');
        Set<String> above;
        if (slash >= 0) {
            above = Set.of(name.substring(0, slash));
        } else {
            String child = groups.getOrDefault(name, List.of(name)).get(0);
            above = parents.getOrDefault(child, Set.of());
            // what comes straight from the carcass is meant
            above = above.contains(BreakdownRow.ROOT) ? Set.of() : above;
        }
        return above.stream()
                .anyMatch(parent -> weighed.contains(parent)
                        || groupsOf(parent).anyMatch(weighed::contains)
                        || (!parent.equals(BreakdownRow.ROOT) && isPart(parent, weighed)));
    }

    private Stream<String> groupsOf(String cut) {
        return groups.entrySet().stream()
                .filter(group -> group.getValue().contains(cut))
                .map(Map.Entry::getKey);
    }

    private static double total(List<@Nullable Double> weighed) {
        double total = 0;
        for (Double kg : weighed) {
            total += kg == null ? 0 : kg;
        }
        return total;
    }

    /** Weight of a cut that is broken down, or null if it is not known. */
    private @Nullable Double parentKg(Weights weights, WeighedBreakdown breakdown) {
        if (breakdown.parent().equals(BreakdownRow.ROOT)) {
            return weights.trial.carcass().coldWeightKg();
        }
        Double given = weights.trial.kg().get(breakdown.parent());
        if (given != null) {
            return given;
        }
        List<@Nullable Double> weighed = weighed(weights, breakdown);
        return weighed.contains(null) ? null : (Double) total(weighed);
    }

    /** By part, its weight, or null if it is not known. */
    private List<@Nullable Double> weighed(Weights weights, WeighedBreakdown breakdown) {
        List<@Nullable Double> before = weights.known.get(breakdown.parent());
        if (before != null) {
            return before;
        }
        List<@Nullable Double> kg = new ArrayList<>();
        List<Names> names = of(namesOfParts, breakdown);
        for (int i = 0; i < names.size(); i++) {
            Double sum = names.get(i).of(weights.trial);
            if (sum == null) {
                sum = 0.0;
                for (int member : breakdown.parts().get(i).members()) {
                    Double one = childKg(weights, breakdown, member);
                    sum = sum == null || one == null ? null : (Double) (sum + one);
                }
            }
            kg.add(sum);
        }
        weights.known.put(breakdown.parent(), kg);
        return kg;
    }

    private static <T> T of(Map<String, T> byParent, WeighedBreakdown breakdown) {
        return Objects.requireNonNull(byParent.get(breakdown.parent()));
    }

    private Names names(String parent, String name) {
        String child = groups.getOrDefault(name, List.of(name)).get(0);
        boolean plain = parent.equals(BreakdownRow.ROOT)
                || parents.getOrDefault(child, Set.of()).size() == 1;
        return new Names(parent + "/" + name, plain ? name : null);
    }

    private @Nullable Double childKg(Weights weights, WeighedBreakdown breakdown, int member) {
        Cut child = breakdown.children().get(member);
        Double given = of(namesOfChildren, breakdown).get(member).of(weights.trial);
        WeighedBreakdown own = breakdowns.get(child.code());
        boolean broken = given == null
                && own != null
                && parents.getOrDefault(child.code(), Set.of()).size() == 1;
        return broken && own != null ? parentKg(weights, own) : given;
    }

    private void add(Weights weights, WeighedBreakdown breakdown) {
        Trial trial = weights.trial;
        Double parentKg = parentKg(weights, breakdown);
        List<@Nullable Double> weighed = weighed(weights, breakdown);
        if (parentKg == null || !(parentKg > 0) || weighed.stream().allMatch(Objects::isNull)) {
            return;
        }
        boolean complete = isComplete(weighed, breakdown);
        boolean isRoot = breakdown.parent().equals(BreakdownRow.ROOT);
        Balance balance =
                balance(trial, breakdown.parent(), parentKg, total(weighed), complete, isRoot ? rule.expectedPct() : 0);
        if (!isRoot) {
            balances.add(balance);
        }
        if (!balance.holds()) {
            refused.add(new RefusedTrial(trial.id(), breakdown.parent(), balance.toString()));
        } else if (complete) {
            close(trial, breakdown, balance, weighed);
        } else {
            Map<Integer, Double> shares = new LinkedHashMap<>();
            for (int i = 0; i < weighed.size(); i++) {
                Double kg = weighed.get(i);
                if (kg != null) {
                    shares.put(i, 1000 * kg / parentKg);
                }
            }
            breakdown.add(new WeighedBreakdown.PartRow(trial, shares));
        }
    }

    private void close(Trial trial, WeighedBreakdown breakdown, Balance balance, List<@Nullable Double> weighed) {
        int loss = breakdown.lossPart().orElse(-1);
        double parentKg = balance.inKg();
        double residue = balance.missingKg();
        Double lossKg = loss < 0 ? null : weighed.get(loss);
        boolean toLoss = loss >= 0 && residue + (lossKg == null ? 0 : lossKg) >= 0;
        // below that it is the noise of adding weights
        if (Math.abs(residue) > 1e-9 * parentKg) {
            closings.add(new Closing(
                    trial.id(),
                    breakdown.parent(),
                    residue,
                    toLoss ? breakdown.parts().get(loss).name() : ""));
        }
        double whole = toLoss ? parentKg : balance.outKg();
        List<Double> shares = new ArrayList<>();
        for (int i = 0; i < weighed.size(); i++) {
            Double kg = weighed.get(i);
            double closed = (kg == null ? 0 : kg) + (toLoss && i == loss ? residue : 0);
            shares.add(1000 * closed / whole);
        }
        missing.merge(breakdown.parent(), 1 - balance.outKg() / parentKg, Double::sum);
        breakdown.add(new WeighedBreakdown.Row(trial, List.copyOf(shares)));
    }

    /**
     * The table that the trials are held against.
     *
     * @return the prior table of a calibration
     */
    public YieldTable table() {
        return table;
    }

    /**
     * What may be missing.
     *
     * @return the rule that the trials were held to
     */
    public BalanceRule rule() {
        return rule;
    }

    /**
     * Trials that balance as a whole.
     *
     * @return an unmodifiable list in the order given
     */
    public List<Trial> accepted() {
        return Collections.unmodifiableList(accepted);
    }

    /**
     * Trials and single breakdowns that are left out, with the reason.
     *
     * @return an unmodifiable list
     */
    public List<RefusedTrial> refused() {
        return Collections.unmodifiableList(refused);
    }

    /**
     * Every balance that was looked at, of refused trials too.
     *
     * @return an unmodifiable list in the order of the trials
     */
    public List<Balance> balances() {
        return Collections.unmodifiableList(balances);
    }

    /**
     * Whether the trials that balance were selected by the limit, looked for first between carcasses and what came of them,
     * quarters if these were weighed, then between quarters and what came of them.
     *
     * @return the finding, or empty if there is none
     */
    public Optional<TrialSelection> selection() {
        return TrialSelection.of(TrialSelection.CARCASS, ofCarcasses, rule)
                .or(() -> TrialSelection.of(TrialSelection.QUARTER, ofQuarters, rule));
    }

    /**
     * What accepted trials left blank although they weighed half or more of what else comes of the same cut. A loss needn't be
     * weighed, and a cut of which something was weighed is not blank itself.
     *
     * @return an unmodifiable list in the order of the {@link #breakdowns()} and their parts
     */
    public List<Blank> blanks() {
        return List.copyOf(blanks);
    }

    /** Counts a trial for each part that it could have weighed beside half or more of the others. */
    private void count(Weights weights, WeighedBreakdown breakdown, int[] blank, int[] of) {
        List<@Nullable Double> weighed = weighed(weights, breakdown);
        int loss = breakdown.lossPart().orElse(-1);
        int there = 0;
        for (int i = 0; i < of.length; i++) {
            there += i != loss && weighed.get(i) != null ? 1 : 0;
        }
        int others = of.length - 1 - (loss < 0 ? 0 : 1);
        for (int i = 0; i < of.length; i++) {
            boolean isBlank = weighed.get(i) == null;
            int weighedOthers = there - (isBlank ? 0 : 1);
            if (i != loss
                    && weighedOthers > 0
                    && 2 * weighedOthers >= others
                    && !(isBlank && isBroken(weights, breakdown, i))) {
                of[i]++;
                blank[i] += isBlank ? 1 : 0;
            }
        }
    }

    /** Whether something of a part was weighed after it was broken down. */
    private boolean isBroken(Weights weights, WeighedBreakdown breakdown, int part) {
        return breakdown.parts().get(part).members().stream()
                .map(member -> breakdowns.get(breakdown.children().get(member).code()))
                .anyMatch(own -> own != null && weighed(weights, own).stream().anyMatch(Objects::nonNull));
    }

    /**
     * How each breakdown of each accepted trial was closed, where it had to be.
     *
     * @return an unmodifiable list in the order of the trials
     */
    public List<Closing> closings() {
        return Collections.unmodifiableList(closings);
    }

    /**
     * What closing took on average, for each breakdown that was weighed.
     *
     * @return lines such as {@code carcass: 284 carcasses, 0.61 % missing on average; closed by the loss in 280, in proportion
     *     in 4}
     */
    public List<String> closingSummary() {
        List<String> lines = new ArrayList<>();
        for (WeighedBreakdown breakdown : breakdowns.values()) {
            List<Closing> own = closings.stream()
                    .filter(closing -> closing.parent().equals(breakdown.parent()))
                    .toList();
            if (!own.isEmpty()) {
                long toLoss =
                        own.stream().filter(closing -> !closing.to().isEmpty()).count();
                double pct = 100
                        * missing.getOrDefault(breakdown.parent(), 0.0)
                        / breakdown.rows().size();
                lines.add(TrialSetText.closing(breakdown, pct, toLoss, own.size() - toLoss));
            }
        }
        return lines;
    }

    /**
     * Days of which half of the trials or more, and more than one, are refused.
     *
     * @return a line for each, in the order of the days
     */
    public List<String> refusedDays() {
        Map<String, Integer> all = new TreeMap<>();
        Map<String, Integer> kept = new TreeMap<>();
        trials.forEach(trial -> all.merge(trial.day(), 1, Integer::sum));
        accepted.forEach(trial -> kept.merge(trial.day(), 1, Integer::sum));
        all.remove("");
        List<String> lines = new ArrayList<>();
        all.forEach((day, count) -> {
            int out = count - kept.getOrDefault(day, 0);
            if (out > 1 && 2 * out >= count) {
                lines.add(TrialSetText.refusedDay(day, out, count));
            }
        });
        return lines;
    }

    /**
     * The breakdowns of the table in the ways that were cut to, with the trials that weighed them.
     *
     * @return an unmodifiable list in the table's order, those that no trial weighed too
     */
    public List<WeighedBreakdown> breakdowns() {
        return List.copyOf(breakdowns.values());
    }

    @Override
    public boolean equals(@Nullable Object other) {
        // what was given decides all else
        return other instanceof TrialSet that
                && table.equals(that.table)
                && ways.equals(that.ways)
                && groups.equals(that.groups)
                && rule.equals(that.rule)
                && trials.equals(that.trials);
    }

    @Override
    public int hashCode() {
        return Objects.hash(table, ways, groups, rule, trials);
    }

    /**
     * One line.
     *
     * @return such as {@code 284 trials of hall@1.0#12ab34cd, 280 of them balance}
     */
    @Override
    public String toString() {
        return trials.size() + (trials.size() == 1 ? " trial of " : " trials of ") + table + ", " + accepted.size()
                + " of them " + (accepted.size() == 1 ? "balances" : "balance");
    }
}
