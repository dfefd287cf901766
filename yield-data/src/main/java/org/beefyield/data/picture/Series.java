package org.beefyield.data.picture;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.DoubleStream;

/** A figure by date with its control limits; alarms are larger and of another shape. */
final class Series {
    private static final int TICKS = 7;
    private static final int MOST_MARKS = 200;
    private static final double MARK_PX = 3;
    private static final double ALARM_PX = 5.5;
    private static final int SAID_ALARMS = 6;
    private static final int SAID_POINTS = 60;

    private static final Pen LINE = Pen.line(Ink.BLUE, 1.5);
    private static final Pen LIMIT = Pen.line(Ink.TEXT, 1.5, 6, 4);

    private Series() {}

    /** Words around a series. */
    record Words(
            String title, List<String> subtitles, String figure, String limits, String alarmed, String manyAlarmed) {}

    static Picture draw(String title, String figure, List<ControlPoint> points) {
        return draw(new Words(title, List.of(), figure, "control limits", "alarm", "alarms"), points);
    }

    static Picture draw(Words said, List<ControlPoint> points) {
        String title = said.title;
        String figure = said.figure;
        checkDates(points.stream().map(ControlPoint::date).toList());
        double[] values = points.stream().mapToDouble(ControlPoint::value).toArray();
        double[] lows = points.stream().mapToDouble(ControlPoint::low).toArray();
        double[] highs = points.stream().mapToDouble(ControlPoint::high).toArray();
        if (DoubleStream.of(values).allMatch(Double::isNaN)) {
            throw new IllegalArgumentException("no point of \"" + title + "\" has a value; a series needs one or more");
        }
        double least = all(values, lows, highs).min().orElseThrow();
        double most = all(values, lows, highs).max().orElseThrow();
        Axis y = Axis.rounded(least, most, TICKS);
        LocalDate first = points.get(0).date();
        LocalDate last = points.get(points.size() - 1).date();
        Axis x = Axis.days(first, last, Plot.chartPx(y));
        List<ControlPoint> alarms =
                points.stream().filter(ControlPoint::isAlarm).toList();
        int decimals = Figures.decimals(most - least);
        boolean isMarked = points.size() <= MOST_MARKS;
        Legend legend = new Legend().sign("value", (plot, leftPx, rightPx, centrePx) -> {
            plot.linePx(LINE, leftPx, centrePx, rightPx, centrePx);
            if (isMarked) {
                plot.markPx(Mark.CIRCLE, Ink.BLUE, (leftPx + rightPx) / 2, centrePx, MARK_PX);
            }
        });
        if (all(lows, highs).findAny().isPresent()) {
            legend.line(said.limits, LIMIT);
        }
        legend.sign("alarm", (plot, leftPx, rightPx, centrePx) -> alarm(plot, (leftPx + rightPx) / 2, centrePx));
        long valued =
                DoubleStream.of(values).filter(value -> !Double.isNaN(value)).count();
        String counted = first + " to " + last + ", " + Figures.count(valued, "value", "values") + ", "
                + Figures.count(alarms.size(), said.alarmed, said.manyAlarmed);
        List<String> subtitles = new ArrayList<>(said.subtitles);
        subtitles.add(counted);
        Plot plot = Plot.chart(title, subtitles, legend.heightPx(), figure, x, y);
        legend.draw(plot);
        plot.gridX("Date");
        double[] days =
                points.stream().mapToDouble(point -> point.date().toEpochDay()).toArray();
        plot.line(LIMIT, days, lows);
        plot.line(LIMIT, days, highs);
        plot.line(LINE, days, values);
        for (ControlPoint point : points) {
            double day = point.date().toEpochDay();
            if (point.isAlarm()) {
                alarm(plot, plot.px(day), plot.py(point.value()));
            } else if (isMarked && !Double.isNaN(point.value())) {
                plot.mark(Mark.CIRCLE, Ink.BLUE, day, point.value(), MARK_PX);
            }
        }
        List<String> notes = new ArrayList<>();
        if (!alarms.isEmpty()) {
            notes.add((alarms.size() == 1 ? "Alarm: " : "Alarms: ")
                    + said(alarms.subList(0, Math.min(SAID_ALARMS, alarms.size())), decimals)
                    + (alarms.size() > SAID_ALARMS
                            ? " and " + Figures.grouped("" + (alarms.size() - SAID_ALARMS)) + " more"
                            : ""));
        }
        plot.notes(notes);
        StringBuilder words = new StringBuilder();
        said.subtitles.forEach(subtitle -> words.append(subtitle).append(". "));
        words.append(figure).append(", ").append(counted).append(". ");
        words.append(
                points.size() <= SAID_POINTS
                        ? "Values: " + said(points, decimals)
                        : "From "
                                + Figures.fixed(
                                        DoubleStream.of(values)
                                                .filter(v -> !Double.isNaN(v))
                                                .min()
                                                .orElseThrow(),
                                        decimals)
                                + " to "
                                + Figures.fixed(
                                        DoubleStream.of(values)
                                                .filter(v -> !Double.isNaN(v))
                                                .max()
                                                .orElseThrow(),
                                        decimals));
        words.append('.');
        notes.forEach(note -> words.append(' ').append(note).append('.'));
        return plot.picture(words.toString());
    }

    /** Refuses an empty picture, and days that go back. */
    static void checkDates(List<LocalDate> dates) {
        if (dates.isEmpty()) {
            throw new IllegalArgumentException("no days to draw; a picture over time needs one or more");
        }
        for (int i = 1; i < dates.size(); i++) {
            if (dates.get(i).isBefore(dates.get(i - 1))) {
                throw new IllegalArgumentException("day " + (i + 1) + " is " + dates.get(i) + " and stands behind "
                        + dates.get(i - 1) + "; days go in order");
            }
        }
    }

    private static DoubleStream all(double[]... columns) {
        return java.util.Arrays.stream(columns)
                .flatMapToDouble(DoubleStream::of)
                .filter(value -> !Double.isNaN(value));
    }

    private static void alarm(Plot plot, double px, double py) {
        plot.hollowMarkPx(Mark.CIRCLE, Ink.VERMILLION, px, py, ALARM_PX + 3);
        plot.markPx(Mark.DIAMOND, Ink.VERMILLION, px, py, ALARM_PX - 1);
    }

    private static String said(List<ControlPoint> points, int decimals) {
        return String.join(
                ", ",
                points.stream()
                        .map(point -> point.date() + " "
                                + (Double.isNaN(point.value()) ? "none" : Figures.fixed(point.value(), decimals)))
                        .toList());
    }
}
