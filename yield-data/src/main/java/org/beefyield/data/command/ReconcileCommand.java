package org.beefyield.data.command;

import java.io.PrintStream;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Intake;
import org.beefyield.boning.Product;
import org.beefyield.boning.Trace;
import org.beefyield.boning.TraceFinding;
import org.beefyield.carcass.Carcass;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Outputs;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.boning.BoningRunSheet;
import org.beefyield.data.boning.EpcisWriter;
import org.beefyield.data.file.HtmlPage;
import org.beefyield.data.frame.FrameFile;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Refusal;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.PriceList;
import org.beefyield.price.Valuer;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** What came off the line against what should have: a run, or a season of them; or where carcasses and boxes went. */
final class ReconcileCommand {
    static final String USAGE = """
            Sets what boning runs weighed against what their carcasses should have returned.
              reconcile --intake FILE      what went in (CSV), a row for each carcass, side or quarter
              --boxes FILE                 what was packed (CSV), a row for each box
              --products FILE              what is packed under which code (CSV), and which cuts go into it
              --rest FILE                  bone, fat and the like that was weighed beside the boxes (CSV)
              --prices FILE                price list (CSV): money too
              --table FOLDER|ZIP           yield table, or the name of a shipped edition; else the edition boneless-2026
              --specification NAME         how primals are cut: a specification of the table; else its first
              --day DAY                    the run that is shown, such as 2026-11-03; else the last
              --report FILE                write what is printed as a page (HTML), with pictures
              --out FILE                   where the figures go (CSV), a row for each run and group of products, or of one run for
                                           each group; with --carcass or --box a row for each box of the list
            Where carcasses and boxes went, instead of what was weighed:
              --carcass ID,ID,...          every box that may hold of these carcasses
              --box ID,ID,...              what these boxes came from, and all that is to be called back with them
            For whoever keeps the events of the chain:
              --epcis FILE                 write the runs as events (GS1 EPCIS 2.0, JSON); needs --address and --zone
              --address URL                what things are named under, such as https://id.tarrowmere.example/
              --zone NAME                  time zone of the halls, such as Europe/Dublin
            If the files aren't comma-separated UTF-8 with decimal points:
            """ + FormOptions.USAGE + """
            Exit code 0: all good; 4: some rows are refused or some runs left out; 2: it could not run.
            """;

    private static final List<String> NAMED = Stream.of(
                    RunFiles.NAMED,
                    List.of(
                            "--prices",
                            "--table",
                            "--specification",
                            "--day",
                            "--report",
                            "--out",
                            "--carcass",
                            "--box",
                            "--epcis",
                            "--address",
                            "--zone"),
                    FormOptions.NAMED)
            .flatMap(List::stream)
            .toList();
    private static final List<String> FLAGS =
            Stream.concat(Stream.of("--help"), FormOptions.FLAGS.stream()).toList();

    /** Findings that are said one by one. */
    private static final int LISTED = 20;

    private final CsvForm form;
    private final RunFiles files;
    private final @Nullable Path prices;
    private final @Nullable NamedTable table;
    private final @Nullable String specification;
    private final @Nullable String day;
    private final @Nullable Path report;
    private final @Nullable Path out;
    private final @Nullable RecallQuestion question;
    private final @Nullable Events events;

    /** Where and how events are written. */
    private record Events(Path file, URI address, ZoneId zone) {}

    ReconcileCommand(List<String> arguments) {
        Options options = new Options(arguments, NAMED, FLAGS);
        form = FormOptions.form(options);
        files = RunFiles.of(options);
        prices = options.optionalPath("--prices");
        table = NamedTable.optional(options, "--table");
        specification = options.value("--specification");
        day = options.value("--day");
        report = options.optionalPath("--report");
        out = options.optionalPath("--out");
        question = RecallQuestion.optional(options);
        events = events(options);
    }

    private static @Nullable Events events(Options options) {
        Path file = options.optionalPath("--epcis");
        String address = options.value("--address");
        String zone = options.value("--zone");
        if (file == null) {
            if (address != null || zone != null) {
                throw new Options.UsageException((address != null ? "--address" : "--zone") + " needs --epcis");
            }
            return null;
        }
        if (address == null || zone == null) {
            throw new Options.UsageException("--epcis needs " + (address == null ? "--address" : "--zone"));
        }
        try {
            return new Events(file, new URI(address), ZoneId.of(zone));
        } catch (URISyntaxException e) {
            throw new Options.UsageException("--address \"" + address
                    + "\" is no address to name things under, such as https://id.tarrowmere.example/");
        } catch (DateTimeException e) {
            throw new Options.UsageException("--zone \"" + zone + "\" is no time zone such as Europe/Dublin");
        }
    }

    int run(PrintStream print) {
        try (Outputs outputs = new Outputs()) {
            nameFiles(outputs);
            return run(print, outputs);
        }
    }

    /** Says what is read and written, so that a clash is refused before anything is. */
    private void nameFiles(Outputs outputs) {
        files.claim(outputs);
        if (prices != null) {
            outputs.input("--prices", prices);
        }
        if (table != null) {
            table.claim(outputs);
        }
        Map<String, @Nullable Path> written = new LinkedHashMap<>();
        written.put("--report", report);
        written.put("--out", out);
        written.put("--epcis", events == null ? null : events.file);
        written.forEach((name, path) -> {
            if (path != null) {
                outputs.file(name, path);
            }
        });
    }

    private int run(PrintStream print, Outputs outputs) {
        YieldTable yieldTable = NamedTable.readOrShipped(table);
        YieldEstimator estimator = YieldEstimator.of(yieldTable, specification(yieldTable));
        List<Problem> notes = new ArrayList<>();
        Valuer valuer = prices == null ? null : valuer(prices, estimator, notes);
        List<Product> known = files.products(form, yieldTable);
        BoningRunSheet sheet = files.sheet(known, form, yieldTable);
        notes.addAll(sheet.notes());
        Trace trace = Trace.of(sheet.runs());
        List<String> leftOut = new ArrayList<>();
        RunsReport body = new RunsReport();
        if (question != null) {
            body.found(RecallQuestion.lacking(sheet.incomplete().keySet()));
            body.answer(question.answer(trace, sheet.runs(), sheet.problems()));
        } else {
            List<BoningRun> runs = usable(sheet, estimator, leftOut);
            body.judge(runs, estimator, valuer, known, day, leftOut);
        }
        body.found(findings(trace));
        if (question == null) {
            body.found(Cautions.of(yieldTable));
        }
        List<String> head = RunFiles.head(sheet, notes, leftOut);
        List<String> written = write(outputs, sheet, head, body);
        outputs.finish();
        head.forEach(print::println);
        print.println();
        print.print(body.toText());
        if (!written.isEmpty()) {
            print.println();
            written.forEach(print::println);
        }
        return sheet.problems().isEmpty() && leftOut.isEmpty() ? ExitCode.GOOD : ExitCode.SOME_REFUSED;
    }

    /** What doesn't hold together, and how much more of that there is. */
    private static List<String> findings(Trace trace) {
        List<TraceFinding> all = trace.findings();
        if (all.isEmpty()) {
            return List.of();
        }
        List<String> said = new ArrayList<>();
        said.add("What doesn't hold together in the records, " + Numbers.counted(all.size(), "finding", "findings")
                + ":");
        all.stream().limit(LISTED).map(TraceFinding::words).forEach(said::add);
        if (all.size() > LISTED) {
            said.add("and " + (all.size() - LISTED) + " more");
        }
        return said;
    }

    /** Writes what was asked for, and says it. */
    private List<String> write(Outputs outputs, BoningRunSheet sheet, List<String> head, RunsReport body) {
        List<String> written = new ArrayList<>();
        if (out != null) {
            if (body.frame().isPresent()) {
                FrameFile.write(body.frame().orElseThrow(), out, outputs);
                written.add("Figures written to " + out);
            } else {
                written.add("Nothing is written to " + out + ": there is no run to write of");
            }
        }
        if (events != null) {
            written.add(writeEvents(events, sheet, outputs));
        }
        if (report != null) {
            Blocks found =
                    new Blocks().sentences(head.stream().map(String::strip).toList());
            outputs.write(
                    report,
                    HtmlPage.of("Boning runs from " + files.intake().getFileName(), found.toHtml() + body.toHtml()));
            written.add("Page written to " + report);
        }
        return written;
    }

    /** Writes runs that are whole: half of what was packed is no event. */
    private static String writeEvents(Events events, BoningRunSheet sheet, Outputs outputs) {
        List<BoningRun> whole = sheet.runs().stream()
                .filter(run -> !sheet.incomplete().containsKey(run.name()))
                .toList();
        try {
            EpcisWriter.write(whole, events.address, events.zone, Instant.now(), events.file, outputs);
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException("--address " + e.getMessage());
        }
        int lacking = sheet.runs().size() - whole.size();
        return "Events of " + Numbers.counted(whole.size(), "run", "runs") + " written to " + events.file
                + (lacking == 0
                        ? ""
                        : "; left out: " + Numbers.counted(lacking, "run", "runs") + " that may lack rows");
    }

    private CuttingSpecification specification(YieldTable yieldTable) {
        if (specification != null) {
            return bound(() -> yieldTable.specification(specification));
        }
        List<CuttingSpecification> all = yieldTable.specifications();
        return all.isEmpty() ? CuttingSpecification.NONE : all.get(0);
    }

    private Valuer valuer(Path file, YieldEstimator estimator, List<Problem> notes) {
        PriceList list = PriceListReader.read(Source.of(file), form, notes::add);
        try {
            return Valuer.of(list, estimator);
        } catch (IllegalArgumentException e) {
            throw new InvalidDataException(
                    List.of(new Problem(file.toString(), 0, "", "", String.valueOf(e.getMessage()))), e);
        }
    }

    private static <T> T bound(Supplier<T> binding) {
        try {
            return binding.get();
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(String.valueOf(e.getMessage()));
        }
    }

    /** Runs that are whole, and of which every carcass has an estimate. */
    static List<BoningRun> usable(BoningRunSheet sheet, YieldEstimator estimator, List<String> leftOut) {
        // quarters of a carcass are of one grade
        Map<Carcass, List<String>> refusals = new HashMap<>();
        List<BoningRun> usable = new ArrayList<>();
        for (BoningRun run : sheet.runs()) {
            Set<String> reasons = new LinkedHashSet<>();
            String lacking = sheet.incomplete().get(run.name());
            if (lacking != null) {
                reasons.add(lacking);
            }
            for (Intake piece : run.boned()) {
                refusals.computeIfAbsent(piece.carcass(), carcass -> refusals(carcass, estimator))
                        .forEach(reason -> reasons.add("carcass " + piece.id() + ": " + reason));
            }
            if (run.boned().isEmpty()) {
                reasons.add("nothing was boned");
            }
            if (reasons.isEmpty()) {
                usable.add(run);
            } else {
                leftOut.add(run.name() + " is left out: " + String.join("; ", reasons));
            }
        }
        Set<String> read = sheet.runs().stream().map(BoningRun::name).collect(Collectors.toSet());
        sheet.incomplete().forEach((name, why) -> {
            if (!read.contains(name)) {
                leftOut.add(name + " is left out: " + why);
            }
        });
        return usable;
    }

    private static List<String> refusals(Carcass carcass, YieldEstimator estimator) {
        return estimator.tryEstimate(carcass).reasons().stream()
                .map(Refusal::toString)
                .toList();
    }
}
