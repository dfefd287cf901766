package org.beefyield.data.trade;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Source;
import org.beefyield.data.file.CsvRow;
import org.beefyield.data.file.SmallCsv;
import org.beefyield.market.MarketSpecification;

/**
 * Reads what customers take: a CSV file, a row for each specification. A blank cell sets no
 * limit. Columns:
 *
 * <ul>
 *   <li>{@code specification}: its name
 *   <li>{@code weight}: {@code cold} or {@code hot}, what the weights are; blank is cold
 *   <li>{@code from_kg}, {@code to_kg}: carcass weight, kg, inclusive
 *   <li>{@code category}: letters of the categories taken, such as {@code CEA}
 *   <li>{@code conformation_from}, {@code conformation_to}: poorest and best taken, all of it
 *   <li>{@code fat_from}, {@code fat_to}: leanest and fattest taken, all of it, such as {@code 4L}
 *   <li>{@code under_months}: completed months, exclusive
 *   <li>{@code assured}: {@code yes} if animals must be farm-assured, else {@code no}
 *   <li>{@code note}: for people
 * </ul>
 *
 * <p>A carcass right on the edge of a limit in halves, such as {@code 4=} with {@code fat_to} 4L, counts to the lower half;
 * {@link MarketSpecification#with(org.beefyield.carcass.EdgeRule)} chooses the upper. Choose the same for a payment grid.
 */
public final class MarketSpecificationReader {
    private static final List<String> COLUMNS = List.of(
            "specification",
            "weight",
            "from_kg",
            "to_kg",
            "category",
            "conformation_from",
            "conformation_to",
            "fat_from",
            "fat_to",
            "under_months",
            "assured",
            "note");

    private MarketSpecificationReader() {}

    /**
     * Reads specifications from a file of the standard form.
     *
     * @param file the file
     * @return specifications in the file's order
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static List<MarketSpecification> read(Path file) {
        return read(Source.of(file), CsvForm.standard());
    }

    /**
     * Reads specifications.
     *
     * @param source the file
     * @param form how it is written
     * @return specifications in the file's order
     * @throws org.beefyield.data.InvalidDataException if anything is wrong; it names file, line, column and value of
     *     everything found
     */
    public static List<MarketSpecification> read(Source source, CsvForm form) {
        Set<String> names = new HashSet<>();
        return SmallCsv.read(source, form, COLUMNS, row -> {
            String name = row.text("specification");
            if (name.isEmpty()) {
                row.refuse("specification", "a specification has a name");
            } else if (!names.add(name)) {
                row.refuse("specification", "a specification of this name stands above");
            }
            MarketSpecification.Builder builder = MarketSpecification.builder(name);
            weights(row, builder);
            row.optional("category", letters -> builder.categories(categories(letters)));
            Conformation lowest = row.optional("conformation_from", Conformation::parse);
            Conformation highest = row.optional("conformation_to", Conformation::parse);
            row.parsedOrNull("conformation_from", text -> builder.conformation(lowest, highest));
            FatClass leanest = row.optional("fat_from", FatClass::parse);
            FatClass fattest = row.optional("fat_to", FatClass::parse);
            row.parsedOrNull("fat_from", text -> builder.fatClass(leanest, fattest));
            row.optional("under_months", text -> builder.underMonths(months(text)));
            Boolean assured = row.yesNo("assured");
            if (assured != null && assured) {
                builder.assured();
            }
            return row.isBad() ? null : builder.build();
        });
    }

    private static void weights(CsvRow row, MarketSpecification.Builder builder) {
        Boolean hot = row.optional("weight", word -> CsvRow.either(word, "hot", "cold"));
        Double from = row.optionalNumber("from_kg");
        Double to = row.optionalNumber("to_kg");
        if (row.isBad()) {
            return;
        }
        double low = from == null ? 0 : from;
        row.parsedOrNull("from_kg", text -> {
            if (to == null) {
                return hot != null && hot ? builder.hotWeightFromKg(low) : builder.coldWeightFromKg(low);
            }
            return hot != null && hot ? builder.hotWeightKg(low, to) : builder.coldWeightKg(low, to);
        });
    }

    private static Category[] categories(String letters) {
        List<Category> categories = new ArrayList<>();
        for (int i = 0; i < letters.length(); i++) {
            categories.add(Category.parse(letters.substring(i, i + 1)));
        }
        return categories.toArray(Category[]::new);
    }

    private static int months(String text) {
        if (!text.matches("[0-9]{1,4}")) {
            throw new IllegalArgumentException("\"" + text + "\" is not a whole number of months such as 30");
        }
        return Integer.parseInt(text);
    }
}
