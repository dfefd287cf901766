package org.beefyield.table;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.frame.Frame;
import org.beefyield.grid.CompiledTable;
import org.beefyield.grid.Nodes;
import org.beefyield.grid.Polynomials;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableRange;
import org.beefyield.text.Checks;
import org.beefyield.text.Shown;
import org.jspecify.annotations.Nullable;

/**
 * How far two tables differ: for every cut of every level that both have, the largest difference anywhere in their common
 * range and in any mix of ways, exactly, in g per kg of carcass; and everything else that they say otherwise
 * ({@link #changes()}).
 *
 * <p>Shares are bilinear between whole positions of the grades, so the largest difference lies at one of them; in weight
 * it is an extreme of a polynomial, or where another mix of ways takes the lead. The way of each cut is chosen freely, and
 * is the same in both tables: any that both have. Where a cut has no way in common, its ways are compared in the order of
 * their names, the first with the first, and a note says so. Cutting specifications that both tables have are compared by
 * name too, for they may cut otherwise. Categories are compared where both tables have them. A cut that one table lacks
 * counts as nothing there, so that it moves by all it is. The common range is that of the allowed ranges.
 */
public final class TableComparison implements Shown {
    /**
     * Differences below this are noise of the arithmetic, g/kg; of places that come as far but for it the first is named, so that
     * words don't hang on the last digits of coefficients.
     */
    static final double NOISE_G_PER_KG = 1e-9;

    /**
     * The largest difference of one cut at one level.
     *
     * @param level name of the level
     * @param cut code of the cut
     * @param differenceGPerKg second table less first, g per kg of carcass, where it is largest in size
     * @param category category at that place
     * @param specification cutting specification there that both tables have, or if it takes another mix the ways of the
     *     cuts that matter, such as {@code brisket as trim, chuck as dice}; empty if no way matters
     * @param ways by code of the cut that is broken down, the way: of all cuts under a specification, else of those that
     *     matter; as the first table calls it
     * @param conformation conformation there, a whole position
     * @param fatClass fat class there, a whole position
     * @param weightKg cold weight there, kg
     */
    public record Difference(
            String level,
            String cut,
            double differenceGPerKg,
            Category category,
            String specification,
            Map<String, String> ways,
            Conformation conformation,
            FatClass fatClass,
            double weightKg) {
        /**
         * Checks that nothing is missing and that figures are figures.
         *
         * @throws IllegalArgumentException if the difference is not finite or the weight is no carcass weight
         */
        public Difference {
            Objects.requireNonNull(category, "category");
            Objects.requireNonNull(conformation, "conformation");
            Objects.requireNonNull(cut, "cut");
            Objects.requireNonNull(fatClass, "fatClass");
            Objects.requireNonNull(level, "level");
            Objects.requireNonNull(specification, "specification");
            Checks.noNullIn(ways, "ways");
            ways = Collections.unmodifiableMap(new TreeMap<>(ways));
            Checks.finite("difference, g/kg", differenceGPerKg);
            CarcassWeights.check("weight", weightKg);
        }

        /**
         * Where the difference is largest.
         *
         * @return such as {@code category C, steaks, E+ 1-, 150 kg}
         */
        public String where() {
            return TableComparisonText.where(this);
        }
    }

    private final YieldTable first;
    private final YieldTable second;
    private final List<Difference> differences;
    private final List<String> notes;
    private final List<String> lost;
    private final List<TableChange> changes;

    private TableComparison(Comparing comparing) {
        this.first = comparing.first;
        this.second = comparing.second;
        this.differences = List.copyOf(comparing.differences);
        this.notes = List.copyOf(comparing.notes);
        this.lost = List.copyOf(comparing.lost);
        this.changes = List.copyOf(comparing.changes);
    }

    /** The table compared with. */
    YieldTable first() {
        return first;
    }

    /** The table compared. */
    YieldTable second() {
        return second;
    }

    /**
     * Compares two tables.
     *
     * @param first the table to compare with, such as the one in use
     * @param second the other one, such as its successor
     * @return the comparison
     * @throws IllegalArgumentException if they have no category, range or level in common
     */
    public static TableComparison of(YieldTable first, YieldTable second) {
        Objects.requireNonNull(first, "first");
        Objects.requireNonNull(second, "second");
        Comparing comparing = new Comparing(first, second);
        comparing.compare();
        return new TableComparison(comparing);
    }

    /** The work of one comparison. */
    private static final class Comparing {
        private final YieldTable first;
        private final YieldTable second;
        private final Range conformations;
        private final Range fats;
        private final Range weights;
        final List<Difference> differences = new ArrayList<>();
        final List<String> notes = new ArrayList<>();
        final List<String> lost = new ArrayList<>();
        final List<TableChange> changes = new ArrayList<>();
        private WayChoices waysOfFirst = new WayChoices(List.of(), List.of());
        private WayChoices waysOfSecond = waysOfFirst;

        Comparing(YieldTable first, YieldTable second) {
            this.first = first;
            this.second = second;
            TableRange a = first.definition().allowed();
            TableRange b = second.definition().allowed();
            conformations = common("conformation", a.conformation(), b.conformation());
            fats = common("fat", a.fat(), b.fat());
            weights = common("weight", a.weightKg(), b.weightKg());
        }

        private Range common(String what, Range a, Range b) {
            double low = Math.max(a.low(), b.low());
            double high = Math.min(a.high(), b.high());
            if (low > high) {
                throw new IllegalArgumentException("the tables have no " + what + " in common: " + a + " against " + b);
            }
            if (!b.contains(a.low()) || !b.contains(a.high())) {
                lost.add("allowed " + what + " " + a + ", now " + b);
            }
            if (!a.equals(b)) {
                notes.add("allowed " + what + " differs: " + a + " against " + b + "; compared over "
                        + new Range(low, high));
            }
            return new Range(low, high);
        }

        void compare() {
            noteBasis();
            List<Category> categories = new ArrayList<>(first.definition().categories());
            categories.retainAll(second.definition().categories());
            noteOneSided(
                    "category",
                    first.definition().categories(),
                    second.definition().categories());
            List<String> levels = new ArrayList<>(first.levels());
            levels.retainAll(second.levels());
            noteOneSided("level", first.levels(), second.levels());
            if (categories.isEmpty() || levels.isEmpty()) {
                throw new IllegalArgumentException(
                        "the tables have no " + (categories.isEmpty() ? "category" : "level") + " in common");
            }
            List<CuttingSpecification[]> specifications = specifications();
            pairWays();
            List<Map<String, Difference>> atLevels = new ArrayList<>();
            for (String level : levels) {
                noteOneSided("cut at level " + level, codes(first, level), codes(second, level));
                atLevels.add(new LinkedHashMap<>());
            }
            for (List<Category> group : groups(categories)) {
                Category category = group.get(0);
                for (CuttingSpecification[] pair : specifications) {
                    YieldGrid a = grid(first, category, pair[0]);
                    YieldGrid b = grid(second, category, pair[1]);
                    for (int i = 0; i < levels.size(); i++) {
                        for (String cut : cuts(levels.get(i))) {
                            atLevels.get(i)
                                    .merge(
                                            cut,
                                            largest(levels.get(i), cut, category, pair[0], a, b),
                                            Comparing::larger);
                        }
                    }
                }
            }
            for (List<Category> group : groups(categories)) {
                mixes(group.get(0), levels, atLevels);
            }
            atLevels.forEach(atLevel -> differences.addAll(atLevel.values()));
            TableRange range = new TableRange(conformations, fats, weights);
            changes.addAll(OtherChanges.of(
                    first,
                    second,
                    waysOfFirst,
                    waysOfSecond,
                    new Nodes(first.definition().axes(), range)));
        }

        private static YieldGrid grid(YieldTable table, Category category, CuttingSpecification specification) {
            CompiledTable compiled = table.unwrap(CompiledTable.class);
            return compiled.grid(compiled.group(category), specification.ways());
        }

        private void noteBasis() {
            if (!first.definition().basis().equals(second.definition().basis())) {
                notes.add("the tables differ in their basis; part of the change of a share may come from that");
            }
        }

        private <T> void noteOneSided(String what, List<T> a, List<T> b) {
            Set<T> onlyFirst = new LinkedHashSet<>(a);
            onlyFirst.removeAll(b);
            Set<T> onlySecond = new LinkedHashSet<>(b);
            onlySecond.removeAll(a);
            onlyFirst.forEach(one -> lost.add(what + " " + one));
            onlySecond.forEach(one -> changes.add(
                    new TableChange(TableChange.Kind.ADDITIONS, what + " " + one, "", "", Double.POSITIVE_INFINITY)));
        }

        private static List<String> codes(YieldTable table, String level) {
            return table.cutsAt(level).stream().map(Cut::code).toList();
        }

        /** Categories that share a grid in both tables: one of them speaks for all. */
        private List<List<Category>> groups(List<Category> categories) {
            List<List<Category>> groups = new ArrayList<>();
            for (List<Category> a : first.categoryGroups()) {
                for (List<Category> b : second.categoryGroups()) {
                    List<Category> both = new ArrayList<>(categories);
                    both.retainAll(a);
                    both.retainAll(b);
                    if (!both.isEmpty()) {
                        groups.add(both);
                    }
                }
            }
            return groups;
        }

        private List<CuttingSpecification[]> specifications() {
            List<CuttingSpecification[]> pairs = new ArrayList<>();
            List<String> a = first.specifications().stream()
                    .map(CuttingSpecification::name)
                    .toList();
            List<String> b = second.specifications().stream()
                    .map(CuttingSpecification::name)
                    .toList();
            noteOneSided("cutting specification", a, b);
            Set<String> both = new TreeSet<>(a);
            both.retainAll(b);
            for (String name : both) {
                pairs.add(new CuttingSpecification[] {first.specification(name), second.specification(name)});
            }
            noteOneSided("way", wayNames(first), wayNames(second));
            return pairs;
        }

        private static List<String> wayNames(YieldTable table) {
            return table.ways().entrySet().stream()
                    .flatMap(entry -> entry.getValue().stream().map(way -> "\"" + way + "\" of " + entry.getKey()))
                    .toList();
        }

        /**
         * The choices of way by parent: every way that both tables have; where they share none, one after the other as they
         * stand in order, and a table without ways of a cut has the one that it has beside each.
         */
        private void pairWays() {
            List<String> parents = new ArrayList<>(first.ways().keySet());
            second.ways().keySet().stream()
                    .filter(parent -> !parents.contains(parent))
                    .forEach(parents::add);
            List<List<String>> own = new ArrayList<>();
            List<List<String>> other = new ArrayList<>();
            for (String parent : parents) {
                List<String> a = List.copyOf(first.ways().getOrDefault(parent, Set.of(BreakdownRow.ANY)));
                List<String> b = List.copyOf(second.ways().getOrDefault(parent, Set.of(BreakdownRow.ANY)));
                List<String> both = a.stream().filter(b::contains).toList();
                if (both.isEmpty()) {
                    List<String> paired = new ArrayList<>();
                    List<String> with = new ArrayList<>();
                    for (int i = 0; i < Math.max(a.size(), b.size()); i++) {
                        paired.add(a.get(i % a.size()));
                        with.add(b.get(i % b.size()));
                    }
                    notes.add(parent + " has no way in common: compared as "
                            + IntStream.range(0, paired.size())
                                    .mapToObj(i -> word(paired.get(i)) + " against " + word(with.get(i)))
                                    .collect(Collectors.joining(", ")));
                    own.add(paired);
                    other.add(with);
                } else {
                    own.add(both);
                    other.add(both);
                }
            }
            waysOfFirst = new WayChoices(parents, own);
            waysOfSecond = new WayChoices(parents, other);
        }

        private static String word(String way) {
            return way.equals(BreakdownRow.ANY) ? "the only way" : way;
        }

        private Set<String> cuts(String level) {
            Set<String> cuts = new LinkedHashSet<>(codes(first, level));
            cuts.addAll(codes(second, level));
            return cuts;
        }

        private static WayShares shares(YieldTable table, Category category, WayChoices choices) {
            CompiledTable compiled = table.unwrap(CompiledTable.class);
            return new WayShares(
                    compiled.layout(),
                    table.definition().cuts(),
                    compiled.group(category).breakdowns(),
                    choices);
        }

        /** A cut of a level, with the terms of both tables by the choices that they name. */
        private static final class Target {
            final String level;
            final String cut;
            private final List<List<Integer>> picks;
            /** By picks, the number of the term in each table, or below 0. */
            private final int[] ofFirst;

            private final int[] ofSecond;

            Target(String level, String cut, WayShares a, WayShares b) {
                this.level = level;
                this.cut = cut;
                Set<List<Integer>> all = new LinkedHashSet<>();
                a.terms(level, cut).forEach(term -> all.add(a.picks(term)));
                b.terms(level, cut).forEach(term -> all.add(b.picks(term)));
                picks = List.copyOf(all);
                ofFirst = terms(a);
                ofSecond = terms(b);
            }

            private int[] terms(WayShares shares) {
                int[] terms = new int[picks.size()];
                Arrays.fill(terms, -1);
                shares.terms(level, cut).forEach(term -> terms[picks.indexOf(shares.picks(term))] = term);
                return terms;
            }

            /** What every choice changes at a node. */
            private List<BestMix.Part> changes(double[][] a, double[][] b) {
                List<BestMix.Part> changes = new ArrayList<>();
                for (int i = 0; i < ofFirst.length; i++) {
                    changes.add(new BestMix.Part(picks.get(i), minus(share(b, ofSecond[i]), share(a, ofFirst[i]))));
                }
                return changes;
            }

            private static double[] share(double[][] terms, int term) {
                return term < 0 ? new double[WayShares.COEFFICIENTS] : terms[term];
            }

            /**
             * The largest change, found at the first node that comes as far; only nodes whose bounds reach that far are
             * looked at closely.
             *
             * @param a terms of the first table by place
             * @param b terms of the second
             */
            Worst worst(BestMix mix, List<double[][]> a, List<double[][]> b) {
                List<List<BestMix.Part>> changes = new ArrayList<>();
                BitSet differ = new BitSet();
                for (int place = 0; place < a.size(); place++) {
                    List<BestMix.Part> here = changes(a.get(place), b.get(place));
                    changes.add(here);
                    for (int i = 0; i < picks.size(); i++) {
                        if (!here.get(i).isNoise()) {
                            differ.set(i);
                        }
                    }
                }
                List<MixBounds.Bounds> bounds = mix.bounds(picks, differ, changes);
                double reached = bounds.stream()
                        .mapToDouble(MixBounds.Bounds::reached)
                        .max()
                        .orElse(0);
                Worst worst = new Worst(0, new BestMix.Best(0, 0, List.of()), List.of());
                double largest = -1;
                for (int place = 0; place < changes.size(); place++) {
                    List<BestMix.Part> here = changes.get(place);
                    MixBounds.Bounds bound = bounds.get(place);
                    double needed = Math.max(largest, reached - 2 * BestMix.NOISE) + BestMix.NOISE;
                    List<BestMix.Best> sides = new ArrayList<>();
                    if (bound.most() > needed) {
                        sides.add(mix.most(here));
                    }
                    if (0 - bound.least() > needed) {
                        sides.add(mix.least(here));
                    }
                    for (BestMix.Best one : sides) {
                        if (Math.abs(one.value()) > largest + NOISE_G_PER_KG / 1000) {
                            largest = Math.abs(one.value());
                            worst = new Worst(place, one, here);
                        }
                    }
                }
                return worst;
            }
        }

        /** Where a change is largest, and what all choices change there. */
        private record Worst(int place, BestMix.Best best, List<BestMix.Part> changes) {}

        /** The largest change of every cut over every mix of ways. */
        private void mixes(Category category, List<String> levels, List<Map<String, Difference>> atLevels) {
            WayShares a = shares(first, category, waysOfFirst);
            WayShares b = shares(second, category, waysOfSecond);
            double referenceKg = first.definition().reference().weightKg();
            double shift = (referenceKg - second.definition().reference().weightKg()) / 100;
            BestMix mix = new BestMix(
                    waysOfFirst.counts(), (weights.low() - referenceKg) / 100, (weights.high() - referenceKg) / 100);
            List<Target> targets = new ArrayList<>();
            levels.forEach(level -> cuts(level).forEach(cut -> targets.add(new Target(level, cut, a, b))));
            List<double[][]> ofFirst = new ArrayList<>();
            List<double[][]> ofSecond = new ArrayList<>();
            for (int c = (int) conformations.low(); c <= conformations.high(); c++) {
                for (int f = (int) fats.low(); f <= fats.high(); f++) {
                    ofFirst.add(a.at(first.unwrap(CompiledTable.class).nodes().at(c, f), 0));
                    ofSecond.add(b.at(second.unwrap(CompiledTable.class).nodes().at(c, f), shift));
                }
            }
            int fatSteps = (int) fats.high() - (int) fats.low() + 1;
            for (Target target : targets) {
                Worst worst = target.worst(mix, ofFirst, ofSecond);
                List<Integer> picks = mix.thatMatter(worst.changes(), worst.best());
                Map<String, String> ways = new TreeMap<>();
                List<String> words = new ArrayList<>();
                for (int i = 0; i < picks.size(); i++) {
                    int pick = picks.get(i);
                    if (pick != WayShares.ANY) {
                        String own = waysOfFirst.ways(i).get(pick);
                        String other = waysOfSecond.ways(i).get(pick);
                        ways.put(waysOfFirst.parent(i), own);
                        words.add(waysOfFirst.parent(i) + " as " + own + (own.equals(other) ? "" : ", now " + other));
                    }
                }
                Collections.sort(words);
                Difference ofMix = new Difference(
                        target.level,
                        target.cut,
                        1000 * worst.best().value(),
                        category,
                        String.join(", ", words),
                        ways,
                        Conformation.third((int) conformations.low() + worst.place() / fatSteps),
                        FatClass.third((int) fats.low() + worst.place() % fatSteps),
                        referenceKg + 100 * worst.best().t());
                // a specification that comes as far says it in one word
                atLevels.get(levels.indexOf(target.level)).merge(target.cut, ofMix, Comparing::larger);
            }
        }

        private Difference largest(
                String level,
                String cut,
                Category category,
                CuttingSpecification specification,
                YieldGrid a,
                YieldGrid b) {
            int slotA = a.layout().find(a.layout().levelIndex(level), cut);
            int slotB = b.layout().find(b.layout().levelIndex(level), cut);
            double low = (weights.low() - first.definition().reference().weightKg()) / 100;
            double high = (weights.high() - first.definition().reference().weightKg()) / 100;
            double shift = (first.definition().reference().weightKg()
                            - second.definition().reference().weightKg())
                    / 100;
            double largest = -1;
            double difference = 0;
            int atC = 0;
            int atF = 0;
            double atT = 0;
            for (int c = (int) conformations.low(); c <= conformations.high(); c++) {
                for (int f = (int) fats.low(); f <= fats.high(); f++) {
                    double[] change =
                            minus(Polynomials.shifted(polynomial(b, c, f, slotB), shift), polynomial(a, c, f, slotA));
                    double[] negative = minus(new double[change.length], change);
                    for (double[] side : List.of(change, negative)) {
                        double t = Polynomials.argMin(side, low, high);
                        double value = Polynomials.value(change, t);
                        if (Math.abs(value) > largest + NOISE_G_PER_KG / 1000) {
                            largest = Math.abs(value);
                            difference = value;
                            atC = c;
                            atF = f;
                            atT = t;
                        }
                    }
                }
            }
            return new Difference(
                    level,
                    cut,
                    1000 * difference,
                    category,
                    specification.name(),
                    specification.ways(),
                    Conformation.third(atC),
                    FatClass.third(atF),
                    first.definition().reference().weightKg() + 100 * atT);
        }

        /** A cut that a table lacks is no part of the carcass there. */
        private static double[] polynomial(YieldGrid grid, int c, int f, int slot) {
            return slot < 0 ? new double[1] : grid.ofSlots(grid.nodes().at(c, f), slot);
        }

        private static Difference larger(Difference before, Difference now) {
            return Math.abs(now.differenceGPerKg()) > Math.abs(before.differenceGPerKg()) + NOISE_G_PER_KG
                    ? now
                    : before;
        }

        private static double[] minus(double[] a, double[] b) {
            double[] difference = new double[Math.max(a.length, b.length)];
            for (int j = 0; j < difference.length; j++) {
                difference[j] = (j < a.length ? a[j] : 0) - (j < b.length ? b[j] : 0);
            }
            return difference;
        }
    }

    /**
     * The largest difference of every cut, level by level in printing order.
     *
     * @return an unmodifiable list
     */
    public List<Difference> differences() {
        return differences;
    }

    /**
     * What else the two tables say otherwise, by kind. The name and version of a table aren't compared, and how it is
     * written down is no change: the order of rows, categories spelled out or not, another reference carcass, rewritten
     * terms, declared decimals.
     *
     * @return an unmodifiable list, empty if nothing but shares differs and nothing is {@link #lost()}
     */
    public List<TableChange> changes() {
        return changes;
    }

    /**
     * What should be known about the comparison itself: over which range it was made, which ways were compared with each
     * other where a cut has none in common, and whether the tables have another basis.
     *
     * @return sentences, empty if there is nothing to say
     */
    public List<String> notes() {
        return notes;
    }

    /**
     * What the first table can do and the second can't: categories, levels, cuts, ways, cutting specifications and
     * ranges that it no longer has.
     *
     * @return in words, empty if nothing is lost
     */
    public List<String> lost() {
        return lost;
    }

    /**
     * The differences that go beyond a budget.
     *
     * @param budgetGPerKg largest difference allowed, g per kg of carcass, 0 or more
     * @return the differences beyond it, empty if no cut moves more anywhere
     * @throws IllegalArgumentException if the budget is negative or not a number
     */
    public List<Difference> beyond(double budgetGPerKg) {
        if (!(budgetGPerKg >= 0)) {
            throw new IllegalArgumentException("budget " + budgetGPerKg + " g/kg is below 0");
        }
        return differences.stream()
                .filter(difference -> Math.abs(difference.differenceGPerKg()) > budgetGPerKg + NOISE_G_PER_KG)
                .toList();
    }

    /**
     * The changes of other kinds that go beyond a budget.
     *
     * @param budget what is allowed
     * @return the changes beyond it
     */
    public List<TableChange> beyond(ChangeBudget budget) {
        Objects.requireNonNull(budget, "budget");
        return changes.stream().filter(change -> !budget.allows(change)).toList();
    }

    /**
     * Whether the second table may take the first one's place with nothing but shares changed: a regression gate for tables.
     *
     * @param budgetGPerKg largest difference allowed, g per kg of carcass, 0 or more
     * @return true if no cut moves more anywhere in any mix of ways, nothing is {@link #lost()} and nothing else changed
     *     but the description
     * @throws IllegalArgumentException if the budget is negative or not a number
     */
    public boolean within(double budgetGPerKg) {
        return within(ChangeBudget.ofShares(budgetGPerKg));
    }

    /**
     * Whether the second table may take the first one's place: a regression gate for tables.
     *
     * @param budget what may change, and how far
     * @return true if no cut moves more anywhere in any mix of ways, nothing is {@link #lost()}, and what else changed is
     *     within the budget of its kind
     */
    public boolean within(ChangeBudget budget) {
        Objects.requireNonNull(budget, "budget");
        return beyond(budget.sharesGPerKg()).isEmpty()
                && lost.isEmpty()
                && beyond(budget).isEmpty();
    }

    /**
     * The shares of cuts as a frame: a cut at a level in a row, where it moves most. What else changed is
     * {@link #changes()}.
     *
     * @return both tables, level, cut, difference in g/kg, and where that is
     */
    public Frame toFrame() {
        return new TableComparisonText(this).frame();
    }

    /**
     * The comparison for people.
     *
     * @return lines of plain text; differences in g per kg of carcass
     */
    @Override
    public String toText() {
        return new TableComparisonText(this).text();
    }

    /**
     * The comparison as HTML without style sheets.
     *
     * @return a heading, a table and the notes
     */
    @Override
    public String toHtml() {
        return new TableComparisonText(this).html();
    }

    @Override
    public boolean equals(@Nullable Object other) {
        // the tables decide all else
        return other instanceof TableComparison that && first.equals(that.first) && second.equals(that.second);
    }

    @Override
    public int hashCode() {
        return Objects.hash(first, second);
    }

    /**
     * One line.
     *
     * @return the tables and the largest difference of all
     */
    @Override
    public String toString() {
        return new TableComparisonText(this).line();
    }
}
