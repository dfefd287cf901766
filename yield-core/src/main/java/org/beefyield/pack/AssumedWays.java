package org.beefyield.pack;

import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.beefyield.cut.Cut;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.table.definition.SourceKind;
import org.beefyield.table.definition.SourceRow;
import org.beefyield.table.definition.TableDefinition;

/** Which ways of cutting rest on rows that the maker of the table assumed. */
final class AssumedWays {
    private static final String AS = " as ";

    private AssumedWays() {}

    /** Every way with an assumed row, such as {@code striploin as joints}. */
    static Set<String> of(YieldTable table) {
        TableDefinition definition = table.definition();
        Set<String> assumed = definition.sources().stream()
                .filter(source -> source.kind() == SourceKind.ASSUMPTION)
                .map(SourceRow::source)
                .collect(Collectors.toSet());
        Set<String> ways = new HashSet<>();
        definition.breakdown().stream()
                .filter(row -> assumed.contains(row.source()))
                .forEach(row -> add(ways, table, row.parent(), row.way()));
        definition.breakdownByClass().stream()
                .filter(row -> assumed.contains(row.source()))
                .forEach(row -> add(ways, table, row.parent(), row.way()));
        return ways;
    }

    private static void add(Set<String> ways, YieldTable table, String cut, String written) {
        for (String way : written.equals(BreakdownRow.ANY) ? table.ways(cut) : Set.of(written)) {
            ways.add(words(cut, way));
        }
    }

    static String words(String cut, String way) {
        return cut + AS + way;
    }

    /** A way as {@link #words} has it, with the name of its cut. */
    static String named(String way, YieldTable table) {
        int end = way.indexOf(AS);
        String cut = way.substring(0, end);
        return name(cut, table) + way.substring(end);
    }

    static String name(String cut, YieldTable table) {
        return table.catalogue().find(cut).map(Cut::name).orElse(cut);
    }

    /** What to say of ways of which some are assumed: a sentence, or none. */
    static List<String> caution(Collection<String> assumed) {
        return assumed.isEmpty()
                ? List.of()
                : List.of("It rests on figures that the maker of the table assumed, not weighed, for "
                        + String.join(", ", assumed) + ": try that on the line before you count on it.");
    }
}
