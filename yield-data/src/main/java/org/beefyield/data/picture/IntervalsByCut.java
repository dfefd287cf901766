package org.beefyield.data.picture;

import java.util.Comparator;
import java.util.List;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.Outturn;

/** The cuts of a level, heaviest first, each with its 90 % interval. */
final class IntervalsByCut {
    private static final int TICKS = 5;
    private static final int HALF_PX = 4;

    private IntervalsByCut() {}

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
        Rows rows = new Rows();
        StringBuilder words =
                new StringBuilder("Kilograms of both sides together with 90 % intervals, heaviest first.");
        double highest = 0;
        for (CutLine line : lines) {
            Interval interval = line.interval(Interval.SHOWN_PROBABILITY);
            highest = Math.max(highest, Math.max(interval.high(), line.kg()));
            String kg = Outturns.kg(line.kg(), outturn);
            String from = Outturns.kg(interval.low(), outturn);
            String to = Outturns.kg(interval.high(), outturn);
            rows.row(line.cut().name(), kg + " (" + from + " to " + to + ")", (plot, centrePx) -> {
                double low = plot.px(interval.low());
                double high = plot.px(interval.high());
                plot.linePx(Pen.line(Ink.SKY_BLUE, 2 * HALF_PX), low, centrePx, high, centrePx);
                for (double end : List.of(low, high)) {
                    plot.linePx(Pen.line(Ink.BLUE, 1.5), end, centrePx - HALF_PX, end, centrePx + HALF_PX);
                }
                double at = plot.px(line.kg());
                plot.linePx(Pen.line(Ink.BLACK, 2), at, centrePx - 2 * HALF_PX, at, centrePx + 2 * HALF_PX);
            });
            words.append(' ')
                    .append(line.cut().name())
                    .append(' ')
                    .append(kg)
                    .append(", ")
                    .append(from)
                    .append(" to ")
                    .append(to)
                    .append('.');
        }
        Plot plot = rows.plot(
                Outturns.capital(level) + " level of " + Outturns.what(outturn) + ", 90 % sure",
                Outturns.subtitles(outturn),
                List.of(),
                "kg",
                "kg (90 % sure)",
                Axis.rounded(0, highest, TICKS));
        plot.notes(Outturns.notes(outturn));
        return plot.picture(words.toString());
    }
}
