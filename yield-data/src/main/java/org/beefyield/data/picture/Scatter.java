package org.beefyield.data.picture;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.beefyield.estimate.Interval;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.stats.Regression;
import org.beefyield.text.Names;

/** A column of numbers against another, with a straight line by least squares and the band in which that lies. */
final class Scatter {
    private static final int TICKS = 7;
    private static final double DOT_PX = 2.5;
    /** More points than this would be a blot; they are counted by square. */
    private static final int MOST_DOTS = 1_000;

    private static final int SQUARE_PX = 8;
    private static final int BAND_POINTS = 40;
    private static final int FEWEST = 3;

    private static final Pen LINE = Pen.line(Ink.VERMILLION, 2);
    private static final Pen EDGE = Pen.line(Ink.VERMILLION, 1, 4, 3);

    private Scatter() {}

    /** A straight line through the mean of x. */
    private record Fit(double mean, double level, double slope, Regression regression) {
        static Fit of(double[] x, double[] y) {
            double mean = Arrays.stream(x).average().orElseThrow();
            double[] ones = new double[x.length];
            Arrays.fill(ones, 1);
            double[] apart = Arrays.stream(x).map(value -> value - mean).toArray();
            Regression fit = new Regression(
                    new double[][] {ones, apart},
                    new double[][] {y},
                    new double[0][],
                    ones,
                    new double[2][1],
                    new double[0][],
                    0);
            return new Fit(mean, fit.coefficient(0, 0), fit.coefficient(1, 0), fit);
        }

        double at(double x) {
            return level + slope * (x - mean);
        }

        Interval interval(double x) {
            double[][] covariance = regression.unscaledCovariance();
            double part =
                    covariance[0][0] + 2 * (x - mean) * covariance[0][1] + (x - mean) * (x - mean) * covariance[1][1];
            return Interval.student(
                    at(x),
                    regression.sd(0) * Math.sqrt(Math.max(0, part)),
                    regression.degreesOfFreedom(),
                    Interval.SHOWN_PROBABILITY);
        }
    }

    static Picture draw(String title, Frame frame, String xColumn, String yColumn) {
        double[] allX = frame.numbers(xColumn);
        double[] allY = frame.numbers(yColumn);
        int[] both = IntStream.range(0, allX.length)
                .filter(i -> Double.isFinite(allX[i]) && Double.isFinite(allY[i]))
                .toArray();
        if (both.length == 0) {
            throw new IllegalArgumentException("no row has a number both in \"" + xColumn + "\" and in \"" + yColumn
                    + "\"; a scatter needs one or more");
        }
        double[] x = Arrays.stream(both).mapToDouble(i -> allX[i]).toArray();
        double[] y = Arrays.stream(both).mapToDouble(i -> allY[i]).toArray();
        String titleX = title(column(frame, xColumn));
        String titleY = title(column(frame, yColumn));
        Axis axisY = Axis.rounded(min(y), max(y), TICKS);
        Axis axisX = Axis.rounded(min(x), max(x), TICKS, Plot.chartPx(axisY));
        boolean isFitted =
                x.length >= FEWEST && max(x) > min(x) && Fit.of(x, y).regression.isDetermined();
        boolean isDense = x.length > MOST_DOTS;
        int[][] squares = isDense ? squares(x, y, axisX, axisY) : new int[0][];
        int most = Arrays.stream(squares).flatMapToInt(Arrays::stream).max().orElse(1);
        Legend legend = new Legend();
        if (isDense) {
            legend.sign(
                    "the larger the square, the more rows, up to " + Figures.grouped("" + most),
                    (plot, l, r, c) -> plot.markPx(Mark.SQUARE, Ink.BLUE, (l + r) / 2, c, SQUARE_PX / 2.0));
        }
        if (isFitted) {
            legend.line("fit", LINE)
                    .sign(
                            "90 % confidence band of the line",
                            (plot, leftPx, rightPx, centrePx) -> {
                                plot.areaPx(Ink.LESS_2, leftPx, centrePx - 6, rightPx, centrePx + 6);
                                plot.linePx(EDGE, leftPx, centrePx - 6, rightPx, centrePx - 6);
                                plot.linePx(EDGE, leftPx, centrePx + 6, rightPx, centrePx + 6);
                            });
        }
        int without = allX.length - x.length;
        String counted = Figures.count(x.length, "row", "rows")
                + (without == 0 ? "" : ", " + Figures.grouped("" + without) + " more without both figures");
        Plot plot = Plot.chart(title, List.of(counted), legend.heightPx(), titleY, axisX, axisY);
        legend.draw(plot);
        plot.gridX(titleX);
        if (isDense) {
            drawSquares(plot, squares, most);
        } else {
            for (int i = 0; i < x.length; i++) {
                plot.mark(Mark.CIRCLE, Ink.BLUE, x[i], y[i], DOT_PX);
            }
        }
        String words = titleY + " against " + titleX + ", " + counted + ". " + titleX + " from "
                + Figures.digits(min(x)) + " to " + Figures.digits(max(x)) + ", " + titleY + " from "
                + Figures.digits(min(y)) + " to " + Figures.digits(max(y)) + ".";
        String said = isFitted
                ? drawFit(
                        plot,
                        Fit.of(x, y),
                        min(x),
                        max(x),
                        axisY,
                        column(frame, xColumn).unit(),
                        column(frame, yColumn).unit())
                : "No line: that needs " + FEWEST + " rows or more with different figures across";
        plot.notes(List.of(said));
        return plot.picture(words + " " + said + ".");
    }

    private static String title(Column column) {
        return Names.capital(Outturns.words(column.header()));
    }

    private static Column column(Frame frame, String name) {
        return frame.columns().stream()
                .filter(column -> column.name().equals(name) || column.header().equals(name))
                .findFirst()
                .orElseThrow();
    }

    private static double min(double[] values) {
        return Arrays.stream(values).min().orElseThrow();
    }

    private static double max(double[] values) {
        return Arrays.stream(values).max().orElseThrow();
    }

    private static String drawFit(Plot plot, Fit fit, double from, double to, Axis axisY, String unitX, String unitY) {
        double[] xs = IntStream.rangeClosed(0, BAND_POINTS)
                .mapToDouble(i -> from + (to - from) * i / BAND_POINTS)
                .toArray();
        // what leaves the axis ends at its edge
        double least = axisY.range().low();
        double most = axisY.range().high();
        double[] low = Arrays.stream(xs)
                .map(x -> Math.min(most, Math.max(least, fit.interval(x).low())))
                .toArray();
        double[] high = Arrays.stream(xs)
                .map(x -> Math.min(most, Math.max(least, fit.interval(x).high())))
                .toArray();
        plot.between(Ink.LESS_2, xs, low, high);
        plot.line(EDGE, xs, low);
        plot.line(EDGE, xs, high);
        double[] ends = {from, to};
        plot.line(
                LINE,
                ends,
                Arrays.stream(ends)
                        .map(x -> Math.min(most, Math.max(least, fit.at(x))))
                        .toArray());
        Interval slope = Interval.student(
                fit.slope,
                fit.regression.sd(0) * Math.sqrt(fit.regression.unscaledCovariance()[1][1]),
                fit.regression.degreesOfFreedom(),
                Interval.SHOWN_PROBABILITY);
        return "Line: " + with(fit.level, unitY) + " at " + with(fit.mean, unitX) + ", slope "
                + with(fit.slope, unitY) + " per " + (unitX.isEmpty() ? "1" : unitX) + " (90 % interval "
                + Figures.digits(slope.low()) + " to " + Figures.digits(slope.high()) + "), SD around it "
                + with(fit.regression.sd(0), unitY) + ", R² " + Figures.fixed(fit.regression.r2(0), 2);
    }

    private static String with(double value, String unit) {
        return Figures.digits(value) + (unit.isEmpty() ? "" : " " + unit);
    }

    private static int[][] squares(double[] x, double[] y, Axis axisX, Axis axisY) {
        int across = Plot.chartPx(axisY) / SQUARE_PX;
        int up = Plot.CHART_PX / SQUARE_PX;
        int[][] squares = new int[across][up];
        for (int i = 0; i < x.length; i++) {
            squares[(int) Math.min(across - 1, axisX.part(x[i]) * across)][
                    (int) Math.min(up - 1, axisY.part(y[i]) * up)]++;
        }
        return squares;
    }

    /** Areas are as the counts, and the least is still seen. */
    private static void drawSquares(Plot plot, int[][] squares, int most) {
        double wide = (double) (plot.rightPx() - plot.leftPx()) / squares.length;
        for (int i = 0; i < squares.length; i++) {
            double high = (double) Plot.CHART_PX / squares[i].length;
            for (int j = 0; j < squares[i].length; j++) {
                if (squares[i][j] > 0) {
                    plot.markPx(
                            Mark.SQUARE,
                            Ink.BLUE,
                            plot.leftPx() + (i + 0.5) * wide,
                            plot.topPx() + Plot.CHART_PX - (j + 0.5) * high,
                            Math.max(0.75, SQUARE_PX / 2.0 * Math.sqrt((double) squares[i][j] / most)));
                }
            }
        }
    }
}
