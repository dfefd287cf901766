package org.beefyield.data.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Outputs;
import org.beefyield.data.Source;
import org.beefyield.data.table.LookUpSheet;
import org.beefyield.data.table.LookUpSheetReader;
import org.beefyield.table.definition.Range;
import org.beefyield.table.definition.ReferencePoint;
import org.beefyield.table.definition.TableColumn;
import org.jspecify.annotations.Nullable;

/** Options that make a table of a plant's own look-up sheet. */
final class TableImport {
    static final String USAGE = """
              --import FILE              a look-up sheet (CSV) instead of --table: a row for each grade with the columns
                                         conformation, %s and perhaps category and sd, and a column for each cut, per
                                         cent of cold weight
              --cuts FILE                what cuts of your own are (CSV): cut, name, kind; others are known of boneless-2026
              --rest CUT                 what rows lack of 100 %% is this cut, such as loss, which has no column
              --leave-out NAMES          columns that are no cuts, with commas between
              --categories LETTERS       what rows without a category serve, such as CE; else what boneless-2026 serves
              --weights LOW-HIGH         cold weights that the table is for, kg; else 150-600
              --reference GRADES,KG      its reference carcass, such as R=,3=,340; else in the middle of the sheet
            """.formatted(TableColumn.FAT_CLASS);

    static final List<String> NAMED =
            List.of("--import", "--cuts", "--rest", "--leave-out", "--categories", "--weights", "--reference");

    private static final Pattern COMMA = Pattern.compile(",");
    private static final String NUMBER = "[0-9]+(\\.[0-9]+)?";

    private final Path sheet;
    private final @Nullable Path cuts;
    private final CsvForm form;
    private final LookUpSheetReader reader;

    private TableImport(Path sheet, Options options, CsvForm form) {
        this.sheet = sheet;
        this.form = form;
        cuts = options.optionalPath("--cuts");
        LookUpSheetReader read = LookUpSheetReader.of(
                        options.valueOr("--name", nameOf(sheet)), options.valueOr("--version", "1"))
                .with(form);
        String rest = options.value("--rest");
        read = rest == null ? read : read.withRest(rest);
        String without = options.value("--leave-out");
        read = without == null
                ? read
                : read.without(COMMA.splitAsStream(without).map(String::strip).toList());
        String letters = options.value("--categories");
        read = letters == null ? read : read.withCategories(categories(letters));
        String weights = options.value("--weights");
        read = weights == null ? read : read.withWeights(weights(weights));
        String reference = options.value("--reference");
        reader = reference == null ? read : read.withReference(reference(reference));
    }

    static @Nullable TableImport optional(Options options, CsvForm form) {
        Path sheet = options.optionalPath("--import");
        if (sheet != null) {
            return new TableImport(sheet, options, form);
        }
        for (String option : NAMED) {
            if (options.value(option) != null) {
                throw new Options.UsageException(option + " needs --import");
            }
        }
        return null;
    }

    /** The file's name as that of a table. */
    private static String nameOf(Path sheet) {
        String name = String.valueOf(sheet.getFileName())
                .toLowerCase(Locale.ROOT)
                .replaceFirst("\\.gz$", "")
                .replaceFirst("\\.[^.]*$", "")
                .replaceAll("[^a-z0-9._-]+", "-")
                .replaceFirst("^[^a-z0-9]+", "");
        return name.isEmpty() ? "look-up-sheet" : name;
    }

    private static List<Category> categories(String letters) {
        List<Category> categories = new ArrayList<>();
        for (int i = 0; i < letters.length(); i++) {
            try {
                categories.add(Category.parse(letters.substring(i, i + 1)));
            } catch (IllegalArgumentException e) {
                throw new Options.UsageException("--categories \"" + letters + "\": " + e.getMessage());
            }
        }
        return categories;
    }

    private static Range weights(String weights) {
        if (!weights.matches(NUMBER + "-" + NUMBER)) {
            throw new Options.UsageException("--weights \"" + weights + "\" is not two weights such as 150-600");
        }
        int between = weights.indexOf('-');
        try {
            return new Range(
                    Double.parseDouble(weights.substring(0, between)),
                    Double.parseDouble(weights.substring(between + 1)));
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException("--weights \"" + weights + "\": the lower one stands first");
        }
    }

    private static ReferencePoint reference(String reference) {
        List<String> parts = COMMA.splitAsStream(reference).toList();
        if (parts.size() != 3 || !parts.get(2).matches(NUMBER)) {
            throw new Options.UsageException("--reference \"" + reference + "\" is not a carcass such as R=,3=,340");
        }
        try {
            return new ReferencePoint(
                    Conformation.parse(parts.get(0)).position(),
                    FatClass.parse(parts.get(1)).position(),
                    Double.parseDouble(parts.get(2)));
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException("--reference \"" + reference + "\": " + e.getMessage());
        }
    }

    void claim(Outputs outputs) {
        outputs.input("--import", sheet);
        if (cuts != null) {
            outputs.input("--cuts", cuts);
        }
    }

    LookUpSheet read() {
        LookUpSheetReader with = cuts == null ? reader : reader.withCuts(LookUpSheetReader.cuts(Source.of(cuts), form));
        return with.read(Source.of(sheet));
    }
}
