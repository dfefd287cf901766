package org.beefyield.grid;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * What one SD of each independent error of the breakdowns does to a figure, where carcasses have these errors in common: those
 * of one lot, one run or one hall, or of one table's coefficients. Its square is the figure's variance from them.
 */
public final class SharedErrors {
    private final double[] @Nullable [] effects;

    SharedErrors(int draws) {
        effects = new double[draws][];
    }

    /** The effects of one draw, to be added to. */
    double[] of(int draw, int size) {
        double[] found = effects[draw];
        if (found == null) {
            found = new double[size];
            effects[draw] = found;
        }
        return found;
    }

    /** Begins anew. */
    public void clear() {
        for (double[] ofDraw : effects) {
            if (ofDraw != null) {
                Arrays.fill(ofDraw, 0);
            }
        }
    }

    /** Covariance of two figures. */
    public double times(SharedErrors other) {
        double sum = 0;
        for (int draw = 0; draw < effects.length; draw++) {
            double[] a = effects[draw];
            double[] b = other.effects[draw];
            for (int m = 0; a != null && b != null && m < a.length; m++) {
                sum += a[m] * b[m];
            }
        }
        return sum;
    }

    /** Variance of the difference of two figures with the same errors. */
    public double squareOfDifference(SharedErrors other) {
        double sum = 0;
        for (int draw = 0; draw < effects.length; draw++) {
            double[] a = effects[draw];
            double[] b = other.effects[draw];
            int size = a != null ? a.length : b != null ? b.length : 0;
            for (int m = 0; m < size; m++) {
                double difference = (a == null ? 0 : a[m]) - (b == null ? 0 : b[m]);
                sum += difference * difference;
            }
        }
        return sum;
    }
}
