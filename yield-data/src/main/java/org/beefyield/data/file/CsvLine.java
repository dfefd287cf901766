package org.beefyield.data.file;

import java.util.List;

/** Cells as a line of CSV (RFC 4180): LF, quotes only where a cell needs them. */
public final class CsvLine {
    /** Of a usual cell with its comma. */
    private static final int CHARACTERS = 10;

    private CsvLine() {}

    /**
     * A line.
     *
     * @param cells its cells
     * @return the line with its end
     */
    public static String of(List<String> cells) {
        return of(cells, ',');
    }

    /**
     * A line.
     *
     * @param cells its cells
     * @param separator what stands between them
     * @return the line with its end
     */
    public static String of(List<String> cells, char separator) {
        StringBuilder line = new StringBuilder(CHARACTERS * cells.size());
        for (int i = 0; i < cells.size(); i++) {
            if (i > 0) {
                line.append(separator);
            }
            line.append(cell(cells.get(i), separator));
        }
        return line.append('\n').toString();
    }

    /**
     * A cell.
     *
     * @param text its text
     * @param separator what stands between cells
     * @return the text, in quotes if it needs them
     */
    public static String cell(String text, char separator) {
        boolean quoted = text.indexOf(separator) >= 0
                || text.indexOf('"') >= 0
                || text.indexOf('\n') >= 0
                || text.indexOf('\r') >= 0;
        return quoted ? '"' + text.replace("\"", "\"\"") + '"' : text;
    }
}
