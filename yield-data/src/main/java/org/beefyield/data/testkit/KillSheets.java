package org.beefyield.data.testkit;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.GradeReading;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.TableRange;
import org.beefyield.text.Numbers;

/** Random kill sheets in the standard format, every row of which can be used. */
public final class KillSheets {
    private static final int MOST_ROWS = 40;
    private static final double COLD_OF_HOT = 0.98;

    private KillSheets() {}

    /**
     * Kill sheets as CSV text in
     * {@linkplain org.beefyield.data.killsheet.KillSheetFormat#standard() the standard format}: 1 to 40
     * rows, all valid and all inside the table's allowed range. They differ in their columns and the order of these, in
     * how grades and weights are given, in line ends and in whether there is a byte order mark.
     *
     * @param table the table
     * @return the text of a file
     */
    public static Arbitrary<String> of(YieldTable table) {
        return within(table.definition().allowed(), table.definition().categories());
    }

    /**
     * Kill sheets as {@link #of(YieldTable)} has them, for a range and categories.
     *
     * @param range grades as positions of their scales, and cold weights in kg, above 0 and at most 1200
     * @param categories one category or more
     * @return the text of a file
     */
    public static Arbitrary<String> within(TableRange range, List<Category> categories) {
        Arbitrary<Row> rows = Combinators.combine(
                        Arbitraries.of(categories),
                        Carcasses.conformations(range.conformation(), GradeReading.THIRDS)
                                .map(grade -> new Grade(grade.toString(), grade.position())),
                        Carcasses.fatClasses(range.fat()).map(grade -> new Grade(grade.toString(), grade.position())),
                        Carcasses.numbers(range.weightKg(), 10),
                        Arbitraries.integers().between(0, 5))
                .as((category, conformation, fat, weight, group) ->
                        new Row(category, conformation, fat, hotFor(weight, range.weightKg()), weight, group));
        return Combinators.combine(
                        rows.list().ofMinSize(1).ofMaxSize(MOST_ROWS),
                        Arbitraries.of(Optional.values()).set(),
                        Arbitraries.shuffle(Column.values()),
                        Arbitraries.of("\n", "\r\n"),
                        Arbitraries.of("", "\uFEFF"))
                .as((sheet, options, order, lineEnd, mark) -> mark + text(sheet, options, order, lineEnd));
    }

    /** A grade as a sheet gives it: its text, or its position where that is all there is. */
    private record Grade(String text, double position) {
        boolean machine() {
            return text.endsWith("p");
        }
    }

    private record Row(Category category, Grade conformation, Grade fat, double hotKg, double coldKg, int group) {}

    /** What a sheet may have beyond what it needs. */
    private enum Optional {
        HOT_WEIGHTS,
        AGES,
        LOTS,
        SUPPLIERS,
        DATES,
        ASSURANCE,
        SIDES,
        STATUS,
        REMARKS
    }

    private enum Column {
        CARCASS,
        CATEGORY,
        CONFORMATION,
        CONFORMATION_POINTS,
        FAT_CLASS,
        FAT_POINTS,
        WEIGHT,
        AGE_MONTHS,
        LOT,
        SUPPLIER,
        KILL_DATE,
        ASSURED,
        LEFT_KG,
        RIGHT_KG,
        STATUS,
        REMARK
    }

    /** The hot weight, to a tenth of a kg, whose cold weight lies in the range; 0 if there is none. */
    private static double hotFor(double coldKg, Range weights) {
        double hot = Math.rint(coldKg / COLD_OF_HOT * 10) / 10;
        return weights.contains(hot * 98 / 100) && hot <= 1200 ? hot : 0;
    }

    private static String text(List<Row> rows, Set<Optional> options, List<Column> order, String lineEnd) {
        boolean hot = options.contains(Optional.HOT_WEIGHTS) && rows.stream().allMatch(row -> row.hotKg() > 0);
        List<Column> columns =
                order.stream().filter(column -> used(column, rows, options)).toList();
        StringBuilder text = new StringBuilder();
        Set<String> header = new LinkedHashSet<>();
        columns.forEach(column -> header.add(
                column == Column.WEIGHT
                        ? hot ? "hot_weight_kg" : "cold_weight_kg"
                        : column.name().toLowerCase(Locale.ROOT)));
        text.append(String.join(",", header)).append(lineEnd);
        for (int i = 0; i < rows.size(); i++) {
            List<String> cells = new ArrayList<>();
            for (Column column : columns) {
                cells.add(cell(column, rows.get(i), i, hot));
            }
            text.append(String.join(",", cells)).append(lineEnd);
        }
        return text.toString();
    }

    private static boolean used(Column column, List<Row> rows, Set<Optional> options) {
        return switch (column) {
            case CARCASS, CATEGORY, WEIGHT -> true;
            // a sheet has the one column or both, each row fills one
            case CONFORMATION ->
                rows.stream().anyMatch(row -> !row.conformation().machine());
            case CONFORMATION_POINTS ->
                rows.stream().anyMatch(row -> row.conformation().machine());
            case FAT_CLASS -> rows.stream().anyMatch(row -> !row.fat().machine());
            case FAT_POINTS -> rows.stream().anyMatch(row -> row.fat().machine());
            case AGE_MONTHS -> options.contains(Optional.AGES);
            case LOT -> options.contains(Optional.LOTS);
            case SUPPLIER -> options.contains(Optional.SUPPLIERS);
            case KILL_DATE -> options.contains(Optional.DATES);
            case ASSURED -> options.contains(Optional.ASSURANCE);
            case LEFT_KG, RIGHT_KG -> options.contains(Optional.SIDES);
            case STATUS -> options.contains(Optional.STATUS);
            case REMARK -> options.contains(Optional.REMARKS);
        };
    }

    private static String cell(Column column, Row row, int index, boolean hot) {
        return switch (column) {
            case CARCASS -> "K" + (1000 + index);
            case CATEGORY -> row.category().letter();
            case CONFORMATION ->
                row.conformation().machine() ? "" : row.conformation().text();
            case CONFORMATION_POINTS ->
                row.conformation().machine() ? Numbers.exact(row.conformation().position()) : "";
            case FAT_CLASS -> row.fat().machine() ? "" : row.fat().text();
            case FAT_POINTS -> row.fat().machine() ? Numbers.exact(row.fat().position()) : "";
            case WEIGHT -> Numbers.exact(hot ? row.hotKg() : row.coldKg());
            case AGE_MONTHS -> row.group() == 0 ? "" : Integer.toString(age(row.category()));
            case LOT -> row.group() == 0 ? "" : "lot " + row.group();
            case SUPPLIER -> row.group() == 0 ? "" : "\"Farm " + row.group() + ", \"\"upper\"\" yard\"";
            case KILL_DATE -> LocalDate.of(2026, 11, 1).plusDays(row.group()).toString();
            case ASSURED -> row.group() == 0 ? "" : row.group() % 2 == 0 ? "yes" : "no";
            case LEFT_KG, RIGHT_KG -> Numbers.exact((hot ? row.hotKg() : row.coldKg()) / 2);
            case STATUS -> row.group() % 2 == 0 ? "" : "passed";
            case REMARK -> row.group() == 0 ? "" : "seen by hand " + index;
        };
    }

    /** An age that the law puts in this category. */
    private static int age(Category category) {
        return switch (category) {
            case CALF -> 10;
            case YOUNG_BULL -> 18;
            default -> 30;
        };
    }
}
