package org.beefyield.data.derivation;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Small CSV text, as in RFC 4180 with LF: just enough for figures that this project wrote itself. */
final class CsvText {
    private CsvText() {}

    /** Rows of a class-path file, each a map from column name to cell. */
    static List<Map<String, String>> resource(String path) {
        try (InputStream in = CsvText.class.getResourceAsStream(path)) {
            if (in == null) {
                throw new IllegalArgumentException("no class-path file " + path);
            }
            return rows(path, new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(path, e);
        }
    }

    /** Rows of a text; every row must be as long as the header. */
    static List<Map<String, String>> rows(String name, String text) {
        List<List<String>> records = records(text);
        List<String> header = records.get(0);
        List<Map<String, String>> rows = new ArrayList<>();
        for (List<String> record : records.subList(1, records.size())) {
            if (record.size() != header.size()) {
                throw new IllegalArgumentException(
                        name + ": " + record + " has " + record.size() + " cells instead of " + header.size());
            }
            Map<String, String> row = new LinkedHashMap<>();
            for (int i = 0; i < header.size(); i++) {
                row.put(header.get(i), record.get(i));
            }
            rows.add(row);
        }
        return rows;
    }

    /** A CSV file with a header row. */
    static String write(List<String> header, List<List<String>> records) {
        StringBuilder out = new StringBuilder();
        appendRecord(out, header);
        for (List<String> record : records) {
            if (record.size() != header.size()) {
                throw new IllegalStateException(record + " doesn't fit the columns " + header);
            }
            appendRecord(out, record);
        }
        return out.toString();
    }

    private static void appendRecord(StringBuilder out, List<String> record) {
        String separator = "";
        for (String cell : record) {
            boolean quoted = cell.contains(",") || cell.contains("\"") || cell.contains("\n");
            out.append(separator).append(quoted ? '"' + cell.replace("\"", "\"\"") + '"' : cell);
            separator = ",";
        }
        out.append('\n');
    }

    private static List<List<String>> records(String text) {
        List<List<String>> records = new ArrayList<>();
        List<String> record = new ArrayList<>();
        StringBuilder cell = new StringBuilder();
        boolean quoted = false;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (quoted) {
                if (c != '"') {
                    cell.append(c);
                } else if (i + 1 < text.length() && text.charAt(i + 1) == '"') {
                    cell.append(c);
                    i++;
                } else {
                    quoted = false;
                }
            } else if (c == '"') {
                quoted = true;
            } else if (c == ',' || c == '\n') {
                record.add(cell.toString());
                cell.setLength(0);
                if (c == '\n') {
                    records.add(record);
                    record = new ArrayList<>();
                }
            } else {
                cell.append(c);
            }
        }
        if (quoted || cell.length() > 0 || !record.isEmpty()) {
            throw new IllegalArgumentException("the last line doesn't end with a line feed");
        }
        return records;
    }
}
