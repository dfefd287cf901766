package org.beefyield.data.trade;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.estimate.Outturn;
import org.beefyield.market.MarketSpecification;
import org.beefyield.plan.Order;
import org.jspecify.annotations.Nullable;

/**
 * Reads orders: a CSV file with the columns
 *
 * <ul>
 *   <li>{@code order}: its number
 *   <li>{@code customer}: who ordered it; may be blank
 *   <li>{@code product}: code of a cut of the table's last level, such as {@code striploin-steak}, of a cut that is broken down, of
 *       which its steaks, joints and dice are meant, of a product of the hall, or {@code mince}
 *   <li>{@code way}: the way in which the cut has to be cut up; blank for any
 *   <li>{@code fat_pct}: of mince the most fat that it may have, per cent
 *   <li>{@code min_kg}: what has to be delivered, kg; blank for nothing
 *   <li>{@code max_kg}: what is taken at most, kg; blank for all there is
 *   <li>{@code price}: price per kg
 *   <li>{@code currency}: its label, the same in every row
 *   <li>{@code penalty}: what each kg costs that is missing of {@code min_kg}; blank if nothing may be missing
 *   <li>{@code carcasses}: name of a market specification that the carcasses have to meet; blank for any carcass
 *   <li>{@code piece_from_kg}, {@code piece_to_kg}: lightest and heaviest piece of the cut, before it is cut up, kg; blank for no limit
 *   <li>{@code note}: for people
 * </ul>
 */
public final class OrderReader {
    private static final List<String> COLUMNS = List.of(
            "order",
            "customer",
            "product",
            "way",
            "fat_pct",
            "min_kg",
            "max_kg",
            "price",
            "currency",
            "penalty",
            "carcasses",
            "piece_from_kg",
            "piece_to_kg",
            "note");

    private OrderReader() {}

    /**
     * Orders, and the currency of their prices.
     *
     * @param orders in the file's order
     * @param currency label of the currency of their prices
     */
    public record Orders(List<Order> orders, String currency) {
        /** Copies the list. */
        public Orders {
            orders = List.copyOf(orders);
        }
    }

    /**
     * Reads orders from a file of the standard form.
     *
     * @param file the file
     * @param specifications what {@code carcasses} may name
     * @return orders
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static Orders read(Path file, List<MarketSpecification> specifications) {
        return read(Source.of(file), CsvForm.standard(), specifications);
    }

    /**
     * Reads orders.
     *
     * @param source the file
     * @param form how it is written
     * @param specifications what {@code carcasses} may name
     * @return orders
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static Orders read(Source source, CsvForm form, List<MarketSpecification> specifications) {
        OneCurrency currency = new OneCurrency("a file of orders");
        Map<String, Long> lines = new HashMap<>();
        List<Order> orders = SmallCsv.read(source, form, COLUMNS, row -> {
            currency.check(row);
            return order(row, lines, specifications);
        });
        return new Orders(orders, currency.label());
    }

    private static @Nullable Order order(
            CsvRow row, Map<String, Long> lines, List<MarketSpecification> specifications) {
        String id = row.text("order");
        String product = row.text("product");
        if (id.isEmpty()) {
            row.refuse("order", "every order has a number");
        } else {
            Long first = lines.putIfAbsent(id, row.line());
            if (first != null) {
                row.refuse("order", "an order of this number stands in line " + first + " already");
            }
        }
        if (product.isEmpty()) {
            row.refuse("product", "every order names a product");
        }
        Double fat = row.optionalNumber("fat_pct");
        boolean mince = product.equals(Outturn.MINCE_CODE);
        if (mince && fat == null) {
            row.refuse("fat_pct", "an order of mince says the most fat that it may have, per cent, such as 15");
        } else if (!mince && fat != null && !fat.isNaN()) {
            row.refuse("fat_pct", "a fat content is said of " + Outturn.MINCE_CODE + " alone, not of " + product);
        }
        Double least = row.optionalNumber("min_kg");
        Double most = row.optionalNumber("max_kg");
        double price = row.number("price");
        Double penalty = row.optionalNumber("penalty");
        Double from = row.optionalNumber("piece_from_kg");
        Double to = row.optionalNumber("piece_to_kg");
        MarketSpecification carcasses = row.optional("carcasses", name -> named(name, specifications));
        if (row.isBad()) {
            return null;
        }
        Order.Builder builder =
                fat == null ? Order.builder(id, product) : row.parsedOrNull("fat_pct", text -> Order.mince(id, fat));
        if (builder == null) {
            return null;
        }
        builder.customer(row.text("customer")).way(row.text("way"));
        row.parsedOrNull(
                "min_kg",
                text -> builder.kg(least == null ? 0 : least, most == null ? Double.POSITIVE_INFINITY : most));
        row.parsedOrNull("price", text -> builder.price(price));
        if (penalty != null) {
            row.parsedOrNull("penalty", text -> builder.penalty(penalty));
        }
        if (from != null || to != null) {
            row.parsedOrNull(
                    "piece_from_kg",
                    text -> builder.pieces(from == null ? 0 : from, to == null ? Double.POSITIVE_INFINITY : to));
        }
        if (carcasses != null) {
            builder.carcasses(carcasses);
        }
        return row.isBad() ? null : builder.build();
    }

    private static MarketSpecification named(String name, List<MarketSpecification> specifications) {
        return specifications.stream()
                .filter(one -> one.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(
                        specifications.isEmpty()
                                ? "\"" + name + "\" names a market specification, and none are given"
                                : "no market specification \"" + name + "\"; there are "
                                        + specifications.stream()
                                                .map(MarketSpecification::name)
                                                .collect(Collectors.joining(", "))));
    }
}
