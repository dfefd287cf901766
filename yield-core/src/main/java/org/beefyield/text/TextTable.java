package org.beefyield.text;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;

/**
 * A small table of figures: columns of figures stand right, the first column and others that hold text stand left. Not
 * thread-safe while it is filled.
 */
public final class TextTable {
    private static final String GAP = "  ";

    private static final Pattern FIGURE = Pattern.compile("-|[-+]?[0-9][0-9.,]*( ?%)?");

    private final List<String> header;
    private final List<List<String>> rows = new ArrayList<>();
    private final List<Integer> rules = new ArrayList<>();

    /**
     * An empty table.
     *
     * @param header column titles with their units
     */
    public TextTable(String... header) {
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
    public String toText() {
        int[] width = new int[header.size()];
        for (int column = 0; column < width.length; column++) {
            width[column] = header.get(column).length();
            for (List<String> row : rows) {
                width[column] = Math.max(width[column], row.get(column).length());
            }
        }
        int whole = Arrays.stream(width).sum() + GAP.length() * (width.length - 1);
        StringBuilder text = new StringBuilder();
        line(text, header, width);
        text.append("-".repeat(whole)).append('\n');
        for (int i = 0; i < rows.size(); i++) {
            if (i > 0 && rules.contains(i)) {
                text.append("-".repeat(whole)).append('\n');
            }
            line(text, rows.get(i), width);
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

    private void line(StringBuilder text, List<String> cells, int[] width) {
        StringBuilder line = new StringBuilder();
        for (int column = 0; column < width.length; column++) {
            String blanks = " ".repeat(width[column] - cells.get(column).length());
            line.append(column == 0 ? "" : GAP)
                    .append(isText(column) ? cells.get(column) + blanks : blanks + cells.get(column));
        }
        text.append(line.toString().stripTrailing()).append('\n');
    }

    /**
     * The table as an HTML {@code table} element that needs no style sheet.
     *
     * @return the element, all text escaped
     */
    public String toHtml() {
        StringBuilder html = new StringBuilder("<table style=\"border-collapse:collapse\">\n<thead>");
        htmlRow(html, "th", header, "2px solid");
        html.append("</thead>\n<tbody>\n");
        for (int i = 0; i < rows.size(); i++) {
            htmlRow(html, "td", rows.get(i), rules.contains(i + 1) ? "2px solid" : "1px solid #ccc");
        }
        return html.append("</tbody>\n</table>\n").toString();
    }

    private void htmlRow(StringBuilder html, String element, List<String> cells, String border) {
        html.append("<tr>");
        for (int column = 0; column < cells.size(); column++) {
            html.append('<')
                    .append(element)
                    .append(" style=\"padding:2px 8px;border-bottom:")
                    .append(border)
                    .append(";text-align:")
                    .append(isText(column) ? "left" : "right")
                    .append("\">")
                    .append(escape(cells.get(column)))
                    .append("</")
                    .append(element)
                    .append('>');
        }
        html.append("</tr>\n");
    }

    /**
     * Text made safe inside HTML elements and attributes.
     *
     * @param text any text
     * @return the text with the five special characters as entities
     */
    public static String escape(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;")
                .replace("'", "&#39;");
    }
}
