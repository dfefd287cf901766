package org.beefyield.data.killsheet;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.beefyield.data.killsheet.KillSheetFormat.Column;
import org.beefyield.text.Numbers;

/** Holds the totals rows of a sheet against the rows above them. */
final class Totals {
    private static final List<Column> WEIGHTS =
            List.of(Column.COLD_WEIGHT_KG, Column.HOT_WEIGHT_KG, Column.LEFT_KG, Column.RIGHT_KG, Column.TRIMMED_KG);

    private static final int KG_DECIMALS = 3;

    /** What doubles may be off in the sum of a long sheet, kg. */
    private static final double SLACK_KG = 1e-6;

    /** A sum on its way. */
    private static final class Sum {
        private double kg;
        private long rows;
        private long unread;

        void add(KillSheetRow row, Column column) {
            double weight = row.number(column);
            rows++;
            if (!Double.isNaN(weight)) {
                kg += weight;
            } else if (!row.text(column).isEmpty()) {
                unread++;
            }
        }

        boolean isWithin(double half, double total) {
            return Math.abs(total - kg) <= half + SLACK_KG;
        }
    }

    private final Map<Column, Sum> all = new EnumMap<>(Column.class);
    private final Map<Column, Sum> sinceTotal = new EnumMap<>(Column.class);
    private final char decimalMark;

    Totals(char decimalMark) {
        this.decimalMark = decimalMark;
        WEIGHTS.forEach(column -> all.put(column, new Sum()));
        startAgain();
    }

    private void startAgain() {
        WEIGHTS.forEach(column -> sinceTotal.put(column, new Sum()));
    }

    /** Counts a row of a carcass, also one that is refused. */
    void add(KillSheetRow row) {
        if (!row.isCondemned()) {
            all.forEach((column, sum) -> sum.add(row, column));
            sinceTotal.forEach((column, sum) -> sum.add(row, column));
        }
    }

    /** Notes what doesn't add up in a row of totals. */
    void check(KillSheetRow row) {
        all.forEach((column, sum) -> {
            if (row.text(column).isEmpty()) {
                return;
            }
            double total = row.number(column);
            double half = 0.5 * Math.pow(10, -decimals(row.shown(column)));
            if (Double.isNaN(total)) {
                row.noteTotal(column, "the total " + row.text(column) + " is no number, so that nothing was checked");
            } else if (!sum.isWithin(half, total)
                    && !sinceTotal.getOrDefault(column, sum).isWithin(half, total)) {
                row.noteTotal(column, "the total " + row.shown(column) + " kg is not the sum of " + words(sum));
            }
        });
        startAgain();
    }

    private int decimals(String number) {
        int mark = number.indexOf(decimalMark);
        return mark < 0 ? 0 : number.length() - mark - 1;
    }

    private static String words(Sum sum) {
        String rows = sum.rows == 1 ? "the row above, " : "the " + sum.rows + " rows above, ";
        String unread = sum.unread == 0
                ? ""
                : sum.unread == 1 ? "; 1 of them can't be read" : "; " + sum.unread + " of them can't be read";
        return rows + Numbers.upTo(sum.kg, KG_DECIMALS) + " kg" + unread;
    }
}
