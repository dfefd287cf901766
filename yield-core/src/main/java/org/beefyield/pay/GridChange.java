package org.beefyield.pay;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import org.beefyield.estimate.GradeCell;
import org.beefyield.text.Checks;

/**
 * A change of the payment grid by which a grade that is overpaid would leave as much a kg as the hall's average.
 *
 * @param grade category and whole classes
 * @param perKg change of its price per kg of cold weight, below 0
 * @param costs what that would have cost each supplier of such carcasses, most first
 */
public record GridChange(GradeCell grade, double perKg, Map<String, Double> costs) {
    /** Copies what could change. */
    public GridChange {
        Objects.requireNonNull(grade, "grade");
        Checks.noNullIn(costs, "costs");
        costs = Collections.unmodifiableMap(new LinkedHashMap<>(costs));
    }

    /**
     * What it would have cost all suppliers.
     *
     * @return amount, above 0
     */
    public double cost() {
        return costs.values().stream().mapToDouble(cost -> cost).sum();
    }
}
