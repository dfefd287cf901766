package org.beefyield.data.trade;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.carcass.GradeReading;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.Excerpt;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.table.definition.BreakdownRow;
import org.jspecify.annotations.Nullable;

/**
 * Reads a payment grid: a CSV file with the columns
 *
 * <ul>
 *   <li>{@code line}: what the row is: {@code base}, a price; {@code grade}, a difference for a part of the grades;
 *       {@code weight}, a difference for a weight band; {@code specification}, the bonus for being in specification
 *   <li>{@code category}: letters of the categories, such as {@code CE}, or {@code *} for all; a row for a category goes
 *       before one for all
 *   <li>{@code conformation}, {@code fat_class}: of a {@code grade} row, a class, third or half; blank for every one; else
 *       blank
 *   <li>{@code from_kg}, {@code to_kg}: of a {@code weight} row, cold weight in kg, the first included, the last not; blank
 *       for no limit; else blank
 *   <li>{@code per_kg}: price or difference per kg of cold weight
 *   <li>{@code currency}: label of the currency, the same in every row
 * </ul>
 *
 * {@link PaymentGrid} says which row counts for a carcass. One right on the edge between two rows in halves, such as
 * {@code 4=} between 4L and 4H, counts to the lower; {@link PaymentGrid#with(org.beefyield.carcass.EdgeRule)} chooses the
 * upper. Choose the same for a market specification.
 */
public final class PaymentGridReader {
    private static final List<String> COLUMNS =
            List.of("line", "category", "conformation", "fat_class", "from_kg", "to_kg", "per_kg", "currency");

    /** Columns that a line leaves blank. */
    private static final Map<String, Set<String>> NOT_OF = Map.of(
            "base", Set.of("conformation", "fat_class", "from_kg", "to_kg"),
            "grade", Set.of("from_kg", "to_kg"),
            "weight", Set.of("conformation", "fat_class"),
            "specification", Set.of("conformation", "fat_class", "from_kg", "to_kg"));

    private final GradeReading reading;
    private final OneCurrency currency = new OneCurrency("a grid");
    private PaymentGrid.@Nullable Builder builder;

    private PaymentGridReader(GradeReading reading) {
        this.reading = reading;
    }

    /**
     * Reads a grid from a file of the standard form, with conformation in whole classes or thirds.
     *
     * @param file the file
     * @return the grid
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found
     */
    public static PaymentGrid read(Path file) {
        return read(Source.of(file), CsvForm.standard(), GradeReading.THIRDS);
    }

    /**
     * Reads a grid.
     *
     * @param source the file
     * @param form how it is written
     * @param reading how it splits its conformation classes
     * @return the grid
     * @throws InvalidDataException if anything is wrong; it names file, line, column and value of everything found
     */
    public static PaymentGrid read(Source source, CsvForm form, GradeReading reading) {
        PaymentGridReader reader = new PaymentGridReader(reading);
        List<PaymentGrid.Builder> rows = SmallCsv.read(source, form, COLUMNS, reader::row);
        try {
            // a file without a row that can be used doesn't get here
            return rows.get(0).build();
        } catch (IllegalArgumentException e) {
            throw new InvalidDataException(
                    List.of(new Problem(source.name(), 0, "", "", String.valueOf(e.getMessage()))), e);
        }
    }

    private PaymentGrid.@Nullable Builder row(CsvRow row) {
        currency.check(row);
        double perKg = row.number("per_kg");
        List<@Nullable Category> categories = categories(row);
        Conformation conformation = row.optional("conformation", text -> Conformation.parse(text, reading));
        FatClass fatClass = row.optional("fat_class", FatClass::parse);
        Double from = row.optionalNumber("from_kg");
        Double to = row.optionalNumber("to_kg");
        String line = row.text("line");
        if (!NOT_OF.containsKey(line)) {
            row.refuse("line", "line " + Excerpt.quote(line) + " is none of base grade weight specification");
        }
        for (String column : COLUMNS) {
            if (NOT_OF.getOrDefault(line, Set.of()).contains(column)
                    && !row.text(column).isEmpty()) {
                row.refuse(column, "a " + line + " row leaves " + row.name(column) + " blank");
            }
        }
        if (row.isBad()) {
            return null;
        }
        PaymentGrid.Builder grid = builder == null ? PaymentGrid.builder(row.text("currency")) : builder;
        builder = grid;
        for (Category category : categories) {
            row.parsedOrNull("line", text -> switch (text) {
                case "base" -> grid.base(category, perKg);
                case "grade" -> grid.grade(category, conformation, fatClass, perKg);
                case "weight" -> grid.weight(category, from, to, perKg);
                default -> grid.inSpecification(category, perKg);
            });
        }
        return row.isBad() ? null : grid;
    }

    /** Null stands for all of them. */
    private static List<@Nullable Category> categories(CsvRow row) {
        List<@Nullable Category> categories = new ArrayList<>();
        String letters = row.text("category");
        if (letters.equals(BreakdownRow.ANY)) {
            categories.add(null);
        } else if (letters.isEmpty()) {
            row.refuse("category", "every row says its categories, * for all of them");
        }
        for (int i = 0; !letters.equals(BreakdownRow.ANY) && i < letters.length(); i++) {
            String letter = letters.substring(i, i + 1);
            Category category = row.parsedOrNull("category", text -> Category.parse(letter));
            if (category != null) {
                categories.add(category);
            }
        }
        return categories;
    }
}
