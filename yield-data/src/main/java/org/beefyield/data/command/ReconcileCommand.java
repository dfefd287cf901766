package org.beefyield.data.command;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Intake;
import org.beefyield.boning.Product;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Outputs;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.boning.BoningRunReader;
import org.beefyield.data.boning.BoningRunSheet;
import org.beefyield.data.boning.ProductReader;
import org.beefyield.data.trade.PriceListReader;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.Refusal;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.price.PriceList;
import org.beefyield.price.Valuer;
import org.beefyield.reconcile.Reconciliation;
import org.beefyield.reconcile.Season;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Blocks;
import org.beefyield.text.Shown;
import org.jspecify.annotations.Nullable;

/** What came off the line against what should have: a run, or a season of them. */
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
              --report FILE                write what is printed as a page (HTML)
            If the files aren't comma-separated UTF-8 with decimal points:
            """ + FormOptions.USAGE + """
            Exit code 0: all good; 4: some rows are refused or some runs left out; 2: it could not run.
            """;

    private static final List<String> NAMED = Stream.concat(
                    Stream.of(
                            "--intake",
                            "--boxes",
                            "--products",
                            "--rest",
                            "--prices",
                            "--table",
                            "--specification",
                            "--day",
                            "--report"),
                    FormOptions.NAMED.stream())
            .toList();
    private static final List<String> FLAGS =
            Stream.concat(Stream.of("--help"), FormOptions.FLAGS.stream()).toList();

    private final CsvForm form;
    private final Path intake;
    private final Path boxes;
    private final Path products;
    private final @Nullable Path rest;
    private final @Nullable Path prices;
    private final @Nullable NamedTable table;
    private final @Nullable String specification;
    private final @Nullable String day;
    private final @Nullable Path report;

    ReconcileCommand(List<String> arguments) {
        Options options = new Options(arguments, NAMED, FLAGS);
        form = FormOptions.form(options);
        intake = Options.path(options.needed("--intake"));
        boxes = Options.path(options.needed("--boxes"));
        products = Options.path(options.needed("--products"));
        rest = options.optionalPath("--rest");
        prices = options.optionalPath("--prices");
        table = NamedTable.optional(options, "--table");
        specification = options.value("--specification");
        day = options.value("--day");
        report = options.optionalPath("--report");
    }

    int run(PrintStream print) {
        try (Outputs outputs = new Outputs()) {
            Map<String, Path> inputs = new LinkedHashMap<>();
            inputs.put("--intake", intake);
            inputs.put("--boxes", boxes);
            inputs.put("--products", products);
            if (rest != null) {
                inputs.put("--rest", rest);
            }
            if (prices != null) {
                inputs.put("--prices", prices);
            }
            inputs.forEach(outputs::input);
            if (table != null) {
                table.claim(outputs);
            }
            if (report != null) {
                outputs.file("--report", report);
            }
            return run(print, outputs);
        }
    }

    private int run(PrintStream print, Outputs outputs) {
        YieldTable yieldTable = NamedTable.readOrShipped(table);
        YieldEstimator estimator = YieldEstimator.of(yieldTable, specification(yieldTable));
        Valuer valuer = prices == null ? null : valuer(prices, estimator);
        List<Product> known = ProductReader.read(Source.of(products), form, yieldTable);
        BoningRunSheet sheet = BoningRunReader.read(
                Source.of(intake), Source.of(boxes), rest == null ? null : Source.of(rest), known, form);
        List<String> leftOut = new ArrayList<>();
        List<BoningRun> runs = usable(sheet, estimator, leftOut);
        print.println("Runs: " + sheet);
        sheet.problems().forEach(problem -> print.println("  " + problem));
        sheet.notes().forEach(note -> print.println("Note: " + note));
        leftOut.forEach(print::println);
        print.println();
        Blocks blocks = new Blocks();
        for (List<BoningRun> hall : byHall(runs)) {
            shown(hall, estimator, valuer, known).forEach(blocks::add);
        }
        blocks.sentences(Cautions.of(yieldTable));
        print.print(blocks.toText());
        if (report != null) {
            String title = "Boning runs from " + intake.getFileName();
            String found = new Blocks().sentences(leftOut).toHtml();
            outputs.write(report, Page.of(title, found + blocks.toHtml()));
        }
        outputs.finish();
        return sheet.problems().isEmpty() && leftOut.isEmpty() ? ExitCode.GOOD : ExitCode.SOME_REFUSED;
    }

    private CuttingSpecification specification(YieldTable yieldTable) {
        if (specification != null) {
            return bound(() -> yieldTable.specification(specification));
        }
        List<CuttingSpecification> all = yieldTable.specifications();
        return all.isEmpty() ? CuttingSpecification.NONE : all.get(0);
    }

    private Valuer valuer(Path file, YieldEstimator estimator) {
        PriceList list = PriceListReader.read(Source.of(file), form);
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
    private static List<BoningRun> usable(BoningRunSheet sheet, YieldEstimator estimator, List<String> leftOut) {
        List<BoningRun> usable = new ArrayList<>();
        for (BoningRun run : sheet.runs()) {
            Set<String> reasons = new LinkedHashSet<>();
            if (sheet.incomplete().contains(run.name())) {
                reasons.add("rows of it are refused");
            }
            for (Intake piece : run.boned()) {
                estimator.tryEstimate(piece.carcass()).reasons().stream()
                        .map(Refusal::toString)
                        .forEach(reasons::add);
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
        return usable;
    }

    private static List<List<BoningRun>> byHall(List<BoningRun> runs) {
        Map<String, List<BoningRun>> byHall = new LinkedHashMap<>();
        runs.forEach(run ->
                byHall.computeIfAbsent(run.hall(), hall -> new ArrayList<>()).add(run));
        return List.copyOf(byHall.values());
    }

    /** The run asked for; of several first the season. */
    private List<Shown> shown(
            List<BoningRun> hall, YieldEstimator estimator, @Nullable Valuer valuer, List<Product> known) {
        Season season = valuer == null ? Season.of(hall, estimator, known) : Season.of(hall, valuer, known);
        List<Reconciliation> runs = season.runs();
        String name =
                hall.get(0).hall().isEmpty() ? String.valueOf(day) : hall.get(0).hall() + " " + day;
        Reconciliation one = day == null
                ? runs.get(runs.size() - 1)
                : runs.stream()
                        .filter(run -> run.run().equals(name))
                        .findFirst()
                        .orElseThrow(() ->
                                new Options.UsageException("--day \"" + day + "\": there is no such run; there are "
                                        + runs.get(0).run() + " to "
                                        + runs.get(runs.size() - 1).run()));
        return runs.size() == 1 ? List.of(one) : List.of(season, one);
    }
}
