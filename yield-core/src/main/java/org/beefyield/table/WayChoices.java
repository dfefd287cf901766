package org.beefyield.table;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Ways to choose from, parent by parent: the choices of one parent are numbered from 0 and are free of those of the
 * others. Immutable.
 */
final class WayChoices {
    private final List<String> parents;
    private final List<List<String>> ways;

    /**
     * @param parents codes of the cuts that have ways
     * @param ways by parent, the way that each choice stands for; two may stand for the same
     */
    WayChoices(List<String> parents, List<List<String>> ways) {
        this.parents = List.copyOf(parents);
        this.ways = ways.stream().map(List::copyOf).toList();
    }

    static WayChoices of(Map<String, Set<String>> ways) {
        return new WayChoices(
                new ArrayList<>(ways.keySet()),
                ways.values().stream().map(names -> List.copyOf(names)).toList());
    }

    int size() {
        return parents.size();
    }

    String parent(int number) {
        return parents.get(number);
    }

    /** Number of a parent, or -1 if it has no ways. */
    int find(String parent) {
        return parents.indexOf(parent);
    }

    /** The way of each choice of a parent. */
    List<String> ways(int number) {
        return ways.get(number);
    }

    /** By parent, how many choices it has. */
    int[] counts() {
        return ways.stream().mapToInt(List::size).toArray();
    }
}
