package org.beefyield.data.picture;

import java.util.List;
import java.util.Locale;
import java.util.StringJoiner;

/** A picture in the making: a heading, an area with two axes, notes below. Texts stand above lines, whichever came first. */
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
    private final int topPx;
    private final Axis x;
    private final Axis y;
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
            text(MARGIN_PX, at - 5, Anchor.START, Letters.TITLE, Ink.BLACK, line);
        }
        for (String subtitle : subtitles) {
            for (String line : Letters.TEXT.wrap(subtitle, widthPx - 2 * MARGIN_PX)) {
                at += LINE_PX;
                text(MARGIN_PX, at - 4, line);
            }
        }
        this.topPx = at + headPx;
        this.bottomPx = topPx + areaHeightPx;
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
        return MARGIN_PX + widestPx(y.figures()) + TICK_PX;
    }

    private static int widestPx(List<String> texts) {
        return texts.stream().mapToInt(Letters.TEXT::widthPx).max().orElse(0);
    }

    int topPx() {
        return topPx;
    }

    int bottomPx() {
        return bottomPx;
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

    /** A line through points, in units of the axes. */
    void line(Pen pen, List<Double> xs, List<Double> ys) {
        StringJoiner points = new StringJoiner(" ");
        for (int i = 0; i < xs.size(); i++) {
            points.add(Svg.point(px(xs.get(i)), py(ys.get(i))));
        }
        pen.draw(lines.start("polyline").with("points", points.toString()).with("fill", "none"));
    }

    /** A line by pixels of the picture, inside the area or beside it. */
    void linePx(Pen pen, double x1, double y1, double x2, double y2) {
        pen.draw(
                lines.start("line").with("x1", x1).with("y1", y1).with("x2", x2).with("y2", y2));
    }

    void mark(Mark mark, int rgb, double valueX, double valueY, double halfPx) {
        mark.draw(lines, rgb, px(valueX), py(valueY), halfPx);
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
        linePx(Pen.line(Ink.BLACK, fill.widthPx()), fromPx, centrePx, toPx, centrePx);
        if (toPx - fromPx > 2 * OUTLINE_PX) {
            double inner = fill.widthPx() - 2 * OUTLINE_PX;
            double low = fromPx + OUTLINE_PX;
            double high = toPx - OUTLINE_PX;
            if (!fill.dashPx().isEmpty()) {
                linePx(Pen.line(Ink.WHITE, inner), low, centrePx, high, centrePx);
            }
            linePx(new Pen(fill.rgb(), inner, fill.dashPx()), low, centrePx, high, centrePx);
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
        texts.with("fill", Svg.colour(ink.rgb())).end("text", text);
    }

    /** A level grid with figures left of it and a title above. */
    void gridY(String title) {
        for (double tick : y.ticks()) {
            linePx(Pen.line(Ink.GRID, 1), leftPx, py(tick), leftPx + areaWidthPx, py(tick));
            text(leftPx - TICK_PX, py(tick) + 4, Anchor.END, Letters.TEXT, Ink.TEXT, y.figure(tick));
        }
        int at = topPx - headPx(title) + LINE_PX - 10;
        for (String line : Letters.BOLD.wrap(title, WIDTH_PX - 2 * MARGIN_PX)) {
            at += LINE_PX;
            text(MARGIN_PX, at, Anchor.START, Letters.BOLD, Ink.TEXT, line);
        }
    }

    /** An upright grid with figures below it, and a title below them. */
    void gridX(String title) {
        for (double tick : x.ticks()) {
            uprightLine(Pen.line(Ink.GRID, 1), tick);
        }
        List<Double> apart = ticksApart();
        labelX(title, apart, apart.stream().map(x::figure).toList());
    }

    /** The title and figures of an upright grid above the area. */
    void labelOnTop(String title) {
        for (double tick : ticksApart()) {
            text(px(tick), topPx - 8, Anchor.MIDDLE, Letters.TEXT, Ink.TEXT, x.figure(tick));
        }
        titleX(title, topPx - 8 - AXIS_TITLE_PX);
    }

    /** As many of the round figures, 0 among them, as stand side by side. */
    private List<Double> ticksApart() {
        double needed = widestPx(x.figures()) + TICK_PX;
        double between =
                x.ticks().size() > 1 ? px(x.ticks().get(1)) - px(x.ticks().get(0)) : needed;
        return x.everyNth((int) Math.ceil(needed / between));
    }

    void uprightLine(Pen pen, double valueX) {
        linePx(pen, px(valueX), topPx, px(valueX), topPx + areaHeightPx);
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
        Svg ground = new Svg();
        ground.start("rect")
                .with("width", widthPx)
                .with("height", heightPx)
                .with("fill", Svg.colour(Ink.WHITE.rgb()))
                .end();
        return new Picture(Svg.plain(title), Svg.plain(description), widthPx, heightPx, "" + ground + lines + texts);
    }
}
