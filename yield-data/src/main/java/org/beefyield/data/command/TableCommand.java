package org.beefyield.data.command;

import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Outputs;
import org.beefyield.data.Problem;
import org.beefyield.data.Source;
import org.beefyield.data.file.HtmlPage;
import org.beefyield.data.table.LookUpSheet;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.data.table.TableReader;
import org.beefyield.data.table.TableWriter;
import org.beefyield.estimate.Cautions;
import org.beefyield.table.ChangeBudget;
import org.beefyield.table.ClosingCorrection;
import org.beefyield.table.InvalidTableException;
import org.beefyield.table.TableChange;
import org.beefyield.table.TableComparison;
import org.beefyield.table.YieldTable;
import org.beefyield.table.definition.TableDefinition;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/** Reads, proves, compares and writes a table. */
final class TableCommand {
    static final String USAGE = """
            Reads a yield table, proves it and compares it with another.
              table --table FOLDER|ZIP   the table to check, or the name of a shipped edition, such as boneless-2026
              --baseline FOLDER|ZIP      the table to compare with, such as the one in use, or the name of a shipped edition
              --budget G_PER_KG          no cut may move further than this from the baseline in any mix of ways, g per kg
                                         of carcass, nothing that the baseline can do may be lost, and nothing else may
                                         change but title and description
              --allow KIND,...           kinds of change that may be of any size: names, notes, sources and so on, as the
                                         verdict calls them
              --sd-budget PERCENT        no SD or standard error may change by more than this
            """ + TwoTablesRun.USAGE + """
              --html FILE                write the same as a page
              --write FOLDER|ZIP         write the table, with the digest of what it now holds, unless it is refused or moves
                                         beyond the budget
              --name NAME                what the table is called where it is written; else as it is
              --version VERSION          its version there; else as it is
            Makes a table of your own look-up sheet, to be checked, compared and written like any other.
            """ + TableImport.USAGE + """
            If your CSV files aren't comma-separated UTF-8 with decimal points:
            """ + FormOptions.USAGE + """
            If the kill sheet hasn't grades in thirds and a row for each carcass:
            """
            + KillSheetOptions.USAGE + """
            Writes the shipped edition boneless-2026 as files to edit.
              table --export FOLDER|ZIP  where nothing is yet
            Exit code 0: all good; 4: the table is refused, or moves beyond the budget; 2: it could not run.
            """;

    private static final int G_DECIMALS = 4;

    /** Decimals below which what closing takes off is noise. */
    private static final int CORRECTION_DECIMALS = 9;

    private static final String EDITION = "boneless-2026";

    private static final List<String> OWN = List.of(
            "--table",
            "--baseline",
            "--budget",
            "--allow",
            "--sd-budget",
            "--html",
            "--write",
            "--name",
            "--version",
            "--export");
    private static final List<String> NAMED = Stream.of(OWN, TwoTablesRun.NAMED, TableImport.NAMED, FormOptions.NAMED)
            .flatMap(List::stream)
            .toList();
    private static final List<String> FLAGS = Stream.of(KillSheetOptions.FLAGS, FormOptions.FLAGS, List.of("--help"))
            .flatMap(List::stream)
            .toList();

    private final @Nullable Path export;
    private final @Nullable TableImport imported;
    private final @Nullable NamedTable table;
    private final @Nullable NamedTable baseline;
    private final @Nullable ChangeBudget budget;
    private final @Nullable Path html;
    private final @Nullable TwoTablesRun onSheet;
    private final @Nullable Path write;
    private final @Nullable String name;
    private final @Nullable String version;

    TableCommand(List<String> arguments) {
        Options options = new Options(arguments, NAMED, FLAGS);
        export = options.optionalPath("--export");
        if (export != null && options.names().size() > 1) {
            throw new Options.UsageException(
                    "--export writes an edition as it is, so that no other option goes with it");
        }
        CsvForm form = FormOptions.form(options);
        imported = TableImport.optional(options, form);
        if (imported != null && options.value("--table") != null) {
            throw new Options.UsageException("--import and --table are two tables; one is looked at");
        }
        table = export == null && imported == null ? NamedTable.of("--table", options.needed("--table")) : null;
        baseline = NamedTable.optional(options, "--baseline");
        html = options.optionalPath("--html");
        write = options.optionalPath("--write");
        name = options.value("--name");
        version = options.value("--version");
        for (String option : List.of("--name", "--version")) {
            if (write == null && imported == null && options.value(option) != null) {
                throw new Options.UsageException(option + " needs --write");
            }
        }
        budget = budget(options.value("--budget"), options.value("--allow"), options.value("--sd-budget"));
        onSheet = TwoTablesRun.optional(options, form);
        if (budget != null && baseline == null) {
            throw new Options.UsageException("--budget needs a --baseline to hold the table against");
        }
        if (table != null) {
            table.check();
        }
    }

    private static @Nullable ChangeBudget budget(
            @Nullable String shares, @Nullable String allowed, @Nullable String sds) {
        if (shares == null) {
            if (allowed != null || sds != null) {
                throw new Options.UsageException(
                        (allowed != null ? "--allow" : "--sd-budget") + " needs a --budget, which may be 0");
            }
            return null;
        }
        ChangeBudget budget = ChangeBudget.ofShares(within("--budget", shares, " g/kg"));
        if (sds != null) {
            double percent = within("--sd-budget", sds, " %");
            for (TableChange.Kind kind :
                    List.of(TableChange.Kind.SDS, TableChange.Kind.SHARED_SDS, TableChange.Kind.STANDARD_ERRORS)) {
                budget = budget.upTo(kind, percent);
            }
        }
        for (String kind : allowed == null ? new String[0] : allowed.split(",", -1)) {
            try {
                budget = budget.allowing(TableChange.Kind.parse(kind.strip()));
            } catch (IllegalArgumentException e) {
                throw new Options.UsageException("--allow: " + e.getMessage());
            }
        }
        return budget;
    }

    private static double within(String option, String value, String unit) {
        double budget = Options.number(option, value);
        if (!(budget >= 0 && budget <= 1000)) {
            throw new Options.UsageException(option + " " + value + " is outside 0 to 1000" + unit);
        }
        return budget;
    }

    int run(PrintStream out) {
        try (Outputs outputs = new Outputs()) {
            if (export != null) {
                return exported(export, out, outputs);
            }
            if (table != null) {
                table.claim(outputs);
            }
            if (imported != null) {
                imported.claim(outputs);
            }
            if (baseline != null) {
                baseline.claim(outputs);
            }
            if (onSheet != null) {
                onSheet.claim(outputs);
            }
            if (html != null) {
                outputs.file("--html", html);
            }
            if (write != null) {
                claim(write, outputs);
            }
            return run(out, outputs);
        }
    }

    private static int exported(Path target, PrintStream out, Outputs outputs) {
        ShippedTables.export(EDITION, target, outputs);
        outputs.finish();
        out.println(
                "Edition " + EDITION + " written to " + target + ": its CSV files are for a spreadsheet or an editor,"
                        + " its README.md says what the figures rest on");
        return ExitCode.GOOD;
    }

    /** The table that is read stays: a person puts what is written in its place. */
    private static void claim(Path target, Outputs outputs) {
        try {
            outputs.table("--write", target);
        } catch (UncheckedIOException e) {
            String message = String.valueOf(e.getMessage());
            throw message.startsWith("--write would replace --table")
                    ? new UncheckedIOException(
                            message + ", look at what is written there, and then rename the two", e.getCause())
                    : e;
        }
    }

    private YieldTable read(List<String> remarks) {
        if (imported != null) {
            LookUpSheet sheet = imported.read();
            remarks.addAll(sheet.notes());
            return sheet.table();
        }
        NamedTable named = Objects.requireNonNull(table);
        if (write == null) {
            return named.read();
        }
        YieldTable read = named.read(path -> TableReader.readEdited(
                Source.of(path),
                stale -> remarks.add(
                        "The digest in " + stale.file() + " is stale: the files were changed after it was taken")));
        if (name == null && version == null) {
            return read;
        }
        TableDefinition definition = read.definition();
        try {
            return YieldTable.of(definition.toBuilder(
                            name == null ? definition.name() : name, version == null ? definition.version() : version)
                    .build());
        } catch (InvalidTableException e) {
            throw new Options.UsageException(e.problems().get(0).toString());
        }
    }

    private int run(PrintStream out, Outputs outputs) {
        YieldTable against = baseline == null ? null : baseline.read();
        YieldTable read;
        List<String> remarks = new ArrayList<>();
        try {
            read = read(remarks);
        } catch (InvalidDataException e) {
            refused(out, e.problems());
            return ExitCode.SOME_REFUSED;
        }
        TwoTablesRun.Found found = against == null || onSheet == null ? null : onSheet.run(against, read);
        TableComparison comparison;
        try {
            comparison = against == null ? null : TableComparison.of(against, read);
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(String.valueOf(e.getMessage()));
        }
        Verdict verdict = comparison == null || budget == null ? null : new Verdict(comparison, budget);
        if (html != null) {
            outputs.write(
                    html, HtmlPage.of("Table " + read.identity(), page(read, remarks, found, comparison, verdict)));
        }
        boolean good = verdict == null || verdict.isGood();
        if (write != null && good) {
            TableWriter.write(read, write, outputs);
        }
        outputs.finish();
        out.println("Table " + read.identity() + ": " + read.definition().title());
        remarks.forEach(out::println);
        out.println();
        out.print(closing(read).isEmpty() ? "" : "Rounding taken off so that it closes: " + closing(read) + "\n\n");
        out.print(read.proof().toText());
        if (found != null) {
            out.println();
            found.print(out);
        }
        if (comparison != null) {
            out.println();
            out.print(comparison.toText());
        }
        if (verdict != null) {
            out.println();
            out.println(verdict.sentence());
            verdict.lines().forEach(line -> out.println("  " + line));
        }
        if (html != null) {
            out.println();
            out.println("Page written to " + html);
        }
        if (write != null) {
            out.println();
            out.println(
                    good
                            ? "Table " + read.identity() + " written to " + write
                            : "Nothing is written to " + write + ": the table moves beyond the budget");
        }
        return good ? ExitCode.GOOD : ExitCode.SOME_REFUSED;
    }

    /** What goes beyond the budget, in a sentence and as many lines as it counts. */
    private static final class Verdict {
        private final ChangeBudget budget;
        private final List<TableComparison.Difference> moved;
        private final List<String> lost;
        private final Map<TableChange.Kind, List<TableChange>> others = new EnumMap<>(TableChange.Kind.class);
        private final boolean nothingElse;

        Verdict(TableComparison comparison, ChangeBudget budget) {
            this.budget = budget;
            moved = comparison.beyond(budget.sharesGPerKg());
            lost = comparison.lost();
            comparison
                    .beyond(budget)
                    .forEach(change -> others.computeIfAbsent(change.kind(), kind -> new ArrayList<>())
                            .add(change));
            nothingElse = comparison.changes().isEmpty();
        }

        boolean isGood() {
            return moved.isEmpty() && lost.isEmpty() && others.isEmpty();
        }

        String sentence() {
            String most = " more than " + Numbers.upTo(budget.sharesGPerKg(), G_DECIMALS) + " g/kg";
            if (isGood()) {
                return "No cut moves" + most + " anywhere in any mix of ways, and nothing else "
                        + (nothingElse ? "changed" : "changed that may not");
            }
            List<String> parts = new ArrayList<>();
            long cuts = moved.stream()
                    .map(TableComparison.Difference::cut)
                    .distinct()
                    .count();
            parts.add(
                    moved.isEmpty()
                            ? "No cut moves" + most + " anywhere in any mix of ways, but"
                            : count(moved.size(), "share") + " of " + count(cuts, "cut")
                                    + (moved.size() == 1 ? " moves" : " move") + most);
            if (!lost.isEmpty()) {
                parts.add(count(lost.size(), "thing") + " that the baseline has "
                        + (lost.size() == 1 ? "is lost" : "are lost"));
            }
            if (!others.isEmpty()) {
                parts.add(count(others.size(), "other kind") + " of change " + (others.size() == 1 ? "goes" : "go")
                        + " beyond the budget");
            }
            return String.join(", ", parts).replace("but,", "but") + ":";
        }

        private static String count(long number, String what) {
            return number + " " + what + (number == 1 ? "" : "s");
        }

        List<String> lines() {
            List<String> lines = new ArrayList<>();
            moved.forEach(one -> lines.add(words(one)));
            lost.forEach(one -> lines.add("lost: " + one));
            others.forEach((kind, changes) -> {
                TableChange largest = changes.stream()
                        .max(Comparator.comparingDouble(TableChange::size))
                        .orElseThrow();
                lines.add(kind.code() + ", " + count(changes.size(), "change") + ": " + largest.words()
                        + (changes.size() == 1 ? "" : "; and so on"));
            });
            return lines;
        }
    }

    private static String closing(YieldTable table) {
        return String.join(
                "; ",
                table.closingCorrections().stream()
                        .map(TableCommand::words)
                        // once, though rows of a category close apart from those for all
                        .distinct()
                        .toList());
    }

    private static String words(TableComparison.Difference one) {
        return one.cut() + " at level " + one.level() + ": " + Numbers.fixed(one.differenceGPerKg(), G_DECIMALS)
                + " g/kg at " + one.where();
    }

    private static String words(ClosingCorrection correction) {
        return correction.parent() + (correction.way().equals("*") ? "" : " as " + correction.way()) + ", "
                + correction.column() + ": " + Numbers.upTo(correction.excess(), CORRECTION_DECIMALS) + " "
                + correction.unit();
    }

    private static void refused(PrintStream out, List<Problem> problems) {
        Map<String, StringBuilder> byFile = new LinkedHashMap<>();
        problems.forEach(problem -> byFile.computeIfAbsent(problem.file(), file -> new StringBuilder())
                .append("  ")
                .append(problem)
                .append('\n'));
        out.println("The table is refused, " + problems.size() + (problems.size() == 1 ? " problem" : " problems"));
        byFile.forEach((file, lines) -> out.print(file + "\n" + lines));
    }

    private static String page(
            YieldTable table,
            List<String> remarks,
            TwoTablesRun.@Nullable Found found,
            @Nullable TableComparison comparison,
            @Nullable Verdict verdict) {
        StringBuilder page = new StringBuilder();
        page.append("<p>").append(TextTable.escape(table.definition().title())).append("</p>\n");
        page.append(new Blocks().sentences(remarks).toHtml());
        List<String> lines = verdict == null ? List.of() : verdict.lines();
        if (verdict != null) {
            page.append("<p><strong>")
                    .append(TextTable.escape(verdict.sentence().replaceAll(":$", "")))
                    .append("</strong></p>\n");
        }
        if (!lines.isEmpty()) {
            page.append("<ul>\n");
            lines.forEach(
                    line -> page.append("<li>").append(TextTable.escape(line)).append("</li>\n"));
            page.append("</ul>\n");
        }
        if (!closing(table).isEmpty()) {
            page.append("<p>Rounding taken off so that it closes: ")
                    .append(TextTable.escape(closing(table)))
                    .append("</p>\n");
        }
        if (found != null) {
            page.append(found.html());
        }
        if (comparison != null) {
            page.append(comparison.toHtml());
        }
        page.append("<h2>Proof</h2>\n").append(table.proof().toHtml());
        page.append(new Blocks().sentences(Cautions.of(table)).toHtml());
        return page.toString();
    }
}
