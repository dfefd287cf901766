package org.beefyield.plan;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.text.Checks;

/**
 * What an order gets by a plan.
 *
 * @param order the order
 * @param kg what it is expected to get, kg, with what comes from stock
 * @param fromStockKg of that from stock, kg
 * @param shortKg what is missing of its least, kg
 * @param wantedKg what the chance is of: its least, or if it has none what it is expected to get, kg
 * @param chance chance that so much or more comes out for it
 * @param promiseKg what may be promised: so much or more comes out with {@link Planner#promised()}, kg
 * @param expectedKg what is expected to come out that may go to it before anything is sold otherwise, with stock, kg
 * @param lots by lot, what it is expected to get of it, kg
 * @param largestPart the part from which most of its uncertainty comes; empty if nothing of it is cut
 * @param shortage why something is missing; empty if nothing is
 */
public record PlannedOrder(
        Order order,
        double kg,
        double fromStockKg,
        double shortKg,
        double wantedKg,
        double chance,
        double promiseKg,
        double expectedKg,
        Map<String, Double> lots,
        Optional<UncertaintyPart> largestPart,
        Optional<Shortage> shortage) {
    /** Checks that nothing is missing and copies the lots. */
    public PlannedOrder {
        Objects.requireNonNull(order, "order");
        Objects.requireNonNull(largestPart, "largestPart");
        Objects.requireNonNull(shortage, "shortage");
        Checks.noNullIn(lots, "lots");
        lots = Collections.unmodifiableMap(new LinkedHashMap<>(lots));
    }

    /**
     * Why something is missing.
     *
     * @param why why
     * @param mostKg what could be delivered if nothing else mattered, kg
     */
    public record Shortage(Why why, double mostKg) {
        /** Checks that there is a reason. */
        public Shortage {
            Objects.requireNonNull(why, "why");
        }
    }

    /** What stands in the way. */
    public enum Why {
        /** These carcasses don't have it, and stock neither. */
        CARCASSES("these carcasses don't return more"),
        /** The hall's hours don't suffice to cut it. */
        HOURS("the hall's hours end before"),
        /** Other orders that may not be missing need it. */
        OTHER_ORDERS("other orders need the rest"),
        /** Delivering it would cost more than its penalty. */
        COST("what is missing would cost more than its penalty"),
        /** It is less than a carcass more would bring. */
        WHOLE_CARCASSES("whole carcasses don't divide to the kg");

        private final String words;

        Why(String words) {
            this.words = words;
        }

        /**
         * The reason in words.
         *
         * @return such as {@code other orders need the rest}
         */
        public String words() {
            return words;
        }
    }
}
