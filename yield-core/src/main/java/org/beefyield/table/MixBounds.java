package org.beefyield.table;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * How far a figure can go in any mix of ways, quickly: it tells which places are worth a look with {@link BestMix}. A
 * polynomial of third degree over a range of weights lies between the least and the largest of its four coefficients in
 * Bernstein's form, of which the outer ones are its values at the ends; of sums of such polynomials the same holds. So it
 * is enough to know the best mix of each of these four numbers by itself. Immutable.
 */
final class MixBounds {
    private static final int ENDS_AND_BETWEEN = WayShares.COEFFICIENTS;

    private final Sum sum;

    /** Parts that are there whatever is chosen, and choices that are free of each other. */
    private static final class Sum {
        private final int[] always;
        private final List<List<Sum>> choices;

        Sum(int[] always, List<List<Sum>> choices) {
            this.always = always;
            this.choices = choices;
        }
    }

    /**
     * @param counts by parent, how many choices it has
     * @param picks by part, the choices in which it is there
     * @param parts which parts count; the others are noise
     */
    MixBounds(int[] counts, List<List<Integer>> picks, BitSet parts) {
        List<Tied> open = new ArrayList<>();
        parts.stream()
                .forEach(part -> open.add(new Tied(
                        part,
                        picks.get(part).stream().mapToInt(Integer::intValue).toArray())));
        this.sum = sum(counts, open);
    }

    /** A part with the choices that it still names. */
    private static final class Tied {
        private final int part;
        private final int[] picks;

        Tied(int part, int[] picks) {
            this.part = part;
            this.picks = picks;
        }

        int part() {
            return part;
        }

        boolean isFree() {
            for (int pick : picks) {
                if (pick != WayShares.ANY) {
                    return false;
                }
            }
            return true;
        }

        boolean shares(Tied other) {
            for (int i = 0; i < picks.length; i++) {
                if (picks[i] != WayShares.ANY && other.picks[i] != WayShares.ANY) {
                    return true;
                }
            }
            return false;
        }
    }

    private static Sum sum(int[] counts, List<Tied> parts) {
        int[] always = parts.stream().filter(Tied::isFree).mapToInt(Tied::part).toArray();
        List<Tied> open = new ArrayList<>(parts);
        open.removeIf(Tied::isFree);
        List<List<Sum>> choices = new ArrayList<>();
        while (!open.isEmpty()) {
            List<Tied> together = new ArrayList<>();
            together.add(open.remove(open.size() - 1));
            for (int i = 0; i < together.size(); i++) {
                Tied one = together.get(i);
                for (int j = open.size() - 1; j >= 0; j--) {
                    if (one.shares(open.get(j))) {
                        together.add(open.remove(j));
                    }
                }
            }
            choices.add(choices(counts, together));
        }
        return new Sum(always, choices);
    }

    /** What each choice of the parent that most of the parts name leaves. */
    private static List<Sum> choices(int[] counts, List<Tied> parts) {
        int[] named = new int[counts.length];
        for (Tied part : parts) {
            for (int i = 0; i < named.length; i++) {
                named[i] += part.picks[i] == WayShares.ANY ? 0 : 1;
            }
        }
        int parent = 0;
        for (int i = 1; i < named.length; i++) {
            parent = named[i] > named[parent] ? i : parent;
        }
        List<Sum> choices = new ArrayList<>();
        for (int choice = 0; choice < counts[parent]; choice++) {
            List<Tied> left = new ArrayList<>();
            for (Tied part : parts) {
                if (part.picks[parent] == WayShares.ANY || part.picks[parent] == choice) {
                    int[] others = part.picks.clone();
                    others[parent] = WayShares.ANY;
                    left.add(new Tied(part.part, others));
                }
            }
            choices.add(sum(counts, left));
        }
        return choices;
    }

    /**
     * How far the figure can go.
     *
     * @param most nowhere in any mix is it larger
     * @param least nowhere in any mix is it smaller
     * @param reached its size is as much in some mix at an end
     */
    record Bounds(double most, double least, double reached) {}

    /**
     * The bounds of a sum of parts.
     *
     * @param parts by part, its coefficients in Bernstein's form
     */
    Bounds of(double[][] parts) {
        double most = Double.NEGATIVE_INFINITY;
        double least = Double.POSITIVE_INFINITY;
        double reached = 0;
        for (int k = 0; k < ENDS_AND_BETWEEN; k++) {
            double high = most(sum, parts, k, 1);
            double low = 0 - most(sum, parts, k, -1);
            most = Math.max(most, high);
            least = Math.min(least, low);
            if (k == 0 || k == ENDS_AND_BETWEEN - 1) {
                reached = Math.max(reached, Math.max(high, 0 - low));
            }
        }
        return new Bounds(most, least, reached);
    }

    private static double most(Sum sum, double[][] parts, int k, int sign) {
        double most = 0;
        for (int part : sum.always) {
            most += sign * parts[part][k];
        }
        for (List<Sum> choices : sum.choices) {
            double best = Double.NEGATIVE_INFINITY;
            for (Sum choice : choices) {
                best = Math.max(best, most(choice, parts, k, sign));
            }
            most += best;
        }
        return most;
    }
}
