package org.beefyield.grid;

import java.util.Collections;
import java.util.EnumMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.beefyield.carcass.Category;
import org.beefyield.cut.Cut;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SharedBy;
import org.beefyield.table.definition.TableDefinition;
import org.jspecify.annotations.Nullable;

/**
 * A table resolved: where its cuts stand, and its closed breakdowns by category. Thread-safe, and immutable but for the
 * grids that it keeps: they are multiplied through from it, one for each choice of ways.
 */
public final class CompiledTable {
    /**
     * Categories with equal shares, which share one grid.
     *
     * @param categories the categories
     * @param breakdowns their breakdowns: by code of parent, by way
     */
    public record Group(List<Category> categories, Map<String, Map<String, Breakdown>> breakdowns) {
        public Group {
            categories = List.copyOf(categories);
            breakdowns = copy(breakdowns);
        }

        public String letters() {
            return categories.stream().map(Category::letter).collect(Collectors.joining());
        }
    }

    /**
     * The table multiplied through in one choice of ways.
     *
     * @param grids of each category served; those of a group are one
     * @param errors of each category served
     * @param alike of each category served, the first in which all errors but those of coefficients do the same
     */
    public record InWays(
            Map<Category, YieldGrid> grids, Map<Category, YieldErrors> errors, Map<Category, Category> alike) {
        public InWays {
            grids = Collections.unmodifiableMap(grids);
            errors = Collections.unmodifiableMap(errors);
            alike = Collections.unmodifiableMap(alike);
        }
    }

    /** Choices of ways that are kept, for those who go to and fro between specifications; each takes half a megabyte. */
    private static final int MOST_KEPT = 8;

    private final TableDefinition definition;
    private final Nodes nodes;
    private final TableLayout layout;
    private final List<Group> groups;
    /** By category, each with its own SDs: by code of parent, by way. */
    private final Map<Category, Map<String, Map<String, Breakdown>>> breakdowns = new EnumMap<>(Category.class);

    private final int coefficients;
    private final CoefficientShares formula;
    private final DrawNumbers numbers;
    private final RowSources sources;

    /** The choices of ways that were asked for last. */
    private final Map<Map<String, String>, InWays> kept = new LinkedHashMap<>(2 * MOST_KEPT, 0.75f, true) {
        private static final long serialVersionUID = 1;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Map<String, String>, InWays> eldest) {
            return size() > MOST_KEPT;
        }
    };

    /**
     * @param breakdowns breakdowns of each category: by code of parent, by way
     * @param coefficients of every polynomial in weight: the highest degree of a cut's share and one more
     */
    public CompiledTable(
            TableDefinition definition,
            TableLayout layout,
            List<Group> groups,
            Map<Category, Map<String, Map<String, Breakdown>>> breakdowns,
            int coefficients) {
        this.definition = definition;
        this.nodes = new Nodes(definition.axes(), definition.allowed());
        this.layout = layout;
        this.groups = List.copyOf(groups);
        this.coefficients = coefficients;
        breakdowns.forEach((category, ofCategory) -> this.breakdowns.put(category, copy(ofCategory)));
        this.formula = new CoefficientShares(nodes, definition.terms(), definition.reference());
        this.numbers = new DrawNumbers(this.breakdowns.values());
        this.sources = new RowSources(definition);
    }

    private static Map<String, Map<String, Breakdown>> copy(Map<String, Map<String, Breakdown>> breakdowns) {
        Map<String, Map<String, Breakdown>> copy = new LinkedHashMap<>();
        breakdowns.forEach(
                (parent, byWay) -> copy.put(parent, Collections.unmodifiableMap(new LinkedHashMap<>(byWay))));
        return Collections.unmodifiableMap(copy);
    }

    /** The nodes at which it has shares: those of its allowed range. */
    public Nodes nodes() {
        return nodes;
    }

    public TableLayout layout() {
        return layout;
    }

    public List<Group> groups() {
        return groups;
    }

    /**
     * The group of a category.
     *
     * @throws IllegalArgumentException if the category is not served
     */
    public Group group(Category category) {
        return groups.stream()
                .filter(group -> group.categories().contains(category))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("category " + category + " is not served"));
    }

    /** Whether carcasses of a lot, a run or a hall have errors in common. */
    public boolean hasShared(SharedBy by) {
        return breakdowns.values().stream()
                .flatMap(byParent -> byParent.values().stream())
                .flatMap(byWay -> byWay.values().stream())
                .anyMatch(breakdown -> breakdown.hasShared(by));
    }

    /** The one breakdown of each parent; a parent without ways to choose from needs none. */
    private static Map<String, Breakdown> chosen(
            Map<String, Map<String, Breakdown>> breakdowns, Map<String, String> ways) {
        Map<String, Breakdown> chosen = new LinkedHashMap<>();
        breakdowns.forEach((parent, byWay) -> {
            Breakdown breakdown = byWay.get(ways.getOrDefault(parent, BreakdownRow.ANY));
            if (breakdown != null) {
                chosen.put(parent, breakdown);
            }
        });
        return chosen;
    }

    /**
     * Multiplies the breakdowns of a group through.
     *
     * @param ways a way of every cut that has ways, by code
     */
    public YieldGrid grid(Group group, Map<String, String> ways) {
        return YieldGrid.compile(
                layout,
                definition.cuts(),
                nodes,
                definition.reference().weightKg(),
                chosen(group.breakdowns(), ways),
                coefficients);
    }

    /**
     * All grids and errors in one choice of ways.
     *
     * @param ways a way of every cut that has ways, by code
     */
    public InWays in(Map<String, String> ways) {
        synchronized (kept) {
            return kept.computeIfAbsent(Map.copyOf(ways), this::compile);
        }
    }

    private InWays compile(Map<String, String> ways) {
        Map<Category, YieldGrid> grids = new EnumMap<>(Category.class);
        Map<Category, YieldErrors> errors = new EnumMap<>(Category.class);
        for (Group group : groups) {
            YieldGrid grid = grid(group, ways);
            for (Category category : group.categories()) {
                grids.put(category, grid);
                errors.put(category, errors(category, ways, grid));
            }
        }
        Map<Category, Category> alike = new EnumMap<>(Category.class);
        errors.forEach((category, own) -> errors.forEach((other, theirs) -> {
            if (own.errsAs(theirs)) {
                alike.putIfAbsent(category, other);
            }
        }));
        return new InWays(grids, errors, alike);
    }

    /**
     * A part of carcasses in one choice of ways: what of each cut lies in it, in shares of the whole carcass's weight.
     *
     * @param carcass the whole carcass
     * @param level index of the level that is divided
     * @param fractions by code of each cut of that level, the fraction that lies in the part
     */
    public InWays part(InWays carcass, int level, Map<String, Double> fractions) {
        PartOfCarcass part = new PartOfCarcass(
                level,
                definition.cuts().stream()
                        .mapToDouble(cut -> fractions.getOrDefault(cut.code(), 0.0))
                        .toArray());
        IdentityHashMap<YieldGrid, YieldGrid> byCarcass = new IdentityHashMap<>();
        Map<Category, YieldGrid> grids = new EnumMap<>(Category.class);
        Map<Category, YieldErrors> errors = new EnumMap<>(Category.class);
        carcass.errors().forEach((category, known) -> {
            YieldGrid grid = byCarcass.computeIfAbsent(known.grid(), whole -> known.gridOf(part));
            grids.put(category, grid);
            errors.put(category, known.of(part, grid));
        });
        return new InWays(grids, errors, carcass.alike());
    }

    /**
     * The errors of one category.
     *
     * @param ways a way of every cut that has ways, by code
     * @param grid the grid of the category's group in these ways
     * @throws IllegalArgumentException if the category is not served
     */
    public YieldErrors errors(Category category, Map<String, String> ways, YieldGrid grid) {
        Map<String, Breakdown> chosen = chosen(breakdowns(category), ways);
        return new YieldErrors(
                new BreakdownTree(layout, definition.cuts(), grid, chosen, formula, numbers, coefficients), numbers);
    }

    /**
     * Breakdowns of a category with its own rows: by code of parent, by way.
     *
     * @throws IllegalArgumentException if the category is not served
     */
    public Map<String, Map<String, Breakdown>> breakdowns(Category category) {
        Map<String, Map<String, Breakdown>> ofCategory = breakdowns.get(category);
        if (ofCategory == null) {
            throw new IllegalArgumentException("category " + category + " is not served");
        }
        return ofCategory;
    }

    /**
     * What the independent errors behind the coefficients of one breakdown do to them.
     *
     * @throws IllegalArgumentException if the category is not served or has no such breakdown
     */
    public List<CoefficientLoadings.Loading> loadings(Category category, String parent, String way) {
        Breakdown breakdown =
                breakdowns(category).getOrDefault(parent, Map.of()).get(way);
        if (breakdown == null) {
            throw new IllegalArgumentException(
                    "category " + category + " has no breakdown of " + parent + " in the way " + way);
        }
        return CoefficientLoadings.of(
                numbers, breakdown, definition.coefficientColumns().size());
    }

    /** Covariance of the errors that carcasses of one grade have of their own, and of those in common, g/kg of the parent squared. */
    public double[][] covariance(Category category, String parent, String way, @Nullable SharedBy by) {
        Breakdown breakdown =
                breakdowns(category).getOrDefault(parent, Map.of()).get(way);
        return breakdown == null ? new double[0][0] : breakdown.covariance(by);
    }

    /**
     * The rows down which carcasses of one category come, still without carcasses.
     *
     * @param ways a way of every cut that has ways, by code
     * @param counted which cuts of the last level count
     * @throws IllegalArgumentException if the category is not served
     */
    public RowPaths paths(Category category, Map<String, String> ways, Predicate<Cut> counted) {
        return new RowPaths(
                layout, definition.cuts(), chosen(breakdowns(category), ways), sources, coefficients, counted);
    }
}
