package org.beefyield.data.trade;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleConsumer;
import org.beefyield.cut.CutKind;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.price.PriceList;
import org.jspecify.annotations.Nullable;

/**
 * Reads a price list: a CSV file, UTF-8, comma, decimal point, a row for each price, with the columns
 *
 * <ul>
 *   <li>{@code line}: what the row is about, one of {@code cut kind mince per-kg per-head}
 *   <li>{@code name}: of a {@code cut} its code, such as {@code striploin-steak}; of a {@code kind} its name, such as
 *       {@code fat-trim}; of {@code mince} its fat content in per cent, above 0 and below 100, or blank for any:
 *       mince is sold at the price of the least content that is not below its own; of other income or cost, counted
 *       {@code per-kg} of cold carcass weight or {@code per-head}, what it is for
 *   <li>{@code price}: price per kg, or the amount of other income (above 0) or cost (below 0); 0 for what is worth
 *       nothing
 *   <li>{@code currency}: label of the currency, the same in every row
 * </ul>
 *
 * A price of a cut goes before that of its kind. Whether a table has the cuts is seen when the list is bound to an
 * estimator.
 */
public final class PriceListReader {
    private static final List<String> COLUMNS = List.of("line", "name", "price", "currency");

    private final Map<List<String>, Long> linesOfPrices = new HashMap<>();
    private final OneCurrency currency = new OneCurrency("a list");
    private PriceList.@Nullable Builder builder;

    private PriceListReader() {}

    /**
     * Reads a price list.
     *
     * @param file the file
     * @return the list, its amounts rounded to 2 decimals
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static PriceList read(Path file) {
        PriceListReader reader = new PriceListReader();
        List<PriceList.Builder> rows = SmallCsv.read(file, COLUMNS, reader::row);
        // a file without a row that can be used doesn't get here
        return rows.get(0).build();
    }

    private PriceList.@Nullable Builder row(CsvRow row) {
        currency.check(row);
        String label = row.text("currency");
        // a row that doesn't say it is refused, and looked at all the same
        PriceList.Builder prices =
                builder == null ? PriceList.builder(label.isEmpty() ? "not stated" : label) : builder;
        double price = row.number("price");
        String name = row.text("name");
        switch (row.text("line")) {
            case "cut" -> add(row, named(row, "a cut"), price, amount -> prices.cut(name, amount));
            case "kind" -> {
                CutKind kind = row.parsedOrNull("name", CutKind::parse);
                if (kind != null) {
                    add(row, name, price, amount -> prices.kind(kind, amount));
                }
            }
            case "mince" -> mince(row, prices, price);
            case "per-kg" ->
                add(row, named(row, "other income or cost"), price, amount -> prices.otherPerKg(name, amount));
            case "per-head" ->
                add(row, named(row, "other income or cost"), price, amount -> prices.otherPerHead(name, amount));
            default ->
                row.refuse(
                        "line",
                        "line " + Excerpt.quote(row.text("line")) + " is none of cut kind mince per-kg per-head");
        }
        if (row.isBad()) {
            return null;
        }
        builder = prices;
        return prices;
    }

    private static String named(CsvRow row, String what) {
        if (row.text("name").isEmpty()) {
            row.refuse("name", what + " has a name");
        }
        return row.text("name");
    }

    private void mince(CsvRow row, PriceList.Builder prices, double price) {
        if (row.text("name").isEmpty()) {
            add(row, "", price, prices::mince);
            return;
        }
        double percent = row.number("name");
        if (!row.isBad()) {
            MinceTarget target = row.parsedOrNull("name", text -> MinceTarget.fatPercent(percent));
            if (target != null) {
                add(row, target.toString(), price, amount -> prices.mince(percent, amount));
            }
        }
    }

    /** Adds the price unless the row is bad or says again what another row says. */
    private void add(CsvRow row, String key, double price, DoubleConsumer adding) {
        if (row.isBad()) {
            return;
        }
        Long first = linesOfPrices.putIfAbsent(List.of(row.text("line"), key), row.line());
        if (first != null) {
            row.refuse(
                    "name",
                    "the same " + row.text("line") + " stands in line " + first + " already; each has one price");
        } else {
            adding.accept(price);
        }
    }
}
