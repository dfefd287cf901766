package org.beefyield.table.definition;

import java.io.Serializable;
import java.util.Objects;

/**
 * A term of a share beyond its level and the three plain slopes: a product of two variables or a hinge.
 *
 * <p>In a breakdown the coefficient of a term stands in the column of the term's name, in g per kg of parent for each step of
 * its variables ({@link #unit()}).
 */
public sealed interface Term extends Serializable {
    /** The unit of a level: g per kg of parent. */
    String UNIT_OF_LEVEL = "g/kg";

    /**
     * The unit of its coefficients.
     *
     * @return such as {@code g/kg per point of fat below position 3}
     */
    String unit();

    /**
     * The unit of a plain slope.
     *
     * @param variable what a share changes with
     * @return such as {@code g/kg per point of fat}
     */
    static String unit(Variable variable) {
        Objects.requireNonNull(variable, "variable");
        return UNIT_OF_LEVEL + " per " + step(variable);
    }

    private static String step(Variable variable) {
        return variable == Variable.WEIGHT ? "100 kg" : "point of " + variable.code();
    }

    /**
     * The column that holds the coefficients.
     *
     * @return such as {@code fat_below_3}
     */
    String column();

    /**
     * The product of two different variables, each taken from the reference: (c - c0), (f - f0), (w - w0)/100.
     *
     * @param column column of the coefficients
     * @param first one variable
     * @param second another variable
     * @serial exclude
     */
    record Product(String column, Variable first, Variable second) implements Term {
        /**
         * Checks that the variables differ.
         *
         * @throws IllegalArgumentException if they don't
         */
        public Product {
            Objects.requireNonNull(column, "column");
            Objects.requireNonNull(first, "first");
            Objects.requireNonNull(second, "second");
            if (first == second) {
                throw new IllegalArgumentException("term " + column + " is a product of " + first.code()
                        + " with itself; a product takes two different variables");
            }
        }

        @Override
        public String unit() {
            return Term.unit(first) + " and " + step(second);
        }
    }

    /**
     * A hinge: max(0, knot - x) below a knot or max(0, x - knot) above it.
     *
     * @param column column of the coefficients
     * @param variable conformation or fat
     * @param side the side of the knot on which the hinge acts
     * @param knot the knot, a whole position of the scale
     * @serial exclude
     */
    record Hinge(String column, Variable variable, Side side, int knot) implements Term {
        /**
         * Checks the variable.
         *
         * @throws IllegalArgumentException if it is the weight
         */
        public Hinge {
            Objects.requireNonNull(column, "column");
            Objects.requireNonNull(side, "side");
            Objects.requireNonNull(variable, "variable");
            if (variable == Variable.WEIGHT) {
                throw new IllegalArgumentException(
                        "term " + column + " is a hinge in weight; a hinge takes conformation or fat");
            }
        }

        @Override
        public String unit() {
            return Term.unit(variable) + (side == Side.BELOW ? " below" : " above") + " position " + knot;
        }
    }

    /** The side of a knot. */
    enum Side {
        /** Below the knot. */
        BELOW,
        /** Above the knot. */
        ABOVE
    }
}
