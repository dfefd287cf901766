package org.beefyield.boning;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import org.beefyield.text.Checks;
import org.beefyield.text.Numbers;

/**
 * What a hall packs under one code, and which cuts of a yield table go into it. Bone or fat trim that is weighed in boxes or
 * bins is a product too.
 *
 * @param code code on its boxes
 * @param name name
 * @param cuts by the code of each cut that goes into it, the share of that cut that does or may: above 0, at most 1. Products
 *     among which the hall divides a cut as it likes each have the whole of it
 */
public record Product(String code, String name, Map<String, Double> cuts) {
    /**
     * Checks the shares and copies them.
     *
     * @throws IllegalArgumentException if the code is blank, there is no cut, or a share isn't above 0 and at most 1
     */
    public Product {
        Objects.requireNonNull(code, "code");
        Objects.requireNonNull(name, "name");
        Checks.noNullIn(cuts, "cuts");
        if (code.isBlank()) {
            throw new IllegalArgumentException("the product \"" + name + "\" has no code; its boxes go by it");
        }
        if (cuts.isEmpty()) {
            throw new IllegalArgumentException("product " + code + " has no cut; one or more go into it");
        }
        String product = code;
        cuts.forEach((cut, share) -> {
            if (!(share > 0 && share <= 1)) {
                throw new IllegalArgumentException("product " + product + ": share " + Numbers.exact(share) + " of "
                        + cut + " is not above 0 and at most 1");
            }
        });
        cuts = Collections.unmodifiableMap(new LinkedHashMap<>(cuts));
    }

    /**
     * A product that is the whole of one cut.
     *
     * @param code code on its boxes
     * @param name name
     * @param cut code of the cut
     * @return the product
     * @throws IllegalArgumentException if the code is blank
     */
    public static Product of(String code, String name, String cut) {
        return new Product(code, name, Map.of(Objects.requireNonNull(cut, "cut"), 1.0));
    }
}
