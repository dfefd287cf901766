package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.finish.FinishDay;
import org.beefyield.finish.Forecast;
import org.beefyield.finish.PenForecast;
import org.beefyield.market.MarketFault;
import org.beefyield.table.definition.Range;

/** What is left by day of sale, and below it the chance to be in specification. */
final class SaleDays {
    private static final int TICKS = 6;
    private static final int DAY_TICKS = 13;
    private static final int WEEK = 7;
    /** Of the height of the figures above: the strip of chances, and what lies between. */
    private static final double STRIP = 0.3;

    private static final double GAP = 0.12;
    private static final double MARK_PX = 5;
    private static final int SAID_DAYS = 14;

    private static final Pen NET = Pen.line(Ink.STRONG, 2);
    private static final Pen EDGE = Pen.line(Ink.BLUE, 1);
    private static final Pen CHANCE = Pen.line(Ink.VERMILLION, 1.5);
    private static final Pen LAST = Pen.line(Ink.TEXT, 1.5, 6, 4);

    private SaleDays() {}

    /** What is drawn; chances are missing if there are none, intervals if they aren't known. */
    @SuppressWarnings("ArrayRecordComponent")
    private record Drawn(
            String title,
            String subtitle,
            String figure,
            double[] net,
            double[] low,
            double[] high,
            double[] chance,
            int best,
            int bestWithin,
            int lastWithin) {}

    static Picture draw(Forecast forecast) {
        List<FinishDay> days = forecast.days();
        FinishDay best = forecast.best();
        return draw(new Drawn(
                "Day of sale of "
                        + forecast.animal().id().map(id -> "animal " + id).orElse("an animal"),
                forecast.animal() + ", 0 is today",
                "Net, " + forecast.currency() + " a head",
                days.stream().mapToDouble(FinishDay::net).toArray(),
                days.stream().mapToDouble(day -> day.netInterval().low()).toArray(),
                days.stream().mapToDouble(day -> day.netInterval().high()).toArray(),
                forecast.market().isEmpty()
                        ? new double[0]
                        : days.stream()
                                .mapToDouble(day -> day.inSpecification().orElse(0))
                                .toArray(),
                best.day(),
                forecast.bestWithinLimits().day(),
                lastWithin(forecast)));
    }

    /** The last day within the limits that can be kept, or -1 if there is none in sight. */
    private static int lastWithin(Forecast forecast) {
        return Stream.of(MarketFault.Limit.AGE, MarketFault.Limit.FAT_CLASS)
                .map(forecast::lastDayWithin)
                .filter(last -> last.orElse(-1) >= 0)
                .mapToInt(last -> last.orElse(-1))
                .min()
                .orElse(-1);
    }

    static Picture draw(PenForecast pen) {
        double[] net = pen.netByDay();
        Forecast first = pen.forecasts().get(0);
        double[] chance = first.market().isEmpty()
                ? new double[0]
                : IntStream.range(0, net.length)
                        .mapToDouble(day -> pen.forecasts().stream()
                                .mapToDouble(one ->
                                        one.days().get(day).inSpecification().orElse(0))
                                .average()
                                .orElse(0))
                        .toArray();
        return draw(new Drawn(
                "Day of sale of a pen",
                Figures.count(pen.forecasts().size(), "animal", "animals") + " if all go on one day, 0 is today",
                "Net of the pen, " + first.currency(),
                net,
                new double[0],
                new double[0],
                chance,
                pen.bestSingleDay(),
                pen.bestSingleDay(),
                pen.lastDayWithinLimits() < net.length - 1 ? pen.lastDayWithinLimits() : -1));
    }

    private static Picture draw(Drawn drawn) {
        double least = all(drawn).min().orElseThrow();
        double most = all(drawn).max().orElseThrow();
        boolean chances = drawn.chance.length > 0;
        Axis above = Axis.rounded(least, most, TICKS);
        double height = above.range().high() - above.range().low();
        double foot = above.range().low() - (GAP + STRIP) * height;
        Axis y = chances ? withStrip(above, foot, STRIP * height) : above;
        int last = drawn.net.length - 1;
        Axis x = Axis.between(0, Math.max(1, last), DAY_TICKS, Plot.chartPx(y));
        Legend legend = new Legend().line("net", NET);
        if (drawn.low.length > 0) {
            legend.sign(
                    "90 % interval",
                    (plot, leftPx, rightPx, centrePx) -> {
                        plot.areaPx(Ink.MORE_1, leftPx, centrePx - 7, rightPx, centrePx + 7);
                        plot.linePx(EDGE, leftPx, centrePx - 7, rightPx, centrePx - 7);
                        plot.linePx(EDGE, leftPx, centrePx + 7, rightPx, centrePx + 7);
                    });
        }
        legend.sign(
                "best day",
                (plot, leftPx, rightPx, centrePx) ->
                        plot.markPx(Mark.DIAMOND, Ink.VERMILLION, (leftPx + rightPx) / 2, centrePx, MARK_PX));
        if (drawn.bestWithin != drawn.best) {
            legend.sign(
                    "best day within limits",
                    (plot, leftPx, rightPx, centrePx) ->
                            plot.hollowMarkPx(Mark.CIRCLE, Ink.VERMILLION, (leftPx + rightPx) / 2, centrePx, MARK_PX));
        }
        if (drawn.lastWithin >= 0) {
            legend.line("last day within limits", LAST);
        }
        if (chances) {
            legend.line("chance in specification", CHANCE);
        }
        String figure = drawn.figure + (chances ? "; below it the chance to be in specification" : "");
        Plot plot = Plot.chart(drawn.title, List.of(drawn.subtitle), legend.heightPx(), figure, x, y);
        legend.draw(plot);
        plot.gridX("Days from today");
        double[] days = IntStream.rangeClosed(0, last).mapToDouble(day -> day).toArray();
        double[] xs = wide(days, 1);
        if (drawn.low.length > 0) {
            plot.between(Ink.MORE_1, xs, wide(drawn.low, 0), wide(drawn.high, 0));
            plot.line(EDGE, xs, wide(drawn.low, 0));
            plot.line(EDGE, xs, wide(drawn.high, 0));
        }
        plot.line(NET, xs, wide(drawn.net, 0));
        if (chances) {
            double[] strip = DoubleStream.of(drawn.chance)
                    .map(part -> foot + part * STRIP * height)
                    .toArray();
            plot.between(
                    Ink.LESS_1, xs, wide(DoubleStream.of(strip).map(any -> foot).toArray(), 0), wide(strip, 0));
            plot.line(CHANCE, xs, wide(strip, 0));
        }
        if (drawn.lastWithin >= 0) {
            plot.uprightLine(LAST, drawn.lastWithin);
        }
        if (drawn.bestWithin != drawn.best) {
            plot.hollowMark(Mark.CIRCLE, Ink.VERMILLION, drawn.bestWithin, drawn.net[drawn.bestWithin], MARK_PX);
        }
        plot.mark(Mark.DIAMOND, Ink.VERMILLION, drawn.best, drawn.net[drawn.best], MARK_PX);
        return plot.picture(words(drawn, figure));
    }

    /** A single day is drawn as wide as one. */
    private static double[] wide(double[] values, double by) {
        return values.length == 1 ? new double[] {values[0], values[0] + by} : values;
    }

    private static DoubleStream all(Drawn drawn) {
        return Stream.of(drawn.net, drawn.low, drawn.high).flatMapToDouble(DoubleStream::of);
    }

    /** The axis with a strip for chances below it. */
    private static Axis withStrip(Axis above, double foot, double height) {
        List<Double> ticks = new ArrayList<>(List.of(foot, foot + height));
        List<String> labels = new ArrayList<>(List.of("0 %", "100 %"));
        ticks.addAll(above.ticks());
        labels.addAll(above.labels());
        return new Axis(new Range(foot, above.range().high()), ticks, labels);
    }

    private static String words(Drawn drawn, String figure) {
        int last = drawn.net.length - 1;
        TreeSet<Integer> said = new TreeSet<>(List.of(0, drawn.best, drawn.bestWithin, last));
        int every = WEEK * Math.max(1, (last / WEEK + SAID_DAYS - 1) / SAID_DAYS);
        for (int day = 0; day <= last; day += every) {
            said.add(day);
        }
        int decimals = Figures.decimals(
                all(drawn).max().orElseThrow() - all(drawn).min().orElseThrow());
        StringBuilder words =
                new StringBuilder(drawn.subtitle).append(". ").append(figure).append('.');
        words.append(" Best day ").append(drawn.best).append('.');
        if (drawn.bestWithin != drawn.best) {
            words.append(" Best day within limits ").append(drawn.bestWithin).append('.');
        }
        if (drawn.lastWithin >= 0) {
            words.append(" Last day within limits ").append(drawn.lastWithin).append('.');
        }
        for (int day : said) {
            words.append(" Day ").append(day).append(": ").append(Figures.fixed(drawn.net[day], decimals));
            if (drawn.low.length > 0) {
                words.append(" (")
                        .append(Figures.fixed(drawn.low[day], decimals))
                        .append(" to ")
                        .append(Figures.fixed(drawn.high[day], decimals))
                        .append(')');
            }
            if (drawn.chance.length > 0) {
                words.append(", ")
                        .append(Figures.fixed(100 * drawn.chance[day], 0))
                        .append(" % in specification");
            }
            words.append('.');
        }
        return words.toString();
    }
}
