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
import org.beefyield.calibrate.Remedy;
import org.beefyield.calibrate.TermMoments;
import org.beefyield.data.CsvForm;
import org.beefyield.data.Outputs;
import org.beefyield.data.Source;
import org.beefyield.data.boning.TrialReader;
import org.beefyield.data.boning.TrialSheet;
import org.beefyield.data.table.TableWriter;
import org.beefyield.estimate.Cautions;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TableComparison;
import org.beefyield.table.TableOverride;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.TableRange;
import org.beefyield.text.Blocks;
import org.jspecify.annotations.Nullable;

/** From boning trials to a table of one's own: prints what the trials say, writes the table and what it changes. */
final class CalibrateCommand {
    private static final String CROSS_VALIDATED = "cross-validated";
    private static final String NARROWER_RANGE = "narrower-range";
    private static final String MORE_SHRINKAGE = "more-shrinkage";

    static final String USAGE = """
            Makes a plant's own table from its own boning trials.
              calibrate --trials FILE      trials (CSV), a row for each carcass
              --out FOLDER|ZIP             where the table goes; else only print
              --baseline FOLDER|ZIP        the table to start from, the prior table of the report, and to compare with, or the
                                           name of a shipped edition; else the shipped edition boneless-2026
              --name NAME                  name of the new table; else that of the baseline with -calibrated
              --version VERSION            version of the new table; else 1
              --specification NAME         cutting specification of the baseline that was cut to; else its first
              --group NAME=CUT+CUT,...     groups of cuts that were weighed together, each a column of the trials
              --shrink N|cross-validated   carcasses that the baseline counts for, 0 for none; else cross-validated: for each
                                           breakdown what errs least
              --terms COLUMN,...           terms to fit; all others stay as in the baseline; else all
              --categories-apart           fit each category by itself
              --if-refused narrower-range|more-shrinkage
                                           what to do if the table isn't proved; else it is refused, with what would help
              --report FILE                write the report and the comparison as a page (HTML)
            If the trials aren't comma-separated UTF-8 with decimal points:
            """ + FormOptions.USAGE + """
            Exit code 0: all good; 4: some trials are left out, or the table is refused and not written; 2: it could not run.
            """;

    private static final List<String> OWN_NAMED = List.of(
            "--trials",
            "--out",
            "--baseline",
            "--name",
            "--version",
            "--specification",
            "--group",
            "--shrink",
            "--terms",
            "--if-refused",
            "--report");
    private static final List<String> NAMED =
            Stream.concat(OWN_NAMED.stream(), FormOptions.NAMED.stream()).toList();
    private static final List<String> FLAGS = Stream.concat(
                    Stream.of("--categories-apart", "--help"), FormOptions.FLAGS.stream())
            .toList();

    private static final Pattern COMMA = Pattern.compile(",");
    private static final Pattern PLUS = Pattern.compile("\\+");

    private final CsvForm form;
    private final Path trials;
    private final @Nullable Path out;
    private final @Nullable NamedTable baseline;
    private final @Nullable String name;
    private final String version;
    private final @Nullable String specification;
    private final Map<String, List<String>> groups;
    /** Below 0 to have it chosen. */
    private final double strength;

    private final List<String> terms;
    private final boolean apart;
    private final String ifRefused;
    private final @Nullable Path report;

    CalibrateCommand(List<String> arguments) {
        Options options = new Options(arguments, NAMED, FLAGS);
        form = FormOptions.form(options);
        trials = Options.path(options.needed("--trials"));
        out = options.optionalPath("--out");
        baseline = NamedTable.optional(options, "--baseline");
        name = options.value("--name");
        version = options.valueOr("--version", "1");
        specification = options.value("--specification");
        groups = groups(options.value("--group"));
        strength = strength(options.valueOr("--shrink", CROSS_VALIDATED));
        String given = options.value("--terms");
        terms = given == null ? List.of() : COMMA.splitAsStream(given).toList();
        apart = options.has("--categories-apart");
        ifRefused = options.valueOr("--if-refused", "");
        if (!List.of("", NARROWER_RANGE, MORE_SHRINKAGE).contains(ifRefused)) {
            throw new Options.UsageException(
                    "--if-refused \"" + ifRefused + "\" is none of " + NARROWER_RANGE + ", " + MORE_SHRINKAGE);
        }
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

    private static double strength(String given) {
        if (given.equals(CROSS_VALIDATED)) {
            return -1;
        }
        if (!given.matches("[0-9]+(\\.[0-9]+)?")) {
            throw new Options.UsageException(
                    "--shrink \"" + given + "\" is neither a number of carcasses, 0 or more, nor " + CROSS_VALIDATED);
        }
        return Options.number("--shrink", given);
    }

    int run(PrintStream print) {
        try (Outputs outputs = new Outputs()) {
            outputs.input("--trials", trials);
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
        bound(() -> TrialSet.of(prior, cutTo, groups, List.of()));
        // a name that no table may have shall not come out at the end
        bound(() -> TableOverride.of(prior, newName, version).build());
        TrialSheet sheet = TrialReader.read(Source.of(trials), form, prior, groups.keySet());
        TrialSet set = TrialSet.of(prior, cutTo, groups, sheet.trials());
        Calibration calibration = bound(() -> calibration(set));
        print.println("Trials " + sheet);
        sheet.problems().forEach(problem -> print.println("  " + problem));
        print.println();
        Calibrated calibrated = calibration.fit();
        List<String> remarks = new ArrayList<>();
        Calibrated settled = settled(calibration, calibrated, remarks);
        Calibrated reported = settled == null ? calibrated : settled;
        print.print(reported.toText());
        print.println();
        TableComparison comparison = null;
        if (settled != null) {
            YieldTable table = settled.table(newName, version);
            if (out != null) {
                // the writer makes sure that it reads back as it is
                TableWriter.write(table, out, outputs);
                remarks.add("Table " + table.identity() + " written to " + out);
            }
            comparison = TableComparison.of(prior, table);
        }
        if (report != null) {
            String title = "Calibration from " + trials.getFileName();
            outputs.write(report, Page.of(title, page(reported, comparison, remarks)));
        }
        outputs.finish();
        remarks.forEach(print::println);
        if (comparison != null) {
            print.print((remarks.isEmpty() ? "" : "\n") + comparison.toText());
        }
        if (report != null) {
            print.println();
            print.println("Page written to " + report);
        }
        return settled == null || !sheet.problems().isEmpty() || !set.refused().isEmpty()
                ? ExitCode.SOME_REFUSED
                : ExitCode.GOOD;
    }

    private CuttingSpecification specification(YieldTable prior) {
        if (specification != null) {
            return bound(() -> prior.specification(specification));
        }
        List<CuttingSpecification> all = prior.specifications();
        return all.isEmpty() ? CuttingSpecification.NONE : all.get(0);
    }

    private Calibration calibration(TrialSet set) {
        // over the allowed range every term varies, so that shrinkage determines those that the trials don't
        Calibration calibration = Calibration.of(set)
                .withMoments(
                        TermMoments.over(set.table(), set.table().definition().allowed()));
        calibration = strength < 0 ? calibration.withChosenStrength() : calibration.withStrength(strength);
        calibration = terms.isEmpty() ? calibration : calibration.withTerms(terms.toArray(String[]::new));
        return apart ? calibration.withCategoriesApart() : calibration;
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

    /** The calibration whose table holds, after what was asked for is done; null if it is refused. */
    private @Nullable Calibrated settled(Calibration calibration, Calibrated calibrated, List<String> remarks) {
        if (calibrated.fits().isEmpty()) {
            remarks.add("Nothing could be fitted, so that there is no table");
            return null;
        }
        Remedy remedy = calibrated.remedy();
        if (remedy.problems().isEmpty()) {
            return calibrated;
        }
        remedy.toString().lines().forEach(remarks::add);
        TableRange range = remedy.allowed();
        Double stronger = remedy.strength();
        if (ifRefused.equals(NARROWER_RANGE) && range != null) {
            remarks.add("As asked, the narrower range is taken");
            return calibrated.withAllowedRange(range);
        }
        if (ifRefused.equals(MORE_SHRINKAGE) && stronger != null) {
            remarks.add("As asked, every breakdown is shrunk towards the baseline with that strength");
            return calibration.withStrength(stronger).fit();
        }
        List<String> choices = new ArrayList<>();
        if (range != null) {
            choices.add(NARROWER_RANGE);
        }
        if (stronger != null) {
            choices.add(MORE_SHRINKAGE);
        }
        remarks.add("No table is written"
                + (choices.isEmpty() ? "" : "; take the offer with --if-refused " + String.join(" or ", choices)));
        return null;
    }

    private static String page(Calibrated calibrated, @Nullable TableComparison comparison, List<String> remarks) {
        StringBuilder body = new StringBuilder(new Blocks().sentences(remarks).toHtml());
        if (comparison != null) {
            body.append(comparison.toHtml());
        }
        body.append("<h2>Report</h2>\n").append(calibrated.toHtml());
        body.append(
                new Blocks().sentences(Cautions.of(calibrated.trials().table())).toHtml());
        return body.toString();
    }
}
