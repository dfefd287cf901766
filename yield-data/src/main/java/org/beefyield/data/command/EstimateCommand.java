package org.beefyield.data.command;

import java.io.PrintStream;
import java.nio.charset.Charset;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.beefyield.carcass.GradeReading;
import org.beefyield.data.EstimateWriter;
import org.beefyield.data.KillSheet;
import org.beefyield.data.KillSheetEntry;
import org.beefyield.data.KillSheetFormat;
import org.beefyield.data.KillSheetHandler;
import org.beefyield.data.KillSheetReader;
import org.beefyield.data.Problem;
import org.beefyield.data.ShippedTables;
import org.beefyield.data.TableReader;
import org.beefyield.estimate.LotEstimate;
import org.beefyield.estimate.MinceTarget;
import org.beefyield.estimate.Outturn;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.YieldTable;
import org.jspecify.annotations.Nullable;

/** From a kill sheet to estimates: prints the lot, writes a row for each carcass, level and cut. */
final class EstimateCommand {
    static final String USAGE = """
            Estimates what graded beef carcasses will yield.
              --killsheet FILE      kill sheet (CSV)
              --out FILE            where the estimates go (CSV), a row for each carcass, level and cut; else only print
              --table FOLDER|ZIP    yield table; else the shipped edition boneless-2026
              --specification NAME  cutting specification of the table; else its first
              --mince PERCENT       bring lean trim to this fat content with fat trim
            If the kill sheet isn't comma-separated UTF-8 with decimal points and grades in thirds:
              --separator CHAR      what separates its cells, such as ; or tab
              --decimal-comma       its numbers have decimal commas
              --charset NAME        its character set, such as windows-1252
              --halves              its conformation classes are split into halves (U+ -U)
            To check a yield table: table --help
            Exit code 0: all good; 1: some rows were refused, the good ones are written; 2: it could not run.
            """;

    private static final List<String> NAMED =
            List.of("--killsheet", "--out", "--table", "--specification", "--mince", "--separator", "--charset");
    private static final List<String> FLAGS = List.of("--decimal-comma", "--halves", "--help");

    private static final int LOT_DECIMALS = 1;

    private final Path killSheet;
    private final @Nullable Path out;
    private final @Nullable Path table;
    private final @Nullable String specification;
    private final @Nullable MinceTarget mince;
    private final KillSheetFormat format;

    EstimateCommand(List<String> arguments) {
        Options options = new Options(arguments, NAMED, FLAGS);
        killSheet = Options.path(options.needed("--killsheet"));
        String outValue = options.value("--out");
        out = outValue == null ? null : Options.path(outValue);
        String tableValue = options.value("--table");
        table = tableValue == null ? null : Options.path(tableValue);
        specification = options.value("--specification");
        mince = mince(options.value("--mince"));
        format = format(options);
    }

    private static @Nullable MinceTarget mince(@Nullable String percent) {
        if (percent == null) {
            return null;
        }
        try {
            return MinceTarget.fatPercent(Options.number("--mince", percent));
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException("--mince: " + e.getMessage());
        }
    }

    private static KillSheetFormat format(Options options) {
        try {
            KillSheetFormat format = KillSheetFormat.standard();
            String separator = options.value("--separator");
            if (separator != null) {
                String one = separator.equals("tab") ? "\t" : separator;
                if (one.length() != 1) {
                    throw new Options.UsageException("--separator \"" + separator + "\" is not one character or tab");
                }
                format = format.withSeparator(one.charAt(0));
            }
            String charset = options.value("--charset");
            if (charset != null) {
                format = format.withCharset(Charset.forName(charset));
            }
            if (options.has("--decimal-comma")) {
                format = format.withDecimalComma();
            }
            return options.has("--halves") ? format.withConformationReading(GradeReading.HALVES) : format;
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(
                    e.getMessage() + " (--separator, --charset and --decimal-comma go together)");
        }
    }

    int run(PrintStream print) {
        YieldTable yieldTable = table == null ? ShippedTables.boneless2026() : TableReader.read(table);
        YieldEstimator chosen = estimator(yieldTable);
        Run run = new Run(chosen);
        KillSheet.Counts counts;
        if (out == null) {
            counts = KillSheetReader.read(killSheet, format, run);
        } else {
            try (EstimateWriter writer = new EstimateWriter(out)) {
                run.writer = writer;
                counts = KillSheetReader.read(killSheet, format, run);
                writer.finish();
            }
        }
        run.print(print, counts);
        return run.problems.isEmpty() ? Main.GOOD : Main.SOME_REFUSED;
    }

    private YieldEstimator estimator(YieldTable yieldTable) {
        try {
            YieldEstimator estimator = YieldEstimator.of(yieldTable);
            if (specification != null) {
                estimator = estimator.withSpecification(specification);
            }
            return mince == null ? estimator : estimator.with(mince);
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(String.valueOf(e.getMessage()));
        }
    }

    /** One run over a kill sheet. */
    private final class Run implements KillSheetHandler {
        private final List<LotEstimate.Collector> lots = new ArrayList<>();
        private final List<Problem> problems = new ArrayList<>();
        private final List<Problem> notes = new ArrayList<>();
        private final YieldEstimator chosen;
        private final YieldTable yieldTable;
        private @Nullable EstimateWriter writer;
        private long estimated;

        Run(YieldEstimator chosen) {
            this.chosen = chosen;
            yieldTable = chosen.table();
            lots.add(chosen.collector());
            for (CuttingSpecification other : yieldTable.specifications()) {
                lots.add(chosen.with(other).collector());
            }
        }

        @Override
        public void entry(KillSheetEntry entry) {
            try {
                lots.forEach(lot -> lot.add(entry.carcass()));
                if (writer != null) {
                    writer.write(chosen.estimate(entry.carcass()));
                }
                estimated++;
            } catch (RefusedCarcassException e) {
                problems.add(new Problem(
                        killSheet.toString(),
                        entry.line(),
                        "",
                        entry.carcass().toString(),
                        "carcass " + entry.carcass().id().orElse("") + ": " + e.getMessage()));
            }
        }

        @Override
        public void problem(Problem problem) {
            problems.add(problem);
        }

        @Override
        public void note(Problem note) {
            notes.add(note);
        }

        void print(PrintStream print, KillSheet.Counts counts) {
            long refused = counts.rows() - counts.condemned() - estimated;
            print.println("Kill sheet " + killSheet + ": " + counts.rows() + " rows, " + estimated + " estimated, "
                    + counts.condemned() + " condemned, " + refused + " refused");
            print.println();
            if (estimated > 0) {
                print.print(lots.get(0).lot().toText());
                printKinds(print);
            } else {
                print.println("No carcass could be estimated with table " + yieldTable.identity());
            }
            for (Problem note : notes) {
                print.println("Note: " + note);
            }
            if (!problems.isEmpty()) {
                print.println();
                print.println("Refused, " + refused + (refused == 1 ? " row:" : " rows:"));
                problems.forEach(problem -> print.println("  " + problem));
            }
            if (out != null) {
                print.println();
                print.println("Estimates written to " + out);
            }
        }

        private void printKinds(PrintStream print) {
            List<Outturn> bySpecification = new ArrayList<>();
            for (LotEstimate.Collector collector : lots.subList(1, lots.size())) {
                bySpecification.add(collector.lot());
            }
            if (bySpecification.size() > 1) {
                print.println();
                print.println("The same lot under each cutting specification:");
                print.print(Outturn.kindTable(bySpecification, LOT_DECIMALS).toText());
            }
        }
    }
}
