package org.beefyield.finish;

import java.util.List;
import org.beefyield.market.MarketSpecification;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.price.Valuer;
import org.jspecify.annotations.Nullable;

/**
 * What decides.
 *
 * @param grid what is paid, with a test of the specification if it asks for one
 * @param market what the customer takes, or null
 * @param valuer what carcasses are worth to the hall, or null
 * @param costs what it costs to hold an animal
 * @param assumptions what is assumed of animals
 * @param moves how prices move, days ascending
 * @param horizonDays days that are looked at
 */
record Setup(
        PaymentGrid grid,
        @Nullable MarketSpecification market,
        @Nullable Valuer valuer,
        HoldingCosts costs,
        Assumptions assumptions,
        List<PriceMove> moves,
        int horizonDays) {

    private static final PriceMove NO_MOVE = new PriceMove(0, 0, 0);

    PriceMove move(int day) {
        PriceMove last = NO_MOVE;
        for (PriceMove move : moves) {
            last = move.fromDay() <= day ? move : last;
        }
        return last;
    }
}
