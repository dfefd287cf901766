package org.beefyield.data.command;

import java.util.List;
import org.beefyield.carcass.GradeReading;
import org.beefyield.data.CsvForm;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.estimate.MinceTarget;
import org.jspecify.annotations.Nullable;

/** Options that say what a kill sheet is like, and how its carcasses are estimated. */
final class KillSheetOptions {
    static final String USAGE = """
          --halves              its conformation classes are split into halves (U+ -U)
          --totals-row WORD     a row with this word in the place of the carcass is a total, which is checked
          --row-a-side          each side has a row, with the same carcass, lot and date
          --sides-apart PERCENT note sides that differ by more than this of the carcass
        """;

    static final List<String> NAMED = List.of("--totals-row", "--sides-apart");
    static final List<String> FLAGS = List.of("--halves", "--row-a-side");

    private KillSheetOptions() {}

    static KillSheetFormat format(Options options, CsvForm form) {
        KillSheetFormat format = KillSheetFormat.of(form);
        String totals = options.value("--totals-row");
        String apart = options.value("--sides-apart");
        try {
            format = totals == null ? format : format.withTotalsRow(totals);
            format = apart == null ? format : format.withSidesApart(Options.number("--sides-apart", apart) / 100);
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(String.valueOf(e.getMessage()));
        }
        format = options.has("--row-a-side") ? format.withRowASide() : format;
        return options.has("--halves") ? format.withConformationReading(GradeReading.HALVES) : format;
    }

    static @Nullable MinceTarget mince(Options options) {
        String percent = options.value("--mince");
        if (percent == null) {
            return null;
        }
        try {
            return MinceTarget.fatPercent(Options.number("--mince", percent));
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException("--mince: " + e.getMessage());
        }
    }
}
