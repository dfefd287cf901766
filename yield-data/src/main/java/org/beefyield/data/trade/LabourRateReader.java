package org.beefyield.data.trade;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Source;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.plan.LabourRate;

/**
 * Reads how fast a hall cuts: a CSV file with the columns
 *
 * <ul>
 *   <li>{@code cut}: code of a cut that is cut up; blank or {@code *} for all that have no row of their own
 *   <li>{@code way}: the way; blank or {@code *} for every way that has no row of its own
 *   <li>{@code kg_per_hour}: kg of the cut that a person cuts up in an hour
 *   <li>{@code most_hours}: hours at most for what goes at this rate; blank for no limit
 *   <li>{@code note}: for people
 * </ul>
 */
public final class LabourRateReader {
    private static final List<String> COLUMNS = List.of("cut", "way", "kg_per_hour", "most_hours", "note");

    private LabourRateReader() {}

    /**
     * Reads rates from a file of the standard form.
     *
     * @param file the file
     * @return rates in the file's order
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static List<LabourRate> read(Path file) {
        return read(Source.of(file), CsvForm.standard());
    }

    /**
     * Reads rates.
     *
     * @param source the file
     * @param form how it is written
     * @return rates in the file's order
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static List<LabourRate> read(Source source, CsvForm form) {
        Map<List<String>, Long> lines = new HashMap<>();
        return SmallCsv.read(source, form, COLUMNS, row -> {
            String cut = row.text("cut").isEmpty() ? LabourRate.ANY : row.text("cut");
            String way = row.text("way").isEmpty() ? LabourRate.ANY : row.text("way");
            Long first = lines.putIfAbsent(List.of(cut, way), row.line());
            if (first != null) {
                row.refuse("way", "a rate for this way of the cut stands in line " + first + " already");
            }
            double rate = row.number("kg_per_hour");
            Double most = row.optionalNumber("most_hours");
            if (most != null && most < 0) {
                row.refuse("most_hours", "hours are 0 or more; blank for no limit");
            }
            return row.isBad()
                    ? null
                    : row.parsedOrNull(
                            "kg_per_hour",
                            text -> new LabourRate(cut, way, rate, most == null ? Double.POSITIVE_INFINITY : most));
        });
    }
}
