package org.beefyield.table;

import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.beefyield.cut.CutCatalogue;
import org.beefyield.table.definition.BreakdownRow;
import org.jspecify.annotations.Nullable;

/** The ways that a table has, and what is wrong with a choice of them. Immutable. */
final class Ways {
    private final CutCatalogue cuts;
    /** Names of the ways of every parent that has any, in order. */
    private final Map<String, Set<String>> byParent;

    private Ways(CutCatalogue cuts, Map<String, Set<String>> byParent) {
        this.cuts = cuts;
        this.byParent = byParent;
    }

    static Ways of(List<RowKey> rows, CutCatalogue cuts) {
        Map<String, Set<String>> byParent = new LinkedHashMap<>();
        for (RowKey row : rows) {
            if (!row.way().equals(BreakdownRow.ANY)) {
                byParent.computeIfAbsent(row.parent(), parent -> new TreeSet<>())
                        .add(row.way());
            }
        }
        byParent.replaceAll((parent, names) -> Collections.unmodifiableSet(names));
        return new Ways(cuts, Collections.unmodifiableMap(byParent));
    }

    Map<String, Set<String>> byParent() {
        return byParent;
    }

    /** The ways of a parent, none if there is nothing to choose. */
    Set<String> of(String parent) {
        return byParent.getOrDefault(parent, Set.of());
    }

    /** What is wrong with a way of a parent, or null. */
    @Nullable
    String wrong(String parent, String way) {
        Set<String> names = byParent.get(parent);
        if (names == null && cuts.find(parent).isEmpty()) {
            return cuts.unknown(parent);
        }
        if (names == null && byParent.isEmpty()) {
            return "no cut of this table has ways to choose from";
        }
        if (names == null) {
            return "\"" + parent + "\" has no ways to choose from; cuts that have: "
                    + String.join(", ", byParent.keySet());
        }
        return names.contains(way)
                ? null
                : "no way \"" + way + "\" of " + parent + "; its ways: " + String.join(", ", names);
    }

    /** Which parents a choice leaves without a way, in words, or null. */
    @Nullable
    String missing(Collection<String> chosen) {
        List<String> missing = byParent.keySet().stream()
                .filter(parent -> !chosen.contains(parent))
                .toList();
        return missing.isEmpty()
                ? null
                : missing.stream()
                        .map(parent -> parent + " (" + String.join(", ", of(parent)) + ")")
                        .collect(Collectors.joining(", ", "no way is given for ", ""));
    }
}
