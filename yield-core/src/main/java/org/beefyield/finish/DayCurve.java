package org.beefyield.finish;

import java.util.ArrayList;
import java.util.List;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** A figure a day that changes with the days from today: straight between points, level before the first and behind the last. Immutable. */
public final class DayCurve {
    /**
     * A point of a curve.
     *
     * @param day days from today
     * @param value the figure on that day
     */
    public record Point(double day, double value) {
        /**
         * Checks the numbers.
         *
         * @throws IllegalArgumentException if one is not finite
         */
        public Point {
            Checks.finite("day of a curve", day);
            Checks.finite("value of a curve", value);
        }
    }

    private final List<Point> points;

    private DayCurve(List<Point> points) {
        this.points = List.copyOf(points);
    }

    /**
     * The same figure every day.
     *
     * @param value the figure
     * @return the curve
     * @throws IllegalArgumentException if it is not finite
     */
    public static DayCurve constant(double value) {
        return new DayCurve(List.of(new Point(0, value)));
    }

    /**
     * A figure that falls by as much every day until nothing is left.
     *
     * @param today the figure today, 0 or more
     * @param lessPerDay by how much it falls a day, 0 or more
     * @return the curve; it stays at 0 once it is there
     * @throws IllegalArgumentException if a number is below 0 or not finite
     */
    public static DayCurve falling(double today, double lessPerDay) {
        Checks.notNegative("figure today", today);
        Checks.notNegative("fall a day", lessPerDay);
        double until = today / lessPerDay;
        return today == 0 || lessPerDay == 0 || Double.isInfinite(until)
                ? constant(today)
                : new DayCurve(List.of(new Point(0, today), new Point(until, 0)));
    }

    /**
     * A curve of the caller's own.
     *
     * @param points one or more points, days ascending
     * @return the curve
     * @throws IllegalArgumentException if there is no point or days don't ascend
     */
    public static DayCurve through(List<Point> points) {
        Checks.noNullIn(points, "points");
        if (points.isEmpty()) {
            throw new IllegalArgumentException("a curve needs one point or more");
        }
        for (int i = 1; i < points.size(); i++) {
            if (points.get(i).day() <= points.get(i - 1).day()) {
                throw new IllegalArgumentException(
                        "day " + Numbers.exact(points.get(i).day()) + " of a curve stands behind "
                                + Numbers.exact(points.get(i - 1).day()) + "; days ascend");
            }
        }
        return new DayCurve(points);
    }

    /**
     * Its points.
     *
     * @return points, days ascending
     */
    public List<Point> points() {
        return points;
    }

    /**
     * The figure at a time.
     *
     * @param day days from today
     * @return the figure
     */
    public double at(double day) {
        Point before = points.get(0);
        if (day <= before.day()) {
            return before.value();
        }
        for (Point point : points.subList(1, points.size())) {
            if (day <= point.day()) {
                double part = (day - before.day()) / (point.day() - before.day());
                return before.value() + part * (point.value() - before.value());
            }
            before = point;
        }
        return before.value();
    }

    /**
     * All of it from today on: the area below the curve.
     *
     * @param day days from today, below 0 for a day that has been
     * @return the sum, below 0 if the day has been and the figure is above 0
     */
    public double until(double day) {
        double from = Math.min(0, day);
        double to = Math.max(0, day);
        List<Double> edges = new ArrayList<>();
        edges.add(from);
        points.stream().map(Point::day).filter(edge -> edge > from && edge < to).forEach(edges::add);
        edges.add(to);
        double sum = 0;
        for (int i = 1; i < edges.size(); i++) {
            double width = edges.get(i) - edges.get(i - 1);
            sum += width * (at(edges.get(i)) + at(edges.get(i - 1))) / 2;
        }
        return day < 0 ? -sum : sum;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof DayCurve that && points.equals(that.points);
    }

    @Override
    public int hashCode() {
        return points.hashCode();
    }

    /**
     * One line.
     *
     * @return such as {@code 1.4} or {@code 1.5 on day 0, 0 on day 225}
     */
    @Override
    public String toString() {
        return points.size() == 1
                ? Numbers.brief(points.get(0).value())
                : String.join(
                        ", ",
                        points.stream()
                                .map(point -> Numbers.brief(point.value()) + " on day " + Numbers.brief(point.day()))
                                .toList());
    }
}
