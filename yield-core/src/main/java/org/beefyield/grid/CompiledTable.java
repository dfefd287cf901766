package org.beefyield.grid;

import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.beefyield.carcass.Category;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.TableDefinition;

/**
 * A table resolved: where its cuts stand, and its closed breakdowns by category. Immutable and thread-safe; grids are
 * multiplied through from it, one for each choice of ways.
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

    private final TableDefinition definition;
    private final Nodes nodes;
    private final TableLayout layout;
    private final List<Group> groups;
    /** By category, each with its own SDs: by code of parent, by way. */
    private final Map<Category, Map<String, Map<String, Breakdown>>> breakdowns = new EnumMap<>(Category.class);

    private final int coefficients;

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
     * The errors of one category.
     *
     * @param ways a way of every cut that has ways, by code
     * @param grid the grid of the category's group in these ways
     * @throws IllegalArgumentException if the category is not served
     */
    public YieldErrors errors(Category category, Map<String, String> ways, YieldGrid grid) {
        Map<String, Map<String, Breakdown>> ofCategory = breakdowns.get(category);
        if (ofCategory == null) {
            throw new IllegalArgumentException("category " + category + " is not served");
        }
        Map<String, Breakdown> chosen = chosen(ofCategory, ways);
        Map<String, Integer> firstAlike = new LinkedHashMap<>();
        chosen.forEach((parent, breakdown) -> firstAlike.put(parent, firstAlike(breakdown)));
        return new YieldErrors(
                layout,
                definition.cuts(),
                grid,
                chosen,
                firstAlike,
                new CoefficientShares(nodes, definition.terms(), definition.reference()),
                coefficients);
    }

    /** Number of the first category in which this breakdown has the same shares: its coefficients err alike there. */
    private int firstAlike(Breakdown breakdown) {
        for (int i = 0; i < definition.categories().size(); i++) {
            Breakdown other = breakdowns
                    .getOrDefault(definition.categories().get(i), Map.of())
                    .getOrDefault(breakdown.parent(), Map.of())
                    .get(breakdown.way());
            if (other != null && other.sameShares(breakdown)) {
                return i;
            }
        }
        return definition.categories().size();
    }
}
