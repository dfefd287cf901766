package org.beefyield.estimate;

import java.util.Arrays;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.jspecify.annotations.Nullable;

/**
 * Variances of figures of single carcasses, kept for the next carcass of the grade: of one grade a variance is a polynomial in
 * weight. What is kept is bounded, and what was kept before doesn't slow down what comes after.
 * Thread-safe.
 */
final class Variances {
    /** Grades of which figures are kept: above what a herd has. When there are more, all is forgotten and begun anew. */
    private static final int MOST_GRADES = 4_000;

    /** Sums of whole cuts that are kept of a grade beside its cuts: kinds, saleable meat. */
    private static final int MOST_SUMS = 64;

    /** Other figures that are kept of a grade, such as values under price lists. */
    private static final int MOST_OTHERS = 16;

    /** Cuts of which a figure may be made up for its variance to be put together from theirs: mince is of lean trim and fat. */
    private static final int MOST_PUT_TOGETHER = 6;

    /** Slots of a figure. */
    private final int slots;

    private final Map<Grade, Kept> kept = new ConcurrentHashMap<>();

    private record Grade(
            Category category, double conformation, double fat, double conformationWidth, double fatWidth) {}

    /** What is kept of one grade: polynomials in t. */
    private static final class Kept {
        private final Map<Figures, double[]> sums = new ConcurrentHashMap<>();
        private final Map<Figures, double[]> others = new ConcurrentHashMap<>();
    }

    /** One or two figures' change per kg of slots, as a key. */
    private static final class Figures {
        private final double[] values;
        private final int hash;

        Figures(double... values) {
            this.values = values;
            this.hash = Arrays.hashCode(values);
        }

        @Override
        public boolean equals(@Nullable Object other) {
            return other instanceof Figures that && Arrays.equals(values, that.values);
        }

        @Override
        public int hashCode() {
            return hash;
        }
    }

    Variances(int slots) {
        this.slots = slots;
    }

    /** Works out what isn't kept yet. */
    interface Calculation {
        /** Covariance of two figures of one carcass of a grade, a polynomial in t. */
        double[] covariance(
                Category category,
                double conformation,
                double fat,
                double conformationWidth,
                double fatWidth,
                double[] a,
                double[] b);
    }

    /** A polynomial at t. */
    static double at(double[] coefficients, double t) {
        double value = 0;
        for (int j = coefficients.length - 1; j >= 0; j--) {
            value = value * t + coefficients[j];
        }
        return value;
    }

    /**
     * Variance of a figure of a carcass.
     *
     * @param t its weight, (w - w0)/100
     */
    double of(Carcass carcass, double t, double[] figure, Calculation calculation) {
        Grade grade = new Grade(
                carcass.category(),
                carcass.conformation().position(),
                carcass.fatClass().position(),
                carcass.conformation().width(),
                carcass.fatClass().width());
        return variance(grade, t, figure, calculation);
    }

    private double variance(Grade grade, double t, double[] figure, Calculation calculation) {
        int count = 0;
        boolean whole = true;
        for (double of : figure) {
            count += of == 0 ? 0 : 1;
            whole &= of == 0 || of == 1;
        }
        if (count == 0) {
            return 0;
        }
        int[] used = new int[count];
        for (int slot = 0, i = 0; i < count; slot++) {
            if (figure[slot] != 0) {
                used[i++] = slot;
            }
        }
        Kept of = kept(grade);
        if (!whole && count <= MOST_PUT_TOGETHER) {
            double variance = 0;
            for (int i = 0; i < count; i++) {
                for (int j = 0; j <= i; j++) {
                    double once =
                            figure[used[i]] * figure[used[j]] * at(ofCuts(of, grade, used[j], used[i], calculation), t);
                    variance += i == j ? once : 2 * once;
                }
            }
            return variance;
        }
        Figures key = new Figures(whole ? Arrays.stream(used).asDoubleStream().toArray() : figure);
        Map<Figures, double[]> map = whole ? of.sums : of.others;
        double[] polynomial = map.get(key);
        if (polynomial == null) {
            polynomial = covariance(grade, figure, figure, calculation);
            keep(map, key, polynomial, whole ? figure.length + MOST_SUMS : MOST_OTHERS);
        }
        return at(polynomial, t);
    }

    private Kept kept(Grade grade) {
        Kept of = kept.get(grade);
        if (of == null) {
            if (kept.size() >= MOST_GRADES) {
                kept.clear();
            }
            of = kept.computeIfAbsent(grade, key -> new Kept());
        }
        return of;
    }

    private static double[] covariance(Grade grade, double[] a, double[] b, Calculation calculation) {
        return calculation.covariance(
                grade.category(), grade.conformation(), grade.fat(), grade.conformationWidth(), grade.fatWidth(), a, b);
    }

    /** Covariance of two slots. */
    private double[] ofCuts(Kept of, Grade grade, int a, int b, Calculation calculation) {
        Figures key = a == b ? new Figures(a) : new Figures(a, b, -1);
        double[] polynomial = of.sums.get(key);
        if (polynomial == null) {
            double[] first = unit(a);
            polynomial = covariance(grade, first, a == b ? first : unit(b), calculation);
            keep(of.sums, key, polynomial, slots + MOST_SUMS);
        }
        return polynomial;
    }

    private static void keep(Map<Figures, double[]> map, Figures key, double[] polynomial, int most) {
        if (map.size() >= most) {
            map.clear();
        }
        map.put(key, polynomial);
    }

    private double[] unit(int slot) {
        double[] figure = new double[slots];
        figure[slot] = 1;
        return figure;
    }
}
