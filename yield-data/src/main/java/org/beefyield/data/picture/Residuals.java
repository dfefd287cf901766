package org.beefyield.data.picture;

import java.util.List;
import org.beefyield.calibrate.BreakdownFit;

/** What the carcasses of a trial were above or below a fit, against what it says. */
final class Residuals {
    private static final int TICKS = 7;
    private static final int SPREAD = 2;
    private static final double MARK_PX = 2.5;

    private Residuals() {}

    static Picture draw(BreakdownFit fit, String cut) {
        List<BreakdownFit.Residual> residuals = fit.residuals(cut);
        double reach = residuals.stream()
                .mapToDouble(residual -> Math.abs(residual.residualGPerKg()))
                .max()
                .orElseThrow();
        double spread = SPREAD * fit.rmse(cut);
        reach = Math.max(reach, spread);
        double low = residuals.stream()
                .mapToDouble(BreakdownFit.Residual::fittedGPerKg)
                .min()
                .orElseThrow();
        double high = residuals.stream()
                .mapToDouble(BreakdownFit.Residual::fittedGPerKg)
                .max()
                .orElseThrow();
        Axis y = Axis.rounded(-reach, reach, TICKS).signed();
        Axis x = Axis.rounded(low, high, TICKS, Plot.chartPx(y));
        String counted = Figures.count(residuals.size(), "carcass", "carcasses");
        String unit = "g per kg of " + fit.parent();
        long beyond = residuals.stream()
                .filter(residual -> Math.abs(residual.residualGPerKg()) > spread)
                .count();
        String rmse = Figures.fixed(fit.rmse(cut), 1);
        String titleY = "Weighed less fitted, " + unit;
        Plot plot = Plot.chart(
                "Residuals of " + cut, List.of("Breakdown of " + fit.name() + ", " + counted), 0, titleY, x, y);
        plot.levelLine(Pen.line(Ink.STRONG, 1.5), 0);
        plot.levelLine(Pen.line(Ink.VERMILLION, 1.5, 6, 4), spread);
        plot.levelLine(Pen.line(Ink.VERMILLION, 1.5, 6, 4), -spread);
        for (BreakdownFit.Residual residual : residuals) {
            plot.mark(Mark.CIRCLE, Ink.BLUE, residual.fittedGPerKg(), residual.residualGPerKg(), MARK_PX);
        }
        plot.gridX("Fitted, " + unit);
        String lines = "Broken lines: twice the root mean square residual of " + rmse + " g/kg; " + beyond
                + (beyond == 1 ? " carcass lies" : " carcasses lie") + " beyond them";
        plot.notes(List.of(lines));
        return plot.picture("Weighed less fitted against fitted, both in " + unit + ", one mark for each of " + counted
                + ". Fitted " + Figures.fixed(low, 1) + " to " + Figures.fixed(high, 1) + ". " + lines
                + ", where about 1 in 20 would be by chance.");
    }
}
