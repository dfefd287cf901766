package org.beefyield.data.picture;

import java.util.List;
import org.beefyield.calibrate.BreakdownFit;
import org.beefyield.estimate.Interval;

/**
 * Shares before and after a calibration, at the reference carcass. The change is drawn, with its error: beside the shares
 * themselves it would be too small to see.
 */
final class BeforeAndAfter {
    private static final int TICKS = 5;
    private static final double MARK_PX = 4;
    private static final int HALF_PX = 4;
    private static final Pen BAND = Pen.line(Ink.SKY_BLUE, 2 * HALF_PX);
    private static final Pen END = Pen.line(Ink.BLUE, 1.5);

    private BeforeAndAfter() {}

    static Picture draw(BreakdownFit fit) {
        String level = fit.terms().get(0);
        Rows rows = new Rows("before", "after", "SE");
        StringBuilder words = new StringBuilder("Shares of the reference carcass in g per kg of " + fit.parent()
                + ", before, after, and the standard error after.");
        double reach = 0;
        for (String cut : fit.cuts()) {
            double before = fit.priorCoefficient(cut, level);
            double after = fit.coefficient(cut, level);
            double error = fit.standardError(cut, level);
            Interval change =
                    Interval.student(after - before, error, fit.degreesOfFreedom(), Interval.SHOWN_PROBABILITY);
            reach = Math.max(reach, Math.max(Math.abs(change.low()), Math.abs(change.high())));
            List<String> figures = List.of(Figures.fixed(before, 1), Figures.fixed(after, 1), Figures.fixed(error, 1));
            rows.row(Outturns.words(cut), figures, (plot, centrePx) -> {
                sign(plot, plot.px(change.low()), plot.px(change.high()), centrePx);
                plot.markPx(Mark.CIRCLE, Ink.STRONG, plot.px(after - before), centrePx, MARK_PX);
            });
            words.append(' ')
                    .append(Outturns.words(cut))
                    .append(' ')
                    .append(String.join(", ", figures))
                    .append('.');
        }
        double shown = reach;
        Plot plot = rows.plot(
                "Before and after calibration: " + fit.name(),
                List.of(
                        "g per kg of " + fit.parent() + " at the reference carcass, "
                                + Figures.count(fit.carcassCount(), "carcass", "carcasses"),
                        "SE: standard error after the calibration"),
                new Legend()
                        .line("before", Pen.line(Ink.STRONG, 1))
                        .sign(
                                "after",
                                (plot1, leftPx, rightPx, centrePx) -> plot1.markPx(
                                        Mark.CIRCLE, Ink.STRONG, (leftPx + rightPx) / 2, centrePx, MARK_PX))
                        .sign(
                                "its 90 % interval",
                                (plot1, leftPx, rightPx, centrePx) -> sign(plot1, leftPx + 1, rightPx - 1, centrePx)),
                "after less before, g per kg",
                roomPx -> Axis.around(shown, TICKS, roomPx));
        plot.uprightLine(Pen.line(Ink.STRONG, 1), 0);
        return plot.picture(words.toString());
    }

    private static void sign(Plot plot, double leftPx, double rightPx, double centrePx) {
        plot.linePx(BAND, leftPx, centrePx, rightPx, centrePx);
        for (double end : List.of(leftPx, rightPx)) {
            plot.linePx(END, end, centrePx - HALF_PX, end, centrePx + HALF_PX);
        }
    }
}
