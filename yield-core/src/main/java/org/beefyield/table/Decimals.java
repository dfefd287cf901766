package org.beefyield.table;

import java.math.BigDecimal;
import java.util.Locale;

/** Numbers as text. */
final class Decimals {
    private Decimals() {}

    /** The shortest decimal that reads back to the same double, without exponent; zero has no sign. */
    static String plain(double value) {
        if (!Double.isFinite(value)) {
            return Double.toString(value);
        }
        return value == 0 ? "0" : BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    /** A figure in g/kg for a message: rounded to what a person can use, tiny ones kept visible. */
    static String gPerKg(double fraction) {
        double g = fraction * 1000;
        return String.format(Locale.ROOT, Math.abs(g) < 0.001 ? "%.3g" : "%.3f", g);
    }
}
