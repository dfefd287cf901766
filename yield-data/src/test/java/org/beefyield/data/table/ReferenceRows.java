package org.beefyield.data.table;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Published and hand-worked figures: the CSVs under {@code reference} in the test resources, one line a row. */
public final class ReferenceRows {
    /** A cell with the comma in front of it. */
    private static final Pattern CELL = Pattern.compile(",(?:\"((?:[^\"]|\"\")*)\"|([^,\"]*))");

    private static final Pattern NUMBER = Pattern.compile("(?<![0-9A-Za-z.])[-+]?[0-9]+(?:\\.[0-9]+)?");

    private ReferenceRows() {}

    /** Every row of a file, by column. */
    public static List<Map<String, String>> of(String file) {
        return rows(file, text(file));
    }

    /** Every row of a text, by column. */
    public static List<Map<String, String>> rows(String file, String text) {
        List<String> lines = text.lines().toList();
        List<String> header = cells(lines.get(0));
        List<Map<String, String>> rows = new ArrayList<>();
        for (String line : lines.subList(1, lines.size())) {
            List<String> cells = cells(line);
            if (cells.size() != header.size()) {
                throw new IllegalArgumentException(file + ": " + cells + " does not fit the columns " + header);
            }
            Map<String, String> row = new LinkedHashMap<>();
            for (int i = 0; i < cells.size(); i++) {
                row.put(header.get(i), cells.get(i));
            }
            rows.add(row);
        }
        return rows;
    }

    /** The one row of a file with this text in a column. */
    static Map<String, String> row(String file, String column, String text) {
        List<Map<String, String>> found =
                of(file).stream().filter(row -> text.equals(row.get(column))).toList();
        if (found.size() != 1) {
            throw new IllegalArgumentException(
                    file + " has " + found.size() + " rows with " + column + " \"" + text + "\"");
        }
        return found.get(0);
    }

    /** The numbers that stand in a text, in order. */
    static List<Double> numbers(String text) {
        return NUMBER.matcher(text)
                .results()
                .map(match -> Double.valueOf(match.group()))
                .toList();
    }

    private static List<String> cells(String line) {
        List<String> cells = new ArrayList<>();
        Matcher matcher = CELL.matcher("," + line);
        while (matcher.find()) {
            String quoted = matcher.group(1);
            cells.add(quoted == null ? matcher.group(2) : quoted.replace("\"\"", "\""));
        }
        return cells;
    }

    private static String text(String file) {
        try (InputStream in = ReferenceRows.class.getResourceAsStream("/reference/" + file)) {
            if (in == null) {
                throw new IllegalArgumentException("no reference file " + file);
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(file, e);
        }
    }
}
