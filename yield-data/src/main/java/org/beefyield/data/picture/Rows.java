package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.List;

/** A picture of rows: names left, a drawing along a level axis, figures right. */
final class Rows {
    static final int BAR_PX = 14;
    private static final int NAME_PX = 140;
    private static final int GAP_PX = 8;
    private static final int ROW_PX = 24;
    private static final int NAME_LINE_PX = 15;
    private static final int HEADING_PX = 30;
    private static final int HEAD_PX = 16;
    private static final int KEY_PX = 22;
    private static final int KEY_BAR_PX = 24;
    /** Above this the axis is written on top as well. */
    private static final int TALL_PX = 420;
    /** Room for what is drawn, however wide the figures are. */
    private static final int AREA_PX = 100;

    /** What stands in a row. */
    interface Drawing {
        void at(Plot plot, double centrePx);
    }

    /** A bar of a legend. */
    record Key(Pen pen, String words) {}

    private record Row(String name, String figure, boolean isHeading, Drawing drawing) {
        Letters letters() {
            return isHeading ? Letters.BOLD : Letters.TEXT;
        }

        /** A name beside the area, or a heading beside its figure. */
        List<String> lines(int widthPx) {
            int figurePx = figure.isEmpty() ? 0 : letters().widthPx(figure) + GAP_PX;
            return letters().wrap(name, isHeading ? widthPx - 2 * Plot.MARGIN_PX - figurePx : NAME_PX);
        }

        int heightPx(int widthPx) {
            return (isHeading ? HEADING_PX : ROW_PX) + (lines(widthPx).size() - 1) * NAME_LINE_PX;
        }
    }

    private final List<Row> rows = new ArrayList<>();

    void heading(String text, String figure) {
        rows.add(new Row(text, figure, true, (plot, centrePx) -> {}));
    }

    void row(String name, String figure, Drawing drawing) {
        rows.add(new Row(name, figure, false, drawing));
    }

    /** Puts the rows on an axis from one round figure to another. */
    Plot plot(String title, List<String> subtitles, List<Key> keys, String axis, String figures, Axis x) {
        int figurePx = rows.stream()
                .mapToInt(row -> row.letters().widthPx(row.figure()))
                .reduce(Letters.BOLD.widthPx(figures), Math::max);
        int leftPx = Plot.MARGIN_PX + NAME_PX + GAP_PX;
        int rightPx = GAP_PX + figurePx + Plot.MARGIN_PX;
        int widthPx = Math.max(Plot.WIDTH_PX, leftPx + AREA_PX + rightPx);
        int heightPx = rows.stream().mapToInt(row -> row.heightPx(widthPx)).sum();
        boolean isTall = heightPx > TALL_PX;
        int keysPx = keyLines(keys).size() * KEY_PX;
        Plot plot = new Plot(
                widthPx,
                title,
                subtitles,
                keysPx + HEAD_PX + (isTall ? 2 * KEY_PX : figures.isEmpty() ? 0 : KEY_PX),
                leftPx,
                rightPx,
                heightPx,
                x,
                Axis.plain(0, heightPx));
        if (isTall) {
            plot.labelOnTop(axis);
        }
        if (!figures.isEmpty()) {
            plot.text(
                    plot.widthPx() - Plot.MARGIN_PX,
                    plot.topPx() - GAP_PX,
                    Plot.Anchor.END,
                    Letters.BOLD,
                    Ink.TEXT,
                    figures);
        }
        drawKeys(plot, keys, keysPx + (isTall ? 2 * KEY_PX : figures.isEmpty() ? 0 : KEY_PX));
        plot.gridX(axis);
        double topPx = plot.topPx();
        for (Row row : rows) {
            draw(plot, row, topPx);
            topPx += row.heightPx(widthPx);
        }
        return plot;
    }

    private static void draw(Plot plot, Row row, double topPx) {
        double heightPx = row.heightPx(plot.widthPx());
        double centrePx = topPx + heightPx / 2;
        row.drawing().at(plot, centrePx);
        List<String> lines = row.lines(plot.widthPx());
        double atPx =
                row.isHeading() ? topPx + HEADING_PX - GAP_PX : centrePx - (lines.size() - 1) * NAME_LINE_PX / 2.0 + 4;
        double figurePx = row.isHeading() ? atPx : centrePx + 4;
        Ink ink = row.isHeading() ? Ink.BLACK : Ink.TEXT;
        for (String line : lines) {
            if (row.isHeading()) {
                plot.text(Plot.MARGIN_PX, atPx, Plot.Anchor.START, row.letters(), ink, line);
            } else {
                plot.text(Plot.MARGIN_PX + NAME_PX, atPx, Plot.Anchor.END, row.letters(), ink, line);
            }
            atPx += NAME_LINE_PX;
        }
        plot.text(plot.widthPx() - Plot.MARGIN_PX, figurePx, Plot.Anchor.END, row.letters(), ink, row.figure());
    }

    private static int keyWidthPx(Key key) {
        return KEY_BAR_PX + 6 + Letters.TEXT.widthPx(key.words()) + 12;
    }

    private static List<List<Key>> keyLines(List<Key> keys) {
        List<List<Key>> lines = new ArrayList<>();
        int usedPx = 0;
        for (Key key : keys) {
            if (lines.isEmpty() || usedPx + keyWidthPx(key) > Plot.WIDTH_PX - Plot.MARGIN_PX) {
                lines.add(new ArrayList<>());
                usedPx = Plot.MARGIN_PX;
            }
            lines.get(lines.size() - 1).add(key);
            usedPx += keyWidthPx(key);
        }
        return lines;
    }

    private static void drawKeys(Plot plot, List<Key> keys, int abovePx) {
        double centrePx = plot.topPx() - abovePx - HEAD_PX + KEY_PX;
        for (List<Key> line : keyLines(keys)) {
            double leftPx = Plot.MARGIN_PX;
            for (Key key : line) {
                plot.barPx(key.pen(), leftPx, leftPx + KEY_BAR_PX, centrePx);
                plot.text(leftPx + KEY_BAR_PX + 6, centrePx + 4, key.words());
                leftPx += keyWidthPx(key);
            }
            centrePx += KEY_PX;
        }
    }
}
