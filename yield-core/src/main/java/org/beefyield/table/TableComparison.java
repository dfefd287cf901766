package org.beefyield.table;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.Cut;
import org.beefyield.grid.CompiledTable;
import org.beefyield.grid.Polynomials;
import org.beefyield.grid.YieldGrid;
import org.beefyield.table.definition.Basis;
import org.beefyield.table.definition.CoefficientNote;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableSchema;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.beefyield.text.Shown;
import org.jspecify.annotations.Nullable;

/**
 * How far two tables differ: for every cut of every level that both have, the largest difference anywhere in their common
 * range, exactly, in g per kg of carcass.
 *
 * <p>Shares are bilinear between whole positions of the grades, so the largest difference lies at one of them; in weight
 * it is an extreme of a polynomial. Categories are compared where both tables have them. Cutting specifications are
 * compared by name, and beside them every way of every cut, whether a specification uses it or not. A cut that one table
 * lacks counts as nothing there, so that it moves by all it is. The common range is that of the allowed ranges.
 */
public final class TableComparison implements Shown {
    /** Differences below this are noise of the arithmetic, g/kg. */
    static final double NOISE_G_PER_KG = 1e-9;

    /**
     * The largest difference of one cut at one level.
     *
     * @param level name of the level
     * @param cut code of the cut
     * @param differenceGPerKg second table less first, g per kg of carcass, where it is largest in size
     * @param category category at that place
     * @param specification cutting specification there, empty if the tables have no ways
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

    private TableComparison(Comparing comparing) {
        this.first = comparing.first;
        this.second = comparing.second;
        this.differences = List.copyOf(comparing.differences);
        this.notes = List.copyOf(comparing.notes);
        this.lost = List.copyOf(comparing.lost);
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
            for (String level : levels) {
                noteOneSided("cut at level " + level, codes(first, level), codes(second, level));
                Set<String> cuts = new LinkedHashSet<>(codes(first, level));
                cuts.addAll(codes(second, level));
                Map<String, Difference> atLevel = new LinkedHashMap<>();
                for (List<Category> group : groups(categories)) {
                    for (CuttingSpecification[] pair : specifications) {
                        YieldGrid a = grid(first, group.get(0), pair[0]);
                        YieldGrid b = grid(second, group.get(0), pair[1]);
                        for (String cut : cuts) {
                            atLevel.merge(cut, largest(level, cut, group.get(0), pair[0], a, b), Comparing::larger);
                        }
                    }
                }
                differences.addAll(atLevel.values());
            }
            noteErrors();
        }

        /** Errors that the two tables state otherwise; the differences of shares don't show them. */
        private void noteErrors() {
            for (SharedBy by : SharedBy.values()) {
                noteErrors(
                        "SDs of " + TableColumn.sharedSd(by),
                        first.states(by),
                        second.states(by),
                        sds(first, by),
                        sds(second, by));
            }
            Map<List<String>, Double> a = standardErrors(first);
            Map<List<String>, Double> b = standardErrors(second);
            noteErrors("standard errors of coefficients", !a.isEmpty(), !b.isEmpty(), a, b);
        }

        private <K> void noteErrors(
                String what, boolean a, boolean b, Map<K, Double> ofFirst, Map<K, Double> ofSecond) {
            if (a != b) {
                notes.add(what + " are stated in " + (a ? first : second).identity() + " only");
            } else if (a && !ofFirst.equals(ofSecond)) {
                Set<K> keys = new HashSet<>(ofFirst.keySet());
                keys.addAll(ofSecond.keySet());
                keys.removeIf(key -> Objects.equals(ofFirst.get(key), ofSecond.get(key)));
                notes.add(what + " differ in " + keys.size() + (keys.size() == 1 ? " row" : " rows"));
            }
        }

        /** By row, but for what it says beside its key. */
        private static Map<RowKey, Double> sds(YieldTable table, SharedBy by) {
            Map<RowKey, Double> sds = new HashMap<>();
            for (RowKey key : RowKey.of(table.definition())) {
                Double sd = (key.resource() == TableSchema.BREAKDOWN
                                ? table.definition().breakdown().get(key.row()).shared()
                                : table.definition()
                                        .breakdownByClass()
                                        .get(key.row())
                                        .shared())
                        .of(by);
                if (sd != null) {
                    sds.put(
                            new RowKey(
                                    key.resource(),
                                    0,
                                    key.category(),
                                    key.way(),
                                    key.parent(),
                                    key.cut(),
                                    key.cell(),
                                    ""),
                            sd);
                }
            }
            return sds;
        }

        /** By coefficient and name of the error. */
        private static Map<List<String>, Double> standardErrors(YieldTable table) {
            Map<List<String>, Double> errors = new HashMap<>();
            for (CoefficientNote note : table.definition().coefficientNotes()) {
                Double error = note.standardError();
                if (error != null) {
                    errors.put(
                            List.of(
                                    note.category(),
                                    note.way(),
                                    note.parent(),
                                    note.cut(),
                                    note.term(),
                                    note.errorId()),
                            error);
                }
            }
            return errors;
        }

        private static YieldGrid grid(YieldTable table, Category category, CuttingSpecification specification) {
            CompiledTable compiled = table.unwrap(CompiledTable.class);
            return compiled.grid(compiled.group(category), specification.ways());
        }

        private void noteBasis() {
            Basis a = first.definition().basis();
            Basis b = second.definition().basis();
            noteBasis("quartering", a.quartering(), b.quartering());
            noteBasis("hanging", a.hanging(), b.hanging());
            noteBasis("fat cover in mm", a.fatCoverMm(), b.fatCoverMm());
            noteBasis("ageing in days", a.ageingDays(), b.ageingDays());
            noteBasis("boneless", a.boneless(), b.boneless());
        }

        private void noteBasis(String what, @Nullable Object a, @Nullable Object b) {
            if (!Objects.equals(a, b)) {
                notes.add("the basis differs in " + what + ": " + stated(a) + " against " + stated(b)
                        + "; part of the difference may come from that");
            }
        }

        private static String stated(@Nullable Object value) {
            return value == null
                    ? "not stated"
                    : value instanceof Double number ? Numbers.exact(number) : value.toString();
        }

        private <T> void noteOneSided(String what, List<T> a, List<T> b) {
            Set<T> onlyFirst = new LinkedHashSet<>(a);
            onlyFirst.removeAll(b);
            Set<T> onlySecond = new LinkedHashSet<>(b);
            onlySecond.removeAll(a);
            onlyFirst.forEach(one -> notes.add(what + " " + one + " is only in " + first.identity()));
            onlyFirst.forEach(one -> lost.add(what + " " + one));
            onlySecond.forEach(one -> notes.add(what + " " + one + " is only in " + second.identity()));
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
                CuttingSpecification own = first.specification(name);
                CuttingSpecification other = second.specification(name);
                if (!own.equals(other)) {
                    notes.add("cutting specification " + name + " cuts in other ways in the two tables");
                }
                pairs.add(new CuttingSpecification[] {own, other});
            }
            noteOneSided("way", wayNames(first), wayNames(second));
            pairs.addAll(covering());
            return pairs;
        }

        private static List<String> wayNames(YieldTable table) {
            return table.ways().entrySet().stream()
                    .flatMap(entry -> entry.getValue().stream().map(way -> "\"" + way + "\" of " + entry.getKey()))
                    .toList();
        }

        /** Every way that both tables have of a cut, in each of the two; where they share none, each its own. */
        private List<CuttingSpecification[]> covering() {
            Map<String, Set<String>> own = new LinkedHashMap<>(first.ways());
            Map<String, Set<String>> other = new LinkedHashMap<>(second.ways());
            first.ways().forEach((parent, names) -> {
                Set<String> both = new TreeSet<>(names);
                both.retainAll(other.getOrDefault(parent, Set.of()));
                if (!both.isEmpty()) {
                    own.put(parent, both);
                    other.put(parent, both);
                }
            });
            List<CuttingSpecification> a = Prover.covering(own);
            List<CuttingSpecification> b = Prover.covering(other);
            List<CuttingSpecification[]> pairs = new ArrayList<>();
            for (int i = 0; i < Math.max(a.size(), b.size()); i++) {
                pairs.add(new CuttingSpecification[] {a.get(i % a.size()), b.get(i % b.size())});
            }
            return pairs;
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
                        if (Math.abs(value) > largest) {
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
                    Conformation.third(atC),
                    FatClass.third(atF),
                    first.definition().reference().weightKg() + 100 * atT);
        }

        /** A cut that a table lacks is no part of the carcass there. */
        private static double[] polynomial(YieldGrid grid, int c, int f, int slot) {
            return slot < 0 ? new double[1] : grid.ofSlots(grid.nodes().at(c, f), slot);
        }

        private static Difference larger(Difference before, Difference now) {
            return Math.abs(now.differenceGPerKg()) > Math.abs(before.differenceGPerKg()) ? now : before;
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
     * What the figures don't say: cuts, levels, categories, specifications and ranges that only one table has, and
     * differences of basis; and errors in common, or of coefficients, that the tables state otherwise.
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
     * Whether the second table may take the first one's place: a regression gate for tables.
     *
     * @param budgetGPerKg largest difference allowed, g per kg of carcass, 0 or more
     * @return true if no cut moves more anywhere and nothing is {@link #lost()}
     * @throws IllegalArgumentException if the budget is negative or not a number
     */
    public boolean within(double budgetGPerKg) {
        return beyond(budgetGPerKg).isEmpty() && lost.isEmpty();
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
