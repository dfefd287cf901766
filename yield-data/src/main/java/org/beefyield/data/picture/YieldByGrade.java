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
import org.beefyield.text.Numbers;

/** A figure against conformation, a line for each fat class. */
final class YieldByGrade {
    private static final int POINTS = 18;
    private static final int AREA_PX = 300;
    private static final int TICKS = 7;
    private static final int LABEL_PX = 15;
    private static final double LINE_PX = 2;

    private static final List<Conformation> CLASSES =
            Stream.of("P", "O", "R", "U", "E", "S").map(Conformation::parse).toList();
    private static final List<FatClass> FAT_CLASSES =
            Stream.of("1", "2", "3", "4", "5").map(FatClass::parse).toList();

    /** One for each fat class. */
    static final List<Pen> LINES = List.of(
            new Pen(Ink.BLACK.rgb(), LINE_PX, List.of(), Pen.Mark.CIRCLE),
            new Pen(Ink.BLUE.rgb(), LINE_PX, List.of(9.0, 3.0), Pen.Mark.SQUARE),
            new Pen(Ink.VERMILLION.rgb(), LINE_PX, List.of(5.0, 3.0), Pen.Mark.DIAMOND),
            new Pen(Ink.BLUISH_GREEN.rgb(), LINE_PX, List.of(9.0, 3.0, 2.0, 3.0), Pen.Mark.TRIANGLE_UP),
            new Pen(Ink.REDDISH_PURPLE.rgb(), LINE_PX, List.of(2.0, 2.0), Pen.Mark.TRIANGLE_DOWN));

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
        Plot plot = new Plot(
                Plot.WIDTH_PX,
                name + " by grade",
                List.of(
                        "Category " + base.category() + ", " + Outturns.plain(base.coldWeightKg())
                                + " kg cold, one line for each fat class",
                        estimator.toString()),
                34,
                48,
                66,
                AREA_PX,
                Axis.plain(0.5, POINTS + 0.5),
                y);
        String axis = name + ", % of cold weight";
        plot.gridY(axis);
        for (Curve curve : curves) {
            plot.line(pen(curve).withoutMark(), curve.x, curve.y);
        }
        StringBuilder words = new StringBuilder(axis + ", at the middle of each conformation class from P to S.");
        for (Curve curve : curves) {
            words.append(" Fat class ").append(curve.fatClass).append(':');
            for (Conformation conformation : CLASSES) {
                int at = curve.x.indexOf(conformation.position());
                if (at >= 0) {
                    plot.markAt(pen(curve).withoutLine(), curve.x.get(at), curve.y.get(at));
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

    /** A label at the end of each line, moved apart where they would overlap. */
    private static void label(Plot plot, List<Curve> curves) {
        List<Curve> topDown = curves.stream()
                .sorted(Comparator.comparingDouble(curve -> plot.py(last(curve.y))))
                .toList();
        double before = Double.NEGATIVE_INFINITY;
        for (Curve curve : topDown) {
            double at = Math.max(plot.py(last(curve.y)), before + LABEL_PX);
            plot.text(
                    plot.px(last(curve.x)) + 10,
                    at + 4,
                    Plot.Anchor.START,
                    Plot.TEXT_PX,
                    false,
                    Ink.TEXT.rgb(),
                    "fat " + curve.fatClass);
            before = at;
        }
    }

    private static Pen pen(Curve curve) {
        return LINES.get(FAT_CLASSES.indexOf(curve.fatClass));
    }

    private static double last(List<Double> values) {
        return values.get(values.size() - 1);
    }
}
