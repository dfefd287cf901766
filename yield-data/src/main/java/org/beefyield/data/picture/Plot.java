package org.beefyield.data.picture;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.regex.Pattern;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/**
 * A picture in the making: a heading, an area with two axes, notes below. Lines go to {@link Painter}; text is placed by
 * rule of thumb for the width of letters, so that a picture is the same on machines with other fonts.
 */
final class Plot {
    /** Width at which a picture on a phone keeps its letters above 10 px. */
    static final int WIDTH_PX = 480;

    static final int MARGIN_PX = 10;
    static final int TEXT_PX = 13;
    private static final int TITLE_PX = 16;
    private static final int LINE_PX = 17;
    private static final int TITLE_LINE_PX = 20;
    /** Wide letters: none of the usual sans-serif fonts sets mixed text wider. */
    private static final double LETTER_EM = 0.58;

    private static final int AXIS_LABEL_PX = 18;
    private static final int AXIS_TITLE_PX = 20;
    private static final int OUTLINE_PX = 1;
    private static final Pattern BLANKS = Pattern.compile("[\\s\\p{Cntrl}]+");

    /** Where a text begins. */
    enum Anchor {
        START("start"),
        MIDDLE("middle"),
        END("end");

        private final String value;

        Anchor(String value) {
            this.value = value;
        }
    }

    private final String title;
    private final int widthPx;
    private final int leftPx;
    private final int areaWidthPx;
    private final int areaHeightPx;
    private final int topPx;
    private final Axis x;
    private final Axis y;
    private final List<Painter.Line> lines = new ArrayList<>();
    private final StringBuilder texts = new StringBuilder();
    private int bottomPx;
    private int markPx = 9;

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
        for (String line : wrap(title, widthPx - 2 * MARGIN_PX, TITLE_PX)) {
            at += TITLE_LINE_PX;
            text(MARGIN_PX, at - 5, Anchor.START, TITLE_PX, true, Ink.BLACK.rgb(), line);
        }
        for (String subtitle : subtitles) {
            for (String line : wrap(subtitle, widthPx - 2 * MARGIN_PX, TEXT_PX)) {
                at += LINE_PX;
                text(MARGIN_PX, at - 4, line);
            }
        }
        this.topPx = at + headPx;
        this.bottomPx = topPx + areaHeightPx;
    }

    Plot withMarks(int px) {
        this.markPx = px;
        return this;
    }

    int topPx() {
        return topPx;
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

    private double valueX(double px) {
        return x.valueAt((px - leftPx) / areaWidthPx);
    }

    private double valueY(double py) {
        return y.valueAt(1 - (py - topPx) / areaHeightPx);
    }

    void line(Pen pen, List<Double> xs, List<Double> ys) {
        lines.add(new Painter.Line(List.copyOf(xs), List.copyOf(ys), pen));
    }

    /** A line by pixels of the picture, inside the area or beside it. */
    void linePx(Pen pen, double x1, double y1, double x2, double y2) {
        line(pen, List.of(valueX(x1), valueX(x2)), List.of(valueY(y1), valueY(y2)));
    }

    void markAt(Pen pen, double valueX, double valueY) {
        line(pen, List.of(valueX), List.of(valueY));
    }

    /**
     * A level bar with an outline, which sets pale fills off from the ground; the pen's dashes make stripes.
     *
     * @param centrePx its middle in height
     */
    void bar(Pen fill, double from, double to, double centrePx, int heightPx) {
        barPx(fill, px(Math.min(from, to)), px(Math.max(from, to)), centrePx, heightPx);
    }

    void barPx(Pen fill, double fromPx, double toPx, double centrePx, int heightPx) {
        linePx(Pen.line(Ink.BLACK, heightPx), fromPx, centrePx, toPx, centrePx);
        if (toPx - fromPx > 2 * OUTLINE_PX) {
            double inner = heightPx - 2 * OUTLINE_PX;
            double low = fromPx + OUTLINE_PX;
            double high = toPx - OUTLINE_PX;
            if (!fill.dashPx().isEmpty()) {
                linePx(Pen.line(Ink.WHITE, inner), low, centrePx, high, centrePx);
            }
            linePx(new Pen(fill.rgb(), inner, fill.dashPx(), Pen.Mark.NONE), low, centrePx, high, centrePx);
        }
    }

    void text(double px, double py, String text) {
        text(px, py, Anchor.START, TEXT_PX, false, Ink.TEXT.rgb(), text);
    }

    void text(double px, double py, Anchor anchor, int sizePx, boolean isBold, int rgb, String text) {
        texts.append("<text x=\"")
                .append(number(px))
                .append("\" y=\"")
                .append(number(py))
                .append("\" font-size=\"")
                .append(sizePx)
                .append('"')
                .append(anchor == Anchor.START ? "" : " text-anchor=\"" + anchor.value + "\"")
                .append(isBold ? " font-weight=\"bold\"" : "")
                .append(" fill=\"#")
                .append(String.format("%06X", rgb))
                .append("\">")
                .append(TextTable.escape(BLANKS.matcher(text).replaceAll(" ")))
                .append("</text>\n");
    }

    private static String number(double value) {
        return Numbers.upTo(value, 1);
    }

    /** A level grid with figures left of it and a title above. */
    void gridY(String title) {
        for (double tick : y.ticks()) {
            linePx(Pen.line(Ink.GRID, 1), leftPx, py(tick), leftPx + areaWidthPx, py(tick));
            text(leftPx - 6, py(tick) + 4, Anchor.END, TEXT_PX, false, Ink.TEXT.rgb(), y.figure(tick));
        }
        text(MARGIN_PX, topPx - 10, Anchor.START, TEXT_PX, true, Ink.TEXT.rgb(), title);
    }

    /** An upright grid with figures below it, and a title below them. */
    void gridX(String title) {
        for (double tick : x.ticks()) {
            uprightLine(Pen.line(Ink.GRID, 1), tick);
        }
        labelX(title, x.ticks(), x.ticks().stream().map(x::figure).toList());
    }

    /** The title and figures of an upright grid above the area. */
    void labelOnTop(String title) {
        for (double tick : x.ticks()) {
            text(px(tick), topPx - 8, Anchor.MIDDLE, TEXT_PX, false, Ink.TEXT.rgb(), x.figure(tick));
        }
        text(
                leftPx + areaWidthPx / 2.0,
                topPx - 8 - AXIS_TITLE_PX,
                Anchor.MIDDLE,
                TEXT_PX,
                true,
                Ink.TEXT.rgb(),
                title);
    }

    void uprightLine(Pen pen, double valueX) {
        linePx(pen, px(valueX), topPx, px(valueX), topPx + areaHeightPx);
    }

    /** Words or figures below the area, and a title below them. */
    void labelX(String title, List<Double> at, List<String> labels) {
        for (int i = 0; i < labels.size(); i++) {
            text(px(at.get(i)), bottomPx + AXIS_LABEL_PX, Anchor.MIDDLE, TEXT_PX, false, Ink.TEXT.rgb(), labels.get(i));
        }
        bottomPx += AXIS_LABEL_PX + AXIS_TITLE_PX;
        text(leftPx + areaWidthPx / 2.0, bottomPx, Anchor.MIDDLE, TEXT_PX, true, Ink.TEXT.rgb(), title);
    }

    /** Sentences below everything. */
    void notes(List<String> notes) {
        for (String note : notes) {
            bottomPx += 4;
            for (String line : wrap(note, widthPx - 2 * MARGIN_PX, TEXT_PX)) {
                bottomPx += LINE_PX;
                text(MARGIN_PX, bottomPx, line);
            }
        }
    }

    Picture picture(String description) {
        int heightPx = bottomPx + MARGIN_PX;
        String shapes;
        try {
            shapes = Painter.paint(areaWidthPx, areaHeightPx, x.range(), y.range(), markPx, lines);
        } catch (NoClassDefFoundError e) {
            throw new IllegalStateException(
                    "pictures need org.knowm.xchart:xchart and org.apache.xmlgraphics:batik-svggen on the class path; "
                            + e.getMessage() + " is missing",
                    e);
        }
        return new Picture(
                BLANKS.matcher(title).replaceAll(" "),
                BLANKS.matcher(description).replaceAll(" "),
                widthPx,
                heightPx,
                "<rect width=\"" + widthPx + "\" height=\"" + heightPx + "\" fill=\"#FFFFFF\"/>\n"
                        + "<g transform=\"translate(" + leftPx + "," + topPx
                        + ")\" stroke=\"black\" stroke-linecap=\"square\" stroke-miterlimit=\"10\">\n" + shapes
                        + "</g>\n" + texts);
    }

    /** Lines that fit a width; a word too long for a line is cut. */
    static List<String> wrap(String text, int widthPx, int sizePx) {
        int most = Math.max(1, (int) (widthPx / (LETTER_EM * sizePx)));
        List<String> wrapped = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : BLANKS.splitAsStream(text).toList()) {
            String rest = word;
            if (!line.isEmpty() && line.length() + 1 + rest.length() > most) {
                wrapped.add(line.toString());
                line.setLength(0);
            }
            while (rest.length() > most) {
                int cut = Character.isHighSurrogate(rest.charAt(most - 1)) && most > 1 ? most - 1 : most;
                wrapped.add(rest.substring(0, cut));
                rest = rest.substring(cut);
            }
            line.append(line.isEmpty() ? "" : " ").append(rest);
        }
        wrapped.add(line.toString());
        return Collections.unmodifiableList(wrapped);
    }

    /** Width of a text by the same rule. */
    static int widthPx(String text, int sizePx) {
        return (int) Math.ceil(text.length() * LETTER_EM * sizePx);
    }
}
