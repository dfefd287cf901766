package org.beefyield.table;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.cut.Cut;
import org.beefyield.grid.Breakdown;
import org.beefyield.grid.TableLayout;
import org.beefyield.table.definition.BreakdownRow;
import org.jspecify.annotations.Nullable;

/**
 * The shares of a table's cuts in every mix of ways at once: each share is a sum of terms, and a term is there in those
 * mixes that make the choices that it names. Terms are added up wherever they name the same choices, so that their number
 * grows with the ways on the paths to a cut and not with the mixes. Not thread-safe.
 */
final class WayShares {
    /** Of a polynomial in weight. */
    static final int COEFFICIENTS = 4;

    /** In place of a choice: whichever is made. */
    static final int ANY = -1;

    private final TableLayout layout;
    private final Map<String, Map<String, Breakdown>> breakdowns;
    private final WayChoices choices;
    private final List<List<Integer>> picks = new ArrayList<>();
    /** By level and code: numbers of the terms. */
    private final List<Map<String, List<Integer>>> terms = new ArrayList<>();

    private final List<Edge> edges = new ArrayList<>();

    /** What a term of a parent gives to a term of one of its children; without a breakdown it is all of it. */
    private record Edge(int from, int to, @Nullable Breakdown breakdown, int child) {}

    /**
     * @param breakdowns breakdowns of a group of categories: by code of parent, by way
     * @param choices the ways to choose from, as this table calls them
     */
    WayShares(TableLayout layout, List<Cut> cuts, Map<String, Map<String, Breakdown>> breakdowns, WayChoices choices) {
        this.layout = layout;
        this.breakdowns = breakdowns;
        this.choices = choices;
        Integer[] none = new Integer[choices.size()];
        Arrays.fill(none, ANY);
        picks.add(List.of(none));
        Map<String, List<Integer>> standing = Map.of();
        for (int level = 0; level < layout.levels().size(); level++) {
            Next next = new Next();
            if (level == 0) {
                breakDown(BreakdownRow.ROOT, 0, next);
            }
            for (Cut cut : cuts) {
                for (int term : standing.getOrDefault(cut.code(), List.of())) {
                    if (layout.levelIndex(cut.level()) == level - 1) {
                        breakDown(cut.code(), term, next);
                    } else {
                        next.give(cut.code(), picks.get(term), term, null, 0);
                    }
                }
            }
            standing = next.terms();
            terms.add(standing);
        }
    }

    /** The terms of a level while they are found. */
    private final class Next {
        private final Map<String, Map<List<Integer>, Integer>> found = new LinkedHashMap<>();

        void give(String cut, List<Integer> picked, int from, @Nullable Breakdown breakdown, int child) {
            int to = found.computeIfAbsent(cut, code -> new LinkedHashMap<>()).computeIfAbsent(picked, its -> {
                picks.add(its);
                return picks.size() - 1;
            });
            edges.add(new Edge(from, to, breakdown, child));
        }

        Map<String, List<Integer>> terms() {
            Map<String, List<Integer>> ofLevel = new HashMap<>();
            found.forEach((cut, its) -> ofLevel.put(cut, List.copyOf(its.values())));
            return ofLevel;
        }
    }

    private void breakDown(String parent, int term, Next next) {
        Map<String, Breakdown> byWay = breakdowns.getOrDefault(parent, Map.of());
        int number = choices.find(parent);
        List<String> ways = number < 0 ? List.of(BreakdownRow.ANY) : choices.ways(number);
        boolean isOne = ways.stream().distinct().count() == 1;
        for (int choice = 0; choice < (isOne ? 1 : ways.size()); choice++) {
            List<Integer> picked = picks.get(term);
            if (!isOne) {
                picked = new ArrayList<>(picked);
                picked.set(number, choice);
                picked = List.copyOf(picked);
            }
            Breakdown breakdown = byWay.get(ways.get(choice));
            if (breakdown == null) {
                next.give(parent, picked, term, null, 0);
                continue;
            }
            for (int child = 0; child < breakdown.children().size(); child++) {
                next.give(breakdown.children().get(child).code(), picked, term, breakdown, child);
            }
        }
    }

    /** Numbers of the terms whose sum is the share of a cut at a level, none if it doesn't stand there. */
    List<Integer> terms(String level, String cut) {
        return terms.get(layout.levelIndex(level)).getOrDefault(cut, List.of());
    }

    /** The choices that a term names: by parent, the number of the choice or {@link #ANY}. */
    List<Integer> picks(int term) {
        return picks.get(term);
    }

    /**
     * All terms at a node.
     *
     * @param shift what is added to t = (w - w0)/100 of the polynomials to have the t of the table
     * @return by term, a polynomial in t, constant first
     */
    double[][] at(int node, double shift) {
        double[][] values = new double[picks.size()][COEFFICIENTS];
        values[0][0] = 1;
        for (Edge edge : edges) {
            double[] from = values[edge.from];
            double[] to = values[edge.to];
            Breakdown breakdown = edge.breakdown;
            double slope = breakdown == null ? 0 : breakdown.slope(edge.child, node);
            double share = breakdown == null ? 1 : breakdown.share(edge.child, node) + slope * shift;
            for (int j = 0; j < COEFFICIENTS; j++) {
                to[j] += from[j] * share + (j == 0 ? 0 : from[j - 1] * slope);
            }
        }
        return values;
    }
}
