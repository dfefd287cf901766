package org.beefyield.data.trade;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Source;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.market.SizeWindow;
import org.beefyield.table.definition.BreakdownRow;

/**
 * Reads the pack sizes of a customer: a CSV file with the columns
 *
 * <ul>
 *   <li>{@code cut}: code of a cut that is sold by the piece, such as {@code striploin}
 *   <li>{@code way}: the way of cutting it up that needs the window, such as {@code steaks}; blank or {@code *} for every
 *       way
 *   <li>{@code from_kg}, {@code to_kg}: lightest and heaviest piece that fits, kg, inclusive; blank for no limit
 *   <li>{@code otherwise}: the way in which the cut goes if a piece doesn't fit, such as {@code joints}; blank if nothing
 *       is said
 * </ul>
 */
public final class SizeWindowReader {
    private static final List<String> COLUMNS = List.of("cut", "way", "from_kg", "to_kg", "otherwise");

    private SizeWindowReader() {}

    /**
     * Reads windows from a file of the standard form.
     *
     * @param file the file
     * @return windows in the file's order
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static List<SizeWindow> read(Path file) {
        return read(Source.of(file), CsvForm.standard());
    }

    /**
     * Reads windows.
     *
     * @param source the file
     * @param form how it is written
     * @return windows in the file's order
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static List<SizeWindow> read(Source source, CsvForm form) {
        Set<List<String>> seen = new HashSet<>();
        return SmallCsv.read(source, form, COLUMNS, row -> {
            Double from = row.optionalNumber("from_kg");
            Double to = row.optionalNumber("to_kg");
            String way = row.text("way").isEmpty() ? BreakdownRow.ANY : row.text("way");
            if (row.text("cut").isEmpty()) {
                row.refuse("cut", "every row names a cut");
            } else if (!seen.add(List.of(row.text("cut"), way))) {
                row.refuse("way", "a window for this way of the cut stands above");
            }
            return row.isBad()
                    ? null
                    : row.parsedOrNull(
                            "from_kg",
                            text -> new SizeWindow(
                                    row.text("cut"),
                                    way,
                                    from == null ? 0 : from,
                                    to == null ? Double.POSITIVE_INFINITY : to,
                                    row.text("otherwise")));
        });
    }
}
