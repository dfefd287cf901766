package org.beefyield.data.command;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Outputs;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.killsheet.KillSheet;
import org.beefyield.data.killsheet.KillSheetEntry;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetHandler;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Refusal;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.MissingPriceException;
import org.beefyield.price.PriceList;
import org.beefyield.price.TwoTables;
import org.beefyield.price.Valuer;
import org.beefyield.table.YieldTable;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/** A table and its baseline side by side on the carcasses of a kill sheet. */
final class TwoTablesRun {
    static final String USAGE = """
              --killsheet FILE           kill sheet (CSV): what its carcasses give under the baseline and under the table
              --prices FILE              price list (CSV): and what that is worth
              --value-level LEVEL        level that the prices are for; else the last of each table
              --specification NAME       cutting specification of both tables; else the first of each
              --mince PERCENT            bring lean trim to this fat content with fat trim
            """;

    static final List<String> NAMED = Stream.concat(
                    Stream.of("--killsheet", "--prices", "--value-level", "--specification", "--mince"),
                    KillSheetOptions.NAMED.stream())
            .toList();

    private final Path killSheet;
    private final @Nullable Path prices;
    private final @Nullable String valueLevel;
    private final @Nullable String specification;
    private final @Nullable MinceTarget mince;
    private final CsvForm form;
    private final KillSheetFormat format;

    private TwoTablesRun(Path killSheet, Options options, CsvForm form) {
        this.killSheet = killSheet;
        this.form = form;
        prices = options.optionalPath("--prices");
        valueLevel = options.value("--value-level");
        if (valueLevel != null && prices == null) {
            throw new Options.UsageException("--value-level needs --prices");
        }
        specification = options.value("--specification");
        mince = KillSheetOptions.mince(options);
        format = KillSheetOptions.format(options, form);
    }

    static @Nullable TwoTablesRun optional(Options options, CsvForm form) {
        Path sheet = options.optionalPath("--killsheet");
        if (sheet != null) {
            if (options.value("--baseline") == null) {
                throw new Options.UsageException("--killsheet needs a --baseline to set the table beside");
            }
            return new TwoTablesRun(sheet, options, form);
        }
        for (String option : options.names()) {
            if (NAMED.contains(option) || KillSheetOptions.FLAGS.contains(option)) {
                throw new Options.UsageException(option + " needs --killsheet");
            }
        }
        return null;
    }

    void claim(Outputs outputs) {
        outputs.input("--killsheet", killSheet);
        if (prices != null) {
            outputs.input("--prices", prices);
        }
    }

    /** What was found, to be printed and to stand on the page. */
    record Found(
            Path killSheet,
            KillSheet.Counts counts,
            @Nullable TwoTables both,
            Findings findings,
            long unreadable,
            long refused) {
        void print(PrintStream out) {
            out.println(title());
            out.println();
            out.print(both == null ? nothing() + "\n" : both.toText());
            findings.printNotes(out);
            if (findings.refusals() > 0) {
                out.println();
                out.println("Refused, " + refused + (refused == 1 ? " row:" : " rows:"));
                findings.printRefusals(out);
            }
        }

        String html() {
            return "<h2>" + TextTable.escape(title()) + "</h2>\n"
                    + (both == null ? "<p>" + nothing() + "</p>\n" : both.toHtml());
        }

        private String title() {
            return "Kill sheet " + killSheet + ": " + counts.rows() + (counts.rows() == 1 ? " row, " : " rows, ")
                    + counts.condemned() + " condemned, " + unreadable + " that can't be read";
        }

        private static String nothing() {
            return "No carcass of it can be estimated under both tables";
        }
    }

    Found run(YieldTable before, YieldTable after) {
        YieldEstimator left = estimator(before);
        YieldEstimator right = estimator(after);
        Findings findings = new Findings(null);
        List<Problem> ofPrices = new ArrayList<>();
        TwoTables.Collector collector;
        if (prices == null) {
            collector = TwoTables.collector(left, right);
        } else {
            PriceList list = PriceListReader.read(Source.of(prices), form, ofPrices::add);
            collector = TwoTables.collector(valuer(list, left), valuer(list, right));
        }
        ofPrices.forEach(findings::note);
        Handler handler = new Handler(collector, findings);
        KillSheet.Counts counts = KillSheetReader.read(Source.of(killSheet), format, handler);
        try {
            return new Found(
                    killSheet,
                    counts,
                    collector.isEmpty() ? null : collector.result(),
                    findings,
                    counts.rows() - counts.condemned() - handler.carcasses,
                    counts.rows() - counts.condemned() - handler.taken);
        } catch (MissingPriceException e) {
            throw ofPrices(String.valueOf(e.getMessage()), e);
        }
    }

    private YieldEstimator estimator(YieldTable table) {
        return bound(() -> {
            YieldEstimator estimator = YieldEstimator.of(table);
            estimator = specification == null ? estimator : estimator.withSpecification(specification);
            return mince == null ? estimator : estimator.with(mince);
        });
    }

    /** What options say may not go with a table. */
    private static <T> T bound(Supplier<T> binding) {
        try {
            return binding.get();
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(String.valueOf(e.getMessage()));
        }
    }

    private Valuer valuer(PriceList list, YieldEstimator estimator) {
        try {
            return valueLevel == null ? Valuer.of(list, estimator) : Valuer.of(list, estimator, valueLevel);
        } catch (IllegalArgumentException e) {
            throw ofPrices("under table " + estimator.table().identity() + ": " + e.getMessage(), e);
        }
    }

    private InvalidDataException ofPrices(String message, RuntimeException cause) {
        return new InvalidDataException(List.of(new Problem(String.valueOf(prices), 0, "", "", message)), cause);
    }

    /** Takes the rows of the sheet. */
    private final class Handler implements KillSheetHandler {
        private final TwoTables.Collector collector;
        private final Findings findings;
        private long carcasses;
        private long taken;

        Handler(TwoTables.Collector collector, Findings findings) {
            this.collector = collector;
            this.findings = findings;
        }

        @Override
        public void entry(KillSheetEntry entry) {
            carcasses++;
            TwoTables.Refusals refusals = collector.add(entry.carcass());
            if (refusals.isEmpty()) {
                taken++;
            } else {
                String id = entry.carcass().id().orElse("");
                findings.refuse(new Problem(
                        killSheet.toString(), entry.line(), "", id, "carcass " + id + ": " + words(refusals)));
            }
        }

        private String words(TwoTables.Refusals refusals) {
            if (refusals.after().isEmpty()) {
                return "under the baseline alone: " + words(refusals.before());
            }
            return (refusals.before().isEmpty() ? "under the table alone: " : "under both tables: ")
                    + words(refusals.after());
        }

        private String words(List<Refusal> reasons) {
            return reasons.stream().map(Refusal::text).collect(Collectors.joining("; "));
        }

        @Override
        public void problem(Problem problem) {
            findings.refuse(problem);
        }

        @Override
        public void note(Problem note) {
            findings.note(note);
        }
    }
}
