package org.beefyield.data.killsheet;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
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
import org.beefyield.data.CsvForm;
import org.beefyield.data.Problem;
import org.beefyield.data.file.CsvHeader;
import org.beefyield.data.file.CsvReader;
import org.beefyield.data.file.DateCell;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.NumberForm;
import org.beefyield.data.killsheet.KillSheetFormat.Column;
import org.beefyield.report.TrimmedParts;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** One row of a kill sheet on its way from text to a carcass; gathers everything that is wrong with it. */
final class KillSheetRow {
    /** Least cold / hot of one carcass weighed twice (our limit, around the 0.98 of (EU) 2017/1182, Art. 14(3)). */
    private static final double LEAST_COLD_OF_HOT = 0.95;

    /** The sides may differ from the whole by this fraction of it (our limit). */
    private static final double SIDES_TOLERANCE = 0.02;

    /** Trimmed weights by region may be rounded to 0.1 kg. */
    private static final double TRIMMED_TOLERANCE_KG = 0.05;

    private static final int SHOWN = 80;
    private static final char REPLACEMENT = '\uFFFD';

    /** The first byte of a letter of two bytes in UTF-8, for letters of Europe, as windows-1252 has it. */
    private static final char FIRST_LEADING = 0xC2;

    private static final char LAST_LEADING = 0xC5;

    /** What windows-1252 has for the bytes 0x80 to 0x9F. */
    private static final String WINDOWS_ONLY =
            "\u20AC\u201A\u0192\u201E\u2026\u2020\u2021\u02C6\u2030\u0160\u2039\u0152\u017D\u2018\u2019\u201C\u201D\u2022"
                    + "\u2013\u2014\u02DC\u2122\u0161\u203A\u0153\u017E\u0178";

    private static final long HEAVIEST = Math.round(CarcassWeights.HEAVIEST_KG);
    private static final Pattern WHOLE_NUMBER = Pattern.compile("-?[0-9]{1,9}");
    private static final Pattern BLANKS = Pattern.compile("\\s+");

    /**
     * Where a sheet has its columns.
     *
     * @param header all columns
     * @param positions the columns with a meaning, position from 0
     * @param others the other columns, position from 0 to name, in the sheet's order
     */
    record Layout(CsvHeader header, Map<Column, Integer> positions, Map<Integer, String> others) {}

    private final String file;
    private final KillSheetFormat format;
    private final Layout layout;
    private final CsvReader.Row row;
    private final NumberForm numbers;
    private final List<Problem> problems = new ArrayList<>();
    private final List<Problem> notes = new ArrayList<>();
    private final boolean condemned;

    KillSheetRow(String file, KillSheetFormat format, Layout layout, CsvReader.Row row) {
        this.file = file;
        this.format = format;
        this.layout = layout;
        this.row = row;
        this.numbers = NumberForm.plain(format.form());
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

    /** What the sheet calls a column. */
    private String name(Column column) {
        return layout.header().name(column.ours());
    }

    /** The same for each way of writing one day; what is no date is as it stands there. */
    String day() {
        String text = text(Column.KILL_DATE);
        if (format.form().dates() == CsvForm.DateForm.ISO || text.isEmpty()) {
            return text;
        }
        try {
            return date(text).toString();
        } catch (IllegalArgumentException e) {
            return text;
        }
    }

    /** The number in a cell, NaN if it holds none. */
    double number(Column column) {
        try {
            return number(text(column));
        } catch (IllegalArgumentException e) {
            return Double.NaN;
        }
    }

    private double number(String text) {
        return numbers.parse(text, format.form().units());
    }

    void refuse(Column column, String message) {
        problems.add(new Problem(file, line(), name(column), rawText(column), message));
    }

    /** The row as a condemned carcass, or null if something is wrong with it. */
    KillSheet.@Nullable Condemned condemned() {
        String id = id();
        LocalDate killDate = parsed(Column.KILL_DATE, this::date);
        if (!problems.isEmpty()) {
            return null;
        }
        Map<String, String> cells = new LinkedHashMap<>();
        for (int position = 0; position < row.cells().size(); position++) {
            cells.put(layout.header().names().get(position), row.cells().get(position));
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
        LocalDate killDate = parsed(Column.KILL_DATE, this::date);
        Optional<Boolean> assured =
                either(Column.ASSURED, format.form().yes(), format.form().no());
        Set<DressingCorrection> dressing = dressing();
        Double leftKg = parsed(Column.LEFT_KG, text -> kg("left side", text));
        Double rightKg = parsed(Column.RIGHT_KG, text -> kg("right side", text));
        Double trimmedKg = parsed(Column.TRIMMED_KG, this::trimmedKg);
        Map<TrimmedParts.Region, Double> trimmedByRegion = trimmedByRegion(trimmedKg);
        Double dressedKg = coldKg != null ? coldKg : hotKg == null ? null : CarcassWeights.coldFromHot(hotKg);
        Carcass carcass = category == null || conformation == null || fatClass == null || dressedKg == null
                ? null
                : carcass(category, conformation, fatClass, dressedKg, dressing);
        if (carcass == null || dressedKg == null || !problems.isEmpty()) {
            return null;
        }
        noteSides(leftKg, rightKg, coldKg != null ? coldKg : hotKg);
        noteOtherCharset();
        Map<String, String> others = new LinkedHashMap<>();
        layout.others().forEach((position, name) -> others.put(name, row.cells().get(position)));
        return new KillSheetEntry(
                line(),
                described(carcass, id, killDate, ageMonths, assured),
                Optional.ofNullable(killDate),
                dressedKg,
                optional(hotKg),
                dressing,
                optional(leftKg),
                optional(rightKg),
                optional(trimmedKg),
                trimmedByRegion,
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
                        text -> Conformation.ofPosition(number(text), format.conformationPointsWidth()));
    }

    private @Nullable FatClass fatClass() {
        if (!oneIsGiven("fat class", Column.FAT_CLASS, Column.FAT_POINTS)) {
            return null;
        }
        FatClass grade = parsed(Column.FAT_CLASS, FatClass::parse);
        return grade != null
                ? grade
                : parsed(Column.FAT_POINTS, text -> FatClass.ofPosition(number(text), format.fatPointsWidth()));
    }

    private boolean oneIsGiven(String what, Column grade, Column points) {
        if (text(grade).isEmpty() && text(points).isEmpty()) {
            refuseMissing(what, grade, points);
            return false;
        }
        if (!text(grade).isEmpty() && !text(points).isEmpty()) {
            refuse(
                    grade,
                    name(grade) + " " + Excerpt.quote(text(grade)) + " and " + name(points) + " "
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
        String hot = "hot weight " + shown(Column.HOT_WEIGHT_KG) + " kg";
        String cold = "cold weight " + shown(Column.COLD_WEIGHT_KG) + " kg";
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
        String names = name(present.get(0)) + (present.size() == 1 ? "" : " or " + name(other));
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

    private Carcass described(
            Carcass carcass,
            String id,
            @Nullable LocalDate killDate,
            @Nullable Integer ageMonths,
            Optional<Boolean> assured) {
        Carcass described = carcass.withId(id);
        if (!text(Column.LOT).isEmpty()) {
            described = described.withLot(text(Column.LOT));
        }
        if (!text(Column.SUPPLIER).isEmpty()) {
            described = described.withSupplier(text(Column.SUPPLIER));
        }
        if (killDate != null) {
            described = described.withKillDate(killDate.toString());
        }
        if (!text(Column.HALL).isEmpty()) {
            described = described.withHall(text(Column.HALL));
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
                    "left side " + shown(Column.LEFT_KG) + " kg and right side " + shown(Column.RIGHT_KG)
                            + " kg together differ from the weight " + shown(weight) + " kg by more than 2 %");
        }
        noteApart(
                Column.LEFT_KG,
                "left side " + shown(Column.LEFT_KG) + " kg and right side " + shown(Column.RIGHT_KG) + " kg",
                leftKg,
                rightKg);
    }

    /** Notes sides that are further apart than declared. */
    void noteApart(Column column, String what, double oneKg, double otherKg) {
        if (Math.abs(oneKg - otherKg) > format.sidesApart() * (oneKg + otherKg)) {
            note(
                    column,
                    what + " differ by more than " + Numbers.upTo(100 * format.sidesApart(), 2) + " % of the carcass");
        }
    }

    /** A weight as it stands there, without a unit. */
    String shown(Column column) {
        return NumberForm.plain(format.form())
                .withoutUnit(text(column), format.form().units());
    }

    private double kg(String what, String text) {
        return CarcassWeights.check(what, number(text));
    }

    private Map<TrimmedParts.Region, Double> trimmedByRegion(@Nullable Double all) {
        Map<TrimmedParts.Region, Double> byRegion = new EnumMap<>(TrimmedParts.Region.class);
        boolean given = false;
        double sum = 0;
        for (TrimmedParts.Region region : TrimmedParts.Region.values()) {
            Double kg = parsed(Column.valueOf("TRIMMED_" + region.name() + "_KG"), this::trimmedKg);
            if (kg != null) {
                given = true;
                sum += kg;
                if (kg > 0) {
                    byRegion.put(region, kg);
                }
            }
        }
        if (given && all != null && Math.abs(all - sum) > TRIMMED_TOLERANCE_KG) {
            refuse(
                    Column.TRIMMED_KG,
                    "trimmed weight " + Numbers.brief(all) + " kg is not the " + Numbers.brief(sum)
                            + " kg that its regions add up to; give one of them, or both alike");
        }
        return byRegion;
    }

    private double trimmedKg(String text) {
        double kg = number(text);
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

    private LocalDate date(String text) {
        return DateCell.parse(text, format.form().dates());
    }

    /** Whether the cell holds the first of two words; empty if it is blank or holds neither. */
    private Optional<Boolean> either(Column column, String yes, String no) {
        return Optional.ofNullable(parsed(column, text -> {
            if (!text.equalsIgnoreCase(yes) && !text.equalsIgnoreCase(no)) {
                throw new IllegalArgumentException(Excerpt.quote(text) + " is neither " + yes + " nor " + no);
            }
            return text.equalsIgnoreCase(yes);
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

    /** Notes something about the carcass. */
    void note(Column column, String message) {
        notes.add(new Problem(file, line(), name(column), rawText(column), ofCarcass() + message));
    }

    /** Notes something about a row of totals. */
    void noteTotal(Column column, String message) {
        notes.add(new Problem(file, line(), name(column), rawText(column), message));
    }

    /** Takes over what was noted of the row of the other side. */
    void addNotes(KillSheetRow other) {
        notes.addAll(other.notes);
    }

    private String ofCarcass() {
        return "carcass " + Excerpt.clip(text(Column.CARCASS), SHOWN) + ": ";
    }

    private void noteOtherCharset() {
        for (int i = 0; i < row.cells().size(); i++) {
            String cell = row.cells().get(i);
            if (isOfOtherCharset(cell)) {
                notes.add(new Problem(
                        file,
                        line(),
                        layout.header().names().get(i),
                        cell,
                        ofCarcass() + Excerpt.quote(cell) + " looks like text in another character set than "
                                + format.form().charset()
                                + "; declare the one of the file, or mend it where it was saved"));
            }
        }
    }

    /**
     * Whether a text holds a replacement character, or what two or more bytes of a UTF-8 letter become in windows-1252 and its
     * like.
     */
    private static boolean isOfOtherCharset(String text) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == REPLACEMENT) {
                return true;
            }
            boolean leads = c >= FIRST_LEADING && c <= LAST_LEADING;
            if (leads && i + 1 < text.length() && isContinuation(text.charAt(i + 1))) {
                return true;
            }
        }
        return false;
    }

    /** A byte from 0x80 to 0xBF as ISO-8859-1 or windows-1252 has it. */
    private static boolean isContinuation(char c) {
        return (c >= 0x80 && c <= 0xBF) || WINDOWS_ONLY.indexOf(c) >= 0;
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
