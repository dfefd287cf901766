package org.beefyield.reconcile;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import org.beefyield.text.Checks;

/**
 * Products and weighed rests that can't be told apart, for they share cuts; or one alone.
 *
 * @param name names of its products
 * @param shares by the code of each cut that goes into it, how much of the cut does
 * @param products number of products and rests, 1 or more
 */
public record ProductGroup(String name, Map<String, Double> shares, int products) {
    /**
     * Checks that nothing is missing and copies the shares.
     *
     * @throws IllegalArgumentException if there are fewer than none
     */
    public ProductGroup {
        Objects.requireNonNull(name, "name");
        Checks.noNullIn(shares, "shares");
        if (products < 0) {
            throw new IllegalArgumentException("group " + name + " has " + products + " products; it has none or more");
        }
        shares = Collections.unmodifiableMap(new LinkedHashMap<>(shares));
    }
}
