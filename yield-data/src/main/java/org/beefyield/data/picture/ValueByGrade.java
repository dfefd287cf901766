package org.beefyield.data.picture;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.beefyield.carcass.FatClass;
import org.beefyield.pay.GradeDifferentials;
import org.beefyield.text.Numbers;

/** A figure for each grade: cells with their figures, the darker the more. */
final class ValueByGrade {
    private static final int CELL_HEIGHT_PX = 36;
    private static final int CELL_WIDTH_PX = 44;
    private static final int CELL_GAP_PX = 2;
    private static final int LEFT_PX = 44;
    private static final int RIGHT_PX = 10;
    private static final int HEAD_PX = 78;
    private static final int SCALE_PX = 18;
    private static final int SCALE_STEPS = 5;
    private static final int SCALE_WIDTH_PX = 40;
    private static final int SCALE_GAP_PX = 6;

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
        String lowest = signed(low, decimals);
        String highest = signed(high, decimals);
        String scale = highest + " " + unit;
        int cellPx = CELL_GAP_PX + Math.max(Letters.TEXT.widthPx(lowest), Letters.TEXT.widthPx(highest));
        int cellsPx = LEFT_PX + columns * Math.max(CELL_WIDTH_PX, cellPx) + RIGHT_PX;
        Plot plot = new Plot(
                Math.max(Plot.WIDTH_PX, Math.max(cellsPx, scaleEndPx(lowest) + Letters.TEXT.widthPx(scale) + RIGHT_PX)),
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
        scale(plot, lowest, scale);
        plot.text(Plot.MARGIN_PX, plot.topPx() - 10, Plot.Anchor.START, Letters.BOLD, Ink.TEXT, "Conformation");
        StringBuilder words = new StringBuilder(differentials + ". " + figure + ", " + unit + ".");
        for (int i = 0; i < rows; i++) {
            String conformation = differentials.conformations().get(i).toString();
            double y = rows - i;
            plot.text(LEFT_PX - 8, plot.py(y) + 4, Plot.Anchor.END, Letters.TEXT, Ink.TEXT, conformation);
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
                new Pen(shade, CELL_HEIGHT_PX - 1, List.of()),
                plot.px(x - 0.5) + 0.5,
                centrePx,
                plot.px(x + 0.5) - 0.5,
                centrePx);
        plot.text(plot.px(x), centrePx + 4, Plot.Anchor.MIDDLE, Letters.TEXT, Ink.BLACK, isStated ? text : "–");
    }

    /** The legend: shades from the lowest to the highest figure. */
    private static void scale(Plot plot, String lowest, String highest) {
        double centrePx = plot.topPx() - HEAD_PX + 20;
        double atPx = scaleEndPx(lowest);
        plot.text(Plot.MARGIN_PX, centrePx + 4, lowest);
        plot.text(atPx, centrePx + 4, highest);
        for (int k = SCALE_STEPS - 1; k >= 0; k--) {
            Pen shade = new Pen(Ink.shade((double) k / (SCALE_STEPS - 1)), SCALE_PX, List.of());
            plot.barPx(shade, atPx - SCALE_GAP_PX - SCALE_WIDTH_PX, atPx - SCALE_GAP_PX, centrePx);
            atPx -= SCALE_WIDTH_PX;
        }
    }

    /** Where the highest figure stands. */
    private static int scaleEndPx(String lowest) {
        return Plot.MARGIN_PX + Letters.TEXT.widthPx(lowest) + SCALE_STEPS * SCALE_WIDTH_PX + 2 * SCALE_GAP_PX;
    }

    private static String signed(double value, int decimals) {
        String text = Numbers.signed(value, decimals);
        return text.matches("[+-]0(\\.0+)?") ? text.substring(1) : text;
    }
}
