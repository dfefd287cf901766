package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.pay.GradeDifferentials;

/** A difference in money for each grade, blue above zero and orange below. */
final class ValueByGrade {
    private ValueByGrade() {}

    static Picture draw(GradeDifferentials differentials, String title, String more, String less, double[][] figures) {
        double reach = Arrays.stream(figures)
                .flatMapToDouble(Arrays::stream)
                .filter(figure -> !Double.isNaN(figure))
                .map(Math::abs)
                .max()
                .orElse(0);
        int decimals = reach < 100 ? 2 : 0;
        String unit = differentials.valuer().prices().currency() + " per kg cold";
        List<List<Cells.Cell>> cells = new ArrayList<>();
        StringBuilder words = new StringBuilder();
        for (int i = 0; i < figures.length; i++) {
            Conformation conformation = differentials.conformations().get(i);
            List<Cells.Cell> row = new ArrayList<>();
            words.append(" Conformation ").append(conformation).append(':');
            for (int j = 0; j < figures[i].length; j++) {
                FatClass fatClass = differentials.fatClasses().get(j);
                boolean isPaid = !Double.isNaN(figures[i][j]);
                boolean isFitted = isFitted(differentials, conformation, fatClass);
                String text = isPaid ? Figures.signed(figures[i][j], decimals) : "–";
                row.add(new Cells.Cell(
                        text,
                        isPaid && text.matches("[+-].*") ? Ink.shade(figures[i][j] / reach) : Ink.GROUND,
                        isFitted,
                        text.startsWith("-")));
                String said = isPaid ? text : "not paid";
                words.append(j == 0 ? " " : ", ")
                        .append("fat ")
                        .append(fatClass)
                        .append(' ')
                        .append(isFitted ? said : "(" + said + ")");
            }
            cells.add(row);
            words.append('.');
        }
        Cells all = new Cells(
                differentials.conformations().stream()
                        .map(Conformation::toString)
                        .toList(),
                differentials.fatClasses().stream().map(FatClass::toString).toList(),
                cells);
        Legend shades = new Legend()
                .sign("+ " + more, (plot, leftPx, rightPx, centrePx) -> shades(plot, 1, leftPx, rightPx, centrePx))
                .sign("- " + less, (plot, leftPx, rightPx, centrePx) -> shades(plot, -1, leftPx, rightPx, centrePx));
        Plot plot = all.plot(
                title + ", " + unit,
                List.of(
                        differentials.toString(),
                        differentials.valuer().estimator().toString()),
                all.legend(shades));
        return plot.picture(differentials + ". In " + unit + ", + " + more + ", - " + less
                + (all.isAllSolid() ? "." : "; in brackets where no data stand behind the table.") + words);
    }

    private static boolean isFitted(GradeDifferentials differentials, Conformation conformation, FatClass fatClass) {
        Carcass base = differentials.base();
        try {
            return differentials
                    .valuer()
                    .estimator()
                    .estimate(Carcass.of(base.category(), conformation, fatClass, base.coldWeightKg()))
                    .rangeNotes()
                    .isEmpty();
        } catch (RefusedCarcassException e) {
            return false;
        }
    }

    /** From zero to the largest. */
    static void shades(Plot plot, int sign, double leftPx, double rightPx, double centrePx) {
        double stepPx = (rightPx - leftPx) / Ink.SHADES;
        for (int step = 0; step < Ink.SHADES; step++) {
            plot.areaPx(
                    Ink.shade(sign * (step + 1.0) / Ink.SHADES),
                    leftPx + step * stepPx,
                    centrePx - 7,
                    leftPx + (step + 1) * stepPx,
                    centrePx + 7);
        }
    }
}
