package org.beefyield.grid;

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
}
