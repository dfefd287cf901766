package org.beefyield.data.trade;

import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.Excerpt;

/** Holds the rows of a file to one currency. */
final class OneCurrency {
    private final String what;
    private String label = "";
    private long line;

    /** The thing that has one currency, such as {@code a list}. */
    OneCurrency(String what) {
        this.what = what;
    }

    /** The currency of the first row that has one; empty before. */
    String label() {
        return label;
    }

    /** Refuses a row without a currency, or with another than the first row's. */
    void check(CsvRow row) {
        String itsOwn = row.text("currency");
        if (itsOwn.isEmpty()) {
            row.refuse("currency", "every row says its currency, such as EUR");
        } else if (label.isEmpty()) {
            label = itsOwn;
            line = row.line();
        } else if (!itsOwn.equals(label)) {
            row.refuse(
                    "currency",
                    "currency " + Excerpt.quote(itsOwn) + " differs from " + Excerpt.quote(label) + " in line " + line
                            + "; " + what + " has one");
        }
    }
}
