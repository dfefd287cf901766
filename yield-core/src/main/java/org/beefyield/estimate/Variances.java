package org.beefyield.estimate;

import java.util.Arrays;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.concurrent.ConcurrentHashMap;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.grid.Nodes;

/**
 * Variances of figures of single carcasses, kept for the next carcass of the grade: at a whole position of both grades a
 * variance is a polynomial in weight.
 */
final class Variances {
    /** Far above the grades and figures that a table has; beyond it nothing more is kept. */
    private static final int MOST = 20_000;

    private final Map<Key, Polynomial> kept = new ConcurrentHashMap<>();

    private record Key(Category category, int node, double conformationWidth, double fatWidth, Gradient gradient) {}

    /** A figure's change per kg of each slot, as a key. */
    private static final class Gradient {
        private final double[] values;
        private final int hash;

        Gradient(double[] values) {
            this.values = values;
            this.hash = Arrays.hashCode(values);
        }

        @Override
        public boolean equals(Object other) {
            return other instanceof Gradient that && Arrays.equals(values, that.values);
        }

        @Override
        public int hashCode() {
            return hash;
        }
    }

    private static final class Polynomial {
        private final double[] coefficients;

        Polynomial(double[] coefficients) {
            this.coefficients = coefficients;
        }

        double at(double t) {
            return Variances.at(coefficients, t);
        }
    }

    /** A polynomial at t. */
    static double at(double[] coefficients, double t) {
        double value = 0;
        for (int j = coefficients.length - 1; j >= 0; j--) {
            value = value * t + coefficients[j];
        }
        return value;
    }

    private final Nodes nodes;

    Variances(Nodes nodes) {
        this.nodes = nodes;
    }

    /** Works out what isn't kept yet. */
    interface Calculation {
        /** The variance of a figure of one carcass at a node, a polynomial in t. */
        double[] variance(Category category, int node, double conformationWidth, double fatWidth, double[] gradient);
    }

    /**
     * Variance of a figure of a carcass, or empty if its grades are no whole positions or too many are kept.
     *
     * @param t its weight, (w - w0)/100
     */
    OptionalDouble of(Carcass carcass, double t, double[] gradient, Calculation calculation) {
        double conformation = carcass.conformation().position();
        double fat = carcass.fatClass().position();
        if (conformation != Math.rint(conformation) || fat != Math.rint(fat)) {
            return OptionalDouble.empty();
        }
        Key key = new Key(
                carcass.category(),
                nodes.at((int) conformation, (int) fat),
                carcass.conformation().width(),
                carcass.fatClass().width(),
                new Gradient(gradient));
        Polynomial variance = kept.get(key);
        if (variance == null) {
            if (kept.size() >= MOST) {
                return OptionalDouble.empty();
            }
            variance = new Polynomial(calculation.variance(
                    key.category(), key.node(), key.conformationWidth(), key.fatWidth(), gradient));
            kept.put(key, variance);
        }
        return OptionalDouble.of(variance.at(t));
    }
}
