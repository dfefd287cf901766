package org.beefyield.data.boning;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.cut.CutCatalogue;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.BreakdownRow;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/**
 * Reads how a file of boning trials is laid out: a CSV file with the columns {@code column}, {@code holds}, {@code quarter},
 * {@code code}, {@code stands_for}, {@code factor}. It has a row for each column of the trials, where {@code column} is the
 * name of that column and {@code holds} one of
 *
 * <ul>
 *   <li>{@code carcass}: id of the carcass; required
 *   <li>{@code category}, and {@code conformation} or {@code conformation_points}, and {@code fat_class} or
 *       {@code fat_points}: as letters and classes, or as positions on the scales, 1 to 18 and 1 to 15; required
 *   <li>{@code cold_weight_kg}: cold weight of the carcass, both sides; {@code side_weight_kg}: that of the side that the row
 *       is; {@code cutting_weight_kg}: what went to the knife, of the quarter in {@code quarter} or, where that is blank, of
 *       all that the row is. One of the three is required, and without the first two the carcass weighs what went to the
 *       knife
 *   <li>{@code side}: which side the row is, any two names; {@code quarter}: which quarter the row is; {@code day}: day of
 *       boning
 *   <li>the code of a cut of the table, the name of a group, or a cut with its parent before it, as
 *       {@code striploin/lean-trim}: weight of that, of the quarter in {@code quarter}. Columns that hold the same add up
 *   <li>{@code ignored}: nothing that counts here. A column that the layout doesn't have is an error
 * </ul>
 *
 * <p>A weight may have a {@code factor} that makes kg of it, such as 0.001 for g. Where the cells of a category, a grade or a
 * quarter are codes, the column has a row for each, with the {@code code} and what it {@code stands_for}; {@code leave-out}
 * leaves those carcasses out.
 *
 * <p>Rows with a blank {@code column} say something of the whole file: {@code holds} is what, {@code stands_for} the value,
 * the first of these if there is no row.
 *
 * <ul>
 *   <li>{@code rows}: {@code carcass}, {@code side} or {@code quarter}, what a row is. Rows of one id are put together
 *   <li>{@code one-side}: {@code refused} or {@code doubled}, what becomes of a carcass of which there is one side: a lost row
 *       must not pass for a carcass boned on one side, so that it takes a word to double it
 *   <li>{@code blank}: {@code not-weighed}, or {@code 0}, a blank weight being 0 where anything else of the same row and quarter
 *       isn't blank
 *   <li>{@code missing}: a word that stands for a blank weight, such as {@code NA}
 *   <li>{@code shares-of}: {@code cutting}, all weights are scaled so that what went to the knife is the cold weight, which drip
 *       and trimming in the chiller set apart; or {@code carcass}, weights stay and what is missing counts as loss
 *   <li>{@code names}: {@code as-written} or {@code as-in-r}, where {@code column} has the names that R gives to those of the
 *       file, such as {@code X12.rib} for {@code 12-rib}
 *   <li>{@code group}: cuts that were weighed together, its name in {@code code} and its cuts in {@code stands_for}, as
 *       {@code topside+silverside}; any number of rows
 * </ul>
 */
public final class TrialLayoutReader {
    private static final String COLUMN = "column";
    private static final String HOLDS = "holds";
    private static final String QUARTER = "quarter";
    private static final String CODE = "code";
    private static final String STANDS_FOR = "stands_for";
    private static final String FACTOR = "factor";
    private static final List<String> COLUMNS = List.of(COLUMN, HOLDS, QUARTER, CODE, STANDS_FOR, FACTOR);

    private static final String ROWS = "rows";
    private static final String ONE_SIDE = "one-side";
    private static final String BLANK = "blank";
    private static final String SHARES_OF = "shares-of";
    private static final String NAMES = "names";
    private static final String MISSING = "missing";
    private static final String GROUP = "group";
    private static final Map<String, List<String>> SETTINGS = settings();

    /** What codes may stand for, by what holds them. */
    private static final Map<String, Function<String, Object>> CODED = Map.of(
            TrialLayout.CATEGORY, Category::parse,
            TrialLayout.CONFORMATION, Conformation::parse,
            TrialLayout.FAT_CLASS, FatClass::parse,
            TrialLayout.QUARTER, text -> text);

    private static final Pattern PLUS = Pattern.compile("\\+");

    private final String file;
    private final CutCatalogue catalogue;
    private final List<Problem> problems = new ArrayList<>();
    private final Map<String, String> settings = new HashMap<>();
    private final Map<String, TrialLayout.Column> columns = new LinkedHashMap<>();
    private final Map<String, Map<String, String>> codes = new HashMap<>();
    private final Map<String, List<String>> groups = new LinkedHashMap<>();

    private TrialLayoutReader(String file, CutCatalogue catalogue) {
        this.file = file;
        this.catalogue = catalogue;
    }

    private static Map<String, List<String>> settings() {
        Map<String, List<String>> settings = new LinkedHashMap<>();
        settings.put(ROWS, List.of("carcass", "side", "quarter"));
        settings.put(ONE_SIDE, List.of("refused", "doubled"));
        settings.put(BLANK, List.of("not-weighed", "0"));
        settings.put(SHARES_OF, List.of("cutting", "carcass"));
        settings.put(MISSING, List.of(""));
        settings.put(NAMES, List.of("as-written", "as-in-r"));
        return settings;
    }

    /**
     * Reads a layout from a file of the standard form.
     *
     * @param file the file
     * @param table the table whose cuts its columns hold
     * @return the layout
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found
     */
    public static TrialLayout read(Path file, YieldTable table) {
        return read(Source.of(file), CsvForm.standard(), table);
    }

    /**
     * Reads a layout.
     *
     * @param source the file
     * @param form how it is written
     * @param table the table whose cuts its columns hold
     * @return the layout
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found
     */
    public static TrialLayout read(Source source, CsvForm form, YieldTable table) {
        List<CsvRow> rows = SmallCsv.read(source, form, COLUMNS, TrialLayoutReader::withFactor);
        return new TrialLayoutReader(source.name(), table.catalogue()).layout(rows);
    }

    private static @Nullable CsvRow withFactor(CsvRow row) {
        Double factor = row.optionalNumber(FACTOR);
        if (factor != null && factor <= 0) {
            row.refuse(FACTOR, "factor " + Numbers.exact(factor) + " is not above 0");
        }
        return row.isBad() ? null : row;
    }

    private TrialLayout layout(List<CsvRow> rows) {
        rows.stream().filter(row -> row.text(COLUMN).isEmpty()).forEach(this::setting);
        boolean ofQuarters = chosen(ROWS).equals("quarter");
        rows.stream().filter(row -> !row.text(COLUMN).isEmpty()).forEach(row -> column(row, ofQuarters));
        rows.stream().filter(row -> !row.text(QUARTER).isEmpty()).forEach(this::checkQuarter);
        checkWhole();
        if (!problems.isEmpty()) {
            throw new InvalidDataException(problems);
        }
        Map<String, TrialLayout.Column> all = new LinkedHashMap<>();
        columns.forEach((name, column) -> all.put(
                name,
                new TrialLayout.Column(
                        name,
                        column.line(),
                        column.holds(),
                        column.quarter(),
                        column.factor(),
                        codes.getOrDefault(name, Map.of()))));
        return new TrialLayout(
                file,
                new TrialLayout.Settings(
                        TrialLayout.Rows.valueOf(chosen(ROWS).toUpperCase(Locale.ROOT)),
                        chosen(ONE_SIDE).equals("doubled"),
                        chosen(BLANK).equals("0"),
                        chosen(MISSING),
                        chosen(SHARES_OF).equals("cutting"),
                        chosen(NAMES).equals("as-in-r")),
                all,
                groups);
    }

    private String chosen(String setting) {
        String first = SETTINGS.getOrDefault(setting, List.of("")).get(0);
        return settings.getOrDefault(setting, first);
    }

    private void refuse(CsvRow row, String column, String message) {
        problems.add(row.problem(column, message));
    }

    private void refuseFilled(CsvRow row, String why, String... cells) {
        for (String cell : cells) {
            if (!row.text(cell).isEmpty()) {
                refuse(row, cell, why);
            }
        }
    }

    private void setting(CsvRow row) {
        String holds = row.text(HOLDS);
        String value = row.text(STANDS_FOR);
        List<String> valid = SETTINGS.get(holds);
        refuseFilled(row, "stays blank where " + row.name(COLUMN) + " is blank", QUARTER, FACTOR);
        if (holds.equals(GROUP)) {
            group(row);
        } else if (valid == null) {
            refuse(
                    row,
                    HOLDS,
                    "\"" + holds + "\" of a row without a column is none of " + String.join(" ", SETTINGS.keySet())
                            + " " + GROUP);
        } else if (holds.equals(MISSING) ? value.isEmpty() : !valid.contains(value)) {
            refuse(
                    row,
                    STANDS_FOR,
                    holds.equals(MISSING)
                            ? "missing is a word such as NA"
                            : holds + " \"" + value + "\" is none of " + String.join(" ", valid));
        } else if (settings.putIfAbsent(holds, value) != null) {
            refuse(row, HOLDS, holds + " is declared above already");
        } else {
            refuseFilled(row, "stays blank where " + row.name(HOLDS) + " is " + holds, CODE);
        }
    }

    private void group(CsvRow row) {
        String name = row.text(CODE);
        List<String> cuts = PLUS.splitAsStream(row.text(STANDS_FOR)).toList();
        if (name.isEmpty() || catalogue.find(name).isPresent() || groups.containsKey(name)) {
            refuse(
                    row,
                    CODE,
                    name.isEmpty()
                            ? "every group has a name"
                            : groups.containsKey(name)
                                    ? "group " + name + " is declared above already"
                                    : "group " + name + " has the name of a cut; it has one of its own");
            return;
        }
        if (cuts.size() < 2) {
            refuse(row, STANDS_FOR, "group " + name + " has two cuts or more, such as topside+silverside");
        }
        for (String cut : cuts) {
            if (catalogue.find(cut).isEmpty()) {
                refuse(row, STANDS_FOR, catalogue.unknown(cut));
            } else if (groups.values().stream().anyMatch(other -> other.contains(cut))) {
                refuse(row, STANDS_FOR, cut + " is in another group too; a cut is in one at most");
            }
        }
        groups.put(name, cuts);
    }

    private void column(CsvRow row, boolean ofQuarters) {
        String name = row.text(COLUMN);
        String holds = row.text(HOLDS);
        String quarter = row.text(QUARTER);
        boolean isWeight = holds.equals(TrialLayout.COLD_WEIGHT_KG) || TrialLayout.ADDED.contains(holds);
        boolean isKnown = isWeight || TrialLayout.SINGLE.contains(holds) || holds.equals(TrialLayout.IGNORED);
        String wrong = isKnown ? null : wrong(holds);
        if (wrong != null) {
            refuse(row, HOLDS, wrong);
            return;
        }
        if (isKnown && !isWeight) {
            refuseFilled(row, holds + " is no weight, and has no factor", FACTOR);
        }
        if (isKnown && !holds.equals(TrialLayout.CUTTING_WEIGHT_KG)) {
            refuseFilled(
                    row, holds + " is not of a quarter; cuts and " + TrialLayout.CUTTING_WEIGHT_KG + " are", QUARTER);
        } else if (ofQuarters) {
            refuseFilled(row, "a row is a quarter as it is; another column holds which", QUARTER);
        }
        code(row, name, holds);
        TrialLayout.Column before = columns.get(name);
        boolean oneMoreCode = before != null
                && before.holds().equals(holds)
                && before.quarter().equals(quarter)
                && !row.text(CODE).isEmpty();
        if (before != null && !oneMoreCode) {
            refuse(row, COLUMN, "the column stands in line " + before.line() + " already");
        }
        if (before == null && TrialLayout.SINGLE.contains(holds)) {
            columns.values().stream()
                    .filter(other -> other.holds().equals(holds))
                    .forEach(other -> refuse(
                            row, HOLDS, "column " + other.name() + " in line " + other.line() + " holds that already"));
        }
        Double factor = row.optionalNumber(FACTOR);
        columns.putIfAbsent(
                name, new TrialLayout.Column(name, row.line(), holds, quarter, factor == null ? 1 : factor, Map.of()));
    }

    private void code(CsvRow row, String column, String holds) {
        String code = row.text(CODE);
        String meaning = row.text(STANDS_FOR);
        Function<String, Object> parser = CODED.get(holds);
        if (parser == null) {
            refuseFilled(
                    row,
                    holds + " has no codes; "
                            + String.join(", ", CODED.keySet().stream().sorted().toList()) + " may",
                    CODE,
                    STANDS_FOR);
            return;
        }
        if (code.isEmpty()) {
            refuseFilled(row, "stands for nothing without a code", STANDS_FOR);
            return;
        }
        if (meaning.isEmpty()) {
            refuse(row, STANDS_FOR, "code " + code + " stands for something, or for " + TrialLayout.LEAVE_OUT);
        } else if (!meaning.equals(TrialLayout.LEAVE_OUT)) {
            try {
                Objects.requireNonNull(parser.apply(meaning));
            } catch (IllegalArgumentException e) {
                refuse(row, STANDS_FOR, e.getMessage() + "; or " + TrialLayout.LEAVE_OUT);
            }
        }
        if (codes.computeIfAbsent(column, any -> new LinkedHashMap<>()).putIfAbsent(code, meaning) != null) {
            refuse(row, CODE, "code " + code + " of the column is declared above already");
        }
    }

    private @Nullable String wrong(String holds) {
        int slash = holds.indexOf('/');
        String parent = slash < 0 ? BreakdownRow.ROOT : holds.substring(0, slash);
        String cut = holds.substring(slash + 1);
        if (!parent.equals(BreakdownRow.ROOT) && catalogue.find(parent).isEmpty()) {
            return catalogue.unknown(parent);
        }
        if (groups.containsKey(cut) || catalogue.find(cut).isPresent()) {
            return null;
        }
        return catalogue.unknown(cut)
                + (groups.isEmpty() ? "" : "; groups: " + String.join(", ", groups.keySet()))
                + "; else one of " + String.join(" ", TrialLayout.SINGLE) + " " + String.join(" ", TrialLayout.ADDED)
                + " "
                + TrialLayout.IGNORED;
    }

    private boolean holds(String what) {
        return columns.values().stream().anyMatch(column -> column.holds().equals(what));
    }

    private void checkQuarter(CsvRow row) {
        String quarter = row.text(QUARTER);
        boolean weighed = columns.values().stream()
                .anyMatch(column -> column.holds().equals(TrialLayout.CUTTING_WEIGHT_KG)
                        && column.quarter().equals(quarter));
        if (!weighed && !row.text(COLUMN).isEmpty() && !chosen(ROWS).equals("quarter")) {
            refuse(
                    row,
                    QUARTER,
                    "no column holds " + TrialLayout.CUTTING_WEIGHT_KG + " of quarter " + quarter
                            + "; one does, or the cuts are of no quarter");
        }
    }

    private void missing(String message) {
        problems.add(new Problem(file, 0, "", "", message));
    }

    private void checkWhole() {
        for (List<String> either : List.of(
                List.of(TrialLayout.CARCASS),
                List.of(TrialLayout.CATEGORY),
                List.of(TrialLayout.CONFORMATION, TrialLayout.CONFORMATION_POINTS),
                List.of(TrialLayout.FAT_CLASS, TrialLayout.FAT_POINTS),
                List.of(TrialLayout.COLD_WEIGHT_KG, TrialLayout.SIDE_WEIGHT_KG, TrialLayout.CUTTING_WEIGHT_KG))) {
            if (either.stream().noneMatch(this::holds)) {
                missing("no column holds " + String.join(" or ", either) + "; one does");
            }
        }
        for (List<String> both : List.of(
                List.of(TrialLayout.CONFORMATION, TrialLayout.CONFORMATION_POINTS),
                List.of(TrialLayout.FAT_CLASS, TrialLayout.FAT_POINTS),
                List.of(TrialLayout.COLD_WEIGHT_KG, TrialLayout.SIDE_WEIGHT_KG))) {
            if (both.stream().allMatch(this::holds)) {
                missing("columns hold " + String.join(" and ", both) + "; one of the two is enough, the other is "
                        + TrialLayout.IGNORED);
            }
        }
        String rows = chosen(ROWS);
        if (rows.equals("quarter")) {
            String coded = columns.values().stream()
                    .filter(column -> column.holds().equals(TrialLayout.QUARTER))
                    .map(TrialLayout.Column::name)
                    .findFirst()
                    .orElse("");
            if (codes.getOrDefault(coded, Map.of()).isEmpty()) {
                missing("a row is a quarter: one column holds quarter, with a row for each code that stands there");
            }
        } else if (holds(TrialLayout.QUARTER)) {
            missing("a column holds quarter, but a row is a " + rows + "; declare rows quarter, or the column as "
                    + TrialLayout.IGNORED);
        }
        if (rows.equals("carcass")) {
            for (String ofSides : List.of(TrialLayout.SIDE, TrialLayout.SIDE_WEIGHT_KG)) {
                if (holds(ofSides)) {
                    missing("a column holds " + ofSides + ", but a row is a carcass; declare rows side, or "
                            + (ofSides.equals(TrialLayout.SIDE)
                                    ? "the column as " + TrialLayout.IGNORED
                                    : TrialLayout.COLD_WEIGHT_KG + " with factor 2"));
                }
            }
        } else if (rows.equals("quarter") && holds(TrialLayout.SIDE_WEIGHT_KG)) {
            missing("a column holds " + TrialLayout.SIDE_WEIGHT_KG
                    + ", but a row is a quarter; the cold weight of a quarter is " + TrialLayout.CUTTING_WEIGHT_KG);
        }
        Set<String> cutting = new LinkedHashSet<>();
        columns.values().stream()
                .filter(column -> column.holds().equals(TrialLayout.CUTTING_WEIGHT_KG))
                .forEach(column -> cutting.add(column.quarter()));
        if (cutting.size() > 1 && cutting.contains("")) {
            missing(TrialLayout.CUTTING_WEIGHT_KG
                    + " is of quarters in some columns and of none in others; it is of every" + " quarter or of none");
        }
        boolean anyCut = columns.values().stream().anyMatch(TrialLayout.Column::isCut);
        if (!anyCut) {
            missing("no column holds a cut; one does, such as bone");
        }
    }
}
