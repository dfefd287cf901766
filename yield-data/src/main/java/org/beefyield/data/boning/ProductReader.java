package org.beefyield.data.boning;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.boning.Product;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Reads the products of a hall: a CSV file, a row for each cut that goes into a product, with the columns
 *
 * <ul>
 *   <li>{@code product}: code on its boxes
 *   <li>{@code name}: name; blank in later rows of a product, or the same
 *   <li>{@code cut}: code of a cut of the table, such as {@code striploin-steak}
 *   <li>{@code share}: share of that cut that goes into the product, above 0, at most 1; blank for the whole
 * </ul>
 */
public final class ProductReader {
    private record Row(String product, String name, String cut, double share) {}

    private final YieldTable table;
    private final Map<String, String> names = new LinkedHashMap<>();
    private final Map<List<String>, Long> lines = new LinkedHashMap<>();

    private ProductReader(YieldTable table) {
        this.table = table;
    }

    /**
     * Reads products from a file of the standard form.
     *
     * @param file the file
     * @param table the table whose cuts go into them
     * @return products in the file's order
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static List<Product> read(Path file, YieldTable table) {
        return read(Source.of(file), CsvForm.standard(), table);
    }

    /**
     * Reads products.
     *
     * @param source the file
     * @param form how it is written
     * @param table the table whose cuts go into them
     * @return products in the file's order
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static List<Product> read(Source source, CsvForm form, YieldTable table) {
        ProductReader reader = new ProductReader(table);
        Map<String, Map<String, Double>> cuts = new LinkedHashMap<>();
        for (Row row : SmallCsv.read(source, form, RunColumns.PRODUCTS, reader::row)) {
            cuts.computeIfAbsent(row.product(), any -> new LinkedHashMap<>()).put(row.cut(), row.share());
        }
        List<Product> products = new ArrayList<>();
        cuts.forEach((code, shares) -> products.add(new Product(code, reader.names.getOrDefault(code, ""), shares)));
        return products;
    }

    private @Nullable Row row(CsvRow row) {
        String product = row.text(RunColumns.PRODUCT);
        String name = row.text(RunColumns.NAME);
        String cut = row.text(RunColumns.CUT);
        if (product.isEmpty()) {
            row.refuse(RunColumns.PRODUCT, "every row names a product");
        }
        row.parsedOrNull(RunColumns.CUT, table.catalogue()::cut);
        Double share = row.optionalNumber(RunColumns.SHARE);
        if (share != null && !share.isNaN() && !(share > 0 && share <= 1)) {
            row.refuse(RunColumns.SHARE, "share " + Numbers.exact(share) + " is not above 0 and at most 1");
        }
        if (row.isBad()) {
            return null;
        }
        String known = names.putIfAbsent(product, name);
        if (known != null && !name.isEmpty() && !name.equals(known)) {
            row.refuse(RunColumns.NAME, "product " + product + " has the name \"" + known + "\" above; it has one");
        }
        Long first = lines.putIfAbsent(List.of(product, cut), row.line());
        if (first != null) {
            row.refuse(RunColumns.CUT, "the same cut of product " + product + " stands in line " + first + " already");
        }
        return row.isBad() ? null : new Row(product, name, cut, share == null ? 1 : share);
    }
}
