package org.beefyield.value;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.stream.Stream;

/** Figures as sentences say them, and what else printing here has in common. */
final class Words {
    private Words() {}

    /** The difference of two printed figures. */
    static String minus(String a, String b) {
        return new BigDecimal(a).subtract(new BigDecimal(b)).toPlainString();
    }

    /** Sentences of rules for edges: each once, with a capital and without those that are empty. */
    static List<String> sentences(String... rules) {
        return Stream.of(rules).filter(rule -> !rule.isEmpty()).distinct().toList();
    }

    /** Refuses amounts that don't go together: there is no conversion. */
    static void oneCurrency(String one, String other) {
        if (!one.equals(other)) {
            throw new IllegalArgumentException(
                    "amounts in " + one + " and in " + other + " don't go together; bring them to one currency first");
        }
    }
}
