package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntFunction;

/** A picture of rows: names left, a drawing along a level axis, columns of figures right. */
final class Rows {
    static final int BAR_PX = 14;
    private static final int NAME_PX = 128;
    private static final int GAP_PX = 8;
    private static final int COLUMN_GAP_PX = 10;
    private static final int ROW_PX = 24;
    private static final int NAME_LINE_PX = 15;
    private static final int HEADING_PX = 30;
    private static final int HEAD_PX = 16;
    private static final int LINE_PX = 22;
    /** Above this the axis is written on top as well. */
    private static final int TALL_PX = 420;
    /** Room for what is drawn, however wide the figures are. */
    private static final int AREA_PX = 120;

    /** What stands in a row. */
    interface Drawing {
        void at(Plot plot, double centrePx);
    }

    private record Row(String name, List<String> figures, boolean isHeading, Drawing drawing) {
        Letters letters() {
            return isHeading ? Letters.BOLD : Letters.TEXT;
        }

        /** A name beside the area, or a heading beside its figures. */
        List<String> lines(int widthPx, int figuresPx) {
            int besidePx = figures.stream().allMatch(String::isEmpty) ? 0 : figuresPx + GAP_PX;
            return letters().wrap(name, isHeading ? widthPx - 2 * Plot.MARGIN_PX - besidePx : NAME_PX);
        }

        int heightPx(int widthPx, int figuresPx) {
            return (isHeading ? HEADING_PX : ROW_PX)
                    + (lines(widthPx, figuresPx).size() - 1) * NAME_LINE_PX;
        }
    }

    private final List<String> heads;
    private final List<Row> rows = new ArrayList<>();

    /**
     * No rows yet.
     *
     * @param heads what stands over the columns of figures
     */
    Rows(String... heads) {
        this.heads = List.of(heads);
    }

    /** A heading with as many figures as there are columns, or none. */
    void heading(String text, String... figures) {
        rows.add(new Row(text, List.of(figures), true, (plot, centrePx) -> {}));
    }

    /** A row with a figure for each column. */
    void row(String name, List<String> figures, Drawing drawing) {
        rows.add(new Row(name, List.copyOf(figures), false, drawing));
    }

    private List<Integer> columnsPx() {
        List<Integer> widths = new ArrayList<>();
        for (int i = 0; i < heads.size(); i++) {
            int column = i;
            widths.add(rows.stream()
                    .filter(row -> column < row.figures.size())
                    .mapToInt(row -> row.letters().widthPx(row.figures.get(column)))
                    .reduce(Letters.BOLD.widthPx(heads.get(i)), Math::max));
        }
        return widths;
    }

    /**
     * Puts the rows on an axis.
     *
     * @param axis title of the axis
     * @param x the axis for a room in pixels
     */
    Plot plot(String title, List<String> subtitles, Legend legend, String axis, IntFunction<Axis> x) {
        List<Integer> columnsPx = columnsPx();
        int figuresPx = columnsPx.stream().mapToInt(px -> px + COLUMN_GAP_PX).sum() - COLUMN_GAP_PX;
        int leftPx = Plot.MARGIN_PX + NAME_PX + GAP_PX;
        int rightPx = 2 * COLUMN_GAP_PX + figuresPx + Plot.MARGIN_PX;
        int widthPx = Math.max(Plot.WIDTH_PX, leftPx + AREA_PX + rightPx);
        int heightPx =
                rows.stream().mapToInt(row -> row.heightPx(widthPx, figuresPx)).sum();
        boolean isTall = heightPx > TALL_PX;
        Plot plot = new Plot(
                widthPx,
                title,
                subtitles,
                legend.heightPx() + HEAD_PX + (isTall ? 2 * LINE_PX : LINE_PX),
                leftPx,
                rightPx,
                heightPx,
                x.apply(widthPx - leftPx - rightPx),
                Axis.plain(0, heightPx));
        if (isTall) {
            plot.labelOnTop(axis);
        }
        figures(plot, columnsPx, heads, plot.topPx() - GAP_PX, Letters.BOLD, Ink.TEXT);
        legend.draw(plot);
        plot.gridX(axis);
        double topPx = plot.topPx();
        for (Row row : rows) {
            draw(plot, row, topPx, columnsPx, figuresPx);
            topPx += row.heightPx(widthPx, figuresPx);
        }
        return plot;
    }

    private static void figures(
            Plot plot, List<Integer> columnsPx, List<String> figures, double py, Letters letters, Ink ink) {
        double rightPx = plot.widthPx() - Plot.MARGIN_PX;
        for (int i = columnsPx.size() - 1; i >= 0; i--) {
            if (i < figures.size() && !figures.get(i).isEmpty()) {
                plot.text(rightPx, py, Plot.Anchor.END, letters, ink, figures.get(i));
            }
            rightPx -= columnsPx.get(i) + COLUMN_GAP_PX;
        }
    }

    private static void draw(Plot plot, Row row, double topPx, List<Integer> columnsPx, int figuresPx) {
        double heightPx = row.heightPx(plot.widthPx(), figuresPx);
        double centrePx = topPx + heightPx / 2;
        row.drawing.at(plot, centrePx);
        List<String> lines = row.lines(plot.widthPx(), figuresPx);
        double atPx =
                row.isHeading ? topPx + HEADING_PX - GAP_PX : centrePx - (lines.size() - 1) * NAME_LINE_PX / 2.0 + 4;
        Ink ink = row.isHeading ? Ink.STRONG : Ink.TEXT;
        figures(plot, columnsPx, row.figures, row.isHeading ? atPx : centrePx + 4, row.letters(), ink);
        for (String line : lines) {
            if (row.isHeading) {
                plot.text(Plot.MARGIN_PX, atPx, Plot.Anchor.START, row.letters(), ink, line);
            } else {
                plot.text(Plot.MARGIN_PX + NAME_PX, atPx, Plot.Anchor.END, row.letters(), ink, line);
            }
            atPx += NAME_LINE_PX;
        }
    }
}
