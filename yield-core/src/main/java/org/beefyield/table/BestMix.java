package org.beefyield.table;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.beefyield.grid.Polynomials;

/**
 * The largest value of a figure over every mix of ways and every weight of a range. The figure is a sum of polynomials in
 * weight, each of which is there in those mixes that make some choices.
 *
 * <p>Choices that no polynomial has in common are free of each other, so the best of each is taken by itself, as the upper
 * envelope of its polynomials, cut where another takes the lead. Where polynomials tie choices to each other, as ways of
 * the carcass do to those of the primals, one of them is fixed at a time. So the work grows with the ways on one path
 * from the carcass down, not with the number of mixes, unless cuts that are broken down in ways of their own come from
 * several parents that have ways: those are gone through together, exactly too.
 */
final class BestMix {
    /** Sizes below this are noise of the arithmetic. */
    static final double NOISE = 1e-15;

    /** What changes the figure by less, as a fraction, doesn't matter to it. */
    private static final double SAME = 1e-12;

    private final int[] counts;
    private final double low;
    private final double high;

    /** A part of the figure. */
    static final class Part {
        /** The choices in which it is there: by parent, the number of the choice or {@link WayShares#ANY}. */
        private final List<Integer> picks;
        /** In t, constant first. */
        private final double[] polynomial;

        Part(List<Integer> picks, double[] polynomial) {
            this.picks = picks;
            this.polynomial = polynomial;
        }

        boolean isNoise() {
            return BestMix.isNoise(polynomial);
        }
    }

    /**
     * Where the figure is largest.
     *
     * @param mix by parent, the number of the choice, or {@link WayShares#ANY} where no part names the parent
     */
    record Best(double value, double t, List<Integer> mix) {}

    /** What is best from one weight to another. */
    private static final class Piece {
        private final double from;
        private final double to;
        private final double[] polynomial;
        private final int[] picks;

        Piece(double from, double to, double[] polynomial, int[] picks) {
            this.from = from;
            this.to = to;
            this.polynomial = polynomial;
            this.picks = picks;
        }
    }

    /**
     * @param counts by parent, how many choices it has
     * @param low least t
     * @param high largest t
     */
    BestMix(int[] counts, double low, double high) {
        this.counts = counts;
        this.low = low;
        this.high = high;
    }

    /** The largest value; 0 if there are no parts. */
    Best most(List<Part> parts) {
        double value = Double.NEGATIVE_INFINITY;
        double at = low;
        int[] picks = none();
        for (Piece piece : envelope(parts)) {
            double t = Polynomials.argMin(negative(piece.polynomial), piece.from, piece.to);
            double here = Polynomials.value(piece.polynomial, t);
            if (here > value) {
                value = here;
                at = t;
                picks = piece.picks;
            }
        }
        return new Best(value, at, Arrays.stream(picks).boxed().toList());
    }

    /**
     * How far the figure can go at each of some places, quickly.
     *
     * @param picks by part, the choices in which it is there
     * @param counting which parts are more than noise anywhere
     * @param places the parts at each place
     */
    List<MixBounds.Bounds> bounds(List<List<Integer>> picks, BitSet counting, List<List<Part>> places) {
        MixBounds bounds = new MixBounds(counts, picks, counting);
        double[][] inRange = new double[picks.size()][];
        List<MixBounds.Bounds> all = new ArrayList<>();
        for (List<Part> parts : places) {
            counting.stream()
                    .forEach(part -> inRange[part] = Polynomials.bernstein(parts.get(part).polynomial, low, high));
            all.add(bounds.of(inRange));
        }
        return all;
    }

    /** The smallest value. */
    Best least(List<Part> parts) {
        Best best = most(parts.stream()
                .map(part -> new Part(part.picks, negative(part.polynomial)))
                .toList());
        return new Best(0 - best.value, best.t, best.mix);
    }

    private static double[] negative(double[] polynomial) {
        double[] negative = new double[polynomial.length];
        for (int j = 0; j < negative.length; j++) {
            negative[j] = 0 - polynomial[j];
        }
        return negative;
    }

    private int[] none() {
        int[] none = new int[counts.length];
        Arrays.fill(none, WayShares.ANY);
        return none;
    }

    private static boolean isNoise(double[] polynomial) {
        for (double coefficient : polynomial) {
            if (Math.abs(coefficient) > NOISE) {
                return false;
            }
        }
        return true;
    }

    private List<Piece> envelope(List<Part> parts) {
        double[] constant = new double[WayShares.COEFFICIENTS];
        List<Part> open = new ArrayList<>();
        for (Part part : parts) {
            if (part.picks.stream().allMatch(pick -> pick == WayShares.ANY)) {
                add(constant, part.polynomial);
            } else if (!isNoise(part.polynomial)) {
                open.add(part);
            }
        }
        List<Piece> sum = List.of(new Piece(low, high, constant, none()));
        while (!open.isEmpty()) {
            List<Part> tied = new ArrayList<>();
            tied.add(open.remove(open.size() - 1));
            for (int i = 0; i < tied.size(); i++) {
                for (int j = open.size() - 1; j >= 0; j--) {
                    if (share(tied.get(i), open.get(j))) {
                        tied.add(open.remove(j));
                    }
                }
            }
            sum = sum(sum, ofTied(tied));
        }
        return sum;
    }

    private static boolean share(Part a, Part b) {
        for (int i = 0; i < a.picks.size(); i++) {
            if (a.picks.get(i) != WayShares.ANY && b.picks.get(i) != WayShares.ANY) {
                return true;
            }
        }
        return false;
    }

    /** The best of parts that hang together: each choice of the parent that most of them name, the rest by itself. */
    private List<Piece> ofTied(List<Part> parts) {
        int parent = mostNamed(parts);
        List<Piece> best = List.of();
        for (int choice = 0; choice < counts[parent]; choice++) {
            List<Part> left = new ArrayList<>();
            for (Part part : parts) {
                int pick = part.picks.get(parent);
                if (pick == WayShares.ANY) {
                    left.add(part);
                } else if (pick == choice) {
                    List<Integer> others = new ArrayList<>(part.picks);
                    others.set(parent, WayShares.ANY);
                    left.add(new Part(others, part.polynomial));
                }
            }
            List<Piece> pieces = new ArrayList<>();
            for (Piece piece : envelope(left)) {
                int[] picks = piece.picks.clone();
                picks[parent] = choice;
                pieces.add(new Piece(piece.from, piece.to, piece.polynomial, picks));
            }
            best = best.isEmpty() ? pieces : larger(best, pieces);
        }
        return best;
    }

    private int mostNamed(List<Part> parts) {
        int[] named = new int[counts.length];
        for (Part part : parts) {
            for (int i = 0; i < named.length; i++) {
                named[i] += part.picks.get(i) == WayShares.ANY ? 0 : 1;
            }
        }
        int most = 0;
        for (int i = 1; i < named.length; i++) {
            most = named[i] > named[most] ? i : most;
        }
        return most;
    }

    private static void add(double[] sum, double[] polynomial) {
        for (int j = 0; j < polynomial.length; j++) {
            sum[j] += polynomial[j];
        }
    }

    /** Goes through two rows of pieces where both are one polynomial. */
    private interface Together {
        void piece(double from, double to, Piece a, Piece b);
    }

    private static void together(List<Piece> a, List<Piece> b, Together visitor) {
        int i = 0;
        int j = 0;
        double from = a.get(0).from;
        while (i < a.size() && j < b.size()) {
            double to = Math.min(a.get(i).to, b.get(j).to);
            visitor.piece(from, to, a.get(i), b.get(j));
            boolean endsA = a.get(i).to <= to;
            boolean endsB = b.get(j).to <= to;
            i += endsA ? 1 : 0;
            j += endsB ? 1 : 0;
            from = to;
        }
    }

    /** The sum of what hangs on different parents. */
    private static List<Piece> sum(List<Piece> a, List<Piece> b) {
        List<Piece> sum = new ArrayList<>();
        together(a, b, (from, to, one, other) -> {
            double[] polynomial = one.polynomial.clone();
            add(polynomial, other.polynomial);
            int[] picks = one.picks.clone();
            for (int k = 0; k < picks.length; k++) {
                picks[k] = picks[k] == WayShares.ANY ? other.picks[k] : picks[k];
            }
            sum.add(new Piece(from, to, polynomial, picks));
        });
        return sum;
    }

    private static List<Piece> larger(List<Piece> a, List<Piece> b) {
        List<Piece> larger = new ArrayList<>();
        together(a, b, (from, to, one, other) -> {
            double[] difference = other.polynomial.clone();
            add(difference, negative(one.polynomial));
            double start = from;
            for (double change : Polynomials.signChanges(difference, from, to)) {
                larger.add(piece(start, change, one, other, difference));
                start = change;
            }
            larger.add(piece(start, to, one, other, difference));
        });
        return larger;
    }

    private static Piece piece(double from, double to, Piece one, Piece other, double[] difference) {
        Piece better = Polynomials.value(difference, from + (to - from) / 2) > 0 ? other : one;
        return new Piece(from, to, better.polynomial, better.picks);
    }

    /**
     * The choices of a mix without those that make no difference there, also not together.
     *
     * @return by parent, the number of the choice, or {@link WayShares#ANY} where the parent doesn't matter
     */
    List<Integer> thatMatter(List<Part> parts, Best best) {
        int[] picks = best.mix.stream().mapToInt(Integer::intValue).toArray();
        double t = best.t;
        double value = value(parts, picks, t);
        int[] matter = picks.clone();
        for (int i = 0; i < picks.length; i++) {
            if (picks[i] != WayShares.ANY && !mattersAlone(parts, picks, i, value, t)) {
                matter[i] = WayShares.ANY;
                if (!isSettled(parts, matter, value, t)) {
                    matter[i] = picks[i];
                }
            }
        }
        return Arrays.stream(matter).boxed().toList();
    }

    private boolean mattersAlone(List<Part> parts, int[] picks, int i, double value, double t) {
        int[] other = picks.clone();
        for (int choice = 0; choice < counts[i]; choice++) {
            other[i] = choice;
            if (Math.abs(value(parts, other, t) - value) > SAME) {
                return true;
            }
        }
        return false;
    }

    /** Whether some choices settle the figure, whatever the others are. */
    private boolean isSettled(List<Part> parts, int[] picks, double value, double t) {
        List<Part> left = new ArrayList<>();
        List<Part> negative = new ArrayList<>();
        for (Part part : parts) {
            List<Integer> others = new ArrayList<>(part.picks);
            boolean there = true;
            for (int i = 0; i < picks.length && there; i++) {
                int pick = part.picks.get(i);
                there = pick == WayShares.ANY || picks[i] == WayShares.ANY || pick == picks[i];
                others.set(i, picks[i] == WayShares.ANY ? pick : WayShares.ANY);
            }
            if (there) {
                left.add(new Part(others, part.polynomial));
                negative.add(new Part(others, negative(part.polynomial)));
            }
        }
        BestMix there = new BestMix(counts, t, t);
        return there.largest(left) - value <= SAME && value + there.largest(negative) <= SAME;
    }

    private double largest(List<Part> parts) {
        return envelope(parts).stream()
                .mapToDouble(piece -> Polynomials.value(piece.polynomial, low))
                .max()
                .orElseThrow();
    }

    /** The figure in one mix. */
    static double value(List<Part> parts, int[] picks, double t) {
        double value = 0;
        for (Part part : parts) {
            boolean there = true;
            for (int i = 0; i < picks.length && there; i++) {
                there = part.picks.get(i) == WayShares.ANY || part.picks.get(i) == picks[i];
            }
            value += there ? Polynomials.value(part.polynomial, t) : 0;
        }
        return value;
    }
}
