package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.beefyield.carcass.Category;
import org.beefyield.cut.CutKind;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.feedback.FeedbackSheet;
import org.beefyield.text.Names;

/** A supplier's animals and their average beside the hall's average of their category. */
final class BesideHall {
    private static final int TICKS = 5;
    private static final double MARK_PX = 5;
    private static final double DOT_PX = 3;
    private static final Pen HALL = Pen.line(Ink.STRONG, 2);

    private BesideHall() {}

    /** What is looked at. */
    private record Measure(String name, ToDoubleFunction<Outturn> share) {}

    private static final List<Measure> MEASURES = List.of(
            new Measure("Saleable meat", outturn -> 100 * outturn.saleableKg() / outturn.coldWeightKg()),
            new Measure("Fat trim", outturn -> 100 * outturn.share(CutKind.FAT_TRIM)));

    static Picture draw(FeedbackSheet sheet) {
        if (sheet.averages().isEmpty()) {
            throw new IllegalArgumentException("the sheet of " + sheet.supplier()
                    + " has no hall's average to draw beside; there are too few animals or suppliers for one");
        }
        Rows rows = new Rows("yours, %", "hall's, %");
        StringBuilder words = new StringBuilder("Per cent of the cold weight, yours and the hall's average.");
        double reach = 0;
        for (Map.Entry<Category, LotEstimate> hall : sheet.averages().entrySet()) {
            LotEstimate own = sheet.ownAverages().get(hall.getKey());
            rows.heading(Names.capital(hall.getKey().plural()));
            words.append(' ').append(Names.capital(hall.getKey().plural())).append(':');
            for (Measure measure : MEASURES) {
                double average = measure.share.applyAsDouble(hall.getValue());
                double mean = measure.share.applyAsDouble(own) - average;
                List<Double> dots = new ArrayList<>();
                for (YieldEstimate animal : sheet.animals()) {
                    if (animal.carcass().category() == hall.getKey()) {
                        dots.add(measure.share.applyAsDouble(animal) - average);
                    }
                }
                for (double dot : dots) {
                    reach = Math.max(reach, Math.abs(dot));
                }
                List<String> figures = List.of(Figures.fixed(mean + average, 1), Figures.fixed(average, 1));
                rows.row(measure.name, figures, (plot, centrePx) -> {
                    // animals of one place are one mark, or thousands of them would lie on one another
                    dots.stream()
                            .mapToDouble(dot -> Math.rint(plot.px(dot)))
                            .distinct()
                            .forEach(px -> plot.hollowMarkPx(Mark.CIRCLE, Ink.BLUE, px, centrePx, DOT_PX));
                    plot.markPx(Mark.DIAMOND, Ink.STRONG, plot.px(mean), centrePx, MARK_PX);
                });
                words.append(' ')
                        .append(measure.name)
                        .append(' ')
                        .append(String.join(", ", figures))
                        .append('.');
            }
        }
        double shown = reach;
        Plot plot = rows.plot(
                "Yours beside the hall's average",
                List.of(sheet.supplier(), "estimated from weight and grade, not weighed"),
                new Legend()
                        .sign(
                                "your average",
                                (one, leftPx, rightPx, centrePx) ->
                                        one.markPx(Mark.DIAMOND, Ink.STRONG, (leftPx + rightPx) / 2, centrePx, MARK_PX))
                        .sign(
                                "one animal",
                                (one, leftPx, rightPx, centrePx) -> one.hollowMarkPx(
                                        Mark.CIRCLE, Ink.BLUE, (leftPx + rightPx) / 2, centrePx, DOT_PX))
                        .line("the hall's average", HALL),
                "% of cold weight more or less than the hall",
                roomPx -> Axis.around(Math.max(shown, 0.1), TICKS, roomPx));
        plot.uprightLine(HALL, 0);
        return plot.picture(words.toString());
    }
}
