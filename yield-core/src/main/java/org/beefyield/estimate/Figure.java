package org.beefyield.estimate;

import java.util.Objects;
import java.util.function.Function;
import org.beefyield.cut.CutKind;

/**
 * A weighted sum of an outturn's kilograms, such as the kg of one cut, of a kind, or saleable meat: anything of which an
 * {@link Outturn} can tell kg, SD and interval. Immutable.
 */
public final class Figure {
    private final Function<Parts, Sum> sum;
    private final boolean neverNegative;

    /** A figure of one outturn: its kg, and its change per kg of each slot and of the fat in the lean trim behind them. */
    static final class Sum {
        private final double kg;
        private final double[] gradient;

        Sum(double kg, double[] gradient) {
            this.kg = kg;
            this.gradient = gradient;
        }

        double kg() {
            return kg;
        }

        double[] gradient() {
            return gradient;
        }

        Sum plus(Sum other) {
            double[] both = gradient.clone();
            for (int i = 0; i < both.length; i++) {
                both[i] += other.gradient[i];
            }
            return new Sum(kg + other.kg, both);
        }

        Sum times(double factor) {
            double[] product = gradient.clone();
            for (int i = 0; i < product.length; i++) {
                product[i] *= factor;
            }
            return new Sum(kg * factor, product);
        }
    }

    private Figure(Function<Parts, Sum> sum, boolean neverNegative) {
        this.sum = sum;
        this.neverNegative = neverNegative;
    }

    /** Whether it is a sum of kilograms in which none counts for less than 0. */
    boolean isNeverNegative() {
        return neverNegative;
    }

    /** Where the figure's parts are looked up: an outturn. */
    interface Parts {
        /** A cut at the last level at which it stands. */
        Sum cut(String cut);

        /** A cut at a level. */
        Sum cut(String level, String cut);

        /** All cuts of a kind at the last level. */
        Sum kind(CutKind kind);
    }

    Sum of(Parts parts) {
        return sum.apply(parts);
    }

    /** Whether a kind is saleable: all but fat trim, bone and loss. */
    static boolean isMeat(CutKind kind) {
        return kind != CutKind.FAT_TRIM && kind != CutKind.BONE && kind != CutKind.LOSS;
    }

    /**
     * A cut at the last level at which it stands.
     *
     * @param cut code
     * @return the figure; an unknown cut is refused when it is asked of an outturn
     */
    public static Figure cut(String cut) {
        Objects.requireNonNull(cut, "cut");
        return new Figure(parts -> parts.cut(cut), true);
    }

    /**
     * A cut at a level.
     *
     * @param level name of the level
     * @param cut code
     * @return the figure; an unknown level or cut is refused when it is asked of an outturn
     */
    public static Figure cut(String level, String cut) {
        Objects.requireNonNull(level, "level");
        Objects.requireNonNull(cut, "cut");
        return new Figure(parts -> parts.cut(level, cut), true);
    }

    /**
     * All cuts of a kind at the last level.
     *
     * @param kind kind
     * @return the figure
     */
    public static Figure kind(CutKind kind) {
        Objects.requireNonNull(kind, "kind");
        return new Figure(parts -> parts.kind(kind), true);
    }

    /**
     * Saleable meat of the last level: all but fat trim, bone and loss.
     *
     * @return the figure
     */
    public static Figure saleable() {
        Figure saleable = kind(CutKind.MINCE);
        for (CutKind kind : CutKind.values()) {
            if (kind != CutKind.MINCE && isMeat(kind)) {
                saleable = saleable.plus(kind(kind));
            }
        }
        return saleable;
    }

    /**
     * The sum of this and another figure.
     *
     * @param other figure
     * @return the sum
     */
    public Figure plus(Figure other) {
        Objects.requireNonNull(other, "other");
        return new Figure(parts -> sum.apply(parts).plus(other.sum.apply(parts)), neverNegative && other.neverNegative);
    }

    /**
     * This figure times a factor, such as a price per kg.
     *
     * @param factor a finite factor; one below 0 makes it a figure that can be below 0
     * @return the product
     * @throws IllegalArgumentException if the factor is not finite
     */
    public Figure times(double factor) {
        if (!Double.isFinite(factor)) {
            throw new IllegalArgumentException("factor " + factor + " of a figure is not a finite number");
        }
        return new Figure(parts -> sum.apply(parts).times(factor), neverNegative && factor >= 0);
    }
}
