package org.beefyield.boning;

import java.util.ArrayList;
import java.util.Arrays;
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
    /** By parent, in the order of the breakdowns. */
    private final Map<String, Sought> sought = new LinkedHashMap<>();

    /**
     * What a weight goes by, of names that no trial has none.
     *
     * @param withParent its name with the parent
     * @param plain its name without, if that says what is meant
     */
    private record Names(
            @Nullable String withParent, @Nullable String plain) {
        static final Names NONE = new Names(null, null);

        /** NaN if the trial has no such weight. */
        double of(Trial trial) {
            Double named = withParent == null ? null : trial.kg().get(withParent);
            if (named == null && plain != null) {
                named = trial.kg().get(plain);
            }
            return named == null ? Double.NaN : named;
        }
    }

    /** A breakdown with what its weights go by. */
    private static final class Sought {
        final WeighedBreakdown breakdown;
        final int place;
        final int loss;
        /** Of the cut that is broken down. */
        final Names parent;

        final Names[] parts;
        final Names[] children;
        /** By child, its own breakdown if what came of it tells what it weighed. */
        final @Nullable Sought[] broken;
        /** By part, accepted trials that left it blank, of how many. */
        final int[] blank;

        final int[] of;

        Sought(WeighedBreakdown breakdown, int place, Names parent) {
            this.breakdown = breakdown;
            this.place = place;
            this.loss = breakdown.lossPart().orElse(-1);
            this.parent = parent;
            this.parts = new Names[breakdown.parts().size()];
            this.children = new Names[breakdown.children().size()];
            this.broken = new Sought[breakdown.children().size()];
            this.blank = new int[breakdown.parts().size()];
            this.of = new int[breakdown.parts().size()];
        }

        /** Whether any trial can have weighed something of it. */
        boolean isNamed() {
            return Stream.of(parts, children).flatMap(Stream::of).anyMatch(names -> !names.equals(Names.NONE))
                    || Arrays.stream(broken).anyMatch(own -> own != null && own.isNamed());
        }
    }

    /** A trial with the weights of breakdowns, of which each is worked out once. */
    private static final class Weights {
        final Trial trial;
        /** By breakdown and part, NaN if it is not known. */
        final double[] @Nullable [] known;

        Weights(Trial trial, int breakdowns) {
            this.trial = trial;
            this.known = new double[breakdowns][];
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
        Set<String> names = new HashSet<>();
        trials.forEach(trial -> checkNames(trial, names));
        seek(names);
        List<Sought> named = sought.values().stream().filter(Sought::isNamed).toList();
        Set<String> seen = new HashSet<>();
        for (Trial trial : trials) {
            List<String> reasons =
                    seen.add(trial.id()) ? notServed(trial.carcass()) : List.of("a trial of this id stands above");
            reasons.forEach(
                    reason -> refused.add(new RefusedTrial(trial.id(), "", "carcass " + trial.id() + ": " + reason)));
            Weights weights = new Weights(trial, sought.size());
            if (reasons.isEmpty() && balances(weights)) {
                accepted.add(trial);
                for (Sought one : named) {
                    add(weights, one);
                    count(weights, one);
                }
            }
        }
        for (Sought one : sought.values()) {
            for (int i = 0; i < one.blank.length; i++) {
                if (one.blank[i] > 0) {
                    blanks.add(new Blank(
                            one.breakdown.parent(), one.breakdown.parts().get(i).name(), one.blank[i], one.of[i]));
                }
            }
        }
    }

    /**
     * Finds what weights go by.
     *
     * @param named names that trials have
     */
    private void seek(Set<String> named) {
        for (WeighedBreakdown breakdown : breakdowns.values()) {
            String parent = breakdown.parent();
            Sought one = new Sought(breakdown, sought.size(), new Names(null, named.contains(parent) ? parent : null));
            for (int i = 0; i < one.parts.length; i++) {
                one.parts[i] = names(parent, breakdown.parts().get(i).name(), named);
            }
            for (int k = 0; k < one.children.length; k++) {
                one.children[k] = names(parent, breakdown.children().get(k).code(), named);
            }
            sought.put(parent, one);
        }
        for (Sought one : sought.values()) {
            for (int k = 0; k < one.children.length; k++) {
                String child = one.breakdown.children().get(k).code();
                if (parents.getOrDefault(child, Set.of()).size() == 1) {
                    one.broken[k] = sought.get(child);
                }
            }
        }
        // what nothing was weighed of tells no weight
        sought.values()
                .forEach(one -> Arrays.setAll(one.broken, k -> {
                    Sought own = one.broken[k];
                    return own == null || own.isNamed() ? own : null;
                }));
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
        Sought root = sought.get(BreakdownRow.ROOT);
        double[] weighed = root == null ? new double[0] : weighed(weights, root);
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
    private static boolean isComplete(double[] weighed, Sought of) {
        boolean complete = true;
        for (int i = 0; i < weighed.length; i++) {
            complete &= !Double.isNaN(weighed[i]) || i == of.loss;
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

    private static double sum(double[] kg) {
        double sum = 0;
        for (double one : kg) {
            sum += one;
        }
        return sum;
    }

    /** Of what is known. */
    private static double total(double[] weighed) {
        double total = 0;
        for (double kg : weighed) {
            total += Double.isNaN(kg) ? 0 : kg;
        }
        return total;
    }

    private static boolean isNothing(double[] weighed) {
        boolean nothing = true;
        for (double kg : weighed) {
            nothing &= Double.isNaN(kg);
        }
        return nothing;
    }

    /** Weight of a cut that is broken down, NaN if it is not known. */
    private double parentKg(Weights weights, Sought of) {
        if (of.breakdown.parent().equals(BreakdownRow.ROOT)) {
            return weights.trial.carcass().coldWeightKg();
        }
        double given = of.parent.of(weights.trial);
        return Double.isNaN(given) ? sum(weighed(weights, of)) : given;
    }

    /** By part, its weight, NaN if it is not known. */
    private double[] weighed(Weights weights, Sought of) {
        double[] before = weights.known[of.place];
        if (before != null) {
            return before;
        }
        double[] kg = new double[of.parts.length];
        for (int i = 0; i < kg.length; i++) {
            kg[i] = of.parts[i].of(weights.trial);
            if (Double.isNaN(kg[i])) {
                kg[i] = 0;
                for (int member : of.breakdown.parts().get(i).members()) {
                    kg[i] += childKg(weights, of, member);
                }
            }
        }
        weights.known[of.place] = kg;
        return kg;
    }

    private Names names(String parent, String name, Set<String> named) {
        String child = groups.getOrDefault(name, List.of(name)).get(0);
        boolean plain = parent.equals(BreakdownRow.ROOT)
                || parents.getOrDefault(child, Set.of()).size() == 1;
        String withParent = parent + "/" + name;
        return new Names(named.contains(withParent) ? withParent : null, plain && named.contains(name) ? name : null);
    }

    private double childKg(Weights weights, Sought of, int member) {
        double given = of.children[member].of(weights.trial);
        Sought own = of.broken[member];
        return Double.isNaN(given) && own != null ? parentKg(weights, own) : given;
    }

    private void add(Weights weights, Sought of) {
        Trial trial = weights.trial;
        WeighedBreakdown breakdown = of.breakdown;
        double parentKg = parentKg(weights, of);
        double[] weighed = weighed(weights, of);
        if (!(parentKg > 0) || isNothing(weighed)) {
            return;
        }
        boolean complete = isComplete(weighed, of);
        boolean isRoot = breakdown.parent().equals(BreakdownRow.ROOT);
        Balance balance =
                balance(trial, breakdown.parent(), parentKg, total(weighed), complete, isRoot ? rule.expectedPct() : 0);
        if (!isRoot) {
            balances.add(balance);
        }
        if (!balance.holds()) {
            refused.add(new RefusedTrial(trial.id(), breakdown.parent(), balance.toString()));
        } else if (complete) {
            close(trial, of, balance, weighed);
        } else {
            Map<Integer, Double> shares = new LinkedHashMap<>();
            for (int i = 0; i < weighed.length; i++) {
                if (!Double.isNaN(weighed[i])) {
                    shares.put(i, 1000 * weighed[i] / parentKg);
                }
            }
            breakdown.add(new WeighedBreakdown.PartRow(trial, shares));
        }
    }

    private void close(Trial trial, Sought of, Balance balance, double[] weighed) {
        WeighedBreakdown breakdown = of.breakdown;
        int loss = of.loss;
        double parentKg = balance.inKg();
        double residue = balance.missingKg();
        boolean toLoss = loss >= 0 && residue + (Double.isNaN(weighed[loss]) ? 0 : weighed[loss]) >= 0;
        // below that it is the noise of adding weights
        if (Math.abs(residue) > 1e-9 * parentKg) {
            closings.add(new Closing(
                    trial.id(),
                    breakdown.parent(),
                    residue,
                    toLoss ? breakdown.parts().get(loss).name() : ""));
        }
        double whole = toLoss ? parentKg : balance.outKg();
        List<Double> shares = new ArrayList<>(weighed.length);
        for (int i = 0; i < weighed.length; i++) {
            double closed = (Double.isNaN(weighed[i]) ? 0 : weighed[i]) + (toLoss && i == loss ? residue : 0);
            shares.add(1000 * closed / whole);
        }
        missing.merge(breakdown.parent(), 1 - balance.outKg() / parentKg, Double::sum);
        breakdown.add(new WeighedBreakdown.Row(trial, shares));
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
    private void count(Weights weights, Sought in) {
        double[] weighed = weighed(weights, in);
        int there = 0;
        for (int i = 0; i < weighed.length; i++) {
            there += i != in.loss && !Double.isNaN(weighed[i]) ? 1 : 0;
        }
        int others = weighed.length - 1 - (in.loss < 0 ? 0 : 1);
        for (int i = 0; i < weighed.length; i++) {
            boolean isBlank = Double.isNaN(weighed[i]);
            int weighedOthers = there - (isBlank ? 0 : 1);
            if (i != in.loss
                    && weighedOthers > 0
                    && 2 * weighedOthers >= others
                    && !(isBlank && isBroken(weights, in, i))) {
                in.of[i]++;
                in.blank[i] += isBlank ? 1 : 0;
            }
        }
    }

    /** Whether something of a part was weighed after it was broken down. */
    private boolean isBroken(Weights weights, Sought in, int part) {
        return in.breakdown.parts().get(part).members().stream()
                .map(member -> sought.get(in.breakdown.children().get(member).code()))
                .anyMatch(own -> own != null && !isNothing(weighed(weights, own)));
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
