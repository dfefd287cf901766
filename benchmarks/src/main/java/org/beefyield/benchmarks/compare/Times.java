package org.beefyield.benchmarks.compare;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * How long something took, several times over.
 *
 * @param unit unit of the values
 * @param values one for each time, ascending
 */
record Times(String unit, List<Double> values) {
    Times {
        if (values.isEmpty()) {
            throw new IllegalArgumentException("no times");
        }
        values = values.stream().sorted().toList();
    }

    static Times of(String unit, double... values) {
        return new Times(unit, Arrays.stream(values).boxed().toList());
    }

    double median() {
        int n = values.size();
        return (values.get((n - 1) / 2) + values.get(n / 2)) / 2;
    }

    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "%s %s (%s to %s)",
                number(median()),
                unit,
                number(values.get(0)),
                number(values.get(values.size() - 1)));
    }

    static String number(double value) {
        return String.format(Locale.ROOT, value < 10 ? "%.2f" : value < 100 ? "%.1f" : "%,.0f", value);
    }

    String json() {
        return "{\"unit\": \"" + unit + "\", \"median\": " + median() + ", \"values\": " + values + "}";
    }
}
