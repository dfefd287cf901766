package org.beefyield.grid;

import java.util.Arrays;
import java.util.function.DoubleConsumer;

/** Exact extremes of polynomials of third degree or less over a closed interval. */
public final class Polynomials {
    private Polynomials() {}

    public static double value(double[] coefficients, double t) {
        double value = 0;
        for (int j = coefficients.length - 1; j >= 0; j--) {
            value = value * t + coefficients[j];
        }
        return value;
    }

    public static double[] derivative(double[] coefficients) {
        double[] derivative = new double[Math.max(1, coefficients.length - 1)];
        for (int j = 1; j < coefficients.length; j++) {
            derivative[j - 1] = j * coefficients[j];
        }
        return derivative;
    }

    /** The polynomial q with q(t) = p(t + shift). */
    public static double[] shifted(double[] coefficients, double shift) {
        double[] shifted = coefficients.clone();
        for (int i = 0; i < shifted.length - 1; i++) {
            for (int j = shifted.length - 2; j >= i; j--) {
                shifted[j] += shift * shifted[j + 1];
            }
        }
        return shifted;
    }

    /**
     * A polynomial of third degree or less by its four coefficients in Bernstein's form over [low, high]: nowhere there is
     * it larger or smaller than all of them, and the outer ones are its values at the ends.
     */
    public static double[] bernstein(double[] coefficients, double low, double high) {
        double[] inRange = new double[4];
        for (int j = coefficients.length - 1; j >= 0; j--) {
            for (int i = 3; i > 0; i--) {
                inRange[i] = inRange[i] * low + inRange[i - 1] * (high - low);
            }
            inRange[0] = inRange[0] * low + coefficients[j];
        }
        double a = inRange[0];
        double b = inRange[1] / 3;
        double c = inRange[2] / 3;
        return new double[] {a, a + b, a + 2 * b + c, a + 3 * b + 3 * c + inRange[3]};
    }

    /** Where the smallest value over [low, high] is taken. */
    public static double argMin(double[] coefficients, double low, double high) {
        double[] best = {low};
        DoubleConsumer candidate = t -> {
            if (t > low && t <= high && value(coefficients, t) < value(coefficients, best[0])) {
                best[0] = t;
            }
        };
        candidate.accept(high);
        double[] d = derivative(coefficients);
        double a = d.length > 2 ? d[2] : 0;
        double b = d.length > 1 ? d[1] : 0;
        double c = d[0];
        double discriminant = b * b - 4 * a * c;
        if (a == 0) {
            candidate.accept(-c / b);
        } else if (discriminant >= 0) {
            // the form that doesn't cancel
            double q = -(b + Math.copySign(Math.sqrt(discriminant), b)) / 2;
            candidate.accept(q / a);
            candidate.accept(c / q);
        }
        return best[0];
    }

    /** Where a polynomial of third degree or less changes its sign within an open interval, in order. */
    public static double[] signChanges(double[] coefficients, double low, double high) {
        double[] ends = {low, turn(coefficients, low, high, 1), turn(coefficients, low, high, -1), high};
        Arrays.sort(ends);
        double[] changes = new double[2 * ends.length];
        int count = 0;
        // between turns it only rises or only falls
        for (int i = 0; i + 1 < ends.length; i++) {
            double a = ends[i];
            double b = ends[i + 1];
            double atA = value(coefficients, a);
            if (atA == 0 && a > low) {
                changes[count++] = a;
            }
            if (atA * value(coefficients, b) < 0) {
                for (double middle = a + (b - a) / 2; middle > a && middle < b; middle = a + (b - a) / 2) {
                    if (value(coefficients, middle) * atA > 0) {
                        a = middle;
                    } else {
                        b = middle;
                    }
                }
                changes[count++] = b;
            }
        }
        return Arrays.copyOf(changes, count);
    }

    /** Where it turns, of the two such places one by the sign; the lower end if it turns nowhere between. */
    private static double turn(double[] coefficients, double low, double high, int sign) {
        double[] d = derivative(coefficients);
        double a = d.length > 2 ? d[2] : 0;
        double b = d.length > 1 ? d[1] : 0;
        double discriminant = b * b - 4 * a * d[0];
        double q = -(b + Math.copySign(Math.sqrt(Math.max(0, discriminant)), b)) / 2;
        double turn = discriminant < 0 ? low : sign > 0 ? q / a : d[0] / q;
        return turn > low && turn < high ? turn : low;
    }
}
