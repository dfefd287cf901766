package org.beefyield.data.picture;

import java.util.List;
import java.util.stream.IntStream;

/** A figure for each conformation and fat class, best conformation first: cells with their figures. */
final class Cells {
    private static final int CELL_HEIGHT_PX = 36;
    private static final int CELL_WIDTH_PX = 44;
    private static final int CELL_GAP_PX = 4;
    private static final int LEFT_PX = 44;
    private static final int RIGHT_PX = 10;
    private static final int HEAD_PX = 36;
    /** How much less of the cell is shaded where no data stand behind a figure. */
    private static final int LIGHT_PX = 5;

    private static final Pen ZERO = Pen.line(Ink.STRONG, 3);
    private static final Pen LIGHT = Pen.line(Ink.TEXT, 1, 3, 3);

    /** A cell. */
    record Cell(String text, Ink shade, boolean isSolid, boolean isBelowZero) {}

    private final List<String> rows;
    private final List<String> columns;
    private final List<List<Cell>> cells;

    Cells(List<String> rows, List<String> columns, List<List<Cell>> cells) {
        this.rows = rows;
        this.columns = columns;
        this.cells = cells;
    }

    /** Whether figures on both sides of zero stand side by side. */
    boolean hasBothSigns() {
        return cells.stream().flatMap(List::stream).anyMatch(Cell::isBelowZero)
                && !cells.stream().flatMap(List::stream).allMatch(Cell::isBelowZero);
    }

    boolean isAllSolid() {
        return cells.stream().flatMap(List::stream).allMatch(Cell::isSolid);
    }

    /** Signs for what these cells have beside their shades. */
    Legend legend(Legend shades) {
        Legend legend = shades;
        if (hasBothSigns()) {
            legend = legend.line("zero, where more turns into less", ZERO);
        }
        if (!isAllSolid()) {
            legend = legend.sign(
                    "dashed: no data behind the table",
                    (plot, leftPx, rightPx, centrePx) -> light(plot, leftPx, centrePx - 8, rightPx, centrePx + 8));
        }
        return legend;
    }

    Plot plot(String title, List<String> subtitles, Legend legend) {
        int cellPx = CELL_GAP_PX
                + cells.stream()
                        .flatMap(List::stream)
                        .mapToInt(cell -> Letters.TEXT.widthPx(cell.text))
                        .max()
                        .orElse(0);
        Plot plot = new Plot(
                Math.max(Plot.WIDTH_PX, LEFT_PX + columns.size() * Math.max(CELL_WIDTH_PX, cellPx) + RIGHT_PX),
                title,
                subtitles,
                HEAD_PX + legend.heightPx(),
                LEFT_PX,
                RIGHT_PX,
                rows.size() * CELL_HEIGHT_PX,
                Axis.plain(0, columns.size()),
                Axis.plain(0, rows.size()));
        legend.draw(plot);
        plot.text(Plot.MARGIN_PX, plot.topPx() - 10, Plot.Anchor.START, Letters.BOLD, Ink.TEXT, "Conformation");
        for (int i = 0; i < rows.size(); i++) {
            double top = plot.topPx() + i * CELL_HEIGHT_PX;
            double centre = top + CELL_HEIGHT_PX / 2.0;
            plot.text(LEFT_PX - 8, centre + 4, Plot.Anchor.END, Letters.TEXT, Ink.TEXT, rows.get(i));
            for (int j = 0; j < columns.size(); j++) {
                Cell cell = cells.get(i).get(j);
                draw(plot, cell, plot.px(j) + 1, top + 1, plot.px(j + 1) - 1, top + CELL_HEIGHT_PX - 1);
                plot.text(plot.px(j + 0.5), centre + 4, Plot.Anchor.MIDDLE, Letters.TEXT, Ink.STRONG, cell.text);
                if (j > 0 && cell.isBelowZero != cells.get(i).get(j - 1).isBelowZero) {
                    plot.linePx(ZERO, plot.px(j), top - 1, plot.px(j), top + CELL_HEIGHT_PX + 1);
                }
                if (i > 0 && cell.isBelowZero != cells.get(i - 1).get(j).isBelowZero) {
                    plot.linePx(ZERO, plot.px(j) - 1, top, plot.px(j + 1) + 1, top);
                }
            }
        }
        plot.labelX(
                "Fat class",
                IntStream.range(0, columns.size()).mapToObj(j -> j + 0.5).toList(),
                columns);
        return plot;
    }

    private static void draw(Plot plot, Cell cell, double leftPx, double topPx, double rightPx, double bottomPx) {
        if (cell.isSolid) {
            plot.areaPx(Ink.GRID, leftPx, topPx, rightPx, bottomPx);
            plot.areaPx(cell.shade, leftPx + 0.5, topPx + 0.5, rightPx - 0.5, bottomPx - 0.5);
        } else {
            plot.areaPx(cell.shade, leftPx + LIGHT_PX, topPx + LIGHT_PX, rightPx - LIGHT_PX, bottomPx - LIGHT_PX);
            light(plot, leftPx + 1, topPx + 1, rightPx - 1, bottomPx - 1);
        }
    }

    private static void light(Plot plot, double leftPx, double topPx, double rightPx, double bottomPx) {
        plot.linePx(LIGHT, leftPx, topPx, rightPx, topPx);
        plot.linePx(LIGHT, leftPx, bottomPx, rightPx, bottomPx);
        plot.linePx(LIGHT, leftPx, topPx, leftPx, bottomPx);
        plot.linePx(LIGHT, rightPx, topPx, rightPx, bottomPx);
    }
}
