package org.beefyield.data.killsheet;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.CarcassWeights;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.DressingCorrection;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.Problem;
import org.beefyield.data.file.CsvReader;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.killsheet.KillSheetFormat.Column;
import org.jspecify.annotations.Nullable;

/** One row of a kill sheet on its way from text to a carcass; gathers everything that is wrong with it. */
final class KillSheetRow {
    /** Least cold / hot of one carcass weighed twice (our limit, around the 0.98 of (EU) 2017/1182, Art. 14(3)). */
    private static final double LEAST_COLD_OF_HOT = 0.95;

    /** The sides may differ from the whole by this fraction of it (our limit). */
    private static final double SIDES_TOLERANCE = 0.02;

    private static final long HEAVIEST = Math.round(CarcassWeights.HEAVIEST_KG);
    private static final Pattern WHOLE_NUMBER = Pattern.compile("-?[0-9]{1,9}");
    private static final Pattern BLANKS = Pattern.compile("\\s+");

    /**
     * Where a sheet has its columns.
     *
     * @param header names of all columns
     * @param positions the columns with a meaning, position from 0
     * @param others the other columns, position from 0 to name, in the sheet's order
     */
    record Layout(List<String> header, Map<Column, Integer> positions, Map<Integer, String> others) {}

    private final String file;
    private final KillSheetFormat format;
    private final Layout layout;
    private final CsvReader.Row row;
    private final List<Problem> problems = new ArrayList<>();
    private final List<Problem> notes = new ArrayList<>();
    private final boolean condemned;

    KillSheetRow(String file, KillSheetFormat format, Layout layout, CsvReader.Row row) {
        this.file = file;
        this.format = format;
        this.layout = layout;
        this.row = row;
        this.condemned = either(Column.STATUS, "condemned", "passed").orElse(false);
    }

    long line() {
        return row.line();
    }

    /** What is wrong with the row, complete once {@link #entry()} or {@link #condemned()} was called. */
    List<Problem> problems() {
        return problems;
    }

    /** What is worth knowing about the row. */
    List<Problem> notes() {
        return notes;
    }

    boolean isCondemned() {
        return condemned;
    }

    /** The cell without blanks around it; empty if the sheet has no such column. */
    String text(Column column) {
        return rawText(column).strip();
    }

    void refuse(Column column, String message) {
        problems.add(new Problem(file, line(), format.name(column), rawText(column), message));
    }

    /** The row as a condemned carcass, or null if something is wrong with it. */
    KillSheet.@Nullable Condemned condemned() {
        String id = id();
        LocalDate killDate = parsed(Column.KILL_DATE, KillSheetRow::date);
        if (!problems.isEmpty()) {
            return null;
        }
        Map<String, String> cells = new LinkedHashMap<>();
        for (int position = 0; position < row.cells().size(); position++) {
            cells.put(layout.header().get(position), row.cells().get(position));
        }
        return new KillSheet.Condemned(
                line(),
                id,
                Optional.ofNullable(killDate),
                Optional.of(text(Column.LOT)).filter(lot -> !lot.isEmpty()),
                Optional.of(text(Column.SUPPLIER)).filter(supplier -> !supplier.isEmpty()),
                cells);
    }

    /** The row as a carcass that passed, or null if something is wrong with it. */
    @Nullable
    KillSheetEntry entry() {
        if (row.cells().stream().allMatch(String::isBlank)) {
            problems.add(new Problem(
                    file, line(), "", "", "every cell of the row is blank; a row needs a carcass, or has to go"));
            return null;
        }
        String id = id();
        Category category = category();
        Conformation conformation = conformation();
        FatClass fatClass = fatClass();
        Double hotKg = parsed(Column.HOT_WEIGHT_KG, text -> kg("hot weight", text));
        Double coldKg = parsed(Column.COLD_WEIGHT_KG, text -> kg("cold weight", text));
        checkWeights(hotKg, coldKg);
        Integer ageMonths = age(category);
        LocalDate killDate = parsed(Column.KILL_DATE, KillSheetRow::date);
        Optional<Boolean> assured = either(Column.ASSURED, "yes", "no");
        Set<DressingCorrection> dressing = dressing();
        Double leftKg = parsed(Column.LEFT_KG, text -> kg("left side", text));
        Double rightKg = parsed(Column.RIGHT_KG, text -> kg("right side", text));
        Double trimmedKg = parsed(Column.TRIMMED_KG, this::trimmedKg);
        Double dressedKg = coldKg != null ? coldKg : hotKg == null ? null : CarcassWeights.coldFromHot(hotKg);
        Carcass carcass = category == null || conformation == null || fatClass == null || dressedKg == null
                ? null
                : carcass(category, conformation, fatClass, dressedKg, dressing);
        if (carcass == null || dressedKg == null || !problems.isEmpty()) {
            return null;
        }
        noteSides(leftKg, rightKg, coldKg != null ? coldKg : hotKg);
        Map<String, String> others = new LinkedHashMap<>();
        layout.others().forEach((position, name) -> others.put(name, row.cells().get(position)));
        return new KillSheetEntry(
                line(),
                described(carcass, id, ageMonths, assured),
                Optional.ofNullable(killDate),
                dressedKg,
                optional(hotKg),
                dressing,
                optional(leftKg),
                optional(rightKg),
                optional(trimmedKg),
                others);
    }

    private String id() {
        String id = text(Column.CARCASS);
        if (id.isEmpty()) {
            refuse(Column.CARCASS, "no carcass id is given; every row needs one");
        }
        return id;
    }

    private @Nullable Category category() {
        if (text(Column.CATEGORY).isEmpty()) {
            refuse(Column.CATEGORY, "no category is given; every row needs one of C A B D E Z");
        }
        return parsed(Column.CATEGORY, Category::parse);
    }

    private @Nullable Conformation conformation() {
        if (!oneIsGiven("conformation", Column.CONFORMATION, Column.CONFORMATION_POINTS)) {
            return null;
        }
        Conformation grade =
                parsed(Column.CONFORMATION, text -> Conformation.parse(text, format.conformationReading()));
        return grade != null
                ? grade
                : parsed(
                        Column.CONFORMATION_POINTS,
                        text -> Conformation.ofPosition(
                                format.numberForm().parse(text), format.conformationPointsWidth()));
    }

    private @Nullable FatClass fatClass() {
        if (!oneIsGiven("fat class", Column.FAT_CLASS, Column.FAT_POINTS)) {
            return null;
        }
        FatClass grade = parsed(Column.FAT_CLASS, FatClass::parse);
        return grade != null
                ? grade
                : parsed(
                        Column.FAT_POINTS,
                        text -> FatClass.ofPosition(format.numberForm().parse(text), format.fatPointsWidth()));
    }

    private boolean oneIsGiven(String what, Column grade, Column points) {
        if (text(grade).isEmpty() && text(points).isEmpty()) {
            refuseMissing(what, grade, points);
            return false;
        }
        if (!text(grade).isEmpty() && !text(points).isEmpty()) {
            refuse(
                    grade,
                    format.name(grade) + " " + Excerpt.quote(text(grade)) + " and " + format.name(points) + " "
                            + Excerpt.quote(text(points)) + " are both given; a row has one of them");
            return false;
        }
        return true;
    }

    private void checkWeights(@Nullable Double hotKg, @Nullable Double coldKg) {
        if (text(Column.COLD_WEIGHT_KG).isEmpty() && text(Column.HOT_WEIGHT_KG).isEmpty()) {
            refuseMissing("weight", Column.COLD_WEIGHT_KG, Column.HOT_WEIGHT_KG);
        }
        if (hotKg == null || coldKg == null) {
            return;
        }
        String hot = "hot weight " + text(Column.HOT_WEIGHT_KG) + " kg";
        String cold = "cold weight " + text(Column.COLD_WEIGHT_KG) + " kg";
        if (hotKg < coldKg) {
            refuse(Column.HOT_WEIGHT_KG, hot + " is below " + cold + "; cold / hot must lie in 0.95 to 1");
        } else if (coldKg < LEAST_COLD_OF_HOT * hotKg) {
            refuse(Column.COLD_WEIGHT_KG, cold + " is less than 0.95 of " + hot + "; cold / hot must lie in 0.95 to 1");
        } else {
            note(Column.COLD_WEIGHT_KG, cold + " counts, " + hot + " is given too");
        }
    }

    private void refuseMissing(String what, Column one, Column other) {
        List<Column> present = new ArrayList<>(List.of(one, other));
        present.removeIf(column -> !layout.positions().containsKey(column));
        String names = format.name(present.get(0)) + (present.size() == 1 ? "" : " or " + format.name(other));
        refuse(present.get(0), "no " + what + " is given; every row needs " + names);
    }

    private @Nullable Integer age(@Nullable Category category) {
        return parsed(Column.AGE_MONTHS, text -> {
            int months = wholeNumber(text);
            if (category != null) {
                category.checkAge(months);
            }
            return months;
        });
    }

    private Set<DressingCorrection> dressing() {
        Set<DressingCorrection> dressing = EnumSet.noneOf(DressingCorrection.class);
        for (String code : BLANKS.split(text(Column.DRESSING), -1)) {
            if (code.isEmpty()) {
                continue;
            }
            try {
                if (!dressing.add(DressingCorrection.parse(code))) {
                    refuse(Column.DRESSING, "dressing " + Excerpt.quote(code) + " is given twice; once is enough");
                }
            } catch (IllegalArgumentException e) {
                refuse(Column.DRESSING, message(e));
            }
        }
        return dressing;
    }

    private @Nullable Carcass carcass(
            Category category,
            Conformation conformation,
            FatClass fatClass,
            double dressedKg,
            Set<DressingCorrection> dressing) {
        try {
            double referenceKg =
                    dressing.isEmpty() ? dressedKg : DressingCorrection.toReference(dressedKg, dressing, fatClass);
            return Carcass.of(category, conformation, fatClass, referenceKg);
        } catch (IllegalArgumentException e) {
            refuse(Column.DRESSING, "brought to the reference dressing, " + message(e));
            return null;
        }
    }

    private Carcass described(Carcass carcass, String id, @Nullable Integer ageMonths, Optional<Boolean> assured) {
        Carcass described = carcass.withId(id);
        if (!text(Column.LOT).isEmpty()) {
            described = described.withLot(text(Column.LOT));
        }
        if (!text(Column.SUPPLIER).isEmpty()) {
            described = described.withSupplier(text(Column.SUPPLIER));
        }
        if (ageMonths != null) {
            described = described.withAgeMonths(ageMonths);
        }
        return assured.isEmpty() ? described : described.withAssured(assured.get());
    }

    private void noteSides(@Nullable Double leftKg, @Nullable Double rightKg, @Nullable Double wholeKg) {
        if (leftKg == null || rightKg == null || wholeKg == null) {
            return;
        }
        if (Math.abs(leftKg + rightKg - wholeKg) > SIDES_TOLERANCE * wholeKg) {
            Column weight = text(Column.COLD_WEIGHT_KG).isEmpty() ? Column.HOT_WEIGHT_KG : Column.COLD_WEIGHT_KG;
            note(
                    Column.LEFT_KG,
                    "left side " + text(Column.LEFT_KG) + " kg and right side " + text(Column.RIGHT_KG)
                            + " kg together differ from the weight " + text(weight) + " kg by more than 2 %");
        }
    }

    private double kg(String what, String text) {
        return CarcassWeights.check(what, format.numberForm().parse(text));
    }

    private double trimmedKg(String text) {
        double kg = format.numberForm().parse(text);
        if (!(kg >= 0 && kg <= CarcassWeights.HEAVIEST_KG)) {
            throw new IllegalArgumentException("trimmed weight " + text + " kg is outside 0 to " + HEAVIEST + " kg");
        }
        return kg;
    }

    private static int wholeNumber(String text) {
        if (!WHOLE_NUMBER.matcher(text).matches()) {
            throw new IllegalArgumentException(Excerpt.quote(text) + " is not a whole number of months such as 21");
        }
        return Integer.parseInt(text);
    }

    private static LocalDate date(String text) {
        try {
            return isPlainDate(text)
                    ? LocalDate.of(
                            Integer.parseInt(text, 0, 4, 10),
                            Integer.parseInt(text, 5, 7, 10),
                            Integer.parseInt(text, 8, 10, 10))
                    : LocalDate.parse(text);
        } catch (DateTimeException e) {
            throw new IllegalArgumentException(
                    Excerpt.quote(text) + " is not a date such as 2026-11-03 (year-month-day)", e);
        }
    }

    /** Whether it is written as nearly all are, in which it is read much faster. */
    private static boolean isPlainDate(String text) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            boolean dash = i == 4 || i == 7;
            if (dash ? c != '-' : !(c >= '0' && c <= '9')) {
                return false;
            }
        }
        return text.length() == 10;
    }

    /** Whether the cell holds the first of two words; empty if it is blank or holds neither. */
    private Optional<Boolean> either(Column column, String yes, String no) {
        return Optional.ofNullable(parsed(column, text -> {
            String word = text.toLowerCase(Locale.ROOT);
            if (!word.equals(yes) && !word.equals(no)) {
                throw new IllegalArgumentException(Excerpt.quote(text) + " is neither " + yes + " nor " + no);
            }
            return word.equals(yes);
        }));
    }

    /** What a cell that isn't blank says; null if it is blank or says nothing valid, which is then a problem. */
    private <T> @Nullable T parsed(Column column, Function<String, T> parser) {
        String text = text(column);
        if (text.isEmpty()) {
            return null;
        }
        try {
            return parser.apply(text);
        } catch (IllegalArgumentException e) {
            refuse(column, message(e));
            return null;
        }
    }

    private void note(Column column, String message) {
        notes.add(new Problem(file, line(), format.name(column), rawText(column), message));
    }

    private String rawText(Column column) {
        Integer position = layout.positions().get(column);
        return position == null ? "" : row.cells().get(position);
    }

    private static String message(IllegalArgumentException e) {
        return String.valueOf(e.getMessage());
    }

    private static OptionalDouble optional(@Nullable Double value) {
        return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
    }
}
