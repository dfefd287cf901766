package org.beefyield.data.command;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Stream;
import org.beefyield.boning.BoningRun;
import org.beefyield.boning.Product;
import org.beefyield.carcass.Carcass;
import org.beefyield.data.Outputs;
import org.beefyield.data.boning.BoningRunSheet;
import org.beefyield.data.file.HtmlPage;
import org.beefyield.data.frame.FrameFile;
import org.beefyield.data.picture.Pictures;
import org.beefyield.price.Valuer;
import org.beefyield.reconcile.Season;
import org.beefyield.report.Compared;
import org.beefyield.report.Comparison;
import org.beefyield.report.Unexplained;
import org.beefyield.text.Numbers;
import org.jspecify.annotations.Nullable;

/** Seasons or plants side by side. */
final class CompareCommand {
    static final String USAGE = """
            Seasons or plants side by side: what a kg is worth, for what reasons, and at one mix of carcasses.
              --by hall|year|month  what of the kill sheet is compared; the first in order is what the others are compared with
              --baseline FILE       instead: an earlier kill sheet (CSV) with which all of the kill sheet is compared
              --intake FILE         boning runs (CSV), as for reconcile, with --boxes, --products and perhaps --rest: what was
                                    weighed that the carcasses don't explain
              --out FILE            the comparison as data (CSV)
            """ + SheetOptions.USAGE + """
            Exit code 0: all good; 4: some rows or runs were left out; 2: it could not run.
            """;

    private static final List<String> NAMED = Stream.of(
                    List.of("--by", "--baseline", "--out"), RunFiles.NAMED, SheetOptions.NAMED)
            .flatMap(List::stream)
            .toList();

    private static final String NOT_STATED = "not stated";

    /** What is compared. */
    private enum By {
        HALL(carcass -> carcass.hall().orElse(NOT_STATED), BoningRun::hall),
        YEAR(carcass -> begins(carcass.killDate().orElse(""), "-", 1), run -> begins(run.day(), "-", 1)),
        MONTH(carcass -> begins(carcass.killDate().orElse(""), "-", 2), run -> begins(run.day(), "-", 2));

        // functions without state of their own
        @SuppressWarnings("ImmutableEnumChecker")
        private final Function<Carcass, String> ofCarcass;

        @SuppressWarnings("ImmutableEnumChecker")
        private final Function<BoningRun, String> ofRun;

        By(Function<Carcass, String> ofCarcass, Function<BoningRun, String> ofRun) {
            this.ofCarcass = ofCarcass;
            this.ofRun = ofRun;
        }

        private static String begins(String day, String separator, int parts) {
            String[] all = day.split(separator, -1);
            return all.length < parts + 1
                    ? NOT_STATED
                    : String.join(separator, List.of(all).subList(0, parts));
        }
    }

    private final SheetOptions sheet;
    private final @Nullable By by;
    private final @Nullable Path baseline;
    private final @Nullable RunFiles runs;
    private final @Nullable Path out;
    private final List<String> notes = new ArrayList<>();

    CompareCommand(List<String> arguments) {
        Options options = new Options(arguments, NAMED, SheetOptions.FLAGS);
        sheet = new SheetOptions(options);
        by = by(options.value("--by"));
        baseline = options.optionalPath("--baseline");
        if ((by == null) == (baseline == null)) {
            throw new Options.UsageException("give one of --by and --baseline");
        }
        boolean ofRuns = RunFiles.NAMED.stream().anyMatch(option -> options.value(option) != null);
        if (ofRuns && by == null) {
            throw new Options.UsageException("boning runs need --by, for they are told apart by hall, year or month");
        }
        runs = ofRuns ? RunFiles.of(options) : null;
        out = options.optionalPath("--out");
    }

    private static @Nullable By by(@Nullable String word) {
        if (word == null) {
            return null;
        }
        return switch (word) {
            case "hall" -> By.HALL;
            case "year" -> By.YEAR;
            case "month" -> By.MONTH;
            default -> throw new Options.UsageException("--by \"" + word + "\" is none of hall, year, month");
        };
    }

    int run(PrintStream print) {
        try (Outputs outputs = new Outputs()) {
            sheet.claim(outputs);
            if (baseline != null) {
                outputs.input("--baseline", baseline);
            }
            if (runs != null) {
                runs.claim(outputs);
            }
            if (out != null) {
                outputs.file("--out", out);
            }
            return run(print, outputs);
        }
    }

    private int run(PrintStream print, Outputs outputs) {
        Valuer valuer = sheet.valuer();
        List<String> heads = new ArrayList<>();
        Map<String, List<Carcass>> parts = new LinkedHashMap<>();
        SheetOptions.Read read = sheet.read(sheet.killSheet(), valuer.estimator());
        heads.add(read.sentence());
        read.left().forEach(problem -> notes.add(problem.toString()));
        if (baseline != null) {
            SheetOptions.Read earlier = sheet.read(baseline, valuer.estimator());
            heads.add(earlier.sentence());
            earlier.left().forEach(problem -> notes.add(problem.toString()));
            parts.put(String.valueOf(baseline.getFileName()), earlier.carcasses());
            parts.put(String.valueOf(sheet.killSheet().getFileName()), read.carcasses());
        } else if (by != null) {
            Map<String, List<Carcass>> inOrder = new TreeMap<>();
            for (Carcass carcass : read.carcasses()) {
                inOrder.computeIfAbsent(by.ofCarcass.apply(carcass), any -> new ArrayList<>())
                        .add(carcass);
            }
            parts.putAll(inOrder);
        }
        Map<String, Unexplained> unexplained = unexplained(valuer);
        Comparison comparison = comparison(valuer, parts, unexplained);
        if (out != null) {
            FrameFile.write(comparison.toFrame(), out, outputs);
        }
        if (sheet.page() != null) {
            outputs.write(sheet.page(), page(comparison));
        }
        outputs.finish();
        heads.forEach(print::println);
        print.println();
        print.print(comparison.toText());
        notes.forEach(note -> print.println("Note: " + note));
        if (sheet.page() != null) {
            print.println();
            print.println("Page written to " + sheet.page());
        }
        return notes.isEmpty() ? ExitCode.GOOD : ExitCode.SOME_REFUSED;
    }

    private static Comparison comparison(
            Valuer valuer, Map<String, List<Carcass>> parts, Map<String, Unexplained> unexplained) {
        List<Compared> compared = new ArrayList<>();
        parts.forEach((name, carcasses) -> {
            if (carcasses.isEmpty()) {
                throw new Options.UsageException(name + " has no carcass with an estimate");
            }
            compared.add(new Compared(name, valuer, valuer.estimator().estimateLot(carcasses), unexplained.get(name)));
        });
        try {
            return Comparison.of(compared);
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(String.valueOf(e.getMessage()));
        }
    }

    private static String page(Comparison comparison) {
        StringBuilder html = new StringBuilder("<h1>Side by side</h1>\n<div class=\"pictures\">\n");
        for (int i = 1; i < comparison.parts().size(); i++) {
            html.append(Pictures.attribution(comparison.attribution(i)).toSvg()).append('\n');
        }
        return HtmlPage.of(
                "Side by side",
                html.append("</div>\n").append(comparison.toHtml()).toString());
    }

    /** By hall or period, what its runs weighed without a reason. */
    private Map<String, Unexplained> unexplained(Valuer valuer) {
        Map<String, Unexplained> unexplained = new LinkedHashMap<>();
        if (runs == null || by == null) {
            return unexplained;
        }
        List<Product> known = runs.products(sheet.form(), valuer.estimator().table());
        BoningRunSheet all = runs.sheet(known, sheet.form(), valuer.estimator().table());
        all.problems().forEach(problem -> notes.add(problem.toString()));
        Map<String, List<BoningRun>> parts = new TreeMap<>();
        for (BoningRun run : ReconcileCommand.usable(all, valuer.estimator(), notes)) {
            String name = by.ofRun.apply(run);
            parts.computeIfAbsent(name.isEmpty() ? NOT_STATED : name, any -> new ArrayList<>())
                    .add(run);
        }
        parts.forEach((name, ofIt) -> {
            if (ofIt.stream().map(BoningRun::hall).distinct().count() > 1) {
                notes.add(name + ": its runs are of several halls, so that what they weighed is left out");
                return;
            }
            Unexplained.of(Season.of(ofIt, valuer, known))
                    .ifPresentOrElse(
                            found -> unexplained.put(name, found),
                            () -> notes.add(name + ": "
                                    + Numbers.counted(ofIt.size(), "run", "runs")
                                    + " that balance are too few to tell what was weighed without a reason"));
        });
        return unexplained;
    }
}
