package org.beefyield.data.trade;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.DoubleConsumer;
import org.beefyield.cut.CutKind;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.price.PriceList;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Reads a price list: a CSV file, a row for each price, with the columns
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

    /** From here on a price per kg looks like cents (our limits). */
    private static final double MUCH_A_KG = 100;

    private static final double MUCH_ABOVE_MIDDLE = 20;
    private static final int FEWEST_PRICES = 3;

    /** Prices of cuts, kinds and minces above 0. */
    private final Map<CsvRow, Double> perKg = new LinkedHashMap<>();

    private final Map<List<String>, Long> linesOfPrices = new HashMap<>();
    private final OneCurrency currency = new OneCurrency("a list");
    private PriceList.@Nullable Builder builder;

    private PriceListReader() {}

    /**
     * Reads a price list from a file of the standard form.
     *
     * @param file the file
     * @return the list, its amounts rounded to 2 decimals
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static PriceList read(Path file) {
        return read(Source.of(file), CsvForm.standard());
    }

    /**
     * Reads a price list.
     *
     * @param source the file
     * @param form how it is written
     * @return the list, its amounts rounded to 2 decimals
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static PriceList read(Source source, CsvForm form) {
        return read(source, form, note -> {});
    }

    /**
     * Reads a price list and says what looks odd in it but is used all the same: prices that look like cents, for they
     * are 100 or more a kg in the middle, or 20 times the one in the middle (our limits).
     *
     * @param source the file
     * @param form how it is written
     * @param notes takes a note for each such price, or one for all of them
     * @return the list, its amounts rounded to 2 decimals
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static PriceList read(Source source, CsvForm form, Consumer<Problem> notes) {
        PriceListReader reader = new PriceListReader();
        List<PriceList.Builder> rows = SmallCsv.read(source, form, COLUMNS, reader::row);
        reader.noteCents(source.name(), notes);
        // a file without a row that can be used doesn't get here
        return rows.get(0).build();
    }

    private void noteCents(String file, Consumer<Problem> notes) {
        List<Double> sorted = perKg.values().stream().sorted().toList();
        if (sorted.size() < FEWEST_PRICES) {
            return;
        }
        double middle = sorted.get(sorted.size() / 2);
        if (middle >= MUCH_A_KG) {
            notes.accept(new Problem(
                    file,
                    0,
                    "price",
                    "",
                    "prices look like cents: the one in the middle is " + Numbers.upTo(middle, 2)
                            + " a kg; the list says " + currency.label()));
            return;
        }
        perKg.forEach((row, price) -> {
            if (price >= MUCH_A_KG && price >= MUCH_ABOVE_MIDDLE * middle) {
                notes.accept(row.problem(
                        "price",
                        "the price of " + row.text("line") + " " + Excerpt.quote(row.text("name")) + ", "
                                + row.text("price") + ", looks like cents: the one in the middle is "
                                + Numbers.upTo(middle, 2)));
            }
        });
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
            row.parsedOrNull("price", text -> {
                adding.accept(price);
                return price;
            });
            if (!row.isBad() && price > 0 && !row.text("line").startsWith("per-")) {
                perKg.put(row, price);
            }
        }
    }
}
