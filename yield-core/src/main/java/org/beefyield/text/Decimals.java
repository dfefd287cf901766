package org.beefyield.text;

import java.math.BigDecimal;

/** Numbers as text, for messages and files. */
public final class Decimals {
    private Decimals() {}

    /**
     * The shortest decimal that reads back to the same double, without exponent; zero has no sign.
     *
     * @param value value
     * @return such as {@code 0.25}
     */
    public static String plain(double value) {
        if (!Double.isFinite(value)) {
            return Double.toString(value);
        }
        return value == 0 ? "0" : BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }
}
