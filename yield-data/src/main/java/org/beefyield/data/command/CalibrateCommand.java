package org.beefyield.data.command;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.beefyield.boning.TrialSet;
import org.beefyield.calibrate.Calibrated;
import org.beefyield.calibrate.Calibration;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Outputs;
import org.beefyield.data.Source;
import org.beefyield.data.boning.TrialLayout;
import org.beefyield.data.boning.TrialLayoutReader;
import org.beefyield.data.boning.TrialReader;
import org.beefyield.data.boning.TrialSheet;
import org.beefyield.data.table.TableWriter;
import org.beefyield.estimate.Cautions;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TableComparison;
import org.beefyield.table.TableOverride;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Blocks;
import org.jspecify.annotations.Nullable;

/** From boning trials to a table of one's own: prints what the trials say, writes the table and what it changes. */
final class CalibrateCommand {
    static final String USAGE = """
            Makes a plant's own table from its own boning trials.
              calibrate --trials FILE      trials (CSV), a row for each carcass
              --layout FILE                what the columns of the trials hold (CSV), if they are in another form than ours; it says
                                           which cuts were weighed together too
              --out FOLDER|ZIP             where the table goes; else only print
              --baseline FOLDER|ZIP        the table to start from, the prior table of the report, and to compare with, or the
                                           name of a shipped edition; else the shipped edition boneless-2026
              --name NAME                  name of the new table; else that of the baseline with -calibrated
              --version VERSION            version of the new table; else 1
              --specification NAME         cutting specification of the baseline that was cut to; else its first
              --group NAME=CUT+CUT,...     groups of cuts that were weighed together, each a column of the trials
              --terms COLUMN,...           terms that may be learnt; all others stay as in the baseline; else all
              --categories together|levels|apart
                                           whether categories move alike, each by its own level as far as the baseline
                                           has errors of its own for it, or are learnt each from its own trials; else levels
              --without-baseline           what the baseline knows counts for nothing: the trials alone say
              --report FILE                write the report and the comparison as a page (HTML)
            If the trials aren't comma-separated UTF-8 with decimal points:
            """ + FormOptions.USAGE + """
            There is always a table: how much is learnt of each breakdown is what errs least on days that it wasn't fitted to, and
            no more than the table keeps its promises with; the report says what was given up.
            Exit code 0: all good; 4: some trials are left out; 2: it could not run.
            """;

    private static final List<String> OWN_NAMED = List.of(
            "--trials",
            "--layout",
            "--out",
            "--baseline",
            "--name",
            "--version",
            "--specification",
            "--group",
            "--terms",
            "--categories",
            "--report");
    private static final List<String> NAMED =
            Stream.concat(OWN_NAMED.stream(), FormOptions.NAMED.stream()).toList();
    private static final List<String> FLAGS = Stream.concat(
                    Stream.of("--without-baseline", "--help"), FormOptions.FLAGS.stream())
            .toList();

    private static final Pattern COMMA = Pattern.compile(",");
    private static final Pattern PLUS = Pattern.compile("\\+");

    private final CsvForm form;
    private final Path trials;
    private final @Nullable Path layout;
    private final @Nullable Path out;
    private final @Nullable NamedTable baseline;
    private final @Nullable String name;
    private final String version;
    private final @Nullable String specification;
    private final Map<String, List<String>> groups;
    private final List<String> terms;
    private final Calibration.Categories categories;
    private final boolean withoutBaseline;
    private final @Nullable Path report;

    CalibrateCommand(List<String> arguments) {
        Options options = new Options(arguments, NAMED, FLAGS);
        form = FormOptions.form(options);
        trials = Options.path(options.needed("--trials"));
        layout = options.optionalPath("--layout");
        out = options.optionalPath("--out");
        baseline = NamedTable.optional(options, "--baseline");
        name = options.value("--name");
        version = options.valueOr("--version", "1");
        specification = options.value("--specification");
        groups = groups(options.value("--group"));
        if (layout != null && !groups.isEmpty()) {
            throw new Options.UsageException("--group and --layout don't go together; the layout has the groups");
        }
        String given = options.value("--terms");
        terms = given == null ? List.of() : COMMA.splitAsStream(given).toList();
        categories = categories(options.valueOr("--categories", "levels"));
        withoutBaseline = options.has("--without-baseline");
        report = options.optionalPath("--report");
    }

    private static Map<String, List<String>> groups(@Nullable String given) {
        Map<String, List<String>> groups = new LinkedHashMap<>();
        for (String group :
                given == null ? List.<String>of() : COMMA.splitAsStream(given).toList()) {
            int equals = group.indexOf('=');
            List<String> cuts = PLUS.splitAsStream(group.substring(equals + 1)).toList();
            if (equals < 1 || cuts.size() < 2) {
                throw new Options.UsageException(
                        "--group \"" + group + "\" is not a name and its cuts, such as rounds=topside+silverside");
            }
            if (groups.put(group.substring(0, equals), cuts) != null) {
                throw new Options.UsageException("--group \"" + group.substring(0, equals) + "\" stands twice");
            }
        }
        return groups;
    }

    private static Calibration.Categories categories(String given) {
        return switch (given) {
            case "together" -> Calibration.Categories.TOGETHER;
            case "levels" -> Calibration.Categories.LEVELS;
            case "apart" -> Calibration.Categories.APART;
            default ->
                throw new Options.UsageException("--categories \"" + given + "\" is none of together, levels, apart");
        };
    }

    int run(PrintStream print) {
        try (Outputs outputs = new Outputs()) {
            outputs.input("--trials", trials);
            if (layout != null) {
                outputs.input("--layout", layout);
            }
            if (baseline != null) {
                baseline.claim(outputs);
            }
            if (out != null) {
                outputs.table("--out", out);
            }
            if (report != null) {
                outputs.file("--report", report);
            }
            return run(print, outputs);
        }
    }

    private int run(PrintStream print, Outputs outputs) {
        YieldTable prior = NamedTable.readOrShipped(baseline);
        String newName = name == null ? prior.definition().name() + "-calibrated" : name;
        CuttingSpecification cutTo = specification(prior);
        TrialLayout laidOut = layout == null ? null : TrialLayoutReader.read(Source.of(layout), form, prior);
        Map<String, List<String>> together = laidOut == null ? groups : laidOut.groups();
        bound(() -> TrialSet.of(prior, cutTo, together, List.of()));
        // a name that no table may have shall not come out at the end
        bound(() -> TableOverride.of(prior, newName, version).build());
        TrialSheet sheet = laidOut == null
                ? TrialReader.read(Source.of(trials), form, prior, together.keySet())
                : TrialReader.read(Source.of(trials), form, laidOut);
        TrialSet set = TrialSet.of(prior, cutTo, together, sheet.trials());
        Calibration calibration = bound(() -> calibration(set));
        print.println("Trials " + sheet);
        sheet.problems().forEach(problem -> print.println("  " + problem));
        print.println();
        Calibrated calibrated = calibration.fit();
        List<String> remarks = new ArrayList<>();
        print.print(calibrated.toText());
        print.println();
        YieldTable table = calibrated.table(newName, version);
        if (out != null) {
            // the writer makes sure that it reads back as it is
            TableWriter.write(table, out, outputs);
            remarks.add("Table " + table.identity() + " written to " + out);
        }
        TableComparison comparison = TableComparison.of(prior, table);
        if (report != null) {
            String title = "Calibration from " + trials.getFileName();
            outputs.write(report, Page.of(title, page(calibrated, comparison, remarks)));
        }
        outputs.finish();
        remarks.forEach(print::println);
        print.print((remarks.isEmpty() ? "" : "\n") + comparison.toText());
        if (report != null) {
            print.println();
            print.println("Page written to " + report);
        }
        return sheet.problems().isEmpty() && set.refused().isEmpty() ? ExitCode.GOOD : ExitCode.SOME_REFUSED;
    }

    private CuttingSpecification specification(YieldTable prior) {
        if (specification != null) {
            return bound(() -> prior.specification(specification));
        }
        List<CuttingSpecification> all = prior.specifications();
        return all.isEmpty() ? CuttingSpecification.NONE : all.get(0);
    }

    private Calibration calibration(TrialSet set) {
        Calibration calibration = Calibration.of(set).withCategories(categories);
        calibration = terms.isEmpty() ? calibration : calibration.withTerms(terms.toArray(String[]::new));
        return withoutBaseline ? calibration.withoutPrior() : calibration;
    }

    /** What options say may not go with the table. */
    private static <T> T bound(Supplier<T> binding) {
        try {
            return binding.get();
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(String.valueOf(e.getMessage()));
        } catch (InvalidTableException e) {
            throw new Options.UsageException(e.problems().get(0).toString());
        }
    }

    private static String page(Calibrated calibrated, TableComparison comparison, List<String> remarks) {
        return new Blocks().sentences(remarks).toHtml()
                + calibrated.toHtml()
                + comparison.toHtml()
                + new Blocks()
                        .sentences(Cautions.of(calibrated.trials().table()))
                        .toHtml();
    }
}
