package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.StringJoiner;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.beefyield.table.definition.Range;

/**
 * A picture in the making: a heading, an area with two axes, notes below. From the bottom up stand the grid, areas, lines and
 * marks, and texts, whichever came first.
 */
final class Plot {
    /** Width at which a picture on a phone keeps its letters above 10 px. */
    static final int WIDTH_PX = 480;

    static final int MARGIN_PX = 10;
    private static final int LINE_PX = 17;
    private static final int TITLE_LINE_PX = 20;
    private static final int AXIS_LABEL_PX = 18;
    private static final int AXIS_TITLE_PX = 20;
    private static final int TICK_PX = 6;
    private static final int OUTLINE_PX = 1;
    /** Height of a chart's area. */
    static final int CHART_PX = 300;

    private static final int CHART_RIGHT_PX = 26;
    /** Points of a line for each pixel from which it is thinned out to what shows. */
    private static final int DENSE = 2;

    /** Where a text begins. */
    enum Anchor {
        START,
        MIDDLE,
        END
    }

    private final String title;
    private final int widthPx;
    private final int leftPx;
    private final int areaWidthPx;
    private final int areaHeightPx;
    private final int headEndPx;
    private final int topPx;
    private final Axis x;
    private final Axis y;
    private final Svg grid = new Svg();
    private final Svg areas = new Svg();
    private final Svg lines = new Svg();
    private final Svg texts = new Svg();
    private int bottomPx;

    /**
     * A plot with its heading.
     *
     * @param headPx room between heading and area, for a legend or an axis
     * @param leftPx room beside the area, such as for names
     * @param rightPx room beside the area, such as for figures
     */
    Plot(
            int widthPx,
            String title,
            List<String> subtitles,
            int headPx,
            int leftPx,
            int rightPx,
            int areaHeightPx,
            Axis x,
            Axis y) {
        this.title = title;
        this.widthPx = widthPx;
        this.leftPx = leftPx;
        this.areaWidthPx = widthPx - leftPx - rightPx;
        this.areaHeightPx = areaHeightPx;
        this.x = x;
        this.y = y;
        int at = MARGIN_PX;
        for (String line : Letters.TITLE.wrap(title, widthPx - 2 * MARGIN_PX)) {
            at += TITLE_LINE_PX;
            text(MARGIN_PX, at - 5, Anchor.START, Letters.TITLE, Ink.STRONG, line);
        }
        for (String subtitle : subtitles) {
            for (String line : Letters.TEXT.wrap(subtitle, widthPx - 2 * MARGIN_PX)) {
                at += LINE_PX;
                text(MARGIN_PX, at - 4, line);
            }
        }
        this.headEndPx = at;
        this.topPx = at + headPx;
        this.bottomPx = topPx + areaHeightPx;
    }

    /**
     * A chart of two axes.
     *
     * @param keysPx height of a legend
     */
    static Plot chart(String title, List<String> subtitles, int keysPx, String titleY, int rightPx, Axis x, Axis y) {
        Plot plot = new Plot(WIDTH_PX, title, subtitles, keysPx + headPx(titleY), leftPx(y), rightPx, CHART_PX, x, y);
        plot.gridY(titleY);
        return plot;
    }

    static Plot chart(String title, List<String> subtitles, int keysPx, String titleY, Axis x, Axis y) {
        return chart(title, subtitles, keysPx, titleY, CHART_RIGHT_PX, x, y);
    }

    /** Width of a chart's area beside an axis. */
    static int chartPx(Axis y) {
        return WIDTH_PX - leftPx(y) - CHART_RIGHT_PX;
    }

    /** Room above the area for the title of {@link #gridY}. */
    static int headPx(String titleY) {
        return 2
                + LINE_PX
                        * (1
                                + Letters.BOLD
                                        .wrap(titleY, WIDTH_PX - 2 * MARGIN_PX)
                                        .size());
    }

    /** Room left of the area for the figures of {@link #gridY}. */
    static int leftPx(Axis y) {
        return MARGIN_PX + widestPx(y.labels()) + TICK_PX;
    }

    private static int widestPx(List<String> texts) {
        return texts.stream().mapToInt(Letters.TEXT::widthPx).max().orElse(0);
    }

    /** Where the heading ends and a legend begins. */
    int headEndPx() {
        return headEndPx;
    }

    int topPx() {
        return topPx;
    }

    int bottomPx() {
        return bottomPx;
    }

    int leftPx() {
        return leftPx;
    }

    int rightPx() {
        return leftPx + areaWidthPx;
    }

    Range rangeX() {
        return x.range();
    }

    int widthPx() {
        return widthPx;
    }

    double px(double valueX) {
        return leftPx + x.part(valueX) * areaWidthPx;
    }

    double py(double valueY) {
        return topPx + (1 - y.part(valueY)) * areaHeightPx;
    }

    /** A line through points, in units of the axes, x ascending; it breaks off where y is no number. */
    void line(Pen pen, double[] xs, double[] ys) {
        for (int from = 0; from < xs.length; from++) {
            int to = from;
            while (to < xs.length && !Double.isNaN(ys[to])) {
                to++;
            }
            if (to > from) {
                StringJoiner points = new StringJoiner(" ");
                for (int i : shown(xs, ys, from, to)) {
                    points.add(Svg.point(px(xs[i]), py(ys[i])));
                }
                pen.draw(lines.start("polyline")
                        .with("points", points.toString())
                        .with("fill", "none"));
                from = to;
            }
        }
    }

    /** All points, or of more than show the first, the last, the lowest and the highest above each pixel. */
    private List<Integer> shown(double[] xs, double[] ys, int from, int to) {
        if (xs.length <= DENSE * areaWidthPx) {
            return IntStream.range(from, to).boxed().toList();
        }
        List<Integer> shown = new ArrayList<>();
        for (int i = from; i < to; ) {
            long pixel = Math.round(px(xs[i]));
            TreeSet<Integer> kept = new TreeSet<>(List.of(i));
            int low = i;
            int high = i;
            int at = i;
            for (; at < to && Math.round(px(xs[at])) == pixel; at++) {
                low = ys[at] < ys[low] ? at : low;
                high = ys[at] > ys[high] ? at : high;
            }
            kept.addAll(List.of(low, high, at - 1));
            shown.addAll(kept);
            i = at;
        }
        return shown;
    }

    /** What lies between two lines over the same points, none of which is NaN. */
    void between(Ink fill, double[] xs, double[] low, double[] high) {
        StringJoiner points = new StringJoiner(" ");
        List<Integer> below = shown(xs, low, 0, xs.length);
        for (int i = below.size() - 1; i >= 0; i--) {
            points.add(Svg.point(px(xs[below.get(i)]), py(low[below.get(i)])));
        }
        for (int i : shown(xs, high, 0, xs.length)) {
            points.add(Svg.point(px(xs[i]), py(high[i])));
        }
        areas.start("polygon").with("points", points.toString()).fill(fill).end();
    }

    /** An area by pixels of the picture. */
    void areaPx(Ink fill, double leftPx, double topPx, double rightPx, double bottomPx) {
        areas.start("rect")
                .with("x", leftPx)
                .with("y", topPx)
                .with("width", rightPx - leftPx)
                .with("height", bottomPx - topPx)
                .fill(fill)
                .end();
    }

    /** A line by pixels of the picture, inside the area or beside it. */
    void linePx(Pen pen, double x1, double y1, double x2, double y2) {
        pen.draw(
                lines.start("line").with("x1", x1).with("y1", y1).with("x2", x2).with("y2", y2));
    }

    void mark(Mark mark, Ink ink, double valueX, double valueY, double halfPx) {
        mark.draw(lines, ink, px(valueX), py(valueY), halfPx);
    }

    void hollowMark(Mark mark, Ink ink, double valueX, double valueY, double halfPx) {
        mark.drawHollow(lines, ink, px(valueX), py(valueY), halfPx);
    }

    void markPx(Mark mark, Ink ink, double px, double py, double halfPx) {
        mark.draw(lines, ink, px, py, halfPx);
    }

    void hollowMarkPx(Mark mark, Ink ink, double px, double py, double halfPx) {
        mark.drawHollow(lines, ink, px, py, halfPx);
    }

    /**
     * A level bar with an outline, which sets pale fills off from the ground; the pen's dashes make stripes.
     *
     * @param centrePx its middle in height
     */
    void bar(Pen fill, double from, double to, double centrePx) {
        barPx(fill, px(from), px(to), centrePx);
    }

    void barPx(Pen fill, double fromPx, double toPx, double centrePx) {
        linePx(Pen.line(Ink.STRONG, fill.widthPx()), fromPx, centrePx, toPx, centrePx);
        if (toPx - fromPx > 2 * OUTLINE_PX) {
            double inner = fill.widthPx() - 2 * OUTLINE_PX;
            double low = fromPx + OUTLINE_PX;
            double high = toPx - OUTLINE_PX;
            if (!fill.dashPx().isEmpty()) {
                linePx(Pen.line(Ink.GROUND, inner), low, centrePx, high, centrePx);
            }
            linePx(fill.wide(inner), low, centrePx, high, centrePx);
        }
    }

    /** An upright bar with an outline, in units of the axes, from 0. */
    void column(Pen fill, double fromX, double toX, double value) {
        columnPx(fill, px(fromX), px(toX), py(0), py(value));
    }

    void columnPx(Pen fill, double fromPx, double toPx, double foot, double top) {
        double width = toPx - fromPx;
        double at = (fromPx + toPx) / 2;
        linePx(Pen.line(Ink.STRONG, width), at, foot, at, top);
        if (width > 2 * OUTLINE_PX && foot - top > 2 * OUTLINE_PX) {
            double inner = width - 2 * OUTLINE_PX;
            if (!fill.dashPx().isEmpty()) {
                linePx(Pen.line(Ink.GROUND, inner), at, foot - OUTLINE_PX, at, top + OUTLINE_PX);
            }
            linePx(fill.wide(inner), at, foot - OUTLINE_PX, at, top + OUTLINE_PX);
        }
    }

    void text(double px, double py, String text) {
        text(px, py, Anchor.START, Letters.TEXT, Ink.TEXT, text);
    }

    void text(double px, double py, Anchor anchor, Letters letters, Ink ink, String text) {
        texts.start("text").with("x", px).with("y", py).with("font-size", letters.sizePx());
        if (anchor != Anchor.START) {
            texts.with("text-anchor", anchor.name().toLowerCase(Locale.ROOT));
        }
        if (letters.isBold()) {
            texts.with("font-weight", "bold");
        }
        texts.fill(ink).end("text", text);
    }

    /** A level grid with figures left of it and a title above. */
    private void gridY(String title) {
        for (int i = 0; i < y.ticks().size(); i++) {
            double at = py(y.ticks().get(i));
            gridPx(leftPx, at, leftPx + areaWidthPx, at);
            text(
                    leftPx - TICK_PX,
                    at + 4,
                    Anchor.END,
                    Letters.TEXT,
                    Ink.TEXT,
                    y.labels().get(i));
        }
        int at = topPx - headPx(title) + LINE_PX - 10;
        for (String line : Letters.BOLD.wrap(title, WIDTH_PX - 2 * MARGIN_PX)) {
            at += LINE_PX;
            text(MARGIN_PX, at, Anchor.START, Letters.BOLD, Ink.TEXT, line);
        }
    }

    private void gridPx(double x1, double y1, double x2, double y2) {
        Pen.line(Ink.GRID, 1)
                .draw(grid.start("line")
                        .with("x1", x1)
                        .with("y1", y1)
                        .with("x2", x2)
                        .with("y2", y2));
    }

    /** An upright grid with figures below it, and a title below them. */
    void gridX(String title) {
        for (double tick : x.ticks()) {
            gridPx(px(tick), topPx, px(tick), topPx + areaHeightPx);
        }
        List<Integer> apart = x.apart(areaWidthPx);
        labelX(
                title,
                apart.stream().map(x.ticks()::get).toList(),
                apart.stream().map(x.labels()::get).toList());
    }

    /** The title and figures of an upright grid above the area. */
    void labelOnTop(String title) {
        for (int i : x.apart(areaWidthPx)) {
            text(
                    px(x.ticks().get(i)),
                    topPx - 8,
                    Anchor.MIDDLE,
                    Letters.TEXT,
                    Ink.TEXT,
                    x.labels().get(i));
        }
        titleX(title, topPx - 8 - AXIS_TITLE_PX);
    }

    void uprightLine(Pen pen, double valueX) {
        linePx(pen, px(valueX), topPx, px(valueX), topPx + areaHeightPx);
    }

    void levelLine(Pen pen, double valueY) {
        linePx(pen, leftPx, py(valueY), leftPx + areaWidthPx, py(valueY));
    }

    /** Words or figures below the area, and a title below them. */
    void labelX(String title, List<Double> at, List<String> labels) {
        bottomPx += AXIS_LABEL_PX;
        for (int i = 0; i < labels.size(); i++) {
            text(px(at.get(i)), bottomPx, Anchor.MIDDLE, Letters.TEXT, Ink.TEXT, labels.get(i));
        }
        for (String line : Letters.BOLD.wrap(title, widthPx - 2 * MARGIN_PX)) {
            bottomPx += AXIS_TITLE_PX;
            titleX(line, bottomPx);
        }
    }

    /** Below the middle of the area as far as the picture has room. */
    private void titleX(String title, int py) {
        double half = Letters.BOLD.widthPx(title) / 2.0;
        double px = Math.min(leftPx + areaWidthPx / 2.0, widthPx - MARGIN_PX - half);
        text(Math.max(px, MARGIN_PX + half), py, Anchor.MIDDLE, Letters.BOLD, Ink.TEXT, title);
    }

    /** Sentences below everything. */
    void notes(List<String> notes) {
        for (String note : notes) {
            bottomPx += 4;
            for (String line : Letters.TEXT.wrap(note, widthPx - 2 * MARGIN_PX)) {
                bottomPx += LINE_PX;
                text(MARGIN_PX, bottomPx, line);
            }
        }
    }

    Picture picture(String description) {
        int heightPx = bottomPx + MARGIN_PX;
        Svg all = new Svg();
        all.start("rect")
                .with("width", widthPx)
                .with("height", heightPx)
                .fill(Ink.GROUND)
                .end();
        all.add(grid).add(areas).add(lines).add(texts);
        return new Picture(Svg.plain(title), Svg.plain(description), widthPx, heightPx, all);
    }
}
