package org.beefyield.data.killsheet;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.carcass.GradeReading;
import org.beefyield.data.CsvForm;

/**
 * The file format of a kill sheet, and what a caller declares about his own.
 *
 * <p>A kill sheet is CSV (RFC 4180): a header with the names of the columns, in any order, then a row for each carcass
 * with as many cells as the header. Lines end with LF or CRLF; a byte order mark, blank lines and a missing last line
 * end are accepted; a cell holds no line break; a line has at most 1 MiB. Blanks around a cell of the columns below
 * don't count. How the file is written is declared in a {@link CsvForm}, as for every CSV file.
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
 * <tr><td>{@code kill_date}</td><td>year-month-day (ISO 8601), such as {@code 2026-11-03}, or as declared; the
 *     carcass has it as year-month-day. Carcasses of one day and one hall are one boning run</td></tr>
 * <tr><td>{@code hall}</td><td>name of the hall that bones it; blank: the same hall as all others without one</td></tr>
 * <tr><td>{@code assured}</td><td>{@code yes} or {@code no}, or the words declared: whether farm assurance covers the animal</td></tr>
 * <tr><td>{@code dressing}</td><td>how the dressing departs from the reference: codes of
 *     {@link org.beefyield.carcass.DressingCorrection} with blanks between, such as
 *     {@code kidneys-left-on tail-left-on}; the weight is then brought to the reference dressing. Blank: dressed as the
 *     reference</td></tr>
 * <tr><td>{@code left_kg}, {@code right_kg}</td><td>weight of each side, kg, above 0 and at most 1200. A note where the
 *     two differ from the weight as dressed by more than 2 % of it</td></tr>
 * <tr><td>{@code trimmed_kg}</td><td>kg taken off at meat inspection before weighing, 0 to 1200; not added to the
 *     weight</td></tr>
 * <tr><td>{@code trimmed_hind_kg}, {@code trimmed_flank_kg}, {@code trimmed_fore_kg}, {@code trimmed_neck_kg}</td><td>the same by
 *     region, kg; with {@code trimmed_kg} they add up to it within 0.05 kg</td></tr>
 * <tr><td>{@code status}</td><td>{@code passed} or {@code condemned}; blank means passed. A condemned carcass is
 *     counted apart; only its {@code carcass}, {@code kill_date}, {@code lot} and {@code supplier} are read, the rest
 *     is carried as text</td></tr>
 * </table>
 *
 * <p>The header must have {@code carcass}, {@code category}, one of the conformation columns, one of the fat columns
 * and one of the weight columns. Columns of other names are carried as text. Two rows with the same kill date, lot and
 * carcass are a duplicate, and the second is refused, also where the first one is refused for something else.
 *
 * <p>Without a declaration: the standard form, conformation in thirds, positions that stand for one point of their scale, a
 * row for each carcass, no totals. Decimals are plain ({@code 342.5}): no thousands separator, no exponent. Immutable.
 *
 * <p>Rows that are used all the same are noted where they look odd: the same carcass in another lot or on another day, an id
 * that looks as if a spreadsheet had shortened it, a kill date before that of the row above, text that looks like another
 * character set, sides that don't add up.
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
        HALL,
        ASSURED,
        DRESSING,
        LEFT_KG,
        RIGHT_KG,
        TRIMMED_KG,
        TRIMMED_HIND_KG,
        TRIMMED_FLANK_KG,
        TRIMMED_FORE_KG,
        TRIMMED_NECK_KG,
        STATUS;

        String ours() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    private static final KillSheetFormat STANDARD = of(CsvForm.standard());

    private final CsvForm form;
    private final GradeReading conformationReading;
    private final double conformationPointsWidth;
    private final double fatPointsWidth;
    private final String totals;
    private final boolean rowASide;
    private final double sidesApart;

    private KillSheetFormat(
            CsvForm form,
            GradeReading conformationReading,
            double conformationPointsWidth,
            double fatPointsWidth,
            String totals,
            boolean rowASide,
            double sidesApart) {
        this.form = form;
        this.conformationReading = conformationReading;
        this.conformationPointsWidth = conformationPointsWidth;
        this.fatPointsWidth = fatPointsWidth;
        this.totals = totals;
        this.rowASide = rowASide;
        this.sidesApart = sidesApart;
    }

    /**
     * The format without any declaration.
     *
     * @return the standard form, thirds, a row for each carcass
     */
    public static KillSheetFormat standard() {
        return STANDARD;
    }

    /**
     * The format of a sheet that is written in a form of its own.
     *
     * @param form how the file is written; of the columns that it names those count that are in the table above, and a sheet
     *     that has one declared as anything else is refused
     * @return a format with nothing else declared
     */
    public static KillSheetFormat of(CsvForm form) {
        return new KillSheetFormat(
                Objects.requireNonNull(form, "form"), GradeReading.THIRDS, 1, 1, "", false, Double.POSITIVE_INFINITY);
    }

    /**
     * Declares how the sheet splits its conformation classes.
     *
     * @param reading thirds or halves
     * @return a format
     */
    public KillSheetFormat withConformationReading(GradeReading reading) {
        return new KillSheetFormat(
                form,
                Objects.requireNonNull(reading, "reading"),
                conformationPointsWidth,
                fatPointsWidth,
                totals,
                rowASide,
                sidesApart);
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
        return new KillSheetFormat(form, conformationReading, points, fatPointsWidth, totals, rowASide, sidesApart);
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
                form, conformationReading, conformationPointsWidth, points, totals, rowASide, sidesApart);
    }

    /**
     * Declares that a row with this word in the place of the carcass's id is a total of the rows above it: no carcass, and no
     * row of the counts. Its kilograms must be the sum of all carcasses above, or of those since the total before, within
     * half a unit of its last decimal; a note says so if they are not. Condemned carcasses don't count.
     *
     * @param word such as {@code Total}; its case doesn't count
     * @return a format
     * @throws IllegalArgumentException if the word is blank
     */
    public KillSheetFormat withTotalsRow(String word) {
        if (word.isBlank()) {
            throw new IllegalArgumentException("the word of a totals row is blank; it is such as Total");
        }
        return new KillSheetFormat(
                form, conformationReading, conformationPointsWidth, fatPointsWidth, word.strip(), rowASide, sidesApart);
    }

    /**
     * Declares that each side has a row of its own, with the same id, lot and kill date. The weights of the two add up, and
     * what they say of the carcass, such as its grades, must agree. The counts take the two for one row; other columns in
     * which they differ hold both, joined by "; ". A side without its other one is refused, and so is one whose other side
     * is. Of each carcass no more is kept than before, but one whose other side hasn't come yet is held.
     *
     * @return a format
     */
    public KillSheetFormat withRowASide() {
        return new KillSheetFormat(
                form, conformationReading, conformationPointsWidth, fatPointsWidth, totals, true, sidesApart);
    }

    /**
     * Declares how far the sides of a carcass may be apart; further ones are noted.
     *
     * @param share part of their weight together, 0 to 1
     * @return a format
     * @throws IllegalArgumentException if the share is outside its range or not a number
     */
    public KillSheetFormat withSidesApart(double share) {
        if (!(share >= 0 && share <= 1)) {
            throw new IllegalArgumentException("share " + share + " of the weight is outside 0 to 1");
        }
        return new KillSheetFormat(
                form, conformationReading, conformationPointsWidth, fatPointsWidth, totals, rowASide, share);
    }

    CsvForm form() {
        return form;
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

    /** The word of a totals row; empty if there is none. */
    String totals() {
        return totals;
    }

    boolean isRowASide() {
        return rowASide;
    }

    double sidesApart() {
        return sidesApart;
    }

    private List<Object> parts() {
        return List.of(
                form, conformationReading, conformationPointsWidth, fatPointsWidth, totals, rowASide, sidesApart);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof KillSheetFormat format && format.parts().equals(parts());
    }

    @Override
    public int hashCode() {
        return parts().hashCode();
    }

    /**
     * One line.
     *
     * @return such as {@code separator ",", decimal point, UTF-8, dates year-month-day, yes or no; thirds}
     */
    @Override
    public String toString() {
        return form + "; " + conformationReading.name().toLowerCase(Locale.ROOT)
                + (conformationPointsWidth == 1 && fatPointsWidth == 1
                        ? ""
                        : ", points " + conformationPointsWidth + " and " + fatPointsWidth + " wide")
                + (totals.isEmpty() ? "" : ", totals in rows of " + totals)
                + (rowASide ? ", a row a side" : "")
                + (sidesApart > 1 ? "" : ", sides apart by " + sidesApart);
    }
}
