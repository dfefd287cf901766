package org.beefyield.frame;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.stream.IntStream;
import org.beefyield.text.Numbers;
import org.beefyield.text.Rounding;
import org.beefyield.text.TextTable;

/** A frame as tables for people. */
final class FrameText {
    private static final int WHOLE_IN_TEXT = 40;
    private static final int ENDS_IN_TEXT = 10;
    private static final int WHOLE_IN_HTML = 1000;
    private static final int ENDS_IN_HTML = 500;
    private static final int UNSCROLLED = 20;
    private static final int WIDEST_LINE = 120;
    private static final int WIDEST_CELL = 40;
    private static final int GAP = 2;
    private static final int DECIMALS = 2;
    private static final double MANY = 1e6;
    private static final int SHOWN_DIGITS = 3;
    /** As finely as a sum of many doubles surely adds up. */
    private static final int DIGITS_OF_SUM = 12;

    private static final int MOST_DECIMALS = 8;
    /** What is less than this part of the largest figure is what doubles leave of a 0. */
    private static final double NOISE = 1e-13;

    private final Frame frame;
    /** Header, cells and total of each printed column. */
    private final List<Printed> columns = new ArrayList<>();

    private record Printed(String header, List<String> cells, String total) {}

    FrameText(Frame frame) {
        this.frame = frame;
        if (frame.columns().get(0).numeric()) {
            // the first column of a text table is what names its rows
            columns.add(new Printed(
                    "row",
                    IntStream.range(0, frame.rows()).mapToObj(Integer::toString).toList(),
                    ""));
        }
        for (int i = 0; i < frame.columns().size(); i++) {
            Column column = frame.columns().get(i);
            columns.add(
                    frame.cells(i) instanceof Cells.Numbers numbers
                            ? figures(i, numbers)
                            : new Printed(column.header(), texts(frame.cells(i)), ""));
        }
        if (frame.isTotalled()) {
            Printed first = columns.get(0);
            columns.set(0, new Printed(first.header(), first.cells(), "Total"));
        }
    }

    private static List<String> texts(Cells cells) {
        return cells instanceof Cells.Texts texts
                ? texts.values().stream()
                        .map(text -> text.replaceAll("\\p{Cntrl}", " "))
                        .toList()
                : List.of();
    }

    private Printed figures(int at, Cells.Numbers numbers) {
        Column column = frame.columns().get(at);
        double[] present = numbers.present();
        int decimals = decimals(present);
        double noise = NOISE * largest(present);
        double total = frame.isTotalled() ? frame.total(at) : Double.NaN;
        boolean adding = frame.isTotalled() && column.total().equals(Total.SUM);
        int common = adding ? Math.max(decimals, decimalsOfSmallest(present)) : decimals;
        Iterator<String> printed = (adding
                        ? Rounding.adding(present, total, common)
                        : Arrays.stream(present)
                                .mapToObj(value -> figure(value, decimals, noise))
                                .toList())
                .iterator();
        List<String> cells = new ArrayList<>();
        for (int row = 0; row < numbers.size(); row++) {
            cells.add(numbers.isMissing(row) ? "" : printed.next());
        }
        return new Printed(
                column.header(),
                cells,
                Double.isNaN(total) ? "" : adding ? Numbers.fixed(total, common) : figure(total, decimals, noise));
    }

    private static int decimals(double[] values) {
        double largest = largest(values);
        if (largest >= MANY || Arrays.stream(values).allMatch(value -> value == Math.rint(value))) {
            return 0;
        }
        return Math.max(DECIMALS, Math.min(MOST_DECIMALS, showing(largest, SHOWN_DIGITS)));
    }

    private static double largest(double[] values) {
        return Arrays.stream(values).map(Math::abs).max().orElse(0);
    }

    /** Decimals that show so many significant digits. */
    private static int showing(double value, int digits) {
        return digits - 1 - (int) Math.floor(Math.log10(Math.abs(value)));
    }

    /** A figure that is small beside the others of its column isn't shown as 0, or as a digit of itself. */
    private static String figure(double value, int decimals, double noise) {
        boolean tells = Math.abs(value) <= noise
                || showing(value, SHOWN_DIGITS) <= decimals
                || Double.parseDouble(Numbers.fixed(value, decimals)) == value;
        int needed = showing(value, SHOWN_DIGITS);
        return tells
                ? Numbers.fixed(value, decimals)
                : needed <= MOST_DECIMALS ? Numbers.fixed(value, needed) : Numbers.visible(value);
    }

    /** Decimals at which no figure of a column that adds up is rounded away, as far as doubles can tell the sum so finely. */
    private static int decimalsOfSmallest(double[] values) {
        double smallest = Arrays.stream(values)
                .map(Math::abs)
                .filter(value -> value > 0)
                .min()
                .orElse(1);
        double sum = Arrays.stream(values).map(Math::abs).sum();
        return sum == 0 ? 0 : Math.min(MOST_DECIMALS, Math.min(showing(smallest, 1), showing(sum, DIGITS_OF_SUM)));
    }

    String toText() {
        boolean whole = frame.rows() <= WHOLE_IN_TEXT;
        StringBuilder text = new StringBuilder();
        for (List<Printed> block : blocks(whole)) {
            text.append(text.isEmpty() ? "" : "\n");
            TextTable table = table(block);
            if (whole) {
                wrapped(table, block, 0, frame.rows());
            } else {
                wrapped(table, block, 0, ENDS_IN_TEXT);
                table.row(cells(block, "..."));
                wrapped(table, block, frame.rows() - ENDS_IN_TEXT, frame.rows());
            }
            total(table, block);
            text.append(table.toText());
        }
        return text.append(whole ? "" : leftOut(ENDS_IN_TEXT) + "\n").toString();
    }

    String toHtml() {
        boolean whole = frame.rows() <= WHOLE_IN_HTML;
        TextTable table = table(columns);
        for (int row = 0; row < frame.rows(); row++) {
            if (whole || row < ENDS_IN_HTML || row >= frame.rows() - ENDS_IN_HTML) {
                int at = row;
                table.row(columns.stream().map(column -> column.cells().get(at)).toList());
            } else if (row == ENDS_IN_HTML) {
                table.row(cells(columns, "..."));
            }
        }
        total(table, columns);
        return (frame.rows() > UNSCROLLED ? table.toScrollingHtml() : table.toHtml())
                + (whole ? "" : "<p>" + leftOut(ENDS_IN_HTML) + "</p>\n");
    }

    private String leftOut(int ends) {
        return (frame.rows() - 2 * ends) + " of " + frame.rows() + " rows are left out where the three dots stand";
    }

    private static TextTable table(List<Printed> block) {
        return new TextTable(block.stream().map(Printed::header).toArray(String[]::new));
    }

    private void total(TextTable table, List<Printed> block) {
        if (frame.isTotalled()) {
            table.rule().row(block.stream().map(Printed::total).toList());
        }
    }

    private static List<String> cells(List<Printed> block, String first) {
        return IntStream.range(0, block.size())
                .mapToObj(i -> i == 0 ? first : "")
                .toList();
    }

    /** Rows whose long texts go on in lines of their own. */
    private static void wrapped(TextTable table, List<Printed> block, int from, int to) {
        for (int row = from; row < to; row++) {
            int at = row;
            List<List<String>> lines =
                    block.stream().map(column -> lines(column.cells().get(at))).toList();
            int most = lines.stream().mapToInt(List::size).max().orElse(1);
            for (int line = 0; line < most; line++) {
                int here = line;
                table.row(lines.stream()
                        .map(cell -> here < cell.size() ? cell.get(here) : "")
                        .toList());
            }
        }
    }

    private static List<String> lines(String cell) {
        List<String> lines = new ArrayList<>();
        String rest = cell;
        while (rest.length() > WIDEST_CELL) {
            int blank = rest.lastIndexOf(' ', WIDEST_CELL);
            int end = blank > 0
                    ? blank
                    : Character.isHighSurrogate(rest.charAt(WIDEST_CELL - 1)) ? WIDEST_CELL - 1 : WIDEST_CELL;
            lines.add(rest.substring(0, end));
            rest = rest.substring(blank > 0 ? end + 1 : end);
        }
        lines.add(rest);
        return lines;
    }

    /** The columns in parts that fit on a line, each with the first one in front. */
    private List<List<Printed>> blocks(boolean whole) {
        int first = width(columns.get(0), whole);
        List<List<Printed>> blocks = new ArrayList<>();
        List<Printed> block = new ArrayList<>(columns.subList(0, 1));
        int line = first;
        for (Printed column : columns.subList(1, columns.size())) {
            int width = GAP + width(column, whole);
            if (line + width > WIDEST_LINE && block.size() > 1) {
                blocks.add(block);
                block = new ArrayList<>(columns.subList(0, 1));
                line = first;
            }
            block.add(column);
            line += width;
        }
        blocks.add(block);
        return blocks;
    }

    private int width(Printed column, boolean whole) {
        int width = Math.max(column.header().length(), column.total().length());
        for (int row = 0; row < frame.rows(); row++) {
            if (whole || row < ENDS_IN_TEXT || row >= frame.rows() - ENDS_IN_TEXT) {
                width = Math.max(
                        width, Math.min(WIDEST_CELL, column.cells().get(row).length()));
            }
        }
        return width;
    }
}
