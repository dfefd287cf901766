package org.beefyield.plan;

import java.util.Objects;
import java.util.OptionalDouble;
import org.beefyield.text.Checks;
import org.jspecify.annotations.Nullable;

/**
 * What lies in the chill already and may go to orders. Of what carcasses and pieces it was isn't known any more, so that it goes
 * to orders alone that take any; what no order gets stays, and counts for nothing.
 *
 * @param product code of the product or cut, as orders say it
 * @param fatPercent fat content of mince, per cent; null of anything else
 * @param kg kg, 0 or more
 */
public record OpeningStock(String product, @Nullable Double fatPercent, double kg) {
    /**
     * Checks the figures.
     *
     * @throws IllegalArgumentException if the product is blank or the weight is not finite or below 0
     */
    public OpeningStock {
        Objects.requireNonNull(product, "product");
        Order.notBlank("product in stock", product);
        Checks.notNegative("stock of " + product + ", kg,", kg);
        if (fatPercent != null) {
            Checks.notNegative("fat of " + product + " in stock, %,", fatPercent);
        }
    }

    /**
     * Stock of a product.
     *
     * @param product its code
     * @param kg kg, 0 or more
     * @return the stock
     * @throws IllegalArgumentException if the product is blank or the weight is not finite or below 0
     */
    public static OpeningStock of(String product, double kg) {
        return new OpeningStock(product, null, kg);
    }

    /** Whether it may go to an order. */
    boolean isFor(Order order) {
        OptionalDouble most = order.fatPercent();
        return product.equals(order.product())
                && order.way().isEmpty()
                && !order.limitsPieces()
                && order.carcasses().isEmpty()
                && (most.isEmpty() || (fatPercent != null && fatPercent <= most.getAsDouble()));
    }
}
