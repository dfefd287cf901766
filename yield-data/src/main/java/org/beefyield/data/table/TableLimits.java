package org.beefyield.data.table;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SpecificationRow;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.table.definition.TableRange;
import org.beefyield.table.definition.TableSchema;

/**
 * How large a table from a file may be. Each limit is far above any plant's table, and keeps a hostile one from filling
 * the memory or the day before anything is said about it.
 */
final class TableLimits {
    /** Rows of all resources together. */
    static final int MOST_ROWS = 250_000;

    static final int MOST_LEVELS = 20;
    static final int MOST_TERMS = 50;
    static final int MOST_CUTS = 1000;

    /** Columns beside those that a resource has of its own. */
    static final int MOST_EXTRA_COLUMNS = 20;

    /** Characters of a name or number; the longest decimal of a double that needs no exponent has fewer. */
    static final int LONGEST_NAME = 400;

    /** Characters of any other cell. */
    static final int LONGEST_CELL = 10_000;

    /** Problems after which reading stops. */
    static final int MOST_PROBLEMS = 10_000;

    /** Children of all breakdowns, in every way, for every category. */
    private static final long MOST_CHILDREN = 100_000;

    /** Rows looked through to find those of each breakdown. */
    private static final long MOST_LOOKUPS = 100_000_000;

    /** Coefficients of the shares of every cut at every level and node, for each category and choice of ways. */
    private static final long MOST_SHARES = 100_000_000;

    private static final int COEFFICIENTS = 4;

    private TableLimits() {}

    /** What is too much in a definition, in words; empty if nothing is. */
    static List<String> exceeded(TableDefinition definition) {
        Map<String, Set<String>> ways = new HashMap<>();
        Map<String, Set<String>> children = new HashMap<>();
        Stream.concat(
                        definition.breakdown().stream().map(row -> List.of(row.parent(), row.way(), row.cut())),
                        definition.breakdownByClass().stream().map(row -> List.of(row.parent(), row.way(), row.cut())))
                .forEach(row -> {
                    ways.computeIfAbsent(row.get(0), parent -> new HashSet<>()).add(row.get(1));
                    children.computeIfAbsent(row.get(0), parent -> new HashSet<>())
                            .add(row.get(2));
                });
        long categories = definition.categories().size();
        long breakdowns = 0;
        long inBreakdowns = 0;
        long mostWays = 1;
        for (Map.Entry<String, Set<String>> its : ways.entrySet()) {
            its.getValue().remove(BreakdownRow.ANY);
            long count = Math.max(1, its.getValue().size());
            breakdowns += count;
            inBreakdowns +=
                    count * children.getOrDefault(its.getKey(), Set.of()).size();
            mostWays = Math.max(mostWays, count);
        }
        long specifications = definition.specifications().stream()
                .map(SpecificationRow::specification)
                .distinct()
                .count();
        long rows = (long) definition.breakdown().size()
                + definition.breakdownByClass().size();
        long shares = categories
                * (specifications + mostWays)
                * nodes(definition.allowed())
                * definition.levels().size()
                * definition.cuts().size()
                * COEFFICIENTS;
        return Stream.of(
                        limit(definition.cuts().size(), MOST_CUTS, TableSchema.CUTS.code()),
                        limit(
                                categories * inBreakdowns,
                                MOST_CHILDREN,
                                "children in its breakdowns, each way and category counted"),
                        limit(
                                categories * breakdowns * rows,
                                MOST_LOOKUPS,
                                "look-ups (breakdowns, each way and category counted, times rows)"),
                        limit(
                                shares,
                                MOST_SHARES,
                                "shares to prove (categories, times specifications and ways, nodes, levels, cuts and "
                                        + COEFFICIENTS + ")"))
                .filter(message -> !message.isEmpty())
                .collect(Collectors.toList());
    }

    private static String limit(long found, long most, String what) {
        return found <= most ? "" : "the table has " + found + " " + what + "; at most " + most + " are read";
    }

    private static long nodes(TableRange range) {
        double conformations =
                range.conformation().high() - range.conformation().low() + 1;
        double fats = range.fat().high() - range.fat().low() + 1;
        return Math.round(Math.min(18, conformations) * Math.min(15, fats));
    }
}
