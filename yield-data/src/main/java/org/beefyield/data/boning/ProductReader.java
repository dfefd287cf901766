package org.beefyield.data.boning;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.boning.Product;
import org.beefyield.cut.Cut;
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
 *   <li>{@code name}: name, which no other product has and no line of a reconciliation, such as {@code Waste}; blank in later
 *       rows of a product, or the same
 *   <li>{@code cut}: code of a cut that stands at the table's last level, such as {@code striploin-steak}
 *   <li>{@code share}: share of that cut that goes into the product, above 0, at most 1; blank for the whole
 * </ul>
 */
public final class ProductReader {
    private record Row(String product, String cut, double share) {}

    private record Named(String product, long line) {}

    private final CutsOfLevel level;
    private final Map<String, String> names = new LinkedHashMap<>();
    private final Map<String, Named> byName = new LinkedHashMap<>();
    private final Map<List<String>, Long> lines = new LinkedHashMap<>();

    private ProductReader(CutsOfLevel level) {
        this.level = level;
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
        return read(source, form, CutsOfLevel.last(table));
    }

    /**
     * Reads products of another level than the table's last, such as those of a plant that packs primals.
     *
     * @param source the file
     * @param form how it is written
     * @param table the table whose cuts go into them
     * @param level name of the level at which those cuts stand
     * @return products in the file's order
     * @throws IllegalArgumentException if the table has no such level
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static List<Product> read(Source source, CsvForm form, YieldTable table, String level) {
        return read(source, form, new CutsOfLevel(table, level));
    }

    private static List<Product> read(Source source, CsvForm form, CutsOfLevel level) {
        ProductReader reader = new ProductReader(level);
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
        Cut known = row.parsedOrNull(RunColumns.CUT, level::cut);
        if (!product.isEmpty()) {
            checkName(row, product, name, known);
        }
        Double share = row.optionalNumber(RunColumns.SHARE);
        if (share != null && !share.isNaN() && !(share > 0 && share <= 1)) {
            row.refuse(RunColumns.SHARE, "share " + Numbers.exact(share) + " is not above 0 and at most 1");
        }
        if (row.isBad()) {
            return null;
        }
        Long first = lines.putIfAbsent(List.of(product, cut), row.line());
        if (first != null) {
            row.refuse(RunColumns.CUT, "the same cut of product " + product + " stands in line " + first + " already");
        }
        return row.isBad() ? null : new Row(product, cut, share == null ? 1 : share);
    }

    private void checkName(CsvRow row, String product, String name, @Nullable Cut cut) {
        String known = names.get(product);
        if (known == null && name.isEmpty()) {
            row.refuse(RunColumns.NAME, "product " + product + " has no name; its first row gives it one");
        } else if (known != null && !known.isEmpty() && !name.isEmpty() && !name.equals(known)) {
            row.refuse(RunColumns.NAME, "product " + product + " has the name \"" + known + "\" above; it has one");
            return;
        }
        String called = known == null || known.isEmpty() ? name : known;
        names.put(product, called);
        if (called.isEmpty()) {
            return;
        }
        Named other = byName.putIfAbsent(called, new Named(product, row.line()));
        boolean isNew = known == null || known.isEmpty();
        if (isNew && other != null) {
            row.refuse(
                    RunColumns.NAME,
                    "product " + other.product() + " in line " + other.line()
                            + " has this name already; each has a name of its own");
        }
        if (isNew && !ProductNames.wrong(called).isEmpty()) {
            row.refuse(RunColumns.NAME, ProductNames.wrong(called));
        }
        ProductNames.kind(called)
                .filter(kind -> cut != null && cut.kind() != kind)
                .ifPresent(kind -> row.refuse(
                        RunColumns.CUT,
                        "a line of weighed rest is called \"" + called
                                + "\"; into a product of that name goes nothing but " + kind.code()));
    }
}
