package org.beefyield.text;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;

/**
 * A small table of figures: columns of figures stand right, the first column and others that hold text stand left. Not
 * thread-safe while it is filled.
 */
public final class TextTable implements Shown {
    private static final String GAP = "  ";

    /** The page's own colours, or rows would show through the header. */
    private static final String HEADER_IN_SIGHT =
            "position:sticky;top:0;background:Canvas;color:CanvasText;box-shadow:inset 0 -2px;";

    private static final int LONG_TEXT = 24;

    private static final String NO_WRAP = ";white-space:nowrap";

    private static final Pattern FIGURE = Pattern.compile("-|[-+]?[0-9][0-9.,]*(e[-+][0-9]+)?( ?%)?");

    private final List<String> header;
    private final List<List<String>> rows = new ArrayList<>();
    private final List<Integer> rules = new ArrayList<>();

    /**
     * An empty table.
     *
     * @param header column titles with their units, one or more
     * @throws IllegalArgumentException if there is none
     */
    public TextTable(String... header) {
        Checks.noNullIn(header, "header");
        if (header.length == 0) {
            throw new IllegalArgumentException("a table has a column or more");
        }
        this.header = List.of(header);
    }

    /**
     * Adds a row.
     *
     * @param cells a cell for each column
     * @return this
     * @throws IllegalArgumentException if there are more or fewer cells than columns
     */
    public TextTable row(String... cells) {
        Checks.noNullIn(cells, "cells");
        return row(Arrays.asList(cells));
    }

    /**
     * Adds a row.
     *
     * @param cells a cell for each column
     * @return this
     * @throws IllegalArgumentException if there are more or fewer cells than columns
     */
    public TextTable row(List<String> cells) {
        Checks.noNullIn(cells, "cells");
        if (cells.size() != header.size()) {
            throw new IllegalArgumentException(cells.size() + " cells for " + header.size() + " columns");
        }
        rows.add(List.copyOf(cells));
        return this;
    }

    /**
     * Adds a rule behind the rows so far.
     *
     * @return this
     */
    public TextTable rule() {
        rules.add(rows.size());
        return this;
    }

    /**
     * The table as lines of plain text, for a fixed-width font.
     *
     * @return lines, each with a line feed behind it and no blanks at its end
     */
    @Override
    public String toText() {
        boolean[] left = left();
        int[] width = new int[header.size()];
        for (int column = 0; column < width.length; column++) {
            width[column] = header.get(column).length();
            for (List<String> row : rows) {
                width[column] = Math.max(width[column], row.get(column).length());
            }
        }
        int whole = Arrays.stream(width).sum() + GAP.length() * (width.length - 1);
        StringBuilder text = new StringBuilder();
        line(text, header, width, left);
        text.append("-".repeat(whole)).append('\n');
        for (int i = 0; i < rows.size(); i++) {
            if (i > 0 && rules.contains(i)) {
                text.append("-".repeat(whole)).append('\n');
            }
            line(text, rows.get(i), width, left);
        }
        return text.toString();
    }

    /** Whether a column holds text: the first, and any with a cell that is no figure. */
    private boolean isText(int column) {
        return column == 0
                || rows.stream()
                        .map(row -> row.get(column))
                        .anyMatch(
                                cell -> !cell.isEmpty() && !FIGURE.matcher(cell).matches());
    }

    /** Which columns stand left. */
    private boolean[] left() {
        boolean[] left = new boolean[header.size()];
        for (int column = 0; column < left.length; column++) {
            left[column] = isText(column);
        }
        return left;
    }

    private static void line(StringBuilder text, List<String> cells, int[] width, boolean[] left) {
        StringBuilder line = new StringBuilder();
        for (int column = 0; column < width.length; column++) {
            String blanks = " ".repeat(width[column] - cells.get(column).length());
            line.append(column == 0 ? "" : GAP)
                    .append(left[column] ? cells.get(column) + blanks : blanks + cells.get(column));
        }
        text.append(line.toString().stripTrailing()).append('\n');
    }

    /**
     * The table as an HTML {@code table} element in a box that scrolls sideways where the screen is narrow. Long text
     * wraps, figures don't.
     *
     * @return the element, all text escaped
     */
    @Override
    public String toHtml() {
        return html("overflow-x:auto;margin:1em 0", "");
    }

    /**
     * As {@link #toHtml()}, in a box no higher than part of the screen, in which the rows scroll below their header.
     *
     * @return the element, all text escaped
     */
    public String toScrollingHtml() {
        return html("overflow:auto;max-height:32em;margin:1em 0", HEADER_IN_SIGHT);
    }

    private String html(String box, String headerStyle) {
        boolean[] left = left();
        StringBuilder html = new StringBuilder("<div style=\"").append(box).append("\">\n");
        html.append("<table style=\"border-collapse:collapse\">\n<thead>");
        htmlRow(html, "th", header, headerStyle, "2px solid", left);
        html.append("</thead>\n<tbody>\n");
        for (int i = 0; i < rows.size(); i++) {
            htmlRow(html, "td", rows.get(i), "", rules.contains(i + 1) ? "2px solid" : "1px solid #ccc", left);
        }
        return html.append("</tbody>\n</table>\n</div>\n").toString();
    }

    private static void htmlRow(
            StringBuilder html, String element, List<String> cells, String style, String border, boolean[] left) {
        html.append("<tr style=\"border-bottom:").append(border).append("\">");
        for (int column = 0; column < cells.size(); column++) {
            String cell = cells.get(column);
            html.append('<')
                    .append(element)
                    .append(" style=\"padding:2px 8px;")
                    .append(style)
                    .append("text-align:")
                    .append(left[column] ? "left" : "right")
                    .append(wrapping(cell))
                    .append("\">")
                    .append(escape(cell))
                    .append("</")
                    .append(element)
                    .append('>');
        }
        html.append("</tr>\n");
    }

    /** A figure with its sign of per cent and a code with hyphens stay together; a long text wraps, anywhere if need be. */
    private static String wrapping(String cell) {
        boolean figure = FIGURE.matcher(cell).matches();
        if (!figure && cell.length() > LONG_TEXT) {
            return ";min-width:12em;max-width:24em;overflow-wrap:break-word";
        }
        boolean blank = cell.indexOf(' ') >= 0;
        return figure ? (blank ? NO_WRAP : "") : (!blank && cell.indexOf('-') >= 0 ? NO_WRAP : "");
    }

    /**
     * Text made safe inside HTML elements and attributes.
     *
     * @param text any text
     * @return the text with the five special characters as entities
     */
    public static String escape(String text) {
        Objects.requireNonNull(text, "text");
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;")
                .replace("'", "&#39;");
    }
}
