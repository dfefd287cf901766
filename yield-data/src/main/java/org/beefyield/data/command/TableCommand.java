package org.beefyield.data.command;

import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Outputs;
import org.beefyield.data.Problem;
import org.beefyield.data.table.TableReader;
import org.beefyield.estimate.Cautions;
import org.beefyield.table.ClosingCorrection;
import org.beefyield.table.TableComparison;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Blocks;
import org.beefyield.text.Numbers;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/** Reads, proves and compares a table. */
final class TableCommand {
    static final String USAGE = """
            Reads a yield table, proves it and compares it with another.
              table --table FOLDER|ZIP   the table to check
              --baseline FOLDER|ZIP      the table to compare with, such as the one in use
              --budget G_PER_KG          no cut may move further than this from the baseline, g per kg of carcass, and
                                         nothing that the baseline can do may be lost
              --html FILE                write the same as a page
            Exit code 0: all good; 4: the table is refused, or moves beyond the budget; 2: it could not run.
            """;

    private static final int G_DECIMALS = 4;

    /** Decimals below which what closing takes off is noise. */
    private static final int CORRECTION_DECIMALS = 9;

    private final Path table;
    private final @Nullable Path baseline;
    private final double budget;
    private final @Nullable Path html;

    TableCommand(List<String> arguments) {
        Options options =
                new Options(arguments, List.of("--table", "--baseline", "--budget", "--html"), List.of("--help"));
        table = Options.path(options.needed("--table"));
        baseline = options.optionalPath("--baseline");
        html = options.optionalPath("--html");
        budget = budget(options.value("--budget"));
        if (budget < Double.POSITIVE_INFINITY && baseline == null) {
            throw new Options.UsageException("--budget needs a --baseline to hold the table against");
        }
        if (!Files.exists(table)) {
            throw new InvalidDataException(
                    List.of(new Problem(table.toString(), 0, "", "", "there is no such folder or zip file")));
        }
    }

    private static double budget(@Nullable String value) {
        if (value == null) {
            return Double.POSITIVE_INFINITY;
        }
        double budget = Options.number("--budget", value);
        if (!(budget >= 0 && budget <= 1000)) {
            throw new Options.UsageException("--budget " + value + " is outside 0 to 1000 g/kg");
        }
        return budget;
    }

    int run(PrintStream out) {
        try (Outputs outputs = new Outputs()) {
            outputs.input("--table", table);
            if (baseline != null) {
                outputs.input("--baseline", baseline);
            }
            if (html != null) {
                outputs.file("--html", html);
            }
            return run(out, outputs);
        }
    }

    private int run(PrintStream out, Outputs outputs) {
        YieldTable against = baseline == null ? null : TableReader.read(baseline);
        YieldTable read;
        try {
            read = TableReader.read(table);
        } catch (InvalidDataException e) {
            refused(out, e.problems());
            return ExitCode.SOME_REFUSED;
        }
        TableComparison comparison;
        try {
            comparison = against == null ? null : TableComparison.of(against, read);
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(String.valueOf(e.getMessage()));
        }
        List<TableComparison.Difference> beyond =
                comparison == null || budget == Double.POSITIVE_INFINITY ? List.of() : comparison.beyond(budget);
        List<String> lost = comparison == null || budget == Double.POSITIVE_INFINITY ? List.of() : comparison.lost();
        String verdict = verdict(beyond, lost);
        if (html != null) {
            outputs.write(
                    html, Page.of("Table " + read.identity(), page(read, comparison, verdict, lines(beyond, lost))));
            outputs.finish();
        }
        out.println("Table " + read.identity() + ": " + read.definition().title());
        out.println();
        out.print(closing(read).isEmpty() ? "" : "Rounding taken off so that it closes: " + closing(read) + "\n\n");
        out.print(read.proof().toText());
        if (comparison != null) {
            out.println();
            out.print(comparison.toText());
        }
        if (!verdict.isEmpty()) {
            out.println();
            out.println(verdict);
            lines(beyond, lost).forEach(line -> out.println("  " + line));
        }
        if (html != null) {
            out.println();
            out.println("Page written to " + html);
        }
        return beyond.isEmpty() && lost.isEmpty() ? ExitCode.GOOD : ExitCode.SOME_REFUSED;
    }

    private static List<String> lines(List<TableComparison.Difference> beyond, List<String> lost) {
        return Stream.concat(
                        beyond.stream().map(TableCommand::words), lost.stream().map(one -> "lost: " + one))
                .toList();
    }

    private String verdict(List<TableComparison.Difference> beyond, List<String> lost) {
        if (budget == Double.POSITIVE_INFINITY) {
            return "";
        }
        String most = Numbers.upTo(budget, G_DECIMALS) + " g/kg";
        if (beyond.isEmpty()) {
            return "No cut moves more than " + most + " anywhere"
                    + (lost.isEmpty() ? "" : ", but the table can't do all that the baseline can:");
        }
        long cuts =
                beyond.stream().map(TableComparison.Difference::cut).distinct().count();
        return cuts + (cuts == 1 ? " cut moves" : " cuts move") + " more than " + most
                + (lost.isEmpty() ? ":" : ", and the table can't do all that the baseline can:");
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
            YieldTable table, @Nullable TableComparison comparison, String verdict, List<String> lines) {
        StringBuilder page = new StringBuilder();
        page.append("<p>").append(TextTable.escape(table.definition().title())).append("</p>\n");
        if (!verdict.isEmpty()) {
            page.append("<p><strong>")
                    .append(TextTable.escape(verdict.replaceAll(":$", "")))
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
        if (comparison != null) {
            page.append(comparison.toHtml());
        }
        page.append("<h2>Proof</h2>\n").append(table.proof().toHtml());
        page.append(new Blocks().sentences(Cautions.of(table)).toHtml());
        return page.toString();
    }
}
