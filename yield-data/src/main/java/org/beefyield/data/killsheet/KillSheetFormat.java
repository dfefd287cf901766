package org.beefyield.data.killsheet;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.carcass.GradeReading;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.NumberForm;

/**
 * The file format of a kill sheet, and what a caller declares about his own.
 *
 * <p>A kill sheet is CSV (RFC 4180): a header with the names of the columns, in any order, then a row for each carcass
 * with as many cells as the header. Lines end with LF or CRLF; a byte order mark, blank lines and a missing last line
 * end are accepted; a cell holds no line break; a line has at most 1 MiB. Blanks around a cell of the columns below
 * don't count.
 *
 * <table>
 * <caption>Columns. Every cell may be blank but those marked required.</caption>
 * <tr><th>column</th><th>what it holds</th></tr>
 * <tr><td>{@code carcass}</td><td>id, such as the tag or kill number; required</td></tr>
 * <tr><td>{@code category}</td><td>letter of the category, one of C A B D E Z; required</td></tr>
 * <tr><td>{@code conformation}</td><td>S E U R O P, whole or split ({@code R}, {@code R+}, {@code r =}; under halves
 *     {@code U+}, {@code -U})</td></tr>
 * <tr><td>{@code conformation_points}</td><td>position on the 18-point scale, 1 to 18, such as a grading machine gives;
 *     each row fills either this or {@code conformation}</td></tr>
 * <tr><td>{@code fat_class}</td><td>1 to 5, whole or split ({@code 3}, {@code 3+}, {@code 4L})</td></tr>
 * <tr><td>{@code fat_points}</td><td>position on the 15-point scale, 1 to 15; each row fills either this or
 *     {@code fat_class}</td></tr>
 * <tr><td>{@code cold_weight_kg}</td><td>cold weight as dressed, kg, above 0 and at most 1200</td></tr>
 * <tr><td>{@code hot_weight_kg}</td><td>hot weight as dressed, kg, above 0 and at most 1200; each row fills this,
 *     {@code cold_weight_kg} or both. Alone, it gives the cold weight, 0.98 of it. With both, the cold weight counts,
 *     cold / hot must lie in 0.95 to 1 (our limits, around the 0.98 of (EU) 2017/1182, Art. 14(3)), and a note says
 *     so</td></tr>
 * <tr><td>{@code age_months}</td><td>completed months of age, a whole number that fits the category</td></tr>
 * <tr><td>{@code lot}, {@code supplier}</td><td>names</td></tr>
 * <tr><td>{@code kill_date}</td><td>year-month-day (ISO 8601), such as {@code 2026-11-03}</td></tr>
 * <tr><td>{@code assured}</td><td>{@code yes} or {@code no}: whether farm assurance covers the animal</td></tr>
 * <tr><td>{@code dressing}</td><td>how the dressing departs from the reference: codes of
 *     {@link org.beefyield.carcass.DressingCorrection} with blanks between, such as
 *     {@code kidneys-left-on tail-left-on}; the weight is then brought to the reference dressing. Blank: dressed as the
 *     reference</td></tr>
 * <tr><td>{@code left_kg}, {@code right_kg}</td><td>weight of each side, kg, above 0 and at most 1200. A note where the
 *     two differ from the weight as dressed by more than 2 % of it</td></tr>
 * <tr><td>{@code trimmed_kg}</td><td>kg taken off at meat inspection before weighing, 0 to 1200; not added to the
 *     weight</td></tr>
 * <tr><td>{@code status}</td><td>{@code passed} or {@code condemned}; blank means passed. A condemned carcass is
 *     counted apart; only its {@code carcass}, {@code kill_date}, {@code lot} and {@code supplier} are read, the rest
 *     is carried as text</td></tr>
 * </table>
 *
 * <p>The header must have {@code carcass}, {@code category}, one of the conformation columns, one of the fat columns
 * and one of the weight columns. Columns of other names are carried as text. Two rows with the same kill date, lot and
 * carcass are a duplicate, and the second is refused, also where the first one is refused for something else.
 *
 * <p>Without a declaration: commas between cells, decimal points, UTF-8, conformation in thirds, the names above, and
 * positions that stand for one point of their scale. Decimals are plain ({@code 342.5}): no thousands separator, no
 * exponent. Immutable.
 */
public final class KillSheetFormat {
    /** The columns that have a meaning. */
    enum Column {
        CARCASS,
        CATEGORY,
        CONFORMATION,
        CONFORMATION_POINTS,
        FAT_CLASS,
        FAT_POINTS,
        COLD_WEIGHT_KG,
        HOT_WEIGHT_KG,
        AGE_MONTHS,
        LOT,
        SUPPLIER,
        KILL_DATE,
        ASSURED,
        DRESSING,
        LEFT_KG,
        RIGHT_KG,
        TRIMMED_KG,
        STATUS;

        String ours() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    private static final KillSheetFormat STANDARD = new KillSheetFormat(
            ',', NumberForm.POINT, StandardCharsets.UTF_8, GradeReading.THIRDS, 1, 1, new EnumMap<>(Column.class));

    private final char separator;
    private final NumberForm numberForm;
    private final Charset charset;
    private final GradeReading conformationReading;
    private final double conformationPointsWidth;
    private final double fatPointsWidth;
    private final EnumMap<Column, String> renamed;

    private KillSheetFormat(
            char separator,
            NumberForm numberForm,
            Charset charset,
            GradeReading conformationReading,
            double conformationPointsWidth,
            double fatPointsWidth,
            EnumMap<Column, String> renamed) {
        this.separator = separator;
        this.numberForm = numberForm;
        this.charset = charset;
        this.conformationReading = conformationReading;
        this.conformationPointsWidth = conformationPointsWidth;
        this.fatPointsWidth = fatPointsWidth;
        this.renamed = renamed;
    }

    /**
     * The format without any declaration.
     *
     * @return commas, decimal points, UTF-8, thirds, our names
     */
    public static KillSheetFormat standard() {
        return STANDARD;
    }

    /**
     * Declares what separates the cells.
     *
     * @param newSeparator such as {@code ;}, a tab or {@code |}; no letter, digit, sign, point, double quote, blank or
     *     line end
     * @return a format
     * @throws IllegalArgumentException if a cell of the columns could hold that character by itself
     */
    public KillSheetFormat withSeparator(char newSeparator) {
        boolean clash = Character.isLetterOrDigit(newSeparator)
                || Character.isSurrogate(newSeparator)
                || " \r\n\".+-=_".indexOf(newSeparator) >= 0;
        if (clash) {
            throw new IllegalArgumentException("\"" + newSeparator
                    + "\" can't separate cells; a comma, a semicolon, a tab or | can, for instance");
        }
        return new KillSheetFormat(
                newSeparator,
                numberForm,
                charset,
                conformationReading,
                conformationPointsWidth,
                fatPointsWidth,
                renamed);
    }

    /**
     * Declares decimal commas: {@code 342,5} is then a number and {@code 342.5} is none.
     *
     * @return a format
     */
    public KillSheetFormat withDecimalComma() {
        return new KillSheetFormat(
                separator,
                NumberForm.COMMA,
                charset,
                conformationReading,
                conformationPointsWidth,
                fatPointsWidth,
                renamed);
    }

    /**
     * Declares the encoding.
     *
     * @param newCharset such as windows-1252; not UTF-16 or UTF-32, whose lines can't be told apart byte by byte
     * @return a format
     * @throws IllegalArgumentException if a line feed is not the single byte 10 in that charset
     */
    public KillSheetFormat withCharset(Charset newCharset) {
        if (!newCharset.canEncode() || !Arrays.equals("\n".getBytes(newCharset), new byte[] {'\n'})) {
            throw new IllegalArgumentException("charset " + newCharset
                    + " can't be read line by line; UTF-8 or a single-byte charset such as windows-1252 can");
        }
        return new KillSheetFormat(
                separator,
                numberForm,
                newCharset,
                conformationReading,
                conformationPointsWidth,
                fatPointsWidth,
                renamed);
    }

    /**
     * Declares how the sheet splits its conformation classes.
     *
     * @param reading thirds or halves
     * @return a format
     */
    public KillSheetFormat withConformationReading(GradeReading reading) {
        return new KillSheetFormat(
                separator,
                numberForm,
                charset,
                Objects.requireNonNull(reading, "reading"),
                conformationPointsWidth,
                fatPointsWidth,
                renamed);
    }

    /**
     * Declares how much of the scale a figure in {@code conformation_points} stands for: 1 for a grader's whole number,
     * less for a machine that resolves more.
     *
     * @param points 0 to 3
     * @return a format
     * @throws IllegalArgumentException if the width is outside its range or not a number
     */
    public KillSheetFormat withConformationPointsWidth(double points) {
        Conformation.ofPosition(1, points);
        return new KillSheetFormat(
                separator, numberForm, charset, conformationReading, points, fatPointsWidth, renamed);
    }

    /**
     * Declares how much of the scale a figure in {@code fat_points} stands for.
     *
     * @param points 0 to 3
     * @return a format
     * @throws IllegalArgumentException if the width is outside its range or not a number
     */
    public KillSheetFormat withFatPointsWidth(double points) {
        FatClass.ofPosition(1, points);
        return new KillSheetFormat(
                separator, numberForm, charset, conformationReading, conformationPointsWidth, points, renamed);
    }

    /**
     * Declares the sheet's own names of columns. A column not named here keeps the name it had.
     *
     * @param names our name to the sheet's name, such as {@code cold_weight_kg} to {@code Weight cold}; blanks around a
     *     name don't count
     * @return a format
     * @throws IllegalArgumentException if a name of ours is none, or the sheet's name is blank or serves two columns
     */
    public KillSheetFormat withColumns(Map<String, String> names) {
        EnumMap<Column, String> merged = new EnumMap<>(renamed);
        names.forEach((ours, theirs) -> merged.put(column(ours), theirs.strip()));
        KillSheetFormat format = new KillSheetFormat(
                separator, numberForm, charset, conformationReading, conformationPointsWidth, fatPointsWidth, merged);
        Map<String, Column> seen = new HashMap<>();
        for (Column column : Column.values()) {
            String name = format.name(column);
            Column first = seen.putIfAbsent(name, column);
            if (name.isEmpty()) {
                throw new IllegalArgumentException("the name declared for column " + column.ours() + " is blank");
            }
            if (first != null) {
                throw new IllegalArgumentException("columns " + first.ours() + " and " + column.ours()
                        + " would both be read from " + Excerpt.quote(name) + "; each needs a name of its own");
            }
        }
        return format;
    }

    private static Column column(String ours) {
        for (Column column : Column.values()) {
            if (column.ours().equals(ours)) {
                return column;
            }
        }
        throw new IllegalArgumentException("column " + Excerpt.quote(ours) + " is none of "
                + Arrays.stream(Column.values()).map(Column::ours).collect(Collectors.joining(" ")));
    }

    /** The name that a column of ours has in the sheet. */
    String name(Column column) {
        return renamed.getOrDefault(column, column.ours());
    }

    char separator() {
        return separator;
    }

    NumberForm numberForm() {
        return numberForm;
    }

    Charset charset() {
        return charset;
    }

    GradeReading conformationReading() {
        return conformationReading;
    }

    double conformationPointsWidth() {
        return conformationPointsWidth;
    }

    double fatPointsWidth() {
        return fatPointsWidth;
    }
}
