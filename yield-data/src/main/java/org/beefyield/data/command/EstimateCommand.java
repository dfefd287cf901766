package org.beefyield.data.command;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.EdgeRule;
import org.beefyield.carcass.FatClass;
import org.beefyield.carcass.GradeReading;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Outputs;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.HtmlPage;
import org.beefyield.data.finish.HoldingReader;
import org.beefyield.data.finish.HoldingSheet;
import org.beefyield.data.killsheet.EstimateWriter;
import org.beefyield.data.killsheet.KillSheet;
import org.beefyield.data.killsheet.KillSheetEntry;
import org.beefyield.data.killsheet.KillSheetFormat;
import org.beefyield.data.killsheet.KillSheetHandler;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.killsheet.ProblemWriter;
import org.beefyield.data.picture.Pictures;
import org.beefyield.data.trade.MarketSpecificationReader;
import org.beefyield.data.trade.PaymentGridReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.data.trade.SizeWindowReader;
import org.beefyield.estimate.Figure;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.UncertaintyPart;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.feedback.FeedbackSheets;
import org.beefyield.feedback.Overfat;
import org.beefyield.finish.HoldOrSell;
import org.beefyield.finish.SaleAdvice;
import org.beefyield.market.MarketSpecification;
import org.beefyield.pack.PackFit;
import org.beefyield.pay.Overpayment;
import org.beefyield.pay.PaymentGrid;
import org.beefyield.price.Attribution;
import org.beefyield.price.MissingPriceException;
import org.beefyield.price.Money;
import org.beefyield.price.PriceList;
import org.beefyield.price.Value;
import org.beefyield.price.ValueLine;
import org.beefyield.price.Valuer;
import org.beefyield.report.Day;
import org.beefyield.report.TrimmedParts;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** From a kill sheet to estimates: prints the lot, writes a row for each carcass, level and cut. */
final class EstimateCommand {
    static final String USAGE = """
        Estimates what graded beef carcasses will yield.
          --killsheet FILE      kill sheet (CSV), plain or packed with gzip; a FILE below is packed if it ends in .gz
          --out FILE            where the estimates go (CSV), a row for each carcass, level and cut; else only print
          --same-form           the estimates are written as your files are: separator, decimal commas, character set, names
          --wide                a row for each carcass, its cuts side by side, without intervals and values
          --problems FILE       where all refusals and notes go (CSV); the first 1000 of each are printed
          --progress            say on standard error every second how far it has come
          --table FOLDER|ZIP    yield table, or the name of a shipped edition; else the shipped edition boneless-2026
          --specification NAME  cutting specification of the table; else its first
          --mince PERCENT       bring lean trim to this fat content with fat trim
          --promise PERCENT     what may be promised of each cut: the kg that come out at least, this sure, such as 95 (not 0.95)
          --own-hall            your hall cuts as the table does: every interval and promise leaves out that halls differ
          --prices FILE         price list (CSV): say what the lot is worth, and why a U beats an O
          --value-level LEVEL   level of the table that the prices are for; else its last
          --grid FILE           payment grid (CSV): what was paid, the margin, who was overpaid and for what; needs --prices
          --baseline FILE       kill sheet of an earlier time (CSV): how margins changed since; needs --grid
          --market FILE         market specifications (CSV): who is in each, and who misses what; the first counts for grid
                                and feedback
          --windows FILE        pack sizes (CSV): pieces and carcasses that don't fit, and the best way of each cut; needs --prices
          --fat-target CLASS    what carcasses fatter than this class lose
          --edge lower|upper    what a grade on the edge between two halves counts as, in grid, market and fat target:
                                4= and a whole 4 as 4L (lower) or as 4H (upper); else lower
          --feedback FOLDER     a feedback sheet for each supplier, as a page and as text
          --feedback-value      what each animal was worth stands on the sheets too; needs --prices
          --page FILE           all of it as one page (HTML) with pictures, for screen, phone and paper
          --costs FILE          what it costs to hold animals and what they gain (CSV, as finish reads it): the sheets say what
                                another day of sale would have left; needs --feedback and --grid
        If your CSV files (kill sheet, prices, grid, market, windows) aren't comma-separated UTF-8 with decimal points:
        """ + FormOptions.USAGE + """
        If the kill sheet hasn't grades in thirds and a row for each carcass:
        """ + KillSheetOptions.USAGE + """
        To check a yield table: table --help; to make one from boning trials: calibrate --help; to judge boning runs: reconcile
        --help; what to cut for whom: plan --help; when to sell animals near finish: finish --help; why one returned less than
        another: why --help; seasons or plants side by side: compare --help
        Exit code 0: all good; 4: some rows were refused, the good ones are written; 2: it could not run.
        """;

    private static final List<String> OWN_NAMED = List.of(
            "--killsheet",
            "--out",
            "--problems",
            "--table",
            "--specification",
            "--mince",
            "--promise",
            "--prices",
            "--value-level",
            "--grid",
            "--market",
            "--windows",
            "--fat-target",
            "--edge",
            "--feedback",
            "--baseline",
            "--page",
            "--costs");
    private static final List<String> OWN_FLAGS =
            List.of("--same-form", "--wide", "--progress", "--own-hall", "--feedback-value", "--help");
    private static final List<String> NAMED = joined(joined(OWN_NAMED, KillSheetOptions.NAMED), FormOptions.NAMED);
    private static final List<String> FLAGS = joined(joined(OWN_FLAGS, KillSheetOptions.FLAGS), FormOptions.FLAGS);

    private final Path killSheet;
    private final @Nullable Path out;
    private final boolean sameForm;
    private final boolean wide;
    private final @Nullable Path problems;
    private final boolean progress;
    private final @Nullable NamedTable table;
    private final @Nullable String specification;
    private final @Nullable MinceTarget mince;
    private final @Nullable Double promise;
    private final boolean ownHall;
    private final @Nullable Path prices;
    private final @Nullable String valueLevel;
    private final @Nullable Path grid;
    private final @Nullable Path market;
    private final @Nullable Path windows;
    private final @Nullable FatClass fatTarget;
    private final EdgeRule edge;
    private final @Nullable Path feedback;
    private final boolean feedbackValue;
    private final @Nullable Path baseline;
    private final @Nullable Path page;
    private final @Nullable Path costs;
    private final CsvForm form;
    private final KillSheetFormat format;

    EstimateCommand(List<String> arguments) {
        Options options = new Options(arguments, NAMED, FLAGS);
        killSheet = Options.path(options.needed("--killsheet"));
        out = options.optionalPath("--out");
        wide = options.has("--wide");
        problems = options.optionalPath("--problems");
        progress = options.has("--progress");
        table = NamedTable.optional(options, "--table");
        specification = options.value("--specification");
        mince = KillSheetOptions.mince(options);
        promise = promise(options.value("--promise"));
        ownHall = options.has("--own-hall");
        prices = options.optionalPath("--prices");
        valueLevel = options.value("--value-level");
        grid = options.optionalPath("--grid");
        market = options.optionalPath("--market");
        windows = options.optionalPath("--windows");
        fatTarget = fatTarget(options.value("--fat-target"));
        edge = edge(options.valueOr("--edge", "lower"));
        feedback = options.optionalPath("--feedback");
        feedbackValue = options.has("--feedback-value");
        baseline = options.optionalPath("--baseline");
        page = options.optionalPath("--page");
        if (baseline != null && grid == null) {
            throw new Options.UsageException("--baseline needs --grid");
        }
        costs = options.optionalPath("--costs");
        if (costs != null && (feedback == null || grid == null)) {
            throw new Options.UsageException("--costs needs " + (feedback == null ? "--feedback" : "--grid"));
        }
        for (String option : List.of("--grid", "--value-level", "--windows", "--feedback-value")) {
            if (prices == null && (options.value(option) != null || options.has(option))) {
                throw new Options.UsageException(option + " needs --prices");
            }
        }
        sameForm = options.has("--same-form");
        if (sameForm && out == null) {
            throw new Options.UsageException("--same-form needs --out");
        }
        if (wide && out == null) {
            throw new Options.UsageException("--wide needs --out");
        }
        form = FormOptions.form(options);
        format = KillSheetOptions.format(options, form);
        if (sameForm && form.separator() == form.decimalMark()) {
            throw new Options.UsageException(
                    "--same-form: numbers with decimal commas can't stand between commas; declare another --separator");
        }
    }

    private static @Nullable FatClass fatTarget(@Nullable String fatClass) {
        try {
            return fatClass == null ? null : FatClass.parse(fatClass);
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException("--fat-target: " + e.getMessage());
        }
    }

    static EdgeRule edge(String side) {
        return switch (side) {
            case "lower" -> EdgeRule.LOWER;
            case "upper" -> EdgeRule.UPPER;
            default -> throw new Options.UsageException("--edge \"" + side + "\" is none of lower, upper");
        };
    }

    private static @Nullable Double promise(@Nullable String percent) {
        if (percent == null) {
            return null;
        }
        double sure = Options.number("--promise", percent);
        if (sure > 0 && sure < 1) {
            throw new Options.UsageException("--promise \"" + percent + "\" is less than 1 per cent; for "
                    + Numbers.percent(sure) + " % sure it is " + Numbers.percent(sure));
        }
        if (!(sure > 0 && sure < 100)) {
            throw new Options.UsageException(
                    "--promise \"" + percent + "\" is not above 0 and below 100, per cent; such as 95");
        }
        return sure;
    }

    private static List<String> joined(List<String> one, List<String> other) {
        return Stream.concat(one.stream(), other.stream()).toList();
    }

    int run(PrintStream print, PrintStream err) {
        try (Outputs outputs = new Outputs()) {
            nameFiles(outputs);
            return run(outputs, print, err);
        }
    }

    /** Says what is read and written, so that a clash is refused before anything is. */
    private void nameFiles(Outputs outputs) {
        Map<String, @Nullable Path> inputs = new LinkedHashMap<>();
        inputs.put("--killsheet", killSheet);
        inputs.put("--prices", prices);
        inputs.put("--grid", grid);
        inputs.put("--market", market);
        inputs.put("--windows", windows);
        inputs.put("--baseline", baseline);
        inputs.put("--costs", costs);
        if (table != null) {
            table.claim(outputs);
        }
        inputs.forEach((name, path) -> {
            if (path != null) {
                outputs.input(name, path);
            }
        });
        if (out != null) {
            outputs.file("--out", out);
        }
        if (problems != null) {
            outputs.file("--problems", problems);
        }
        if (feedback != null) {
            outputs.folder("--feedback", feedback);
        }
        if (page != null) {
            outputs.file("--page", page);
        }
    }

    private int run(Outputs outputs, PrintStream print, PrintStream err) {
        YieldTable yieldTable = NamedTable.readOrShipped(table);
        YieldEstimator chosen = estimator(yieldTable);
        List<Problem> ofPrices = new ArrayList<>();
        Valuer valuer = prices == null ? null : valuer(prices, chosen, ofPrices);
        List<MarketSpecification> markets = market == null
                ? List.of()
                : MarketSpecificationReader.read(Source.of(market), form).stream()
                        .map(specification -> specification.with(edge))
                        .toList();
        MarketSpecification wanted = markets.isEmpty() ? null : markets.get(0);
        PaymentGrid payment = grid == null ? null : payment(grid, wanted);
        Paid paid = paid(valuer, payment);
        FitReports fit = fit(chosen, valuer, markets, payment);
        try (ProblemWriter found = problems == null ? null : new ProblemWriter(problems, outputs);
                EstimateWriter writer = out == null ? null : writer(out, chosen, valuer, outputs)) {
            Run run = new Run(chosen, valuer, paid, fit, writer, new Findings(found), progress ? err : null);
            ofPrices.forEach(run.findings::note);
            if (paid != null && baseline != null) {
                paid.readBaseline(baseline, format).forEach(run.findings::note);
            }
            KillSheet.Counts counts = KillSheetReader.read(Source.of(killSheet), format, run);
            if (writer != null) {
                writer.finish();
            }
            if (found != null) {
                found.finish();
            }
            fit.write(outputs);
            DayReport report = run.report(counts);
            if (page != null) {
                outputs.write(page, HtmlPage.of(report.title(), report.toHtml()));
            }
            outputs.finish();
            run.print(print, report);
            return run.findings.refusals() == 0 ? ExitCode.GOOD : ExitCode.SOME_REFUSED;
        } catch (MissingPriceException e) {
            throw new InvalidDataException(
                    List.of(new Problem(String.valueOf(prices), 0, "", "", String.valueOf(e.getMessage()))), e);
        }
    }

    private EstimateWriter writer(Path file, YieldEstimator estimator, @Nullable Valuer valuer, Outputs outputs) {
        EstimateWriter writer =
                wide ? EstimateWriter.wide(file, estimator, outputs) : new EstimateWriter(file, valuer, outputs);
        return sameForm ? writer.in(form) : writer;
    }

    private YieldEstimator estimator(YieldTable yieldTable) {
        try {
            YieldEstimator estimator = YieldEstimator.of(yieldTable);
            if (specification != null) {
                estimator = estimator.withSpecification(specification);
            }
            estimator = mince == null ? estimator : estimator.with(mince);
            return ownHall ? estimator.inOwnHall() : estimator;
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(String.valueOf(e.getMessage()));
        }
    }

    private Valuer valuer(Path file, YieldEstimator estimator, List<Problem> notes) {
        PriceList list = PriceListReader.read(Source.of(file), form, notes::add);
        return bound(
                file, () -> valueLevel == null ? Valuer.of(list, estimator) : Valuer.of(list, estimator, valueLevel));
    }

    private FitReports fit(
            YieldEstimator estimator,
            @Nullable Valuer valuer,
            List<MarketSpecification> markets,
            @Nullable PaymentGrid payment) {
        PackFit packs = windows == null || valuer == null
                ? null
                : bound(windows, () -> PackFit.of(valuer, SizeWindowReader.read(Source.of(windows), form)));
        Overfat overfat = fatTarget == null
                ? null
                : (valuer == null ? Overfat.against(estimator, fatTarget) : Overfat.against(valuer, fatTarget))
                        .with(edge);
        MarketSpecification wanted = markets.isEmpty() ? null : markets.get(0);
        FeedbackSheets.Collector sheets = feedback == null ? null : sheets(estimator, wanted, overfat, valuer, payment);
        return new FitReports(
                markets.isEmpty() ? null : new MarketLists(markets),
                packs == null ? null : new WindowLists(packs, page != null),
                overfat,
                sheets,
                feedback);
    }

    private FeedbackSheets.Collector sheets(
            YieldEstimator estimator,
            @Nullable MarketSpecification wanted,
            @Nullable Overfat overfat,
            @Nullable Valuer valuer,
            @Nullable PaymentGrid paid) {
        FeedbackSheets.Builder sheets = FeedbackSheets.builder(estimator);
        if (costs != null && paid != null) {
            sheets.timeOfSale(timeOfSale(costs, paid, wanted));
        }
        if (wanted != null) {
            sheets.market(wanted);
        }
        if (overfat != null) {
            sheets.overfat(overfat);
        }
        if (valuer != null) {
            if (feedbackValue) {
                sheets.shownPrices(valuer);
            } else {
                sheets.prices(valuer);
            }
        }
        return sheets.collector();
    }

    private @Nullable Paid paid(@Nullable Valuer valuer, @Nullable PaymentGrid payment) {
        if (grid == null || payment == null || valuer == null) {
            return null;
        }
        return bound(grid, () -> new Paid(valuer, payment));
    }

    private SaleAdvice timeOfSale(Path file, PaymentGrid paid, @Nullable MarketSpecification wanted) {
        HoldingSheet held = HoldingReader.read(Source.of(file), form);
        HoldOrSell.Builder decides =
                HoldOrSell.builder(paid).costs(held.costs()).assumptions(held.assumptions());
        if (wanted != null) {
            decides.market(wanted);
        }
        return bound(file, () -> {
            if (!held.currency().isEmpty() && !held.currency().equals(paid.currency())) {
                throw new IllegalArgumentException(
                        "costs are in " + held.currency() + ", but " + paid.currency() + " is paid; give both in one");
            }
            return SaleAdvice.of(
                    decides.build(),
                    held.gain()
                            .orElseThrow(() -> new IllegalArgumentException(
                                    "the file doesn't say what animals gain; a row gain says it, in kg a day"))
                            .at(0));
        });
    }

    private PaymentGrid payment(Path file, @Nullable MarketSpecification wanted) {
        PaymentGrid paid = PaymentGridReader.read(Source.of(file), form, GradeReading.THIRDS)
                .with(edge);
        if (paid.asksForSpecification() && wanted == null) {
            throw new InvalidDataException(List.of(new Problem(
                    file.toString(),
                    0,
                    "line",
                    "specification",
                    "the grid has a bonus for being in specification: say with --market what that is")));
        }
        return wanted == null ? paid : paid.with(wanted);
    }

    /** What a file says may not go with the table or with another file. */
    private static <T> T bound(Path file, Supplier<T> binding) {
        try {
            return binding.get();
        } catch (IllegalArgumentException e) {
            throw new InvalidDataException(
                    List.of(new Problem(file.toString(), 0, "", "", String.valueOf(e.getMessage()))), e);
        }
    }

    /** One run over a kill sheet. */
    private final class Run implements KillSheetHandler {
        private final LotEstimate.Collector collector;
        private final Findings findings;
        private final @Nullable PrintStream progressTo;
        private final YieldEstimator chosen;
        private final YieldTable yieldTable;
        private final @Nullable Valuer valuer;
        private final @Nullable Paid paid;
        private final FitReports fit;
        private final @Nullable EstimateWriter writer;
        private final TrimmedParts.Collector trimmed;
        private long estimated;
        private long condemned;
        private double worth;
        private boolean isTrimmed;

        Run(
                YieldEstimator chosen,
                @Nullable Valuer valuer,
                @Nullable Paid paid,
                FitReports fit,
                @Nullable EstimateWriter writer,
                Findings findings,
                @Nullable PrintStream progressTo) {
            this.fit = fit;
            this.writer = writer;
            this.findings = findings;
            this.progressTo = progressTo;
            this.chosen = chosen;
            this.valuer = valuer;
            this.paid = paid;
            yieldTable = chosen.table();
            collector = chosen.collector();
            trimmed = TrimmedParts.collector(chosen);
        }

        @Override
        public void entry(KillSheetEntry entry) {
            Carcass carcass = entry.carcass();
            try {
                collector.add(carcass);
                if (writer != null) {
                    writer.write(chosen.estimate(carcass), entry.otherColumns());
                }
                estimated++;
                worth += valuer == null ? 0 : valuer.value(carcass).amount();
                addPaid(entry);
                fit.add(carcass);
                if (!entry.trimmedKgByRegion().isEmpty()) {
                    trimmed.add(carcass, entry.trimmedKgByRegion());
                    isTrimmed = true;
                }
            } catch (RefusedCarcassException e) {
                findings.refuse(new Problem(
                        killSheet.toString(),
                        entry.line(),
                        "",
                        carcass.id().orElse(""),
                        "carcass " + carcass.id().orElse("") + ": " + e.getMessage()));
            }
        }

        private void addPaid(KillSheetEntry entry) {
            if (paid == null) {
                return;
            }
            try {
                paid.add(entry.carcass());
            } catch (IllegalArgumentException e) {
                findings.note(new Problem(
                        killSheet.toString(),
                        entry.line(),
                        "",
                        entry.carcass().toString(),
                        e.getMessage() + "; its payment and margin are left out"));
            }
        }

        @Override
        public void problem(Problem problem) {
            findings.refuse(problem);
        }

        @Override
        public void note(Problem note) {
            findings.note(note);
        }

        @Override
        public void progress(KillSheet.Progress sofar) {
            if (progressTo != null) {
                long refused = sofar.rows() - estimated - condemned;
                progressTo.println(killSheet + ": " + sofar.rows() + (sofar.rows() == 1 ? " row, " : " rows, ")
                        + Math.round(sofar.rowsPerSecond()) + " a second, " + refused + " refused");
            }
        }

        @Override
        public void condemned(KillSheet.Condemned carcass) {
            condemned++;
        }

        /** All that is printed of the carcasses, and stands on the page. */
        DayReport report(KillSheet.Counts counts) {
            long refused = counts.rows() - counts.condemned() - estimated;
            Day.Builder day = Day.builder("Kill sheet " + killSheet)
                    .rows(counts.rows(), counts.condemned(), refused)
                    .refusals(findings.reasons())
                    .otherReasons(findings.otherReasons());
            if (promise != null) {
                day.promise(promise / 100);
            }
            fit.markets().forEach(day::market);
            if (estimated == 0) {
                return new DayReport(day.build())
                        .sentence("No carcass could be estimated with table " + yieldTable.identity());
            }
            LotEstimate lot = collector.lot();
            Value value = valuer == null ? null : valuer.value(lot);
            day.lot(lot);
            if (value != null) {
                day.value(value, worth);
            }
            Overpayment overpayment = null;
            if (paid != null) {
                day.margins(paid.margins());
                overpayment = paid.overpayment();
            }
            if (overpayment != null) {
                day.overpayment(overpayment);
            }
            DayReport report = new DayReport(day.build()).picture(Pictures.gradeCounts(lot));
            fit.pictures().forEach(report::picture);
            if (paid != null) {
                report.add("What was paid", paid.margins());
                if (overpayment != null) {
                    report.add("Who was overpaid, and for what", overpayment);
                }
                paid.words().forEach(report::sentence);
                paid.why(collector).ifPresent(why -> report.picture(Pictures.attribution(why)));
            }
            report.add("What the lot yields", lot);
            if (isTrimmed) {
                report.add("What was trimmed", trimmed.result());
            }
            addPromises(report, lot);
            addKinds(report, lot);
            addValue(report, lot, value);
            report.picture(Pictures.breakdown(lot));
            fit.shown().forEach(report::add);
            return report;
        }

        void print(PrintStream print, DayReport report) {
            print.print(report.toText());
            fit.print(print);
            findings.printNotes(print);
            if (findings.refusals() > 0) {
                print.println();
                print.println("Refused, " + report.refused() + (report.refused() == 1 ? " row:" : " rows:"));
                findings.printRefusals(print);
            }
            if (out != null) {
                print.println();
                print.println("Estimates written to " + out);
                sums().forEach(print::println);
            }
            if (page != null) {
                print.println();
                print.println("Page written to " + page);
            }
            if (problems != null) {
                print.println();
                print.println("Refusals and notes written to " + problems + ": " + findings.refusals() + " and "
                        + findings.notes());
            }
        }

        /** How the values in the file come to the worth. */
        private List<String> sums() {
            if (writer == null || valuer == null || wide || estimated == 0) {
                return List.of();
            }
            Value value = valuer.value(collector.lot());
            double others = value.lines().stream()
                    .filter(line -> line.code().isEmpty())
                    .mapToDouble(ValueLine::amount)
                    .sum();
            Money all = valuer.prices().money(worth);
            Money beside = valuer.prices().money(others);
            Money inFile = Money.of(writer.valueTotal(), all.currency());
            Money rounded = all.minus(beside).minus(inFile);
            return List.of("Its values add up to " + Numbers.grouped(inFile.amountText()) + " " + inFile.currency()
                    + "; with " + Numbers.grouped(beside.amountText())
                    + " of other income and cost, which has no row, and " + Numbers.grouped(rounded.amountText())
                    + " of rounding it is the worth of " + Numbers.grouped(all.amountText()));
        }

        private void addValue(DayReport report, LotEstimate lot, @Nullable Value value) {
            if (value == null || valuer == null) {
                return;
            }
            report.add("What it is worth", value);
            Category most = Collections.max(lot.categories().entrySet(), Map.Entry.comparingByValue())
                    .getKey();
            double kg = Math.rint(lot.coldWeightKg() / lot.carcasses());
            try {
                report.sentence(
                        Attribution.of(valuer.value(carcass(most, "U=", kg)), valuer.value(carcass(most, "O=", kg)))
                                .sentence());
            } catch (RefusedCarcassException e) {
                report.sentence("U= 3= and O= 3= can't be compared: " + e.getMessage());
            }
        }

        private void addPromises(DayReport report, LotEstimate lot) {
            if (ownHall && !hallsDiffer(lot.counting(UncertaintyPart.all()))) {
                report.sentence("--own-hall changes nothing: table " + yieldTable.identity()
                        + " states nothing of how halls differ");
            }
            if (promise != null) {
                report.add(
                        "",
                        new Blocks()
                                .sentence(Numbers.brief(promise) + " % sure to come out, each cut by itself:")
                                .add(lot.promiseTable(promise / 100)));
            }
        }

        private boolean hallsDiffer(LotEstimate inAnyHall) {
            return yieldTable.levels().stream()
                    .flatMap(level -> inAnyHall.lines(level).stream())
                    .anyMatch(line -> inAnyHall.sd(Figure.cut(line.level(), line.code()), UncertaintyPart.HALL) > 0);
        }

        private Carcass carcass(Category category, String conformation, double kg) {
            return Carcass.of(category, Conformation.parse(conformation), FatClass.parse("3="), kg);
        }

        private void addKinds(DayReport report, LotEstimate lot) {
            List<LotEstimate> bySpecification =
                    yieldTable.specifications().stream().map(lot::under).toList();
            if (bySpecification.size() > 1) {
                report.add(
                        "",
                        new Blocks()
                                .sentence("The same lot under each cutting specification:")
                                .add(Outturn.kindTable(bySpecification)));
            }
        }
    }
}
