package org.beefyield.data.command;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.beefyield.boning.BalanceRule;
import org.beefyield.boning.TrialSelection;
import org.beefyield.boning.TrialSet;
import org.beefyield.calibrate.Calibrated;
import org.beefyield.calibrate.Calibration;
import org.beefyield.calibrate.Categories;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Outputs;
import org.beefyield.data.Source;
import org.beefyield.data.boning.TrialLayout;
import org.beefyield.data.boning.TrialLayoutReader;
import org.beefyield.data.boning.TrialReader;
import org.beefyield.data.boning.TrialSheet;
import org.beefyield.data.file.HtmlPage;
import org.beefyield.data.table.TableWriter;
import org.beefyield.estimate.Cautions;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TableComparison;
import org.beefyield.table.TableOverride;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** From boning trials or everyday runs to a table of one's own: prints what they say, writes the table and what it changes. */
final class CalibrateCommand {
    static final String USAGE = """
            Makes a plant's own table from its own boning trials, its everyday runs or both.
              calibrate --trials FILE      trials (CSV), a row for each carcass
              --layout FILE                what the columns of the trials hold (CSV), if they are in another form than ours; it says
                                           which cuts were weighed together too
              --expect-missing PERCENT     what is expected to be missing between intake and boning, such as drip; else 0
              --balance-limit PERCENT      how much more or less may be; else 2
            Runs, with the trials or in their place:
              --intake FILE                what went in (CSV), as for reconcile
              --boxes FILE --products FILE what was packed, and what is packed under which code
              --rest FILE                  bone, fat and the like that was weighed beside the boxes
              --change DAY                 only runs from that day on teach; what has changed since is said
            The table:
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
              --other-halls                the trials are of other halls: how far halls differ stays in the table
              --report FILE                write the report and the comparison as a page (HTML)
            If the trials aren't comma-separated UTF-8 with decimal points:
            """ + FormOptions.USAGE + """
            There is always a table: how much is learnt of each breakdown is what errs least on days that it wasn't fitted to, and
            no more than the table keeps its promises with; the report says what was given up.
            Exit code 0: all good; 4: some trials or runs are left out; 2: it could not run.
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
            "--expect-missing",
            "--balance-limit",
            "--report");
    private static final List<String> NAMED = Stream.of(OWN_NAMED, TeachingRuns.NAMED, FormOptions.NAMED)
            .flatMap(List::stream)
            .toList();
    private static final List<String> FLAGS = Stream.concat(
                    Stream.of("--without-baseline", "--other-halls", "--help"), FormOptions.FLAGS.stream())
            .toList();

    private static final Pattern COMMA = Pattern.compile(",");
    private static final Pattern PLUS = Pattern.compile("\\+");

    private final CsvForm form;
    private final @Nullable Path trials;
    private final @Nullable TeachingRuns runs;
    private final BalanceRule rule;
    private final @Nullable Path layout;
    private final @Nullable Path out;
    private final @Nullable NamedTable baseline;
    private final @Nullable String name;
    private final String version;
    private final @Nullable String specification;
    private final Map<String, List<String>> groups;
    private final List<String> terms;
    private final Categories categories;
    private final boolean withoutBaseline;
    private final boolean isOfOthers;
    private final @Nullable Path report;

    CalibrateCommand(List<String> arguments) {
        Options options = new Options(arguments, NAMED, FLAGS);
        form = FormOptions.form(options);
        runs = TeachingRuns.optional(options);
        trials = runs == null ? Options.path(options.needed("--trials")) : options.optionalPath("--trials");
        rule = bound(() -> BalanceRule.DEFAULT
                .withExpectedPct(Options.number("--expect-missing", options.valueOr("--expect-missing", "0")))
                .withLimitPct(Options.number("--balance-limit", options.valueOr("--balance-limit", "2"))));
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
        isOfOthers = options.has("--other-halls");
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

    private static Categories categories(String given) {
        return switch (given) {
            case "together" -> Categories.TOGETHER;
            case "levels" -> Categories.LEVELS;
            case "apart" -> Categories.APART;
            default ->
                throw new Options.UsageException("--categories \"" + given + "\" is none of together, levels, apart");
        };
    }

    int run(PrintStream print) {
        try (Outputs outputs = new Outputs()) {
            if (trials != null) {
                outputs.input("--trials", trials);
            }
            if (runs != null) {
                runs.claim(outputs);
            }
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
        // a name that no table may have shall not come out at the end
        bound(() -> TableOverride.of(prior, newName, version));
        StringBuilder html = new StringBuilder();
        YieldTable table = prior;
        boolean isWhole = true;
        boolean isLearnt = runs != null;
        if (trials != null) {
            TrialLayout laidOut = layout == null ? null : TrialLayoutReader.read(Source.of(layout), form, prior);
            Map<String, List<String>> together = laidOut == null ? groups : laidOut.groups();
            bound(() -> TrialSet.of(prior, cutTo, together, List.of()));
            TrialSheet sheet = laidOut == null
                    ? TrialReader.read(Source.of(trials), form, prior, together.keySet())
                    : TrialReader.read(Source.of(trials), form, laidOut);
            TrialSet set = TrialSet.of(prior, cutTo, together, sheet.trials()).with(rule);
            Calibration calibration = bound(() -> calibration(set));
            print.println("Trials " + sheet);
            sheet.problems().forEach(problem -> print.println("  " + problem));
            print.println();
            Calibrated calibrated = isOfOthers ? calibration.fit().forOtherHalls() : calibration.fit();
            print.print(calibrated.toText());
            OptionalDouble expect =
                    set.selection().map(TrialSelection::toExpectPct).orElse(OptionalDouble.empty());
            expect.ifPresent(pct ->
                    print.println("\nIf that much is lost before boning and nobody weighs it, run this again with"
                            + " --expect-missing " + Numbers.brief(pct)));
            print.println();
            if (report != null) {
                html.append(calibrated.toHtml());
            }
            table = calibrated.table(newName, version);
            isLearnt |= !calibrated.fits().isEmpty();
            isWhole = sheet.problems().isEmpty() && set.refused().isEmpty();
        }
        if (runs != null) {
            YieldEstimator estimator = cutTo.equals(CuttingSpecification.NONE)
                    ? YieldEstimator.of(table)
                    : YieldEstimator.of(table, cutTo);
            TeachingRuns.Taught taught = runs.teach(estimator, form);
            taught.head().forEach(print::println);
            print.println();
            print.print(taught.result().toText());
            print.println();
            html.append(taught.result().toHtml());
            table = taught.result().table(newName, version);
            isWhole &= taught.isWhole();
        }
        List<String> remarks = new ArrayList<>();
        if (out != null && !isLearnt) {
            remarks.add("Nothing was learnt, so that no table is written to " + out);
        } else if (out != null) {
            // the writer makes sure that it reads back as it is
            TableWriter.write(table, out, outputs);
            remarks.add("Table " + table.identity() + " written to " + out);
        }
        TableComparison comparison = TableComparison.of(prior, table);
        if (report != null) {
            html.insert(0, new Blocks().sentences(remarks).toHtml());
            html.append(comparison.toHtml())
                    .append(new Blocks().sentences(Cautions.of(prior)).toHtml());
            outputs.write(report, HtmlPage.of("Calibration from " + from(), html.toString()));
        }
        outputs.finish();
        remarks.forEach(print::println);
        print.print((remarks.isEmpty() ? "" : "\n") + comparison.toText());
        if (report != null) {
            print.println();
            print.println("Page written to " + report);
        }
        return isWhole ? ExitCode.GOOD : ExitCode.SOME_REFUSED;
    }

    private String from() {
        return Stream.of(Optional.ofNullable(trials), Optional.ofNullable(runs).map(TeachingRuns::file))
                .flatMap(Optional::stream)
                .map(path -> String.valueOf(path.getFileName()))
                .collect(Collectors.joining(" and "));
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
}
