package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
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
import org.beefyield.text.Numbers;

/** A figure against conformation, a line for each fat class. */
final class YieldByGrade {
    private static final int POINTS = GradeAxes.EU.conformation().last();
    private static final int AREA_PX = 300;
    private static final int TICKS = 7;
    private static final int LABEL_PX = 15;
    private static final double LINE_PX = 2;
    private static final double MARK_PX = 4.5;

    private static final List<Conformation> CLASSES =
            Stream.of("P", "O", "R", "U", "E", "S").map(Conformation::parse).toList();
    private static final List<FatClass> FAT_CLASSES =
            Stream.of("1", "2", "3", "4", "5").map(FatClass::parse).toList();

    /** A line and the marks on it. */
    record Style(Pen pen, Mark mark) {}

    /** One for each fat class. */
    static final List<Style> LINES = List.of(
            new Style(Pen.line(Ink.BLACK, LINE_PX), Mark.CIRCLE),
            new Style(Pen.line(Ink.BLUE, LINE_PX, 9, 3), Mark.SQUARE),
            new Style(Pen.line(Ink.VERMILLION, LINE_PX, 5, 3), Mark.DIAMOND),
            new Style(Pen.line(Ink.BLUISH_GREEN, LINE_PX, 9, 3, 2, 3), Mark.TRIANGLE_UP),
            new Style(Pen.line(Ink.REDDISH_PURPLE, LINE_PX, 2, 2), Mark.TRIANGLE_DOWN));

    private final YieldEstimator estimator;
    private final Carcass base;
    private final Figure figure;
    private boolean isOutsideData;

    private YieldByGrade(YieldEstimator estimator, Carcass base, Figure figure) {
        this.estimator = estimator;
        this.base = base;
        this.figure = figure;
    }

    static Picture draw(YieldEstimator estimator, Carcass base, Figure figure, String name) {
        return new YieldByGrade(estimator, base, figure).draw(name);
    }

    /** Per cent of the cold weight, or nothing where the estimator gives no estimate. */
    private OptionalDouble percent(Conformation conformation, FatClass fatClass) {
        try {
            YieldEstimate estimate =
                    estimator.estimate(Carcass.of(base.category(), conformation, fatClass, base.coldWeightKg()));
            isOutsideData |= !estimate.rangeNotes().isEmpty();
            return OptionalDouble.of(100 * estimate.kg(figure) / base.coldWeightKg());
        } catch (RefusedCarcassException e) {
            return OptionalDouble.empty();
        }
    }

    /** A line by thirds, its marks at whole classes. */
    private static final class Curve {
        final FatClass fatClass;
        final List<Double> x = new ArrayList<>();
        final List<Double> y = new ArrayList<>();

        Curve(FatClass fatClass) {
            this.fatClass = fatClass;
        }
    }

    private Picture draw(String name) {
        // a base that the table refuses is the caller's to know
        estimator.estimate(base);
        List<Curve> curves = new ArrayList<>();
        for (FatClass fatClass : FAT_CLASSES) {
            Curve curve = new Curve(fatClass);
            IntStream.rangeClosed(1, POINTS)
                    .forEach(position -> percent(Conformation.third(position), fatClass)
                            .ifPresent(percent -> {
                                curve.x.add((double) position);
                                curve.y.add(percent);
                            }));
            if (!curve.x.isEmpty()) {
                curves.add(curve);
            }
        }
        double low = curves.stream()
                .flatMap(curve -> curve.y.stream())
                .min(Double::compare)
                .orElseThrow();
        double high = curves.stream()
                .flatMap(curve -> curve.y.stream())
                .max(Double::compare)
                .orElseThrow();
        Axis y = Axis.rounded(low, high, TICKS);
        String axis = name + ", % of cold weight";
        Plot plot = new Plot(
                Plot.WIDTH_PX,
                name + " by grade",
                List.of(
                        "Category " + base.category() + ", " + Outturns.plain(base.coldWeightKg())
                                + " kg cold, one line for each fat class",
                        estimator.toString()),
                Plot.headPx(axis),
                Plot.leftPx(y),
                66,
                AREA_PX,
                Axis.plain(0.5, POINTS + 0.5),
                y);
        plot.gridY(axis);
        for (Curve curve : curves) {
            plot.line(style(curve).pen(), curve.x, curve.y);
        }
        StringBuilder words = new StringBuilder(axis + ", at the middle of each conformation class from P to S.");
        for (Curve curve : curves) {
            words.append(" Fat class ").append(curve.fatClass).append(':');
            for (Conformation conformation : CLASSES) {
                int at = curve.x.indexOf(conformation.position());
                if (at >= 0) {
                    Style style = style(curve);
                    plot.mark(style.mark(), style.pen().rgb(), curve.x.get(at), curve.y.get(at), MARK_PX);
                    words.append(' ')
                            .append(conformation)
                            .append(' ')
                            .append(Numbers.fixed(curve.y.get(at), 1))
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
        plot.notes(
                isOutsideData
                        ? List.of("Some of these grades lie outside the range of the data behind the table")
                        : List.of());
        return plot.picture(words.toString());
    }

    /** A label at the end of each line, moved apart where they would overlap, and up where they would leave the area. */
    private static void label(Plot plot, List<Curve> curves) {
        List<Curve> topDown = curves.stream()
                .sorted(Comparator.comparingDouble(curve -> plot.py(last(curve.y))))
                .toList();
        double[] at =
                topDown.stream().mapToDouble(curve -> plot.py(last(curve.y))).toArray();
        for (int i = 1; i < at.length; i++) {
            at[i] = Math.max(at[i], at[i - 1] + LABEL_PX);
        }
        double below = plot.bottomPx() + LABEL_PX;
        for (int i = at.length - 1; i >= 0; i--) {
            at[i] = Math.min(at[i], below - LABEL_PX);
            below = at[i];
        }
        for (int i = 0; i < at.length; i++) {
            plot.text(plot.px(last(topDown.get(i).x)) + 10, at[i] + 4, "fat " + topDown.get(i).fatClass);
        }
    }

    private static Style style(Curve curve) {
        return LINES.get(FAT_CLASSES.indexOf(curve.fatClass));
    }

    private static double last(List<Double> values) {
        return values.get(values.size() - 1);
    }
}
