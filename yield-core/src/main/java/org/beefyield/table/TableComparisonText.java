package org.beefyield.table;

import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** A comparison in words. */
final class TableComparisonText {
    private static final int DECIMALS = 2;

    private final TableComparison comparison;

    TableComparisonText(TableComparison comparison) {
        this.comparison = comparison;
    }

    static String where(TableComparison.Difference at) {
        return "category " + at.category()
                + (at.specification().isEmpty() ? "" : ", " + at.specification()) + ", " + at.conformation() + " "
                + at.fatClass() + ", " + Numbers.exact(Math.rint(at.weightKg() * 1000) / 1000) + " kg";
    }

    String text() {
        StringBuilder text = new StringBuilder(title()).append("\n\n").append(table().toText());
        comparison.notes().forEach(note -> text.append("Note: ").append(note).append('\n'));
        return text.toString();
    }

    String html() {
        StringBuilder html = new StringBuilder("<h2>")
                .append(TextTable.escape(title()))
                .append("</h2>\n")
                .append(table().toHtml());
        comparison
                .notes()
                .forEach(note ->
                        html.append("<p>Note: ").append(TextTable.escape(note)).append("</p>\n"));
        return html.toString();
    }

    String line() {
        double largest = comparison.differences().stream()
                .mapToDouble(difference -> Math.abs(difference.differenceGPerKg()))
                .max()
                .orElse(0);
        return title() + ": largest difference " + Numbers.fixed(largest, DECIMALS) + " g/kg";
    }

    private String title() {
        return "Table " + comparison.second().identity() + " against "
                + comparison.first().identity();
    }

    private TextTable table() {
        TextTable table = new TextTable("cut", "level", "largest difference, g/kg", "where");
        for (TableComparison.Difference difference : comparison.differences()) {
            boolean equal = Math.abs(difference.differenceGPerKg()) <= TableComparison.NOISE_G_PER_KG;
            table.row(
                    difference.cut(),
                    difference.level(),
                    Numbers.signed(equal ? 0 : difference.differenceGPerKg(), DECIMALS),
                    equal ? "equal" : difference.where());
        }
        return table;
    }
}
