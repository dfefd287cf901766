package org.beefyield.data.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Outputs;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.killsheet.KillSheet;
import org.beefyield.data.killsheet.KillSheetEntry;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Refusal;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.PriceList;
import org.beefyield.price.Valuer;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** A kill sheet whose carcasses are valued, and how. */
final class SheetOptions {
    static final String USAGE = """
              --killsheet FILE      kill sheet (CSV)
              --prices FILE         price list (CSV)
              --table FOLDER|ZIP    yield table, or the name of a shipped edition; else the shipped edition boneless-2026
              --specification NAME  cutting specification of the table; else its first
              --mince PERCENT       bring lean trim to this fat content with fat trim
              --value-level LEVEL   level of the table that the prices are for; else its last
              --page FILE           all of it as a page (HTML) with pictures
            If your CSV files aren't comma-separated UTF-8 with decimal points:
            """ + FormOptions.USAGE + """
            If the kill sheet hasn't grades in thirds and a row for each carcass:
            """ + KillSheetOptions.USAGE;

    static final List<String> NAMED = Stream.of(
                    List.of(
                            "--killsheet",
                            "--prices",
                            "--table",
                            "--specification",
                            "--mince",
                            "--value-level",
                            "--page"),
                    KillSheetOptions.NAMED,
                    FormOptions.NAMED)
            .flatMap(List::stream)
            .toList();
    static final List<String> FLAGS = Stream.of(List.of("--help"), KillSheetOptions.FLAGS, FormOptions.FLAGS)
            .flatMap(List::stream)
            .toList();

    private final Path killSheet;
    private final Path prices;
    private final @Nullable NamedTable table;
    private final @Nullable String specification;
    private final @Nullable MinceTarget mince;
    private final @Nullable String valueLevel;
    private final @Nullable Path page;
    private final CsvForm form;
    private final KillSheetFormat format;

    SheetOptions(Options options) {
        killSheet = Options.path(options.needed("--killsheet"));
        prices = Options.path(options.needed("--prices"));
        table = NamedTable.optional(options, "--table");
        specification = options.value("--specification");
        mince = KillSheetOptions.mince(options);
        valueLevel = options.value("--value-level");
        page = options.optionalPath("--page");
        form = FormOptions.form(options);
        format = KillSheetOptions.format(options, form);
    }

    Path killSheet() {
        return killSheet;
    }

    CsvForm form() {
        return form;
    }

    @Nullable
    Path page() {
        return page;
    }

    void claim(Outputs outputs) {
        outputs.input("--killsheet", killSheet);
        outputs.input("--prices", prices);
        if (table != null) {
            table.claim(outputs);
        }
        if (page != null) {
            outputs.file("--page", page);
        }
    }

    Valuer valuer() {
        YieldEstimator estimator;
        try {
            estimator = YieldEstimator.of(NamedTable.readOrShipped(table));
            estimator = specification == null ? estimator : estimator.withSpecification(specification);
            estimator = mince == null ? estimator : estimator.with(mince);
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(String.valueOf(e.getMessage()));
        }
        PriceList list = PriceListReader.read(Source.of(prices), form);
        try {
            return valueLevel == null ? Valuer.of(list, estimator) : Valuer.of(list, estimator, valueLevel);
        } catch (IllegalArgumentException e) {
            throw new InvalidDataException(
                    List.of(new Problem(prices.toString(), 0, "", "", String.valueOf(e.getMessage()))), e);
        }
    }

    /**
     * The carcasses of a sheet for which there is an estimate.
     *
     * @param file the sheet
     * @param carcasses those that can be used
     * @param left why others can't
     */
    record Read(Path file, List<Carcass> carcasses, List<Problem> left) {
        String sentence() {
            return "Kill sheet " + file + ": " + Numbers.counted(carcasses.size(), "carcass", "carcasses") + ", "
                    + Numbers.counted(left.size(), "row", "rows") + " left out";
        }
    }

    Read read(Path file, YieldEstimator estimator) {
        KillSheet sheet = KillSheetReader.read(Source.of(file), format);
        List<Problem> left = new ArrayList<>(sheet.problems());
        List<Carcass> carcasses = new ArrayList<>();
        for (KillSheetEntry entry : sheet.entries()) {
            List<Refusal> reasons = estimator.tryEstimate(entry.carcass()).reasons();
            if (reasons.isEmpty()) {
                carcasses.add(entry.carcass());
            } else {
                left.add(new Problem(
                        file.toString(),
                        entry.line(),
                        "",
                        "",
                        "carcass " + entry.carcass().id().orElse("") + ": "
                                + reasons.get(0).text()));
            }
        }
        return new Read(file, List.copyOf(carcasses), List.copyOf(left));
    }
}
