package org.beefyield.data;

import java.util.List;
import java.util.stream.Collectors;

/** Cells as a line of CSV (RFC 4180): comma, LF, quotes only where a cell needs them. */
final class CsvLine {
    private CsvLine() {}

    static String of(List<String> cells) {
        return cells.stream().map(CsvLine::cell).collect(Collectors.joining(",", "", "\n"));
    }

    private static String cell(String text) {
        boolean quoted =
                text.indexOf(',') >= 0 || text.indexOf('"') >= 0 || text.indexOf('\n') >= 0 || text.indexOf('\r') >= 0;
        return quoted ? '"' + text.replace("\"", "\"\"") + '"' : text;
    }
}
