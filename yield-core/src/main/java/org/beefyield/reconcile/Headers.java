package org.beefyield.reconcile;

import org.beefyield.frame.Column;
import org.beefyield.frame.Total;
import org.beefyield.text.Numbers;

/** Columns of frames, and figures of tables, as every result of this package has them. */
final class Headers {
    private static final int G_DECIMALS = 2;

    private Headers() {}

    /** A column whose figures add up. */
    static Column adding(String header) {
        return Column.number(header).totalling(Total.SUM);
    }

    /** A column whose figures don't. */
    static Column plain(String header) {
        return Column.number(header).totalling(Total.NONE);
    }

    /** g per kg of intake. */
    static String g(double gPerKg) {
        return Numbers.fixed(gPerKg, G_DECIMALS);
    }
}
