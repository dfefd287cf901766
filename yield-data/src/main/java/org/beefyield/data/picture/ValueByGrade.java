package org.beefyield.data.picture;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.beefyield.carcass.FatClass;
import org.beefyield.text.Numbers;
import org.beefyield.value.GradeDifferentials;

/** A figure for each grade: cells with their figures, the darker the more. */
final class ValueByGrade {
    private static final int CELL_HEIGHT_PX = 36;
    private static final int CELL_WIDTH_PX = 44;
    private static final int LEFT_PX = 44;
    private static final int RIGHT_PX = 10;
    private static final int HEAD_PX = 78;
    private static final int SCALE_PX = 18;
    private static final int SCALE_STEPS = 5;
    private static final int SCALE_WIDTH_PX = 40;

    private ValueByGrade() {}

    static Picture draw(GradeDifferentials differentials, String title, String figure, double[][] cells) {
        int rows = cells.length;
        int columns = cells[0].length;
        double[] stated = Arrays.stream(cells)
                .flatMapToDouble(Arrays::stream)
                .filter(cell -> !Double.isNaN(cell))
                .toArray();
        double low = Arrays.stream(stated).min().orElse(0);
        double high = Arrays.stream(stated).max().orElse(0);
        int decimals = Math.max(Math.abs(low), Math.abs(high)) < 100 ? 2 : 0;
        String unit = differentials.valuer().prices().currency() + " per kg cold";
        Plot plot = new Plot(
                Math.max(Plot.WIDTH_PX, LEFT_PX + RIGHT_PX + columns * CELL_WIDTH_PX),
                title,
                List.of(
                        differentials.toString(),
                        figure + ", " + unit + "; the darker the cell, the more",
                        differentials.valuer().estimator().toString()),
                HEAD_PX,
                LEFT_PX,
                RIGHT_PX,
                rows * CELL_HEIGHT_PX,
                Axis.plain(0.5, columns + 0.5),
                Axis.plain(0.5, rows + 0.5));
        scale(plot, low, high, decimals, unit);
        plot.text(
                Plot.MARGIN_PX,
                plot.topPx() - 10,
                Plot.Anchor.START,
                Plot.TEXT_PX,
                true,
                Ink.TEXT.rgb(),
                "Conformation");
        StringBuilder words = new StringBuilder(differentials + ". " + figure + ", " + unit + ".");
        for (int i = 0; i < rows; i++) {
            String conformation = differentials.conformations().get(i).toString();
            double y = rows - i;
            plot.text(LEFT_PX - 8, plot.py(y) + 4, Plot.Anchor.END, Plot.TEXT_PX, false, Ink.TEXT.rgb(), conformation);
            words.append(" Conformation ").append(conformation).append(':');
            for (int j = 0; j < columns; j++) {
                String fatClass = differentials.fatClasses().get(j).toString();
                String text = Double.isNaN(cells[i][j]) ? "not paid" : signed(cells[i][j], decimals);
                cell(plot, j + 1, y, cells[i][j], low, high, text);
                words.append(j == 0 ? " " : ", ")
                        .append("fat ")
                        .append(fatClass)
                        .append(' ')
                        .append(text);
            }
            words.append('.');
        }
        plot.labelX(
                "Fat class",
                IntStream.rangeClosed(1, columns).mapToObj(j -> (double) j).toList(),
                differentials.fatClasses().stream().map(FatClass::toString).toList());
        return plot.picture(words.toString());
    }

    private static void cell(Plot plot, double x, double y, double value, double low, double high, String text) {
        boolean isStated = !Double.isNaN(value);
        int shade = isStated ? Ink.shade(high > low ? (value - low) / (high - low) : 0) : Ink.WHITE.rgb();
        double centrePx = plot.py(y);
        plot.linePx(Pen.line(Ink.GRID, CELL_HEIGHT_PX), plot.px(x - 0.5), centrePx, plot.px(x + 0.5), centrePx);
        plot.linePx(
                new Pen(shade, CELL_HEIGHT_PX - 1, List.of(), Pen.Mark.NONE),
                plot.px(x - 0.5) + 0.5,
                centrePx,
                plot.px(x + 0.5) - 0.5,
                centrePx);
        int sizePx = Plot.widthPx(text, Plot.TEXT_PX) < plot.px(2) - plot.px(1) ? Plot.TEXT_PX : Plot.TEXT_PX - 3;
        plot.text(plot.px(x), centrePx + 4, Plot.Anchor.MIDDLE, sizePx, false, Ink.BLACK.rgb(), isStated ? text : "–");
    }

    /** The legend: shades from the lowest to the highest figure. */
    private static void scale(Plot plot, double low, double high, int decimals, String unit) {
        double centrePx = plot.topPx() - HEAD_PX + 20;
        double leftPx = Plot.MARGIN_PX;
        String from = signed(low, decimals);
        plot.text(leftPx, centrePx + 4, from);
        leftPx += Plot.widthPx(from, Plot.TEXT_PX);
        for (int k = 0; k < SCALE_STEPS; k++) {
            plot.barPx(
                    new Pen(Ink.shade((double) k / (SCALE_STEPS - 1)), SCALE_PX, List.of(), Pen.Mark.NONE),
                    leftPx + k * SCALE_WIDTH_PX,
                    leftPx + (k + 1) * SCALE_WIDTH_PX,
                    centrePx,
                    SCALE_PX);
        }
        plot.text(leftPx + SCALE_STEPS * SCALE_WIDTH_PX + 6, centrePx + 4, signed(high, decimals) + " " + unit);
    }

    private static String signed(double value, int decimals) {
        String text = Numbers.signed(value, decimals);
        return text.matches("[+-]0(\\.0+)?") ? text.substring(1) : text;
    }
}
