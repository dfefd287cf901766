package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

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

    /** What stands in a row. */
    interface Drawing {
        void at(Plot plot, double centrePx);
    }

    /** A bar of a legend. */
    record Key(Pen pen, String words) {}

    private record Row(List<String> name, String figure, boolean isHeading, Drawing drawing) {
        int heightPx() {
            return isHeading ? HEADING_PX : ROW_PX + (name.size() - 1) * NAME_LINE_PX;
        }
    }

    private final List<Row> rows = new ArrayList<>();

    void heading(String text, String figure) {
        rows.add(new Row(List.of(text), figure, true, (plot, centrePx) -> {}));
    }

    void row(String name, String figure, Drawing drawing) {
        rows.add(new Row(Plot.wrap(name, NAME_PX, Plot.TEXT_PX), figure, false, drawing));
    }

    /** Puts the rows on an axis from one round figure to another. */
    Plot plot(String title, List<String> subtitles, List<Key> keys, String axis, String figures, Axis x) {
        int heightPx = rows.stream().mapToInt(Row::heightPx).sum();
        int figurePx = Stream.concat(Stream.of(figures), rows.stream().map(Row::figure))
                        .mapToInt(text -> Plot.widthPx(text, Plot.TEXT_PX))
                        .max()
                        .orElse(0)
                + Plot.MARGIN_PX;
        boolean isTall = heightPx > TALL_PX;
        int keysPx = keyLines(keys).size() * KEY_PX;
        Plot plot = new Plot(
                Plot.WIDTH_PX,
                title,
                subtitles,
                keysPx + HEAD_PX + (isTall ? 2 * KEY_PX : figures.isEmpty() ? 0 : KEY_PX),
                Plot.MARGIN_PX + NAME_PX + GAP_PX,
                Math.max(figurePx + GAP_PX, Plot.MARGIN_PX),
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
                    Plot.TEXT_PX,
                    true,
                    Ink.TEXT.rgb(),
                    figures);
        }
        drawKeys(plot, keys, keysPx + (isTall ? 2 * KEY_PX : figures.isEmpty() ? 0 : KEY_PX));
        plot.gridX(axis);
        double topPx = plot.topPx();
        for (Row row : rows) {
            draw(plot, row, topPx);
            topPx += row.heightPx();
        }
        return plot;
    }

    private static void draw(Plot plot, Row row, double topPx) {
        double centrePx = topPx + row.heightPx() / 2.0;
        if (row.isHeading()) {
            plot.text(
                    Plot.MARGIN_PX,
                    topPx + HEADING_PX - GAP_PX,
                    Plot.Anchor.START,
                    Plot.TEXT_PX,
                    true,
                    Ink.BLACK.rgb(),
                    row.name().get(0));
            plot.text(
                    plot.widthPx() - Plot.MARGIN_PX,
                    topPx + HEADING_PX - GAP_PX,
                    Plot.Anchor.END,
                    Plot.TEXT_PX,
                    true,
                    Ink.BLACK.rgb(),
                    row.figure());
            return;
        }
        row.drawing().at(plot, centrePx);
        double firstPx = centrePx - (row.name().size() - 1) * NAME_LINE_PX / 2.0 + 4;
        for (int i = 0; i < row.name().size(); i++) {
            plot.text(
                    Plot.MARGIN_PX + NAME_PX,
                    firstPx + i * NAME_LINE_PX,
                    Plot.Anchor.END,
                    Plot.TEXT_PX,
                    false,
                    Ink.TEXT.rgb(),
                    row.name().get(i));
        }
        plot.text(
                plot.widthPx() - Plot.MARGIN_PX,
                centrePx + 4,
                Plot.Anchor.END,
                Plot.TEXT_PX,
                false,
                Ink.TEXT.rgb(),
                row.figure());
    }

    private static int keyWidthPx(Key key) {
        return KEY_BAR_PX + 6 + Plot.widthPx(key.words(), Plot.TEXT_PX) + 12;
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
                plot.barPx(key.pen(), leftPx, leftPx + KEY_BAR_PX, centrePx, BAR_PX);
                plot.text(leftPx + KEY_BAR_PX + 6, centrePx + 4, key.words());
                leftPx += keyWidthPx(key);
            }
            centrePx += KEY_PX;
        }
    }
}
