package org.beefyield.data.trade;

import java.nio.file.Path;
import java.util.List;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Source;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Outturn;
import org.beefyield.plan.OpeningStock;

/**
 * Reads what lies in the chill already: a CSV file with the columns
 *
 * <ul>
 *   <li>{@code product}: code of a cut or product, as orders say it, or {@code mince}
 *   <li>{@code fat_pct}: of mince its fat content, per cent
 *   <li>{@code kg}: kg
 *   <li>{@code note}: for people
 * </ul>
 */
public final class StockReader {
    private static final List<String> COLUMNS = List.of("product", "fat_pct", "kg", "note");

    private StockReader() {}

    /**
     * Reads stock from a file of the standard form.
     *
     * @param file the file
     * @return stock in the file's order
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static List<OpeningStock> read(Path file) {
        return read(Source.of(file), CsvForm.standard());
    }

    /**
     * Reads stock.
     *
     * @param source the file
     * @param form how it is written
     * @return stock in the file's order
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static List<OpeningStock> read(Source source, CsvForm form) {
        return SmallCsv.read(source, form, COLUMNS, row -> {
            String product = row.text("product");
            if (product.isEmpty()) {
                row.refuse("product", "every row names a product");
            }
            Double fat = row.optionalNumber("fat_pct");
            if (!product.equals(Outturn.MINCE_CODE)) {
                if (fat != null && !fat.isNaN()) {
                    row.refuse(
                            "fat_pct", "a fat content is said of " + Outturn.MINCE_CODE + " alone, not of " + product);
                }
            } else if (fat == null) {
                row.refuse("fat_pct", "mince in stock says its fat content, per cent, such as 15");
            } else if (!fat.isNaN()) {
                row.parsedOrNull("fat_pct", text -> MinceTarget.fatPercent(fat));
            }
            double kg = row.number("kg");
            return row.isBad() ? null : row.parsedOrNull("kg", text -> new OpeningStock(product, fat, kg));
        });
    }
}
