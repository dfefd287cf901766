package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.definition.GradeAxes;

/** A figure against conformation, a line for each fat class; lighter where no data stand behind the table. */
final class YieldByGrade {
    private static final int POINTS = GradeAxes.EU.conformation().last();
    private static final int TICKS = 7;
    private static final int LABEL_PX = 15;
    private static final int RIGHT_PX = 66;
    private static final double LINE_PX = 2;
    private static final double LIGHT_LINE_PX = 0.75;
    private static final double MARK_PX = 4.5;
    private static final double LIGHT_MARK_PX = 3.5;

    private static final List<Conformation> CLASSES =
            Stream.of("P", "O", "R", "U", "E", "S").map(Conformation::parse).toList();
    private static final List<FatClass> FAT_CLASSES =
            Stream.of("1", "2", "3", "4", "5").map(FatClass::parse).toList();

    /** A line and the marks on it. */
    record Style(Pen pen, Mark mark) {}

    /** One for each fat class. */
    static final List<Style> LINES = List.of(
            new Style(Pen.line(Ink.STRONG, LINE_PX), Mark.CIRCLE),
            new Style(Pen.line(Ink.BLUE, LINE_PX, 9, 3), Mark.SQUARE),
            new Style(Pen.line(Ink.VERMILLION, LINE_PX, 5, 3), Mark.DIAMOND),
            new Style(Pen.line(Ink.BLUISH_GREEN, LINE_PX, 9, 3, 2, 3), Mark.TRIANGLE_UP),
            new Style(Pen.line(Ink.REDDISH_PURPLE, LINE_PX, 2, 2), Mark.TRIANGLE_DOWN));

    /** What a figure is, and by how much of it is drawn. */
    record Scale(String name, String unit, boolean isShare) {}

    private record Point(double value, boolean isFitted) {}

    private final YieldEstimator estimator;
    private final Carcass base;
    private final Figure figure;
    private final Scale scale;

    private YieldByGrade(YieldEstimator estimator, Carcass base, Figure figure, Scale scale) {
        this.estimator = estimator;
        this.base = base;
        this.figure = figure;
        this.scale = scale;
    }

    static Picture draw(YieldEstimator estimator, Carcass base, Figure figure, Scale scale) {
        return new YieldByGrade(estimator, base, figure, scale).draw();
    }

    /** The figure of a grade, or nothing where the estimator gives no estimate. */
    private Optional<Point> point(Conformation conformation, FatClass fatClass) {
        try {
            YieldEstimate estimate =
                    estimator.estimate(Carcass.of(base.category(), conformation, fatClass, base.coldWeightKg()));
            double value = estimate.kg(figure) * (scale.isShare ? 100 / base.coldWeightKg() : 1);
            return Optional.of(new Point(value, estimate.rangeNotes().isEmpty()));
        } catch (RefusedCarcassException e) {
            return Optional.empty();
        }
    }

    /** A line by thirds, its marks at whole classes. */
    private static final class Curve {
        final FatClass fatClass;
        final List<Double> x = new ArrayList<>();
        final List<Point> y = new ArrayList<>();

        Curve(FatClass fatClass) {
            this.fatClass = fatClass;
        }

        double last() {
            return y.get(y.size() - 1).value;
        }

        double[] xs() {
            return x.stream().mapToDouble(Double::doubleValue).toArray();
        }

        /** Only pieces whose two ends are as asked. */
        double[] pieces(boolean areFitted) {
            double[] values = new double[y.size()];
            Arrays.fill(values, Double.NaN);
            for (int i = 1; i < values.length; i++) {
                if ((y.get(i - 1).isFitted && y.get(i).isFitted) == areFitted) {
                    values[i - 1] = y.get(i - 1).value;
                    values[i] = y.get(i).value;
                }
            }
            return values;
        }
    }

    private Picture draw() {
        // a base that the table refuses is the caller's to know
        estimator.estimate(base);
        List<Curve> curves = new ArrayList<>();
        for (FatClass fatClass : FAT_CLASSES) {
            Curve curve = new Curve(fatClass);
            IntStream.rangeClosed(1, POINTS)
                    .forEach(position -> point(Conformation.third(position), fatClass)
                            .ifPresent(point -> {
                                curve.x.add((double) position);
                                curve.y.add(point);
                            }));
            if (!curve.x.isEmpty()) {
                curves.add(curve);
            }
        }
        double low = all(curves).mapToDouble(Point::value).min().orElseThrow();
        double high = all(curves).mapToDouble(Point::value).max().orElseThrow();
        boolean isOutsideData = all(curves).anyMatch(point -> !point.isFitted);
        Axis y = Axis.rounded(low, high, TICKS);
        int decimals = scale.isShare ? 1 : Figures.decimals(high - low);
        String axis = scale.name + ", " + scale.unit;
        Legend legend = isOutsideData
                ? new Legend().sign("thin and hollow: no data behind the table", (plot, leftPx, rightPx, centrePx) -> {
                    plot.linePx(Pen.line(Ink.TEXT, LIGHT_LINE_PX), leftPx, centrePx, rightPx, centrePx);
                    plot.hollowMarkPx(Mark.CIRCLE, Ink.TEXT, (leftPx + rightPx) / 2, centrePx, LIGHT_MARK_PX);
                })
                : new Legend();
        Plot plot = Plot.chart(
                scale.name + " by grade",
                List.of(
                        "Category " + base.category() + ", " + Outturns.plain(base.coldWeightKg())
                                + " kg cold, one line for each fat class",
                        estimator.toString()),
                legend.heightPx(),
                axis,
                RIGHT_PX,
                Axis.plain(0.5, POINTS + 0.5),
                y);
        legend.draw(plot);
        for (Curve curve : curves) {
            Pen pen = style(curve).pen();
            plot.line(pen.wide(LIGHT_LINE_PX), curve.xs(), curve.pieces(false));
            plot.line(pen, curve.xs(), curve.pieces(true));
        }
        StringBuilder words = new StringBuilder(axis + ", at the middle of each conformation class from P to S"
                + (isOutsideData ? "; in brackets where no data stand behind the table." : "."));
        for (Curve curve : curves) {
            words.append(" Fat class ").append(curve.fatClass).append(':');
            for (Conformation conformation : CLASSES) {
                int at = curve.x.indexOf(conformation.position());
                if (at >= 0) {
                    Point point = curve.y.get(at);
                    mark(plot, style(curve), conformation.position(), point);
                    String text = Figures.fixed(point.value, decimals);
                    words.append(' ')
                            .append(conformation)
                            .append(' ')
                            .append(point.isFitted ? text : "(" + text + ")")
                            .append(',');
                }
            }
            words.setCharAt(words.length() - 1, '.');
        }
        label(plot, curves);
        plot.labelX(
                "Conformation class",
                CLASSES.stream().map(Conformation::position).toList(),
                CLASSES.stream().map(Conformation::toString).toList());
        return plot.picture(words.toString());
    }

    private static Stream<Point> all(List<Curve> curves) {
        return curves.stream().flatMap(curve -> curve.y.stream());
    }

    private static void mark(Plot plot, Style style, double x, Point point) {
        if (point.isFitted) {
            plot.mark(style.mark, style.pen.ink(), x, point.value, MARK_PX);
        } else {
            plot.hollowMark(style.mark, style.pen.ink(), x, point.value, LIGHT_MARK_PX);
        }
    }

    /** A label at the end of each line, moved apart where they would overlap, and up where they would leave the area. */
    private static void label(Plot plot, List<Curve> curves) {
        List<Curve> topDown = curves.stream()
                .sorted(Comparator.comparingDouble(curve -> plot.py(curve.last())))
                .toList();
        double[] at =
                topDown.stream().mapToDouble(curve -> plot.py(curve.last())).toArray();
        for (int i = 1; i < at.length; i++) {
            at[i] = Math.max(at[i], at[i - 1] + LABEL_PX);
        }
        double below = plot.bottomPx() + LABEL_PX;
        for (int i = at.length - 1; i >= 0; i--) {
            at[i] = Math.min(at[i], below - LABEL_PX);
            below = at[i];
        }
        for (int i = 0; i < at.length; i++) {
            Curve curve = topDown.get(i);
            plot.text(plot.px(curve.x.get(curve.x.size() - 1)) + 10, at[i] + 4, "fat " + curve.fatClass);
        }
    }

    private static Style style(Curve curve) {
        return LINES.get(FAT_CLASSES.indexOf(curve.fatClass));
    }
}
