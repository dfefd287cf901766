package org.beefyield.data;

import java.util.List;

/** Cells as a line of CSV (RFC 4180): comma, LF, quotes only where a cell needs them. */
final class CsvLine {
    /** Of a usual cell with its comma. */
    private static final int CHARACTERS = 10;

    private CsvLine() {}

    static String of(List<String> cells) {
        StringBuilder line = new StringBuilder(CHARACTERS * cells.size());
        for (int i = 0; i < cells.size(); i++) {
            line.append(i == 0 ? "" : ",").append(cell(cells.get(i)));
        }
        return line.append('\n').toString();
    }

    static String cell(String text) {
        boolean quoted =
                text.indexOf(',') >= 0 || text.indexOf('"') >= 0 || text.indexOf('\n') >= 0 || text.indexOf('\r') >= 0;
        return quoted ? '"' + text.replace("\"", "\"\"") + '"' : text;
    }
}
