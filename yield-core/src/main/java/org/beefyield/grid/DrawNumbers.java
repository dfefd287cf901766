package org.beefyield.grid;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * Numbers for the errors of a table that are one draw for many carcasses, over all its categories and ways: of breakdowns,
 * each of which errs in one way in a lot, a run and a hall, and of coefficients. Immutable once made.
 */
final class DrawNumbers {
    /** Independent errors of one draw: those of cuts stand in the order of the catalogue, those in common at the end. */
    private static final class Draw {
        private final SortedSet<Integer> cuts = new TreeSet<>();
        private int most;

        int size() {
            return Math.max(cuts.size() + ClosedErrors.COMMON, most);
        }

        int[] places(int[] indexes) {
            List<Integer> ordered = List.copyOf(cuts);
            int[] places = new int[indexes.length];
            for (int k = 0; k < places.length; k++) {
                places[k] = ordered.indexOf(indexes[k]);
            }
            return places;
        }
    }

    /** Coefficients that err together, of all breakdowns in which they err alike. */
    private record Set(List<String> draw, List<Integer> columns, ClosedErrors errors) {}

    private final Map<List<String>, Integer> breakdowns = new HashMap<>();
    private final List<Draw> ofBreakdowns = new ArrayList<>();
    private final Map<List<String>, Integer> draws = new HashMap<>();
    private final List<Draw> ofCoefficients = new ArrayList<>();
    private final Map<Set, Integer> sets = new HashMap<>();

    DrawNumbers(Collection<Map<String, Map<String, Breakdown>>> breakdownsOfCategories) {
        for (Map<String, Map<String, Breakdown>> ofCategory : breakdownsOfCategories) {
            ofCategory.values().forEach(byWay -> byWay.values().forEach(this::number));
        }
    }

    private void number(Breakdown breakdown) {
        Draw draw = draw(breakdowns, ofBreakdowns, key(breakdown));
        for (int index : breakdown.indexes) {
            draw.cuts.add(index);
        }
        for (Breakdown.CoefficientError error : breakdown.coefficientErrors()) {
            Draw ofError = draw(draws, ofCoefficients, error.draw());
            for (int index : breakdown.indexes) {
                ofError.cuts.add(index);
            }
            ofError.most = Math.max(ofError.most, error.errors().independent());
            sets.putIfAbsent(new Set(error.draw(), error.columns(), error.errors()), sets.size());
        }
    }

    private static List<String> key(Breakdown breakdown) {
        return List.of(breakdown.parent(), breakdown.way());
    }

    private static Draw draw(Map<List<String>, Integer> numbers, List<Draw> draws, List<String> name) {
        int number = numbers.computeIfAbsent(name, key -> {
            draws.add(new Draw());
            return draws.size() - 1;
        });
        return draws.get(number);
    }

    private static int known(Map<?, Integer> numbers, Object key) {
        Integer number = numbers.get(key);
        if (number == null) {
            throw new IllegalArgumentException(key + " is no error of the table");
        }
        return number;
    }

    int ofBreakdown(Breakdown breakdown) {
        return known(breakdowns, key(breakdown));
    }

    int breakdowns() {
        return ofBreakdowns.size();
    }

    /** Independent errors of a breakdown in one lot, run or hall. */
    int sizeOfBreakdown(int breakdown) {
        return ofBreakdowns.get(breakdown).size();
    }

    int[] placesInBreakdown(int breakdown, Breakdown of) {
        return ofBreakdowns.get(breakdown).places(of.indexes);
    }

    int draw(Breakdown.CoefficientError error) {
        return known(draws, error.draw());
    }

    int sizeOfDraw(int draw) {
        return ofCoefficients.get(draw).size();
    }

    /** By coefficient, the place of its own independent error; coefficients of further columns err with those of the first. */
    int[] placesInDraw(int draw, Breakdown of) {
        return ofCoefficients.get(draw).places(of.indexes);
    }

    int sets() {
        return sets.size();
    }

    int set(Breakdown.CoefficientError error) {
        return known(sets, new Set(error.draw(), error.columns(), error.errors()));
    }
}
