package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.table.definition.Range;
import org.beefyield.text.Numbers;

/** An axis: its ends and the round figures on it. */
record Axis(Range range, List<Double> ticks) {
    private static final double[] STEPS = {1, 2, 5, 10};
    /** Of a step; what floating point may be off. */
    private static final double NOISE = 1e-9;

    /** Ends as they are, with round figures between them, no more than asked. */
    static Axis between(double low, double high, int most) {
        return new Axis(new Range(low, high), ticks(low, high, step(high - low, most - 1)));
    }

    /** Ends moved outward to round figures. */
    static Axis rounded(double low, double high, int most) {
        double margin = high > low ? 0 : Math.max(1, Math.abs(low) / 10);
        double step = step(high - low + 2 * margin, most - 1);
        double from = Math.floor((low - margin) / step + NOISE) * step;
        double to = Math.ceil((high + margin) / step - NOISE) * step;
        return new Axis(new Range(from, to), ticks(from, to, step));
    }

    /** No figures, for an axis of words. */
    static Axis plain(double low, double high) {
        return new Axis(new Range(low, high), List.of());
    }

    private static double step(double width, int intervals) {
        double rough = width / intervals;
        double power = Math.pow(10, Math.floor(Math.log10(rough)));
        double step = STEPS[STEPS.length - 1] * power;
        for (int i = STEPS.length - 1; i >= 0; i--) {
            step = STEPS[i] * power >= rough * (1 - NOISE) ? STEPS[i] * power : step;
        }
        return step;
    }

    private static List<Double> ticks(double low, double high, double step) {
        List<Double> ticks = new ArrayList<>();
        for (long k = (long) Math.ceil(low / step - NOISE); k * step <= high + NOISE * step; k++) {
            ticks.add(k * step);
        }
        return ticks;
    }

    double part(double value) {
        return (value - range.low()) / (range.high() - range.low());
    }

    /** Each so manieth tick, counted from 0 if that is one. */
    List<Double> everyNth(int n) {
        double from = range.contains(0) ? 0 : ticks.get(0);
        return ticks.stream()
                .filter(tick -> Math.round((tick - from) / step()) % n == 0)
                .toList();
    }

    private double step() {
        return ticks.size() > 1 ? ticks.get(1) - ticks.get(0) : Math.max(1, Math.abs(ticks.get(0)));
    }

    List<String> figures() {
        return ticks.stream().map(this::figure).toList();
    }

    /** A tick with as many decimals as the steps have. */
    String figure(double tick) {
        int decimals = (int) Math.max(0, -Math.floor(Math.log10(step()) + NOISE));
        return Numbers.fixed(tick, decimals).replaceAll("^-(0(\\.0+)?)$", "$1");
    }
}
