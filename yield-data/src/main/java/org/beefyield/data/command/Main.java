package org.beefyield.data.command;

import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.beefyield.data.InvalidDataException;

/**
 * Entry of the runnable jar: estimates from a kill sheet or, with {@code table} as its first word, the check of a table, or
 * with {@code calibrate} a table from boning trials, with {@code reconcile} what boning runs weighed against what they should, with
 * {@code plan} what to cut for whom, with {@code finish} the day on which animals near finish leave most, with {@code why} why one
 * returned less than another, with {@code compare} seasons or plants side by side. Exit code 0: all good; 4: some rows, or the table,
 * were refused and
 * reported; 2: it could not run. No other is its own: 1 and 3 are the virtual machine's.
 */
public final class Main {
    /** Stands behind what is wrong with options. */
    static final String HELP = "--help lists the options and what they want\n";

    private Main() {}

    /**
     * Runs the command and ends the virtual machine with its exit code.
     *
     * @param arguments options; {@code --help} lists them
     */
    public static void main(String[] arguments) {
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        PrintStream err = new PrintStream(System.err, true, StandardCharsets.UTF_8);
        System.exit(run(List.of(arguments), out, err));
    }

    static int run(List<String> arguments, PrintStream out, PrintStream err) {
        int code = ran(arguments, out, err);
        // a print stream keeps what fails to itself until it is asked
        if (out.checkError()) {
            err.println("standard output can't be written, so that what is printed there is not whole");
            return ExitCode.COULD_NOT_RUN;
        }
        return code;
    }

    private static int ran(List<String> arguments, PrintStream out, PrintStream err) {
        String first = arguments.isEmpty() ? "" : arguments.get(0);
        String usage = switch (first) {
            case "table" -> TableCommand.USAGE;
            case "calibrate" -> CalibrateCommand.USAGE;
            case "reconcile" -> ReconcileCommand.USAGE;
            case "plan" -> PlanCommand.USAGE;
            case "why" -> WhyCommand.USAGE;
            case "compare" -> CompareCommand.USAGE;
            case "finish" -> FinishCommand.USAGE;
            default -> EstimateCommand.USAGE;
        };
        if (arguments.contains("--help")) {
            out.print(usage);
            return ExitCode.GOOD;
        }
        try {
            return switch (first) {
                case "table" -> new TableCommand(arguments.subList(1, arguments.size())).run(out);
                case "calibrate" -> new CalibrateCommand(arguments.subList(1, arguments.size())).run(out);
                case "reconcile" -> new ReconcileCommand(arguments.subList(1, arguments.size())).run(out);
                case "plan" -> new PlanCommand(arguments.subList(1, arguments.size())).run(out);
                case "why" -> new WhyCommand(arguments.subList(1, arguments.size())).run(out);
                case "compare" -> new CompareCommand(arguments.subList(1, arguments.size())).run(out);
                case "finish" -> new FinishCommand(arguments.subList(1, arguments.size())).run(out);
                default -> new EstimateCommand(arguments).run(out, err);
            };
        } catch (Options.UsageException e) {
            err.println(e.getMessage());
            err.print(arguments.size() <= 1 ? usage : HELP);
        } catch (InvalidDataException e) {
            err.println(e.getMessage());
        } catch (UncheckedIOException e) {
            err.println(e.getMessage());
        }
        return ExitCode.COULD_NOT_RUN;
    }
}
