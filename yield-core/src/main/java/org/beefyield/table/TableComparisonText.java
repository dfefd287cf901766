package org.beefyield.table;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.frame.Column;
import org.beefyield.frame.Frame;
import org.beefyield.frame.Total;
import org.beefyield.table.definition.TableColumn;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;

/** A comparison in words: what moved first, then what else changed, then what should be known about it. */
final class TableComparisonText {
    private static final int DECIMALS = 2;
    /** Changes of one kind that are shown before the rest is counted. */
    private static final int SHOWN = 10;

    private final TableComparison comparison;

    TableComparisonText(TableComparison comparison) {
        this.comparison = comparison;
    }

    static String where(TableComparison.Difference at) {
        return "category " + at.category()
                + (at.specification().isEmpty() ? "" : ", " + at.specification()) + ", " + at.conformation() + " "
                + at.fatClass() + ", " + Numbers.exact(Math.rint(at.weightKg() * 1000) / 1000) + " kg";
    }

    Frame frame() {
        return Frame.ofEach(comparison.differences())
                .text("table before", difference -> comparison.first().identity())
                .text("table after", difference -> comparison.second().identity())
                .text(TableColumn.LEVEL, TableComparison.Difference::level)
                .text(TableColumn.CUT, TableComparison.Difference::cut)
                .number("largest difference, g/kg", TableComparison.Difference::differenceGPerKg)
                .text(TableColumn.CATEGORY, difference -> difference.category().letter())
                .text("cutting", TableComparison.Difference::specification)
                .text(
                        Column.text(TableColumn.CONFORMATION).of(Column.Type.CONFORMATION),
                        difference -> difference.conformation().toString())
                .text(
                        Column.text("fat class").of(Column.Type.FAT_CLASS),
                        difference -> difference.fatClass().toString())
                .number(Column.number("cold weight, kg").totalling(Total.NONE), TableComparison.Difference::weightKg)
                .frame();
    }

    String text() {
        StringBuilder text = new StringBuilder(title()).append("\n\n");
        if (!moved().isEmpty()) {
            text.append(table().toText());
        }
        text.append(equal());
        groups().forEach((heading, lines) -> {
            text.append('\n').append(heading).append('\n');
            lines.forEach(line -> text.append("  ").append(line).append('\n'));
        });
        text.append(nothingElse());
        comparison.notes().forEach(note -> text.append("Note: ").append(note).append('\n'));
        return text.toString();
    }

    String html() {
        StringBuilder html =
                new StringBuilder("<h2>").append(TextTable.escape(title())).append("</h2>\n");
        if (!moved().isEmpty()) {
            html.append(table().toHtml());
        }
        paragraph(html, equal());
        groups().forEach((heading, lines) -> {
            paragraph(html, heading);
            html.append("<ul>\n");
            lines.forEach(
                    line -> html.append("<li>").append(TextTable.escape(line)).append("</li>\n"));
            html.append("</ul>\n");
        });
        paragraph(html, nothingElse());
        comparison.notes().forEach(note -> paragraph(html, "Note: " + note));
        return html.toString();
    }

    private static void paragraph(StringBuilder html, String text) {
        if (!text.isEmpty()) {
            html.append("<p>").append(TextTable.escape(text.strip())).append("</p>\n");
        }
    }

    String line() {
        double largest = comparison.differences().stream()
                .mapToDouble(difference -> Math.abs(difference.differenceGPerKg()))
                .max()
                .orElse(0);
        int more = comparison.changes().size() + comparison.lost().size();
        return title() + ": largest difference " + Numbers.fixed(largest, DECIMALS) + " g/kg"
                + (more == 0 ? "" : ", " + more + (more == 1 ? " other change" : " other changes"));
    }

    private String title() {
        return "Table " + comparison.second().identity() + " against "
                + comparison.first().identity();
    }

    private List<TableComparison.Difference> moved() {
        return comparison.beyond(0);
    }

    private TextTable table() {
        TextTable table = new TextTable("cut", "level", "largest difference, g/kg", "where");
        for (TableComparison.Difference difference : moved()) {
            table.row(
                    difference.cut(),
                    difference.level(),
                    Numbers.signed(difference.differenceGPerKg(), DECIMALS),
                    difference.where());
        }
        return table;
    }

    /** What doesn't move, in one line. */
    private String equal() {
        int moved = moved().size();
        int equal = comparison.differences().size() - moved;
        if (equal == 0) {
            return "";
        }
        return (moved == 0 ? "All " + equal + " shares" : equal + (equal == 1 ? " other share" : " other shares"))
                + " of cuts at their levels: equal\n";
    }

    /** What else changed, with how many of each kind. */
    private Map<String, List<String>> groups() {
        Map<String, List<String>> groups = new LinkedHashMap<>();
        if (!comparison.lost().isEmpty()) {
            groups.put("What is lost: " + comparison.lost().size(), comparison.lost());
        }
        Map<TableChange.Kind, List<TableChange>> byKind = new EnumMap<>(TableChange.Kind.class);
        comparison
                .changes()
                .forEach(change -> byKind.computeIfAbsent(change.kind(), kind -> new ArrayList<>())
                        .add(change));
        byKind.forEach((kind, changes) -> {
            List<String> lines = new ArrayList<>();
            changes.stream()
                    .sorted((a, b) -> Double.compare(b.size(), a.size()))
                    .limit(SHOWN)
                    .forEach(change -> lines.add(change.words()));
            if (changes.size() > SHOWN) {
                lines.add("and " + (changes.size() - SHOWN) + " more");
            }
            groups.put(kind.heading() + ": " + changes.size() + (changes.size() == 1 ? " change" : " changes"), lines);
        });
        return groups;
    }

    private String nothingElse() {
        return comparison.changes().isEmpty() && comparison.lost().isEmpty()
                ? moved().isEmpty() ? "Nothing changed\n" : "Nothing else changed\n"
                : "";
    }
}
