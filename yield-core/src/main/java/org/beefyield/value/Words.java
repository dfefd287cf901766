package org.beefyield.value;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** Figures as sentences say them. */
final class Words {
    private Words() {}

    /** At most three decimals, and none that are zero. */
    static String number(double value) {
        if (!Double.isFinite(value)) {
            return Double.toString(value);
        }
        BigDecimal rounded = BigDecimal.valueOf(value).setScale(3, RoundingMode.HALF_UP);
        return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
    }
}
