package org.beefyield.data.picture;

import java.time.LocalDate;
import java.util.List;
import org.beefyield.text.Numbers;

/** Quantiles of a figure by day: bands from pale to dark towards the middle. */
final class Fan {
    private static final int TICKS = 7;
    private static final int SAID_DAYS = 12;
    private static final Pen MEDIAN = Pen.line(Ink.STRONG, 2);
    private static final Pen EDGE = Pen.line(Ink.BLUE, 1);
    private static final List<Ink> BANDS = List.of(Ink.MORE_1, Ink.MORE_3, Ink.MORE_5);
    private static final int MOST_BANDS = BANDS.size();

    private Fan() {}

    static Picture draw(String title, String figure, List<Double> parts, List<FanDay> days) {
        check(parts, days);
        Series.checkDates(days.stream().map(FanDay::date).toList());
        double least =
                days.stream().mapToDouble(day -> day.quantiles().get(0)).min().orElseThrow();
        double most = days.stream()
                .mapToDouble(day -> day.quantiles().get(parts.size() - 1))
                .max()
                .orElseThrow();
        Axis y = Axis.rounded(least, most, TICKS);
        LocalDate first = days.get(0).date();
        LocalDate last = days.get(days.size() - 1).date();
        Axis x = Axis.days(first, last, Plot.chartPx(y));
        int bands = parts.size() / 2;
        Legend legend = new Legend();
        for (int band = 0; band < bands; band++) {
            Ink ink = BANDS.get(band);
            legend.sign(
                    percent(parts.get(band)) + " to " + percent(parts.get(parts.size() - 1 - band)),
                    (plot, leftPx, rightPx, centrePx) -> {
                        plot.areaPx(ink, leftPx, centrePx - 7, rightPx, centrePx + 7);
                        plot.linePx(EDGE, leftPx, centrePx - 7, rightPx, centrePx - 7);
                        plot.linePx(EDGE, leftPx, centrePx + 7, rightPx, centrePx + 7);
                    });
        }
        if (parts.size() % 2 == 1) {
            legend.line(percent(parts.get(bands)), MEDIAN);
        }
        String span = first + " to " + last + ", " + Figures.count(days.size(), "day", "days");
        Plot plot = Plot.chart(title, List.of(span), legend.heightPx(), figure, x, y);
        legend.draw(plot);
        plot.gridX("Date");
        double[] at = days.stream().mapToDouble(day -> day.date().toEpochDay()).toArray();
        for (int band = 0; band < bands; band++) {
            double[] low = quantile(days, band);
            double[] high = quantile(days, parts.size() - 1 - band);
            // a single day is as wide as a day
            double[] xs = at.length == 1 ? new double[] {at[0] - 0.4, at[0] + 0.4} : at;
            plot.between(BANDS.get(band), xs, wide(low), wide(high));
            plot.line(EDGE, xs, wide(low));
            plot.line(EDGE, xs, wide(high));
        }
        if (parts.size() % 2 == 1) {
            double[] xs = at.length == 1 ? new double[] {at[0] - 0.4, at[0] + 0.4} : at;
            plot.line(MEDIAN, xs, wide(quantile(days, bands)));
        }
        int decimals = Figures.decimals(most - least);
        StringBuilder words = new StringBuilder(figure + ", " + span + ", quantiles "
                + String.join(", ", parts.stream().map(Fan::percent).toList()) + ".");
        int every = Math.max(1, (days.size() + SAID_DAYS - 1) / SAID_DAYS);
        for (int i = 0; i < days.size(); i++) {
            if (i % every == 0 || i == days.size() - 1) {
                words.append(' ').append(days.get(i).date()).append(':');
                days.get(i)
                        .quantiles()
                        .forEach(value -> words.append(' ')
                                .append(Figures.fixed(value, decimals))
                                .append(','));
                words.setCharAt(words.length() - 1, '.');
            }
        }
        return plot.picture(words.toString());
    }

    private static String percent(double part) {
        return Numbers.upTo(100 * part, 2) + " %";
    }

    private static double[] quantile(List<FanDay> days, int place) {
        return days.stream().mapToDouble(day -> day.quantiles().get(place)).toArray();
    }

    private static double[] wide(double[] values) {
        return values.length == 1 ? new double[] {values[0], values[0]} : values;
    }

    private static void check(List<Double> parts, List<FanDay> days) {
        if (parts.size() < 2 || parts.size() > 2 * MOST_BANDS + 1) {
            throw new IllegalArgumentException(
                    "a fan of " + parts.size() + " quantiles; it has 2 to " + (2 * MOST_BANDS + 1));
        }
        for (int i = 0; i < parts.size(); i++) {
            if (!(parts.get(i) > 0 && parts.get(i) < 1) || (i > 0 && !(parts.get(i) > parts.get(i - 1)))) {
                throw new IllegalArgumentException(
                        "parts " + parts + " of a fan: each lies between 0 and 1, above the one before it");
            }
        }
        for (FanDay day : days) {
            if (day.quantiles().size() != parts.size()) {
                throw new IllegalArgumentException(
                        day.date() + " has " + day.quantiles().size() + " quantiles, the fan " + parts.size()
                                + " parts; a day has one for each part");
            }
        }
    }
}
