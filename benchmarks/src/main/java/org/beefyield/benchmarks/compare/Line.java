package org.beefyield.benchmarks.compare;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * One figure of the comparison.
 *
 * @param figure what is measured
 * @param ours time of the library
 * @param against what it is held against, with its name, or null for an absolute bar
 * @param other time of that
 * @param bar what is asked for: a ratio, or a time
 * @param isFloor whether the other is a floor, of which ours may be a multiple, and not one to be faster than
 */
record Line(
        String figure,
        Times ours,
        @Nullable String against,
        @Nullable Times other,
        double bar,
        boolean isFloor) {
    static Line atMost(String figure, Times ours, double bar) {
        return new Line(figure, ours, null, null, bar, false);
    }

    static Line fasterThan(String figure, Times ours, String against, Times other, double bar) {
        return new Line(figure, ours, against, other, bar, false);
    }

    static Line withinTimes(String figure, Times ours, String against, Times floor, double bar) {
        return new Line(figure, ours, against, floor, bar, true);
    }

    double value() {
        if (other == null) {
            return ours.median();
        }
        return isFloor ? ours.median() / other.median() : other.median() / ours.median();
    }

    boolean isMet() {
        boolean isAtLeast = other != null && !isFloor;
        return isAtLeast ? value() >= bar : value() <= bar;
    }

    @Override
    public String toString() {
        String verdict = isMet() ? "met" : "NOT MET";
        if (other == null) {
            return String.format(
                    Locale.ROOT, "%-52s %s; bar %s %s: %s", figure, ours, Times.number(bar), ours.unit(), verdict);
        }
        return String.format(
                Locale.ROOT,
                "%-52s %s; %s %s; %s x %s, bar %s: %s",
                figure,
                ours,
                against,
                other,
                Times.number(value()),
                isFloor ? "the floor" : "as fast",
                Times.number(bar),
                verdict);
    }

    String json() {
        return "{\"figure\": \"" + figure + "\", \"ours\": " + ours.json()
                + (other == null ? "" : ", \"against\": \"" + against + "\", \"other\": " + other.json())
                + ", \"" + (other == null ? "time" : "ratio") + "\": " + value() + ", \"bar\": " + bar + ", \"met\": "
                + isMet() + "}";
    }
}
