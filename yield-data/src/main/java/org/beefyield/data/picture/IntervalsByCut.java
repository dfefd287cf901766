package org.beefyield.data.picture;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.Outturn;
import org.beefyield.text.Names;

/**
 * The cuts of a level, heaviest first, each with its 90 % interval. Intervals are drawn in % of what is expected of their cut:
 * on one axis of kg those of all but the heaviest would be too short to see.
 */
final class IntervalsByCut {
    private static final int TICKS = 5;
    private static final int HALF_PX = 4;
    /** Of the one in the middle by length; longer intervals are cut off, so that all others show. */
    private static final double LONGEST = 1.7;

    private static final Pen BAND = Pen.line(Ink.SKY_BLUE, 2 * HALF_PX);
    private static final Pen END = Pen.line(Ink.BLUE, 1.5);
    private static final Pen EXPECTED = Pen.line(Ink.STRONG, 2);

    private IntervalsByCut() {}

    /** An interval in per cent more or less than expected. */
    private record Ends(double low, double high) {
        static Ends of(CutLine line) {
            Interval interval = line.interval(Interval.SHOWN_PROBABILITY);
            return new Ends(100 * (interval.low() / line.kg() - 1), 100 * (interval.high() / line.kg() - 1));
        }

        double reach() {
            return Math.max(-low, high);
        }
    }

    static Picture draw(Outturn outturn, String level) {
        List<CutLine> lines = outturn.lines(level).stream()
                .filter(line -> line.kg() != 0)
                .sorted(Comparator.comparingDouble((CutLine line) -> -line.kg()))
                .toList();
        if (!outturn.table().statesSds()) {
            throw new IllegalArgumentException(
                    "table " + outturn.table().identity()
                            + " states no SDs, so there are no intervals to draw; a picture of what a carcass becomes needs none");
        }
        double[] reaches = lines.stream()
                .mapToDouble(line -> Ends.of(line).reach())
                .sorted()
                .toArray();
        double widest = Arrays.stream(reaches).max().orElse(0);
        double reach = Math.min(widest, LONGEST * reaches[reaches.length / 2]);
        Rows rows = new Rows("kg", "low", "high");
        StringBuilder words =
                new StringBuilder("Kilograms of both sides together with 90 % intervals, heaviest first.");
        for (CutLine line : lines) {
            Interval interval = line.interval(Interval.SHOWN_PROBABILITY);
            Ends ends = Ends.of(line);
            String kg = Outturns.kg(line.kg(), outturn);
            String low = Outturns.kg(interval.low(), outturn);
            String high = Outturns.kg(interval.high(), outturn);
            rows.row(line.cut().name(), List.of(kg, low, high), (plot, centrePx) -> draw(plot, centrePx, ends));
            words.append(' ')
                    .append(line.cut().name())
                    .append(' ')
                    .append(kg)
                    .append(", ")
                    .append(low)
                    .append(" to ")
                    .append(high)
                    .append('.');
        }
        Legend legend = new Legend()
                .sign(
                        "90 % interval, kg: low, high",
                        (plot, leftPx, rightPx, centrePx) -> {
                            sign(plot, leftPx + 1, rightPx - 1, centrePx);
                        })
                .line("expected", EXPECTED);
        Plot plot = rows.plot(
                Names.capital(level) + " level of " + Outturns.what(outturn) + " with 90 % intervals",
                Outturns.subtitles(outturn),
                legend,
                "% more or less than expected",
                roomPx -> Axis.around(reach, TICKS, roomPx));
        plot.uprightLine(Pen.line(Ink.STRONG, 1), 0);
        plot.notes(widest > plot.rangeX().high() ? List.of("Arrow: the interval goes on") : List.of());
        plot.notes(Outturns.notes(outturn));
        return plot.picture(words.toString());
    }

    private static void draw(Plot plot, double centrePx, Ends ends) {
        double leftPx = Math.max(plot.leftPx(), plot.px(ends.low));
        double rightPx = Math.min(plot.rightPx(), plot.px(ends.high));
        sign(plot, leftPx, rightPx, centrePx);
        // an arrow where it goes on
        if (plot.px(ends.low) < plot.leftPx() - 0.5) {
            plot.markPx(Mark.TRIANGLE_LEFT, Ink.BLUE, leftPx + HALF_PX, centrePx, HALF_PX);
        }
        if (plot.px(ends.high) > plot.rightPx() + 0.5) {
            plot.markPx(Mark.TRIANGLE_RIGHT, Ink.BLUE, rightPx - HALF_PX, centrePx, HALF_PX);
        }
        plot.linePx(EXPECTED, plot.px(0), centrePx - 2 * HALF_PX, plot.px(0), centrePx + 2 * HALF_PX);
    }

    private static void sign(Plot plot, double leftPx, double rightPx, double centrePx) {
        plot.linePx(BAND, leftPx, centrePx, rightPx, centrePx);
        for (double end : List.of(leftPx, rightPx)) {
            plot.linePx(END, end, centrePx - HALF_PX, end, centrePx + HALF_PX);
        }
    }
}
